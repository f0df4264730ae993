"""Which seats a whole board has, and which of them take one part together.

The rows of a layout are seats that hold the same kind of thing: four wheels, two belts. A whole board has a part in
every row, except where a board is whole without (a light), and except for seats that a remedy fills, such as a riser:
these stay as they are chosen. Like seats of a row take one part together unless one of them was chosen apart.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from fitdb.intake.nearest import did_you_mean
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern, Seat
from fitdb.model.problems import Malformed, Problem
from fitdb.model.remedy import Remedy

# Common practice, no source. A board rides without these; they stay empty until somebody chooses one.
WHOLE_WITHOUT = frozenset(
    {
        "insulation", "binding", "built_in_bearing", "belt_cover", "bash_guard", "cell", "lead", "plug", "slot",
        "light_front", "meter", "rider", "route", "wish",
    }
)  # fmt: skip
# Common practice, no source. Whether these are wanted follows from the other parts: an axle may be long enough without.
AS_NEEDED = frozenset({"inner_spacer", "axle_washer", "speed_ring", "spacer", "gasket"})
# A part in the first seat that is not of the class in the second place is only half of it, and wants that seat filled.
HALVES = {"truck": "hanger"}
ENDS = ("front", "rear")


@dataclass(frozen=True, slots=True)
class Group:
    """Seats that take one part together. `name` is how it is told; may_be_empty: a board is whole with it empty."""

    name: str
    seats: tuple[str, ...]
    may_be_empty: bool = False


def base_of(seat: Seat) -> str:
    """The seat's name without its place: `wheel` of `rear_left_wheel`."""
    return seat.names[0] if seat.names else seat.id


def seats_called(pattern: Pattern, name: str) -> tuple[str, ...]:
    """Every seat of that name. Raises Malformed, with the nearest name, when there is none."""
    if name in pattern.seats:
        own = pattern.seats[name]
        also = tuple(seat.id for seat in pattern.seats.values() if name in seat.names)
        return also if also and base_of(own) == name else (name,)
    found = tuple(seat.id for seat in pattern.seats.values() if name in seat.names)
    if not found:
        known = sorted({one for seat in pattern.seats.values() for one in (seat.id, *seat.names)})
        what = f"the layout {pattern.id} has no seat {name!r}."
        raise Malformed([Problem("unknown_seat", what, "/seat", hint=did_you_mean(name, known))])
    return found


def seated_by_name(pattern: Pattern, chosen: Mapping[str, Part]) -> dict[str, Part]:
    """The chosen parts by seat; of two names for a seat the narrower one wins."""
    found: dict[str, Part] = {}
    called = {name: seats_called(pattern, name) for name in chosen}
    for name in sorted(called, key=lambda one: (-len(called[one]), one)):
        found.update(dict.fromkeys(called[name], chosen[name]))
    return found


def rows_of(pattern: Pattern, remedies: Iterable[Remedy]) -> dict[str, tuple[str, ...]]:
    """The seats of a whole board by base name: of a row's seats at a place the first, none that a remedy fills."""
    adapters = {remedy.seat for remedy in remedies if remedy.move == "insert"}
    bases: dict[str, list[Seat]] = {}
    for seat in pattern.seats.values():
        bases.setdefault(base_of(seat), []).append(seat)
    first: dict[str, tuple[int, str]] = {}
    for base, seats in bases.items():
        order = (min(seat.order for seat in seats), base)
        first[seats[0].row] = min(order, first.get(seats[0].row, order))
    return {
        base: tuple(seat.id for seat in seats)
        for base, seats in bases.items()
        if base not in adapters and first[seats[0].row][1] == base
    }


def groups_of(
    pattern: Pattern,
    remedies: Iterable[Remedy],
    table: AttributeTable,
    fixed: Mapping[str, Part],
    asked: tuple[str, ...] = (),
    whole: Collection[str] | None = None,
) -> tuple[Group, ...]:
    """The groups of a whole board in the order of the layout, those with a chosen part included.

    asked: seats that are open whatever is chosen. whole: the base names of the rows a whole board has; None for all of
    the layout but those it is whole without.
    """
    rows = rows_of(pattern, remedies)
    wanted = {base for base in rows if base not in WHOLE_WITHOUT} if whole is None else set(whole)
    halves = {other for seat, part in fixed.items() for other in _other_half(pattern, seat, part, table)}
    found: dict[tuple[str, str], list[str]] = {}
    for seat in pattern.seats.values():
        base = base_of(seat)
        if seat.id in fixed and seat.id not in asked:
            found.setdefault((base, f"={fixed[seat.id].id}"), []).append(seat.id)
        elif base in wanted or seat.id in halves or seat.id in asked:
            apart = seat.id.split("_")[0] if base in AS_NEEDED and seat.id.startswith(ENDS) else ""
            found.setdefault((base, apart), []).append(seat.id)
    like = Counter(base_of(seat) for seat in pattern.seats.values())
    return tuple(
        Group(
            base if len(seats) == like[base] else _called(pattern, seats),
            tuple(seats),
            base in AS_NEEDED and mark[:1] != "=" and not set(seats) <= set(asked),
        )
        for (base, mark), seats in found.items()
    )


def name_of(group: Group, pattern: Pattern) -> str:
    """A name by which exactly these seats are called: the group's own, or that of its first seat."""
    return group.name if set(seats_called(pattern, group.name)) == set(group.seats) else group.seats[0]


def _other_half(pattern: Pattern, seat: str, part: Part, table: AttributeTable) -> tuple[str, ...]:
    """The seat that has to be filled as well where the part is only half of what its seat needs."""
    base = base_of(pattern.seats[seat])
    half = HALVES.get(base)
    if half is None or half in table.line_of(part.part_class):
        return ()
    other = seat.removesuffix(base) + half
    return (other,) if other in pattern.seats else ()


def _called(pattern: Pattern, seats: list[str]) -> str:
    """The narrowest name that all of these seats go by; the first seat where there is none."""
    shared = [name for name in pattern.seats[seats[0]].names if all(name in pattern.seats[s].names for s in seats)]
    return max(shared, key=len) if shared else seats[0]


def stands_alone(pattern: Pattern, seat: str, part: Part, table: AttributeTable, filled: Collection[str]) -> bool:
    """False for half of what the seat needs (a baseplate without its hanger) while the other half is not chosen."""
    return all(other in filled for other in _other_half(pattern, seat, part, table))

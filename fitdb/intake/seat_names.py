"""Seats by the names that a person uses for them: `wheel`, `rear_wheel` and `rear_left_wheel` on one board.

A seat's own id means that seat alone. Any other name means every seat that bears it, and the numbered ones after it:
`riser` is every riser of both ends, the second ones too. A name that no seat bears may be that of a row.
"""

from __future__ import annotations

import re

from fitdb.intake.nearest import did_you_mean
from fitdb.model.part import AttributeTable
from fitdb.model.pattern import Pattern, Seat

NUMBERED = re.compile(r"_[0-9]+$")


def seats_named(name: str, pattern: Pattern) -> tuple[str, ...]:
    """The ids of all seats that `name` means, in order; empty when the pattern has none."""
    bearing = seats_bearing(name, pattern)
    if name in pattern.seats:
        return bearing
    found: list[str] = []
    for seat in bearing:
        base = base_name(pattern.seats[seat])
        row = _row_from(pattern.seats[seat], pattern)
        found += [seat, *(one for one in row[1:] if NUMBERED.sub("", base_name(pattern.seats[one])) == base)]
    return tuple(dict.fromkeys(found))


def seats_bearing(name: str, pattern: Pattern) -> tuple[str, ...]:
    """The seats that one part fills when it is put there: the first riser of each end, not the second ones."""
    if name in pattern.seats:
        return (name,)
    seats = sorted(pattern.seats.values(), key=lambda seat: seat.order)
    bearing = [seat.id for seat in seats if name in seat.names]
    return tuple(bearing or [seat.id for seat in seats if name == seat.row and not NUMBERED.search(base_name(seat))])


def rows_named(name: str, pattern: Pattern) -> tuple[tuple[str, ...], ...]:
    """What a list fills when it is put there: the seats of the row at each place of the board, from the named ones on.

    `riser` is (front_riser, front_riser_2) and (rear_riser, rear_riser_2). A row holds only seats of the same classes.
    """
    rows: list[tuple[str, ...]] = []
    for seat in seats_bearing(name, pattern):
        if not any(seat in row for row in rows):
            rows.append(_row_from(pattern.seats[seat], pattern))
    return tuple(rows)


def seat_names(pattern: Pattern) -> tuple[str, ...]:
    """Every name by which a seat of the pattern may be called, each once."""
    return tuple(dict.fromkeys(name for seat in pattern.seats.values() for name in (*seat.names, seat.id, seat.row)))


def nearest_seat(name: str, pattern: Pattern) -> str:
    """A sentence that says what to write instead of a name that no seat bears."""
    hint = did_you_mean(name, seat_names(pattern))
    return hint or f"`fitdb new {pattern.id}` writes a plan with all its seats."


def base_name(seat: Seat) -> str:
    """The name that like seats of the other places share: `wheel` of `rear_left_wheel`."""
    return seat.names[0] if seat.names else seat.id


def takes(seat: Seat, part_class: str, table: AttributeTable) -> bool:
    """Whether the seat takes a part of that class, or of one that it is like."""
    return not set(seat.classes).isdisjoint(table.line_of(part_class))


def _row_from(first: Seat, pattern: Pattern) -> tuple[str, ...]:
    alike = [
        seat
        for seat in pattern.seats.values()
        if seat.row == first.row
        and seat.classes == first.classes
        and seat.order >= first.order
        and _place_of(seat) == _place_of(first)
    ]
    return tuple(seat.id for seat in sorted(alike, key=lambda seat: seat.order))


def _place_of(seat: Seat) -> str:
    """Where on the board the seat is, as its id says it: `rear_left` of `rear_left_wheel`; empty without a place."""
    base = base_name(seat)
    return seat.id.removesuffix(f"_{base}") if seat.id != base else ""

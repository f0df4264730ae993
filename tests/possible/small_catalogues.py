"""Small random catalogues over a few rows of a layout, and every whole board of them judged one by one.

Parts are shipped ones with some readings moved inside their plausible range, taken away, or marked as assumed. What is
possible is worked out here from the judge of whole boards alone, board by board.
"""

from __future__ import annotations

import dataclasses
import itertools
import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from random_boards import parts_for, within

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.rule import Rulebook
from fitdb.possible.whole import Group, groups_of, stands_alone

ROWS = (
    ("wheel", "bearing", "spacer"),
    ("truck", "wheel", "bearing", "speed_ring"),
    ("truck", "axle_nut", "wheel", "bearing"),
    ("deck", "truck", "deck_bolt", "deck_nut"),
    ("truck", "bushing"),
    ("wheel", "driven_pulley"),
    ("wheel", "driven_pulley", "truck", "inner_spacer"),
    ("drive_pulley", "driven_pulley", "belt"),
    ("drive_pulley", "driven_pulley", "belt", "motor_mount"),
    ("motor", "drive_pulley", "motor_mount"),
    ("motor", "motor_mount", "motor_screw"),
    ("truck", "motor_mount", "motor"),
    ("pack", "bms", "charger"),
    ("charger", "charge_port"),
    ("pack", "controller", "bms", "switch"),
    ("controller", "motor", "pack"),
    ("controller", "receiver"),
    ("box", "gasket", "screw"),
    ("deck", "box", "gasket"),
    ("wheel", "truck", "deck"),
)
UNREAD, ASSUMED, MOVED = 0.06, 0.06, 0.3
EMPTY: Part | None = None


@dataclass(frozen=True)
class Small:
    """A catalogue of a few parts per row: `whole` are the rows that a board of it has."""

    pattern: Pattern
    whole: tuple[str, ...]
    by_class: Mapping[str, Sequence[Part]]
    groups: tuple[Group, ...]
    choices: tuple[tuple[Part | None, ...], ...]

    def parts_of_class(self, part_class: str) -> Sequence[Part]:
        return self.by_class.get(part_class, ())


def small_catalogue(
    chance: random.Random,
    pattern: Pattern,
    book: Book,
    by_class: Mapping[str, Sequence[Part]],
    rows: Sequence[str] = (),
    most: int = 3,
) -> Small:
    """Two or three parts per row, some of their readings moved, unread or assumed."""
    whole = tuple(rows) or chance.choice(ROWS)
    kept: dict[str, list[Part]] = {}
    groups = groups_of(pattern, book.remedies, book.table, {}, (), whole)
    for group in groups:
        described = pattern.seats[group.seats[0]]
        if any(
            part.part_class in book.table.line_of(one)
            for some in kept.values()
            for part in some
            for one in described.classes
        ):
            continue
        offered = parts_for(described.classes, {k: list(v) for k, v in by_class.items()}, book.table)
        offered = [one for one in offered if stands_alone(pattern, described.id, one, book.table, ())]
        for number in range(min(chance.randint(2, most), len(offered))):
            part = varied(chance, chance.choice(offered), book.table, f"-{number}")
            for name in described.classes:
                if name in book.table.line_of(part.part_class):
                    kept.setdefault(name, []).append(part)
                    break
    seats = {seat for group in groups for seat in group.seats}
    small = within(pattern, seats)
    choices = tuple(
        (
            *([EMPTY] if group.may_be_empty else []),
            *(part for name in pattern.seats[group.seats[0]].classes for part in kept.get(name, ())),
        )
        for group in groups
    )
    return Small(small, whole, kept, groups, choices)


def varied(chance: random.Random, part: Part, table: AttributeTable, mark: str) -> Part:
    """The part with some of its readings another, under an id of its own."""
    readings = _varied(chance, part, "", part.readings, table)
    ports = {
        port: dataclasses.replace(own, readings=_varied(chance, part, port, own.readings, table))
        for port, own in part.ports.items()
    }
    return dataclasses.replace(part, id=part.id + mark, readings=readings, ports=ports)


def _varied(
    chance: random.Random, part: Part, port: str, readings: Mapping[str, Reading], table: AttributeTable
) -> dict[str, Reading]:
    found: dict[str, Reading] = {}
    for name, reading in readings.items():
        lot = chance.random()
        if lot < UNREAD:
            continue
        if lot < UNREAD + ASSUMED and not isinstance(reading, Word):
            found[name] = dataclasses.replace(reading, value_assumed=True)
        elif lot < UNREAD + ASSUMED + MOVED:
            found[name] = _moved(chance, part, port, name, reading, table)
        else:
            found[name] = reading
    return found


def _moved(chance: random.Random, part: Part, port: str, name: str, reading: Reading, table: AttributeTable) -> Reading:
    described = table.attribute_of(part.part_class, name, port)
    if described is None or described.plausible is None:
        return reading
    least, most = described.plausible
    if isinstance(reading, Number | Designation):
        by = chance.gauss(0.0, 0.04) * max(abs(reading.nominal), 1.0)
        by = (
            min(max(by, least - reading.low), most - reading.high)
            if least <= reading.low <= reading.high <= most
            else 0
        )
        return dataclasses.replace(reading, low=reading.low + by, nominal=reading.nominal + by, high=reading.high + by)
    if isinstance(reading, Count) and len(reading.values) == 1:
        value = int(min(max(reading.nominal + chance.choice((-1, 0, 1)), least), most))
        return dataclasses.replace(reading, values=(value,), nominal=value)
    return reading


def boards_of(small: Small, fixed: Mapping[str, Part], open_seats: Sequence[str]) -> Iterator[dict[str, Part]]:
    """Every whole board: one choice per group, fixed seats as they are fixed."""
    lists = []
    for group, choices in zip(small.groups, small.choices, strict=True):
        free = tuple(seat for seat in group.seats if seat not in fixed or seat in open_seats)
        if not free:
            lists.append([dict.fromkeys(())])
            continue
        here = choices if not set(free) <= set(open_seats) else tuple(one for one in choices if one is not None)
        lists.append([dict.fromkeys(free, part) if part is not None else {} for part in here])
    for some in itertools.product(*lists):
        board = {seat: part for seat, part in fixed.items() if seat not in open_seats}
        for one in some:
            board.update(one)  # type: ignore[arg-type]
        yield board


def worst_of(judge: BoardJudge, board: Mapping[str, Part]) -> str:
    """What the judge of whole boards says of it: clash, measure or fits."""
    states = {
        finding.state
        for joint in judge.judge(Piece(seat, part) for seat, part in board.items()).joints
        for finding in joint.findings
    }
    return "clash" if "fails" in states else "measure" if "undecided" in states else "fits"


def by_exhaustion(
    small: Small, book: Book, rules: Rulebook, fixed: Mapping[str, Part], asked: Sequence[str]
) -> dict[str, str]:
    """The best verdict of every part in the asked seat over all whole boards."""
    judge = BoardJudge(small.pattern, book, rules, book.limits)
    order = ("fits", "measure", "clash")
    best: dict[str, str] = {}
    for board in boards_of(small, fixed, asked):
        part = board[asked[0]].id
        if best.get(part) != "fits":
            best[part] = min(best.get(part, "clash"), worst_of(judge, board), key=order.index)
    return best

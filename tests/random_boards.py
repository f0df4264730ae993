"""Boards put together at random from the shipped parts, and every move that a small list of remedies allows on one.

The moves are worked out here once more, from what a remedy row says, so that the search can be held against them.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from fitdb.board import BoardJudge, Judged, touched
from fitdb.catalogue.read import Book
from fitdb.model.interface import Interface
from fitdb.model.joint import Joint, Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.remedy import Remedy
from fitdb.model.rule import Rule, Rulebook
from fitdb.model.source import Source
from fitdb.model.trace import Trace
from fitdb.model.verdict import JointVerdict
from fitdb.steps.join import joints_of
from fitdb.steps.judge import excuse, judge, worst
from fitdb.steps.survey import trace

ByClass = Mapping[str, list[Part]]
Seated = dict[str, Piece]
Changes = frozenset[tuple[str, str]]
CHOSEN = Source("chosen", "standard", "a size that is chosen", "")


def parts_for(classes: Iterable[str], by_class: ByClass, table: AttributeTable) -> list[Part]:
    """Every part of these classes and of those like them."""
    wanted = set(classes)
    return [part for own, parts in by_class.items() if wanted & set(table.line_of(own)) for part in parts]


def random_board(
    chance: random.Random, pattern: Pattern, by_class: ByClass, table: AttributeTable, lines: int
) -> Seated:
    """The seats of some joint lines filled with parts that they take; mostly alike on both sides."""
    seated: Seated = {}
    for line in chance.sample(pattern.lines, lines):
        for seat in _needed(chance, line):
            if seat not in seated:
                fill(chance, seated, seat, pattern, by_class, table)
    return seated


def fill(
    chance: random.Random, seated: Seated, seat: str, pattern: Pattern, by_class: ByClass, table: AttributeTable
) -> None:
    """One seat, and mostly the same on the other side."""
    parts = parts_for(pattern.seats[seat].classes, by_class, table)
    if not parts:
        return
    seated[seat] = Piece(seat, chance.choice(parts))
    other = across(seat)
    if other in pattern.seats and other not in seated and chance.random() < 0.8:
        seated[other] = Piece(other, seated[seat].part)


def traces_on(
    seated: Seated, pattern: Pattern, rules: Rulebook, table: AttributeTable
) -> Iterator[tuple[Joint, Rule, Trace]]:
    """Every rule at every joint that these pieces make."""
    takes = {seat.id: seat.classes for seat in pattern.seats.values()}
    for line in pattern.lines:
        for joint in joints_of(line, seated, pattern)[0]:
            for rule in rules.by_kind.get(line.kind, ()):
                yield joint, rule, trace(joint, rule, rules, table, takes)


def across(seat: str) -> str:
    """`rear_right_belt` of `rear_left_belt`; the seat itself where it has no side."""
    for here, there in (("_left_", "_right_"), ("_right_", "_left_")):
        if here in seat:
            return seat.replace(here, there, 1)
    return seat


def _needed(chance: random.Random, line: Line) -> Iterator[str]:
    if line.expansion == "chain":
        yield from (line.chain_seats[0], line.chain_seats[-1])
    for role in line.roles:
        here = [seat for seat in role.seats if not seat.startswith("before:")]
        if role.how == "single" and here and line.expansion != "chain":
            yield here[0]
        elif role.how != "single" or line.expansion == "chain":
            yield from (seat for seat in here if chance.random() < 0.2)


def within(pattern: Pattern, seats: Iterable[str]) -> Pattern:
    """The pattern with those lines alone that these seats can make a joint of: the others would not be asked."""
    here = set(seats)

    def asked(line: Line) -> bool:
        if line.expansion == "chain":
            return len(here & set(line.chain_seats)) > 1
        return all(here & {one.removeprefix("before:") for one in r.seats} for r in line.roles if r.how == "single")

    return replace(pattern, lines=tuple(line for line in pattern.lines if asked(line)))


def scratch(pattern: Pattern, book: Book, rules: Rulebook, before: Seated, seated: Seated) -> Judged:
    """The board judged by a judge that has never seen another."""
    return BoardJudge(pattern, book, rules, book.limits, before).judge(seated.values())


def plain(pattern: Pattern, book: Book, rules: Rulebook, before: Seated, seated: Seated) -> list[JointVerdict]:
    """The same by the four steps alone: nothing is remembered, not even from one joint of the board to the next."""
    takes = {seat.id: seat.classes for seat in pattern.seats.values()}
    both = {**seated, **{f"before:{seat}": piece for seat, piece in before.items()}}
    found = []
    for line in pattern.lines:
        for joint in joints_of(line, both, pattern)[0]:
            told = [
                judge(trace(joint, rule, rules, book.table, takes), book.table, book.limits)
                for rule in rules.by_kind.get(line.kind, ())
            ]
            excused = excuse(tuple(told))
            found.append(JointVerdict(joint, worst(excused), excused))
    return found


def failing(board: Judged, stood: Judged | None) -> dict[str, float]:
    """Worst nominal margin by `line|rule` of what fails at a touched joint (0 where words fail)."""
    found: dict[str, float] = {}
    for joint in touched(board, stood):
        for finding in joint.findings:
            if finding.state == "fails":
                name = f"{joint.joint.line.id}|{finding.rule.id}"
                margin = finding.margin.nominal if finding.margin else 0.0
                found[name] = min(margin, found.get(name, margin))
    return found


# --- moves ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Step:
    """One remedy done here: what stands where afterwards, and its money."""

    remedy: Remedy
    seated: tuple[tuple[str, Part], ...]
    money: float

    @property
    def changes(self) -> frozenset[tuple[str, str]]:
        """(seat, attribute) that it changes; an empty attribute stands for the whole piece."""
        return frozenset((seat, changed_by(self.remedy)) for seat, _ in self.seated)


def changed_by(remedy: Remedy) -> str:
    return remedy.attribute if remedy.move in ("alter", "set") else ""


def free(seat: str, attribute: str, moved: Changes) -> bool:
    """Whether nothing of it was changed before: neither this attribute, nor the piece, nor part of a whole piece."""
    return not any(seat == one and (not attribute or not other or attribute == other) for one, other in moved)


class Bench:
    """Every step that the remedies of a book allow on a board of a pattern, from parts by class."""

    def __init__(self, pattern: Pattern, book: Book, by_class: ByClass, untouchable: frozenset[str] = frozenset()):
        self.pattern, self.book, self.by_class, self.untouchable = pattern, book, by_class, untouchable
        self.altered: dict[tuple[int, str, object], Part] = {}
        self.with_remedy = {one.stock for one in book.remedies if one.move in ("insert", "substitute")}

    def steps(self, seated: Seated, moved: Changes) -> list[Step]:
        found: dict[tuple[str, tuple[tuple[str, int], ...]], Step] = {}
        for remedy in self.book.remedies:
            for seat in self.pattern.seats.values():
                if remedy.seat in (seat.id, *seat.names) and free(seat.id, changed_by(remedy), moved):
                    for step in self._of(remedy, seat.id, seated, moved):
                        mark = (remedy.id, tuple(sorted((one, id(part)) for one, part in step.seated)))
                        found.setdefault(mark, step)
        return list(found.values())

    def _of(self, remedy: Remedy, seat: str, seated: Seated, moved: Changes) -> Iterator[Step]:
        like = self._like(remedy, seat)
        if remedy.move == "insert":
            names = self.pattern.seats[seat].names
            place = seat.removesuffix(names[0] if names else seat)
            if seat not in seated and all(f"{place}{first}" in seated for first in remedy.only):
                seats = [seat, *(one for one in like if one not in seated and self._alike(seated, seat, one))]
                for part in self._stock(remedy, seat):
                    yield Step(remedy, tuple((one, part) for one in seats), remedy.money)
            return
        if seat not in seated or seat in self.untouchable:
            return
        part = seated[seat].part
        same = [one for one in like if one in seated and seated[one].part.id == part.id]
        seats = [seat, *(one for one in same if free(one, changed_by(remedy), moved) and one not in self.untouchable)]
        if remedy.move == "substitute":
            if not self.book.table.classes[part.part_class].another_plan:
                for other in self._stock(remedy, seat):
                    if other.id != part.id:
                        yield Step(remedy, tuple((one, other) for one in seats), remedy.money)
            return
        _, reading = part.offers(remedy.attribute)
        if reading is None and remedy.move == "set":
            reading = self._unread(part, remedy.attribute)
        if reading is None or isinstance(reading, Outline):
            return
        for value in self._values(part, remedy, reading):
            yield Step(
                remedy,
                tuple((one, self._altered(seated[one].part, remedy.attribute, value)) for one in seats),
                remedy.money,
            )

    def _unread(self, part: Part, attribute: str) -> Reading | None:
        """A setting that nobody has read may be set to any of its values."""
        described = self.book.table.attribute_of(part.part_class, attribute)
        if described is None or described.reading not in ("word", "number"):
            return None
        if described.reading == "word":
            return Word(frozenset(described.vocabulary), CHOSEN, open_vocabulary=described.open_vocabulary)
        if described.plausible is None:
            return None
        high = described.plausible[1]
        return Number(high, high, high, described.unit, CHOSEN)

    def _altered(self, part: Part, attribute: str, value: object) -> Part:
        """The same object for the same change."""
        key = (id(part), attribute, value)
        if key not in self.altered:
            place, reading = part.offers(attribute)
            reading = reading or self._unread(part, attribute)
            assert reading is not None
            self.altered[key] = at_value(part, place, attribute, reading, value)
        return self.altered[key]

    def _like(self, remedy: Remedy, seat: str) -> list[str]:
        """Other seats of the same kind: on the same end, or on the whole board."""
        own = self.pattern.seats[seat]
        if remedy.together == "board":
            row = own.row or seat
            return [
                other.id for other in self.pattern.seats.values() if other.id != seat and (other.row or other.id) == row
            ]
        if remedy.together == "alone" or not own.names or own.names[0] == seat:
            return []
        return [
            other.id
            for other in self.pattern.seats.values()
            if other.id != seat and other.names[:1] == own.names[:1] and other.id.split("_")[0] == seat.split("_")[0]
        ]

    def _alike(self, seated: Seated, seat: str, other: str) -> bool:
        """Whether the two places hold the same parts."""
        parts = seat.split("_")
        if len(parts) < 3 or parts[1] not in ("left", "right"):
            return True
        here, there = "_".join(parts[:2]) + "_", "_".join(other.split("_")[:2]) + "_"
        return {one.removeprefix(here): piece.part.id for one, piece in seated.items() if one.startswith(here)} == {
            one.removeprefix(there): piece.part.id for one, piece in seated.items() if one.startswith(there)
        }

    def _stock(self, remedy: Remedy, seat: str) -> list[Part]:
        """Parts of the class and those like it that have no remedy of their own, if the seat takes them."""
        table, takes = self.book.table, set(self.pattern.seats[seat].classes)
        return [
            part
            for part in parts_for([remedy.stock], self.by_class, table)
            if (part.part_class == remedy.stock or part.part_class not in self.with_remedy)
            and takes & set(table.line_of(part.part_class))
        ]

    def _values(self, part: Part, remedy: Remedy, reading: Reading) -> list[object]:
        attribute = remedy.attribute
        if isinstance(reading, Word):
            described = self.book.table.attribute_of(part.part_class, attribute)
            words = remedy.only or (described.vocabulary if described else ())
            if remedy.move == "alter" and len(reading.possible) > 1:
                return []
            return [word for word in words if reading.possible != {word}]
        assert isinstance(reading, Number | Designation | Count)
        for own in self.book.table.line_of(part.part_class):
            if (own, attribute) in self.book.stock:
                sizes = [size for size in self.book.stock[own, attribute] if abs(size - reading.nominal) > 1e-9]
                way = {"up": 1, "down": -1}.get(next(iter(remedy.only), ""), 0)
                return [size for size in sizes if not way or way * (size - reading.nominal) > 0]
        return []


def at_value(part: Part, place: str, attribute: str, reading: Reading, value: object) -> Part:
    """The part with one reading at another value, its spread kept."""
    changed: Reading
    if isinstance(reading, Word):
        changed = replace(reading, possible=frozenset((str(value),)), source=CHOSEN)
    elif isinstance(reading, Count):
        changed = Count((round(float(str(value))),), round(float(str(value))), CHOSEN, unit=reading.unit)
    else:
        assert isinstance(reading, Number | Designation)
        by = float(str(value)) - reading.nominal
        changed = replace(
            reading,
            low=reading.low + by,
            nominal=reading.nominal + by,
            high=reading.high + by,
            source=CHOSEN,
            value_assumed=False,
        )
    if not place:
        return replace(part, readings={**part.readings, attribute: changed})
    port = part.ports[place]
    port = Interface(port.id, port.kind, port.title, {**port.readings, attribute: changed}, "", port.version)
    return replace(part, ports={**part.ports, place: port})

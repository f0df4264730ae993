"""Whole swaps as whole_swaps.yaml tells them, put to the engine closed.

A real question is open: what nobody read stays unread. These stories are told to the end, so each is read closed three
ways, here, while it is translated; the engine has no such switch.

A role that is not told is not asked. Only joints that are named (in a finding, or in what a remedy fixes, breaks or
needs, and the wish where there is one) are judged. An attribute that is not told takes what the part has that it stands
in for or beside, else the default of its class at nominal, else what is usual, and counts as read; what has none of
these is left out of the attribute table, so that a test that wants it is not asked. `unknown` stays unknown.

A size told from a data sheet of an attribute that is a designation (8 mm bore) is that designation: its span comes from
the fit table, never from a generic ±.
"""

from __future__ import annotations

import dataclasses
import functools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml
from stories.translation import CLASSES, COME_ALONG, COUNT, SIZES, USUAL

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.intake.readings import read
from fitdb.model.finding import Finding
from fitdb.model.interface import Interface
from fitdb.model.joint import Piece
from fitdb.model.part import Attribute, AttributeTable, Part
from fitdb.model.pattern import Pattern, Seat
from fitdb.model.plan import StockItem, SwapPlan
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.remedy import Move
from fitdb.model.rule import Rulebook
from fitdb.model.source import Source
from fitdb.model.verdict import JointVerdict, PassedOver, SwapVerdict
from fitdb.swap import Budget, swap

HERE = Path(__file__).parent
TOLD = Source("told", "data_sheet", "told in the story", "own reading")
ON_THE_BOARD = ("kept", "installed", "given")
STOOD = ("kept", "removed", "given")
COMMON_BOARD = "two_wheel_belt"
WORST_FIRST = ("fails", "undecided", "holds")
PLUS_MINUS = re.compile(r"\s*\+-\s*\S+")
Told = Mapping[str, Any]
Places = dict[tuple[str, str], Reading | None]  # (port, attribute) -> reading; None: told to be unknown


@dataclass(frozen=True, slots=True)
class Story:
    """One whole swap: its text, and the places of the readings of every part that is told."""

    text: Told

    @property
    def id(self) -> str:
        return str(self.text["id"])

    @property
    def joints(self) -> frozenset[str]:
        named = {finding["joint"] for finding in self.text["findings"]}
        for remedy in self.text["remedies"]:
            named |= {*remedy.get("fixes", ()), *remedy.get("breaks", ()), *remedy.get("needs", ())}
        return frozenset(named | ({"J73"} if "wish" in self.text else set()))


@functools.cache
def stories() -> tuple[Story, ...]:
    text = (HERE / "whole_swaps.yaml").read_text(encoding="utf-8")
    return tuple(Story(document) for document in yaml.safe_load_all(text))


def named_at(remedy: Told, names: Iterable[str]) -> bool:
    """Whether a remedy is meant at a seat: `at` names it, or several of which either will do."""
    return any(one in names for one in str(remedy["at"]).split())


@dataclass(frozen=True)
class Bench:
    """A story on the bench: the plan, a book and a pattern that know what the story names, and the parts by id."""

    story: Story
    plan: SwapPlan
    book: Book
    rules: Rulebook
    parts: Mapping[str, Part]
    given: Mapping[str, Told]
    pattern: Pattern
    judge: BoardJudge
    words: Words

    @functools.cached_property
    def verdict(self) -> SwapVerdict:
        return swap(self.plan, self.book, self.rules, lambda part_class: (), Budget(nodes=400, seconds=60))

    def judged(self, finding: Told) -> tuple[JointVerdict, ...]:
        """The joints of that number on the board that the finding is about."""
        told_joints = self.judge.judge(self.board(finding).values()).joints
        return tuple(joint for joint in told_joints if joint.joint.line.joint == finding["joint"])

    def board(self, finding: Told) -> dict[str, Piece]:
        """The board that is meant, by seat: as asked, or as it stood, with what is told to be different."""
        seated = {piece.seat: piece for piece in (self.plan.before if finding.get("before") else self.plan.after)}
        for own in finding.get("without", ()):
            seated = {seat: piece for seat, piece in seated.items() if piece.part.id != own}
        for own, sizes in finding.get("changed", {}).items():
            told = {**self.given[own], "attrs": {**self.given[own]["attrs"], **sizes}}
            changed = self.words.finished(told, self.given)
            seated = {seat: Piece(seat, changed) if piece.part.id == own else piece for seat, piece in seated.items()}
        for own in finding.get("with", ()):
            for seat in seats_of(self.pattern, self.given[own], {}):
                seated[seat] = Piece(seat, self.parts[own])
        return seated

    def state(self, finding: Told) -> str:
        """The worst that the tests of the joint say (of `test` alone, where it is given); not_asked where none was."""
        anywhere = {key: value for key, value in finding.items() if key != "line"}
        said = {one.state for one in self.findings(anywhere, str(finding.get("test", "")))}
        said = {"holds" if state == "excused" else state for state in said}
        return next((state for state in WORST_FIRST if state in said), "not_asked")

    def findings(self, finding: Told, rules: str) -> tuple[Finding, ...]:
        """What these rules (every rule, where none is named) say at the joints of the finding."""
        wanted, line = rules.split(), finding.get("line", "")
        return tuple(
            one
            for joint in self.judged(finding)
            if not line or joint.joint.line.id == line
            for one in joint.findings
            if not wanted or one.rule.id in wanted
        )

    def moves_found(self) -> Iterator[Move]:
        """Every remedy that the answer names as a cure, closing a doubt, or beside what is to be measured."""
        for cured in self.verdict.cures:
            yield from cured.moves
        yield from self.verdict.beside_measure

    def passed_over(self, remedy: Told) -> tuple[PassedOver, ...]:
        """The remedies that the story means among those that the answer names as passed over."""
        titles = {
            own.title
            for own in self.book.remedies
            if own.move == remedy["does"]
            and own.attribute == remedy.get("attribute", "")
            and any(own.seat in (*seat.names, seat.id) and named_at(remedy, seat.names) for seat in self.seats)
        }
        part = self.parts[remedy["part"]].title if "part" in remedy else ""
        return tuple(one for one in self.verdict.passed_over if one.title in titles and one.what == (part or one.what))

    @property
    def seats(self) -> tuple[Seat, ...]:
        return tuple(self.pattern.seats.values())

    def is_meant(self, move: Move, remedy: Told) -> bool:
        """Whether a move of the engine is the remedy that the story names."""
        if move.remedy.move != remedy["does"] or move.remedy.attribute != remedy.get("attribute", ""):
            return False
        names = {name for seat in move.seats for name in (*self.pattern.seats[seat].names, seat)}
        if not named_at(remedy, names):
            return False
        parts = [piece.part for piece in move.pieces]
        if "part" in remedy:
            return all(part.id == remedy["part"] for part in parts)
        return "part_class" not in remedy or all(part.part_class == remedy["part_class"] for part in parts)


@dataclass(frozen=True)
class Words:
    """Parts of one story in the catalogue's words. `fill` of a closed reading is done here."""

    book: Book
    rules: Rulebook

    @functools.cached_property
    def worked_out(self) -> frozenset[str]:
        """Attributes that a survey line works out where nobody reads them: no default stands before that."""
        return frozenset(target.split(".", 1)[1] for target in self.rules.survey)

    def finished(self, told: Told, given: Mapping[str, Told]) -> Part:
        """The part with everything that a closed reading knows about it."""
        places = self.told_places(told)
        for other in given.values():
            places |= self._carried_over(other, told)
        for donor in _stood_in_for(told, given):
            for place, reading in self.told_places(donor).items():
                places.setdefault(place, reading)
        part_class = CLASSES[told["class"]][0]
        self._fill(part_class, places)
        return self._part(told["id"], part_class, places)

    def extra(self, own: str, part_class: str, places: Places) -> Part:
        self._fill(part_class, places)
        return self._part(own, part_class, places)

    def told_places(self, told: Told) -> Places:
        """What is told of the part itself."""
        return self._read(told, CLASSES[told["class"]][0], "")

    def _carried_over(self, other: Told, told: Told) -> Places:
        """What is told of this part on its neighbour (a nut tells the pitch of its axle)."""
        part_class = CLASSES[told["class"]][0]
        return self._read(other, part_class, part_class) if other is not told else {}

    def _read(self, told: Told, part_class: str, carried: str) -> Places:
        places: Places = {}
        for name, typed in told["attrs"].items():
            if name == COUNT:
                continue
            for target in SIZES[told["class"], name]:
                if target.part_class != carried:
                    continue
                reading = self.reading(part_class, target.port, target.attribute, typed)
                if target.flip:
                    reading = _flipped(reading)
                if target.per_parallel:
                    reading = _times(reading, float(told["attrs"]["parallel"]))
                places[target.port, target.attribute] = reading
                if isinstance(reading, Number | Designation) and f"{reading.nominal:g}" in target.words:
                    attribute, port, word = target.words[f"{reading.nominal:g}"]
                    places.setdefault((port, attribute), self.reading(part_class, port, attribute, word))
        return places

    def reading(self, part_class: str, port: str, attribute: str, typed: object) -> Reading | None:
        described = self.described(part_class, port, attribute)
        text = str(typed)
        if described.reading == "designation" and "@" not in text:
            text = PLUS_MINUS.sub("", text)
        found, problems = read(text, described, self.book.table, self.book.fits, TOLD)
        assert not problems, (part_class, attribute, typed, problems)
        return None if text == "unknown" else found

    def described(self, part_class: str, port: str, attribute: str) -> Attribute:
        found = self.book.table.attribute_of(part_class, attribute, port)
        assert found is not None, f"{part_class} has no {attribute} at {port or 'itself'}"
        return found

    def _fill(self, part_class: str, places: Places) -> None:
        table = self.book.table
        usual = {
            (port, attribute): typed
            for own in reversed(table.line_of(part_class))
            for (of, port, attribute), typed in USUAL.items()
            if of == own
        }
        for (port, attribute), typed in usual.items():
            if (port, attribute) not in places:
                places[port, attribute] = self.reading(part_class, port, attribute, typed)
        described = [("", one) for one in table.own_attributes(part_class).values()]
        for port, kind in table.ports_of(part_class).items():
            described += [(port, one) for one in table.kind_attributes(kind).values()]
        for port, one in described:
            if (port, one.name) not in places and one.name not in self.worked_out:
                default = _default_at_nominal(one)
                if default is not None:
                    places[port, one.name] = default

    def _part(self, own: str, part_class: str, places: Places) -> Part:
        ports: dict[str, Interface] = {}
        for port, kind in self.book.table.ports_of(part_class).items():
            readings = {name: one for (at, name), one in places.items() if at == port and one is not None}
            if readings:
                ports[port] = Interface(f"{own}.{port}", kind, f"{port} of {own}", readings, "")
        readings = {name: one for (at, name), one in places.items() if not at and one is not None}
        return Part(own, part_class, own.replace("-", " "), readings, ports, TOLD)


def on_the_bench(story: Story, book: Book, rules: Rulebook, shipped: Mapping[str, Sequence[Part]]) -> Bench:
    """The story as a plan. `shipped` are the catalogue's parts by class, for remedies that take a stocked size."""
    words = Words(book, rules)
    given = {told["id"]: told for told in story.text["parts"]}
    parts = {own: words.finished(told, given) for own, told in given.items()}
    pattern = _closed_pattern(story, book, [told for told in given.values() if told["role"] in ON_THE_BOARD])
    extras = _extras(story, words, given)
    after = _seated(pattern, given, parts, ON_THE_BOARD) + _beside(pattern, extras)
    before = _seated(pattern, given, parts, STOOD) + _beside(pattern, extras)
    shelf = [
        StockItem(parts[own], "stock", told.get("money")) for own, told in given.items() if told["role"] == "candidate"
    ]
    for remedy in story.text["remedies"]:
        if remedy.get("stock_series"):
            shelf += [StockItem(part, "stock") for part in shipped.get(remedy["part_class"], ())]
    plan = SwapPlan(story.id, str(story.text["title"]), pattern.id, before, after, tuple(shelf), buys=False)
    every = [*parts.values(), *(part for part, _ in extras)]
    told_unknown = _unknown(words, given)
    closed = dataclasses.replace(
        book, table=_closed_table(book.table, every, told_unknown), patterns={pattern.id: pattern}
    )
    judge = BoardJudge(pattern, closed, rules, closed.limits)
    return Bench(story, plan, closed, rules, parts, given, pattern, judge, words)


def seats_of(pattern: Pattern, told: Told, taken: Mapping[str, Any]) -> list[str]:
    """Where such a part stands: every seat of its name, or the next free of a row of two."""
    names = CLASSES[told["class"]][1]
    if len(names) == 1:
        found = [seat.id for seat in pattern.seats.values() if names[0] in (seat.id, *seat.names[:1])]
        return [seat for seat in found if seat.startswith(str(told.get("place", "")))]
    free = [name for name in names if name in pattern.seats and name not in taken]
    return free[: int(told["attrs"].get(COUNT, 1))]


def _seated(
    pattern: Pattern, given: Mapping[str, Told], parts: Mapping[str, Part], roles: Sequence[str]
) -> tuple[Piece, ...]:
    seated: dict[str, Piece] = {}
    for own, told in given.items():
        if told["role"] in roles:
            for seat in seats_of(pattern, told, seated):
                seated.setdefault(seat, Piece(seat, parts[own]))
    return tuple(seated.values())


def _extras(story: Story, words: Words, given: Mapping[str, Told]) -> list[tuple[Part, tuple[str, ...]]]:
    """The wish, nuts told with their bolts, and rings that come along unnamed (their seats are empty for the wish)."""
    found: list[tuple[Part, tuple[str, ...]]] = []
    wish = story.text.get("wish")
    if wish:
        sizes: Places = {}
        for name in ("target", "floor"):
            attribute = f"{wish['what']}_{name}"
            sizes["", attribute] = words.reading("wish", "", attribute, f"{wish[name]} +-0")
        found.append((words.extra("wish", "wish", sizes), ("wish",)))
    for told in given.values():
        for name in told["attrs"]:
            for target in SIZES.get((told["class"], name), ()):
                if target.part_class == "deck_nut":
                    height = words.reading("deck_nut", "", target.attribute, told["attrs"][name])
                    nut = words.extra(f"nut of {told['id']}", "deck_nut", {("", target.attribute): height})
                    found.append((nut, ("deck_nut",)))
        for part_class, seats, beside in COME_ALONG:
            if CLASSES[told["class"]][0] == beside:
                found.append((words.extra(f"usual {part_class}", part_class, {}), seats))
    return found


def _beside(pattern: Pattern, extras: Sequence[tuple[Part, tuple[str, ...]]]) -> tuple[Piece, ...]:
    return tuple(
        Piece(seat.id, part, by_default=part.id.startswith("usual "))
        for part, names in extras
        for seat in pattern.seats.values()
        if set(names) & {seat.id, *seat.names[:1]}
    )


def _closed_pattern(story: Story, book: Book, told: Sequence[Told]) -> Pattern:
    """The common board, or the first that has seats for everything; of its lines those that the story names."""
    for own in (COMMON_BOARD, *book.patterns):
        pattern = book.patterns[own]
        if all(seats_of(pattern, one, {}) for one in told):
            lines = tuple(line for line in pattern.lines if line.joint in story.joints)
            return dataclasses.replace(pattern, lines=lines)
    raise AssertionError(f"no board has seats for all parts of {story.id}")


def _closed_table(table: AttributeTable, parts: Sequence[Part], unknown: set[tuple[str, str]]) -> AttributeTable:
    """The attribute table without what no part of the story carries."""
    carried = set(unknown)
    for part in parts:
        for name in part.readings:
            carried.add((_owner(table, part.part_class, name, ""), name))
        for port, interface in part.ports.items():
            carried |= {(_owner(table, part.part_class, name, port), name) for name in interface.readings}
    kept = {key: one for key, one in table.attributes.items() if key in carried or _default_at_nominal(one)}
    return dataclasses.replace(table, attributes=kept)


def _owner(table: AttributeTable, part_class: str, name: str, port: str) -> str:
    found = table.attribute_of(part_class, name, port)
    assert found is not None
    return found.owner


def _unknown(words: Words, given: Mapping[str, Told]) -> set[tuple[str, str]]:
    found = set()
    for told in given.values():
        part_class = CLASSES[told["class"]][0]
        for (port, attribute), reading in words.told_places(told).items():
            if reading is None:
                described = words.described(part_class, port, attribute)
                found.add((described.owner, attribute))
    return found


def _stood_in_for(told: Told, given: Mapping[str, Told]) -> list[Told]:
    """The parts of the same kind that this one stands in for or beside, the one on the board first."""
    roles = {"candidate": ("installed", "kept", "removed"), "installed": ("removed", "kept")}.get(told["role"], ())
    return [
        other for role in roles for other in given.values() if other["role"] == role and other["class"] == told["class"]
    ]


def _default_at_nominal(described: Attribute) -> Reading | None:
    """The default of the class as if it had been read, without width; None where the class has none."""
    default = described.default
    if default is None or default == "":
        return None
    if described.reading == "word":
        return Word(frozenset(str(default).split("|")), TOLD, open_vocabulary=described.open_vocabulary)
    value = float(default)
    if described.reading == "count":
        return Count((round(value),), round(value), TOLD)
    return Number(value, value, value, described.unit, TOLD)


def _flipped(reading: Reading | None) -> Reading | None:
    if not isinstance(reading, Number):
        return reading
    return dataclasses.replace(reading, low=-reading.high, nominal=-reading.nominal, high=-reading.low)


def _times(reading: Reading | None, factor: float) -> Reading | None:
    if not isinstance(reading, Number):
        return reading
    return dataclasses.replace(
        reading, low=reading.low * factor, nominal=reading.nominal * factor, high=reading.high * factor
    )

"""Which interfaces cannot meet: rules that look at two ports alone, asked once per pair and remembered.

A rule is pure for a pair of ports when all it needs, through every size that is worked out on the way, are readings of
these two interfaces. What such a rule says is the same for every two parts that have them. So parts can be ruled out
by the interface they offer, thousands at a time. The table can refuse, never confirm: what is shown has been judged.
An answer holds under the stamp of the rulebook, limits and attributes that it was given under, and under no other.
"""

from __future__ import annotations

import dataclasses
import hashlib
import itertools
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.find_parts import Shelf
from fitdb.catalogue.fit_answers import FitAnswer, answers_with, forget_stale, pairs_answered, store_answers
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue, queue_up, writing
from fitdb.intake.part_files import signature
from fitdb.model.interface import Interface
from fitdb.model.joint import Joint, Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Line, LineRole, Pattern
from fitdb.model.rule import Rule, Rulebook, Shape
from fitdb.model.source import Source
from fitdb.rules import rulebook
from fitdb.steps.join import joints_of
from fitdb.steps.judge import excuse, judge
from fitdb.steps.survey import trace

NOBODY = Source("no-part", "default", "a stand-in for any part with this interface", "derived")
REFUSES = "fails"
PAIRS_AT_ONCE = 2_000


@dataclass(frozen=True, slots=True)
class End:
    """One of the two ports: the role it is looked at in, the class of the part, the port and its interface kind."""

    role: str
    part_class: str
    port: str
    kind: str


@dataclass(frozen=True, slots=True)
class PurePair:
    """Two ports of a joint line and the rules that are pure for them; `first` is the role that comes first by name."""

    line: Line
    first: End
    second: End
    rules: tuple[Rule, ...]


@dataclass(frozen=True, slots=True)
class Meeting:
    """A port of the part that is looked for (`wanted` says which end of the pair) and the interface it would meet."""

    pair: PurePair
    wanted: End
    known: Interface


class FitTable:
    """Answers about pairs under one book and rulebook, remembered; those stored are read as they are needed."""

    def __init__(self, book: Book, rules: Rulebook, shelf: Shelf | None = None) -> None:
        self.book, self.rules = book, rules
        self.shelf = shelf or Shelf(book.revision)
        self.stamp = stamp_of(book, rules)
        self._pure: dict[tuple[str, str, str, str, str, str], tuple[Rule, ...]] = {}
        self._states: dict[tuple[str, str, str], str] = {}
        self._read: set[str] = set()
        self._interfaces: dict[str, dict[str, Interface]] = {}

    # --- where two ports meet --------------------------------------------------------------------------------

    def meetings(
        self, pattern: Pattern, seated: Mapping[str, Piece], seat: str, part_class: str, own_limits: Iterable[str] = ()
    ) -> tuple[Meeting, ...]:
        """Where a part of the class in that seat would meet interfaces of the parts that are seated.

        own_limits: keys of bounds that the question replaces; rules that have one are left to the judge.
        """
        stub = Piece(seat, Part("-", part_class, "", {}, {}, NOBODY))
        pieces = {**seated, seat: stub}
        replaced = frozenset(own_limits)
        found: dict[tuple[str, str, str, str], Meeting] = {}
        for line in pattern.lines:
            if not any(seat in role.seats for role in line.roles) and seat not in line.chain_seats:
                continue
            for joint in joints_of(line, pieces, pattern)[0]:
                for meeting in self._of_joint(joint, stub, replaced):
                    key = (line.kind, meeting.wanted.role, meeting.wanted.port, meeting.known.id)
                    found.setdefault(key, meeting)
        return tuple(found.values())

    def _of_joint(self, joint: Joint, stub: Piece, replaced: frozenset[str]) -> Iterable[Meeting]:
        line = joint.line
        for role, other in itertools.permutations(line.roles, 2):
            here, there = joint.pieces.get(role.role, ()), joint.pieces.get(other.role, ())
            if "list" in (role.how, other.how) or here != (stub,) or len(there) != 1 or there[0].seat == stub.seat:
                continue
            known = there[0].part.ports.get(other.port)
            if known is None:
                continue
            pair = self.pure_pair(line, role, stub.part.part_class, other, there[0].part.part_class)
            rules = tuple(rule for rule in pair.rules if not replaced & set(_limit_keys(rule))) if pair else ()
            if pair is not None and rules:
                wanted = pair.first if pair.first.role == role.role else pair.second
                yield Meeting(PurePair(line, pair.first, pair.second, _with_excuses(rules)), wanted, known)

    def pure_pair(
        self, line: Line, role: LineRole, part_class: str, other: LineRole, other_class: str
    ) -> PurePair | None:
        """The two ports with the rules that are pure for them; None where there are none."""
        first, second = (self._end(role, part_class), self._end(other, other_class))
        if not first.kind or not second.kind:
            return None
        if second.role < first.role:
            first, second = second, first
        key = (line.id, first.role, first.part_class, second.role, second.part_class, line.kind)
        if key not in self._pure:
            classes = {first.role: first.part_class, second.role: second.part_class}
            meant = {(first.role, first.port), (second.role, second.port)}
            rules = (rule for rule in self.rules.by_kind.get(line.kind, ()) if self._asks(rule, line, classes) == meant)
            self._pure[key] = _with_excuses(tuple(rules))
        return PurePair(line, first, second, self._pure[key]) if self._pure[key] else None

    def _end(self, role: LineRole, part_class: str) -> End:
        return End(role.role, part_class, role.port, self.book.table.ports_of(part_class).get(role.port, ""))

    def _asks(self, rule: Rule, line: Line, classes: Mapping[str, str]) -> set[tuple[str, str]] | None:
        """The ports whose interfaces settle all that the rule needs; None where anything else comes in."""
        asked: set[tuple[str, str]] = set()
        return asked if all(self._settled(need, line, classes, asked, ()) for need in rule.needs) else None

    def _settled(
        self, need: str, line: Line, classes: Mapping[str, str], asked: set[tuple[str, str]], above: tuple[str, ...]
    ) -> bool:
        role, attribute = need.split(".", 1)
        described = line.role(role)
        if role not in classes or described is None or need in above:  # a list, a constant, or a third part
            return False
        table, part_class = self.book.table, classes[role]
        kind = table.ports_of(part_class).get(described.port, "")
        read_there = (kind, attribute) in table.attributes
        if not read_there and table.attribute_of(part_class, attribute, described.port) is not None:
            return False  # a size of the part itself, or of another port
        worked_out = self.rules.survey.get(need)
        if read_there:
            asked.add((role, described.port))
        if worked_out is not None:
            return all(self._settled(one, line, classes, asked, (*above, need)) for one in worked_out.needs)
        return read_there

    # --- what the rules say ----------------------------------------------------------------------------------

    def refused(
        self,
        connection: Any,
        meetings: Sequence[Meeting],
        expired: Callable[[], bool] = lambda: False,
        *,
        thorough: bool = False,
    ) -> dict[str, frozenset[str]]:
        """By port of the wanted part the interfaces that cannot meet what stands there.

        Geometry is asked only where it is `thorough`, or taken from what is stored: the judge will say it of the few
        parts that are shown. So it is with what is not known yet once `expired`.
        """
        ruled_out: dict[str, set[str]] = {}
        for meeting in meetings:
            here = ruled_out.setdefault(meeting.wanted.port, set())
            for interface in self.interfaces(connection, meeting.wanted.kind).values():
                if interface.id in here:
                    continue
                states = self.states(connection, meeting, interface, expired, thorough=thorough)
                if states is not None and REFUSES in states.values():
                    here.add(interface.id)
        return {port: frozenset(some) for port, some in ruled_out.items() if some}

    def states(
        self,
        connection: Any,
        meeting: Meeting,
        interface: Interface,
        expired: Callable[[], bool] = lambda: False,
        *,
        thorough: bool = True,
    ) -> dict[str, str] | None:
        """What the pure rules say where `interface` meets the known one, up to a refusal; None when it is too late."""
        pair, known = meeting.pair, meeting.known
        in_catalogue = self.interfaces(connection, known.kind).get(known.id)
        known_id = known.id
        if in_catalogue is None or in_catalogue.readings != known.readings:  # somebody's own readings of it
            known_id = f"own {signature(known.kind, known.readings)}"
        else:
            self._read_stored(connection, known.id)
        first, second = (interface, known) if meeting.wanted == pair.first else (known, interface)
        ids = (known_id, interface.id) if first is known else (interface.id, known_id)
        known_states = ((rule.id, self._states.get((rule.id, *ids))) for rule in pair.rules)
        found = {rule: state for rule, state in known_states if state is not None}
        wanted = pair.rules if thorough else tuple(rule for rule in pair.rules if not any(_slow(rule)))
        if any(rule.id not in found for rule in wanted) and REFUSES not in found.values():
            if expired():
                return None
            found = self.asked(dataclasses.replace(pair, rules=wanted), first, second)
            self._states.update({(rule, *ids): state for rule, state in found.items()})
        return found

    def asked(self, pair: PurePair, first: Interface, second: Interface) -> dict[str, str]:
        """The judge's own word on the pair, by rule: two stand-ins that have nothing but these interfaces.

        The quick rules are asked first, and a failing one that nothing excuses is word enough: geometry takes a
        thousand times as long.
        """
        pieces = {}
        for end, interface in ((pair.first, first), (pair.second, second)):
            part = Part(f"-{end.role}", end.part_class, "", {}, {end.port: interface}, NOBODY)
            pieces[end.role] = (Piece(f"-{end.role}", part),)
        joint = Joint(pair.line.id, pair.line, pieces, {})
        table, said = self.book.table, {}
        for rule in sorted(pair.rules, key=_slow):
            said[rule.id] = judge(trace(joint, rule, self.rules, table, {}), None, self.book.limits)
            if said[rule.id].state == REFUSES and not rule.excused_by:
                return {own: one.state for own, one in said.items() if not self.rules.rules[own].excused_by}
        return {finding.rule.id: finding.state for finding in excuse(tuple(said.values()))}

    def interfaces(self, connection: Any, kind: str) -> dict[str, Interface]:
        """All interfaces of a kind, by id."""
        if kind not in self._interfaces:
            known = self.shelf.interfaces(connection)
            self._interfaces[kind] = {own: one for own, one in known.items() if one.kind == kind}
        return self._interfaces[kind]

    def _read_stored(self, connection: Any, interface_id: str) -> None:
        if interface_id not in self._read:
            self._read.add(interface_id)
            for one in answers_with(connection, interface_id, self.stamp):
                self._states.setdefault((one.rule, one.first, one.second), one.state)

    def all_pairs(self, pattern: Pattern) -> tuple[PurePair, ...]:
        """Every two ports of a layout that some rule is pure for; each pair of kinds and rules once."""
        table = self.book.table
        found: dict[tuple[str, str, tuple[str, ...]], PurePair] = {}
        for line in pattern.lines:
            taken = {
                role.role: tuple(
                    own
                    for own in table.classes
                    if any(name in table.line_of(own) for seat in role.seats for name in _classes(pattern, seat))
                )
                for role in line.roles
                if role.how != "list" and role.port
            }
            for role, other in itertools.combinations([one for one in line.roles if one.role in taken], 2):
                for own, another in itertools.product(taken[role.role], taken[other.role]):
                    pair = self.pure_pair(line, role, own, other, another)
                    if pair is not None:
                        rules = tuple(rule.id for rule in pair.rules)
                        found.setdefault((pair.first.kind, pair.second.kind, rules), pair)
        return tuple(found.values())


@dataclass
class Filled:
    """What filling the table did: answers stored, pairs left when time ran out, stale answers taken away."""

    stored: int = 0
    left: int = 0
    stale: int = 0
    seconds: float = 0.0
    notes: list[str] = field(default_factory=list)


def fill_fit_table(url: str | None, seconds: float = 60.0) -> Filled:
    """Asks every pair of interfaces of the catalogue that has not been asked yet, for at most so many seconds.

    What is stored stays when the time is over: the next call goes on from there. Answers under another stamp go.
    """
    began = time.monotonic()
    rules = rulebook()
    engine = open_catalogue(url)
    done = Filled()
    try:
        with engine.connect() as connection:
            book = read.book(connection)
        table = FitTable(book, rules)
        with writing(engine).begin() as connection:
            queue_up(connection)
            done.stale = forget_stale(connection, table.stamp)
        pairs = table.all_pairs(book.patterns["loose"])
        for pair in sorted(pairs, key=lambda one: any(_slow(rule)[0] for rule in one.rules)):
            with engine.connect() as connection:
                missing = _missing(connection, table, pair)
            while missing:
                answers: list[FitAnswer] = []
                asked = 0
                for first, second in missing[:PAIRS_AT_ONCE]:
                    if time.monotonic() - began > seconds:
                        break
                    said = table.asked(pair, first, second)
                    answers += [FitAnswer(first.id, second.id, rule, state) for rule, state in said.items()]
                    asked += 1
                missing = missing[asked:]
                with writing(engine).begin() as connection:
                    queue_up(connection)
                    if read.revision(connection) != book.revision:
                        done.left += asked + len(missing)
                        done.notes.append("The catalogue changed meanwhile; fill the table again.")
                        return done
                    done.stored += store_answers(connection, answers, table.stamp)
                if time.monotonic() - began > seconds:
                    break
            done.left += len(missing)
    finally:
        engine.dispose()
        done.seconds = time.monotonic() - began
    return done


def _missing(connection: Any, table: FitTable, pair: PurePair) -> list[tuple[Interface, Interface]]:
    answered = pairs_answered(connection, [rule.id for rule in pair.rules], table.stamp)
    firsts = table.interfaces(connection, pair.first.kind).values()
    seconds = table.interfaces(connection, pair.second.kind).values()
    return [
        (first, second) for first, second in itertools.product(firsts, seconds) if (first.id, second.id) not in answered
    ]


def stamp_of(book: Book, rules: Rulebook) -> str:
    """What an answer depends on beside the two interfaces: rules and formulas, limits, and what attributes may be."""
    kinds = set(book.table.kinds)
    attributes = [f"{key}{one}" for key, one in sorted(book.table.attributes.items()) if one.owner in kinds]
    said = repr((sorted(book.limits.items()), attributes))
    return f"{rules.stamp}-{hashlib.sha256(said.encode()).hexdigest()[:16]}"


def _with_excuses(rules: tuple[Rule, ...]) -> tuple[Rule, ...]:
    """The rules whose excuse, where they have one, is among them: without it they would say too much."""
    kept = rules
    while True:
        ids = {rule.id for rule in kept}
        left = tuple(rule for rule in kept if not rule.excused_by or rule.excused_by in ids)
        if left == kept:
            return kept
        kept = left


def _slow(rule: Rule) -> tuple[bool, bool]:
    return rule.shape is Shape.ASKED, bool(rule.excused_by)


def _limit_keys(rule: Rule) -> list[str]:
    bounds = [getattr(limit, side, None) for limit in (rule.hard, rule.comfort) for side in ("low", "high")]
    return [bound.key for bound in bounds if bound is not None]


def _classes(pattern: Pattern, seat: str) -> tuple[str, ...]:
    described = pattern.seats.get(seat.removeprefix("before:"))
    return described.classes if described is not None else ()

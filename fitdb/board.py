"""One board, judged: place · join · survey · judge for whole boards, remembering what did not change.

A board of sixty joints is judged again after every remedy that is tried. What a joint line says depends on the pieces
in its seats alone, and what a rule says on the readings that it follows; both are remembered by exactly these. Nothing
is remembered between two questions, so an answer never depends on what was asked before.
"""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Joint, NotAsked, Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.reading import Reading
from fitdb.model.rule import Rule, Rulebook
from fitdb.model.verdict import JointVerdict
from fitdb.steps.join import joints_of
from fitdb.steps.judge import excuse, judge, worst
from fitdb.steps.judge.box import is_unread
from fitdb.steps.judge.standing import Standing, excused, standing
from fitdb.steps.survey import Walked, Walks

BEFORE = "before:"


@dataclass(frozen=True, slots=True)
class LineVerdict:
    """What one joint line says of the pieces in its seats."""

    joints: tuple[JointVerdict, ...]
    not_asked: NotAsked | None


Read = tuple[str, str, Reading | None]  # seat, part id, reading


@dataclass(frozen=True, slots=True)
class Stood:
    """How a rule stands at one joint, and what it went by. margin: nominal, None where it has none."""

    joint: str
    state: str
    margin: float | None
    read: tuple[Read, ...]

    @property
    def unread_at(self) -> set[str]:
        """The seats of what nobody took."""
        return {seat for seat, _, reading in self.read if reading is None or reading.value_assumed}


@dataclass(frozen=True, slots=True)
class Judged:
    """A whole board with what every line says. `seated` holds the pieces by seat."""

    seated: Mapping[str, Piece]
    lines: tuple[LineVerdict, ...]

    @property
    def joints(self) -> tuple[JointVerdict, ...]:
        return tuple(joint for line in self.lines for joint in line.joints)

    @property
    def not_asked(self) -> tuple[NotAsked, ...]:
        return tuple(line.not_asked for line in self.lines if line.not_asked is not None)


@dataclass(slots=True)
class Work:
    """How much was done: rules judged, and rules answered from what was remembered."""

    judged: int = 0
    remembered: int = 0


@dataclass
class BoardJudge:
    """Judges boards of one pattern under one rulebook and one set of limits. `before` is the board as it stood."""

    pattern: Pattern
    book: Book
    rules: Rulebook
    limits: Mapping[str, float]
    before: Mapping[str, Piece] = field(default_factory=dict)
    work: Work = field(default_factory=Work)

    def __post_init__(self) -> None:
        takes = {seat.id: seat.classes for seat in self.pattern.seats.values()}
        self._walks = Walks(self.rules, self.book.table, takes)
        self._index = {line.id: index for index, line in enumerate(self.pattern.lines)}
        self._seats = tuple(_seats_of(line) for line in self.pattern.lines)
        self._touching: defaultdict[str, list[int]] = defaultdict(list)
        for index, seats in enumerate(self._seats):
            for seat in seats:
                self._touching[seat].append(index)
        self._lines: dict[tuple[Any, ...], LineVerdict] = {}
        self._findings: dict[tuple[int, ...], Finding] = {}
        self._against: dict[tuple[Any, ...], tuple[Finding, ...]] = {}
        self._standing: dict[tuple[int, ...], Standing] = {}
        self._kept: dict[int, Part] = {}  # what is remembered by identity has to stay alive
        self._read: dict[int, Reading | None] = {}
        self._before = {BEFORE + seat: piece for seat, piece in self.before.items()}

    @property
    def remembered_lines(self) -> int:
        """How many verdicts of lines are remembered: two for each line and what stands in its seats, at most."""
        return len(self._lines) + len(self._against)

    def judge(self, pieces: Iterable[Piece]) -> Judged:
        """The whole board."""
        seated = {piece.seat: piece for piece in pieces}
        return Judged(seated, tuple(self._line(index, seated) for index in range(len(self._seats))))

    def again(self, judged: Judged, moved: Mapping[str, Piece | None]) -> Judged:
        """The board with some seats filled otherwise (None: emptied); only lines that have one of them are asked."""
        seated = with_moved(judged.seated, moved)
        read_again = readings_taken(judged.seated, moved)
        lines = list(judged.lines)
        for index in {index for seat in moved for index in self._touching[seat]}:
            if read_again:
                lines[index] = self._line_read_again(index, lines[index], seated, read_again)
            else:
                lines[index] = self._line(index, seated)
        return Judged(seated, tuple(lines))

    def line(self, line_id: str, seated: Mapping[str, Piece]) -> LineVerdict:
        """What one line says of these pieces."""
        return self._line(self.index_of(line_id), seated)

    def against(self, pieces: Iterable[Piece]) -> tuple[Finding, ...]:
        """Only the findings of the whole board that fail or are undecided; of what holds no more is worked out."""
        seated = {piece.seat: piece for piece in pieces}
        return tuple(finding for index in range(len(self._seats)) for finding in self._line_against(index, seated))

    def stood_on(self, line_id: str, rule_id: str, seated: Mapping[str, Piece]) -> tuple[Stood, ...]:
        """How one rule stands at every joint of a line, its excuse taken; the other rules of the line are not asked."""
        line = self.pattern.lines[self.index_of(line_id)]
        rule = self.rules.rules[rule_id]
        joints, _ = joints_of(line, {**seated, **self._before}, self.pattern)
        return tuple(self._stood_at(joint, rule) for joint in joints)

    def _stood_at(self, joint: Joint, rule: Rule) -> Stood:
        shape = self._walks.shape(joint)
        told, read = self._stands_at(joint, rule, shape)
        if rule.excused_by and told.state in ("fails", "undecided"):
            other, other_read = self._stands_at(joint, self.rules.rules[rule.excused_by], shape)
            after = excused(told, other)
            told, read = after, other_read if after.state == "undecided" != told.state else read
        return Stood(joint.id, told.state, told.margin, read)

    def _stands_at(self, joint: Joint, rule: Rule, shape: tuple[Any, ...]) -> tuple[Standing, tuple[Read, ...]]:
        walked = self._walks.walked(joint, rule, shape)
        pieces = walked.pieces(joint)
        readings = walked.readings(pieces)
        told = self._stands(walked, readings)
        if told.state == "not_asked":
            return told, ()
        return told, tuple((piece.seat, piece.part.id, one) for piece, one in zip(pieces, readings, strict=True))

    def index_of(self, line_id: str) -> int:
        return self._index[line_id]

    def seats_of(self, line_id: str) -> tuple[str, ...]:
        """Every seat that a line looks at."""
        return self._seats[self.index_of(line_id)]

    def _line(self, index: int, seated: Mapping[str, Piece]) -> LineVerdict:
        key = self._key(index, seated)
        found = self._lines.get(key)
        if found is None:
            found = self._lines[key] = self._asked(self.pattern.lines[index], seated)
        else:
            self.work.remembered += sum(len(joint.findings) for joint in found.joints)
        return found

    def _line_against(self, index: int, seated: Mapping[str, Piece]) -> tuple[Finding, ...]:
        key = self._key(index, seated)
        found = self._against.get(key)
        if found is None:
            joints, _ = joints_of(self.pattern.lines[index], {**seated, **self._before}, self.pattern)
            found = self._against[key] = tuple(
                finding
                for joint in joints
                for finding in self._joint_against(joint, self.rules.by_kind.get(joint.line.kind, ()))
            )
        return found

    def _joint_against(self, joint: Joint, rules: Sequence[Rule]) -> Iterable[Finding]:
        shape = self._walks.shape(joint)
        for rule in rules:
            walked = self._walks.walked(joint, rule, shape)
            if self._stands(walked, walked.readings(walked.pieces(joint))).state not in ("fails", "undecided"):
                continue
            findings = [self._finding(joint, rule, shape)]
            findings += [self._finding(joint, other, shape) for other in rules if other.id == rule.excused_by]
            told = excuse(tuple(findings))[0]
            if told.state != "excused":
                yield told

    def _stands(self, walked: Walked, readings: Sequence[Reading | None]) -> Standing:
        """How the rule of a walk stands with these readings, remembered like its findings."""
        key = (walked.alike, *map(id, readings))
        found = self._standing.get(key)
        if found is None:
            for reading in readings:
                self._read.setdefault(id(reading), reading)
            found = self._standing[key] = standing(walked.trace, readings, self.limits)
            self.work.judged += 1
        else:
            self.work.remembered += 1
        return found

    def _line_read_again(
        self, index: int, stood: LineVerdict, seated: Mapping[str, Piece], taken: Mapping[str, frozenset[str]]
    ) -> LineVerdict:
        """The same line, some readings of its parts taken again: only the rules that follow them are asked."""
        key = self._key(index, seated)
        if key not in self._lines:
            joints = tuple(self._joint_read_again(joint, seated, taken) for joint in stood.joints)
            self._lines[key] = LineVerdict(joints, stood.not_asked)
        return self._lines[key]

    def _joint_read_again(
        self, stood: JointVerdict, seated: Mapping[str, Piece], taken: Mapping[str, frozenset[str]]
    ) -> JointVerdict:
        pieces = {
            role: tuple(seated[piece.seat] if piece.seat in taken else piece for piece in some)
            for role, some in stood.joint.pieces.items()
        }
        joint = dataclasses.replace(stood.joint, pieces=pieces)
        follows = {
            id(one): any(item.attribute in taken.get(item.seat, ()) for item in one.inputs) for one in stood.findings
        }
        excuses = any(one.rule.excused_by for one in stood.findings if follows[id(one)]) or any(
            one.state == "excused" or one.code == "excuse_undecided" for one in stood.findings
        )
        if excuses and any(follows.values()):
            return self._joint(joint)
        self.work.remembered += sum(not asked for asked in follows.values())
        shape = self._walks.shape(joint)
        findings = tuple(self._finding(joint, one.rule, shape) if follows[id(one)] else one for one in stood.findings)
        if any(one.rule.excused_by for one in findings):
            findings = excuse(findings)
        return JointVerdict(joint, worst(findings), findings)

    def _key(self, index: int, seated: Mapping[str, Piece]) -> tuple[Any, ...]:
        return (index, *[self._mark(seated.get(seat)) for seat in self._seats[index]])

    def _mark(self, piece: Piece | None) -> tuple[int, bool] | None:
        if piece is None:
            return None
        self._kept.setdefault(id(piece.part), piece.part)
        return id(piece.part), piece.by_default

    def _asked(self, line: Line, seated: Mapping[str, Piece]) -> LineVerdict:
        joints, not_asked = joints_of(line, {**seated, **self._before}, self.pattern)
        return LineVerdict(tuple(self._joint(joint) for joint in joints), not_asked)

    def _joint(self, joint: Joint) -> JointVerdict:
        shape = self._walks.shape(joint)
        findings = tuple(self._finding(joint, rule, shape) for rule in self.rules.by_kind.get(joint.line.kind, ()))
        told = excuse(findings)
        return JointVerdict(joint, worst(told), told)

    def _finding(self, joint: Joint, rule: Rule, shape: tuple[Any, ...]) -> Finding:
        """One rule at one joint, remembered by the readings that it follows: alike sides of a board are judged once."""
        walked = self._walks.walked(joint, rule, shape)
        pieces = walked.pieces(joint)
        readings = walked.readings(pieces)
        followed = walked.trace
        if not pieces or followed.wanted or followed.lacking:
            self.work.judged += 1
            return judge(walked.trace_at(joint, pieces, readings), self.book.table, self.limits)
        key = (walked.alike, *map(id, readings))
        found = self._findings.get(key)
        if found is None:
            for reading in readings:
                self._read.setdefault(id(reading), reading)
            found = self._findings[key] = judge(walked.trace_at(joint, pieces, readings), self.book.table, self.limits)
            self.work.judged += 1
        else:
            self.work.remembered += 1
        return _at(found, joint, pieces)


def _at(finding: Finding, joint: Joint, pieces: Sequence[Piece]) -> Finding:
    """The finding as it is said at this joint: same readings, other seats. pieces: one per input."""
    if finding.joint == joint.id and all(
        piece.seat == item.seat and piece.part.id == item.part
        for piece, item in zip(pieces, finding.inputs, strict=True)
    ):
        return finding
    inputs = tuple(
        dataclasses.replace(item, seat=piece.seat, part=piece.part.id)
        for piece, item in zip(pieces, finding.inputs, strict=True)
    )
    unread = (
        tuple(f"{item.part}.{item.attribute}" for item in inputs if is_unread(item.reading)) if finding.unread else ()
    )
    return dataclasses.replace(finding, joint=joint.id, inputs=inputs, unread=unread)


def readings_taken(seated: Mapping[str, Piece], moved: Mapping[str, Piece | None]) -> dict[str, frozenset[str]]:
    """By seat the attributes that were read again, where the moves do nothing else: the same parts, and no reading that
    was not there before or is no longer. Empty where they do more."""
    taken: dict[str, frozenset[str]] = {}
    for seat, piece in moved.items():
        stood = seated.get(seat)
        if piece is None or stood is None or piece.by_default != stood.by_default:
            return {}
        now, before = piece.part, stood.part
        if (now.id, now.part_class, now.readings.keys(), now.ports.keys()) != (
            before.id,
            before.part_class,
            before.readings.keys(),
            before.ports.keys(),
        ):
            return {}
        names = {name for name, reading in now.readings.items() if reading is not before.readings[name]}
        for port, interface in now.ports.items():
            if interface is not before.ports[port]:
                if interface.readings.keys() != before.ports[port].readings.keys():
                    return {}
                old = before.ports[port].readings
                names |= {name for name, reading in interface.readings.items() if reading is not old[name]}
        taken[seat] = frozenset(names)
    return taken


def with_moved(seated: Mapping[str, Piece], moved: Mapping[str, Piece | None]) -> dict[str, Piece]:
    """The pieces by seat with some exchanged, added or taken away."""
    kept = {seat: piece for seat, piece in seated.items() if seat not in moved}
    return kept | {seat: piece for seat, piece in moved.items() if piece is not None}


def touched(now: Judged, stood: Judged | None) -> tuple[JointVerdict, ...]:
    """The joints that a change touches: a piece in a role is another, or a reading that a rule follows differs.

    Where there is no before, every joint is touched. A kept piece with a changed reading is the same piece: only the
    rules that follow that reading are touched by it.
    """
    if stood is None:
        return now.joints
    before = {joint.joint.id: joint for joint in stood.joints}
    return tuple(joint for joint in now.joints if _differs(joint, before.get(joint.joint.id)))


def _differs(now: JointVerdict, before: JointVerdict | None) -> bool:
    if before is None:
        return True
    if now is before:
        return False
    here, there = _pieces(now.joint), _pieces(before.joint)
    if [(role, piece.seat, piece.part.id) for role, piece in here] != [
        (role, piece.seat, piece.part.id) for role, piece in there
    ]:
        return True
    if all(one[1].part is other[1].part for one, other in zip(here, there, strict=True)):
        return False
    return [_followed(finding) for finding in now.findings] != [_followed(finding) for finding in before.findings]


def _pieces(joint: Joint) -> list[tuple[str, Piece]]:
    return [(role, piece) for role, pieces in joint.pieces.items() for piece in pieces]


def _followed(finding: Finding) -> tuple[Any, ...]:
    return (finding.rule.id, tuple((item.seat, item.attribute, item.reading) for item in finding.inputs))


def _seats_of(line: Line) -> tuple[str, ...]:
    seats = dict.fromkeys(seat for role in line.roles for seat in role.seats)
    return tuple(seat for seat in (*seats, *line.chain_seats) if not seat.startswith(BEFORE))

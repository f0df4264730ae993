"""One rule at one joint line, asked again and again of other parts: joined and traced once, then only judged.

Where the joint is made and how its needs are followed depends on which readings there are, not on their sizes. So the
trace is kept by that, and another part's readings are put into it. What a finding says is always the judge's own word.

A box of parts is asked as one part whose readings span those of all: what holds over the whole span holds for each of
them, and what fails over the whole span fails for each. That is the judge's own law, used on a larger box.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.rule import Rule, Rulebook, Severity, Shape
from fitdb.model.trace import Trace
from fitdb.possible.followed import Seen, Sight, with_excuse
from fitdb.steps.join import joints_of
from fitdb.steps.judge import excuse, judge
from fitdb.steps.judge.box import SIZED_AT_A_POINT, used
from fitdb.steps.judge.standing import Standing, excused, standing
from fitdb.steps.survey import trace

UNKNOWN, HOLDS, UNDECIDED, FAILS = 0, 1, 2, 3
# A quantity that turns back inside its box is sampled there. What fails all over a span is believed only with so much
# of its range to spare: no point between the samples comes that much nearer.
SAMPLED_BEYOND = 0.25
NOT_ASKED = Standing("not_asked")  # no joint is made
CODE = {"holds": HOLDS, "excused": HOLDS, "not_asked": HOLDS, "undecided": UNDECIDED, "fails": FAILS}

Look = tuple[str, str]
Place = tuple[int, str, str]  # position in the scope, port or empty, attribute
Spans = dict[tuple[Place, bool, int], Reading | None]  # by place, whether danger widens, and whose attribute is meant


@dataclass(frozen=True, slots=True)
class Scope:
    """What one rule at one line can see. looks: by position the (attribute, port) it follows.

    seats: by position the seats of the line that take this one part. present: seats that only have to be filled, with
    any part that fits them.
    """

    line: Line
    rule: Rule
    looks: tuple[tuple[Look, ...], ...]
    seats: tuple[tuple[str, ...], ...]
    present: tuple[tuple[str, Part], ...]


@dataclass(frozen=True, slots=True)
class Traced:
    """The rule and what may excuse it at one joint, with the place in the scope that each variable is read at."""

    traces: tuple[Trace, ...]
    places: tuple[tuple[Place | None, ...], ...]


@dataclass(slots=True)
class Asking:
    """How often the judge was asked: of single boards of parts, and of spans."""

    cells: int = 0
    spans: int = 0


class Question:
    """Asks one rule at one line. Parts are given by position of the scope; None leaves the seats empty."""

    def __init__(
        self,
        scope: Scope,
        pattern: Pattern,
        rules: Rulebook,
        table: AttributeTable,
        limits: Mapping[str, float],
        sight: Sight,
        asking: Asking,
    ) -> None:
        self.scope, self.pattern, self.rules = scope, pattern, rules
        self.table, self.limits, self.sight, self.asking = table, limits, sight, asking
        self.asked = with_excuse(scope.rule, rules)
        self.takes = {seat.id: seat.classes for seat in pattern.seats.values()}
        self._traced: dict[tuple[Any, ...], tuple[Traced, ...]] = {}

    def finding(self, parts: Sequence[Part | None], frames: tuple[Any, ...]) -> Finding | None:
        """The worst finding of the rule over the joints of its line; None where no joint is made."""
        self.asking.cells += 1
        found: Finding | None = None
        for one in self.traced(parts, frames):
            judged = [judge(_put(one.traces[0], one.places[0], parts), None, self.limits)]
            if judged[0].state in ("fails", "undecided") and len(one.traces) > 1:
                judged.append(judge(_put(one.traces[1], one.places[1], parts), None, self.limits))
            told = excuse(tuple(judged))[0]
            if found is None or CODE[told.state] > CODE[found.state]:
                found = told
        return found

    def standing(self, parts: Sequence[Part | None], frames: tuple[Any, ...]) -> Standing:
        """How the rule stands at worst over the joints of its line: the state that `finding` tells, and no more."""
        self.asking.cells += 1
        found = NOT_ASKED
        for one in self.traced(parts, frames):
            told = self._standing(one, 0, parts)
            if told.state in ("fails", "undecided") and len(one.traces) > 1:
                told = excused(told, self._standing(one, 1, parts))
            if found is NOT_ASKED or CODE[told.state] > CODE[found.state]:
                found = told
        return found

    def _standing(self, one: Traced, which: int, parts: Sequence[Part | None]) -> Standing:
        return standing(one.traces[which], part_readings(one.traces[which], one.places[which], parts), self.limits)

    def over_span(self, mates: Sequence[Sequence[Part | None]], frames: tuple[Any, ...]) -> int:
        """HOLDS or FAILS where that is so for every combination of one part per position; else UNKNOWN.

        All parts at a position look alike but for the sizes of their numbers and counts. UNDECIDED where a reading that
        nothing can stand in for is unread, which is the same for all of them.
        """
        self.asking.spans += 1
        first = [some[0] for some in mates]
        spans: Spans = {}
        said = HOLDS
        for one in self.traced(first, frames):
            readings = _spans(one.traces[0], one.places[0], mates, spans)
            if readings is None:
                return UNKNOWN
            own, other = self.over(one.traces[0], readings), None
            if own.state in ("fails", "undecided") and len(one.traces) > 1:
                readings = _spans(one.traces[1], one.places[1], mates, spans)
                if readings is None:
                    return UNKNOWN
                other = self.over(one.traces[1], readings)
            state = _over_all(own, other)
            if state == FAILS:
                return FAILS
            if state != HOLDS:
                said = UNKNOWN if UNKNOWN in (state, said) else state
        return said

    def silent_over(self, one: Traced, mates: Sequence[Sequence[Part | None]]) -> bool:
        """Whether what may excuse a rule excuses none of these combinations."""
        readings = _spans(one.traces[1], one.places[1], mates, {})
        if readings is None:
            return False
        other = self.over(one.traces[1], readings)
        return other.state in ("fails", "not_asked") or other.code == "unread"

    def over(self, followed: Trace, readings: Sequence[Reading | None]) -> Standing:
        """How a rule stands over a span; failing is not believed of a sample that comes near the limit."""
        told = standing(followed, readings, self.limits)
        if told.state == "fails" and followed.rule.shape is Shape.SAMPLED and told.beyond < SAMPLED_BEYOND:
            return dataclasses.replace(told, state="undecided", code="straddles")
        return told

    def traced(self, parts: Sequence[Part | None], frames: tuple[Any, ...]) -> tuple[Traced, ...]:
        found = self._traced.get(frames)
        if found is None:
            found = self._traced[frames] = tuple(self._trace(parts))
        return found

    def _trace(self, parts: Sequence[Part | None]) -> list[Traced]:
        scope = self.scope
        seated = {seat: Piece(seat, part) for seat, part in scope.present}
        position: dict[str, int] = {}
        for at, (seats, part) in enumerate(zip(scope.seats, parts, strict=True)):
            for seat in seats:
                position[seat] = at
                if part is not None:
                    seated[seat] = Piece(seat, part)
        found = []
        for joint in joints_of(scope.line, seated, self.pattern)[0]:
            traces = tuple(trace(joint, rule, self.rules, self.table, self.takes) for rule in self.asked)
            places = tuple(
                tuple(
                    (position[one.seat], one.place, one.attribute) if one.seat in position else None
                    for one in followed.variables
                )
                for followed in traces
            )
            found.append(Traced(traces, places))
        return found


def frame(looks: Sequence[Seen]) -> tuple[Any, ...]:
    """What must be alike in two parts for one trace to serve both: all that is seen but the sizes of numbers.

    Whether a size was read or is assumed does not matter: it is seen as its rule sees it.
    """
    return tuple((seen[0], _kind(seen[1]), *seen[2:]) for seen in looks)


def _kind(content: tuple[Any, ...]) -> tuple[Any, ...]:
    return (content[0],) if content and content[0] in ("Number", "Designation", "Count") else content


def part_readings(
    followed: Trace, places: Sequence[Place | None], parts: Sequence[Part | None]
) -> tuple[Reading | None, ...]:
    """These parts' readings, by variable of the trace; the trace's own where no position has the seat."""
    found = []
    for variable, place in zip(followed.variables, places, strict=True):
        part = parts[place[0]] if place is not None else None
        found.append(variable.reading if place is None or part is None else part.reading_at(place[1], place[2]))
    return tuple(found)


def _put(followed: Trace, places: Sequence[Place | None], parts: Sequence[Part | None]) -> Trace:
    """The trace with these parts and their readings."""
    variables = []
    readings = part_readings(followed, places, parts)
    for variable, place, reading in zip(followed.variables, places, readings, strict=True):
        part = parts[place[0]] if place is not None else None
        named = variable.part if part is None else part.id
        variables.append(dataclasses.replace(variable, part=named, reading=reading))
    return dataclasses.replace(followed, variables=tuple(variables))


def _spans(
    followed: Trace, places: Sequence[Place | None], mates: Sequence[Sequence[Part | None]], spans: Spans
) -> tuple[Reading | None, ...] | None:
    """Readings that span those of all parts at a position, by variable of the trace; as the rule sees each of them.

    None where the rule can go by some of them and by others not. spans: those that were made before.
    """
    found: list[Reading | None] = []
    severity = followed.rule.severity
    for variable, place in zip(followed.variables, places, strict=True):
        if place is None or variable.reading is None or isinstance(variable.reading, Word | Outline):
            found.append(variable.reading)
            continue
        key = (place, severity >= Severity.INJURY, id(variable.described))
        if key not in spans:
            some = [part.reading_at(*place[1:]) for part in mates[place[0]] if part is not None]
            seen = [used(reading, variable.described, severity) for reading in some]
            taken = [reading for reading in seen if reading is not None]
            spans[key] = span_of(taken) if len(taken) == len(seen) else None
        span = spans[key]
        if span is None:
            return None
        found.append(span)
    return tuple(found)


def span_of(readings: Sequence[Reading]) -> Reading:
    """One reading that spans all of these, which are of one kind, as if it had been read; its middle is the first's."""
    first = readings[0]
    if len(readings) == 1:
        return first
    if isinstance(first, Count):
        values = {value for one in readings if isinstance(one, Count) for value in one.values}
        return dataclasses.replace(first, values=tuple(sorted(values)), value_assumed=False)
    assert isinstance(first, SIZED_AT_A_POINT)
    sized = [one for one in readings if isinstance(one, SIZED_AT_A_POINT)]
    low, high = min([one.low for one in sized]), max([one.high for one in sized])
    return dataclasses.replace(first, low=low, high=high, value_assumed=False)


def _over_all(own: Standing, other: Standing | None) -> int:
    """What is so for every part in the span, given what the rule and its excuse say over the whole of it."""
    if own.state in ("holds", "not_asked", "excused"):
        return HOLDS
    if other is not None and other.state == "holds":
        return HOLDS
    silent = other is None or other.state in ("fails", "not_asked") or other.code == "unread"
    if own.state == "fails":
        return FAILS if silent else UNKNOWN
    return UNDECIDED if own.code == "unread" and (other is None or other.state in ("fails", "not_asked")) else UNKNOWN

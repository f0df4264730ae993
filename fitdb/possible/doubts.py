"""Of a whole box of parts at once: that a rule holds with none of them, so that every board of them leaves a doubt.

A rule that is undecided fails somewhere within the readings: at the worse end of each. Where it fails at these ends for
all combinations of a box, taken together as one span, it holds for none of them. Whether it fails or is undecided there
is not said.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.part import Part
from fitdb.model.reading import Count, Reading
from fitdb.model.rule import AtLeast, AtMost, Between, Rule
from fitdb.model.trace import Trace
from fitdb.possible.questions import Place, Question, Traced, part_readings, span_of
from fitdb.steps.judge.box import SIZED_AT_A_POINT, is_unread, used
from fitdb.steps.judge.standing import standing

Ends = tuple[int, ...]  # by variable: -1 the low end, +1 the high one, 0 where there is one size or none


@dataclass(frozen=True, slots=True)
class Doubt:
    """Where a rule fails for one combination of parts: at one joint, with each reading at the end that is given."""

    question: Question
    joint: int
    frames: tuple[Any, ...]
    ends: Ends
    excuse_ends: Ends | None

    def over(self, mates: Sequence[Sequence[Part | None]]) -> bool:
        """Whether the rule holds for no combination of one part per position. All of a position look alike."""
        one = self.question.traced([some[0] for some in mates], self.frames)[self.joint]
        if not self._fails(one, 0, self.ends, mates):
            return False
        if len(one.traces) == 1 or self.question.silent_over(one, mates):
            return True
        return self.excuse_ends is not None and self._fails(one, 1, self.excuse_ends, mates)

    def _fails(self, one: Traced, which: int, ends: Ends, mates: Sequence[Sequence[Part | None]]) -> bool:
        readings = _at_ends(one.traces[which], one.places[which], mates, ends)
        return readings is not None and self.question.over(one.traces[which], readings).state == "fails"


def doubt_of(question: Question, parts: Sequence[Part | None], frames: tuple[Any, ...]) -> Doubt | None:
    """A doubt that these parts leave; None where none is found, for instance because a reading is not there."""
    alone = [[part] for part in parts]
    for joint, one in enumerate(question.traced(parts, frames)):
        excuses = _ends(question, one, 1, parts) if len(one.traces) > 1 else []
        for ends in _ends(question, one, 0, parts):
            for excuse_ends in (None, *excuses):
                doubt = Doubt(question, joint, frames, ends, excuse_ends)
                if doubt.over(alone):
                    return doubt
    return None


def _ends(question: Question, one: Traced, which: int, parts: Sequence[Part | None]) -> list[Ends]:
    """For each side of the limit the ends of the readings that lead there, each moved by itself from the middle."""
    followed = one.traces[which]
    readings = _seen(followed, part_readings(followed, one.places[which], parts))
    if readings is None:
        return []
    middle: list[Reading] = [_at(reading, 0) for reading in readings]
    down = []
    for at, reading in enumerate(readings):
        values = []
        for end in (-1, +1):
            moved = [*middle[:at], _at(reading, end), *middle[at + 1 :]] if _has_ends(reading) else middle
            values.append(standing(followed, moved, question.limits).nominal)
        low, high = values
        if low is None or high is None:
            return []
        down.append(0 if not _has_ends(reading) else -1 if low <= high else +1)
    up = tuple(-end for end in down)
    return [tuple(down) if side < 0 else up for side in _sides(followed.rule)]


def _sides(rule: Rule) -> tuple[int, ...]:
    """Which way a quantity fails: below its limit, above it, or either."""
    if isinstance(rule.hard, AtLeast):
        return (-1,)
    if isinstance(rule.hard, AtMost):
        return (+1,)
    return (-1, +1) if isinstance(rule.hard, Between) else ()


def _at_ends(
    followed: Trace, places: Sequence[Place | None], mates: Sequence[Sequence[Part | None]], ends: Ends
) -> list[Reading] | None:
    """By variable one reading that spans the ends of those of all parts at a position; None where one is not there."""
    found = []
    for variable, place, end in zip(followed.variables, places, ends, strict=True):
        some = [variable.reading]
        if place is not None and variable.reading is not None:
            some = [part.reading_at(*place[1:]) for part in mates[place[0]] if part is not None]
        seen = [used(reading, variable.described, followed.rule.severity) for reading in some]
        if not seen or any(is_unread(reading) for reading in seen):
            return None
        points = [_at(reading, end) for reading in seen if reading is not None]
        found.append(span_of(points) if isinstance(points[0], (*SIZED_AT_A_POINT, Count)) else points[0])
    return found


def _seen(followed: Trace, readings: Sequence[Reading | None]) -> list[Reading] | None:
    """The readings as the rule sees them; None where one is not there."""
    seen = [
        used(reading, variable.described, followed.rule.severity)
        for reading, variable in zip(readings, followed.variables, strict=True)
    ]
    taken = [reading for reading in seen if reading is not None and not is_unread(reading)]
    return taken if len(taken) == len(seen) else None


def _has_ends(reading: Reading) -> bool:
    return isinstance(reading, (*SIZED_AT_A_POINT, Count)) and reading.low < reading.high


def _at(reading: Reading, end: int) -> Reading:
    """The reading at one end of its span, or where it says 0 in its middle; as if somebody had read it so."""
    if isinstance(reading, Count):
        value = (reading.nominal, reading.values[-1], reading.values[0])[end]
        return dataclasses.replace(reading, values=(value,), nominal=value, value_assumed=False)
    if isinstance(reading, SIZED_AT_A_POINT):
        size = (reading.nominal, reading.high, reading.low)[end]
        return dataclasses.replace(reading, low=size, nominal=size, high=size, value_assumed=False)
    return reading

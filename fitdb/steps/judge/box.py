"""The box of readings that a rule is asked over, the range of its quantity there, and how that stands to the limit."""

from __future__ import annotations

import dataclasses
import itertools
import math
from collections.abc import Mapping, Sequence
from typing import Any

from fitdb.intake.readings import assumed
from fitdb.model.finding import Range
from fitdb.model.part import Attribute
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.rule import (
    AtLeast,
    AtMost,
    Between,
    Bound,
    Limit,
    NothingToGuard,
    NumberLimit,
    OneOf,
    Same,
    Severity,
    Shape,
)
from fitdb.model.trace import Trace
from fitdb.steps.judge.ranging import Ranged, ranged
from fitdb.steps.judge.solver_corners import ranged_at_corners

WORD_COMBINATIONS = 512
MOST_STAND_INS = 4096
SIZED_AT_A_POINT = (Number, Designation)


def used(reading: Reading | None, described: Attribute | None, severity: Severity) -> Reading | None:
    """The reading as a rule of this severity must see it: danger is never assumed away, so an assumed value widens."""
    if reading is not None and not reading.value_assumed:
        return reading
    if described is None:
        return reading
    stand_in = _stand_in(described, severity >= Severity.INJURY)
    return stand_in if reading is None or severity >= Severity.INJURY else reading


_stand_ins: dict[tuple[int, bool], tuple[Attribute, Reading | None]] = {}


def _stand_in(described: Attribute, widest: bool) -> Reading | None:
    """What is assumed, remembered by the identity of the attribute, which is kept so that it stays its own."""
    found = _stand_ins.get((id(described), widest))
    if found is None:
        if len(_stand_ins) >= MOST_STAND_INS:
            _stand_ins.clear()
        found = _stand_ins[id(described), widest] = (described, assumed(described, widest=widest))
    return found[1]


def is_unread(reading: Reading | None) -> bool:
    """Whether there is nothing to go by: no reading, or a word that may be any."""
    return reading is None or (isinstance(reading, Word) and reading.open_vocabulary and len(reading.possible) != 1)


def combinations_of_words(readings: tuple[Reading, ...]) -> list[tuple[str, ...]] | None:
    """Every combination of words still possible; None if there are too many to go through."""
    choices = [sorted(reading.possible) for reading in readings if isinstance(reading, Word)]
    if not choices:
        return [()]
    count = math.prod(max(len(choice), 1) for choice in choices)
    return list(itertools.product(*choices)) if count <= WORD_COMBINATIONS else None


def values_of(readings: tuple[Reading, ...], words: tuple[str, ...]) -> list[Any]:
    """Nominal values, with one word per Word reading taken from `words` in order."""
    left = iter(words)
    return [_nominal(reading) if not isinstance(reading, Word) else next(left) for reading in readings]


def _nominal(reading: Reading) -> Any:
    if isinstance(reading, SIZED_AT_A_POINT):
        return float(reading.nominal)
    if isinstance(reading, Outline):
        return dataclasses.replace(reading, spread=0.0)
    return reading.nominal if isinstance(reading, Count) else None


def words_compared(trace: Trace, readings: tuple[Reading, ...], words: tuple[str, ...]) -> tuple[str, ...]:
    """What a rule of words holds against each other, for one combination."""
    found = trace.quantity(values_of(readings, words))
    return (found,) if isinstance(found, str) else tuple(str(word) for word in found)


def words_pass(limit: Limit, compared: tuple[str, ...]) -> bool:
    if isinstance(limit, Same):
        return len(set(compared)) <= 1
    assert isinstance(limit, OneOf)
    return all(word in limit.words for word in compared)


def sides_of(readings: Sequence[Reading]) -> list[tuple[Any, ...]]:
    """Per reading its other values, low first and high last; none where it has no width."""
    sides: list[tuple[Any, ...]] = []
    for reading in readings:
        if isinstance(reading, SIZED_AT_A_POINT):
            low, high = reading.low, reading.high
            sides.append((float(low), float(high)) if high > low else ())
        elif isinstance(reading, Count):
            sides.append(reading.values if len(reading.values) > 1 else ())
        else:
            sides.append(())
    return sides


def range_of(
    trace: Trace, readings: tuple[Reading, ...], words: tuple[str, ...], *, swung: bool = True
) -> Ranged | None:
    """The range of the quantity for one combination of words; None where these words leave nothing to guard.

    swung: also what each reading does alone. Raises OurFault where the rule cannot be worked out.
    """
    nominal, sides = values_of(readings, words), sides_of(readings)
    try:
        if trace.rule.shape is Shape.ASKED:
            return ranged_at_corners(trace, nominal, sides, readings, swung=swung)
        quantity = trace.worked_out()
        row = quantity.row(nominal)
        if isinstance(row[quantity.at], NothingToGuard):
            return None
        return ranged(quantity, nominal, sides, trace.rule.shape, row=row)
    except (ArithmeticError, ValueError, TypeError) as fault:
        raise not_worked_out(trace, fault) from fault


def not_worked_out(trace: Trace, fault: Exception) -> OurFault:
    """Whatever goes wrong in the arithmetic of a rule is our fault, and says where."""
    return OurFault(f"the rule {trace.rule.id} could not be worked out at {trace.joint}: {fault}")


def merged(results: Sequence[Ranged], unit: str) -> Range:
    """The range over all combinations of words; its middle is a value at a point, not a mean of words."""
    return Range(
        min(result.low for result in results),
        sorted(result.nominal for result in results)[len(results) // 2],
        max(result.high for result in results),
        unit,
    )


def margin_of(limit: NumberLimit, value: Range, unit: str) -> Range:
    """The value against the limit; Between is two one-sided margins, the smaller told."""
    sides = []
    if isinstance(limit, AtLeast | Between):
        bound = limit.low.value
        sides.append((value.low - bound, value.nominal - bound, value.high - bound))
    if isinstance(limit, AtMost | Between):
        bound = limit.high.value
        sides.append((bound - value.high, bound - value.nominal, bound - value.low))
    low, nominal, high = (min(side[i] for side in sides) + 0.0 for i in range(3))
    return Range(clean(low), clean(nominal), clean(high), unit)


def outcome(limit: NumberLimit, value: Range, margin: Range, results: Sequence[Ranged]) -> tuple[str, str]:
    """The state, and the code that says why."""
    unsettled = any(result.unsettled for result in results)
    state = "holds" if margin.low >= 0 and not unsettled else "fails" if _surely_fails(limit, value) else "undecided"
    if state == "fails" and any(result.unsettled and result.high_open for result in results):
        state = "undecided"
    doubt = "solver_undecided" if unsettled else "straddles"
    code = {"holds": "holds", "fails": "fails", "undecided": doubt}[state]
    return state, code


def state_excused(state: str, other: str, other_code: str) -> str:
    """The state of a rule in the light of the rule that may speak it free.

    Where that rule straddles its limit, by readings taken or by where an assumed one may lie, a clash may not exist:
    this one is in doubt as well. Where nothing is known that it could go by, nothing speaks for this one.
    """
    if state not in ("fails", "undecided"):
        return state
    if other == "holds":
        return "excused"
    return "undecided" if other == "undecided" and other_code != "unread" else state


def _surely_fails(limit: NumberLimit, value: Range) -> bool:
    below = isinstance(limit, AtLeast | Between) and clean(value.high - limit.low.value) < 0
    above = isinstance(limit, AtMost | Between) and clean(limit.high.value - value.low) < 0
    return below or above


def clean(number: float) -> float:
    """Exactly on the limit is exactly on the limit, whatever the last bit of a binary fraction says."""
    return 0.0 if abs(number) < 1e-9 else number


def overlaid(limit: Any, limits: Mapping[str, float]) -> tuple[Any, tuple[tuple[str, bool], ...]]:
    """The limit with bounds replaced by key, and per replacement what was done and whether it loosened the rule."""
    done: list[tuple[str, bool]] = []

    def replaced(bound: Bound, looser: int) -> Bound:
        if bound.key not in limits or limits[bound.key] == bound.value:
            return bound
        value = limits[bound.key]
        done.append((f"{bound.key}: {value:g} instead of {bound.value:g}", (value - bound.value) * looser > 0))
        return Bound(bound.key, value, "own limit")

    if isinstance(limit, AtLeast):
        limit = AtLeast(replaced(limit.low, -1))
    elif isinstance(limit, AtMost):
        limit = AtMost(replaced(limit.high, +1))
    elif isinstance(limit, Between):
        limit = Between(replaced(limit.low, -1), replaced(limit.high, +1))
    return limit, tuple(done)

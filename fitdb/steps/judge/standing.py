"""How a rule stands at a joint and nothing told beside it, for those who ask of very many boards.

The range is the judge's own, worked out no further than its limit needs: where the middle holds, nobody asks how well a
board could do, and the first corner beyond the limit settles the doubt. Shares, precisions and sentences are the
judge's.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fitdb.model.reading import Reading
from fitdb.model.rule import AtLeast, AtMost, Between, NothingToGuard, NumberLimit, OneOf, Same, Shape
from fitdb.model.trace import Trace
from fitdb.steps.judge.box import (
    clean,
    combinations_of_words,
    is_unread,
    margin_of,
    merged,
    not_worked_out,
    outcome,
    overlaid,
    range_of,
    sides_of,
    state_excused,
    used,
    values_of,
    words_compared,
    words_pass,
)
from fitdb.steps.judge.ranging import Sought, finite, ranged


@dataclass(frozen=True, slots=True)
class Standing:
    """The state and code of the finding that the judge would give.

    nominal: the middle of the quantity, None where it has none; margin: the middle against the limit, at least 0 when
    it passes. beyond: how far the whole range lies beyond the limit where it fails, as a share of the range; 0
    elsewhere, and for what a solver works out.
    """

    state: str
    code: str = ""
    nominal: float | None = None
    margin: float | None = None
    beyond: float = 0.0


HAS_FLOOR, HAS_TOP = (AtLeast, Between), (AtMost, Between)
DOES_NOT_APPLY = Standing("excused", "does_not_apply")


def standing(trace: Trace, readings: Sequence[Reading | None], limits: Mapping[str, float]) -> Standing:
    """How the traced rule stands with these readings, one per variable of the trace, in place of the trace's own.

    Raises OurFault if the quantity is not finite inside the box.
    """
    rule = trace.rule
    if trace.wanted or trace.lacking:
        return Standing("not_asked")
    seen = tuple(
        used(reading, variable.described, rule.severity)
        for reading, variable in zip(readings, trace.variables, strict=True)
    )
    taken = tuple(reading for reading in seen if reading is not None)
    if len(taken) < len(seen) or any(map(is_unread, taken)):
        return Standing("undecided", "unread")
    combinations = combinations_of_words(taken)
    if combinations is None:
        return Standing("undecided", "too_many_words")
    if isinstance(rule.hard, Same | OneOf):
        passes = {words_pass(rule.hard, words_compared(trace, taken, words)) for words in combinations}
        return Standing("undecided" if len(passes) > 1 else "holds" if True in passes else "fails")
    if rule.shape is Shape.ASKED:
        return _asked(trace, taken, combinations, limits)
    try:
        return _ranged(trace, taken, combinations, limits)
    except (ArithmeticError, ValueError, TypeError) as fault:
        raise not_worked_out(trace, fault) from fault


def _asked(
    trace: Trace, taken: tuple[Reading, ...], combinations: Sequence[tuple[str, ...]], limits: Mapping[str, float]
) -> Standing:
    """A solver's range is always whole."""
    hard: NumberLimit = overlaid(trace.rule.hard, limits)[0]
    ranges = [range_of(trace, taken, words, swung=False) for words in combinations]
    results = [result for result in ranges if result is not None]
    if not results:
        return DOES_NOT_APPLY
    value = merged(results, trace.rule.unit)
    margin = margin_of(hard, value, trace.rule.unit)
    state, code = outcome(hard, value, margin, results)
    return Standing(state, code, value.nominal, margin.nominal)


def _ranged(
    trace: Trace, taken: tuple[Reading, ...], combinations: Sequence[tuple[str, ...]], limits: Mapping[str, float]
) -> Standing:
    """Every middle, and then no more of the ranges than the limit needs."""
    hard, quantity = trace.rule.hard, trace.worked_out()
    floor = limits.get(hard.low.key, hard.low.value) if isinstance(hard, HAS_FLOOR) else -math.inf
    top = limits.get(hard.high.key, hard.high.value) if isinstance(hard, HAS_TOP) else math.inf
    rows = []
    for words in combinations:
        nominal = values_of(taken, words)
        row = quantity.row(nominal)
        if not isinstance(row[quantity.at], NothingToGuard):
            rows.append((nominal, row))
    if not rows:
        return DOES_NOT_APPLY
    middles = sorted(finite(row[quantity.at]) for _, row in rows)
    low, middle, high = middles[0], middles[len(middles) // 2], middles[-1]
    state, sides = _state(floor, top, low, high), sides_of(taken)
    for nominal, row in rows:
        if state == "undecided":
            break
        found = ranged(quantity, nominal, sides, trace.rule.shape, _sought(state, floor, top, low), row)
        low, high = min(low, found.low), max(high, found.high)
        state = _state(floor, top, low, high)
    margin = clean(min(middle - floor, top - middle) + 0.0)
    beyond = 0.0
    if state == "fails":
        beyond = -clean(min(high - floor, top - low)) / (high - low) if high > low else math.inf
    return Standing(state, "straddles" if state == "undecided" else state, middle, margin, beyond)


def _state(floor: float, top: float, low: float, high: float) -> str:
    """How a range stands to the limit: the state that its finding tells."""
    if clean(high - floor) < 0 or clean(top - low) < 0:
        return "fails"
    return "holds" if clean(low - floor) >= 0 and clean(top - high) >= 0 else "undecided"


def excused(own: Standing, other: Standing) -> Standing:
    """A rule that fails or is undecided, in the light of the rule that may speak it free."""
    state = state_excused(own.state, other.state, other.code)
    return own if state == own.state else dataclasses.replace(own, state=state)


def _sought(state: str, floor: float, top: float, middle: float) -> Sought:
    """The ends of the range that can still change how the rule stands, given how its middle does."""
    if state == "holds":
        if top == math.inf:
            return Sought(high=False, enough=lambda low, high: clean(low - floor) < 0)
        if floor == -math.inf:
            return Sought(low=False, enough=lambda low, high: clean(top - high) < 0)
        return Sought(enough=lambda low, high: clean(low - floor) < 0 or clean(top - high) < 0)
    if clean(middle - floor) < 0:
        return Sought(low=False, enough=lambda low, high: clean(high - floor) >= 0)
    return Sought(high=False, enough=lambda low, high: clean(top - low) >= 0)

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
from fitdb.model.rule import AtLeast, AtMost, Between, NumberLimit, OneOf, Same
from fitdb.model.trace import Trace
from fitdb.steps.judge.box import (
    clean,
    combinations_of_words,
    is_unread,
    margin_of,
    merged,
    outcome,
    overlaid,
    range_of,
    state_excused,
    used,
    words_compared,
    words_pass,
)
from fitdb.steps.judge.ranging import Sought


@dataclass(frozen=True, slots=True)
class Standing:
    """The state and code of the finding that the judge would give.

    nominal: the middle of the quantity, None where it has none; margin: the middle against the limit, at least 0 when
    it passes. beyond: how far the whole range lies beyond the limit where it fails, as a share of the range; 0
    elsewhere.
    """

    state: str
    code: str = ""
    nominal: float | None = None
    margin: float | None = None
    beyond: float = 0.0


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
    hard: NumberLimit = overlaid(rule.hard, limits)[0]
    ranges = [range_of(trace, taken, words, lambda middle: _sought(hard, middle)) for words in combinations]
    results = [result for result in ranges if result is not None]
    if not results:
        return Standing("excused", "does_not_apply")
    value = merged(results, rule.unit)
    margin = margin_of(hard, value, rule.unit)
    state, code = outcome(hard, value, margin, results)
    width = value.high - value.low
    beyond = 0.0 if state != "fails" else -margin.high / width if width > 0 else math.inf
    return Standing(state, code, value.nominal, margin.nominal, beyond)


def excused(own: Standing, other: Standing) -> Standing:
    """A rule that fails or is undecided, in the light of the rule that may speak it free."""
    state = state_excused(own.state, other.state, other.code)
    return own if state == own.state else dataclasses.replace(own, state=state)


def _sought(limit: NumberLimit, middle: float) -> Sought:
    """The ends of the range that can still change how the rule stands, given where its middle is."""
    if isinstance(limit, AtLeast | Between) and clean(middle - limit.low.value) < 0:
        floor = limit.low.value
        return Sought(low=False, enough=lambda low, high: clean(high - floor) >= 0)
    if isinstance(limit, AtMost | Between) and clean(limit.high.value - middle) < 0:
        top = limit.high.value
        return Sought(high=False, enough=lambda low, high: clean(top - low) >= 0)
    if isinstance(limit, AtLeast):
        floor = limit.low.value
        return Sought(high=False, enough=lambda low, high: clean(low - floor) < 0)
    if isinstance(limit, AtMost):
        top = limit.high.value
        return Sought(low=False, enough=lambda low, high: clean(top - high) < 0)
    floor, top = limit.low.value, limit.high.value
    return Sought(enough=lambda low, high: clean(low - floor) < 0 or clean(top - high) < 0)

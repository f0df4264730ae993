"""Random points inside the box referee every rule's declared shape: holds holds at each, fails at none."""

from __future__ import annotations

import dataclasses
import random
from typing import Any

import pytest
from rules.example_traces import trace_of

from fitdb.model.reading import Count, Number, Outline, Word
from fitdb.model.rule import AtLeast, AtMost, Between, NothingToGuard, OneOf, Rule, Same, Shape, Unsettled
from fitdb.model.trace import Trace
from fitdb.rules import rulebook
from fitdb.steps.judge import judge

POINTS = {Shape.MONOTONE: 60, Shape.STEPPED: 60, Shape.SAMPLED: 60, Shape.ASKED: 6}
WIDENINGS = (0.0, 0.02, 0.3)


def widened(trace: Trace, share: float) -> Trace:
    """Every number of the trace spread by `share` of its size on both sides."""
    variables = []
    for variable in trace.variables:
        reading = variable.reading
        if isinstance(reading, Number) and share:
            reach = share * max(abs(reading.nominal), 0.1)
            low = reading.low - reach if reading.low < 0 else max(reading.low - reach, reading.low * 0.5)
            reading = dataclasses.replace(reading, low=low, high=reading.high + reach)
        variables.append(dataclasses.replace(variable, reading=reading))
    return dataclasses.replace(trace, variables=tuple(variables))


def point_in(trace: Trace, dice: random.Random) -> list[Any]:
    values: list[Any] = []
    for variable in trace.variables:
        reading = variable.reading
        if isinstance(reading, Number):
            values.append(dice.choice((reading.low, reading.high, dice.uniform(reading.low, reading.high))))
        elif isinstance(reading, Count):
            values.append(dice.choice(reading.values))
        elif isinstance(reading, Word):
            values.append(dice.choice(sorted(reading.possible)))
        elif isinstance(reading, Outline):
            values.append(dataclasses.replace(reading, spread=dice.uniform(-reading.spread, reading.spread)))
    return values


def passes(rule: Rule, value: Any) -> bool | None:
    """Whether one value of the quantity passes, None if a solver could not say."""
    limit = rule.hard
    if isinstance(value, Unsettled | NothingToGuard):
        return None
    if isinstance(limit, Same):
        return len(set(value)) <= 1
    if isinstance(limit, OneOf):
        return all(word in limit.words for word in ((value,) if isinstance(value, str) else value))
    above = value >= limit.low.value - 1e-9 if isinstance(limit, AtLeast | Between) else True
    below = value <= limit.high.value + 1e-9 if isinstance(limit, AtMost | Between) else True
    return above and below


@pytest.mark.parametrize("rule", rulebook().rules.values(), ids=lambda rule: rule.id)
def test_random_points_agree_with_the_verdict_over_the_box(rule: Rule) -> None:
    dice = random.Random(rule.id)
    for example in rule.examples:
        for share in WIDENINGS:
            trace = widened(trace_of(rule, example), share)
            finding = judge(trace)
            if finding.state not in ("holds", "fails"):
                continue
            for _ in range(POINTS[rule.shape]):
                point = point_in(trace, dice)
                told = passes(rule, trace.quantity(point))
                assert told is None or told == (finding.state == "holds"), (example.title, share, point)


@pytest.mark.parametrize("rule", rulebook().rules.values(), ids=lambda rule: rule.id)
def test_widening_a_spread_never_turns_undecided_into_decided(rule: Rule) -> None:
    for example in rule.examples:
        before = judge(trace_of(rule, example))
        for share in WIDENINGS[1:]:
            after = judge(widened(trace_of(rule, example), share))
            if before.state == "undecided":
                assert after.state == "undecided", (example.title, share)
            elif after.state in ("holds", "fails"):
                assert after.state == before.state, (example.title, share)

"""Turns the worked example of a rule into the trace that the judge takes, with no catalogue behind it."""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence
from typing import Any

from fitdb.model.reading import Count, Number, Outline, Reading, Word
from fitdb.model.rule import Example, Rule
from fitdb.model.source import Source
from fitdb.model.trace import Trace, Variable

WORKED_EXAMPLE = Source("worked_example", "caliper", "a worked example of the rulebook", "own reading")


def as_reading(value: Any) -> Reading:
    """A number, a (low, nominal, high) triple, a count, a word or `a|b`, or an Outline."""
    if isinstance(value, Outline):
        return value
    if isinstance(value, str):
        return Word(frozenset(value.split("|")), WORKED_EXAMPLE)
    if isinstance(value, int) and not isinstance(value, bool):
        return Count((value,), value, WORKED_EXAMPLE)
    if isinstance(value, set | frozenset):
        values = tuple(sorted(value))
        return Count(values, values[len(values) // 2], WORKED_EXAMPLE)
    if isinstance(value, tuple):
        low, nominal, high = value
        return Number(float(low), float(nominal), float(high), "", WORKED_EXAMPLE)
    return Number(float(value), float(value), float(value), "", WORKED_EXAMPLE)


def trace_of(rule: Rule, example: Example) -> Trace:
    """The trace of one example: every need is a reading of its own; one left out is unread (`role*` left out: none)."""
    unknown = set(example.given) - set(rule.needs)
    assert not unknown, f"{rule.id}: the example {example.title!r} gives {unknown}, which the rule does not need"
    variables: list[Variable] = []
    needs: list[Callable[[Sequence[Any]], Any]] = []
    for need in rule.needs:
        role, attribute = need.split(".", 1)
        if role.endswith("*"):
            start = len(variables)
            for number, value in enumerate(example.given.get(need, ())):
                variables.append(Variable(f"{role[:-1]}{number}", "", "", attribute, None, as_reading(value), need))
            needs.append(_slice_of(start, len(variables)))
            continue
        reading = as_reading(example.given[need]) if need in example.given else None
        needs.append(operator.itemgetter(len(variables)))
        variables.append(Variable(role, role, "", attribute, None, reading, need))
    constants = {constant.name: constant.value for constant in rule.constants}
    return Trace(rule, "example", tuple(variables), tuple(needs), constants)


def _slice_of(start: int, end: int) -> Callable[[Sequence[Any]], tuple[Any, ...]]:
    return lambda values: tuple(values[start:end])

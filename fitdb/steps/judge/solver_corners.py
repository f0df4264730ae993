"""The range of what a solver or a geometry program works out: asked at few corners, its needs ranged first."""

from __future__ import annotations

import dataclasses
import functools
import itertools
import math
import operator
from collections.abc import Callable, Sequence
from typing import Any

from fitdb.model.reading import Outline, Reading
from fitdb.model.rule import NothingToGuard, Shape, Unsettled
from fitdb.model.trace import Trace
from fitdb.model.worked_out import WorkedOut, in_one_step
from fitdb.steps.judge.ranging import BOTH_ENDS, Ranged, Swing, finite, ranged

MOST_SOLVER_CORNERS = 48


def ranged_at_corners(
    trace: Trace,
    nominal: Sequence[Any],
    sides: Sequence[tuple[Any, ...]],
    readings: Sequence[Reading],
    *,
    swung: bool,
) -> Ranged | None:
    """The range of a solver's quantity: asked once at nominal, once most generous, once meanest.

    None where it says that there is nothing to guard. Each need is ranged by itself first (a surveyed need over its own
    readings), then put at the end that its declared direction points to. A need of direction 0 that has width is asked
    at both ends. swung: also what each reading alone does, which takes as many questions again.
    """
    rule = trace.rule
    directions = rule.directions or (0,) * len(rule.needs)
    middle = [need(nominal) for need in trace.needs]

    def asked(values: Sequence[Any]) -> Any:
        return _remembered(rule.quantity, tuple(values), tuple(trace.constants.items()))

    centre = asked(middle)
    if isinstance(centre, NothingToGuard):
        return None
    ends = [_ends(trace, i, middle[i], nominal, sides, readings) for i in range(len(trace.needs))]

    def ask(sign: int) -> list[Any]:
        fixed = [
            (end[1] if direction * sign > 0 else end[0]) if direction else middle[i]
            for i, (direction, end) in enumerate(zip(directions, ends, strict=True))
        ]
        free = [i for i, direction in enumerate(directions) if not direction and ends[i][0] != ends[i][1]]
        if not free:
            return [asked(fixed)]
        choices = [_tried(ends[i], middle[i]) for i in free]
        corners = itertools.islice(itertools.product(*choices), MOST_SOLVER_CORNERS)
        answers = [asked(_with_all(fixed, free, corner)) for corner in corners]
        if math.prod(len(choice) for choice in choices) > MOST_SOLVER_CORNERS:
            answers.append(Unsettled("too much is unread to try every case: count and measure first"))
        return answers

    generous, mean = (ask(+1), ask(-1)) if any(a != b for a, b in ends) else ([centre], [centre])
    answers = [centre, *generous, *mean]
    settled = [finite(answer) for answer in answers if not isinstance(answer, Unsettled)]
    why = next((answer.why for answer in answers if isinstance(answer, Unsettled)), "")
    if not settled:
        return Ranged(0.0, 0.0, 0.0, (None,) * len(nominal), why, True)
    value = settled[0] if isinstance(centre, Unsettled) else finite(centre)
    moves = swung and min(settled) < max(settled)
    swings = _swings_by_need(trace, nominal, sides) if moves else ()
    return Ranged(
        min(settled),
        value,
        max(settled),
        swings or (None,) * len(nominal),
        why,
        all(isinstance(answer, Unsettled) for answer in generous),
    )


@functools.lru_cache(maxsize=8192)
def _remembered(quantity: Callable[..., Any], values: tuple[Any, ...], constants: tuple[tuple[str, Any], ...]) -> Any:
    """A solver's answer, remembered by its inputs: many parts share an interface, and a solver is slow."""
    return quantity(*values, **dict(constants))


def _tried(end: tuple[Any, Any], middle: Any) -> tuple[Any, ...]:
    """Every whole number between the ends of a count; the ends, the middle and, for a difference, no difference."""
    if isinstance(middle, int) and end[1] - end[0] < MOST_SOLVER_CORNERS:
        return tuple(range(end[0], end[1] + 1))
    within = isinstance(end[0], float) and end[0] < 0.0 < end[1]
    return (end[0], middle, end[1], 0.0) if within else (end[0], middle, end[1])


def _swings_by_need(trace: Trace, nominal: Sequence[Any], sides: Sequence[tuple[Any, ...]]) -> tuple[Swing | None, ...]:
    """What each reading alone does to a solver's quantity; a reading at which the solver gives up has no swing."""
    swings: list[Swing | None] = []
    for i, side in enumerate(sides):
        tried = [
            _remembered(
                trace.rule.quantity,
                tuple(need(_with(nominal, i, value)) for need in trace.needs),
                tuple(trace.constants.items()),
            )
            for value in side
        ]
        numbers = [float(value) for value in tried if not isinstance(value, Unsettled)]
        full = len(numbers) == len(tried) and numbers
        swings.append(Swing(numbers[0], numbers[-1], max(numbers) - min(numbers)) if full else None)
    return tuple(swings)


def _ends(
    trace: Trace,
    index: int,
    middle: Any,
    nominal: Sequence[Any],
    sides: Sequence[tuple[Any, ...]],
    readings: Sequence[Reading],
) -> tuple[Any, Any]:
    """Low and high end of one need of a solver rule: number, numbers, outline, or a word that does not move.

    Only the readings that the need follows are moved; a need that is a reading, or one reading per piece, has its ends.
    """
    need, reads = trace.needs[index], trace.reads[index] if trace.reads else tuple(range(len(nominal)))
    if isinstance(middle, Outline):
        same = [r for r in readings if isinstance(r, Outline) and (r.rings, r.holes) == (middle.rings, middle.holes)]
        # A surveyed outline carries its own spread; a read one lost it when it was put at its nominal shape.
        spread = max((r.spread for r in same), default=middle.spread)
        return dataclasses.replace(middle, spread=-spread), dataclasses.replace(middle, spread=spread)
    moved = [side if i in reads else () for i, side in enumerate(sides)]
    shape = Shape.MONOTONE if trace.turns and not trace.turns[index] else Shape.SAMPLED
    if isinstance(middle, tuple):
        if not all(isinstance(item, int | float) for item in middle):
            return middle, middle
        one_each = trace.rule.needs[index].partition(".")[0].endswith("*") and len(reads) == len(middle)
        if trace.reads and one_each:
            own = [_own_ends(moved[i], nominal[i]) for i in reads]
            return tuple(low for low, _ in own), tuple(high for _, high in own)
        items = [in_one_step(len(nominal), _item(need, k)) for k in range(len(middle))]
        found = [ranged(item, nominal, moved, shape, BOTH_ENDS) for item in items]
        return tuple(item.low for item in found), tuple(item.high for item in found)
    if isinstance(middle, bool) or not isinstance(middle, int | float):
        return middle, middle
    if trace.reads and isinstance(need, operator.itemgetter):
        low, high = _own_ends(moved[reads[0]], middle)
    else:
        size = need if isinstance(need, WorkedOut) else in_one_step(len(nominal), need)
        values = tuple(nominal[i] for i in size.reads)
        low, high = _ends_of_size(size, values, tuple(moved[i] for i in size.reads), shape)
    return (int(low), int(high)) if isinstance(middle, int) else (low, high)


@functools.lru_cache(maxsize=8192)
def _ends_of_size(
    size: WorkedOut, values: tuple[Any, ...], moved: tuple[tuple[Any, ...], ...], shape: Shape
) -> tuple[float, float]:
    """The ends of a size whose readings have these values and sides, remembered: the same parts meet again."""
    nominal: list[Any] = [None] * len(size.follows)
    sides: list[tuple[Any, ...]] = [()] * len(size.follows)
    for i, value, side in zip(size.reads, values, moved, strict=True):
        nominal[i], sides[i] = value, side
    found = ranged(size, nominal, sides, shape, BOTH_ENDS)
    return found.low, found.high


def _own_ends(side: tuple[Any, ...], middle: Any) -> tuple[Any, Any]:
    """A reading's own low and high; its value where it has no width."""
    return (min(*side, middle), max(*side, middle)) if side else (middle, middle)


def _item(need: Callable[[Sequence[Any]], Any], k: int) -> Callable[[Sequence[Any]], Any]:
    return lambda values: need(values)[k]


def _with(values: Sequence[Any], i: int, value: Any) -> list[Any]:
    changed = list(values)
    changed[i] = value
    return changed


def _with_all(values: Sequence[Any], places: Sequence[int], new: Sequence[Any]) -> list[Any]:
    changed = list(values)
    for i, value in zip(places, new, strict=True):
        changed[i] = value
    return changed

"""The range of a quantity over a box of readings: nominal, each reading low and high, two corners, polished."""

from __future__ import annotations

import dataclasses
import functools
import itertools
import math
import operator
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.problems import OurFault
from fitdb.model.reading import Outline, Reading
from fitdb.model.rule import Shape, Unsettled
from fitdb.model.trace import Trace

EVERY_CORNER_UP_TO = 4
MOST_CORNERS = 1024
MOST_SOLVER_CORNERS = 48
SAMPLES = 96
CLIMBS = 2
GRID = 17


@dataclass(frozen=True, slots=True)
class Swing:
    """The quantity with one reading at its low and its high end, all else nominal; `width` over everything tried."""

    at_low: float
    at_high: float
    width: float


@dataclass(frozen=True, slots=True)
class Ranged:
    """Low, nominal and high of the quantity, with the swing of each reading.

    unsettled: why a solver could not say; high_open: even the most generous corner was left open.
    """

    low: float
    nominal: float
    high: float
    swings: tuple[Swing | None, ...]
    unsettled: str = ""
    high_open: bool = False


@dataclass(frozen=True, slots=True)
class Sought:
    """Which ends of a range are asked for, and when enough of it is known. An end not asked for may be too near."""

    low: bool = True
    high: bool = True
    enough: Callable[[float, float], bool] = lambda low, high: False


WHOLE = Sought()


def ranged(
    quantity: Callable[[Sequence[Any]], Any],
    nominal: Sequence[Any],
    sides: Sequence[tuple[Any, ...]],
    shape: Shape,
    sought: Sought = WHOLE,
) -> Ranged:
    """The range of `quantity` over the box.

    `nominal` is one value per reading; `sides` its other values, low first and high last, empty where it has no
    width. MONOTONE and STEPPED look at corners only; SAMPLED looks inside as well. Of a range of which not all is
    sought there are no swings to rely on.
    """
    middle = _finite(quantity(nominal))
    wide = [i for i, side in enumerate(sides) if side]
    swings: list[Swing | None] = [None] * len(nominal)
    low = high = middle
    up, down = list(nominal), list(nominal)
    level: list[int] = []
    for i in wide:
        tried = [_finite(quantity(_with(nominal, i, value))) for value in sides[i]]
        at_low, at_high = tried[0], tried[-1]
        swings[i] = Swing(at_low, at_high, max(*tried, middle) - min(*tried, middle))
        low, high = min(low, *tried), max(high, *tried)
        best = max(range(len(tried)), key=tried.__getitem__)
        least = min(range(len(tried)), key=tried.__getitem__)
        up[i], down[i] = sides[i][best], sides[i][least]
        if at_low == at_high:
            level.append(i)
    if not wide or sought.enough(low, high):
        return Ranged(low, middle, high, tuple(swings))
    if len(wide) <= EVERY_CORNER_UP_TO:
        for corner in itertools.product(*_few([sides[i] for i in wide])):
            value = _finite(quantity(_with_all(nominal, wide, corner)))
            low, high = min(low, value), max(high, value)
            if sought.enough(low, high):
                break
    else:
        if sought.high:
            high = max(high, _polished(quantity, up, sides, wide, +1))
        if sought.low:
            low = min(low, -_polished(quantity, down, sides, wide, -1))
        # Readings that moved nothing alone may do so together: a step can need two of them.
        for corner in itertools.product(*_few([sides[i] for i in level[:EVERY_CORNER_UP_TO]])):
            if sought.enough(low, high):
                break
            chosen = level[:EVERY_CORNER_UP_TO]
            if sought.high:
                high = max(high, _finite(quantity(_with_all(up, chosen, corner))))
            if sought.low:
                low = min(low, _finite(quantity(_with_all(down, chosen, corner))))
    if shape is Shape.SAMPLED and not sought.enough(low, high):
        seen = sorted(
            ((_finite(quantity(point)), point) for point in _inside(nominal, sides, wide)), key=lambda pair: pair[0]
        )
        # Every point counts for both ends, also where only one is climbed to: in a range seen too narrow, what lies
        # beyond a limit would look further beyond it.
        low, high = min(low, seen[0][0]), max(high, seen[-1][0])
        grids = [_grid(side, isinstance(nominal[i], int)) for i, side in enumerate(sides)]
        for _, point in seen[:CLIMBS] if sought.low else ():
            low = min(low, -_polished(quantity, point, grids, wide, -1))
        for _, point in seen[-CLIMBS:] if sought.high else ():
            high = max(high, _polished(quantity, point, grids, wide, +1))
    return Ranged(low, middle, high, tuple(swings))


def ranged_at_corners(
    trace: Trace,
    nominal: Sequence[Any],
    sides: Sequence[tuple[Any, ...]],
    readings: Sequence[Reading],
    *,
    swung: bool,
) -> Ranged:
    """The range of a solver's quantity: asked once at nominal, once most generous, once meanest.

    Each need is ranged by itself first (a surveyed need over its own readings), then put at the end that its
    declared direction points to. A need of direction 0 that has width is asked at both ends. swung: also what each
    reading alone does, which takes as many questions again.
    """
    rule = trace.rule
    directions = rule.directions or (0,) * len(rule.needs)
    ends = [_ends(trace, i, nominal, sides, readings) for i in range(len(trace.needs))]
    middle = [need(nominal) for need in trace.needs]

    def asked(values: Sequence[Any]) -> Any:
        return _remembered(rule.quantity, tuple(values), tuple(trace.constants.items()))

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

    centre = asked(middle)
    generous, mean = (ask(+1), ask(-1)) if any(a != b for a, b in ends) else ([centre], [centre])
    answers = [centre, *generous, *mean]
    settled = [_finite(answer) for answer in answers if not isinstance(answer, Unsettled)]
    why = next((answer.why for answer in answers if isinstance(answer, Unsettled)), "")
    if not settled:
        return Ranged(0.0, 0.0, 0.0, (None,) * len(nominal), why, True)
    value = settled[0] if isinstance(centre, Unsettled) else _finite(centre)
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
    nominal: Sequence[Any],
    sides: Sequence[tuple[Any, ...]],
    readings: Sequence[Reading],
) -> tuple[Any, Any]:
    """Low and high end of one need of a solver rule: number, numbers, outline, or a word that does not move.

    Only the readings that the need follows are moved; a need that is a reading, or one reading per piece, has its ends.
    """
    need, reads = trace.needs[index], trace.reads[index] if trace.reads else tuple(range(len(nominal)))
    middle = need(nominal)
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
        found = [ranged(_item(need, k), nominal, moved, shape) for k in range(len(middle))]
        return tuple(item.low for item in found), tuple(item.high for item in found)
    if isinstance(middle, bool) or not isinstance(middle, int | float):
        return middle, middle
    if trace.reads and isinstance(need, operator.itemgetter):
        low, high = _own_ends(moved[reads[0]], middle)
    else:
        worked_out = ranged(need, nominal, moved, shape)
        low, high = worked_out.low, worked_out.high
    return (int(low), int(high)) if isinstance(middle, int) else (low, high)


def _own_ends(side: tuple[Any, ...], middle: Any) -> tuple[Any, Any]:
    """A reading's own low and high; its value where it has no width."""
    return (min(*side, middle), max(*side, middle)) if side else (middle, middle)


def _item(need: Callable[[Sequence[Any]], Any], k: int) -> Callable[[Sequence[Any]], Any]:
    return lambda values: need(values)[k]


def _polished(
    quantity: Callable[[Sequence[Any]], Any],
    corner: list[Any],
    sides: Sequence[tuple[Any, ...]],
    wide: Sequence[int],
    sign: int,
) -> float:
    """`sign` times the best value reached from `corner` by single flips, repeated while they help."""
    best = sign * _finite(quantity(corner))
    for _ in range(len(wide)):
        before = best
        for i in wide:
            for value in sides[i]:
                trial = _with(corner, i, value)
                found = sign * _finite(quantity(trial))
                if found > best:
                    best, corner = found, trial
        if best == before:
            break
    return best


def _inside(nominal: Sequence[Any], sides: Sequence[tuple[Any, ...]], wide: Sequence[int]) -> list[list[Any]]:
    """Evenly spread points inside the box, the same on every run (an additive recurrence with irrational steps)."""
    points = []
    for n in range(1, SAMPLES + 1):
        point = list(nominal)
        for k, i in enumerate(wide):
            low, high = sides[i][0], sides[i][-1]
            fraction = _FRACTIONS[n - 1][k % len(_PRIMES)]
            whole = isinstance(nominal[i], int)
            point[i] = (
                sides[i][min(int(fraction * len(sides[i])), len(sides[i]) - 1)]
                if whole
                else low + fraction * (high - low)
            )
        points.append(point)
    return points


def _grid(side: tuple[Any, ...], whole: bool) -> tuple[Any, ...]:
    """Evenly spaced values of a side, for climbing inside the box; a count keeps its own."""
    if not side or whole:
        return side
    low, high = side[0], side[-1]
    return tuple(low + (high - low) * k / (GRID - 1) for k in range(GRID))


def _few(choices: list[tuple[Any, ...]]) -> list[tuple[Any, ...]]:
    """The choices, or their two ends where an unread count would make too many corners of them."""
    if math.prod(len(choice) for choice in choices) <= MOST_CORNERS:
        return choices
    return [(choice[0], choice[-1]) for choice in choices]


_PRIMES = (2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37)
_FRACTIONS = [[math.fmod(n * math.sqrt(prime), 1.0) for prime in _PRIMES] for n in range(1, SAMPLES + 1)]


def _with(values: Sequence[Any], i: int, value: Any) -> list[Any]:
    changed = list(values)
    changed[i] = value
    return changed


def _with_all(values: Sequence[Any], places: Sequence[int], new: Sequence[Any]) -> list[Any]:
    changed = list(values)
    for i, value in zip(places, new, strict=True):
        changed[i] = value
    return changed


def _finite(value: Any) -> float:
    if not isinstance(value, int | float) or isinstance(value, bool) or not math.isfinite(value):
        raise OurFault(f"a quantity must be one finite number, and this one said {value!r}")
    return float(value)

"""The range of a quantity over a box of readings: nominal, each reading low and high, two corners, polished."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.problems import OurFault
from fitdb.model.rule import NothingToGuard, Shape
from fitdb.model.worked_out import WorkedOut

EVERY_CORNER_UP_TO = 4
MOST_CORNERS = 1024
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
    """Which ends of a range are asked for, and when enough of it is known. An end not asked for may be too near.

    swings: also what each reading does alone.
    """

    low: bool = True
    high: bool = True
    enough: Callable[[float, float], bool] = lambda low, high: False
    swings: bool = False


WHOLE = Sought(swings=True)
BOTH_ENDS = Sought()


class _Reach:
    """How far the range of a quantity has been found to go; done when that is enough."""

    def __init__(self, quantity: WorkedOut, middle: float, sought: Sought) -> None:
        self.quantity, self.middle, self.sought = quantity, middle, sought
        self.low = self.high = middle
        self.done = False

    def at(self, row: list[Any]) -> float:
        """The number in a row; where a row leaves nothing to guard, nothing worse than in the middle."""
        value = row[self.quantity.at]
        if type(value) is float and math.isfinite(value):
            return value
        return self.middle if isinstance(value, NothingToGuard) else finite(value)

    def along(self, row: list[Any], variable: int, side: tuple[Any, ...]) -> list[float]:
        """The numbers where one variable of the row takes each value of its side, all else as it stands.

        One row is written over for all of them: most of what is asked of a range is asked here.
        """
        at, follows = self.quantity.at, self.quantity.follows[variable]
        there = row.copy()
        found = []
        for value in side:
            there[variable] = value
            for place, quantity, takes in follows:
                there[place] = quantity(*takes(there))
            number = there[at]
            found.append(number if type(number) is float and math.isfinite(number) else self.at(there))
        return found

    def to(self, value: float, sign: int = 0) -> None:
        """The range goes as far as this value; sign +1: told of the high end only, -1: of the low end only."""
        if value > self.high and sign >= 0:
            self.high = value
        elif value < self.low and sign <= 0:
            self.low = value
        else:
            return
        self.done = self.sought.enough(self.low, self.high)


def ranged(
    quantity: WorkedOut,
    nominal: Sequence[Any],
    sides: Sequence[tuple[Any, ...]],
    shape: Shape,
    sought: Sought = WHOLE,
    row: list[Any] | None = None,
) -> Ranged:
    """The range of `quantity` over the box; `row` is its row at nominal, where it is known.

    `nominal` is one value per reading; `sides` its other values, low first and high last, empty where it has no
    width. MONOTONE and STEPPED look at corners only; SAMPLED looks inside as well. Once enough is known nothing more
    is looked at.
    """
    row = quantity.row(nominal) if row is None else row
    reach = _Reach(quantity, finite(row[quantity.at]), sought)
    middle = reach.middle
    wide = [i for i, side in enumerate(sides) if side]
    swings: list[Swing | None] = [None] * len(nominal)
    up, down = list(nominal), list(nominal)
    level: list[int] = []
    for i in wide:
        side = sides[i]
        tried = reach.along(row, i, side)
        least, most = min(tried), max(tried)
        if least < reach.low or most > reach.high:
            reach.to(least)
            reach.to(most)
            if reach.done:
                break
        if sought.swings:
            swings[i] = Swing(tried[0], tried[-1], max(most, middle) - min(least, middle))
        up[i], down[i] = side[tried.index(most)], side[tried.index(least)]
        if tried[0] == tried[-1]:
            level.append(i)
    if wide and not reach.done:
        ways = [(sign, corner) for sign, corner, asked in ((+1, up, sought.high), (-1, down, sought.low)) if asked]
        if len(wide) <= EVERY_CORNER_UP_TO:
            _try_corners(reach, quantity.row(ways[0][1]), wide, sides)
        else:
            for sign, corner in ways:
                start = quantity.row(corner)
                _polish(reach, start, sides, wide, sign)
                # Readings that moved nothing alone may do so together: a step can need two of them.
                _try_corners(reach, start, level[:EVERY_CORNER_UP_TO], sides, sign)
        if shape is Shape.SAMPLED and not reach.done:
            _sample(reach, nominal, sides, wide)
    return Ranged(reach.low, middle, reach.high, tuple(swings))


def _polish(reach: _Reach, row: list[Any], sides: Sequence[tuple[Any, ...]], wide: Sequence[int], sign: int) -> None:
    """Goes from a corner to the highest value (sign -1: the lowest) by single flips, repeated while they help."""
    quantity = reach.quantity
    best = reach.at(row)
    reach.to(best, sign)
    helped = -1
    for _ in wide:
        for i in wide:
            if reach.done or i == helped:  # since that one helped, every other has been tried
                return
            for value in sides[i]:
                if value == row[i]:
                    continue
                trial = quantity.moved(row, i, value)
                found = reach.at(trial)
                if found > best if sign > 0 else found < best:
                    best, row, helped = found, trial, i
                    reach.to(best, sign)
        if helped < 0:
            return


def _try_corners(
    reach: _Reach, row: list[Any], places: Sequence[int], sides: Sequence[tuple[Any, ...]], sign: int = 0
) -> None:
    """Tries every corner of these readings, all else as in the row; the row itself first where it is one."""
    if not places or reach.done:
        return
    quantity = reach.quantity
    choices = _few([sides[i] for i in places])
    if all(row[i] in choice for i, choice in zip(places, choices, strict=True)):
        reach.to(reach.at(row), sign)
    rows = [row]
    for i, choice in zip(places[:-1], choices[:-1], strict=True):
        rows = [one if value == one[i] else quantity.moved(one, i, value) for one in rows for value in choice]
    for one in rows:
        for value in choices[-1]:
            if reach.done:
                return
            last = places[-1]
            reach.to(reach.at(one if value == one[last] else quantity.moved(one, last, value)), sign)


def _sample(reach: _Reach, nominal: Sequence[Any], sides: Sequence[tuple[Any, ...]], wide: Sequence[int]) -> None:
    """Looks at points inside the box, and climbs from the best of them.

    Every point counts for both ends, also where only one is climbed to: in a range seen too narrow, what lies beyond a
    limit would look further beyond it.
    """
    seen: list[tuple[float, list[Any]]] = []
    for point in _inside(nominal, sides, wide):
        row = reach.quantity.row(point)
        seen.append((reach.at(row), row))
        reach.to(seen[-1][0])
        if reach.done:
            return
    seen.sort(key=lambda pair: pair[0])
    grids = [_grid(side, isinstance(nominal[i], int)) for i, side in enumerate(sides)]
    for _, row in seen[:CLIMBS] if reach.sought.low else ():
        _polish(reach, row, grids, wide, -1)
    for _, row in seen[-CLIMBS:] if reach.sought.high else ():
        _polish(reach, row, grids, wide, +1)


def _inside(nominal: Sequence[Any], sides: Sequence[tuple[Any, ...]], wide: Sequence[int]) -> Iterator[list[Any]]:
    """Evenly spread points inside the box, the same on every run (an additive recurrence with irrational steps)."""
    for fractions in _FRACTIONS:
        point = list(nominal)
        for k, i in enumerate(wide):
            side, fraction = sides[i], fractions[k % len(_PRIMES)]
            if isinstance(nominal[i], int):
                point[i] = side[min(int(fraction * len(side)), len(side) - 1)]
            else:
                point[i] = side[0] + fraction * (side[-1] - side[0])
        yield point


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


def finite(value: Any) -> float:
    """The one number that a quantity said. Raises OurFault if it said anything else."""
    if not isinstance(value, int | float) or isinstance(value, bool) or not math.isfinite(value):
        raise OurFault(f"a quantity must be one finite number, and this one said {value!r}")
    return float(value)

"""A quick refusal for two hole patterns whose screws must all meet, by how far their holes lie apart (J39). In mm."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence

DrawnHole = tuple[float, float, float, float, float]
RESOLUTION = 0.05


def misfit_by_neighbours(holes_a: Sequence[DrawnHole], holes_b: Sequence[DrawnHole]) -> float:
    """A misfit that no motion undercuts if every hole of the smaller pattern has to meet one of the larger, mm.

    Where all middles meet within a misfit m, distances of holes in one pattern return in the other within 2·m, and
    within the length of both slots. So a hole of the smaller pattern can only meet a hole of the larger that has, one
    by one, such distances to others. The largest m at which some hole finds no such hole, to 0.05 mm below. Patterns
    of equally many holes are compared both ways. Holes are (x, y, diameter, slot length, slot angle). Source: triangle
    inequality. A weak bound: 0 says nothing.
    """
    return _misfit(tuple(hole[:4] for hole in holes_a), tuple(hole[:4] for hole in holes_b))


@functools.lru_cache(maxsize=512)
def _misfit(holes_a: tuple[tuple[float, ...], ...], holes_b: tuple[tuple[float, ...], ...]) -> float:
    if min(len(holes_a), len(holes_b)) < 2:
        return 0.0
    slots = max(hole[3] for hole in holes_a) + max(hole[3] for hole in holes_b)
    sides = (_distances(holes_a), _distances(holes_b))
    ways = [(own, other) for own, other in (sides, sides[::-1]) if len(own) <= len(other)]

    def refused(misfit: float) -> bool:
        within = slots + 2.0 * misfit
        return any(not any(_found_again(here, there, within) for there in other) for own, other in ways for here in own)

    if not refused(0.0):
        return 0.0
    low, high = 0.0, max(max(distances) for side in sides for distances in side)
    while high - low > RESOLUTION:
        middle = (low + high) / 2.0
        low, high = (middle, high) if refused(middle) else (low, middle)
    return low


def _distances(holes: tuple[tuple[float, ...], ...]) -> list[list[float]]:
    """Per hole the distances to all others, rising."""
    return [
        sorted(math.dist(hole[:2], other[:2]) for k, other in enumerate(holes) if k != n)
        for n, hole in enumerate(holes)
    ]


def _found_again(here: list[float], there: list[float], within: float) -> bool:
    """Whether every distance of `here` has one of its own among `there`, at most `within` off. Both lists rise."""
    at = 0
    for distance in here:
        while at < len(there) and there[at] < distance - within:
            at += 1
        if at == len(there) or there[at] > distance + within:
            return False
        at += 1
    return True

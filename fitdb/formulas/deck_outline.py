"""The plan of a deck about one axle: half widths of the wood by distance from the axle, from rings that somebody drew.

A ring is drawn with the axle's middle at (0, 0), x along the board and y across it, in mm. One quarter is enough
(x and y not below zero); a whole plan is folded over both lines, and the wider half counts at each distance.
"""

import functools
import itertools
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Segment = tuple[float, float, float, float]

FAR = 1e6


@functools.lru_cache(maxsize=512)
def half_widths(rings: tuple[tuple[Point, ...], ...], outward: float = 0.0) -> tuple[Point, ...]:
    """Points (distance from the axle, half width), distances rising from 0, with a step to 0 where the wood ends.

    ``outward`` moves every edge of the wood outward by so much (inward if negative), a corner by as much in both
    directions. Two points at one distance are a step. Wood inboard of an edge is taken as solid, so an opening inside
    the wood does not count. Raises ValueError if nothing is drawn.
    """
    edges = [edge for ring in rings for edge in _folded(ring)]
    if not edges:
        raise ValueError("half_widths: no ring is drawn; give at least one closed ring about the axle")
    points = _with_ends(_upper(edges))
    if outward > 0.0:
        points = _with_ends(_upper([_raised(edge, outward) for edge in _widened(_mirrored(points), outward)]))
    elif outward < 0.0:
        air = [(x1, -y1, x2, -y2) for x1, y1, x2, y2 in [*_mirrored(points), (points[-1][0], 0.0, FAR, 0.0)]]
        kept = _upper(_widened(air, -outward))
        points = _with_ends([(x, max(0.0, -y + outward)) for x, y in kept if x < FAR / 2.0])
    return tuple(points)


def _folded(ring: Sequence[Point]) -> Iterable[Segment]:
    """The edges of a ring, cut at x = 0, with |x| and |y|, each running toward larger x."""
    for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True):
        pieces = [(x1, y1, x2, y2)]
        if x1 * x2 < 0.0:
            y0 = y1 + (y2 - y1) * x1 / (x1 - x2)
            pieces = [(x1, y1, 0.0, y0), (0.0, y0, x2, y2)]
        for a, b, c, d in pieces:
            yield _rising((abs(a), abs(b), abs(c), abs(d)))


def _rising(edge: Segment) -> Segment:
    x1, y1, x2, y2 = edge
    return edge if x1 <= x2 else (x2, y2, x1, y1)


def _upper(edges: Sequence[Segment]) -> list[Point]:
    """The upper bound of segments over x >= 0, as points; a gap between them counts as 0."""
    slanted = [edge for edge in edges if edge[2] > edge[0] and edge[2] > 0.0]
    breaks = {0.0}
    for x1, _, x2, _ in slanted:
        breaks.update((max(0.0, x1), x2))
    for i, one in enumerate(slanted):
        for other in slanted[:i]:
            crossing = _crossing(one, other)
            if crossing is not None and crossing > 0.0:
                breaks.add(crossing)
    places = sorted(breaks)
    points: list[Point] = []
    for near, far in itertools.pairwise(places):
        middle = 0.5 * (near + far)
        over = [edge for edge in slanted if edge[0] <= near and edge[2] >= far]
        if over:
            top = max(over, key=lambda edge: _at(edge, middle))
            points += [(near, _at(top, near)), (far, _at(top, far))]
        else:
            points += [(near, 0.0), (far, 0.0)]
    return points


def _at(edge: Segment, x: float) -> float:
    x1, y1, x2, y2 = edge
    return y1 + (y2 - y1) * (x - x1) / (x2 - x1)


def _crossing(one: Segment, other: Segment) -> float | None:
    low, high = max(one[0], other[0]), min(one[2], other[2])
    if high <= low:
        return None
    before, after = _at(one, low) - _at(other, low), _at(one, high) - _at(other, high)
    if before * after >= 0.0:
        return None
    return low + (high - low) * before / (before - after)


def _with_ends(points: Sequence[Point]) -> list[Point]:
    """Points without repeats, and a step to 0 behind the last one."""
    kept: list[Point] = []
    for point in points:
        if not kept or point != kept[-1]:
            kept.append(point)
    if kept and kept[-1][1] > 0.0:
        kept.append((kept[-1][0], 0.0))
    return kept or [(0.0, 0.0)]


def _mirrored(points: Sequence[Point]) -> list[Segment]:
    """The edges between points, steps included, and the same behind the axle."""
    edges = [(x1, y1, x2, y2) for (x1, y1), (x2, y2) in itertools.pairwise(points)]
    return [*edges, *((-x2, y2, -x1, y1) for x1, y1, x2, y2 in edges)]


def _widened(edges: Iterable[Segment], reach: float) -> list[Segment]:
    """What bounds edges from above when they may move by `reach` along the board either way."""
    wide: list[Segment] = []
    for x1, y1, x2, y2 in edges:
        wide += [(x1 - reach, y1, x2 - reach, y2), (x1 + reach, y1, x2 + reach, y2)]
        wide += [(x1 - reach, y1, x1 + reach, y1), (x2 - reach, y2, x2 + reach, y2)]
    return wide


def _raised(edge: Segment, by: float) -> Segment:
    x1, y1, x2, y2 = edge
    return (x1, y1 + by, x2, y2 + by)

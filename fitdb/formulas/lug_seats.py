"""Room of lugs in windows where either side may be drawn or given by its sizes alone (J15)."""

from __future__ import annotations

import functools
import math

from fitdb.formulas.core_windows import (
    ARC_SAGITTA_MM,
    lug_outlines,
    lugs_clearance,
    outline_clearance,
    repeated_outline,
    window_outlines,
)

Ring = tuple[tuple[float, float], ...]
EVEN_WITHIN_MM = 0.005  # drawings are written down to hundredths or thousandths
THINNEST_MM = 1e-3  # a size of zero or less is drawn as a hair, so that it still says how far the lug stands out


def lug_room(
    window: tuple[int, float, float, float, float],
    window_rings: tuple[Ring, ...],
    lug: tuple[int, float, float, float, float],
    lug_rings: tuple[Ring, ...],
) -> tuple[float, float]:
    """Least distance of any lug from the edge of its window at the best turn of the pulley, and a bound on it; mm.

    ``window`` and ``lug``: count, inner radius, outer radius, width, corner radius, in mm; used where no rings are
    drawn. ``window_rings``, ``lug_rings``: outlines in mm about the wheel axis, or none. Negative: by so much the worst
    lug stands out of its window. The counts enter only where the drawn side is unevenly spaced and the other is not
    drawn, or where neither is: then the worst lug stands off its window by :func:`off_window_deg`. With both sides
    drawn the drawings count. No turn does better than the second number. Source: plane geometry.
    """
    if not window_rings and not lug_rings:
        turned = _turned(_lug(1, lug)[0], off_window_deg(window[0], lug[0]))
        room = outline_clearance(turned, _window(1, window)[0])
        return room, room + 2.0 * ARC_SAGITTA_MM
    windows = window_rings or (_window(window[0], window) if window[0] > 0 else ())
    lugs = lug_rings or _lug(max(lug[0], 1), lug)
    if not windows:
        room = outline_clearance(lugs[0], _window(1, (1, lug[1], lug[2], 0.0, 0.0))[0])
        return room, room + 2.0 * ARC_SAGITTA_MM
    even_windows, off_windows = evened_ring(windows)
    even_lugs, off_lugs = evened_ring(lugs)
    moved = (off_windows or 0.0) + (off_lugs or 0.0)
    if not lug_rings and off_windows is not None:
        return _searched(even_windows[:1], _lug(1, lug), moved)
    if not window_rings and off_lugs is not None:
        return _searched(_window(1, window), even_lugs[:1], moved)
    return _searched(even_windows, even_lugs, moved)


def off_window_deg(window_count: int, lug_count: int) -> float:
    """Angle by which the worst lug stands off the middle of its window at the best turn, degrees.

    n lugs and N windows, each evenly spaced: the lugs' places within a window's pitch of 360/N are spread evenly in
    steps of 360/lcm(n, N), and the best turn puts that spread in the middle: θ = 180/N − 180/lcm(n, N), which is 0 if
    the counts divide. A solid core has no window to stand off; 0 is told, and that there is none is another question.
    Source: plane geometry.
    """
    if window_count < 1 or lug_count < 1:
        return 0.0
    return 180.0 / window_count - 180.0 / math.lcm(window_count, lug_count)


def _turned(ring: Ring, degrees: float) -> Ring:
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in ring)


@functools.lru_cache(maxsize=512)
def _searched(windows: tuple[Ring, ...], lugs: tuple[Ring, ...], moved_mm: float) -> tuple[float, float]:
    """The search over turns, kept: a rule asks the same drawing again for every reading that does not touch it."""
    best = lugs_clearance(windows, lugs)
    return best.clearance_mm - moved_mm, best.bound_mm + 2.0 * ARC_SAGITTA_MM + moved_mm


def evened_ring(rings: tuple[Ring, ...]) -> tuple[tuple[Ring, ...], float | None]:
    """Rings that but for rounding are turned copies of their first, as exact copies; and how far any corner moved.

    A ring of exact copies is searched many times faster. Rings further than EVEN_WITHIN_MM from copies stay as they are
    and the second answer is None. Source: plane geometry.
    """
    copies = repeated_outline(rings[0], len(rings))
    if any(len(one) != len(copy) for one, copy in zip(rings, copies, strict=True)):
        return rings, None
    moved = max(
        math.dist(a, b) for one, copy in zip(rings, copies, strict=True) for a, b in zip(one, copy, strict=True)
    )
    return (copies, moved) if moved <= EVEN_WITHIN_MM else (rings, None)


def offset_rings(rings: tuple[Ring, ...], outward_mm: float) -> tuple[Ring, ...]:
    """Every ring with its edges moved outward by ``outward_mm`` (inward if negative), corners kept sharp.

    A ring that vanishes leaves a hair in its middle, so that a drawn ring is never taken for one that nobody drew; one
    that moving inward cuts in two becomes two. Source: plane geometry.
    """
    if outward_mm == 0.0:
        return rings
    import shapely

    moved: list[Ring] = []
    for ring in rings:
        drawn = shapely.Polygon(ring)
        grown = drawn.buffer(outward_mm, join_style="mitre", mitre_limit=10.0)
        if grown.is_empty:
            grown = drawn.representative_point().buffer(THINNEST_MM, quad_segs=1)
        for piece in getattr(grown, "geoms", [grown]):
            moved.append(tuple((float(x), float(y)) for x, y in piece.exterior.coords[:-1]))
    return tuple(moved)


def _window(count: int, window: tuple[int, float, float, float, float]) -> tuple[Ring, ...]:
    _, inner, outer, width, corner = window
    width, height = max(width, THINNEST_MM), max(outer - inner, THINNEST_MM)
    radius = max(0.5 * (inner + outer), THINNEST_MM)
    return window_outlines(count, radius, width, height, _fillet(corner, width, height))


def _lug(count: int, lug: tuple[int, float, float, float, float]) -> tuple[Ring, ...]:
    _, inner, outer, width, corner = lug
    width, height = max(width, THINNEST_MM), max(outer - inner, THINNEST_MM)
    radius = max(0.5 * (inner + outer), THINNEST_MM)
    return lug_outlines(count, radius, width, height, _fillet(corner, width, height))


def _fillet(corner: float, width: float, height: float) -> float:
    """A rounding larger than half of the smaller side is that half: the shape is then round already."""
    return min(max(corner, 0.0), 0.5 * width, 0.5 * height)

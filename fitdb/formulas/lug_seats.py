"""Room of lugs in windows where either side may be drawn or given by its sizes alone (J15)."""

from __future__ import annotations

from fitdb.formulas.core_windows import (
    ARC_SAGITTA_MM,
    lug_outlines,
    lugs_clearance,
    outline_clearance,
    window_outlines,
)

Ring = tuple[tuple[float, float], ...]
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
    lug stands out of its window. With neither side drawn the counts do not enter: one lug is held against one window,
    middle on middle (whether the counts agree is a question of its own). No turn does better than the second number.
    Source: plane geometry.
    """
    if not window_rings and not lug_rings:
        room = outline_clearance(_lug(1, lug)[0], _window(1, window)[0])
        return room, room + 2.0 * ARC_SAGITTA_MM
    windows = window_rings or (_window(window[0], window) if window[0] > 0 else ())
    lugs = lug_rings or _lug(max(lug[0], 1), lug)
    if not windows:
        room = outline_clearance(lugs[0], _window(1, (1, lug[1], lug[2], 0.0, 0.0))[0])
        return room, room + 2.0 * ARC_SAGITTA_MM
    best = lugs_clearance(windows, lugs)
    return best.clearance_mm, best.bound_mm + 2.0 * ARC_SAGITTA_MM


def offset_rings(rings: tuple[Ring, ...], outward_mm: float) -> tuple[Ring, ...]:
    """Every ring with its edges moved outward by ``outward_mm`` (inward if negative), corners kept sharp.

    A ring that vanishes is left out; one that is cut in two by moving inward becomes two. Source: plane geometry.
    """
    if outward_mm == 0.0:
        return rings
    import shapely

    moved: list[Ring] = []
    for ring in rings:
        grown = shapely.Polygon(ring).buffer(outward_mm, join_style="mitre", mitre_limit=10.0)
        for piece in getattr(grown, "geoms", [grown]):
            if not piece.is_empty:
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

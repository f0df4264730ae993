"""Core windows of a wheel against the lugs of a pulley: a ring of outlines that has to drop into a ring of
openings.

An outline is a tuple of (x, y) points in millimetres, closed by itself, with the wheel axis at the origin.
Angles run counter-clockwise from the x axis; window 0 and lug 0 of a parametric ring stand on the x axis.

How exact the answers are. A parametric window is drawn inside its true shape and a parametric lug outside its
own, each by at most ARC_SAGITTA_MM, and the rotation that is reported was really tried: a clearance is never
larger than the true one. It is smaller by at most two sagittas (5e-4 mm) plus the distance from
`clearance_mm` to `bound_mm`, which the search closes to SEARCH_TOLERANCE_MM plus MISFIT_TOLERANCE of whatever
stands out, unless its budget runs out; then the two numbers stand further apart and say so themselves.
Explicit outlines are taken as drawn, straight from point to point. The hand-over between the outlines is
plain geometry in one plane: draft, burrs and bending are not in it.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

    Coordinates = NDArray[numpy.float64]

Point = tuple[float, float]
Outline = tuple[Point, ...]
WindowForm = Literal["straight", "curved"]

ARC_SAGITTA_MM = 2.5e-4
SEARCH_TOLERANCE_MM = 4e-4
STAND_OUT_TOLERANCE_MM = 5e-5
MISFIT_TOLERANCE = 0.002  # of the amount that stands out: a lug 9 mm off need not be placed to a micrometre
MOST_ROTATIONS_TRIED = 600
CONTACT_MM = 1e-7


@dataclass(frozen=True)
class LugClearance:
    """The best seat of a lug ring in a window ring.

    clearance_mm: at `rotation_deg`, the least distance from any lug to the edge of its window; negative when
    a lug stands out of its window, and then the most that its outline stands out (the amount to file off, all
    round). bound_mm: no rotation of the ring reaches more than this (of the drawn outlines). rotation_deg:
    counter-clockwise turn of the lug ring from where it was drawn.
    """

    clearance_mm: float
    bound_mm: float
    rotation_deg: float


# ---- drawing the rings -------------------------------------------------------------------------------------


def window_outlines(
    count: int,
    circle_radius: float,
    width: float,
    radial_height: float,
    corner_radius: float = 0.0,
    form: WindowForm = "straight",
) -> tuple[Outline, ...]:
    """Outlines of `count` equal windows, evenly spaced; count 0 is a solid core and gives no outline.

    circle_radius: axis to the middle of the window, mm. width: tangential size at that radius, mm.
    radial_height: mm. corner_radius: inner fillet, mm. form "straight": two parallel sides; "curved": radial
    sides and arcs about the axis, with `width` the chord at circle_radius, so the window is narrower than
    `width` towards the axis. Raises ValueError for a size that is not positive, a fillet that does not fit,
    or an unknown form.
    """
    _check_count("window", count, least=0)
    _check_sizes(circle_radius=circle_radius, width=width, radial_height=radial_height)
    _check_fillet(corner_radius, width, radial_height)
    if form == "straight":
        one = _straight_outline(circle_radius, width, radial_height, corner_radius, around=False)
    elif form == "curved":
        one = _curved_window(circle_radius, width, radial_height, corner_radius)
    else:
        raise ValueError(f"window form {form!r} is not known: give 'straight' or 'curved', or an explicit outline")
    return repeated_outline(one, count)


def lug_outlines(
    count: int, circle_radius: float, width: float, radial_length: float, corner_radius: float = 0.0
) -> tuple[Outline, ...]:
    """Outlines of `count` equal lugs with parallel sides, evenly spaced.

    circle_radius: axis to the middle of the lug, mm. width: tangential size, mm. radial_length: mm.
    corner_radius: outer rounding, mm; half of both sizes gives a round pin. Raises ValueError as
    `window_outlines` does.
    """
    _check_count("lug", count, least=1)
    _check_sizes(circle_radius=circle_radius, width=width, radial_length=radial_length)
    _check_fillet(corner_radius, width, radial_length)
    return repeated_outline(_straight_outline(circle_radius, width, radial_length, corner_radius, around=True), count)


def repeated_outline(outline: Sequence[Point], count: int) -> tuple[Outline, ...]:
    """One explicit outline and its copies, `count` in all, evenly spaced about the axis."""
    _check_count("outline", count, least=0)
    checked = _checked_outline("repeated outline", outline)
    ring = []
    for index in range(count):
        cosine, sine = math.cos(math.tau * index / count), math.sin(math.tau * index / count)
        ring.append(tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in checked))
    return tuple(ring)


def arc_steps(radius: float, angle: float, sagitta: float = ARC_SAGITTA_MM) -> int:
    """Number of equal chords for an arc so that none departs from it by more than `sagitta` (mm): s = r (1 −
    cos(step/2))."""
    if radius <= sagitta:
        return max(1, math.ceil(angle / (math.pi / 4)))
    # A tangent polygon departs by r (1/cos − 1), a shade more than a chord polygon; acos(r / (r + s)) serves both.
    return max(1, math.ceil(angle / (2.0 * math.acos(radius / (radius + sagitta)))))


def _straight_outline(radius: float, width: float, height: float, fillet: float, *, around: bool) -> Outline:
    """Rounded rectangle at `radius` on the x axis; `around`: arcs by tangents (outside), else by chords
    (inside)."""
    half_x, half_y = height / 2.0, width / 2.0
    corners = ((1, -1, -90.0), (1, 1, 0.0), (-1, 1, 90.0), (-1, -1, 180.0))
    if fillet == 0.0:
        return tuple((radius + sx * half_x, sy * half_y) for sx, sy, _ in corners)
    steps = arc_steps(fillet, math.pi / 2)
    points: list[Point] = []
    for sx, sy, start_deg in corners:
        centre_x, centre_y = radius + sx * (half_x - fillet), sy * (half_y - fillet)
        start, step = math.radians(start_deg), math.pi / 2 / steps
        if around:
            # The arc's end points stay; between them the vertices are the crossings of neighbouring tangents.
            angles = [start] + [start + step * (i + 0.5) for i in range(steps)] + [start + math.pi / 2]
            radii = [fillet] + [fillet / math.cos(step / 2)] * steps + [fillet]
        else:
            angles = [start + step * i for i in range(steps + 1)]
            radii = [fillet] * (steps + 1)
        points += [(centre_x + r * math.cos(a), centre_y + r * math.sin(a)) for r, a in zip(radii, angles, strict=True)]
    return _without_repeats(points)


def _curved_window(radius: float, width: float, height: float, fillet: float) -> Outline:
    """Ring sector on the x axis, drawn inside its true shape: outer arc by chords, inner arc by tangents."""
    inner, outer = radius - height / 2.0, radius + height / 2.0
    if inner <= 0.0 or width >= 2.0 * radius:
        raise ValueError(
            f"curved window: radial_height {height} or width {width} reaches over the axis at circle_radius "
            f"{radius}; measure the radius to the middle of the window"
        )
    half = math.asin(width / (2.0 * radius))
    # Each fillet touches an arc and a radial side: its centre stands off the side by asin(fillet / its distance).
    lean_out, lean_in = math.asin(fillet / (outer - fillet)), math.asin(fillet / (inner + fillet))
    if lean_in > half or lean_out > half:
        raise ValueError(f"curved window: corner_radius {fillet} leaves no opening; give a smaller one")
    out_corner = _arc((outer - fillet, half - lean_out), fillet, half - lean_out, half + math.pi / 2)
    in_corner = _arc((inner + fillet, half - lean_in), fillet, half + math.pi / 2, half - lean_in + math.pi)
    upper = [*_arc((0.0, 0.0), outer, 0.0, half - lean_out), *out_corner, *in_corner]
    # The inner arc bulges into the opening, so there the tangents are inside it.
    steps = arc_steps(inner, half - lean_in)
    step = (half - lean_in) / steps
    tangent = inner / math.cos(step / 2)
    upper += [(tangent * math.cos(t), tangent * math.sin(t)) for t in (step * (i - 0.5) for i in range(steps, 0, -1))]
    return _without_repeats([*upper, *((x, -y) for x, y in reversed(upper))])


def _arc(centre_polar: tuple[float, float], radius: float, start: float, end: float) -> list[Point]:
    """Points on an arc from angle `start` to `end` about a centre given as (distance, angle) from the
    axis."""
    centre_x = centre_polar[0] * math.cos(centre_polar[1])
    centre_y = centre_polar[0] * math.sin(centre_polar[1])
    steps = arc_steps(radius, end - start)
    angles = [start + (end - start) * i / steps for i in range(steps + 1)]
    return [(centre_x + radius * math.cos(t), centre_y + radius * math.sin(t)) for t in angles]


def _without_repeats(points: Sequence[Point]) -> Outline:
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(point, kept[-1]) > 1e-9:
            kept.append(point)
    if len(kept) > 1 and math.dist(kept[0], kept[-1]) <= 1e-9:
        kept.pop()
    return tuple(kept)


# ---- one lug in one window ---------------------------------------------------------------------------------


def outline_clearance(inner: Sequence[Point], opening: Sequence[Point]) -> float:
    """Signed clearance of one outline in one opening, mm: the least signed distance of a point of `inner`
    from the edge.

    Inside: distance from outline to edge, exact. Standing out: minus the most that a point of the outline is
    away from the opening, at most STAND_OUT_TOLERANCE_MM too much, never too little. Openings have no
    islands, so an outline inside means the whole piece is inside.
    """
    import shapely

    opening_polygon = shapely.Polygon(_checked_outline("opening", opening))
    ring = shapely.LinearRing(_checked_outline("inner outline", inner))
    return _ring_in_opening(ring, opening_polygon, _edges(opening_polygon))


def _edges(polygon: Any) -> Coordinates:
    import numpy

    corners = numpy.asarray(polygon.exterior.coords, dtype=float)
    return numpy.stack([corners[:-1], corners[1:]], axis=1)


def _ring_in_opening(ring: Any, opening: Any, edges: Coordinates) -> float:
    if opening.covers(ring):
        return float(opening.exterior.distance(ring))
    return -_most_standing_out(ring.difference(opening), opening, edges)


def _most_standing_out(lines: Any, opening: Any, edges: Coordinates) -> float:
    """Largest distance from the opening over the stretches of outline that lie outside it, rounded up.

    The distance changes along a stretch no faster than one to one, which settles most stretches from their
    ends. For the others: the distance to each single edge is convex, so the smallest over the edges of the
    larger end value bounds the whole stretch; a stretch whose bound is still too far above the best point is
    halved.
    """
    import numpy
    import shapely

    parts = []
    for line in getattr(lines, "geoms", [lines]):
        corners = numpy.asarray(line.coords, dtype=float)
        parts.append(numpy.stack([corners[:-1], corners[1:]], axis=1))
    if not parts:
        return 0.0
    stretches = numpy.concatenate(parts)
    ends = shapely.distance(shapely.points(stretches.reshape(-1, 2)), opening).reshape(-1, 2)
    lengths = numpy.sqrt(((stretches[:, 1] - stretches[:, 0]) ** 2).sum(axis=1))
    bounds = (ends.sum(axis=1) + lengths) / 2.0
    reached = float(ends.max(initial=0.0))
    settled = 0.0
    for _ in range(60):
        undecided = bounds > reached + STAND_OUT_TOLERANCE_MM
        settled = max(settled, float(bounds[~undecided].max(initial=0.0)))
        if not undecided.any():
            return max(reached, settled)
        stretches, ends = stretches[undecided], ends[undecided]
        to_edges = _point_edge_distances(stretches.reshape(-1, 2), edges).reshape(len(stretches), 2, -1)
        bounds = to_edges.max(axis=1).min(axis=1)
        undecided = bounds > reached + STAND_OUT_TOLERANCE_MM
        settled = max(settled, float(bounds[~undecided].max(initial=0.0)))
        if not undecided.any():
            return max(reached, settled)
        left, ends, to_halve = stretches[undecided], ends[undecided], bounds[undecided]
        middle = left.mean(axis=1)
        at_middle = shapely.distance(shapely.points(middle), opening)
        reached = max(reached, float(at_middle.max()))
        stretches = numpy.concatenate(
            [numpy.stack([left[:, 0], middle], axis=1), numpy.stack([middle, left[:, 1]], axis=1)]
        )
        ends = numpy.concatenate(
            [numpy.stack([ends[:, 0], at_middle], axis=1), numpy.stack([at_middle, ends[:, 1]], axis=1)]
        )
        lengths = numpy.sqrt(((stretches[:, 1] - stretches[:, 0]) ** 2).sum(axis=1))
        bounds = numpy.minimum((ends.sum(axis=1) + lengths) / 2.0, numpy.tile(to_halve, 2))
    return max(reached, settled, float(bounds.max()))


def _point_edge_distances(points: Coordinates, edges: Coordinates) -> Coordinates:
    import numpy

    start, along = edges[:, 0], edges[:, 1] - edges[:, 0]
    offset = points[:, None, :] - start[None, :, :]
    length_squared = (along**2).sum(axis=1)
    share = (offset * along).sum(axis=2) / numpy.where(length_squared == 0.0, 1.0, length_squared)
    nearest = offset - numpy.clip(share, 0.0, 1.0)[:, :, None] * along
    distances: Coordinates = numpy.sqrt((nearest**2).sum(axis=2))
    return distances


# ---- the ring of lugs in the ring of windows ---------------------------------------------------------------


def lugs_clearance(windows: Sequence[Sequence[Point]], lugs: Sequence[Sequence[Point]]) -> LugClearance:
    """The largest clearance that the rigid ring of lugs reaches at any rotation, and the rotation that
    reaches it.

    Every rotation that brings lug 0 over some window is searched. A solid core (no windows) has clearance
    minus infinity. Raises ValueError for an outline with fewer than three points, crossing itself, or a lug
    ring without lugs.
    """
    if not windows:
        _checked_rings(windows, lugs)
        return LugClearance(-math.inf, -math.inf, 0.0)
    ring = _rings(windows, lugs)
    found = [ring.best(index) for index in ring.indices]
    best = max(found, key=lambda seat: seat.clearance_mm)
    return LugClearance(best.clearance_mm, max(seat.bound_mm for seat in found), best.rotation_deg)


def indexable_rotations(
    windows: Sequence[Sequence[Point]], lugs: Sequence[Sequence[Point]], least_clearance: float = 0.0
) -> tuple[float, ...]:
    """Rotations of the lug ring (degrees, 0 up to 360, rising) at which every lug is in a window, one for
    each window that lug 0 can take, each at the largest clearance it reaches there. Empty: the ring does not
    index."""
    if not windows:
        _checked_rings(windows, lugs)
        return ()
    ring = _rings(windows, lugs)
    rotations = set()
    for index in ring.indices:
        seat = ring.best(index)
        if seat.clearance_mm >= least_clearance:
            turns = range(len(windows)) if ring.windows_alike else (0,)
            rotations |= {round((seat.rotation_deg + 360.0 * turn / len(windows)) % 360.0, 9) % 360.0 for turn in turns}
    return tuple(sorted(rotations))


def play_angle_deg(windows: Sequence[Sequence[Point]], lugs: Sequence[Sequence[Point]]) -> float | None:
    """Total free rotation of the lug ring at its best seat, degrees; None when the ring does not go in.

    Found by walking both ways from the best seat in steps that are too short to meet an edge, so it is never
    more than the true play of the drawn outlines and short of it by the drawing allowance, two sagittas at
    each end.
    """
    if not windows:
        _checked_rings(windows, lugs)
        return None
    ring = _rings(windows, lugs)
    best = max((ring.best(index) for index in ring.indices), key=lambda seat: seat.clearance_mm)
    if best.clearance_mm < 0.0:
        return None
    start = math.radians(best.rotation_deg)
    play = 0.0
    for way in (1.0, -1.0):
        turned, clearance = 0.0, best.clearance_mm
        while clearance > CONTACT_MM and turned < math.tau:
            turned += clearance / ring.reach
            clearance = ring.clearance(start + way * turned)
        play += turned
    return math.degrees(min(play, math.tau))


def load_per_lug(torque_nm: float, lug_count: int, circle_radius: float) -> float:
    """Force on one lug, N: F = T / (n r), torque in N·m, radius in mm (statics; equal sharing).

    Equal sharing is the kind case: with play the first lug to touch carries more until the core gives way a
    little.
    """
    _check_count("lug", lug_count, least=1)
    _check_sizes(circle_radius=circle_radius)
    return torque_nm * 1000.0 / (lug_count * circle_radius)


def min_web(windows: Sequence[Sequence[Point]]) -> float:
    """Thinnest wall between any two windows, mm; 0.0 when two of them touch or overlap. Needs two windows or
    more."""
    import shapely

    if len(windows) < 2:
        raise ValueError(f"min_web: {len(windows)} window(s) given; a wall between windows needs at least two")
    polygons = [shapely.Polygon(_checked_outline(f"window {i}", window)) for i, window in enumerate(windows)]
    return min(float(one.distance(other)) for i, one in enumerate(polygons) for other in polygons[i + 1 :])


@dataclass(frozen=True)
class _Rings:
    """Both rings made ready for many rotations.

    When the windows are evenly spaced copies, each lug is turned back to the neighbourhood of window 0 and
    lugs that then coincide are kept once: six lugs in six windows cost as much as one lug in one window.
    """

    window_polygons: tuple[Any, ...]
    window_edges: tuple[Coordinates, ...]
    window_centres: Coordinates
    window_radii: Coordinates
    window_spans: tuple[tuple[float, float], ...]
    lugs: tuple[Coordinates, ...]
    lug_angle: float
    reach: float
    windows_alike: bool

    @property
    def indices(self) -> range:
        """The windows that have to be tried for lug 0; by symmetry one stands for all when the windows are
        alike."""
        return range(1) if self.windows_alike else range(len(self.window_polygons))

    def clearance(self, angle: float) -> float:
        return min(self._lug_clearance(lug, angle) for lug in self.lugs)

    def _lug_clearance(self, lug: Coordinates, angle: float) -> float:
        import numpy
        import shapely

        turned = _turned(lug, angle)
        offsets = turned[:, None, :] - self.window_centres[None, :, :]
        # The lug point furthest from a window's bounding circle stands out at least so far.
        hopes = self.window_radii - numpy.sqrt((offsets**2).sum(axis=2)).max(axis=0)
        ring = shapely.linearrings(turned)
        best = -math.inf
        for index in numpy.argsort(-hopes):
            if hopes[index] <= best:
                break
            best = max(best, _ring_in_opening(ring, self.window_polygons[index], self.window_edges[index]))
        return best

    def best(self, index: int) -> LugClearance:
        """Best seat with lug 0 over the window `index`."""
        low, high = self.window_spans[index]
        clearance, bound, angle = _highest(self.clearance, low - self.lug_angle, high - self.lug_angle, self.reach)
        return LugClearance(clearance, bound, math.degrees(angle))


def _highest(height: Callable[[float], float], low: float, high: float, steepness: float) -> tuple[float, float, float]:
    """Highest value of a function no steeper than `steepness` on [low, high]: value reached, bound on any
    value, argument.

    Between two tried points the function stays below the tent of that steepness over them (Piyavskii 1972,
    Shubert 1972); the highest tent is split at its top until it is within tolerance of the best point. A best
    point that goes in, or nearly, is then sharpened by golden section, so that a fit line to line is not
    missed by a hair.
    """

    def tent(left: Point, right: Point) -> tuple[float, float, Point, Point]:
        (a, fa), (b, fb) = left, right
        top = (fa + fb + steepness * (b - a)) / 2.0
        where = (a + b) / 2.0 + (fb - fa) / (2.0 * steepness)
        return (-top, min(max(where, a), b), left, right)

    middle = (low + high) / 2.0
    tried = [(angle, height(angle)) for angle in (low, middle, high)]
    best = max(tried, key=lambda point: point[1])
    heap = [tent(tried[0], tried[1]), tent(tried[1], tried[2])]
    heapq.heapify(heap)
    evaluations = 3
    while -heap[0][0] > best[1] + _tolerance(best[1]) and evaluations < MOST_ROTATIONS_TRIED:
        _, where, left, right = heapq.heappop(heap)
        point = (where, height(where))
        evaluations += 1
        if point[1] > best[1]:
            best = point
        heapq.heappush(heap, tent(left, point))
        heapq.heappush(heap, tent(point, right))
    bound = -heap[0][0]
    if best[1] < -_tolerance(0.0):
        return best[1], max(bound, best[1]), best[0]
    sharpened = _golden(height, best, (high - low) / 64.0, low, high)
    return sharpened[1], max(bound, sharpened[1]), sharpened[0]


def _tolerance(clearance: float) -> float:
    return SEARCH_TOLERANCE_MM + MISFIT_TOLERANCE * max(0.0, -clearance)


def _golden(
    height: Callable[[float], float], best: tuple[float, float], step: float, low: float, high: float
) -> tuple[float, float]:
    ratio = (math.sqrt(5.0) - 1.0) / 2.0
    a, b = max(low, best[0] - step), min(high, best[0] + step)
    c, d = b - ratio * (b - a), a + ratio * (b - a)
    fc, fd = height(c), height(d)
    while b - a > 1e-8:
        if fc >= fd:
            b, d, fd = d, c, fc
            c = b - ratio * (b - a)
            fc = height(c)
        else:
            a, c, fc = c, d, fd
            d = a + ratio * (b - a)
            fd = height(d)
    return max((best, (c, fc), (d, fd)), key=lambda point: point[1])


def _rings(windows: Sequence[Sequence[Point]], lugs: Sequence[Sequence[Point]]) -> _Rings:
    import numpy
    import shapely

    window_rings, lug_rings = _checked_rings(windows, lugs)
    polygons = tuple(shapely.Polygon(ring) for ring in window_rings)
    for polygon in polygons:
        shapely.prepare(polygon)
    arrays = [numpy.asarray(ring, dtype=float) for ring in window_rings]
    boxes = numpy.array([[ring.min(axis=0), ring.max(axis=0)] for ring in arrays])
    centres = boxes.mean(axis=1)
    radii = numpy.array(
        [numpy.sqrt(((ring - centre) ** 2).sum(axis=1)).max() for ring, centre in zip(arrays, centres, strict=True)]
    )
    step = math.tau / len(arrays)
    alike = all(
        one.shape == arrays[(i + 1) % len(arrays)].shape
        and bool(numpy.allclose(_turned(one, step), arrays[(i + 1) % len(arrays)], rtol=0.0, atol=1e-9))
        for i, one in enumerate(arrays)
    )
    lug_arrays = [numpy.asarray(ring, dtype=float) for ring in lug_rings]
    middle_of_lug = lug_arrays[0].mean(axis=0)
    kept = lug_arrays
    if alike:
        home = math.atan2(centres[0][1], centres[0][0])
        different: dict[bytes, Coordinates] = {}
        for lug in lug_arrays:
            middle = lug.mean(axis=0)
            turns = round((math.atan2(middle[1], middle[0]) - home) / step)
            back = _turned(lug, -turns * step)
            different.setdefault((numpy.round(back, 7) + 0.0).tobytes(), back)
        kept = list(different.values())
    return _Rings(
        window_polygons=polygons,
        window_edges=tuple(_edges(polygon) for polygon in polygons),
        window_centres=centres,
        window_radii=radii,
        window_spans=tuple(_angular_span(ring, polygon) for ring, polygon in zip(arrays, polygons, strict=True)),
        lugs=tuple(kept),
        lug_angle=math.atan2(middle_of_lug[1], middle_of_lug[0]),
        reach=max(float(numpy.sqrt((lug**2).sum(axis=1)).max()) for lug in lug_arrays),
        windows_alike=alike,
    )


def _turned(points: Coordinates, angle: float) -> Coordinates:
    import numpy

    cosine, sine = math.cos(angle), math.sin(angle)
    return numpy.column_stack(
        (points[:, 0] * cosine - points[:, 1] * sine, points[:, 0] * sine + points[:, 1] * cosine)
    )


def _angular_span(ring: Coordinates, polygon: Any) -> tuple[float, float]:
    """Angles about the axis between which the window lies; the whole turn when it reaches over the axis."""
    import numpy
    import shapely

    if polygon.covers(shapely.Point(0.0, 0.0)):
        return (-math.pi, math.pi)
    angles = numpy.unwrap(numpy.arctan2(ring[:, 1], ring[:, 0]))
    return (float(angles.min()), float(angles.max()))


# ---- questions that make no sense --------------------------------------------------------------------------


def _checked_rings(
    windows: Sequence[Sequence[Point]], lugs: Sequence[Sequence[Point]]
) -> tuple[list[Outline], list[Outline]]:
    if not lugs:
        raise ValueError("lug ring: no lugs given; a bolted or bonded pulley is not asked about its lugs")
    return (
        [_checked_outline(f"window {i}", window) for i, window in enumerate(windows)],
        [_checked_outline(f"lug {i}", lug) for i, lug in enumerate(lugs)],
    )


def _checked_outline(name: str, outline: Sequence[Point]) -> Outline:
    import shapely

    points = _without_repeats([(float(x), float(y)) for x, y in outline])
    if len(points) < 3:
        raise ValueError(f"{name}: {len(points)} different point(s); an outline needs at least three")
    if not all(math.isfinite(value) for point in points for value in point):
        raise ValueError(f"{name}: a point is not a finite number; give every point in millimetres")
    if not shapely.Polygon(points).is_valid:
        raise ValueError(f"{name}: the outline crosses or touches itself; list its points once round, in order")
    return points


def _check_sizes(**sizes: float) -> None:
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0.0):
            raise ValueError(f"{name} is {size}; it has to be a positive number of millimetres")


def _check_fillet(corner_radius: float, width: float, height: float) -> None:
    if not 0.0 <= corner_radius <= min(width, height) / 2.0:
        raise ValueError(
            f"corner_radius is {corner_radius}; it has to lie between 0 and half the smaller size, "
            f"{min(width, height) / 2.0}"
        )


def _check_count(name: str, count: int, least: int) -> None:
    if count != int(count) or count < least:
        raise ValueError(f"{name} count is {count}; it has to be a whole number, {least} or more")

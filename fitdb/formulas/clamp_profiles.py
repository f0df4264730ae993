"""Hanger profiles in clamp bores: how far a clamp has to close before it grips.

Sizes in millimetres, angles in degrees. The round case is a closed form (`closing_needed`); other forms are
outlines (`profile_outline`, `clamp_gap`). A gap is measured on one side, all round; a closing range, like a
difference of two diameters, is measured across, and is twice a gap.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from fitdb.formulas.core_windows import ARC_SAGITTA_MM, Outline, Point, arc_steps, outline_clearance

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

    Coordinates = NDArray[numpy.float64]

ProfileForm = Literal["round", "hexagon", "trapezoid", "d_shape", "oval", "square"]
PROFILE_FORMS: tuple[ProfileForm, ...] = ("round", "hexagon", "trapezoid", "d_shape", "oval", "square")

LARGEST_TURN_DEG = 15.0
CONTACT_BAND_MM = 0.05
MOST_STEPS = 25


@dataclass(frozen=True)
class ClampGap:
    """The roomiest place of a profile in a bore, both as drawn.

    gap_mm: the widest band that fits round the whole profile inside the bore, one side; the clamp has to
    close by twice that across. Negative: by so much every face of the bore would have to stand back before
    the profile goes in. rotation_deg, dx, dy: the turn (about the origin), then the shift of the profile at
    which that is reached. contact_share: part of the profile's outline, 0 to 1, that lies within
    CONTACT_BAND_MM of the bore once the gap is closed evenly (for a profile that does not go in: that is
    within the band of the bore's edge or outside it).
    """

    gap_mm: float
    rotation_deg: float
    dx: float
    dy: float
    contact_share: float


# ---- closed forms ------------------------------------------------------------------------------------------


def draft_loss(clamp_width: float, draft_deg: float) -> float:
    """Diameter lost over the width of the clamp on a cast barrel, mm: w tan(draft).

    draft_deg is the included draft: the change of the diameter (not of the radius) along the barrel is
    tan(draft). A draft read against one side only is half of it. Common practice, no source.
    """
    if not (math.isfinite(clamp_width) and clamp_width >= 0.0):
        raise ValueError(f"clamp_width is {clamp_width}; it has to be millimetres, 0 or more")
    if not 0.0 <= draft_deg < 45.0:
        raise ValueError(f"draft_deg is {draft_deg}; give the included draft of the barrel, from 0 to below 45 degrees")
    return clamp_width * math.tan(math.radians(draft_deg))


def closing_needed(bore: float, profile: float, clamp_width: float, draft_deg: float) -> float:
    """How far a clamp has to close across its bore to grip at its loose end, mm: (bore − profile) + w
    tan(draft).

    bore: clamp bore before closing; profile: size of the hanger at the thick end of the clamp, both across
    the same way. The clamp goes on when bore − profile >= 0, a question of its own, and grips when the
    closing needed is not more than its closing range. Common practice, no source.
    """
    return (bore - profile) + draft_loss(clamp_width, draft_deg)


def polygon_across_corners(across_flats: float, sides: int) -> float:
    """Diameter of the circle through the corners of a regular polygon with an even number of sides: f /
    cos(pi / n).

    Raises ValueError for an odd number of sides, which has no across-flats.
    """
    if sides < 4 or sides % 2:
        raise ValueError(f"sides is {sides}; across flats is defined for an even number of sides, 4 or more")
    _check_positive(across_flats=across_flats)
    return across_flats / math.cos(math.pi / sides)


def polygon_across_flats(across_corners: float, sides: int) -> float:
    """Distance across the flats of a regular polygon with an even number of sides: c cos(pi / n)."""
    if sides < 4 or sides % 2:
        raise ValueError(f"sides is {sides}; across flats is defined for an even number of sides, 4 or more")
    _check_positive(across_corners=across_corners)
    return across_corners * math.cos(math.pi / sides)


# ---- outlines ----------------------------------------------------------------------------------------------


def profile_outline(
    form: ProfileForm,
    a: float,
    b: float | None = None,
    c: float | None = None,
    points: Sequence[Point] | None = None,
    is_bore: bool = False,
) -> Outline:
    """Outline of a hanger profile, or of a clamp bore when `is_bore`, about the middle of its bounding box.

    form, and its sizes in mm: round      a diameter hexagon    a across flats; two flats are level square
    a across flats; two flats are level oval       a across x, b across y: an ellipse d_shape    a diameter, b
    height from the flat to the opposite side, a/2 <= b < a; the flat is at the bottom, level trapezoid  a
    bottom width, b height, c top width points: an explicit outline, taken as drawn, instead of the sizes;
    `form` then only names it. Curves are drawn by tangents for a profile and by chords for a bore, within
    ARC_SAGITTA_MM, so that a gap between them is never more than the true one. Raises ValueError for an
    unknown form or sizes that do not make it.
    """
    if form not in PROFILE_FORMS:
        raise ValueError(
            f"profile form {form!r} is not known; use one of {', '.join(PROFILE_FORMS)}, or explicit points"
        )
    if points is not None:
        return tuple((float(x), float(y)) for x, y in points)
    _check_positive(a=a)
    if form == "round":
        return _ellipse(a, a, is_bore)
    if form == "hexagon":
        return _regular_polygon(a, 6)
    if form == "square":
        return _regular_polygon(a, 4)
    if b is None:
        raise ValueError(f"profile form {form!r} needs its second size b, in millimetres")
    _check_positive(b=b)
    if form == "oval":
        return _ellipse(a, b, is_bore)
    if form == "d_shape":
        return _d_shape(a, b, is_bore)
    if c is None:
        raise ValueError("profile form 'trapezoid' needs its top width c, in millimetres")
    _check_positive(c=c)
    return ((-a / 2.0, -b / 2.0), (a / 2.0, -b / 2.0), (c / 2.0, b / 2.0), (-c / 2.0, b / 2.0))


def _regular_polygon(across_flats: float, sides: int) -> Outline:
    radius = polygon_across_corners(across_flats, sides) / 2.0
    # Corners half a step from the vertical put a level flat at the top and at the bottom.
    angles = [math.pi / 2.0 + math.pi / sides + math.tau * i / sides for i in range(sides)]
    return tuple((radius * math.cos(angle), radius * math.sin(angle)) for angle in angles)


def _ellipse(across_x: float, across_y: float, is_bore: bool) -> Outline:
    # An ellipse is a stretched circle; the stretch takes chords to chords and tangents to tangents, and the
    # larger half-axis bounds how far they depart from the curve.
    steps = max(8, arc_steps(max(across_x, across_y) / 2.0, math.tau))
    scale = 1.0 if is_bore else 1.0 / math.cos(math.pi / steps)
    angles = [math.tau * (i + 0.5) / steps for i in range(steps)]
    return tuple(
        (across_x / 2.0 * scale * math.cos(angle), across_y / 2.0 * scale * math.sin(angle)) for angle in angles
    )


def _d_shape(diameter: float, height: float, is_bore: bool) -> Outline:
    radius = diameter / 2.0
    if not radius <= height < diameter:
        raise ValueError(
            f"d_shape: height b is {height}; from the flat to the opposite side it lies between half the "
            f"diameter, {radius}, and the diameter"
        )
    # The flat cuts the circle at `below` under its centre; the arc runs from its right end over the top to its left.
    below = height - radius
    start = -math.asin(below / radius)
    angle = math.pi - 2.0 * start
    steps = max(4, arc_steps(radius, angle))
    step = angle / steps
    if is_bore:
        polar = [(radius, start + step * i) for i in range(steps + 1)]
    else:
        middle = [(radius / math.cos(step / 2.0), start + step * (i + 0.5)) for i in range(steps)]
        polar = [(radius, start), *middle, (radius, start + angle)]
    centre = height / 2.0 - radius
    return tuple((r * math.cos(t), r * math.sin(t) + centre) for r, t in polar)


# ---- a profile in a bore -----------------------------------------------------------------------------------


def clamp_gap(profile: Sequence[Point], bore: Sequence[Point], largest_turn_deg: float = LARGEST_TURN_DEG) -> ClampGap:
    """The largest even gap between a hanger profile and a clamp bore, over shifts and turns up to
    `largest_turn_deg`.

    Both outlines are taken in the position in which they are drawn, which has to be right to within the turn
    allowed. The gap is reached at the place reported, so it is never more than the true one; it is a local
    optimum from the drawn position and from half the allowed turn either way. Exact for convex bores (all
    named forms). A bore with a reflex corner is searched by a simplex of tried places, and its negative gap
    is how far the profile stands out, as in core windows. Raises ValueError for an outline with fewer than
    three points or one that crosses itself.
    """
    import numpy
    import shapely

    shapes = []
    for name, outline in (("profile", profile), ("bore", bore)):
        if len(outline) < 3 or not shapely.Polygon(outline).is_valid:
            raise ValueError(f"clamp_gap: the {name} is no simple outline; list three or more points once round")
        shapes.append(shapely.Polygon(outline))
    hull = shapes[1].convex_hull
    turns: tuple[float, ...] = (0.0, math.radians(largest_turn_deg) / 2.0, -math.radians(largest_turn_deg) / 2.0)
    if hull.area - shapes[1].area <= 1e-9 * hull.area:
        corners = numpy.asarray(shapes[0].convex_hull.exterior.coords[:-1], dtype=float)
        normals, reaches = _half_planes(numpy.asarray(shapely.orient_polygons(hull).exterior.coords, dtype=float))
        if _is_round(corners) or _is_round(numpy.asarray(hull.exterior.coords[:-1], dtype=float)):
            turns = (0.0,)  # turning a circle changes nothing
        places = [
            _even_gap(corners, normals, reaches, turn, math.radians(largest_turn_deg), len(turns) > 1) for turn in turns
        ]
    else:
        places = [_even_gap_by_trial(profile, bore, turn, math.radians(largest_turn_deg)) for turn in turns]
    gap, turn, dx, dy = max(places)
    return ClampGap(
        gap_mm=gap,
        rotation_deg=math.degrees(turn),
        dx=dx,
        dy=dy,
        contact_share=_contact_share(_placed(profile, turn, dx, dy), bore, gap),
    )


def _half_planes(ring: Coordinates) -> tuple[Coordinates, Coordinates]:
    """Outward unit normals and reaches of the sides of a convex ring listed counter-clockwise and closed."""
    import numpy

    along = numpy.diff(ring, axis=0)
    lengths = numpy.sqrt((along**2).sum(axis=1))
    kept = lengths > 1e-12
    normals = numpy.column_stack((along[kept, 1], -along[kept, 0])) / lengths[kept, None]
    return normals, (normals * ring[:-1][kept]).sum(axis=1)


def _is_round(corners: Coordinates) -> bool:
    import numpy

    if len(corners) < 32:
        return False
    from_middle = numpy.sqrt(((corners - corners.mean(axis=0)) ** 2).sum(axis=1))
    return float(from_middle.max() - from_middle.min()) <= ARC_SAGITTA_MM


def _even_gap(
    corners: Coordinates, normals: Coordinates, reaches: Coordinates, turn: float, largest: float, may_turn: bool
) -> tuple[float, float, float, float]:
    """Largest least distance of convex corners from convex sides near `turn`: (gap, turn, dx, dy).

    At one turn it is a linear programme in shift and gap. The turn joins in by its tangent, on a range that
    shrinks when a step does not help (sequential linear programming); the gap kept is always the one
    measured, not the one predicted.
    """
    import numpy
    from scipy.optimize import linprog

    def side_extents(angle: float) -> tuple[Coordinates, Coordinates]:
        cosine, sine = math.cos(angle), math.sin(angle)
        turned = corners @ numpy.array([[cosine, sine], [-sine, cosine]])
        return normals @ turned.T, normals @ numpy.column_stack((-turned[:, 1], turned[:, 0])).T

    def measured(angle: float, shift: Coordinates) -> float:
        extents, _ = side_extents(angle)
        return float((reaches - normals @ shift - extents.max(axis=1)).min())

    def programme(angle: float, trust: float) -> tuple[Coordinates, float]:
        extents, spins = side_extents(angle)
        low, high = max(-trust, -largest - angle), min(trust, largest - angle)
        # For each side the corner that is outermost now, and those that are at either end of the range of turns.
        everyone = numpy.arange(len(normals))
        range_of_turns = {0.0, low, high}
        sides = numpy.tile(everyone, len(range_of_turns))
        outermost = numpy.concatenate([(extents + by * spins).argmax(axis=1) for by in sorted(range_of_turns)])
        rows = numpy.column_stack((normals[sides], spins[sides, outermost], numpy.ones(len(sides))))
        found = linprog(
            [0.0, 0.0, 0.0, -1.0],
            A_ub=rows,
            b_ub=reaches[sides] - extents[sides, outermost],
            bounds=[(None, None), (None, None), (low, high), (None, None)],
            method="highs",
        )
        return numpy.asarray(found.x[:2], dtype=float), angle + float(found.x[2])

    shift, _ = programme(turn, 0.0)
    gap = measured(turn, shift)
    trust = largest / 4.0 if may_turn else 0.0
    size = float(numpy.abs(corners).max())
    for _ in range(MOST_STEPS):
        if trust * size < 1e-4:
            break
        next_shift, next_turn = programme(turn, trust)
        next_gap = measured(next_turn, next_shift)
        if next_gap > gap + 1e-12:
            gap, turn, shift = next_gap, next_turn, next_shift
        else:
            trust /= 8.0
    return gap, turn, float(shift[0]), float(shift[1])


def _even_gap_by_trial(
    profile: Sequence[Point], bore: Sequence[Point], turn: float, largest: float
) -> tuple[float, float, float, float]:
    """The same for a bore with a reflex corner: simplex search (Nelder and Mead 1965) on the measured
    clearance."""
    import numpy
    from scipy.optimize import minimize

    size = max(math.hypot(x, y) for x, y in bore)

    def loss(place: Coordinates) -> float:
        angle = min(largest, max(-largest, float(place[2]) / size))
        return -outline_clearance(_placed(profile, angle, float(place[0]), float(place[1])), bore)

    start = numpy.array([0.0, 0.0, turn * size])
    simplex = numpy.vstack([start, start + numpy.diag([0.02, 0.02, 0.02]) * size])
    found = minimize(
        loss,
        start,
        method="Nelder-Mead",
        options={"initial_simplex": simplex, "xatol": 1e-5, "fatol": 1e-6, "maxfev": 300},
    )
    angle = min(largest, max(-largest, float(found.x[2]) / size))
    return -float(found.fun), angle, float(found.x[0]), float(found.x[1])


def _placed(outline: Sequence[Point], turn: float, dx: float, dy: float) -> Outline:
    cosine, sine = math.cos(turn), math.sin(turn)
    return tuple((x * cosine - y * sine + dx, x * sine + y * cosine + dy) for x, y in outline)


def _contact_share(profile: Sequence[Point], bore: Sequence[Point], gap: float) -> float:
    """Part of the profile's outline no further than gap + CONTACT_BAND_MM from the bore's edge, or outside
    the bore."""
    import shapely

    band = max(gap, 0.0) + CONTACT_BAND_MM
    free = shapely.Polygon(bore).buffer(-band, join_style="mitre")
    outline = shapely.LinearRing(profile)
    return float(1.0 - outline.intersection(free).length / outline.length)


def _check_positive(**sizes: float) -> None:
    for name, size in sizes.items():
        if not (math.isfinite(size) and size > 0.0):
            raise ValueError(f"size {name} is {size}; it has to be a positive number of millimetres")

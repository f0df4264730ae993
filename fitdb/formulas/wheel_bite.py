"""Wheel bite: the least vertical gap between a leaned deck and a steered wheel, in closed form.

Axes: x along the board from the axle's middle, y across the board toward the low side, z up from the axle's
centre plane. The deck's underside lies ``height`` H above that plane and is leaned by φ: over a point (x, y)
the gap to a height z is H − y·sin φ − z. The wheel on the low side is a solid cylinder of radius R between
``y_in`` and ``y_out`` along the axle, turned by the steer angle δ about the vertical through the axle's
middle.

Outline: the half width of the wood as points ``(distance from the axle along the board, half width)``,
distances rising from 0. Between points it runs straight; two points at one distance are a step, as at the end
of a cut-out. The first half width carries back to the axle and the last carries on beyond its point; a board
that ends there says so with a step to 0. One outline serves both directions along the board, so a board that
differs ahead of and behind the axle is given its wider half width at each distance. With that symmetry both
signs of the steer give one answer.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import asin, atan2, cos, degrees, hypot, radians, sin, sqrt

Point = tuple[float, float]
Outline = Sequence[Point]


def bite_clearance_flat(height: float, radius: float, y_contact: float, lean_deg: float) -> float:
    """Quick clearance without steer: c = H − R − y_c·sin φ, mm; negative means the wheel meets the wood.

    ``y_contact`` y_c is the lesser of the deck's half width over the axle and ``y_out``. Takes no notice of
    steer and of corners of cut-outs, so it may be optimistic where :func:`bite_clearance` is not. Source:
    plane geometry; the lean convention is common practice, no source.
    """
    return height - radius - y_contact * sin(radians(lean_deg))


def bite_angle_deg(height: float, radius: float, y_contact: float) -> float:
    """Lean at which the unsteered wheel meets the wood: φ = asin((H − R) / y_c), degrees.

    90 when no lean can bring them together; negative when they overlap with the board level (−90 at the
    least). Raises ValueError if ``y_contact`` is not above zero. Source: :func:`bite_clearance_flat` solved
    for φ.
    """
    if not y_contact > 0.0:
        raise ValueError(
            f"bite_angle_deg: y_contact is {y_contact} mm, but wood and wheel meet at a distance above zero"
            " from the board's middle; give the lesser of half width and outer wheel face"
        )
    return degrees(asin(max(-1.0, min(1.0, (height - radius) / y_contact))))


def bite_clearance(
    height: float,
    radius: float,
    y_in: float,
    y_out: float,
    lean_deg: float,
    steer_deg: float,
    outline: Outline,
) -> float:
    """Least vertical gap between the leaned deck and the steered wheel, mm; negative means the wheel bites.

    ``height`` H axle centre to deck underside, ``radius`` R, ``y_in`` and ``y_out`` the wheel's faces along
    the axle, ``lean_deg`` φ, ``steer_deg`` δ (its sign does not matter), ``outline`` as the module says; mm
    and degrees.

    Exact for this geometry: c = H − max(y·sin φ + z) over all wood, abs y <= b(abs x), that lies over the
    wheel. On each strip between two outline points that is the maximum of a concave function over a convex
    polygon, found on its edges.

    Never above H: if no wood lies over the wheel the answer is H itself, the gap between the deck's middle
    and the axle's centre plane. It is finite, above every gap of a wheel under wood, and falls only with a
    larger wheel or more wood. Whether the wheel stands clear of the wood altogether is told by
    :func:`wheel_stands_outside`.

    The fall of the deck is y·sin φ with y along the deck. Where wood overhangs the wheel's outer face the
    vertical fall there is y_out·tan φ, more by y_out·(tan φ − sin φ): 1.0 mm at 112 mm and 15 degrees, 2.5 mm
    at 20 degrees.

    Falls with R, φ, ``y_out`` and the half widths, rises with H and ``y_in``; not monotone in δ or in the
    outline's distances. Raises ValueError for a wheel or outline that cannot be. Source: geometry;
    convention: common practice.
    """
    _refuse_bad_wheel("bite_clearance", radius, y_in, y_out, steer_deg)
    if not 0.0 <= lean_deg < 90.0:
        raise ValueError(
            f"bite_clearance: lean_deg is {lean_deg}, but lean is counted from 0 to below 90 degrees toward"
            " the low side; give its size without a sign"
        )
    slope = sin(radians(lean_deg))
    steer = radians(abs(steer_deg))
    c, s = cos(steer), sin(steer)
    # The wheel's plan in its own axes: u along its rolling direction, v along the axle.
    # x = u·c + v·s and y = v·c − u·s; the wheel's top is sqrt(R² − u²).
    plan: list[Point] = [(-radius, y_in), (radius, y_in), (radius, y_out), (-radius, y_out)]
    crosses_middle = y_in * c < radius * s
    fall = 0.0
    reach_ahead = radius * c + y_out * s
    reach_behind = radius * c - y_in * s
    for near, near_width, far, far_width in _strips("bite_clearance", outline, reach_ahead):
        if near_width == far_width == 0.0:
            continue
        widening = (far_width - near_width) / (far - near)
        width_at_axle = near_width - widening * near
        for direction, reach in ((1.0, reach_ahead), (-1.0, reach_behind)):
            if near > reach:
                continue
            a, b = direction * c, direction * s
            piece = plan
            # The part of the plan with near <= distance <= far; the two directions part at the axle.
            if near > 0.0 or reach_behind > 0.0:
                piece = _clip(piece, a, b, -near)
            if far < reach:
                piece = _clip(piece, -a, -b, far)
            piece = _clip(piece, widening * a + s, widening * b - c, width_at_axle)
            if crosses_middle:
                piece = _clip(piece, widening * a - s, widening * b + c, width_at_axle)
            if piece:
                fall = max(fall, _greatest_fall(piece, radius, slope, c, s))
    return height - fall


def wheel_stands_outside(outline: Outline, y_in: float, radius: float, y_out: float, steer_deg: float) -> float:
    """How far the wheel's plan stays outside the wood through the whole sweep from −δ to +δ, mm.

    Positive: the shortest distance, in plan, between the swept wheel and the wood. Negative: the greatest
    breadth across the board by which wood lies inside the sweep (a step of the outline that enters the sweep
    makes the number drop at once to that breadth). At or above zero over the whole sweep the wheel cannot
    bite at any lean. A sweep that crosses the middle of the board counts as inside.

    ``steer_deg`` δ at full lean, sign without effect; other arguments as for :func:`bite_clearance`. The
    whole sweep counts, because at a smaller lean the wheel stands at a smaller steer. Falls with R,
    ``y_out``, δ and the half widths, rises with ``y_in``. Raises ValueError for a wheel or outline that
    cannot be. Source: plane geometry.
    """
    _refuse_bad_wheel("wheel_stands_outside", radius, y_in, y_out, steer_deg)
    steer = radians(abs(steer_deg))
    c, s = cos(steer), sin(steer)
    # Ahead of the axle the sweep is bounded toward the wood by an arc of radius y_in about the axle's middle up to
    # `tangent`, by the inner face at full steer up to `inner`, and by the leading face up to `outer`.
    tangent = (y_in * s, y_in * c)
    inner = (radius * c + y_in * s, y_in * c - radius * s)
    outer = (radius * c + y_out * s, y_out * c - radius * s)
    strips = _strips("wheel_stands_outside", outline, outer[0])

    # Wood fills all that lies below its edge, so it enters the sweep only if its edge rises over the sweep's
    # lower bound; by most at a corner of either, since the arc and its tangent curve away from the wood.
    entered = 0.0
    for near, near_width, far, far_width in strips:
        widening = (far_width - near_width) / (far - near)
        for x in (near, far, inner[0], outer[0]):
            if near <= x <= far and x <= outer[0]:
                width = near_width + widening * (x - near)
                entered = max(entered, width - _lower_bound(x, y_in, tangent, inner, outer))
    if entered > 0.0:
        return -entered

    edge: list[Point] = []
    for near, near_width, far, far_width in strips:
        edge += [(near, near_width), (far, far_width)]
    nearest = hypot(radius, y_out)
    for start, end in pairwise(edge):
        if atan2(start[0], start[1]) <= steer:
            nearest = min(nearest, y_in - hypot(*start))
        nearest = min(
            nearest,
            _point_to_segment(start, tangent, inner),
            _point_to_segment(start, inner, outer),
            _point_to_segment(inner, start, end),
            _point_to_segment(outer, start, end),
        )
    return nearest


def _refuse_bad_wheel(question: str, radius: float, y_in: float, y_out: float, steer_deg: float) -> None:
    if not (radius > 0.0 and 0.0 <= y_in < y_out):
        raise ValueError(
            f"{question}: radius {radius}, y_in {y_in}, y_out {y_out} mm describe no wheel; radius must be"
            " above zero and the faces must lie 0 <= y_in < y_out from the axle's middle; check which is which"
        )
    if not abs(steer_deg) < 90.0:
        raise ValueError(
            f"{question}: steer_deg is {steer_deg}, but an axle turns by less than 90 degrees; give degrees of steer"
        )


def _strips(question: str, outline: Outline, reach: float) -> list[tuple[float, float, float, float]]:
    """The outline from the axle past ``reach``: (near, half width there, far, half width there), no steps."""
    if not outline:
        raise ValueError(f"{question}: the outline has no point; give at least the half width over the axle, (0, b)")
    strips = []
    near, near_width = 0.0, outline[0][1]
    for far, far_width in outline:
        if not (far >= near and far_width >= 0.0):
            raise ValueError(
                f"{question}: outline point ({far}, {far_width}) follows ({near}, {near_width}), but"
                " distances from the axle must not fall or be below zero, nor half widths be below zero; sort"
                " the points by distance"
            )
        if far > near:
            strips.append((near, near_width, far, far_width))
        near, near_width = far, far_width
    strips.append((near, near_width, near + max(reach, 1.0), near_width))
    return strips


def _clip(polygon: list[Point], a: float, b: float, d: float) -> list[Point]:
    """The part of a convex polygon with a·u + b·v + d >= 0."""
    kept: list[Point] = []
    if not polygon:
        return kept
    last_u, last_v = polygon[-1]
    last = a * last_u + b * last_v + d
    for u, v in polygon:
        here = a * u + b * v + d
        if (here < 0.0) != (last < 0.0):
            share = last / (last - here)
            kept.append((last_u + share * (u - last_u), last_v + share * (v - last_v)))
        if here >= 0.0:
            kept.append((u, v))
        last_u, last_v, last = u, v, here
    return kept


def _greatest_fall(polygon: list[Point], radius: float, slope: float, c: float, s: float) -> float:
    """Greatest slope·y + sqrt(R² − u²) over a convex polygon of the wheel's plan.

    The sum rises with v at every u, so the greatest lies on the polygon's rim. Along an edge the sum is
    concave, with its top where slope·dy/du = u / sqrt(R² − u²).
    """
    square = radius * radius
    greatest = 0.0
    last_u, last_v = polygon[-1]
    last_drop = slope * (last_v * c - last_u * s)
    for u, v in polygon:
        drop = slope * (v * c - u * s)
        fall = drop + sqrt(max(0.0, square - u * u))
        if fall > greatest:
            greatest = fall
        if u != last_u:
            rate = (drop - last_drop) / (u - last_u)
            top = radius * rate / sqrt(1.0 + rate * rate)
            if last_u < top < u or u < top < last_u:
                fall = drop + rate * (top - u) + sqrt(max(0.0, square - top * top))
                if fall > greatest:
                    greatest = fall
        last_u, last_v, last_drop = u, v, drop
    return greatest


def _lower_bound(x: float, y_in: float, tangent: Point, inner: Point, outer: Point) -> float:
    """Least y of the swept wheel at distance x from the axle, 0 <= x <= outer x."""
    if x <= tangent[0]:
        return sqrt(max(0.0, y_in * y_in - x * x))
    start, end = (tangent, inner) if x <= inner[0] else (inner, outer)
    if end[0] == start[0]:
        return min(start[1], end[1])
    return start[1] + (end[1] - start[1]) * (x - start[0]) / (end[0] - start[0])


def _point_to_segment(point: Point, start: Point, end: Point) -> float:
    run, rise = end[0] - start[0], end[1] - start[1]
    length_square = run * run + rise * rise
    share = 0.0
    if length_square > 0.0:
        share = ((point[0] - start[0]) * run + (point[1] - start[1]) * rise) / length_square
        share = max(0.0, min(1.0, share))
    return hypot(point[0] - start[0] - share * run, point[1] - start[1] - share * rise)


def projected_bite_clearance(
    height: float,
    radius: float,
    y_in: float,
    y_out: float,
    lean_deg: float,
    steer_deg: float,
    outline: Outline,
) -> float:
    """Least vertical gap with the wood where it really hangs when it leans, mm; symbols as :func:`bite_clearance`.

    A leaned plank is narrower seen from above (cos φ) and falls by tan φ per mm of that narrower plan. At the wood's
    edge that is the trade's y·sin φ along the deck; over a wheel whose outer face stands inside the edge it is more.
    The answer is the less of both readings, so it is never above either: the edge where the trade looks for it, and
    every point of the wheel under its overhang. The deck leans about its own middle at height H; how far a truck
    swings it sideways is in neither. φ below 45 degrees for the second reading, which is held there beyond.
    Source: plane geometry.
    """
    along_the_deck = bite_clearance(height, radius, y_in, y_out, lean_deg, steer_deg, outline)
    lean = radians(min(lean_deg, 44.9))
    narrower = tuple((x, width * cos(lean)) for x, width in outline)
    fall = degrees(asin(sin(lean) / cos(lean)))
    return min(along_the_deck, bite_clearance(height, radius, y_in, y_out, fall, steer_deg, narrower))

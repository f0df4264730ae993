"""Wheel bite against dense samples of a real cylinder, and the swept plan against shapely.

The sampled wheel knows nothing of strips, polygons or concave functions: it turns points of the wheel's tread with
scipy's Rotation and keeps those under wood. A sample can only miss the lowest gap, never invent one, so the closed
form must not lie above it; it must not lie below it by more than the sampling step explains either.
"""

import random
from itertools import pairwise
from math import hypot, radians, sin

import numpy as np
import pytest
from scipy.spatial.transform import Rotation
from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from fitdb.formulas import wheel_bite


def half_width(outline, distance):
    """Half width of the wood at each distance from the axle; at a step, the wider side."""
    xs = np.array([0.0] + [x for x, _ in outline] + [1e4])
    widths = np.array([outline[0][1]] + [w for _, w in outline] + [outline[-1][1]])
    after = np.clip(np.searchsorted(xs, distance, side="right"), 1, len(xs) - 1)
    run = xs[after] - xs[after - 1]
    share = np.where(run > 0, (distance - xs[after - 1]) / np.where(run > 0, run, 1.0), 1.0)
    result = widths[after - 1] + share * (widths[after] - widths[after - 1])
    for x, width in outline:
        result = np.where(np.abs(distance - x) < 1e-12, np.maximum(result, width), result)
    return result


def sampled_gaps(case, angles, places):
    """Gap at each tread point (angle round the tread, place along the axle), infinite where no wood lies over it."""
    height, radius, _, _, lean, steer, outline = case
    angle, place = np.meshgrid(angles, places, indexing="ij")
    tread = np.stack([radius * np.cos(angle), place, radius * np.sin(angle)], axis=-1)
    turned = Rotation.from_euler("z", steer, degrees=True).apply(tread.reshape(-1, 3)).reshape(tread.shape)
    x, y, z = turned[..., 0], turned[..., 1], turned[..., 2]
    gap = height - y * sin(radians(lean)) - z
    return np.where(np.abs(y) <= half_width(outline, np.abs(x)), gap, np.inf)


def wood_edge(outline, reach, step=0.01):
    """Points along the edge of the wood on the low side, ahead of and behind the axle, steps included."""
    ahead = np.arange(0.0, reach, step)
    pieces = [np.stack([ahead, half_width(outline, ahead)], axis=-1)]
    for (x, width), (next_x, next_width) in pairwise(outline):
        rise = np.arange(0.0, 1.0, step / (abs(next_width - width) + 1.0))[:, None]
        pieces.append(np.array([[x, width]]) * (1.0 - rise) + np.array([[next_x, next_width]]) * rise)
    edge = np.concatenate(pieces)
    return np.concatenate([edge, edge * np.array([-1.0, 1.0])])


def sampled_clearance(case):
    """Least gap over both signs of steer: on a net over the tread, along the wheel's faces and along the wood's edge.

    The gap's least lies where tread or wood ends, so these lines are walked in hundredths of a degree or millimetre.
    """
    height, radius, y_in, y_out, lean, steer, outline = case
    least = np.inf
    for sign in (1.0, -1.0):
        signed = (*case[:5], sign * steer, outline)
        net = sampled_gaps(signed, np.linspace(0.0, np.pi, 181), np.linspace(y_in, y_out, 61))
        faces = sampled_gaps(signed, np.linspace(0.0, np.pi, 18_001), np.array([y_in, y_out]))
        edge = wood_edge(outline, radius + y_out)
        u, v = Rotation.from_euler("z", -sign * steer, degrees=True).as_matrix()[:2, :2] @ edge.T
        under = (np.abs(u) <= radius) & (v >= y_in) & (v <= y_out)
        lifted = height - edge[under, 1] * sin(radians(lean)) - np.sqrt(radius**2 - u[under] ** 2)
        least = min(least, net.min(), faces.min(), lifted.min(initial=np.inf))
    return least


def random_outline(dice):
    kind = dice.choice(["straight", "taper", "cut-out", "slanted cut-out", "many"])
    wide = dice.uniform(85, 135)
    if kind == "straight":
        return [(0.0, wide)]
    if kind == "taper":
        return [(0.0, wide), (dice.uniform(60, 200), wide + dice.uniform(-30, 30))]
    start = dice.uniform(15, 75)
    narrow = dice.uniform(45, wide - 5)
    if kind == "cut-out":
        return [(0.0, narrow), (start, narrow), (start, wide)]
    if kind == "slanted cut-out":
        return [(0.0, narrow), (start, narrow), (start + dice.uniform(2, 30), wide)]
    xs = sorted(dice.uniform(0, 140) for _ in range(5))
    return [(x, dice.uniform(55, 130)) for x in xs]


def random_cases():
    dice = random.Random(731_2024)
    cases = []
    for _ in range(200):
        y_in = dice.uniform(40, 100) if dice.random() < 0.9 else dice.uniform(0, 25)
        cases.append(
            (
                dice.uniform(40, 100),
                dice.uniform(30, 80),
                y_in,
                y_in + dice.uniform(25, 65),
                dice.choice([0.0, dice.uniform(3, 32)]) if dice.random() < 0.1 else dice.uniform(3, 32),
                dice.choice([0.0, dice.uniform(1, 38)]) if dice.random() < 0.1 else dice.uniform(1, 38),
                random_outline(dice),
            )
        )
    return cases


def wood(outline, end=400.0):
    """The wood as a polygon, both directions along the board and both sides of its middle."""
    upper = [(0.0, outline[0][1]), *outline, (end, outline[-1][1])]
    ahead = Polygon([(0.0, 0.0), *upper, (end, 0.0)]).buffer(0)
    return unary_union([affinity.scale(ahead, xfact=x, yfact=y, origin=(0, 0)) for x in (1, -1) for y in (1, -1)])


def test_closed_form_is_never_optimistic_and_agrees_with_the_sampled_wheel():
    met, unmet, worst = 0, 0, 0.0
    for case in random_cases():
        height, radius, y_in, y_out, _, steer, outline = case
        closed = wheel_bite.bite_clearance(*case)
        sampled = sampled_clearance(case)
        assert closed <= min(sampled, height) + 1e-6, case
        if np.isfinite(sampled) and sampled <= height:
            met += 1
            worst = max(worst, sampled - closed)
            assert closed >= sampled - 0.02, (case, closed, sampled)
        else:
            # No tread point under wood: only a sliver that slips through the net may lie under it.
            unmet += 1
            plan = box(-radius, y_in, radius, y_out)
            over = max(
                affinity.rotate(plan, sign * steer, origin=(0, 0)).intersection(wood(outline)).area for sign in (1, -1)
            )
            assert over < 2.0, case
            if over == 0.0:
                assert closed == height, case
    assert met > 120
    assert unmet > 3
    assert worst < 0.01


def test_a_grid_in_steps_of_half_a_degree_is_above_the_closed_form_by_up_to_some_tenths():
    """The usual walk over half-degree, eightieth-of-a-width steps misses corners, always to the hopeful side."""
    missed = 0.0
    for case in random_cases()[:60]:
        grid = min(
            sampled_gaps(
                (*case[:5], sign * case[5], case[6]),
                np.linspace(0, np.pi, 361),
                np.linspace(case[2], case[3], 81),
            ).min()
            for sign in (1, -1)
        )
        closed = wheel_bite.bite_clearance(*case)
        assert closed <= grid + 1e-6
        if np.isfinite(grid) and closed < case[0]:
            missed = max(missed, grid - closed)
    assert missed > 0.05


def sweep(y_in, radius, y_out, steer, steps=181):
    plan = box(-radius, y_in, radius, y_out)
    return unary_union([affinity.rotate(plan, angle, origin=(0, 0)) for angle in np.linspace(-steer, steer, steps)])


def test_outside_distance_agrees_with_the_swept_plan_in_shapely():
    dice = random.Random(4711)
    outside = inside = 0
    for _ in range(80):
        y_in = dice.uniform(70, 130)
        y_out, radius, steer = y_in + dice.uniform(25, 60), dice.uniform(25, 60), dice.uniform(0.5, 30)
        outline = random_outline(dice)
        value = wheel_bite.wheel_stands_outside(outline, y_in, radius, y_out, steer)
        swept, planks = sweep(y_in, radius, y_out, steer), wood(outline)
        # Chords between neighbouring steer angles cut the arcs short by r·(1 − cos(step/2)), below 0.001 mm.
        if value > 0.0:
            outside += 1
            assert value == pytest.approx(swept.distance(planks), abs=0.002)
        else:
            inside += 1
            overlap = swept.intersection(planks)
            assert overlap.area > 0.0 or value > -0.01
            # The greatest breadth across the board: wood lowered by it must leave the sweep, by less it must not.
            lowered = affinity.translate(planks.union(box(-400, -300, 400, 0.0)), yoff=value - 0.01)
            assert swept.intersection(lowered).area == pytest.approx(0.0, abs=1e-6)
            raised = affinity.translate(planks.union(box(-400, -300, 400, 0.0)), yoff=0.9 * value)
            assert swept.intersection(raised).area > 0.0 or value > -0.1
    assert outside > 15
    assert inside > 15


def test_a_wheel_that_stands_outside_has_no_wood_over_it_at_any_lean_or_smaller_steer():
    dice = random.Random(99)
    excused = 0
    for _ in range(400):
        y_in = dice.uniform(70, 130)
        y_out, radius, steer = y_in + dice.uniform(25, 60), dice.uniform(25, 60), dice.uniform(0.5, 30)
        outline = random_outline(dice)
        if wheel_bite.wheel_stands_outside(outline, y_in, radius, y_out, steer) <= 0.0:
            continue
        excused += 1
        for share in (0.0, 0.3, 0.7, 1.0):
            assert wheel_bite.bite_clearance(70.0, radius, y_in, y_out, 25.0, share * steer, outline) == 70.0
    assert excused > 40


def test_a_line_of_given_slope_touches_a_circle_at_its_tangent():
    """A line of slope m touches a circle of radius R at R·sqrt(1 + m²) over its centre (analytic geometry)."""
    # At 60 degrees of steer the deck falls by sin φ · sin 60° along the tread and by sin φ · cos 60° along the axle.
    slope = sin(radians(25.0)) * sin(radians(60.0))
    fall_at_face = 150.0 * 0.5 * sin(radians(25.0))
    closed = wheel_bite.bite_clearance(120.0, 40.0, 80.0, 150.0, 25.0, 60.0, [(0.0, 300.0)])
    assert closed == pytest.approx(120.0 - hypot(40.0, 40.0 * slope) - fall_at_face, abs=1e-9)

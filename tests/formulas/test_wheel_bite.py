"""Wheel bite: hand-worked cases, edges of the question and directions of change."""

import random
from math import asin, cos, degrees, radians, sin, sqrt

import pytest

from fitdb.formulas import wheel_bite

WIDE = [(0.0, 130.0)]


def test_flat_clearance_worked_by_hand():
    # 74 − 45 − 112 · sin 13° = 29 − 112 · 0.224951 = 3.80548
    assert wheel_bite.bite_clearance_flat(74.0, 45.0, 112.0, 13.0) == pytest.approx(3.80548, abs=1e-5)
    assert wheel_bite.bite_clearance_flat(70.0, 45.0, 100.0, 30.0) == pytest.approx(-25.0, abs=1e-12)


def test_bite_angle_is_where_the_flat_clearance_is_nothing():
    angle = wheel_bite.bite_angle_deg(74.0, 45.0, 112.0)
    assert angle == pytest.approx(degrees(asin(29.0 / 112.0)))
    assert wheel_bite.bite_clearance_flat(74.0, 45.0, 112.0, angle) == pytest.approx(0.0, abs=1e-12)


def test_bite_angle_at_its_ends():
    assert wheel_bite.bite_angle_deg(200.0, 45.0, 112.0) == pytest.approx(90.0)
    assert wheel_bite.bite_angle_deg(40.0, 45.0, 100.0) < 0.0
    assert wheel_bite.bite_angle_deg(0.0, 150.0, 100.0) == pytest.approx(-90.0)
    with pytest.raises(ValueError, match="y_contact"):
        wheel_bite.bite_angle_deg(70.0, 45.0, 0.0)


@pytest.mark.parametrize("half_width", [80.0, 95.0, 108.0, 130.0])
def test_without_steer_a_straight_deck_gives_the_flat_clearance(half_width):
    exact = wheel_bite.bite_clearance(74.0, 45.0, 60.0, 108.0, 16.0, 0.0, [(0.0, half_width)])
    flat = wheel_bite.bite_clearance_flat(74.0, 45.0, min(half_width, 108.0), 16.0)
    assert exact == pytest.approx(flat, abs=1e-12)


def test_a_level_board_shows_the_height_over_the_tread():
    assert wheel_bite.bite_clearance(74.0, 45.0, 60.0, 108.0, 0.0, 12.0, WIDE) == pytest.approx(29.0, abs=1e-12)


def test_under_a_wide_deck_the_steered_wheel_has_its_highest_point_behind_the_axle():
    # Along the outer face y·sin φ + z = sin φ·(y_out·cos δ − u·sin δ) + sqrt(R² − u²), greatest at
    # R·sqrt(1 + (sin φ·sin δ)²) + y_out·cos δ·sin φ.
    slope, steer = sin(radians(18.0)), radians(20.0)
    expected = 80.0 - (45.0 * sqrt(1.0 + (slope * sin(steer)) ** 2) + 110.0 * cos(steer) * slope)
    assert wheel_bite.bite_clearance(80.0, 45.0, 60.0, 110.0, 18.0, 20.0, WIDE) == pytest.approx(expected, abs=1e-12)


def test_both_signs_of_steer_give_one_answer():
    outline = [(0.0, 85.0), (50.0, 85.0), (50.0, 118.0)]
    for steer in (3.0, 12.0, 25.0):
        assert wheel_bite.bite_clearance(74.0, 45.0, 60.0, 110.0, 18.0, steer, outline) == wheel_bite.bite_clearance(
            74.0, 45.0, 60.0, 110.0, 18.0, -steer, outline
        )
        assert wheel_bite.wheel_stands_outside(outline, 90.0, 40.0, 130.0, steer) == wheel_bite.wheel_stands_outside(
            outline, 90.0, 40.0, 130.0, -steer
        )


def test_a_cut_out_is_undone_by_steer_at_its_corner():
    cut_out = [(0.0, 60.0), (50.0, 60.0), (50.0, 115.0)]
    straight = wheel_bite.bite_clearance(60.0, 45.0, 70.0, 115.0, 20.0, 0.0, cut_out)
    steered = wheel_bite.bite_clearance(60.0, 45.0, 70.0, 115.0, 20.0, 25.0, cut_out)
    assert straight == 60.0  # no wood over the wheel: the height itself
    assert steered < 15.0


def test_wood_behind_the_axle_counts_too():
    """A slim large wheel near the board's middle meets the tongue behind the axle, not the one ahead."""
    tongue = [(0.0, 3.0), (30.0, 3.0), (30.0, 14.0), (34.0, 14.0), (34.0, 3.0)]
    # Corner (−30, 14): along the tread −30·cos 10° − 14·sin 10° = −31.9753, so 14·sin 40° + sqrt(80² − 31.9753²).
    deepest = 14.0 * sin(radians(40.0)) + sqrt(6400.0 - 31.975314**2)
    assert wheel_bite.bite_clearance(100.0, 80.0, 4.0, 15.0, 40.0, 10.0, tongue) == pytest.approx(
        100.0 - deepest, abs=1e-5
    )


def test_without_wood_over_the_wheel_the_answer_is_the_height():
    assert wheel_bite.bite_clearance(66.0, 45.0, 100.0, 150.0, 20.0, 0.0, [(0.0, 99.0)]) == 66.0
    assert wheel_bite.bite_clearance(66.0, 45.0, 100.0, 150.0, 20.0, 15.0, [(0.0, 0.0)]) == 66.0
    assert wheel_bite.bite_clearance(66.0, 45.0, 0.0, 30.0, 20.0, 15.0, [(0.0, 0.0)]) == 66.0


def test_a_wheel_across_the_middle_meets_wood_of_the_high_side_only_where_wood_is():
    # Steered by 30 degrees the leading tread passes the middle: 44 mm ahead it lies wholly on the high side.
    wide, narrow = [(0.0, 0.0), (44.0, 0.0), (44.0, 50.0)], [(0.0, 0.0), (44.0, 0.0), (44.0, 5.0)]
    assert wheel_bite.bite_clearance(66.0, 45.0, 0.0, 15.0, 10.0, 30.0, wide) < 60.0
    assert wheel_bite.bite_clearance(66.0, 45.0, 0.0, 15.0, 10.0, 30.0, narrow) == 66.0


def test_a_step_to_nothing_ends_the_board():
    nose = [(0.0, 110.0), (30.0, 110.0), (30.0, 0.0)]
    whole = wheel_bite.bite_clearance(74.0, 45.0, 60.0, 110.0, 18.0, 0.0, nose)
    assert whole == pytest.approx(wheel_bite.bite_clearance_flat(74.0, 45.0, 110.0, 18.0))
    # Past the step there is no wood: the wheel, 20 mm in radius, is met by 50 mm of breadth only before it.
    assert wheel_bite.wheel_stands_outside([(0.0, 110.0), (9.0, 110.0), (9.0, 0.0)], 60, 20, 110, 0.0) == -50.0
    assert wheel_bite.wheel_stands_outside([(0.0, 40.0), (9.0, 40.0), (9.0, 0.0)], 60, 20, 110, 0.0) == 20.0


def test_never_above_the_height_and_moved_one_way_by_each_size():
    """More wood, a bigger or wider wheel or more lean never gives more room; more height and y_in never less."""
    dice = random.Random(20240611)
    for _ in range(300):
        height, radius = dice.uniform(45, 95), dice.uniform(35, 75)
        y_in = dice.uniform(45, 100)
        y_out = y_in + dice.uniform(30, 60)
        lean, steer = dice.uniform(0, 30), dice.uniform(0, 35)
        step = dice.uniform(20, 70)
        outline = [(0.0, dice.uniform(50, 120)), (step, dice.uniform(50, 120)), (step, dice.uniform(80, 130))]
        more_wood = [(x, width + 1.3) for x, width in outline]

        def clearance(h=height, r=radius, i=y_in, o=y_out, p=lean, b=outline, d=steer):
            return wheel_bite.bite_clearance(h, r, i, o, p, d, b)

        here = clearance()
        assert here <= height
        assert clearance(h=height + 2.0) == pytest.approx(here + 2.0, abs=1e-9)
        assert clearance(r=radius + 0.7) <= here + 1e-9
        assert clearance(i=y_in + 1.1) >= here - 1e-9
        assert clearance(o=y_out + 1.1) <= here + 1e-9
        assert clearance(p=lean + 0.9) <= here + 1e-9
        assert clearance(b=more_wood) <= here + 1e-9


def test_a_wheel_beside_a_straight_deck_stands_outside_by_the_gap_to_its_steered_corner():
    # The inner face's corner at full steer comes nearest: y_in·cos δ − R·sin δ.
    steer = radians(15.0)
    corner = 120.0 * cos(steer) - 40.0 * sin(steer)
    outside = wheel_bite.wheel_stands_outside([(0.0, 90.0)], 120.0, 40.0, 170.0, 15.0)
    assert outside == pytest.approx(corner - 90.0, abs=1e-12)
    inside = wheel_bite.wheel_stands_outside([(0.0, 110.0)], 120.0, 40.0, 170.0, 15.0)
    assert inside == pytest.approx(corner - 110.0, abs=1e-12)
    assert inside < 0.0


def test_a_cut_out_wall_ahead_counts_by_its_distance():
    cut_out = [(0.0, 40.0), (60.0, 40.0), (60.0, 120.0)]
    assert wheel_bite.wheel_stands_outside(cut_out, 70.0, 45.0, 118.0, 0.0) == pytest.approx(15.0)
    # Corner of the leading outer edge reaches R·cos δ + y_out·sin δ.
    steer = radians(5.0)
    reach = 45.0 * cos(steer) + 118.0 * sin(steer)
    assert wheel_bite.wheel_stands_outside(cut_out, 70.0, 45.0, 118.0, 5.0) == pytest.approx(60.0 - reach)


def test_a_tongue_of_wood_at_the_axle_is_met_while_running_straight():
    """At full steer the inner face has moved away from it, but the sweep passes over it."""
    tongue = [(0.0, 101.0), (1.0, 101.0), (1.0, 30.0)]
    # Deepest at its corner, 1 mm ahead of the axle: 101 − sqrt(100² − 1²).
    assert wheel_bite.wheel_stands_outside(tongue, 100.0, 40.0, 150.0, 12.0) == pytest.approx(sqrt(9999.0) - 101.0)
    pointed = [(0.0, 99.0), (1.0, 30.0)]
    assert wheel_bite.wheel_stands_outside(pointed, 100.0, 40.0, 150.0, 12.0) == pytest.approx(1.0)


def test_a_point_of_wood_facing_the_inner_face_counts_by_its_distance_along_the_axle():
    steer = radians(10.0)
    pointed = [(0.0, 30.0), (40.0, 70.0), (80.0, 30.0)]
    expected = 100.0 - (40.0 * sin(steer) + 70.0 * cos(steer))
    assert wheel_bite.wheel_stands_outside(pointed, 100.0, 60.0, 150.0, 10.0) == pytest.approx(expected)


def test_wood_that_widens_faster_than_the_leading_face_recedes_is_met_at_its_outer_corner():
    # Corner (40·cos 30° + 150·sin 30°, 150·cos 30° − 40·sin 30°); the wood's edge rises 3 mm in 1 from (75, 10).
    corner = (109.641016, 109.903811)
    widening = [(0.0, 10.0), (75.0, 10.0), (145.0, 220.0)]
    entered = 10.0 + 3.0 * (corner[0] - 75.0) - corner[1]
    assert entered > 0.0
    assert wheel_bite.wheel_stands_outside(widening, 100.0, 40.0, 150.0, 30.0) == pytest.approx(-entered, abs=1e-5)


OUTLINE_FAULTS = [[], [(10.0, 90.0), (5.0, 90.0)], [(-5.0, 90.0)], [(0.0, -1.0)], [(0.0, float("nan"))]]


@pytest.mark.parametrize("outline", OUTLINE_FAULTS)
def test_an_outline_that_cannot_be_is_refused(outline):
    with pytest.raises(ValueError, match="outline"):
        wheel_bite.bite_clearance(74.0, 45.0, 60.0, 110.0, 15.0, 10.0, outline)
    with pytest.raises(ValueError, match="outline"):
        wheel_bite.wheel_stands_outside(outline, 60.0, 45.0, 110.0, 10.0)


@pytest.mark.parametrize(
    ("radius", "y_in", "y_out", "lean", "steer", "word"),
    [
        (0.0, 60.0, 110.0, 15.0, 10.0, "radius"),
        (45.0, 110.0, 60.0, 15.0, 10.0, "y_in"),
        (45.0, -1.0, 60.0, 15.0, 10.0, "y_in"),
        (45.0, 60.0, 110.0, -1.0, 10.0, "lean_deg"),
        (45.0, 60.0, 110.0, 15.0, 90.0, "steer_deg"),
        (float("nan"), 60.0, 110.0, 15.0, 10.0, "radius"),
        (45.0, 60.0, 110.0, float("nan"), 10.0, "lean_deg"),
    ],
)
def test_a_wheel_or_angle_that_cannot_be_is_refused(radius, y_in, y_out, lean, steer, word):
    with pytest.raises(ValueError, match=word):
        wheel_bite.bite_clearance(74.0, radius, y_in, y_out, lean, steer, WIDE)

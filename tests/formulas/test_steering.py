"""Steering formulas: signs, symmetry and refusals."""

import pytest

from fitdb.formulas import steering


def test_a_level_board_runs_straight_and_steer_is_odd_in_lean():
    assert steering.steer_deg(50.0, 0.0) == 0.0
    assert steering.steer_deg(50.0, -12.0) == -steering.steer_deg(50.0, 12.0)
    assert steering.steer_deg(0.0, 20.0) == 0.0


def test_a_45_degree_axis_leaned_30_degrees_turns_the_axle_by_the_arc_tangent_of_one_half():
    assert steering.steer_deg(45.0, 30.0) == pytest.approx(26.56505117707799, abs=1e-12)


@pytest.mark.parametrize("axis", [-1.0, 90.0, 120.0, float("nan")])
def test_an_axis_outside_the_quarter_circle_is_refused(axis):
    with pytest.raises(ValueError, match="axis_angle_deg"):
        steering.steer_deg(axis, 10.0)


def test_two_kingpins_share_the_lean():
    # The tangent of 45 degrees is 1: steer equals lean, however it is shared.
    assert steering.two_kingpin_steer_deg(45.0, 4.0, 45.0, 9.0) == pytest.approx(13.0)
    assert steering.two_kingpin_steer_deg(50.0, 10.0, 30.0, 0.0) == pytest.approx(11.917535925942100)


def test_a_board_that_does_not_turn_has_no_radius():
    with pytest.raises(ValueError, match="no turn"):
        steering.turn_radius(700.0, 0.0, 0.0)
    with pytest.raises(ValueError, match="no turn"):
        steering.turn_radius(700.0, 5.0, -5.0)


def test_nose_down_weakens_the_front_and_sharpens_the_rear():
    tilt = steering.nose_down_deg(110.0, 122.0, 700.0)
    assert tilt == pytest.approx(0.98212, abs=1e-5)
    assert steering.front_axis_angle_deg(50.0, 0.0, 0.0, tilt) == pytest.approx(50.0 - tilt)
    assert steering.rear_axis_angle_deg(50.0, 0.0, 0.0, tilt) == pytest.approx(50.0 + tilt)


def test_wedge_and_sag_slope_add_to_the_plate():
    change = steering.wedge_axis_change_deg(5.0, thick_end_toward_middle=False)
    assert change == -5.0
    assert steering.wedge_axis_change_deg(5.0, thick_end_toward_middle=True) == 5.0
    assert steering.rear_axis_angle_deg(44.0, change, 3.4, 0.0) == pytest.approx(42.4)
    assert steering.front_axis_angle_deg(44.0, 5.0, 3.4, 0.0) == pytest.approx(52.4)

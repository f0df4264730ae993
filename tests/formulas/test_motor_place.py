"""Where a motor stands: plane figures turned in shapely, and numbers worked by hand."""

from math import cos, radians, sin

import pytest
from shapely import affinity
from shapely.geometry import Point

from fitdb.formulas import motor_place
from fitdb.formulas.belts import open_belt_length, pitch_diameter


def test_a_motor_in_its_slot():
    assert motor_place.centre_distance_in_slot(60.0, 72.0, 0.0) == 60.0
    assert motor_place.centre_distance_in_slot(60.0, 72.0, 100.0) == 72.0
    assert motor_place.centre_distance_in_slot(60.0, 72.0, 25.0) == pytest.approx(63.0)


def test_a_taut_belt_decides_and_an_impossible_one_does_not():
    # Equal pulleys: the belt is two straight strands and one circumference, 300 = 2C + 80.
    assert motor_place.centre_distance_on_belt(300.0, 5.0, 16, 16, 1.0, 200.0) == pytest.approx(110.0)
    centre = motor_place.centre_distance_on_belt(265.0, 5.0, 15, 36, 1.0, 200.0)
    assert open_belt_length(pitch_diameter(36, 5.0), pitch_diameter(15, 5.0), centre) == pytest.approx(265.0)
    assert motor_place.centre_distance_on_belt(100.0, 5.0, 15, 36, 61.0, 71.0) == 61.0
    assert motor_place.centre_distance_on_belt(400.0, 5.0, 15, 36, 61.0, 71.0) == 71.0


@pytest.mark.parametrize("wedge", [-10.0, 4.0, 12.0])
@pytest.mark.parametrize("inboard", [True, False])
def test_a_wedge_turns_the_motor_with_the_steering_axis(wedge, inboard):
    # Side view of a rear truck: x toward the board's middle, z up. The steering axis rises toward the board's end, at
    # 45 degrees; the motor stands at 20 degrees above the horizontal, inboard or outboard.
    axis = Point(-cos(radians(45.0)), sin(radians(45.0)))
    side = 1.0 if inboard else -1.0
    motor = Point(side * cos(radians(20.0)), sin(radians(20.0)))
    # A turn that raises the axis by the wedge is clockwise as seen here, where x points right: −wedge.
    turned_axis = affinity.rotate(axis, -wedge, origin=(0, 0))
    turned_motor = affinity.rotate(motor, -wedge, origin=(0, 0))
    assert turned_axis.y == pytest.approx(sin(radians(45.0 + wedge)))
    assert turned_motor.y == pytest.approx(sin(radians(motor_place.working_mount_angle(20.0, wedge, inboard))))


def test_the_can_begins_inside_the_plate():
    assert motor_place.outermost_point_of_can(180.0, 4.0, 8.0) == pytest.approx(78.0)


@pytest.mark.parametrize("angle", [-20.0, 0.0, 15.0, 40.0])
def test_an_outboard_motor_stands_clear_of_the_box_by_its_centre_distance(angle):
    can = Point(-66.0 * cos(radians(angle)), 66.0 * sin(radians(angle))).buffer(31.5, quad_segs=4000)
    gap = motor_place.motor_to_box_on_its_side(120.0, 66.0, angle, 31.5, 78.0, 0.0, False)
    assert gap == pytest.approx(120.0 - can.bounds[2], abs=1e-3)


@pytest.mark.parametrize("steer", [0.0, 8.0, 15.0])
def test_the_yawed_gap_errs_short_of_the_drawn_one(steer):
    # Plan: the can from y = 0 to 78 across the board, its inboard flank at 98 from the axle, yawed about the middle.
    drawn = affinity.rotate(Point(98.0, -78.0), steer, origin=(0, 0))
    gap = motor_place.motor_to_box_on_its_side(140.0, 66.5, 0.0, 31.5, 78.0, steer, True)
    assert gap <= 140.0 - drawn.x + 1e-9
    assert gap == pytest.approx(140.0 - drawn.x, abs=4.0)

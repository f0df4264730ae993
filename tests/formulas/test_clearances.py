"""Clearances: hand-worked numbers, and plane figures drawn in shapely where the formula claims a direction of error."""

from math import cos, pi, radians, sin

import pytest
from shapely import affinity
from shapely.geometry import LineString, Point, box

from fitdb.formulas import clearances


@pytest.mark.parametrize(
    ("teeth", "least_diameter"),
    # Least wheel for a flanged 5 mm pulley with 8 mm to the ground (common practice, no source), whole millimetres.
    [(36, 79), (40, 86), (44, 92), (48, 98), (56, 111), (66, 127)],
)
def test_least_wheel_over_a_flanged_pulley(teeth, least_diameter):
    gap = clearances.pulley_to_ground(least_diameter / 2.0, teeth * 5.0 / pi, 3.0)
    assert gap == pytest.approx(8.0, abs=0.25)


def test_worn_and_sunk_wheels_stand_lower():
    assert clearances.effective_wheel_radius(45.0, 2.0, 0.0) == 43.0
    assert clearances.effective_wheel_radius(75.0, 0.0, 5.0) == 70.0


def test_wheel_beside_a_motor_can():
    # Two circles side by side: distance of rims.
    wheel, can = Point(0, 0).buffer(45.0, quad_segs=4000), Point(80.0, 0).buffer(31.5, quad_segs=4000)
    assert clearances.wheel_to_motor_can(80.0, 31.5, 45.0) == pytest.approx(wheel.distance(can), abs=1e-3)
    assert clearances.wheel_to_motor_can(70.0, 31.5, 45.0) == pytest.approx(-6.5)


def test_two_motors_on_one_hanger():
    # 218 − 2·(4 + 8) − 74 − 74 − 12
    assert clearances.motor_to_motor(218.0, 4.0, 8.0, 74.0, 74.0, 12.0) == pytest.approx(34.0)
    assert clearances.motor_to_motor(180.0, 2.0, 8.0, 74.0, 74.0, 12.0) == pytest.approx(0.0)


@pytest.mark.parametrize("angle", [-20.0, 0.0, 15.0, 40.0])
def test_motor_to_deck_and_ground_on_a_level_board_as_drawn(angle):
    can = Point(72.0 * cos(radians(angle)), 72.0 * sin(radians(angle))).buffer(31.5, quad_segs=4000)
    deck, ground = LineString([(-300, 130.0), (300, 130.0)]), LineString([(-300, -80.0), (300, -80.0)])
    assert clearances.motor_to_deck_under_lean(130.0, 72.0, angle, 31.5, 70.0, 0.0, 0.0, 0.0) == pytest.approx(
        can.distance(deck), abs=1e-3
    )
    assert clearances.motor_to_ground(80.0, 72.0, angle, 31.5) == pytest.approx(can.distance(ground), abs=1e-3)


def test_lean_and_sag_take_from_the_gap_over_the_motor():
    level = clearances.motor_to_deck_under_lean(80.0, 72.0, 10.0, 31.5, 60.0, 0.0, 0.0, 0.0)
    assert level == pytest.approx(80.0 - 72.0 * 0.173648 - 31.5, abs=1e-4)
    leaned = clearances.motor_to_deck_under_lean(80.0, 72.0, 10.0, 31.5, 60.0, 30.0, 0.0, 0.0)
    assert leaned == pytest.approx(level - 30.0)
    # 15 mm of sag on 760 mm slopes by 3·15/760 and falls 4.263 mm over 72 mm.
    sagged = clearances.motor_to_deck_under_lean(80.0, 72.0, 10.0, 31.5, 60.0, 30.0, 3.39256, 72.0)
    assert leaned - sagged == pytest.approx(4.263, abs=0.001)


@pytest.mark.parametrize("steer", [0.0, 8.0, 15.0, 25.0])
def test_motor_and_wheel_to_box_err_short_of_the_drawn_gap(steer):
    edge = LineString([(150.0, -300), (150.0, 300)])
    can = affinity.rotate(box(0.0, 20.0, 72.0 * cos(radians(10.0)) + 31.5, 70.0), -steer, origin=(0, 0))
    stated = clearances.motor_to_box(150.0, 72.0, 10.0, 31.5, 70.0, steer)
    assert stated <= can.distance(edge) + 1e-9
    assert stated == pytest.approx(can.distance(edge), abs=102.4 * (1.0 - cos(radians(steer))) + 1e-3)
    wheel = affinity.rotate(box(-45.0, 60.0, 45.0, 112.0), -steer, origin=(0, 0))
    stated = clearances.wheel_sweep_to_box(150.0, 45.0, 112.0, steer)
    assert stated <= wheel.distance(edge) + 1e-9
    assert stated == pytest.approx(wheel.distance(edge), abs=45.0 * (1.0 - cos(radians(steer))) + 1e-9)


def test_box_to_ground_counts_the_sag_once_at_rest_and_twice_on_a_bump():
    middle = clearances.mid_height(74.0, 10.0, 0.0)
    assert middle == 84.0
    assert clearances.mid_height(74.0, 0.0, 18.0) == 56.0
    # 45 + 84 − 48 = 81; sag 15.2
    assert clearances.box_to_ground_at_rest(45.0, middle, 48.0, 15.2, height_holds_sag=False) == pytest.approx(65.8)
    assert clearances.box_to_ground_on_bump(45.0, middle, 48.0, 15.2, height_holds_sag=False) == pytest.approx(50.6)


def test_a_height_read_with_the_rider_standing_holds_one_sag():
    built, read = 84.0, 84.0 - 15.2
    for question in (clearances.box_to_ground_at_rest, clearances.box_to_ground_on_bump):
        assert question(45.0, read, 48.0, 15.2, height_holds_sag=True) == pytest.approx(
            question(45.0, built, 48.0, 15.2, height_holds_sag=False)
        )
    rough = clearances.box_to_ground_on_bump(45.0, read, 48.0, 15.2, height_holds_sag=True, sag_factor=2.5)
    assert rough == pytest.approx(81.0 - 2.5 * 15.2)


def test_track_overhang():
    assert clearances.track_overhang(130.0, 118.0) == 12.0
    assert clearances.track_overhang(100.0, 118.0) == -18.0

"""Quick ride figures: limits, directions and the mistakes that are refused."""

from __future__ import annotations

import math

import pytest

from fitdb.formulas import ride


def test_the_ratio_of_each_kind_of_drive() -> None:
    assert ride.drive_ratio((15,), (36,), ()) == 2.4
    assert ride.drive_ratio((), (), (3.6,)) == 3.6
    assert ride.drive_ratio((), (), ()) == 1.0


def test_speed_and_pull_trade_by_ratio_and_by_diameter() -> None:
    slow = ride.unloaded_speed_kmh(190.0, 42.0, 2.4, 83.0, 0.95)
    assert ride.unloaded_speed_kmh(190.0, 42.0, 1.2, 83.0, 0.95) == pytest.approx(2 * slow)
    assert ride.unloaded_speed_kmh(190.0, 42.0, 2.4, 90.0, 0.95) / slow == pytest.approx(90 / 83)
    pull = ride.wheel_pull((190.0, 190.0), 40.0, "block", 2.4, 83.0, 0.92)
    assert ride.wheel_pull((190.0, 190.0), 40.0, "block", 2.4, 90.0, 0.92) / pull == pytest.approx(83 / 90)
    assert ride.wheel_pull((190.0,), 40.0, "block", 2.4, 83.0, 0.92) == pytest.approx(pull / 2)


def test_the_two_ways_to_count_motor_current_differ_by_the_square_root_of_three_over_two() -> None:
    block = ride.wheel_pull((190.0,), 40.0, "block", 2.4, 83.0, 0.92)
    assert ride.wheel_pull((190.0,), 40.0, "peak_phase", 2.4, 83.0, 0.92) / block == pytest.approx(math.sqrt(3) / 2)


def test_a_controller_of_two_channels_and_two_controllers_of_one_brake_alike() -> None:
    assert ride.braking_charge((6.0,), (2,), 2) == ride.braking_charge((6.0, 6.0), (1, 1), 2) == 12.0


def test_a_channel_without_a_motor_brakes_nothing() -> None:
    assert ride.braking_charge((6.0,), (2,), 1) == 6.0
    assert ride.braking_charge((), (), 1) == 0.0


def test_a_charge_limit_brakes_half_as_hard_at_twice_the_speed() -> None:
    slow = ride.charge_deceleration(12.0, 46.0, 0.8, 10.0, 97.0, 0.0, 0.0)
    assert ride.charge_deceleration(12.0, 46.0, 0.8, 20.0, 97.0, 0.0, 0.0) == pytest.approx(slow / 2)
    assert math.isfinite(ride.charge_deceleration(12.0, 46.0, 0.8, 0.0, 97.0, 0.02, 0.5))


def test_the_slope_that_a_pull_just_holds_takes_that_pull() -> None:
    slope = ride.grade_percent(200.0, 95.0, 0.0)
    assert ride.road_load(95.0, 0.0, 0.0, 0.5, slope) == pytest.approx(200.0)
    assert ride.grade_percent(5000.0, 95.0, 0.02) < 3000.0
    assert ride.grade_percent(0.0, 95.0, 0.02) < 0.0


def test_a_pull_that_only_rolls_does_not_accelerate() -> None:
    assert ride.acceleration(ride.road_load(95.0, 0.0, 0.02, 0.55), 95.0, 0.02) == pytest.approx(0.0)


def test_wear_counts_only_where_the_wheel_was_ridden_since() -> None:
    assert ride.rolling_diameter(90.0, ("yes",), (2.0,)) == 86.0
    assert ride.rolling_diameter(90.0, ("no",), (2.0,)) == 90.0
    assert ride.rolling_diameter(100.0, (), ()) == 100.0


def test_the_lowest_ceiling_holds_the_board_back() -> None:
    assert ride.held_back_kmh(40.0, (25.0, 30.0)) == 25.0
    assert ride.held_back_kmh(20.0, (25.0,)) == 20.0
    assert ride.held_back_kmh(40.0, ()) == 40.0


def test_efficiency_is_that_of_the_drive_that_is_there() -> None:
    given = {"belt": 0.92, "gear": 0.94, "direct": 0.98}
    assert ride.drive_efficiency((15,), (), **given) == 0.92
    assert ride.drive_efficiency((), (3.0,), **given) == 0.94
    assert ride.drive_efficiency((), (), **given) == 0.98


def test_a_newton_is_a_watt_hour_for_every_three_point_six_kilometres() -> None:
    assert ride.consumption_wh_per_km(36.0, 1.0) == pytest.approx(10.0)
    assert ride.usable_energy_wh((10.0,), (10,), ("nickel",), 3.6, 3.2, 0.85) == pytest.approx(306.0)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="ratio"):
        ride.unloaded_speed_kmh(190.0, 42.0, 0.0, 83.0, 0.95)
    with pytest.raises(ValueError, match="diameter"):
        ride.wheel_pull((190.0,), 40.0, "block", 2.4, 0.0, 0.92)
    with pytest.raises(ValueError, match="mass"):
        ride.grade_percent(200.0, 0.0, 0.02)
    with pytest.raises(ValueError, match="deceleration"):
        ride.stopping_distance(20.0, 0.0, 1.0)
    with pytest.raises(ValueError, match="chemistry"):
        ride.usable_energy_wh((10.0,), (10,), ("lead",), 3.6, 3.2, 0.85)

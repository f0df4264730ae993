"""Motor torque carried to the wheel: signs, sharing, refusals."""

import math

import pytest

from fitdb.formulas import belts, motors


def test_braking_current_turns_the_sign_and_nothing_else() -> None:
    kt = motors.torque_constant(190.0)
    assert motors.wheel_torque(kt, -40.0, 2.4) == -motors.wheel_torque(kt, 40.0, 2.4)


def test_the_belt_carries_the_motor_torque_to_the_wheel() -> None:
    # Power is neither made nor lost in a lossless belt: pull times pitch radius is the torque on either side.
    kt = motors.torque_constant(170.0)
    pull = belts.belt_pull_n(kt, 60.0, 15, 5.0)
    driven_radius_m = belts.pitch_diameter(40, 5.0) / 2000.0
    assert pull * driven_radius_m == pytest.approx(motors.wheel_torque(kt, 60.0, 40 / 15))


def test_more_lugs_further_out_carry_less_each() -> None:
    assert motors.lug_force_n(10.0, 5, 20.0) == pytest.approx(100.0)
    assert motors.lug_force_n(10.0, 10, 20.0) == pytest.approx(50.0)
    assert motors.lug_force_n(10.0, 5, 40.0) == pytest.approx(50.0)


def test_malformed_numbers_are_refused() -> None:
    with pytest.raises(ValueError, match="speed constant"):
        motors.torque_constant(0.0)
    with pytest.raises(ValueError, match="convention"):
        motors.torque_constant(190.0, "rms")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="ratio"):
        motors.wheel_torque(0.05, 40.0, 0.0)
    with pytest.raises(ValueError, match="efficiency"):
        motors.wheel_torque(0.05, 40.0, 2.0, 1.01)
    with pytest.raises(ValueError, match="number of lugs"):
        motors.lug_force_n(10.0, 0, 20.0)
    with pytest.raises(ValueError, match="radius of the lugs"):
        motors.lug_play_deg(0.4, math.nan)

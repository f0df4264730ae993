"""Motor constants against two examination questions on permanent magnet motors, worked from power and Ohm's law alone.

The first gives 2 V at 100 rev/min and asks for the current of 0.4 N m. The second gives 12 V, 3800 rev/min without load
and 30 mN m at stall, and asks what the motor does at 2500 rev/min.
"""

import math

import pytest

from fitdb.formulas import motors

VOLTS, NO_LOAD_RPM, STALL_NM, AT_RPM = 12.0, 3800.0, 0.030, 2500.0


def test_generated_volts_give_the_torque_constant() -> None:
    # 2 V over 100·2π/60 rad/s is 0.19099 V s, and N m/A is the same unit.
    kt = motors.torque_constant(100.0 / 2.0)
    assert kt == pytest.approx(2.0 / (100.0 * 2.0 * math.pi / 60.0), rel=1e-12)
    assert motors.motor_torque(kt, 2.0944) == pytest.approx(0.4, rel=1e-4)


def test_the_twelve_volt_motor_at_2500_rev_min() -> None:
    kv = NO_LOAD_RPM / VOLTS
    kt = motors.torque_constant(kv)
    resistance = VOLTS / (STALL_NM / kt)
    assert resistance == pytest.approx(12.06, abs=0.005)
    back_volts = AT_RPM / kv
    assert back_volts == pytest.approx(7.895, abs=0.0005)
    current = (VOLTS - back_volts) / resistance
    assert current == pytest.approx(0.3403, abs=0.00005)
    torque = motors.motor_torque(kt, current)
    assert torque * 1000.0 == pytest.approx(10.263, abs=0.0005)
    # Torque falls straight from stall to no load: a second way to the same number.
    assert torque == pytest.approx(STALL_NM * (1.0 - AT_RPM / NO_LOAD_RPM), rel=1e-12)
    shaft = torque * AT_RPM * 2.0 * math.pi / 60.0
    assert VOLTS * current == pytest.approx(4.084, abs=0.0005)
    assert shaft == pytest.approx(2.687, abs=0.0005)
    assert VOLTS * current - shaft == pytest.approx(current * current * resistance, rel=1e-9)


@pytest.mark.parametrize("kv", [50.0, 75.0, 150.0, 190.0, 270.0])
def test_electrical_power_is_mechanical_power(kv: float) -> None:
    # At any speed E·I = T·ω, with E = n/Kv: neither made nor lost in an ideal motor.
    current, rpm = 37.0, 4321.0
    mechanical = motors.motor_torque(motors.torque_constant(kv), current) * rpm * 2.0 * math.pi / 60.0
    assert mechanical == pytest.approx(rpm / kv * current, rel=1e-12)

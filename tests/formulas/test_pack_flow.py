"""Flow in and out of packs: exact forms against stepping, signs, ends of a discharge, refusals."""

import math

import pytest

from fitdb.formulas import pack_flow

STRAIGHT = ((0.0, 3.0), (1.0, 4.2))
BENT = ((0.0, 2.8), (0.1, 3.3), (0.6, 3.7), (1.0, 4.2))


def stepped(power: float, capacity: float, resistance: float, points: pack_flow.VoltPoints, least: float) -> float:
    """Hours at constant power by stepping through the charge, to check the closed form."""
    hours, steps = 0.0, 200_000
    for number in range(steps):
        left = 1.0 - (number + 0.5) / steps
        open_volts = pack_flow.open_circuit_volts(left, points)
        if open_volts * open_volts < 4.0 * resistance * power:
            break
        current = pack_flow.current_at_power(power, open_volts, resistance)
        if open_volts - current * resistance < least:
            break
        hours += capacity / steps / current
    return hours


@pytest.mark.parametrize("points", [STRAIGHT, BENT])
@pytest.mark.parametrize(("power", "resistance", "least"), [(36.0, 0.04, 2.8), (10.0, 0.0, 3.0), (20.0, 0.08, 2.6)])
def test_constant_power_in_closed_form_is_what_stepping_finds(
    points: pack_flow.VoltPoints, power: float, resistance: float, least: float
) -> None:
    found = pack_flow.discharge_at_power(power, 5.0, resistance, points, least)
    assert found.seconds / 3600.0 == pytest.approx(stepped(power, 5.0, resistance, points, least), rel=2e-5)
    assert found.energy_wh == pytest.approx(power * found.seconds / 3600.0)


def test_the_current_gives_the_power_drawn_or_charged() -> None:
    for power in (-500.0, 0.0, 300.0, 900.0):
        current = pack_flow.current_at_power(power, 43.2, 0.095)
        assert current * pack_flow.volts_under_current(43.2, current, 0.095) == pytest.approx(power, abs=1e-9)
    assert pack_flow.current_at_power(-500.0, 43.2, 0.095) < 0.0


def test_more_than_a_pack_can_give_is_refused() -> None:
    most = pack_flow.greatest_power_w(43.2, 0.1)
    assert pack_flow.current_at_power(most, 43.2, 0.1) == pytest.approx(216.0)
    with pytest.raises(ValueError, match="more than the"):
        pack_flow.current_at_power(most * 1.0001, 43.2, 0.1)


def test_a_pack_at_its_peak_power_ends_there_and_not_at_the_least_volts() -> None:
    # 36 W from a cell of 0.1 ohm: no current gives it below 3.795 V, whatever the least volts allow.
    found = pack_flow.discharge_at_power(36.0, 5.0, 0.1, STRAIGHT, 0.5)
    assert pack_flow.open_circuit_volts(found.charge_left, STRAIGHT) == pytest.approx(2.0 * math.sqrt(3.6))


def test_what_is_below_its_end_already_gives_nothing() -> None:
    assert pack_flow.discharge_at_current(50.0, 5.0, 0.05, STRAIGHT, 2.5) == pack_flow.Discharge(0.0, 0.0, 0.0, 1.0)
    assert pack_flow.discharge_at_power(100.0, 5.0, 0.05, STRAIGHT, 2.5).seconds == 0.0


def test_a_flat_stretch_of_volts_is_passed_through() -> None:
    flat = ((0.0, 3.0), (0.5, 3.3), (1.0, 3.3))
    found = pack_flow.discharge_at_power(33.0, 2.0, 0.0, flat, 3.3)
    assert found.energy_wh == pytest.approx(0.0) or found.charge_left == pytest.approx(0.5)
    longer = pack_flow.discharge_at_power(33.0, 2.0, 0.0, flat, 3.0)
    assert longer.charge_ah == pytest.approx(2.0)


def test_two_packs_divide_a_current_and_no_more() -> None:
    assert pack_flow.current_share(95.0, 135.0) + pack_flow.current_share(135.0, 95.0) == pytest.approx(1.0)
    assert pack_flow.equalising_current(49.2, 43.2, 135.0, 95.0) == -pack_flow.equalising_current(
        43.2, 49.2, 95.0, 135.0
    )


def test_a_brake_limited_by_its_charge_weakens_with_speed() -> None:
    slow = pack_flow.braking_force_n(12.0, 46.0, 15.0 / 3.6, 0.8)
    assert slow == pytest.approx(2.0 * pack_flow.braking_force_n(12.0, 46.0, 30.0 / 3.6, 0.8))


def test_malformed_numbers_are_refused() -> None:
    with pytest.raises(ValueError, match="two points"):
        pack_flow.open_circuit_volts(0.5, ((0.0, 3.0),))
    with pytest.raises(ValueError, match="must rise"):
        pack_flow.open_circuit_volts(0.5, ((0.0, 3.6), (1.0, 3.0)))
    with pytest.raises(ValueError, match="charge left"):
        pack_flow.open_circuit_volts(1.2, STRAIGHT)
    with pytest.raises(ValueError, match="current in A"):
        pack_flow.discharge_at_current(0.0, 5.0, 0.05, STRAIGHT, 2.5)
    with pytest.raises(ValueError, match="speed"):
        pack_flow.braking_force_n(10.0, 40.0, 0.0, 0.8)
    with pytest.raises(ValueError, match="efficiency"):
        pack_flow.braking_force_n(10.0, 40.0, 5.0, 0.0)
    with pytest.raises(ValueError, match="both packs"):
        pack_flow.equalising_current(40.0, 41.0, 0.0, 0.0)


def test_a_common_port_is_as_weak_as_its_charge_path() -> None:
    both = pack_flow.bms_charge_borne((5.0, 10.0), (30.0, 60.0), ("common_port", "separate_ports"))
    assert both == pytest.approx(65.0)
    with pytest.raises(ValueError, match="port layout"):
        pack_flow.bms_charge_borne((5.0,), (30.0,), ("two_ports",))

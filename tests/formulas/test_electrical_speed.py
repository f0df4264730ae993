"""Electrical speed: what scales it, and how a ceiling cuts it off."""

import math

import pytest

from fitdb.formulas.electrical_speed import below_ceiling, unloaded_electrical_speed


def test_twice_the_pole_pairs_are_twice_the_electrical_speed() -> None:
    assert unloaded_electrical_speed(75.0, 42.0, 14) == 2 * unloaded_electrical_speed(75.0, 42.0, 7)


def test_a_high_ceiling_changes_nothing_and_a_low_one_is_the_speed() -> None:
    assert below_ceiling(47250.0, 1e6) == 47250.0
    assert below_ceiling(47250.0, 36000.0) == 36000.0


def test_the_ceiling_holds_above_the_voltage_limit_too() -> None:
    assert below_ceiling(50000.0, 1e6, 1.2) == pytest.approx(60000.0)
    assert below_ceiling(50000.0, 55000.0, 1.2) == 55000.0


@pytest.mark.parametrize("wrong", [(0.0, 42.0, 7), (75.0, -1.0, 7), (75.0, 42.0, 0), (math.inf, 42.0, 7)])
def test_malformed_numbers_are_refused(wrong: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="must be a finite number above zero"):
        unloaded_electrical_speed(*wrong)

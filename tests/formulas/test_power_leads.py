"""Leads of the power side: what they bear and what is lost along them."""

from __future__ import annotations

import pytest

from fitdb.formulas.power_leads import lead_current, share_of_volts_lost


def test_a_lead_in_a_bundle_bears_less() -> None:
    assert lead_current(5.0, "open_air", 10.0, 7.0) == 50.0
    assert lead_current(5.0, "enclosed_bundle", 10.0, 7.0) == 35.0
    with pytest.raises(ValueError, match="laying"):
        lead_current(5.0, "under_water", 10.0, 7.0)


def test_share_of_volts_is_that_of_two_resistors_in_a_row() -> None:
    """50 A through 1 m out and 1 m back of 1 mm² at 0.021 Ω·mm²/m: 2.1 V of 42 V."""
    assert share_of_volts_lost(50.0, 1000.0, 1.0, 42.0, 0.021) == pytest.approx(5.0)


@pytest.mark.parametrize("volts", [0.0, -1.0])
def test_a_rail_without_volts_is_no_rail(volts: float) -> None:
    with pytest.raises(ValueError, match="volts"):
        share_of_volts_lost(50.0, 1000.0, 1.0, volts, 0.021)

"""Wire: scaling laws and refusals."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitdb.formulas import wires


@given(st.floats(min_value=0.0, max_value=40.0))
def test_three_gauges_double_the_area_and_six_the_diameter(gauge: float) -> None:
    # 92^(6/39) is 2.005, so the trade's doubling is good to half a per cent.
    if gauge >= 3.0:
        assert wires.awg_area_mm2(gauge - 3.0) / wires.awg_area_mm2(gauge) == pytest.approx(2.0, rel=0.006)
        assert wires.awg_diameter_mm(gauge - 3.0) > wires.awg_diameter_mm(gauge)
    if gauge >= 6.0:
        assert wires.awg_diameter_mm(gauge - 6.0) / wires.awg_diameter_mm(gauge) == pytest.approx(2.0, rel=0.006)
    if gauge >= 10.0:
        assert wires.awg_area_mm2(gauge - 10.0) / wires.awg_area_mm2(gauge) == pytest.approx(10.0, rel=0.025)


def test_the_drop_counts_both_leads_and_scales_with_current_and_length() -> None:
    one_lead = wires.wire_resistance_ohm(500.0, 3.31)
    assert wires.voltage_drop_v(40.0, 500.0, 3.31) == pytest.approx(80.0 * one_lead)
    assert wires.voltage_drop_v(-40.0, 500.0, 3.31) == pytest.approx(-80.0 * one_lead)
    assert wires.wire_resistance_ohm(0.0, 3.31) == 0.0


def test_malformed_numbers_are_refused() -> None:
    for gauge in (-4.0, 41.0, math.nan):
        with pytest.raises(ValueError, match="wire gauge"):
            wires.awg_diameter_mm(gauge)
    with pytest.raises(ValueError, match="length of the wire"):
        wires.wire_resistance_ohm(-1.0, 3.31)
    with pytest.raises(ValueError, match="area of the wire"):
        wires.wire_resistance_ohm(100.0, 0.0)
    with pytest.raises(ValueError, match=r"no nominal area 3\.3 mm2"):
        wires.class_5_resistance_ohm_per_km(3.3)

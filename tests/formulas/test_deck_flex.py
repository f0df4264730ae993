"""Deck flex: hand-worked numbers and refusals."""

from math import inf

import pytest

from fitdb.formulas import deck_flex


def test_mid_sag_worked_by_hand():
    # 80 kg · 9.80665 · 0.69 / 60 N/mm
    assert deck_flex.mid_sag(80.0, 60.0) == pytest.approx(9.0221, abs=1e-4)
    assert deck_flex.mid_sag(80.0, 60.0, deck_flex.LOAD_SHARE_AT_MID) == pytest.approx(13.0755, abs=1e-4)
    with pytest.raises(ValueError, match="stiffness"):
        deck_flex.mid_sag(80.0, 0.0)


def test_end_slope_of_15_mm_on_760():
    assert deck_flex.end_slope_deg(15.0, 760.0) == pytest.approx(3.39, abs=0.005)


@pytest.mark.parametrize(
    ("box_length", "share"), [(200.0, 0.11), (300.0, 0.24), (500.0, 0.58), (0.0, 0.0), (700.0, 1.0)]
)
def test_sagitta_shares_on_a_span_of_700(box_length, share):
    assert deck_flex.sagitta_under_box(1.0, box_length, 700.0) == pytest.approx(share, abs=0.006)


def test_a_box_longer_than_the_span_is_refused():
    with pytest.raises(ValueError, match="box_length"):
        deck_flex.sagitta_under_box(10.0, 701.0, 700.0)


def test_lead_and_breakover_worked_by_hand():
    assert deck_flex.lead_lengthening(25.0, 30.0, 760.0) == pytest.approx(5.92, abs=0.005)
    assert deck_flex.breakover_height(700.0, 10.0) == pytest.approx(30.62, abs=0.005)
    assert deck_flex.breakover_height(700.0, 0.0) == 0.0


@pytest.mark.parametrize(("drop", "sag"), [(10.0, 0.0), (-1.0, 5.0), (10.0, -2.0), (10.0, float("nan"))])
def test_an_impact_without_sag_or_drop_is_refused(drop, sag):
    with pytest.raises(ValueError, match="impact_factor"):
        deck_flex.impact_factor(drop, sag)


@pytest.mark.parametrize("foot_distance", [-1.0, 351.0, inf])
def test_a_foot_past_mid_span_is_refused(foot_distance):
    with pytest.raises(ValueError, match="foot_distance"):
        deck_flex.four_point_mid_deflection(800.0, 700.0, foot_distance, 11000.0, 33120.0)


def test_two_feet_together_at_mid_are_one_load_at_mid():
    together = deck_flex.four_point_mid_deflection(800.0, 700.0, 350.0, 11000.0, 33120.0)
    assert together == pytest.approx(deck_flex.three_point_mid_deflection(800.0, 700.0, 11000.0, 33120.0))

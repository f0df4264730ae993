"""Deck flex against beam theory solved another way and against printed values.

Gere, Mechanics of Materials: beam tables, and the problem on impact factors (9-94 in its numbering). The worked board
(230 x 12 mm, 11 GPa, span 700 mm, 90 kg) was solved with two open frame solvers to eight digits; the same
numbers are met here by integrating the curvature.
"""

from math import cos, degrees, radians, sin

import numpy as np
import pytest
from scipy.integrate import cumulative_trapezoid
from scipy.optimize import brentq

from fitdb.formulas import deck_flex

SPAN, MODULUS = 700.0, 11_000.0
FORCE = 90.0 * 9.80665
SECOND_MOMENT = 33_120.0


def bent_beam(loads, span, modulus, second_moment, points=70_001):
    """Deflection curve of a simply supported beam: its moment integrated twice. Loads are (place, force)."""
    x = np.linspace(0.0, span, points)
    moment = np.zeros_like(x)
    for place, force in loads:
        left = force * (span - place) / span
        moment += np.where(x <= place, left * x, left * x - force * (x - place))
    slope = cumulative_trapezoid(-moment / (modulus * second_moment), x, initial=0.0)
    sag = cumulative_trapezoid(slope, x, initial=0.0)
    start_slope = -sag[-1] / span
    return x, sag + start_slope * x, slope + start_slope


def test_second_moment_of_the_worked_board():
    assert deck_flex.rectangle_second_moment(230.0, 12.0) == pytest.approx(33_120.0)


def test_one_load_at_mid_bends_the_worked_board_by_17_311_mm():
    sag = deck_flex.three_point_mid_deflection(FORCE, SPAN, MODULUS, SECOND_MOMENT)
    assert sag == pytest.approx(17.311, abs=0.0005)
    assert sag == pytest.approx(bent_beam([(350.0, FORCE)], SPAN, MODULUS, SECOND_MOMENT)[1].max(), rel=1e-7)


def test_two_feet_150_mm_in_bend_it_by_10_447_mm():
    sag = deck_flex.four_point_mid_deflection(FORCE, SPAN, 150.0, MODULUS, SECOND_MOMENT)
    assert sag == pytest.approx(10.447, abs=0.0005)
    loads = [(150.0, FORCE / 2.0), (550.0, FORCE / 2.0)]
    assert sag == pytest.approx(bent_beam(loads, SPAN, MODULUS, SECOND_MOMENT)[1].max(), rel=1e-7)


def test_feet_at_the_quarter_points_sag_eleven_sixteenths_of_a_load_at_mid():
    at_mid = deck_flex.three_point_mid_deflection(FORCE, SPAN, MODULUS, SECOND_MOMENT)
    at_quarters = deck_flex.four_point_mid_deflection(FORCE, SPAN, SPAN / 4.0, MODULUS, SECOND_MOMENT)
    assert at_quarters / at_mid == pytest.approx(11.0 / 16.0, rel=1e-12)
    # The trade's rounded share is within half a percent, to the deeper side.
    assert 0.0 < deck_flex.LOAD_SHARE_AT_QUARTER_POINTS - at_quarters / at_mid < 0.005


def test_stiffness_read_at_mid_gives_the_same_sag_as_the_beam():
    stiffness = 48.0 * MODULUS * SECOND_MOMENT / SPAN**3
    assert deck_flex.mid_sag(90.0, stiffness, 1.0) == pytest.approx(17.311, abs=0.0005)


@pytest.mark.parametrize(
    ("wood", "modulus", "sag"),
    # Static bending at 12 % moisture, USDA Wood Handbook; sag = P·L³/(48·E·I) worked with a desk calculator.
    [("sugar maple", 12_600.0, 15.113), ("yellow birch", 13_900.0, 13.700)],
)
def test_the_worked_board_in_solid_hardwood(wood, modulus, sag):
    assert deck_flex.three_point_mid_deflection(FORCE, SPAN, modulus, SECOND_MOMENT) == pytest.approx(
        sag, abs=0.0005
    ), wood


def test_end_slope_is_that_of_the_integrated_beam():
    _, sag, slope = bent_beam([(350.0, FORCE)], SPAN, MODULUS, SECOND_MOMENT)
    assert deck_flex.end_slope_deg(sag.max(), SPAN) == pytest.approx(degrees(slope[0]), rel=1e-6)


@pytest.mark.parametrize("box_length", [80.0, 200.0, 300.0, 480.0, 650.0])
def test_sagitta_is_read_off_the_integrated_beam(box_length):
    x, sag, _ = bent_beam([(350.0, FORCE)], SPAN, MODULUS, SECOND_MOMENT)
    at_end = np.interp((SPAN - box_length) / 2.0, x, sag)
    assert deck_flex.sagitta_under_box(sag.max(), box_length, SPAN) == pytest.approx(sag.max() - at_end, rel=1e-5)


def test_a_lead_below_the_deck_grows_by_its_strain():
    # Strain at depth z is curvature times z; its sum over the span is z times the change of slope.
    _, sag, slope = bent_beam([(350.0, FORCE)], SPAN, MODULUS, SECOND_MOMENT)
    assert deck_flex.lead_lengthening(25.0, sag.max(), SPAN) == pytest.approx(25.0 * (slope[0] - slope[-1]), rel=1e-6)


@pytest.mark.parametrize(
    ("ratio", "printed", "decimals"),
    # Gere's printed table of impact factors over h/δ; at 5 the book prints 4.33 where 1 + √11 = 4.317.
    [(0.0, 2.00, 0.005), (2.5, 3.45, 0.005), (7.5, 5.00, 0.005), (10.0, 5.58, 0.005), (5.0, 4.33, 0.015)],
)
def test_printed_impact_factors(ratio, printed, decimals):
    assert deck_flex.impact_factor(ratio * 12.0, 12.0) == pytest.approx(printed, abs=decimals)


def test_impact_factor_at_five_is_the_exact_root_not_the_misprint():
    assert deck_flex.impact_factor(60.0, 12.0) == pytest.approx(4.317, abs=0.0005)
    assert abs(deck_flex.impact_factor(60.0, 12.0) - 4.33) > 0.01


@pytest.mark.parametrize(("drop", "sag"), [(0.0, 5.0), (50.0, 17.311), (120.0, 9.0)])
def test_impact_factor_balances_energy(drop, sag):
    # m·g·(h + x) = K·x²/2 with K = m·g/δ, solved for the greatest sag x.
    deepest = brentq(lambda x: drop + x - x * x / (2.0 * sag), sag, 100.0 * sag, xtol=1e-12)
    assert deck_flex.impact_factor(drop, sag) == pytest.approx(deepest / sag, rel=1e-9)


def test_a_drop_of_50_mm_on_the_worked_board():
    assert deck_flex.impact_factor(50.0, 17.311) == pytest.approx(3.603, abs=0.0005)


@pytest.mark.parametrize(("wheelbase", "ramp", "radius"), [(700.0, 10.0, 45.0), (850.0, 24.0, 75.0), (600.0, 5.0, 0.0)])
def test_breakover_by_placing_two_wheels_astride_a_crest(wheelbase, ramp, radius):
    # Crest at the origin, both slopes falling at half the ramp; wheels touch their slopes, axles a wheelbase apart.
    fall = radians(ramp / 2.0)
    along = brentq(lambda t: 2.0 * (t * cos(fall) + radius * sin(fall)) - wheelbase, 0.0, wheelbase)
    axle_over_crest = radius * cos(fall) - along * sin(fall)
    taken = radius - axle_over_crest
    stated = deck_flex.breakover_height(wheelbase, ramp)
    assert stated == pytest.approx(taken + radius * (1.0 / cos(fall) - 1.0), rel=1e-9, abs=1e-9)
    assert stated >= taken - 1e-9

"""Profiles in bores by form and size: closed forms against circles found by shapely, the rest against their drawing."""

import pytest
import shapely

from fitdb.formulas.clamp_outlines import drawn_by_sizes, enclosing_radius, even_gap, inscribed_radius
from fitdb.formulas.core_windows import ARC_SAGITTA_MM

SIZES = {
    "round": (30.0, 30.0),
    "hexagon": (30.0, 1.0),
    "square": (28.0, 1.0),
    "d_shape": (30.0, 26.0),
    "oval": (34.0, 28.0),
}


@pytest.mark.parametrize("form", SIZES)
def test_circles_round_and_in_a_form(form):
    outside = shapely.Polygon(drawn_by_sizes(form, *SIZES[form], is_bore=False))
    inside = shapely.Polygon(drawn_by_sizes(form, *SIZES[form], is_bore=True))
    around = float(shapely.minimum_bounding_radius(outside))
    within = float(shapely.maximum_inscribed_circle(inside, tolerance=1e-4).length)
    assert enclosing_radius(form, *SIZES[form]) == pytest.approx(around, abs=2 * ARC_SAGITTA_MM + 1e-3)
    assert inscribed_radius(form, *SIZES[form]) == pytest.approx(within, abs=2 * ARC_SAGITTA_MM + 1e-3)


def test_a_hexagon_in_a_round_bore_touches_with_its_corners():
    # 30 mm across flats is 34.64 mm across corners.
    assert even_gap("hexagon", 30.0, 0.0, (), "round", 35.0, 0.0, ()) == pytest.approx(0.18, abs=0.005)


def test_a_drawn_profile_in_a_round_bore():
    house = (((-14.0, -12.0), (14.0, -12.0), (10.0, 12.0), (-10.0, 12.0)),)
    # Circle through all four corners: its middle lies 2 mm below that of the drawing, its radius is the root of 296.
    assert even_gap("trapezoid", 28.0, 24.0, house, "round", 40.0, 0.0, ()) == pytest.approx(20.0 - 296.0**0.5)


@pytest.mark.parametrize("form", ["d_shape", "oval"])
def test_a_bore_that_is_larger_all_round(form):
    a, b = SIZES[form]
    assert even_gap(form, a, b, (), form, a + 0.4, b + 0.4, ()) == pytest.approx(0.2, abs=2 * ARC_SAGITTA_MM + 1e-3)


def test_what_sizes_do_not_tell_is_not_guessed():
    assert even_gap("trapezoid", 30.0, 26.0, (), "trapezoid", 30.4, 26.4, ()) is None
    assert even_gap("hexagon", 30.0, 0.0, (), "square", 32.0, 0.0, ()) is None
    assert even_gap("d_shape", 30.0, 40.0, (), "d_shape", 31.0, 41.0, ()) is None

"""Clamp gaps against closed forms of plane geometry and an independent check by grown outlines."""

import math
import random

import pytest
import shapely
from shapely import affinity

from fitdb.formulas.clamp_profiles import clamp_gap, closing_needed, profile_outline
from fitdb.formulas.core_windows import ARC_SAGITTA_MM

EXACT_ENOUGH_MM = 2.0 * ARC_SAGITTA_MM + 1e-4


@pytest.mark.parametrize(
    ("profile", "bore", "expected"),
    [
        # Circle in circle: R − r.
        (("round", 31.5), ("round", 31.8), 0.15),
        # Regular hexagon in a circle: circumradius is f / sqrt(3).
        (("hexagon", 25.0), ("round", 30.0), 15.0 - 25.0 / math.sqrt(3.0)),
        # Circle in a regular hexagon or square: inradius is f / 2.
        (("round", 24.0), ("hexagon", 25.0), 0.5),
        (("round", 30.0), ("square", 30.4), 0.2),
        # Square in a circle: half the diagonal.
        (("square", 20.0), ("round", 29.0), 14.5 - 20.0 / math.sqrt(2.0)),
        # Circle in an ellipse: the half minor axis, as long as r exceeds no radius of curvature at the minor ends.
        (("round", 24.0), ("oval", 30.0, 26.0), 1.0),
        # Largest square in a regular hexagon of side 1, parallel to two sides: 3 − sqrt(3) (flat distance sqrt(3)).
        (("square", 10.0 * (3.0 - math.sqrt(3.0))), ("hexagon", 10.0 * math.sqrt(3.0)), 0.0),
    ],
)
def test_closed_forms_of_plane_geometry(profile, bore, expected) -> None:
    gap = clamp_gap(profile_outline(*profile), profile_outline(*bore, is_bore=True))
    assert expected - EXACT_ENOUGH_MM <= gap.gap_mm <= expected + 1e-9


def test_the_largest_equilateral_triangle_in_a_square_stands_at_fifteen_degrees() -> None:
    # Side sqrt(6) − sqrt(2) of the square's (Madachy 1979, from memory), standing 15 degrees off the base.
    side = 20.0 * (math.sqrt(6.0) - math.sqrt(2.0))
    square = ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0))

    def triangle(length):
        return ((0.0, 0.0), (length, 0.0), (length / 2.0, length * math.sqrt(3.0) / 2.0))

    gap = clamp_gap(triangle(side), square, largest_turn_deg=20.0)
    assert gap.gap_mm == pytest.approx(0.0, abs=1e-3)
    assert abs(gap.rotation_deg) == pytest.approx(15.0, abs=0.1)
    assert clamp_gap(triangle(side + 0.05), square, largest_turn_deg=20.0).gap_mm < 0.0


PAIRS = [
    (("trapezoid", 30.0, 20.0, 24.0), ("trapezoid", 30.6, 20.6, 24.6)),
    (("trapezoid", 30.0, 20.0, 24.0), ("trapezoid", 30.4, 20.8, 25.4)),
    (("hexagon", 25.0), ("oval", 31.0, 29.6)),
    (("d_shape", 30.0, 26.0), ("round", 30.6)),
    (("oval", 30.0, 26.0), ("oval", 30.6, 26.8)),
]


@pytest.mark.parametrize(("profile", "bore"), PAIRS)
def test_the_gap_is_there_and_no_other_place_has_a_larger_one(profile, bore) -> None:
    inner, outer = profile_outline(*profile), profile_outline(*bore, is_bore=True)
    gap = clamp_gap(inner, outer)
    assert gap.gap_mm > 0.0
    bore_shape, inner_shape = shapely.Polygon(outer), shapely.Polygon(inner)

    def place(turn_deg, dx, dy):
        return affinity.translate(affinity.rotate(inner_shape, turn_deg, origin=(0, 0)), dx, dy)

    here = place(gap.rotation_deg, gap.dx, gap.dy)
    assert bore_shape.covers(here.buffer(gap.gap_mm - 1e-6))
    assert bore_shape.exterior.distance(here) == pytest.approx(gap.gap_mm, abs=1e-6)
    rng = random.Random(7)
    for spread in (5.0, 0.5, 0.05):
        for _ in range(300):
            other = place(
                gap.rotation_deg + rng.uniform(-spread, spread),
                gap.dx + 0.1 * rng.uniform(-spread, spread),
                gap.dy + 0.1 * rng.uniform(-spread, spread),
            )
            if bore_shape.covers(other):
                assert bore_shape.exterior.distance(other) <= gap.gap_mm + 1e-3


def test_forms_that_do_not_agree_do_not_go_in_though_the_widths_do() -> None:
    # A 25 mm square bar has the same width as a 25.2 mm bore, but its corners stand at 17.68 mm.
    gap = clamp_gap(profile_outline("square", 25.0), profile_outline("round", 25.2, is_bore=True))
    assert gap.gap_mm == pytest.approx(12.6 - 12.5 * math.sqrt(2.0), abs=EXACT_ENOUGH_MM)


def test_the_round_closed_form_is_twice_the_gap_of_the_outlines() -> None:
    # Without draft the closing across is the difference of the diameters, twice the gap on one side.
    gap = clamp_gap(profile_outline("round", 31.5), profile_outline("round", 31.8, is_bore=True))
    assert 2.0 * gap.gap_mm == pytest.approx(closing_needed(31.8, 31.5, 20.0, 0.0), abs=2.0 * EXACT_ENOUGH_MM)


def test_draft_loss_is_the_difference_of_two_measured_diameters() -> None:
    # Cone by its definition (ISO 3040, from memory): rate C = (D − d)/L = 2 tan(half the included angle). Up to the
    # 1.5 degrees of castings, tan of the whole differs from that by less than 2e-4 of it.
    for draft in (0.3, 0.5, 0.7, 1.5):
        by_definition = 20.0 * 2.0 * math.tan(math.radians(draft) / 2.0)
        assert closing_needed(31.5, 31.5, 20.0, draft) == pytest.approx(by_definition, rel=2e-4)

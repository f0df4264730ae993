"""Clamp profiles: the closed form of the round clamp, the outlines of the named forms, and edge cases."""

import math

import pytest
import shapely

from fitdb.formulas.clamp_profiles import (
    PROFILE_FORMS,
    clamp_gap,
    closing_needed,
    draft_loss,
    polygon_across_corners,
    polygon_across_flats,
    profile_outline,
)
from fitdb.formulas.core_windows import ARC_SAGITTA_MM

# Drawing allowance of both outlines and the last step of the search.
EXACT_ENOUGH_MM = 2.0 * ARC_SAGITTA_MM + 1e-4

# form, sizes of the profile, sizes of a bore that is 0.2 larger all round
EVEN_GAPS = [
    ("round", (31.5,), (31.9,)),
    ("hexagon", (25.0,), (25.4,)),
    ("square", (22.0,), (22.4,)),
    ("d_shape", (30.0, 26.0), (30.4, 26.4)),
]


def test_a_cast_barrel_in_a_round_clamp() -> None:
    # Bore 31.8 ± 0.05, barrel 31.5 ± 0.1, clamp 20 wide, draft 0.5 ± 0.2 degrees; closing range 0.6.
    assert closing_needed(31.8, 31.5, 20.0, 0.5) == pytest.approx(0.3 + 0.17453, abs=1e-5)
    assert 0.6 - closing_needed(31.85, 31.4, 20.0, 0.7) == pytest.approx(-0.0944, abs=1e-4)
    assert 0.6 - closing_needed(31.75, 31.6, 20.0, 0.3) == pytest.approx(0.3453, abs=1e-4)


def test_draft_is_the_change_of_the_diameter() -> None:
    # A cone of included draft t over a length w: the diameters differ by w tan(t), not by 2 w tan(t).
    assert draft_loss(20.0, 45.0 / 2) == pytest.approx(20.0 * (math.sqrt(2.0) - 1.0))
    assert draft_loss(20.0, 0.0) == 0.0
    assert closing_needed(31.8, 32.0, 20.0, 0.0) == pytest.approx(-0.2)


@pytest.mark.parametrize(("form", "inner", "outer"), EVEN_GAPS)
def test_a_bore_larger_all_round_leaves_that_gap_and_touches_everywhere(form, inner, outer) -> None:
    gap = clamp_gap(profile_outline(form, *inner), profile_outline(form, *outer, is_bore=True))
    assert 0.2 - EXACT_ENOUGH_MM <= gap.gap_mm <= 0.2 + 1e-9
    assert gap.contact_share == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(("form", "inner", "outer"), EVEN_GAPS)
def test_the_same_pair_the_other_way_round_does_not_go_in(form, inner, outer) -> None:
    gap = clamp_gap(profile_outline(form, *outer), profile_outline(form, *inner, is_bore=True))
    assert -0.2 - EXACT_ENOUGH_MM <= gap.gap_mm <= -0.2 + 1e-9


def test_a_round_bar_in_a_hexagon_touches_in_six_short_places() -> None:
    gap = clamp_gap(profile_outline("round", 24.0), profile_outline("hexagon", 25.0, is_bore=True))
    assert gap.gap_mm == pytest.approx(0.5, abs=EXACT_ENOUGH_MM)
    # Within the contact band c of a flat: half-angle acos(r / (r + c)) to first order, six times over the circle.
    assert gap.contact_share == pytest.approx(12.0 * math.acos(1.0 - 0.05 / 12.0) / math.tau, abs=0.01)


def test_a_profile_drawn_off_centre_is_moved_into_place() -> None:
    shifted = tuple((x + 1.5, y - 0.7) for x, y in profile_outline("square", 22.0))
    gap = clamp_gap(shifted, profile_outline("square", 22.4, is_bore=True))
    assert gap.gap_mm == pytest.approx(0.2, abs=1e-9)
    assert (gap.dx, gap.dy) == pytest.approx((-1.5, 0.7), abs=1e-9)


def test_a_profile_drawn_a_few_degrees_off_is_turned_into_place() -> None:
    angle = math.radians(6.0)
    turned = tuple(
        (x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle))
        for x, y in profile_outline("hexagon", 25.0)
    )
    gap = clamp_gap(turned, profile_outline("hexagon", 25.4, is_bore=True))
    assert gap.gap_mm == pytest.approx(0.2, abs=2e-3)
    assert gap.rotation_deg == pytest.approx(-6.0, abs=0.02)
    assert clamp_gap(turned, profile_outline("hexagon", 25.4, is_bore=True), largest_turn_deg=3.0).gap_mm < 0.0


def test_a_bore_with_a_reflex_corner() -> None:
    bore = ((0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (8.0, 8.0), (8.0, 20.0), (0.0, 20.0))
    profile = ((0.3, 0.3), (19.7, 0.3), (19.7, 7.7), (7.7, 7.7), (7.7, 19.7), (0.3, 19.7))
    gap = clamp_gap(profile, bore)
    assert 0.3 - 2e-3 <= gap.gap_mm <= 0.3 + 1e-9
    wider = ((0.0, 0.0), (20.0, 0.0), (20.0, 8.4), (8.4, 8.4), (8.4, 20.0), (0.0, 20.0))
    assert clamp_gap(wider, bore).gap_mm < -0.1


def test_outlines_have_the_sizes_they_were_given() -> None:
    sizes = {
        "round": ((31.5,), 31.5, 31.5),
        "hexagon": ((25.0,), polygon_across_corners(25.0, 6), 25.0),
        "square": ((22.0,), 22.0, 22.0),
        "oval": ((30.0, 26.0), 30.0, 26.0),
        "d_shape": ((30.0, 26.0), 30.0, 26.0),
        "trapezoid": ((30.0, 20.0, 24.0), 30.0, 20.0),
    }
    assert set(sizes) == set(PROFILE_FORMS)
    for form, (given, across_x, across_y) in sizes.items():
        for is_bore in (False, True):
            low_x, low_y, high_x, high_y = shapely.Polygon(profile_outline(form, *given, is_bore=is_bore)).bounds
            assert high_x - low_x == pytest.approx(across_x, abs=2e-3)
            assert high_y - low_y == pytest.approx(across_y, abs=2e-3)
            assert (low_x + high_x, low_y + high_y) == pytest.approx((0.0, 0.0), abs=2e-3)


@pytest.mark.parametrize("form_and_sizes", [("round", 31.5), ("oval", 30.0, 26.0), ("d_shape", 30.0, 26.0)])
def test_a_bore_is_drawn_inside_and_a_profile_outside_the_same_curve(form_and_sizes) -> None:
    inside = shapely.Polygon(profile_outline(*form_and_sizes, is_bore=True))
    outside = shapely.Polygon(profile_outline(*form_and_sizes))
    assert outside.buffer(1e-9).covers(inside)
    assert outside.hausdorff_distance(inside) < 0.25  # a corner of one may face the middle of a side of the other
    assert outside.area - inside.area < outside.length * 2.0 * ARC_SAGITTA_MM


def test_explicit_points_are_taken_as_drawn() -> None:
    points = [(0, 0), (10, 0), (5, 8)]
    assert profile_outline("trapezoid", 0.0, points=points) == ((0.0, 0.0), (10.0, 0.0), (5.0, 8.0))


def test_across_corners_and_across_flats_undo_each_other() -> None:
    assert polygon_across_flats(polygon_across_corners(25.0, 6), 6) == pytest.approx(25.0)
    assert polygon_across_corners(10.0, 4) == pytest.approx(10.0 * math.sqrt(2.0))


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: profile_outline("star", 10.0), "star"),
        (lambda: profile_outline("round", -1.0), "positive"),
        (lambda: profile_outline("oval", 10.0), "second size"),
        (lambda: profile_outline("trapezoid", 10.0, 5.0), "top width"),
        (lambda: profile_outline("d_shape", 30.0, 10.0), "d_shape"),
        (lambda: polygon_across_corners(10.0, 5), "even number"),
        (lambda: closing_needed(31.8, 31.5, -1.0, 0.5), "clamp_width"),
        (lambda: closing_needed(31.8, 31.5, 20.0, 60.0), "draft_deg"),
        (lambda: clamp_gap(((0, 0), (1, 1)), ((0, 0), (1, 0), (0, 1))), "profile"),
        (lambda: clamp_gap(((0, 0), (1, 0), (0, 1)), ((0, 0), (1, 1), (1, 0), (0, 1))), "bore"),
    ],
)
def test_a_malformed_question_says_what_is_wrong(call, words) -> None:
    with pytest.raises(ValueError, match=words):
        call()

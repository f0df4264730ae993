"""Core windows against lugs: closed forms for straight windows, edge cases, and what may never happen."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitdb.formulas.core_windows import (
    ARC_SAGITTA_MM,
    SEARCH_TOLERANCE_MM,
    indexable_rotations,
    load_per_lug,
    lug_outlines,
    lugs_clearance,
    min_web,
    outline_clearance,
    play_angle_deg,
    repeated_outline,
    window_outlines,
)

# Drawing allowance of both outlines plus what the search may leave.
EXACT_ENOUGH_MM = 2.0 * ARC_SAGITTA_MM + SEARCH_TOLERANCE_MM


def turned(outlines, angle_deg):
    cosine, sine = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return tuple(tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in ring) for ring in outlines)


@pytest.mark.parametrize(
    ("window_radius", "lug_radius", "expected"),
    [(20.5, 20.5, 0.2), (20.5, 20.9, 0.1), (20.5, 20.0, 0.0), (20.5, 21.3, -0.3)],
)
def test_straight_lugs_leave_the_smaller_of_side_and_radial_room(window_radius, lug_radius, expected) -> None:
    # Side room (9.0 − 8.6)/2; radial room (9.0 − 8.0)/2 less the difference of the circle radii.
    windows = window_outlines(6, window_radius, 9.0, 9.0)
    lugs = lug_outlines(6, lug_radius, 8.6, 8.0)
    seat = lugs_clearance(windows, lugs)
    assert seat.clearance_mm == pytest.approx(expected, abs=EXACT_ENOUGH_MM)
    assert seat.clearance_mm <= expected + 1e-9
    assert seat.bound_mm >= seat.clearance_mm


@pytest.mark.parametrize("corner_radius", [0.0, 1.0, 3.0])
def test_equal_fillets_do_not_change_an_even_gap(corner_radius) -> None:
    windows = window_outlines(5, 20.0, 9.0, 9.0, corner_radius)
    lugs = lug_outlines(5, 20.0, 8.6, 8.6, corner_radius)
    # Both arcs have one radius and their middles stand 0.2 sqrt(2) apart, so the corner has more room than the sides.
    assert lugs_clearance(windows, lugs).clearance_mm == pytest.approx(0.2, abs=EXACT_ENOUGH_MM)


def test_a_sharp_lug_does_not_enter_a_filleted_window_of_its_own_size_plus_clearance() -> None:
    # Corner (4.3, 4.3) of the lug, fillet of radius 2 about (2.5, 2.5): 2 − 1.8 sqrt(2) = −0.5456.
    seat = lugs_clearance(window_outlines(6, 20.5, 9.0, 9.0, 2.0), lug_outlines(6, 20.5, 8.6, 8.6))
    assert seat.clearance_mm == pytest.approx(2.0 - 1.8 * math.sqrt(2.0), abs=5e-3)
    assert seat.clearance_mm <= 2.0 - 1.8 * math.sqrt(2.0) + 1e-9


@pytest.mark.parametrize("fillet", [0.0, 1.0])
def test_a_curved_window_is_drawn_inside_its_arcs(fillet) -> None:
    (outline,) = window_outlines(1, 20.5, 12.0, 8.0, fillet, form="curved")
    edges = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    nearest = min(min(math.hypot(*p), math.hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)) for p, q in edges)
    furthest = max(math.hypot(*p) for p in outline)
    assert 16.5 - 1e-9 <= nearest <= 16.5 + ARC_SAGITTA_MM
    assert 24.5 - ARC_SAGITTA_MM <= furthest <= 24.5 + 1e-9


def test_round_pins_in_round_windows() -> None:
    windows = window_outlines(5, 22.0, 6.2, 6.2, 3.1)
    pins = lug_outlines(5, 22.0, 6.0, 6.0, 3.0)
    seat = lugs_clearance(windows, pins)
    assert 0.1 - EXACT_ENOUGH_MM <= seat.clearance_mm <= 0.1


def test_play_is_where_the_outer_corner_meets_the_side() -> None:
    windows, lugs = window_outlines(6, 20.5, 9.0, 9.4), lug_outlines(6, 20.5, 8.6, 8.0)
    # (r + l/2) sin p + (w/2) cos p = window/2, with outer corner (24.5, 4.3) and side at 4.5.
    corner, half = math.hypot(24.5, 4.3), math.atan2(4.3, 24.5)
    one_way = math.asin(4.5 / corner) - half
    play = play_angle_deg(windows, lugs)
    assert play == pytest.approx(2.0 * math.degrees(one_way), abs=1e-5)
    assert play <= 2.0 * math.degrees(one_way) + 1e-12


def test_play_of_a_ring_that_does_not_go_in_is_no_number() -> None:
    assert play_angle_deg(window_outlines(5, 20.5, 9.0, 9.0), lug_outlines(6, 20.5, 8.6, 8.0)) is None
    assert play_angle_deg((), lug_outlines(6, 20.5, 8.6, 8.0)) is None


def test_six_lugs_do_not_index_into_five_windows() -> None:
    windows, lugs = window_outlines(5, 20.5, 9.0, 9.0), lug_outlines(6, 20.5, 8.6, 8.0)
    seat = lugs_clearance(windows, lugs)
    assert seat.clearance_mm < -1.0
    assert seat.bound_mm < 0.0
    assert indexable_rotations(windows, lugs) == ()


def test_three_lugs_in_six_windows_index_six_ways() -> None:
    rotations = indexable_rotations(window_outlines(6, 20.5, 9.0, 9.0), lug_outlines(3, 20.5, 8.6, 8.0))
    assert rotations == pytest.approx((0.0, 60.0, 120.0, 180.0, 240.0, 300.0), abs=1e-6)


def test_a_listed_subset_of_windows_takes_lugs_that_no_even_ring_would() -> None:
    # Two lugs a sixth of a turn apart: no even spacing, yet they are a subset of six windows; five windows refuse them.
    two = lug_outlines(6, 20.5, 8.6, 8.0)[:2]
    assert lugs_clearance(window_outlines(6, 20.5, 9.0, 9.0), two).clearance_mm == pytest.approx(0.2, abs=1e-6)
    assert lugs_clearance(window_outlines(5, 20.5, 9.0, 9.0), two).bound_mm < 0.0


def test_unequal_windows_are_searched_one_by_one() -> None:
    narrow, wide = window_outlines(6, 20.5, 8.7, 9.0), window_outlines(6, 20.5, 9.4, 9.0)
    mixed = tuple(wide[i] if i % 2 else narrow[i] for i in range(6))
    three = lug_outlines(3, 20.5, 8.6, 8.0)
    seat = lugs_clearance(mixed, three)
    assert seat.clearance_mm == pytest.approx(0.4, abs=EXACT_ENOUGH_MM)
    assert seat.rotation_deg % 120.0 == pytest.approx(60.0, abs=0.02)
    assert len(indexable_rotations(mixed, three)) == 6
    assert len(indexable_rotations(mixed, three, least_clearance=0.1)) == 3


def test_a_solid_core_takes_nothing() -> None:
    seat = lugs_clearance(window_outlines(0, 20.5, 9.0, 9.0), lug_outlines(6, 20.5, 8.6, 8.0))
    assert seat.clearance_mm == -math.inf
    assert indexable_rotations((), lug_outlines(6, 20.5, 8.6, 8.0)) == ()


def test_an_explicit_outline_repeated_equals_the_parametric_ring() -> None:
    one = ((16.0, -4.5), (25.0, -4.5), (25.0, 4.5), (16.0, 4.5))
    lugs = lug_outlines(6, 20.5, 8.6, 8.0)
    assert lugs_clearance(repeated_outline(one, 6), lugs).clearance_mm == pytest.approx(
        lugs_clearance(window_outlines(6, 20.5, 9.0, 9.0), lugs).clearance_mm, abs=1e-9
    )


def test_standing_out_in_the_middle_of_a_side_counts() -> None:
    # The corners are inside, the middle of the lower side dips 0.5 below a bulge: corners alone would call it a fit.
    opening = ((-5.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0), (5.0, 0.0), (5.0, 6.0), (-5.0, 6.0))
    inner = ((-4.0, 0.5), (4.0, 0.5), (4.0, 5.0), (-4.0, 5.0))
    # Deepest point (0, 0.5): distance to the flank x + y = 1 is 0.5/sqrt(2).
    assert outline_clearance(inner, opening) == pytest.approx(-0.5 / math.sqrt(2.0), abs=6e-5)
    assert outline_clearance(inner, opening) <= -0.5 / math.sqrt(2.0)


def test_wall_between_straight_windows() -> None:
    # Facing inner corners at (r − h/2, ±w/2), half a step either side of the line between two windows.
    expected = 2.0 * (16.0 * math.sin(math.pi / 6) - 4.5 * math.cos(math.pi / 6))
    assert min_web(window_outlines(6, 20.5, 9.0, 9.0)) == pytest.approx(expected, abs=1e-9)
    assert min_web(window_outlines(12, 20.5, 9.0, 9.0)) == 0.0


def test_load_per_lug_is_torque_over_radius_and_count() -> None:
    assert load_per_lug(12.3, 6, 20.5) == pytest.approx(100.0)


@settings(max_examples=25, deadline=None)
@given(
    count=st.sampled_from([4, 5, 6, 8]),
    width=st.floats(5.0, 9.0),
    height=st.floats(5.0, 9.0),
    side=st.floats(-0.4, 0.8),
    radial=st.floats(0.0, 1.0),
    fillet=st.floats(0.0, 1.5),
    start=st.floats(-180.0, 180.0),
)
def test_never_more_than_the_tightest_plain_room(count, width, height, side, radial, fillet, start) -> None:
    windows = window_outlines(count, 21.0, width, height, fillet)
    lugs = turned(lug_outlines(count, 21.0, width - side, height - radial, min(fillet, 1.0)), start)
    seat = lugs_clearance(windows, lugs)
    # Whatever the rotation, a lug cannot be clear of both sides by more than half the difference of the widths.
    assert seat.clearance_mm <= side / 2.0 + 1e-6
    assert seat.clearance_mm <= radial / 2.0 + 1e-6
    assert seat.bound_mm >= seat.clearance_mm
    here = turned(lugs, seat.rotation_deg)
    reached = min(max(outline_clearance(lug, window) for window in windows) for lug in here)
    assert reached == pytest.approx(seat.clearance_mm, abs=1e-4)


@settings(max_examples=15, deadline=None)
@given(start=st.floats(-180.0, 180.0), side=st.floats(0.05, 0.6))
def test_the_answer_does_not_depend_on_how_the_lugs_were_drawn(start, side) -> None:
    windows = window_outlines(6, 20.5, 9.0, 9.0, 1.0)
    lugs = lug_outlines(6, 20.5, 9.0 - side, 8.0, 1.0)
    plain = lugs_clearance(windows, lugs)
    again = lugs_clearance(windows, turned(lugs, start))
    assert again.clearance_mm == pytest.approx(plain.clearance_mm, abs=EXACT_ENOUGH_MM)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: window_outlines(6, 20.5, -9.0, 9.0), "width"),
        (lambda: window_outlines(6, 20.5, 9.0, 9.0, 5.0), "corner_radius"),
        (lambda: window_outlines(6, 20.5, 9.0, 9.0, form="star"), "star"),
        (lambda: window_outlines(6, 4.0, 7.0, 9.0, form="curved"), "over the axis"),
        (lambda: lug_outlines(0, 20.5, 9.0, 9.0), "lug count"),
        (lambda: lugs_clearance(window_outlines(6, 20.5, 9.0, 9.0), ()), "no lugs"),
        (lambda: lugs_clearance((((0, 0), (1, 1), (1, 0), (0, 1)),), lug_outlines(1, 20.5, 9.0, 9.0)), "crosses"),
        (lambda: outline_clearance(((0, 0), (1, 1)), ((0, 0), (1, 0), (0, 1))), "at least three"),
        (lambda: min_web(window_outlines(1, 20.5, 9.0, 9.0)), "at least two"),
    ],
)
def test_a_malformed_question_says_what_is_wrong(call, words) -> None:
    with pytest.raises(ValueError, match=words):
        call()

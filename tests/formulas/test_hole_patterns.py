"""Hole patterns: what one pair of holes allows, what a whole pattern allows, and the edges of the question."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitdb.formulas.hole_patterns import (
    PATTERN_TOLERANCE_MM,
    Hole,
    _Sides,
    bolts_pass,
    circle_holes,
    edge_distance,
    grid_holes,
    hole_centre_distance,
    web_between_old_and_new_hole,
)

LONG_GRID = grid_holes(63.5, 41.275, 5.4)
SHORT_GRID = grid_holes(53.975, 41.275, 5.4)
# Both grids with one row in common.
SIX_HOLES = (*LONG_GRID, Hole(63.5 / 2 - 53.975, 41.275 / 2, 5.4), Hole(63.5 / 2 - 53.975, -41.275 / 2, 5.4))
SCALENE = (Hole(0.0, 0.0, 5.5), Hole(40.0, 0.0, 5.5), Hole(12.0, 25.0, 5.5), Hole(31.0, 9.0, 5.5))


def moved(holes, angle_deg, dx, dy, flip=False):
    cosine, sine = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    sign = -1.0 if flip else 1.0
    return tuple(
        Hole(
            cosine * h.x - sine * sign * h.y + dx,
            sine * h.x + cosine * sign * h.y + dy,
            h.diameter,
            h.slot_length,
            sign * h.slot_angle_deg + angle_deg,
        )
        for h in holes
    )


def margin_at(match, pattern_a, pattern_b, bolt):
    """The least margin at the reported motion, worked out again for round holes."""
    laid = moved(
        [Hole(h.x, -h.y if match.flipped else h.y, h.diameter) for h in pattern_b],
        match.rotation_deg,
        match.dx,
        match.dy,
    )
    return min(
        (pattern_a[i].diameter + laid[j].diameter) / 2.0
        - bolt
        - math.hypot(pattern_a[i].x - laid[j].x, pattern_a[i].y - laid[j].y)
        for i, j in match.pairs
    )


def test_a_grid_on_itself_has_the_whole_clearance() -> None:
    match = bolts_pass(LONG_GRID, LONG_GRID, 4.8)
    assert match.margin_mm == pytest.approx(0.6)
    assert match.bound_mm == pytest.approx(0.6)
    assert len(match.pairs) == 4


def test_the_two_usual_grids_are_never_taken_for_each_other() -> None:
    # 63.5 − 53.975 = 9.525; laid middle on middle every hole is 4.7625 off, and nothing does better.
    for flip in (False, True):
        match = bolts_pass(LONG_GRID, SHORT_GRID, 4.8, may_flip=flip)
        assert match.margin_mm == pytest.approx(0.6 - 4.7625, abs=PATTERN_TOLERANCE_MM)
        assert match.bound_mm == pytest.approx(0.6 - 4.7625, abs=0.02)
        assert match.bound_mm < 0.0


def test_two_bolts_of_the_four_do_go_in() -> None:
    match = bolts_pass(LONG_GRID, SHORT_GRID, 4.8, bolts_needed=2)
    assert match.margin_mm == pytest.approx(0.6)
    assert len(match.pairs) == 2
    assert bolts_pass(LONG_GRID, SHORT_GRID, 4.8, bolts_needed=3).bound_mm < 0.0


@pytest.mark.parametrize("grid", [LONG_GRID, SHORT_GRID])
@pytest.mark.parametrize("six_first", [False, True])
def test_a_six_hole_plate_takes_both_grids(grid, six_first) -> None:
    patterns = (SIX_HOLES, grid) if six_first else (grid, SIX_HOLES)
    match = bolts_pass(*patterns, 4.8)
    assert match.margin_mm == pytest.approx(0.6)
    assert len(match.pairs) == 4


def test_a_difference_along_and_across_adds_up_as_a_diagonal() -> None:
    # Each hole is off by half of each difference: hypot(0.5, 0.4), not the larger of the two.
    match = bolts_pass(grid_holes(60.0, 40.0, 5.4), grid_holes(61.0, 40.8, 5.4), 4.8)
    assert match.margin_mm == pytest.approx(0.6 - math.hypot(0.5, 0.4), abs=PATTERN_TOLERANCE_MM)
    assert match.margin_mm < 0.0


def test_a_mirrored_plate_needs_turning_over() -> None:
    mirrored = moved(SCALENE, 70.0, 5.0, -3.0, flip=True)
    upright = bolts_pass(SCALENE, mirrored, 5.0)
    assert upright.bound_mm < 0.0
    over = bolts_pass(SCALENE, mirrored, 5.0, may_flip=True)
    assert over.flipped
    assert over.margin_mm == pytest.approx(0.5, abs=1e-9)
    assert margin_at(over, SCALENE, mirrored, 5.0) == pytest.approx(over.margin_mm, abs=1e-9)


def test_a_threaded_side_gives_no_clearance() -> None:
    face = circle_holes(4, 44.0, 4.0)
    plate = circle_holes(4, 44.6, 4.5)
    assert bolts_pass(plate, face, 4.0, threaded="b").margin_mm == pytest.approx(0.25 - 0.3, abs=PATTERN_TOLERANCE_MM)
    assert bolts_pass(face, plate, 4.0, threaded="a").margin_mm == pytest.approx(0.25 - 0.3, abs=PATTERN_TOLERANCE_MM)


def test_a_hole_smaller_than_the_bolt_fails_however_large_the_other_is() -> None:
    # 3/16 in = 4.7625 mm, a #10 bolt 4.826 mm: half-gap −0.03175.
    match = bolts_pass(grid_holes(53.975, 41.275, 4.7625), grid_holes(53.975, 41.275, 6.5), 4.826)
    assert match.margin_mm == pytest.approx(-0.03175)
    assert match.bound_mm == pytest.approx(-0.03175)


def test_a_circle_read_as_a_diagonal_or_as_a_side() -> None:
    # Four holes on a 44 mm circle stand 31.1 mm apart along the side.
    square = grid_holes(44.0 / math.sqrt(2.0), 44.0 / math.sqrt(2.0), 4.3)
    assert bolts_pass(circle_holes(4, 44.0, 4.3), square, 4.0).margin_mm == pytest.approx(0.3)
    assert bolts_pass(circle_holes(4, 44.0, 4.3), circle_holes(4, 31.1, 4.3), 4.0).bound_mm < -5.0


@pytest.mark.parametrize(
    ("circle", "expected"), [(30.0, 0.25), (44.0, 0.25), (37.0, 0.25), (51.6, -0.05), (22.0, -0.25)]
)
def test_radial_slots_take_every_circle_between_their_ends(circle, expected) -> None:
    # Slot middles run from radius 11.5 to 25.5 mm (14 long about 18.5); slot 4.5 wide, M4: 0.25 less the way
    # from the screw to the nearer end: 25.8 − 25.5 on the 51.6 circle, 11.5 − 11 on the 22 circle.
    slots = tuple(Hole(h.x, h.y, 4.5, 14.0, 90.0 * i) for i, h in enumerate(circle_holes(4, 37.0, 4.5)))
    match = bolts_pass(circle_holes(4, circle, 4.0), slots, 4.0, threaded="a")
    assert match.margin_mm == pytest.approx(expected, abs=1e-6)
    assert match.bound_mm == pytest.approx(expected, abs=0.005)


def test_crossed_slots_let_one_bolt_through_anywhere_they_cross() -> None:
    a, b = (Hole(0.0, 0.0, 5.5, 20.0, 0.0),), (Hole(3.0, 50.0, 5.5, 20.0, 90.0),)
    assert bolts_pass(a, b, 5.0).margin_mm == pytest.approx(0.5)


def test_one_hole_each_always_lines_up() -> None:
    match = bolts_pass((Hole(3.0, 4.0, 5.5),), (Hole(-7.0, 1.0, 5.4),), 5.0)
    assert match.margin_mm == pytest.approx(0.45)
    assert (match.dx, match.dy) == pytest.approx((10.0, 3.0))


coordinates = st.floats(-40.0, 40.0)


@settings(max_examples=30, deadline=None)
@given(
    points=st.lists(st.tuples(coordinates, coordinates), min_size=2, max_size=6),
    shifts=st.lists(st.tuples(st.floats(-0.4, 0.4), st.floats(-0.4, 0.4)), min_size=6, max_size=6),
    angle=st.floats(-180.0, 180.0),
    flip=st.booleans(),
)
def test_reported_margin_is_reached_and_no_worse_than_the_motion_that_made_the_copy(
    points, shifts, angle, flip
) -> None:
    a = tuple(Hole(x, y, 5.5) for x, y in points)
    shifted = [Hole(x + u, y + v, 5.5) for (x, y), (u, v) in zip(points, shifts, strict=False)]
    b = moved(shifted, angle, 11.0, -7.0, flip)[::-1]
    match = bolts_pass(a, b, 5.0, may_flip=flip)
    assert margin_at(match, a, b, 5.0) == pytest.approx(match.margin_mm, abs=1e-9)
    # Moved back the way it came, the copy is off by its shifts alone.
    made = min(0.5 - math.hypot(u, v) for (u, v), _ in zip(shifts, points, strict=False))
    assert match.bound_mm >= made - 1e-9
    assert match.margin_mm >= made - PATTERN_TOLERANCE_MM
    assert match.margin_mm <= match.bound_mm <= 0.5 + 1e-12


@pytest.mark.parametrize("angle_deg", [0.37, 23.1, 151.7])
def test_the_bounds_that_prune_are_never_below_a_margin_that_exists(angle_deg) -> None:
    # An exact copy has the whole clearance of 0.5 at one rotation that no arc has for its middle.
    sides = _Sides(SCALENE, moved(SCALENE, angle_deg, 3.0, 8.0), 5.0, "neither", 4, False)
    identity = tuple((i, i) for i in range(4))
    assert sides._rotation_bound(identity, 0.4)[0] >= 0.5 - 1e-12
    # Two holes 40 and 40.6 apart leave each bolt 0.3 off: the pair bound is that margin, no less.
    stretched = _Sides(SCALENE[:2], (Hole(0.0, 0.0, 5.5), Hole(40.6, 0.0, 5.5)), 5.0, "neither", 2, False)
    assert stretched._pair_hope((1, 1), [(0, 0)]) == pytest.approx(0.2, abs=1e-12)


def test_twelve_holes_with_scatter_are_settled() -> None:
    circle = circle_holes(12, 44.0, 5.5)
    scattered = moved(
        [Hole(h.x + 0.1 * math.sin(7 * i), h.y + 0.1 * math.cos(5 * i), 5.5) for i, h in enumerate(circle)],
        33.0,
        4.0,
        9.0,
    )
    match = bolts_pass(circle, scattered, 5.0, may_flip=True)
    assert match.margin_mm > 0.3
    assert match.bound_mm - match.margin_mm <= 2 * PATTERN_TOLERANCE_MM


def test_single_holes_in_their_part() -> None:
    plate = ((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0))
    assert edge_distance(Hole(10.0, 25.0, 6.0), plate) == pytest.approx(7.0)
    assert edge_distance(Hole(2.0, 25.0, 6.0), plate) == pytest.approx(-1.0)
    assert edge_distance(Hole(-2.0, 25.0, 6.0), plate) == pytest.approx(-5.0)
    # A slot 10 long along y: its end at y = 30 + 5 has 15 − 3 left to the upper edge, its flank 10 − 3 to the left one.
    assert edge_distance(Hole(50.0, 30.0, 6.0, 10.0, 90.0), plate) == pytest.approx(12.0)
    assert web_between_old_and_new_hole(Hole(0.0, 0.0, 5.4), Hole(9.525, 0.0, 5.4)) == pytest.approx(4.125)
    assert web_between_old_and_new_hole(Hole(0.0, 0.0, 5.4), Hole(3.0, 4.0, 5.4)) == pytest.approx(-0.4)
    assert hole_centre_distance(Hole(0.0, 0.0, 5.0, 10.0), Hole(8.0, 4.0, 5.0)) == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: Hole(0.0, 0.0, 0.0), "diameter"),
        (lambda: Hole(math.nan, 0.0, 5.0), "finite"),
        (lambda: bolts_pass((), LONG_GRID, 4.8), "without holes"),
        (lambda: bolts_pass(LONG_GRID, LONG_GRID, 0.0), "bolt_diameter"),
        (lambda: bolts_pass(LONG_GRID, LONG_GRID, 4.8, bolts_needed=5), "ask for 1 to 4"),
        (lambda: bolts_pass((Hole(0.0, 0.0, 5.0, 3.0),), LONG_GRID, 4.8, threaded="a"), "cannot be a slot"),
        (lambda: bolts_pass(LONG_GRID, LONG_GRID, 4.8, threaded="both"), "neither"),
        (lambda: circle_holes(0, 44.0, 4.0), "at least one"),
    ],
)
def test_a_malformed_question_says_what_is_wrong(call, words) -> None:
    with pytest.raises(ValueError, match=words):
        call()

"""Room of lugs in windows, drawn or given by sizes, against distances worked out by hand (plane geometry)."""

from __future__ import annotations

import math

import pytest

from fitdb.formulas.core_windows import lug_outlines, lugs_clearance, window_outlines
from fitdb.formulas.lug_seats import evened_ring, lug_room, offset_rings

WINDOW = (6, 14.5, 26.5, 9.0, 0.0)
LUG = (6, 15.25, 25.75, 8.6, 0.0)


def test_a_lug_in_the_middle_has_half_of_the_side_clearance() -> None:
    room, bound = lug_room(WINDOW, (), LUG, ())
    assert room == pytest.approx(0.2, abs=1e-9)
    assert room <= bound <= room + 0.001


def test_a_sharp_lug_stands_out_of_a_rounded_corner_by_the_distance_from_the_fillets_centre() -> None:
    # The lug's corner is 0.2 mm from the side and 0.75 mm from the end, hypot(3.3, 2.75) from a 3.5 mm fillet's centre.
    room, _ = lug_room((6, 14.5, 26.5, 9.0, 3.5), (), LUG, ())
    assert room == pytest.approx(3.5 - math.hypot(3.3, 2.75), abs=1e-3)


def test_drawn_rings_say_the_same_as_the_sizes_they_were_drawn_from() -> None:
    windows, lugs = window_outlines(6, 20.5, 9.0, 12.0), lug_outlines(6, 20.5, 8.6, 10.5)
    for drawn in ((windows, ()), ((), lugs), (windows, lugs)):
        assert lug_room(WINDOW, drawn[0], LUG, drawn[1])[0] == pytest.approx(0.2, abs=1e-3)


def test_six_drawn_lugs_do_not_go_into_five_drawn_windows() -> None:
    room, bound = lug_room(WINDOW, window_outlines(5, 20.5, 9.0, 12.0), LUG, lug_outlines(6, 20.5, 8.6, 10.5))
    assert room < -1.0 and bound < 0.0


def test_unevenly_drawn_windows_are_held_against_as_many_lugs_as_there_are() -> None:
    six = window_outlines(6, 20.5, 9.0, 12.0)
    assert lug_room(WINDOW, six[:5], (3, *LUG[1:]), ())[0] == pytest.approx(0.2, abs=1e-3)
    assert lug_room(WINDOW, six[:5], LUG, ())[0] < -4.0


@pytest.mark.parametrize("window", [(0, 14.5, 26.5, 0.0, 0.0), (6, 20.0, 20.0, 0.0, 0.0)])
def test_no_window_at_all_is_a_finite_answer(window: tuple[int, float, float, float, float]) -> None:
    for lugs in ((), lug_outlines(6, 20.5, 8.6, 10.5)):
        room, _ = lug_room(window, (), LUG, lugs)
        assert math.isfinite(room) and room < -4.0


def test_a_square_grows_and_shrinks_by_its_offset_with_sharp_corners() -> None:
    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    (grown,) = offset_rings((square,), 0.5)
    assert {(round(x, 9), round(y, 9)) for x, y in grown} == {(-0.5, -0.5), (10.5, -0.5), (10.5, 10.5), (-0.5, 10.5)}
    (shrunk,) = offset_rings((square,), -0.5)
    assert {(round(x, 9), round(y, 9)) for x, y in shrunk} == {(0.5, 0.5), (9.5, 0.5), (9.5, 9.5), (0.5, 9.5)}
    (hair,) = offset_rings((square,), -6.0)
    assert all(math.dist(point, (5.0, 5.0)) < 0.01 for point in hair)
    assert offset_rings((square,), 0.0) == (square,)


def test_rounded_copies_become_exact_and_odd_rings_stay() -> None:
    windows = window_outlines(6, 20.5, 9.0, 12.0)
    rounded = tuple(tuple((round(x, 3), round(y, 3)) for x, y in ring) for ring in windows)
    even, moved = evened_ring(rounded)
    assert moved is not None and 0.0 < moved < 0.002 and even[0] == rounded[0]
    odd = (*windows[:5], tuple((x + 0.1, y) for x, y in windows[5]))
    assert evened_ring(odd) == (odd, None)


def test_larger_windows_and_smaller_lugs_never_have_less_room() -> None:
    base = lug_room(WINDOW, (), LUG, ())[0]
    assert lug_room((6, 14.4, 26.6, 9.1, 0.0), (), LUG, ())[0] >= base
    assert lug_room(WINDOW, (), (6, 15.3, 25.7, 8.5, 0.3), ())[0] >= base


@pytest.mark.parametrize(("windows", "lugs"), [(5, 6), (6, 5), (7, 6), (6, 4), (12, 6), (6, 6), (10, 5)])
def test_counts_that_do_not_divide_stand_off_as_the_whole_ring_does(windows: int, lugs: int) -> None:
    """The closed form of the stand-off against a search over all turns of both whole rings."""
    window, lug = (windows, 16.5, 24.5, 9.0, 0.0), (lugs, 17.0, 24.0, 8.4, 0.0)
    searched = lugs_clearance(window_outlines(windows, 20.5, 9.0, 8.0), lug_outlines(lugs, 20.5, 8.4, 7.0))
    assert lug_room(window, (), lug, ())[0] == pytest.approx(searched.clearance_mm, abs=0.02)

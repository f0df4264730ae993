"""Core windows against an independent sweep: outlines built another way, every 0.004 degrees tried."""

import math

import numpy
import pytest
import shapely
from shapely import affinity

from fitdb.formulas.core_windows import lug_outlines, lugs_clearance, min_web, window_outlines


def sector_window(radius, width, height, fillet):
    """Ring sector with very fine arcs, cut from a ring by a wedge; filleted by rolling a disc inside it.

    The places of the disc's centre are a thinner ring between two lines moved inwards. Grown by the disc they are the
    filleted sector; the cut with the sharp one takes off what the library's buffer adds along a hollow arc.
    """
    half, far = math.asin(width / 2.0 / radius), 10.0 * radius

    def sector(inset):
        outer = shapely.Point(0, 0).buffer(radius + height / 2 - inset, quad_segs=4000)
        inner = shapely.Point(0, 0).buffer(radius - height / 2 + inset, quad_segs=4000)
        tip = inset / math.sin(half)
        reach = (far - tip) * math.tan(half)
        return outer.difference(inner).intersection(shapely.Polygon([(tip, 0), (far, -reach), (far, reach)]))

    return sector(fillet).buffer(fillet, quad_segs=2000).intersection(sector(0.0)) if fillet else sector(0.0)


def rounded(radius, width, height, fillet):
    core = shapely.box(
        radius - height / 2 + fillet, -width / 2 + fillet, radius + height / 2 - fillet, width / 2 - fillet
    )
    return core.buffer(fillet, quad_segs=2000) if fillet else core


def ring_of(shape, count):
    return [affinity.rotate(shape, 360.0 * i / count, origin=(0, 0)) for i in range(count)]


def some_rotation_contains(windows, lugs, angles_deg):
    shapely.prepare(windows)
    for angle in angles_deg:
        here = [affinity.rotate(lug, angle, origin=(0, 0)) for lug in lugs]
        if all(any(window.covers(lug) for window in windows) for lug in here):
            return True
    return False


CASES = [
    # form, count, window (radius, width, height, fillet), lug (radius, width, length, rounding)
    ("straight", 6, (20.5, 9.0, 9.0, 0.0), (20.5, 8.6, 8.0, 0.0)),
    ("straight", 5, (20.5, 9.0, 9.0, 1.5), (20.5, 8.6, 8.4, 1.0)),
    ("straight", 8, (22.0, 6.0, 10.0, 0.5), (22.2, 5.7, 9.2, 0.8)),
    ("straight", 5, (18.0, 8.0, 8.0, 4.0), (18.1, 7.5, 7.5, 3.75)),
    ("curved", 6, (20.5, 9.4, 8.0, 0.0), (20.5, 7.4, 6.0, 0.0)),
    ("curved", 5, (19.0, 11.0, 9.0, 0.0), (19.4, 9.0, 7.0, 1.0)),
    ("curved", 6, (20.5, 9.4, 8.0, 1.2), (20.5, 7.4, 6.0, 0.3)),
    ("curved", 10, (24.0, 6.5, 7.0, 0.0), (23.8, 5.0, 5.4, 0.5)),
]


@pytest.mark.parametrize(("form", "count", "window", "lug"), CASES)
def test_the_clearance_is_the_largest_offset_that_a_dense_sweep_still_finds_inside(form, count, window, lug) -> None:
    radius, width, height, fillet = window
    shape = sector_window(*window) if form == "curved" else rounded(*window)
    true_windows, true_lug = ring_of(shape, count), rounded(*lug)
    seat = lugs_clearance(window_outlines(count, radius, width, height, fillet, form), lug_outlines(count, *lug))
    assert seat.clearance_mm > 0.0

    def lugs_grown_by(amount):
        return ring_of(true_lug.buffer(amount, quad_segs=200), count)

    # Never optimistic: at the rotation reported the true lugs, grown by the clearance, are inside the true windows.
    assert some_rotation_contains(true_windows, lugs_grown_by(seat.clearance_mm - 1e-6), [seat.rotation_deg])
    # Exact to a thousandth: no rotation lets them grow by more. The sweep is finer than a thousandth at the rim.
    step = 360.0 / count
    sweep = numpy.arange(-3.0, 3.0, 0.004) % step
    assert not some_rotation_contains(true_windows, lugs_grown_by(seat.clearance_mm + 2e-3), sweep)


@pytest.mark.parametrize("windows", [4, 5, 6, 8, 10])
@pytest.mark.parametrize("lugs", [2, 3, 4, 5, 6])
def test_lugs_index_when_their_count_divides_the_windows(windows, lugs) -> None:
    # "Windows mod lugs = 0": common practice, no source. The outlines know nothing of it.
    seat = lugs_clearance(window_outlines(windows, 24.0, 7.0, 8.0, 0.5), lug_outlines(lugs, 24.0, 6.6, 7.0, 0.5))
    assert (seat.clearance_mm >= 0.0) == (windows % lugs == 0)
    assert (seat.bound_mm >= 0.0) == (windows % lugs == 0)


def test_equal_counts_on_another_radius_do_not_go_in() -> None:
    # Count and width both say yes (6 and 6, 9.0 − 8.6 = 0.4); the lugs stand 2 mm further out.
    seat = lugs_clearance(window_outlines(6, 19.0, 9.0, 9.0), lug_outlines(6, 21.0, 8.6, 8.0))
    assert seat.bound_mm < 0.0
    # Radial room (9 − 8)/2 = 0.5 less the 2 mm.
    assert seat.clearance_mm == pytest.approx(-1.5, abs=5e-3)


def test_a_long_straight_lug_is_too_wide_for_the_inner_end_of_a_curved_window() -> None:
    # Widths say yes at the circle radius (9.0 − 8.6 = 0.4 between 0.1 and 0.6); 4 mm further in, radial sides leave
    # about 2 x 16.5 x 4.5/20.5 = 7.2 mm.
    curved = window_outlines(6, 20.5, 9.0, 9.0, form="curved")
    seat = lugs_clearance(curved, lug_outlines(6, 20.5, 8.6, 8.0))
    assert seat.bound_mm < 0.0
    # Inner corner (16.5, 4.3) against the radial side through (0, 0) at asin(4.5/20.5): perpendicular distance.
    half = math.asin(4.5 / 20.5)
    assert seat.clearance_mm == pytest.approx(16.5 * math.sin(half) - 4.3 * math.cos(half), abs=2e-3)
    assert lugs_clearance(window_outlines(6, 20.5, 9.0, 9.0), lug_outlines(6, 20.5, 8.6, 8.0)).clearance_mm > 0.19


def test_the_wall_of_a_ring_of_round_windows_is_the_chord_less_the_diameter() -> None:
    # Chord of a regular polygon (any geometry table): 2 r sin(pi / n).
    wall = min_web(window_outlines(8, 22.0, 8.0, 8.0, 4.0))
    chord = 2.0 * 22.0 * math.sin(math.pi / 8)
    assert chord - 8.0 <= wall <= chord - 8.0 + 1e-3

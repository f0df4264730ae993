"""Deck over axle, wheel along the axle, grids, wedges and bolt stacks: sums done by hand."""

from math import radians, tan

import pytest

from fitdb.formulas.bolt_stack import held_stack, wedge_rise
from fitdb.formulas.kingpin import thread_pitch
from fitdb.formulas.ride_height import (
    bearing_middle_from_middle,
    deck_height_over_axle,
    nearest_grid_mismatch,
    signed_wedge_change,
)


def test_a_riser_lifts_a_top_mounted_deck_and_lowers_a_drop_through_one() -> None:
    assert deck_height_over_axle("top", 68, 6, 12) == 68
    assert deck_height_over_axle("top", 68, 6, 12, (6,)) == 74
    assert deck_height_over_axle("dropped", 68, 6, 12, (6,)) == 74
    assert deck_height_over_axle("drop_through", 68, 6, 12) == 50
    assert deck_height_over_axle("drop_through", 68, 6, 12, (6,)) == 44


def test_a_flush_plate_stands_as_deep_as_its_pocket_and_as_deep_as_itself_where_that_is_unread() -> None:
    assert deck_height_over_axle("flush", 68, 6, 12, (), 4) == 64
    assert deck_height_over_axle("flush", 68, 6, 12) == 62


def test_an_unknown_mount_style_is_refused() -> None:
    with pytest.raises(ValueError, match="drop_through"):
        deck_height_over_axle("hung", 68, 6, 12)


def test_the_bearings_lie_outside_shoulder_and_spacers() -> None:
    # 180 mm hanger: shoulder at 90, 15 mm of spacer, 7 mm bearing, half of a 10 mm gap.
    assert bearing_middle_from_middle(180, (15,), 7, 10) == 117


def test_a_six_hole_pattern_offers_two_lengths() -> None:
    assert nearest_grid_mismatch(63.5, 4, 53.975, 4) == pytest.approx(9.525)
    assert nearest_grid_mismatch(63.5, 6, 53.975, 4) == pytest.approx(0.0)
    assert nearest_grid_mismatch(63.5, 6, 63.5, 6) == 0.0
    assert nearest_grid_mismatch(53.975, 4, 63.5, 6) == pytest.approx(0.0)


def test_a_wedge_counts_by_its_thick_end() -> None:
    assert signed_wedge_change((10,), ("toward_middle",)) == 10
    assert signed_wedge_change((10,), ("toward_end",)) == -10
    assert signed_wedge_change((), ()) == 0
    with pytest.raises(ValueError, match="toward_middle"):
        signed_wedge_change((10,), ("up",))


def test_a_stack_counts_grip_only_under_the_heads_and_ends_in_the_adapter_if_there_is_one() -> None:
    assert held_stack(11, (1,), ("yes",), (8,), 6, ()) == 26
    assert held_stack(11, (1,), ("no",), (8,), 6, ()) == 25
    assert held_stack(11, (), (), (), 6, (8,)) == 19
    assert wedge_rise(63.5, (10,)) == pytest.approx(31.75 * tan(radians(10)))


def test_kingpin_threads() -> None:
    assert thread_pitch("m10") == 1.5
    assert thread_pitch("unf_3_8_24") == pytest.approx(25.4 / 24)
    with pytest.raises(ValueError, match="unf_3_8_24"):
        thread_pitch("m9")

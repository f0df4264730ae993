"""Threads: refusals, and relations between the formulas."""

import math

import pytest

from fitdb.formulas import threads


def test_what_is_not_tabulated_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match=r"'M7'.*M8"):
        threads.thread("M7")
    with pytest.raises(ValueError, match=r"clearance hole.*'M14'.*M12"):
        threads.clearance_hole("M14")
    with pytest.raises(ValueError, match="fine, medium or coarse"):
        threads.clearance_hole("M5", "loose")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="head and nut"):
        threads.fastener_sizes("10-32")


def test_look_alike_threads_differ() -> None:
    metric, inch = threads.thread("M8"), threads.thread("5/16-24")
    assert 0.0 < metric.major - inch.major < 0.1
    assert abs(metric.pitch - inch.pitch) / inch.pitch > 0.15
    metric, inch = threads.thread("M5"), threads.thread("10-32")
    assert abs(metric.pitch - inch.pitch) / inch.pitch < 0.01
    assert metric.major - inch.major > 0.15


def test_threads_that_do_not_overlap_have_no_engagement() -> None:
    with pytest.raises(ValueError, match="same thread"):
        threads.engagement_for_load(1000.0, 130.0, 7.5, 9.206, 1.5)
    with pytest.raises(ValueError, match="same thread"):
        threads.engagement_length(58.0, 8.676, 7.0, 1.0 / 1.5)


def test_a_fixed_fastener_leaves_half_the_room_of_a_floating_one() -> None:
    floating = threads.floating_fastener_position_tolerance(5.5, 5.0)
    assert threads.fixed_fastener_position_tolerance(5.5, 5.0) == pytest.approx(floating / 2.0)
    assert threads.floating_fastener_position_tolerance(4.9, 5.0) < 0.0


def test_a_wedge_splits_its_bolts_evenly_about_the_middle() -> None:
    thin, thick = threads.wedge_thickness_at_bolts(8.0, 63.5, 7.0)
    assert (thin + thick) / 2.0 == pytest.approx(8.0)
    assert math.degrees(math.atan((thick - thin) / 63.5)) == pytest.approx(7.0)
    assert threads.wedge_thickness_at_bolts(8.0, 63.5, 0.0) == (8.0, 8.0)
    with pytest.raises(ValueError, match="wedge angle"):
        threads.wedge_thickness_at_bolts(8.0, 63.5, 90.0)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.inf, math.nan])
def test_malformed_numbers_are_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="preload"):
        threads.tightening_torque_nm(wrong, 5.0)
    with pytest.raises(ValueError, match="hole diameter"):
        threads.floating_fastener_position_tolerance(wrong, 5.0)
    with pytest.raises(ValueError, match="major diameter"):
        threads.metric_stress_area(wrong, 0.8)

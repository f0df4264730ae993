"""Belt formulas: properties that hold for every drive, and the answers at the edges."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitdb.formulas import belts

teeth_counts = st.integers(min_value=8, max_value=120)
pitches = st.sampled_from([3.0, 5.0, 8.0])


@given(teeth_counts, teeth_counts, pitches, st.floats(min_value=1e-6, max_value=3.0))
def test_the_centre_found_for_a_length_gives_that_length_back(
    teeth_a: int, teeth_b: int, pitch: float, extra: float
) -> None:
    diameter_a = belts.pitch_diameter(teeth_a, pitch)
    diameter_b = belts.pitch_diameter(teeth_b, pitch)
    length = max(teeth_a, teeth_b) * pitch * (1.0 + extra)
    centre = belts.centre_distance_for_length(teeth_a, teeth_b, pitch, length)
    assert 2.0 * centre >= abs(diameter_a - diameter_b)
    assert belts.open_belt_length(diameter_a, diameter_b, centre) == pytest.approx(length, abs=1e-9, rel=1e-11)


@given(teeth_counts, teeth_counts, pitches, st.floats(min_value=1.0, max_value=400.0))
def test_either_pulley_may_be_named_first(teeth_a: int, teeth_b: int, pitch: float, centre: float) -> None:
    assert repr(belts.teeth_in_mesh(teeth_a, teeth_b, pitch, centre)) == repr(
        belts.teeth_in_mesh(teeth_b, teeth_a, pitch, centre)
    )
    first, second = belts.pitch_diameter(teeth_a, pitch), belts.pitch_diameter(teeth_b, pitch)
    assert repr(belts.open_belt_length(first, second, centre)) == repr(belts.open_belt_length(second, first, centre))
    length = 2.0 * centre + pitch * max(teeth_a, teeth_b)
    assert belts.centre_distance_for_length(teeth_a, teeth_b, pitch, length) == pytest.approx(
        belts.centre_distance_for_length(teeth_b, teeth_a, pitch, length), rel=1e-12
    )


@given(teeth_counts, teeth_counts, pitches, st.floats(min_value=1.01, max_value=4.0))
def test_a_longer_belt_sets_the_pulleys_further_apart_and_meshes_no_fewer_teeth(
    teeth_a: int, teeth_b: int, pitch: float, factor: float
) -> None:
    length = max(teeth_a, teeth_b) * pitch * factor
    near = belts.centre_distance_for_length(teeth_a, teeth_b, pitch, length)
    far = belts.centre_distance_for_length(teeth_a, teeth_b, pitch, length + pitch)
    # dL/dC = 2 cos(theta) <= 2, so one tooth of belt moves the centre by half a pitch at least.
    assert far - near >= 0.5 * pitch - 1e-9
    assert belts.teeth_in_mesh(teeth_a, teeth_b, pitch, far) >= belts.teeth_in_mesh(teeth_a, teeth_b, pitch, near) * (
        1.0 - 1e-12
    )


@given(st.integers(min_value=8, max_value=80), pitches, st.integers(min_value=1, max_value=100))
def test_equal_pulleys_need_no_solving(teeth: int, pitch: float, extra: int) -> None:
    length = (2 * teeth + extra) * pitch
    centre = belts.centre_distance_for_length(teeth, teeth, pitch, length)
    assert centre == pytest.approx((length - (2 * teeth * pitch) / 2.0) / 2.0, rel=1e-12)
    assert belts.whole_teeth_in_mesh(teeth, teeth, pitch, centre) == teeth // 2


def test_a_belt_too_short_has_no_centre_and_nothing_after_it_has_a_value() -> None:
    centre = belts.centre_distance_for_length(16, 36, 5.0, 179.9)
    assert math.isnan(centre)
    assert math.isnan(belts.wrap_angle_deg(57.3, 25.5, centre))
    assert math.isnan(belts.open_belt_length(57.3, 25.5, centre))
    assert math.isnan(belts.teeth_in_mesh(16, 36, 5.0, centre))
    assert math.isnan(belts.whole_teeth_in_mesh(16, 36, 5.0, centre))
    assert math.isnan(belts.teeth_in_mesh_handbook(16, 36, 5.0, centre))
    assert math.isnan(belts.mesh_factor(math.nan))
    assert math.isnan(belts.published_mesh_factor(math.nan))
    assert math.isnan(belts.centre_distance_for_length(16, 16, 5.0, 80.0))


def test_the_shortest_belt_just_goes_round_the_larger_pulley() -> None:
    half_difference = (36 - 16) * 5.0 / math.pi / 2.0
    centre = belts.centre_distance_for_length(16, 36, 5.0, 180.0)
    assert centre == pytest.approx(half_difference, rel=1e-6)


def test_a_circle_inside_the_other_has_no_belt() -> None:
    assert math.isnan(belts.wrap_angle_deg(100.0, 20.0, 39.9))
    assert belts.wrap_angle_deg(100.0, 20.0, 40.0) == pytest.approx(0.0, abs=1e-5)


@pytest.mark.parametrize("wrong", [0.0, -5.0, math.inf, math.nan])
def test_malformed_numbers_are_refused_by_name(wrong: float) -> None:
    with pytest.raises(ValueError, match="number of teeth"):
        belts.pitch_diameter(wrong, 5.0)
    with pytest.raises(ValueError, match="belt length"):
        belts.centre_distance_for_length(16, 36, 5.0, wrong)
    with pytest.raises(ValueError, match="belt pitch"):
        belts.belt_pull_n(0.05, 40.0, 16, wrong)


def test_a_centre_of_zero_is_malformed_and_not_a_missing_drive() -> None:
    with pytest.raises(ValueError, match="centre distance"):
        belts.wrap_angle_deg(57.3, 25.5, 0.0)


def test_stock_lengths_come_nearest_first_and_are_listed_in_order() -> None:
    stock = (280.0, 225.0, 265.0, 270.0, 275.0, 300.0)
    assert belts.neighbouring_stock_lengths(268.0, stock) == (265.0, 270.0, 275.0)
    assert belts.neighbouring_stock_lengths(270.0, stock) == (265.0, 270.0, 275.0)
    assert belts.neighbouring_stock_lengths(267.5, stock, count=1) == (265.0,)
    assert belts.neighbouring_stock_lengths(500.0, stock, count=9) == tuple(sorted(stock))
    assert belts.neighbouring_stock_lengths(270.0, ()) == ()
    with pytest.raises(ValueError, match="count"):
        belts.neighbouring_stock_lengths(270.0, stock, count=0)


def test_the_wall_over_a_keyway_is_known_for_h_profiles_and_asked_for_otherwise() -> None:
    # (20.690 - 1.143)/2 - 2.08 - (4 + 1.4) worked by hand.
    assert belts.root_wall_over_keyway(13, 5.0, 8.0, 1.4) == pytest.approx(2.293, abs=0.001)
    # A keyless 8 mm bore in 12 teeth keeps the whole 1.4 more than the keyed one.
    keyed = belts.root_wall_over_keyway(12, 5.0, 8.0, 1.4)
    assert belts.root_wall_over_keyway(12, 5.0, 8.0, 0.0) - keyed == pytest.approx(1.4)
    with pytest.raises(ValueError, match="no H profile"):
        belts.root_wall_over_keyway(20, 2.032, 5.0, 0.0)
    given = belts.root_wall_over_keyway(20, 2.032, 5.0, 0.0, pitch_line_differential=0.254, tooth_depth=0.51)
    assert given == pytest.approx(20 * 2.032 / math.pi / 2 - 0.254 - 0.51 - 2.5)

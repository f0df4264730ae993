"""Limits and fits: band edges, and refusal of what is not tabulated."""

import pytest

from fitdb.formulas import limits_and_fits as fits


def test_the_upper_edge_belongs_to_the_smaller_band() -> None:
    assert fits.deviation(10.0, "H7") == (0.0, 0.015)
    assert fits.deviation(10.001, "H7") == (0.0, 0.018)
    assert fits.deviation(18.0, "g6") == (-0.017, -0.006)
    assert fits.deviation(18.001, "g6") == (-0.020, -0.007)
    assert fits.bearing_outer_deviation(18.0) == (-0.008, 0.0)
    assert fits.bearing_outer_deviation(18.001) == (-0.009, 0.0)
    assert fits.parallel_key(8.0).width == 2.0
    assert fits.parallel_key(8.001).width == 3.0


@pytest.mark.parametrize("size", [3.0, 30.001, 0.0, -8.0, float("nan"), float("inf")])
def test_a_size_outside_the_bands_is_refused_and_never_zero(size: float) -> None:
    with pytest.raises(ValueError, match="no ISO 286 limits"):
        fits.deviation(size, "H7")


def test_a_class_that_is_not_tabulated_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match=r"'N7' is not tabulated.*H7"):
        fits.deviation(22.0, "N7")
    with pytest.raises(ValueError, match="capitals for holes"):
        fits.deviation(22.0, "G6")


@pytest.mark.parametrize("size", [2.5, 18.001, float("nan")])
def test_bearing_bores_outside_the_table_are_refused(size: float) -> None:
    with pytest.raises(ValueError, match="ISO 492 bore"):
        fits.bearing_bore_deviation(size)
    with pytest.raises(ValueError, match="ISO 492 width"):
        fits.ring_width_deviation(size)


@pytest.mark.parametrize("size", [6.0, 30.001, float("nan")])
def test_bearing_outsides_outside_the_table_are_refused(size: float) -> None:
    with pytest.raises(ValueError, match="ISO 492 outside"):
        fits.bearing_outer_deviation(size)


@pytest.mark.parametrize("size", [6.0, 17.001, float("nan")])
def test_shafts_outside_the_key_table_are_refused(size: float) -> None:
    with pytest.raises(ValueError, match="no parallel key"):
        fits.parallel_key(size)


@pytest.mark.parametrize("tolerance_class", fits.TOLERANCE_CLASSES)
def test_a_wider_nominal_never_has_a_narrower_zone(tolerance_class: str) -> None:
    widths = [upper - lower for lower, upper in (fits.deviation(size, tolerance_class) for size in (6, 10, 18, 30))]
    assert all(width > 0.0 for width in widths)
    assert widths == sorted(widths)

"""Limits and fits against printed tables, the standard's own formulas and an independent library."""

import csv
import math
from pathlib import Path

import pressfit
import pytest

from fitdb.formulas import limits_and_fits as fits

FITS = ("H7/g6", "H7/h6", "H7/k6", "H7/p6", "H7/s6", "H8/h7", "H11/h11")


def _printed_limits() -> list[tuple[float, str, float, float]]:
    text = (Path(__file__).parent / "data" / "iso286_limits_um.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return [
        (float(row["nominal_mm"]), row["tolerance_class"], float(row["lower_um"]), float(row["upper_um"]))
        for row in rows
    ]


PRINTED = _printed_limits()


def test_every_class_is_printed_at_every_size() -> None:
    assert {(nominal, name) for nominal, name, _, _ in PRINTED} == {
        (nominal, name) for nominal in (6.0, 8.0, 10.0, 12.0, 22.0) for name in fits.TOLERANCE_CLASSES
    }


@pytest.mark.parametrize(("nominal", "tolerance_class", "lower_um", "upper_um"), PRINTED)
def test_printed_limits(nominal: float, tolerance_class: str, lower_um: float, upper_um: float) -> None:
    lower, upper = fits.deviation(nominal, tolerance_class)
    assert (1000.0 * lower, 1000.0 * upper) == pytest.approx((lower_um, upper_um))


@pytest.mark.parametrize("nominal", [3.5, 6.0, 6.001, 8.0, 10.0, 10.001, 12.0, 17.0, 18.0, 18.001, 22.0, 28.0, 30.0])
@pytest.mark.parametrize("pair", FITS)
def test_an_independent_library_gives_the_same_fit(nominal: float, pair: str) -> None:
    """pressfit 0.1.0 (MIT) tabulates ISO 286 on its own."""
    other = pressfit.fit(pair, nominal)
    hole_class, shaft_class = pair.split("/")
    hole, shaft = fits.deviation(nominal, hole_class), fits.deviation(nominal, shaft_class)
    assert [1000.0 * value for value in hole] == pytest.approx([other.hole_ei_um, other.hole_es_um])
    assert [1000.0 * value for value in shaft] == pytest.approx([other.shaft_ei_um, other.shaft_es_um])
    clearance = (1000.0 * (hole[0] - shaft[1]), 1000.0 * (hole[1] - shaft[0]))
    assert clearance == pytest.approx(other.clearance_um)


@pytest.mark.parametrize(("over", "up_to"), [(3, 6), (6, 10), (10, 18), (18, 30)])
def test_zones_follow_the_standards_own_formulas(over: float, up_to: float) -> None:
    """ISO 286-1: i = 0.45·∛D + 0.001·D µm with D the geometric mean of the band, IT6 = 10i, IT7 = 16i, IT8 = 25i,
    IT11 = 100i, then rounded; es of g = −2.5·D^0.34, ei of k6 = 0.6·∛D, ei of p = IT7 + 0 to 5,
    ei of s = IT8 + 1 to 4 (from memory)."""
    mean = math.sqrt(over * up_to)
    unit = 0.45 * mean ** (1.0 / 3.0) + 0.001 * mean
    grades = {
        "h6": 10,
        "H7": 16,
        "h7": 16,
        "H8": 25,
        "H11": 100,
        "h11": 100,
        "g6": 10,
        "k6": 10,
        "p6": 10,
        "s6": 10,
    }
    for tolerance_class, units in grades.items():
        lower, upper = fits.deviation(up_to, tolerance_class)
        assert 1000.0 * (upper - lower) == pytest.approx(units * unit, abs=1.0, rel=0.025)
    assert 1000.0 * fits.deviation(up_to, "g6")[1] == pytest.approx(-2.5 * mean**0.34, abs=0.51)
    assert 1000.0 * fits.deviation(up_to, "k6")[0] == pytest.approx(0.6 * mean ** (1.0 / 3.0), abs=0.51)
    it7 = 1000.0 * fits.deviation(up_to, "H7")[1]
    assert 0.0 <= round(1000.0 * fits.deviation(up_to, "p6")[0] - it7, 6) <= 5.0
    it8 = 1000.0 * fits.deviation(up_to, "H8")[1]
    assert 1.0 <= round(1000.0 * fits.deviation(up_to, "s6")[0] - it8, 6) <= 4.0


def test_ring_limits_of_a_608_bearing() -> None:
    # ISO 492 normal class, printed tables: 8 x 22 x 7 has a bore of 7.992..8.000, an outside of 21.991..22.000.
    bore = fits.bearing_bore_deviation(8.0)
    assert (8.0 + bore[0], 8.0 + bore[1]) == pytest.approx((7.992, 8.000))
    outer = fits.bearing_outer_deviation(22.0)
    assert (22.0 + outer[0], 22.0 + outer[1]) == pytest.approx((21.991, 22.000))
    width = fits.ring_width_deviation(8.0)
    assert (7.0 + width[0], 7.0 + width[1]) == pytest.approx((6.88, 7.00))


@pytest.mark.parametrize("bore", [2.501, 8.0, 10.0, 12.0, 18.0])
def test_bore_bands(bore: float) -> None:
    assert fits.bearing_bore_deviation(bore) == (-0.008, 0.0)


def test_an_inch_axle_slides_in_a_metric_bearing() -> None:
    # 5/16 in is 7.9375 mm: 54.5 to 62.5 µm of clearance in an 8 mm bore, against 5 to 29 µm of H7/g6.
    low, high = (8.0 + limit - 7.9375 for limit in fits.bearing_bore_deviation(8.0))
    assert (1000.0 * low, 1000.0 * high) == pytest.approx((54.5, 62.5))
    assert 1000.0 * (fits.deviation(8.0, "H7")[1] - fits.deviation(8.0, "g6")[0]) == pytest.approx(29.0)


@pytest.mark.parametrize(
    ("shaft", "width", "height", "hub_depth", "shaft_depth"),
    # DIN 6885-1 / ISO/R 773: a printed sheet, and the same rows in bd_warehouse 0.4.0 (Apache-2.0).
    [
        (6.001, 2, 2, 1.0, 1.2),
        (8.0, 2, 2, 1.0, 1.2),
        (8.001, 3, 3, 1.4, 1.8),
        (10.0, 3, 3, 1.4, 1.8),
        (12.0, 4, 4, 1.8, 2.5),
        (12.001, 5, 5, 2.3, 3.0),
        (17.0, 5, 5, 2.3, 3.0),
    ],
)
def test_parallel_keys(shaft: float, width: float, height: float, hub_depth: float, shaft_depth: float) -> None:
    key = fits.parallel_key(shaft)
    assert (key.width, key.height, key.hub_depth, key.shaft_depth) == (width, height, hub_depth, shaft_depth)
    assert key.depth_tolerance == 0.1
    # The two keyways together are deeper than the key is high, so the key never bears on both floors.
    assert key.hub_depth + key.shaft_depth > key.height

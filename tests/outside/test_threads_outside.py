"""Threads against printed tables, a published engagement example and two roads to the tightening torque."""

import csv
import math
from pathlib import Path

import pytest

from fitdb.formulas import threads

DATA = Path(__file__).parent / "data"


def _rows(name: str) -> list[dict[str, str]]:
    text = (DATA / name).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


SIZES = _rows("metric_threads.csv")
LOADS = _rows("metric_thread_loads.csv")


def test_every_metric_size_is_read() -> None:
    names = ["M3", "M4", "M5", "M6", "M8", "M10"]
    assert [row["size"] for row in SIZES] == names
    assert [row["size"] for row in LOADS] == names


@pytest.mark.parametrize("row", SIZES, ids=lambda row: row["size"])
def test_metric_sizes(row: dict[str, str]) -> None:
    size = row["size"]
    found = threads.thread(size)
    printed = [float(row[key]) for key in ("major_mm", "pitch_mm", "pitch_diameter_mm", "minor_mm", "stress_area_mm2")]
    assert [found.major, found.pitch, found.pitch_diameter, found.minor, found.stress_area] == printed
    holes = [threads.clearance_hole(size, series) for series in ("fine", "medium", "coarse")]
    assert holes == [float(row[key]) for key in ("hole_fine", "hole_medium", "hole_coarse")]
    head = threads.fastener_sizes(size)
    assert [
        head.head_diameter_knurled,
        head.head_height,
        head.socket,
        head.nut_across_flats,
        head.nut_height,
    ] == [float(row[key]) for key in ("head_diameter", "head_height", "socket", "nut_across_flats", "nut_height")]
    assert head.head_diameter_plain < head.head_diameter_knurled


@pytest.mark.parametrize("row", SIZES, ids=lambda row: row["size"])
def test_metric_sizes_follow_the_basic_profile(row: dict[str, str]) -> None:
    # ISO 68-1: d2 = d - 0.649519 P, D1 = d - 1.082532 P.
    found = threads.thread(row["size"])
    assert found.pitch_diameter == pytest.approx(found.major - 0.649519 * found.pitch, abs=6e-4)
    assert found.minor == pytest.approx(found.major - 1.082532 * found.pitch, abs=6e-4)
    assert threads.metric_stress_area(found.major, found.pitch) == pytest.approx(found.stress_area, rel=0.002)


def test_m12_clearance_holes() -> None:
    # ISO 273, two printed tables; other tables in circulation give 14 and 15 for the wider two.
    found = [threads.clearance_hole("M12", series) for series in ("fine", "medium", "coarse")]
    assert found == [13.0, 13.5, 14.5]


@pytest.mark.parametrize(
    ("designation", "major_in", "per_inch", "minor_in", "area_in2", "area_mm2"),
    # ASME B1.1: major diameters and stress areas printed; basic minor diameters from memory of the same table.
    [
        ("8-32", 0.1640, 32, 0.1302, 0.0140, 9.04),
        ("10-32", 0.1900, 32, 0.1562, 0.0200, 12.90),
        ("5/16-24", 0.3125, 24, 0.2674, 0.0581, 37.5),
        ("3/8-24", 0.3750, 24, 0.3299, 0.0878, 56.7),
    ],
)
def test_unified_sizes(
    designation: str, major_in: float, per_inch: int, minor_in: float, area_in2: float, area_mm2: float
) -> None:
    found = threads.thread(designation)
    assert found.major == pytest.approx(25.4 * major_in, abs=1e-9)
    assert found.pitch == pytest.approx(25.4 / per_inch, abs=1e-9)
    assert found.minor / 25.4 == pytest.approx(minor_in, abs=6e-5)
    assert threads.unified_stress_area(major_in, per_inch) == pytest.approx(area_in2, abs=6e-5)
    assert threads.unified_stress_area(found.major, 1.0 / found.pitch) == pytest.approx(found.stress_area, rel=0.002)
    assert found.stress_area == pytest.approx(area_mm2)


def test_number_10_lies_within_its_class_2_limits() -> None:
    # ASME B1.1, 10-32 UNF, read in a table of limits: 2B minor 0.156..0.164, 2B pitch diameter from 0.1697,
    # 2A pitch diameter to 0.1688, 2A major to 0.1891 in.
    found = threads.thread("10-32")
    assert 0.156 <= found.minor / 25.4 <= 0.164
    assert found.pitch_diameter / 25.4 == pytest.approx(0.1697, abs=6e-5)
    assert found.pitch_diameter / 25.4 > 0.1688
    assert found.major / 25.4 > 0.1891


def test_number_10_clearance_drills() -> None:
    # ASME B18.2.8: close no. 5 = 0.2055 in, normal no. 2 = 0.221 in.
    assert threads.NUMBER_10_CLEARANCE_DRILLS["close"] == pytest.approx(0.2055 * 25.4, abs=0.005)
    assert threads.NUMBER_10_CLEARANCE_DRILLS["normal"] == pytest.approx(0.221 * 25.4, abs=0.005)


@pytest.mark.parametrize("row", LOADS, ids=lambda row: row["size"])
def test_stress_area_times_strength_is_the_printed_ultimate_load(row: dict[str, str]) -> None:
    # ISO 898-1: 800, 1040 and 1220 MPa for classes 8.8, 10.9 and 12.9 (coarse, up to M16).
    area = threads.thread(row["size"]).stress_area
    for column, strength in (("ultimate_8_8", 800.0), ("ultimate_10_9", 1040.0), ("ultimate_12_9", 1220.0)):
        assert area * strength == pytest.approx(float(row[column]), rel=0.005)


@pytest.mark.parametrize("row", [row for row in LOADS if row["torque_8_8"]], ids=lambda row: row["size"])
def test_the_torque_rule_agrees_with_a_printed_torque_table(row: dict[str, str]) -> None:
    # Shigley: T = 0.20 F d with F = 75 % of the proof load. A machine manual's table, friction 0.14: got independently.
    found = threads.thread(row["size"])
    for strength_class, column in (("8.8", "torque_8_8"), ("10.9", "torque_10_9")):
        preload = 0.75 * threads.PROOF_STRESS_MPA[strength_class] * found.stress_area
        torque = threads.tightening_torque_nm(preload, found.major)
        assert torque == pytest.approx(float(row[column]), rel=0.05)


def test_the_published_engagement_example_is_21_6_mm() -> None:
    # Taylor & Francis, chapter 9781482273786-99: M10x1.5-6g of 1200 MPa, 58 mm2, 69 600 N in aluminium of
    # 130 MPa shear; Ds,min 9.968, En,max 9.206 mm.
    assert 58.0 * 1200.0 == 69600.0
    length = threads.engagement_for_load(69600.0, 130.0, 9.968, 9.206, 1.5)
    assert length == pytest.approx(21.6, abs=0.06)


def test_the_screw_breaks_when_its_threads_have_twice_the_stress_area_in_shear() -> None:
    # FED-STD-H28: external shear area AS = pi n L Kn,max (1/(2n) + 0.57735 (Es,min - Kn,max)); L_e makes it 2 A_t.
    # Limits of 10-32 UNF-2A in a 2B nut, inches.
    area, minor_most, pitch_least, per_inch = 0.0200, 0.1640, 0.1658, 32
    length = threads.engagement_length(area, minor_most, pitch_least, per_inch)
    shear_area = math.pi * per_inch * length * minor_most * (1 / (2 * per_inch) + 0.57735 * (pitch_least - minor_most))
    assert shear_area == pytest.approx(2.0 * area, rel=1e-4)
    # An engineering page's rule of about one diameter for steel in steel is on the long side of it.
    assert 0.5 * 0.190 < length < 1.0 * 0.190
    in_millimetres = threads.engagement_length(area * 25.4**2, minor_most * 25.4, pitch_least * 25.4, 32 / 25.4)
    assert in_millimetres == pytest.approx(25.4 * length)


def test_hole_patterns_by_the_fastener_formulas() -> None:
    # ASME Y14.5-2009 appendix B: floating H = F + T, fixed H = F + 2T. M5 through the ISO 273 medium hole.
    hole = threads.clearance_hole("M5", "medium")
    floating = threads.floating_fastener_position_tolerance(hole, 5.0)
    assert floating == pytest.approx(0.5)
    assert hole == pytest.approx(5.0 + floating)
    fixed = threads.fixed_fastener_position_tolerance(hole, 5.0)
    assert fixed == pytest.approx(0.25)
    assert hole == pytest.approx(5.0 + 2.0 * fixed)
    number_10 = threads.thread("10-32").major
    assert threads.floating_fastener_position_tolerance(5.5, number_10) == pytest.approx(0.674)


def test_a_wedge_asks_for_two_bolt_lengths() -> None:
    # 10 degrees over a 63.5 mm grid: tan 10 deg = 0.17633 (printed tables), so 5.60 mm either way.
    thin, thick = threads.wedge_thickness_at_bolts(9.0, 63.5, 10.0)
    assert (thin, thick) == pytest.approx((9.0 - 5.598, 9.0 + 5.598), abs=0.001)

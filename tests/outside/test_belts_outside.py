"""Belt formulas against a textbook example, drives solved elsewhere, a geometry library and makers' tables."""

import csv
import math
import random
from pathlib import Path

import pytest

from fitdb.formulas import belts


def _reference_drives() -> list[dict[str, float]]:
    text = (Path(__file__).parent / "data" / "belt_reference.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return [{key: float(value) for key, value in row.items()} for row in csv.DictReader(lines)]


DRIVES = _reference_drives()


def test_the_textbook_open_belt_is_230_074_inches() -> None:
    # Budynas and Nisbett, Shigley's Mechanical Engineering Design, solutions manual, chapter 17:
    # d = 6, D = 18, C = 96 in.
    assert belts.open_belt_length(18.0, 6.0, 96.0) == pytest.approx(230.074, abs=0.0005)
    assert math.radians(belts.wrap_angle_deg(18.0, 6.0, 96.0)) == pytest.approx(3.016511, abs=1e-6)


def test_all_reference_drives_are_read() -> None:
    assert len(DRIVES) == 9


@pytest.mark.parametrize("drive", DRIVES, ids=lambda drive: f"{drive['z1']:g}-{drive['z2']:g}-{drive['L_mm']:g}")
def test_reference_drives(drive: dict[str, float]) -> None:
    z1, z2, pitch = drive["z1"], drive["z2"], drive["pitch_mm"]
    assert belts.pitch_diameter(z1, pitch) == pytest.approx(drive["d_mm"], abs=6e-5)
    assert belts.pitch_diameter(z2, pitch) == pytest.approx(drive["D_mm"], abs=6e-5)
    assert drive["z_belt"] * pitch == drive["L_mm"]
    centre = belts.centre_distance_for_length(z1, z2, pitch, drive["L_mm"])
    assert centre == pytest.approx(drive["C_exact_mm"], abs=6e-5)
    wrap = belts.wrap_angle_deg(belts.pitch_diameter(z2, pitch), belts.pitch_diameter(z1, pitch), centre)
    assert wrap == pytest.approx(drive["wrap_small_deg"], abs=6e-4)
    mesh = belts.teeth_in_mesh(z1, z2, pitch, centre)
    assert mesh == pytest.approx(drive["teeth_in_mesh_exact"], abs=6e-4)
    assert belts.whole_teeth_in_mesh(z1, z2, pitch, centre) == math.floor(drive["teeth_in_mesh_exact"])
    handbook = belts.teeth_in_mesh_handbook(z1, z2, pitch, centre)
    assert handbook == pytest.approx(drive["teeth_in_mesh_handbook"], abs=1.1e-3)
    # The handbook's approximate centre errs to the long side, by 0.42 mm in the steepest row and nothing at ratio 1.
    assert -6e-5 <= drive["C_approx_mm"] - centre <= 0.43


def test_a_random_drive_has_the_perimeter_of_the_hull_of_its_two_circles() -> None:
    """A belt round two pulleys is the convex hull of two discs: shapely's hull knows no belt formula."""
    from shapely.geometry import Point
    from shapely.ops import unary_union

    chance = random.Random(20)
    for _ in range(200):
        pitch = chance.choice((3.0, 5.0, 8.0))
        teeth_a, teeth_b = chance.randint(10, 80), chance.randint(10, 80)
        belt_teeth = math.ceil(1.3 * max(teeth_a, teeth_b)) + chance.randint(10, 120)
        centre = belts.centre_distance_for_length(teeth_a, teeth_b, pitch, belt_teeth * pitch)
        discs = [
            Point(x, 0.0).buffer(teeth * pitch / math.pi / 2.0, quad_segs=512)
            for x, teeth in ((0.0, teeth_a), (centre, teeth_b))
        ]
        # 2048 chords fall short of the circle by 4e-7 of its length.
        assert unary_union(discs).convex_hull.length == pytest.approx(belt_teeth * pitch, rel=1e-6)


@pytest.mark.parametrize(
    ("profile", "teeth", "pitch_diameter", "outside_diameter"),
    # Worked out separately from z p / pi and the inch originals 2a = 0.030, 0.045, 0.054 in of the H profiles.
    [
        ("H5M", 12, 19.10, 17.96),
        ("H5M", 14, 22.28, 21.14),
        ("H5M", 15, 23.87, 22.73),
        ("H5M", 16, 25.46, 24.32),
        ("H5M", 18, 28.65, 27.50),
        ("H5M", 20, 31.83, 30.69),
        ("H5M", 36, 57.30, 56.15),
        ("H5M", 40, 63.66, 62.52),
        ("H5M", 44, 70.03, 68.89),
        ("H5M", 60, 95.49, 94.35),
        ("H5M", 66, 105.04, 103.90),
        ("H5M", 72, 114.59, 113.45),
        ("H3M", 14, 13.369, 12.607),
        ("H8M", 24, 61.115, 59.744),
    ],
)
def test_pulley_sizes(profile: str, teeth: int, pitch_diameter: float, outside_diameter: float) -> None:
    form = belts.BELT_PROFILES[profile]
    assert belts.pitch_diameter(teeth, form.pitch) == pytest.approx(pitch_diameter, abs=0.006)
    found = belts.outside_diameter(teeth, form.pitch, form.pitch_line_differential)
    assert found == pytest.approx(outside_diameter, abs=0.01)


@pytest.mark.parametrize(("profile", "doubled"), [("H3M", 0.760), ("H5M", 1.140), ("H8M", 1.362)])
def test_a_second_makers_pitch_line_differential_agrees_within_a_hundredth(profile: str, doubled: float) -> None:
    assert 2.0 * belts.BELT_PROFILES[profile].pitch_line_differential == pytest.approx(doubled, abs=0.01)


def test_bare_pulleys_touch_at_half_the_sum_of_their_outside_diameters() -> None:
    assert belts.least_centre_distance(15, 36, 5.0, 0.5715) == pytest.approx((22.73 + 56.15) / 2.0, abs=0.01)


def test_mesh_factors_of_the_belt_makers_page() -> None:
    # A belt maker's engineering page, 2012: below six teeth in mesh take off 20 % of the rating per missing tooth.
    printed = {12: 1.0, 6: 1.0, 5: 0.8, 4: 0.6, 3: 0.4, 2: 0.2, 1: 0.0}
    for teeth, factor in printed.items():
        assert belts.published_mesh_factor(teeth) == pytest.approx(factor)
        assert belts.published_mesh_factor(teeth + 0.99) == pytest.approx(factor)


def test_the_project_grants_nothing_below_four_teeth_though_the_page_does() -> None:
    # Common practice, no source: a brake belt that may skip is refused.
    for teeth in (6, 5, 4):
        assert belts.mesh_factor(teeth) == belts.published_mesh_factor(teeth)
    assert belts.mesh_factor(3.99) == 0.0
    assert belts.mesh_factor(5.99) == 0.8


def test_a_wide_reduction_loses_a_tooth_that_the_belt_of_the_same_pulley_keeps() -> None:
    # 14/44 on 300 mm has 5.53 teeth in mesh and 15/36 on 265 mm has 6.29: one is derated, the other is not.
    tight = belts.centre_distance_for_length(14, 44, 5.0, 300.0)
    roomy = belts.centre_distance_for_length(15, 36, 5.0, 265.0)
    assert belts.mesh_factor(belts.teeth_in_mesh(14, 44, 5.0, tight)) == 0.8
    assert belts.mesh_factor(belts.teeth_in_mesh(15, 36, 5.0, roomy)) == 1.0


def test_pull_and_torque_agree_with_the_handbook_tension() -> None:
    # Timing-belt design handbook: a 5 mm rubber belt of 15 mm carries 454 N per 25.4 mm, 268 N; on 16 teeth 3.41 N m.
    tension = 454.0 * 15.0 / 25.4
    assert belts.belt_pull_n(3.41, 1.0, 16, 5.0) == pytest.approx(tension, rel=0.002)


@pytest.mark.parametrize(
    ("teeth", "bore", "wall"),
    # Worked by hand from H5M sizes and the 1.4 mm hub keyway of DIN 6885-1; the 2.0 mm to be left is common practice.
    [(13, 8.0, 2.29), (14, 10.0, 2.09), (12, 8.0, 1.50)],
)
def test_wall_over_the_keyway(teeth: int, bore: float, wall: float) -> None:
    assert belts.root_wall_over_keyway(teeth, 5.0, bore, 1.4) == pytest.approx(wall, abs=0.006)

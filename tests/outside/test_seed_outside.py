"""Rows of the shipped catalogue against tables that are not ours.

Sources: bd_warehouse 0.4.0 (Apache-2.0), read as data by data/make_part_tables.py: ISO 15 bearings, ISO 4762 heads,
ISO 4032 nuts, ISO 273 holes to M10 (above M10 the library departs from ISO 273). Belts: length = teeth × pitch, the
definition of a synchronous belt's pitch length (ISO 13050).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from fitdb.catalogue.seed import load_seed
from fitdb.formulas.threads import clearance_hole
from fitdb.model.part import Part
from fitdb.model.reading import Count, Designation, Number

DATA = Path(__file__).parent / "data"
SEED = load_seed()


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(line for line in opened if not line.startswith("#")))


def of_class(part_class: str) -> list[Part]:
    return [part for part in SEED.parts.values() if part.part_class == part_class]


def size(part: Part, attribute: str) -> float:
    reading = part.offers(attribute)[1]
    assert isinstance(reading, Number | Designation), f"{part.id} has no {attribute}"
    return reading.nominal


def stated(part: Part, attribute: str) -> float:
    """The size as it was stated: a designation's nominal lies inside its one-sided span, at the stated end."""
    reading = part.offers(attribute)[1]
    assert isinstance(reading, Number | Designation)
    return float(reading.entered.split()[0].split("@")[0])


@pytest.mark.parametrize("part", of_class("bearing"), ids=lambda part: part.id)
def test_every_bearing_is_a_row_of_the_table(part: Part) -> None:
    table = {(float(r["bore_mm"]), float(r["outer_mm"]), float(r["width_mm"])): r for r in rows("bearings.csv")}
    dimensions = tuple(stated(part, name) for name in ("bore", "outer_diameter", "width"))
    if part.source.standing == "from memory":
        assert dimensions[0] == 12, "only the 12 mm bores, which the library lacks, are from memory"
        return
    assert dimensions in table, f"{part.id} {dimensions}"
    rating = part.offers("static_rating")[1]
    if isinstance(rating, Number):
        same = [
            float(r["static_kn"])
            for r in rows("bearings.csv")
            if (float(r["bore_mm"]), float(r["outer_mm"]), float(r["width_mm"])) == dimensions
        ]
        assert any(rating.nominal == pytest.approx(kn, abs=0.006) for kn in same), same


@pytest.mark.parametrize("part", [p for p in of_class("cap_screw") if "-m" in p.id], ids=lambda part: part.id)
def test_every_metric_cap_screw_has_the_head_of_its_size(part: Part) -> None:
    heads = {row["size"].split("-")[0]: row for row in rows("cap_heads.csv")}
    row = heads[f"M{size(part, 'major_diameter'):g}"]
    assert size(part, "head_diameter") == pytest.approx(float(row["head_diameter_mm"]))
    assert size(part, "head_height") == pytest.approx(float(row["head_height_mm"]))


@pytest.mark.parametrize("part", [p for p in of_class("hex_nut") if "-m" in p.id], ids=lambda part: part.id)
def test_every_metric_nut_is_as_high_and_wide_as_its_size(part: Part) -> None:
    nuts = {row["size"].split("-")[0]: row for row in rows("hex_nuts.csv")}
    row = nuts[f"M{size(part, 'major_diameter'):g}"]
    assert stated(part, "height") == pytest.approx(float(row["height_mm"]))
    assert size(part, "across_flats") == pytest.approx(float(row["across_flats_mm"]))


@pytest.mark.parametrize("name", ["M3", "M4", "M5", "M6", "M8", "M10"])
@pytest.mark.parametrize("series", ["fine", "medium", "coarse"])
def test_every_clearance_hole_to_m10(name: str, series: str) -> None:
    table = {row["size"]: row for row in rows("clearance_holes.csv")}
    assert clearance_hole(name, series) == pytest.approx(float(table[name][series]))


@pytest.mark.parametrize("part", of_class("belt"), ids=lambda part: part.id)
def test_every_belt_is_as_long_as_its_teeth(part: Part) -> None:
    teeth = part.offers("teeth")[1]
    assert isinstance(teeth, Count)
    length = part.offers("length")[1]
    if isinstance(length, Number) and length.source.kind != "caliper":
        assert length.nominal == pytest.approx(teeth.nominal * size(part, "tooth_pitch"))

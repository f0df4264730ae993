"""Makes the part tables beside this file from bd_warehouse 0.4.0 (PyPI, Apache-2.0), read as data and never imported.

    python -m pip install --no-deps bd_warehouse==0.4.0
    python make_part_tables.py

It is too heavy a companion for the test extra (its own dependencies are a CAD kernel), so its rows are committed.
"""

from __future__ import annotations

import csv
import importlib.util
from pathlib import Path

HERE = Path(__file__).parent
ORIGIN = "bd_warehouse 0.4.0 (Apache-2.0), made by make_part_tables.py"


def rows_of(name: str) -> list[dict[str, str]]:
    package = importlib.util.find_spec("bd_warehouse")
    assert package is not None and package.submodule_search_locations, "pip install --no-deps bd_warehouse==0.4.0"
    file = Path(package.submodule_search_locations[0]) / "data" / name
    with file.open(encoding="utf-8", newline="") as opened:
        return [{key.strip(): value for key, value in row.items() if key} for row in csv.DictReader(opened)]


def write(name: str, headings: list[str], rows: list[list[str]]) -> None:
    with (HERE / name).open("w", encoding="utf-8", newline="") as opened:
        opened.write(f"# {ORIGIN}\n")
        table = csv.writer(opened, lineterminator="\n")
        table.writerow(headings)
        table.writerows(rows)


def main() -> None:
    bearings = []
    for name in (
        "single_row_deep_groove_ball_bearing_parameters.csv",
        "single_row_capped_deep_groove_ball_bearing_parameters.csv",
    ):
        capped = "yes" if "capped" in name else "no"
        for row in rows_of(name):
            sizes = [row[f"SKT:{letter}"] for letter in ("d", "D", "B", "C0")]
            if row["SKT:d"].replace(".", "").isdigit() and float(row["SKT:d"]) <= 12:
                bearings.append([row.get("SKT:Designation") or row["Size"], capped, *sizes])
    write("bearings.csv", ["designation", "capped", "bore_mm", "outer_mm", "width_mm", "static_kn"], bearings)
    holes = [[r["Size"], r["Close"], r["Normal"], r["Loose"]] for r in rows_of("clearance_hole_sizes.csv")]
    write("clearance_holes.csv", ["size", "fine", "medium", "coarse"], holes)
    heads = [
        [r["Size"], r["iso4762:dk"], r["iso4762:k"]]
        for r in rows_of("socket_head_cap_parameters.csv")
        if r["iso4762:dk"]
    ]
    write("cap_heads.csv", ["size", "head_diameter_mm", "head_height_mm"], heads)
    nuts = [[r["Size"], r["iso4032:m"], r["iso4032:s"]] for r in rows_of("hex_nut_parameters.csv") if r["iso4032:m"]]
    write("hex_nuts.csv", ["size", "height_mm", "across_flats_mm"], nuts)


if __name__ == "__main__":
    main()

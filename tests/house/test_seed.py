"""The shipped catalogue is as large, as varied and as well sourced as promised."""

from __future__ import annotations

import csv
from collections import Counter
from typing import Any

from fitdb.catalogue.paths import SEED
from fitdb.catalogue.read import Book
from fitdb.catalogue.seed import check_seed, load_seed
from fitdb.model.reading import Count, Number
from fitdb.rules import rulebook

GENERATED_SERIES = ("belt", "drive_pulley", "bearing", "cap_screw", "hex_nut", "plain_washer", "deck_bolt")
KINDS_PROMISED = {
    "wheel_core", "lug_ring", "bore", "shaft", "bearing_seat", "thread", "axle", "hanger_profile", "hanger_clamp",
    "hole_pattern",
    "motor_face", "belt_teeth", "plug", "cavity", "opening", "insert_grid", "rail", "current_link", "signal",
}  # fmt: skip


def test_no_table_has_a_fault() -> None:
    assert [str(problem) for problem in check_seed()] == []


def test_it_is_as_large_as_promised() -> None:
    seed = load_seed()
    assert len(seed.table.classes) >= 45
    assert len(seed.parts) >= 300
    assert len(seed.interfaces) >= 300
    series = sum(1 for part in seed.parts.values() if part.part_class in GENERATED_SERIES)
    assert series <= len(seed.parts) / 3, f"{series} of {len(seed.parts)} parts are size series"


def test_it_is_as_varied_as_promised() -> None:
    seed = load_seed()
    kinds = Counter(interface.kind for interface in seed.interfaces.values())
    assert set(kinds) >= KINDS_PROMISED, KINDS_PROMISED - set(kinds)
    assert kinds["wheel_core"] >= 14
    assert kinds["hanger_profile"] >= 12
    assert kinds["hole_pattern"] >= 8
    assert kinds["motor_face"] >= 8
    assert {"rider", "route"} <= {part.part_class for part in seed.parts.values()}


def test_pulleys_packs_and_cells_span_the_trade() -> None:
    seed = load_seed()
    drive, driven = teeth_by_pitch(seed.parts, "drive_pulley"), teeth_by_pitch(seed.parts, "driven_pulley")
    assert {14, 30} <= drive[3] and {12, 20} <= drive[5] and 22 in drive[8]
    assert {28, 72} <= set().union(*driven.values())
    packs = [part for part in seed.parts.values() if part.part_class == "pack"]
    series = {reading.nominal for part in packs if isinstance(reading := part.offers("series")[1], Count)}
    assert {6, 16} <= series
    chemistries = {word for part in packs for word in part.offers("chemistry")[1].possible}  # type: ignore[union-attr]
    assert len(chemistries) >= 2
    assert len([part for part in seed.parts.values() if part.part_class == "cell"]) >= 5


def teeth_by_pitch(parts: Any, part_class: str) -> dict[int, set[int]]:
    found: dict[int, set[int]] = {}
    for part in parts.values():
        teeth, pitch = part.offers("teeth")[1], part.offers("tooth_pitch")[1]
        if part.part_class == part_class and isinstance(teeth, Count) and isinstance(pitch, Number):
            found.setdefault(round(pitch.nominal), set()).add(teeth.nominal)
    return found


def test_every_row_cites_a_source() -> None:
    sourced = {row["id"] for row in csv.DictReader((SEED / "sources.csv").open(encoding="utf-8"))}
    for file in SEED.rglob("*.csv"):
        if file.name == "sources.csv":
            continue
        for row in csv.DictReader(file.open(encoding="utf-8")):
            if "source" in row:
                assert row["source"] in sourced, f"{file.name}: {row}"
            else:
                assert file.name.endswith("line_roles.csv"), f"{file.name} has no source column"


def test_every_need_of_every_rule_is_known_to_the_tables(sqlite_catalogue: tuple[Any, Book, Any]) -> None:
    _, book, _ = sqlite_catalogue
    rules, problems = rulebook(), []
    for line in book.patterns["loose"].lines:
        assert line.kind in rules.kinds, f"the line {line.id} asks {line.kind}, which has no folder"
        assert rules.kinds[line.kind].joint == line.joint
        waiting = [(rule.id, need) for rule in rules.by_kind[line.kind] for need in rule.needs]
        while waiting:
            asker, need = waiting.pop()
            role_name, attribute = need.split(".", 1)
            if role_name == "over":
                continue
            role = line.role(role_name.removesuffix("*"))
            if role is None:
                problems.append(f"{asker}: the line {line.id} has no role {role_name}")
                continue
            if role_name.endswith("*") and role.how != "list" and f"{role.role}.{attribute}" in rules.survey:
                problems.append(f"{asker}: {need} is worked out, but asked for as a list")
            if need in rules.survey:
                waiting.extend((f"{asker} via {need}", more) for more in rules.survey[need].needs)
                continue
            classes = [name for seat in role.seats for name in book.patterns["loose"].seats[seat].classes]
            if not any(book.table.attribute_of(name, attribute, role.port) for name in classes):
                problems.append(f"{asker}: nothing in the role {role_name} has {attribute}")
    assert problems == []


def test_every_kind_of_joint_has_a_line(sqlite_catalogue: tuple[Any, Book, Any]) -> None:
    _, book, _ = sqlite_catalogue
    assert {line.kind for line in book.patterns["loose"].lines} == set(rulebook().kinds)


def test_remedies_draw_on_stock_that_exists(sqlite_catalogue: tuple[Any, Book, Any]) -> None:
    _, book, by_class = sqlite_catalogue
    for remedy in book.remedies:
        if remedy.move == "insert":
            like = [own for own in book.table.classes if remedy.stock in book.table.line_of(own)]
            assert any(by_class.get(own) for own in like), f"{remedy.id} inserts {remedy.stock}, of which there is none"

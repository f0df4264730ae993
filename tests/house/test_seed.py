"""The shipped catalogue is as large, as varied and as well sourced as promised."""

from __future__ import annotations

import csv
from collections import Counter
from pathlib import Path
from typing import Any

from fitdb.catalogue.paths import SEED
from fitdb.catalogue.read import Book
from fitdb.catalogue.seed import check_seed, load_seed
from fitdb.model.pattern import Line
from fitdb.model.reading import Count, Designation, Number
from fitdb.model.rule import Severity
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
    sourced = {row["id"] for row in rows_of(SEED / "sources.csv")}
    for file in SEED.rglob("*.csv"):
        if file.name == "sources.csv":
            continue
        for row in rows_of(file):
            if "source" in row:
                assert row["source"] in sourced, f"{file.name}: {row}"
            else:
                assert file.name.endswith("line_roles.csv"), f"{file.name} has no source column"


def rows_of(file: Path) -> list[dict[str, str]]:
    with file.open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def test_every_need_of_every_rule_is_known_to_the_tables(sqlite_catalogue: tuple[Any, Book, Any]) -> None:
    _, book, _ = sqlite_catalogue
    rules, lines = rulebook(), book.patterns["loose"].lines
    for line in lines:
        assert line.kind in rules.kinds, f"the line {line.id} asks {line.kind}, which has no folder"
        assert line.joint in {kind.joint for kind in rules.kinds.values()}, line.id
    problems = []
    for rule in rules.rules.values():
        waiting, seen = list(rule.needs), set()
        while waiting:
            need = waiting.pop()
            if need in seen or need.startswith("over."):
                continue
            seen.add(need)
            if need in rules.survey:
                waiting.extend(rules.survey[need].needs)
            elif not any(offers(line, need, book) for line in lines if line.kind == rule.kind):
                problems.append(f"{rule.id}: no line of {rule.kind} has a role that offers {need}")
    assert problems == []


def offers(line: Line, need: str, book: Book) -> bool:
    """Whether some class that may play the need's role in this line has the attribute."""
    role_name, attribute = need.split(".", 1)
    role = line.role(role_name.removesuffix("*"))
    if role is None or "*" in role_name:  # a list may well be empty of such pieces in this line
        return role is not None
    taken = {name for seat in (*role.seats, *line.chain_seats) for name in book.patterns["loose"].seats[seat].classes}
    classes = [own for own in book.table.classes if set(book.table.line_of(own)) & taken]
    return any(book.table.attribute_of(own, attribute, role.port) for own in classes)


def test_every_shipped_size_lies_in_the_range_that_stands_in_for_it_when_unread() -> None:
    """Danger is not assumed away: the plausible range is the widest met, so it holds at least what we ship."""
    seed = load_seed()
    met = [
        (seed.table.attribute_of(part.part_class, name), reading, part.id)
        for part in seed.parts.values()
        for name, reading in part.readings.items()
    ] + [
        (seed.table.attributes.get((interface.kind, name)), reading, interface.id)
        for interface in seed.interfaces.values()
        for name, reading in interface.readings.items()
    ]
    outside = [
        f"{where}: {attribute.name} {reading.nominal:g} outside {attribute.plausible}"
        for attribute, reading, where in met
        if attribute is not None and attribute.plausible and isinstance(reading, Number | Designation | Count)
        if not attribute.plausible[0] <= reading.nominal <= attribute.plausible[1]
    ]
    assert outside == []


def test_every_rule_that_guards_against_harm_has_its_caution() -> None:
    bare = [rule.id for rule in rulebook().rules.values() if rule.severity >= Severity.INJURY and not rule.caution]
    assert bare == []


def test_every_kind_of_joint_has_a_line(sqlite_catalogue: tuple[Any, Book, Any]) -> None:
    _, book, _ = sqlite_catalogue
    assert {line.kind for line in book.patterns["loose"].lines} == set(rulebook().kinds)


def test_remedies_draw_on_stock_that_exists(sqlite_catalogue: tuple[Any, Book, Any]) -> None:
    _, book, by_class = sqlite_catalogue
    for remedy in book.remedies:
        if remedy.move == "insert":
            like = [own for own in book.table.classes if remedy.stock in book.table.line_of(own)]
            assert any(by_class.get(own) for own in like), f"{remedy.id} inserts {remedy.stock}, of which there is none"

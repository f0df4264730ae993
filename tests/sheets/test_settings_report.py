"""The settings sheet as a document and as text: what stands at its head, what changes, whether it can be read aloud."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine

from fitdb.catalogue import read
from fitdb.catalogue.paths import SEED
from fitdb.settings import ask
from fitdb.sheets.settings_report import settings_report
from fitdb.steps.explain import Display

Shelf = tuple[Engine, read.Book, Any]
KEYS = {"id", "group", "title", "unit", "side", "seats", "value", "printed", "printed_text", "word", "task", "is_bound",
        "set_by", "others", "now", "change", "before", "missing", "notes", "caution", "source", "sentence"}  # fmt: skip

OTHER_PACK = """
plan: stronger-pack
title: Another pack on the river board
layout: two_wheel_belt
board:
  pack: pack-10s3p-21700-power
  bms: bms-10s-60-charge-20
  fuse: fuse-bolt-40-80v-near
  switch: switch-anti-spark-60v
  main_lead: main-lead-10awg-open
  pack_plug: connector-block-90-socket-metered
  rail_plug: connector-block-90-plug-metered
  controller: controller-double-60v-set-10s
  motor: motor-63x50-170
on:
  pack: pack-10s3p-21700-energy
"""


@pytest.fixture(scope="module")
def url(sqlite_catalogue: Shelf) -> str:
    return sqlite_catalogue[0].url.render_as_string(hide_password=False)


@pytest.fixture(scope="module")
def other_pack(url: str, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    file = tmp_path_factory.mktemp("plans") / "plan.yaml"
    file.write_text(OTHER_PACK, encoding="utf-8")
    return ask(url, file, [], Display())


def line_of(document: dict[str, Any], line_id: str) -> dict[str, Any]:
    return next(line for line in document["lines"] if line["id"] == line_id)


def test_an_energy_pack_lowers_the_settings_and_the_difference_is_told(other_pack: dict[str, Any]) -> None:
    """Three cells of 10 A: 0.9 · 30 = 27 A instead of 32 A. Three that take 2.5 A: 0.7 · 7.5 = 5.25 A, not 12.6 A; over
    two channels 2.625 A, typed 2.6 A."""
    current, charge = (line_of(other_pack, name) for name in ("pack_current", "braking_charge_each"))
    assert current["printed"] == 27.0 and current["set_by"]["id"] == "cells"
    assert current["change"]["state"] == "beyond"
    assert current["change"]["sentence"] == "Now 30 A is set: lower it from 30 A to 27 A."
    assert current["before"]["printed"] == 32.0 and current["before"]["difference"] == -5.0
    assert "32 A, set by the main fuse: now 5 A less." in current["sentence"]
    assert charge["printed"] == 2.6 and "lower it from 9 A to 2.6 A" in charge["sentence"]


def test_every_line_has_the_same_keys_and_every_number_a_unit_and_a_source(other_pack: dict[str, Any]) -> None:
    json.dumps(other_pack)
    for line in other_pack["lines"]:
        assert set(line) == KEYS and line["sentence"] and line["sentence"].endswith((".", "?"))
        for link in [line["set_by"], *line["others"]] if line["set_by"] else []:
            assert link["value"]["unit"] == line["unit"] and link["source"] and link["worked"]
        if line["printed"] is not None:
            assert line["source"] and line["unit"]


def test_what_a_remedy_would_set_is_left_to_its_line(other_pack: dict[str, Any]) -> None:
    """The verdict lowers the braking charge to 3 A, where nothing clashes; the sheet keeps three tenths in hand."""
    assert other_pack["state"] == "ready" and not other_pack["changes"]
    assert other_pack["settings_of_the_verdict"] and "on their careful side" in other_pack["head"][1]


def test_a_board_that_clashes_says_so_before_any_number(url: str) -> None:
    document = ask(url, SEED / "plans" / "river-path-charger.yaml", [], Display())
    assert document["state"] == "clash" and not document["usable"]
    text = settings_report(document)
    assert text.splitlines()[1].startswith("Not to be used")
    assert "Charger and pack" in document["head"][0]


def test_what_clashed_before_and_is_left_so_is_told_at_the_head(url: str, tmp_path: Path) -> None:
    """Twelve cells beside a BMS for ten: the plan changes the fuse alone, and no setting mends the rest."""
    file = tmp_path / "plan.yaml"
    board = OTHER_PACK.replace("pack: pack-10s3p-21700-power\n  bms", "pack: pack-12s3p-21700-power\n  bms")
    file.write_text(board.replace("on:\n  pack: pack-10s3p-21700-energy", "on:\n  fuse: fuse-bolt-50-80v-near"))
    document = ask(url, file, [], Display())
    assert "Battery management board and cells" in document["clashes_as_it_stood"]
    assert any("clashes as it stood" in sentence for sentence in document["head"])


def test_an_undecided_danger_names_the_readings_to_take_and_the_changes_it_is_for(url: str) -> None:
    document = ask(url, SEED / "plans" / "river-path.yaml", [], Display())
    assert document["state"] == "blocked" and not document["usable"]
    assert any("clamp_bore" in name for name in document["until"])
    assert document["changes"] and document["changes"][0] in document["head"][1]


def test_the_text_keeps_its_width_and_the_full_one_tells_every_link(other_pack: dict[str, Any]) -> None:
    short, full = settings_report(other_pack, 80), settings_report(other_pack, 80, full=True)
    assert all(len(line) <= 80 for text in (short, full) for line in text.splitlines())
    for link in line_of(other_pack, "pack_current")["others"]:
        assert link["name"] in full.replace("\n        ", " ")
    assert len(full) > len(short)


def test_a_caution_stands_beside_its_line_once(other_pack: dict[str, Any]) -> None:
    text = " ".join(settings_report(other_pack, 80).split())
    for line in other_pack["lines"]:
        if line["caution"]:
            assert text.count(line["caution"]) == 1


def test_it_never_promises_and_can_be_read_aloud(other_pack: dict[str, Any]) -> None:
    text = settings_report(other_pack, 80, full=True)
    words = set(text.lower().replace(".", " ").replace(",", " ").split())
    assert not words & {"safe", "legal", "certified", "nan"} and "None" not in text
    assert "_" not in text.replace("first_", "").split("To be read")[0]


def test_a_plan_without_a_controller_has_a_sheet_that_sets_nothing(url: str, tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text("plan: bare\ntitle: bare\nlayout: two_wheel_belt\nboard:\n  deck: deck-ply-insert-480-800\n")
    document = ask(url, file, [], Display())
    assert all(line["printed"] is None for line in document["lines"] if line["unit"] == "A")
    assert "No controller is named" in settings_report(document)

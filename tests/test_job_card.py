"""The job card from its front door: the shipped plans, what each line tells, money, and the text on a terminal."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pint
import pytest
from sqlalchemy import Engine

from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.read import Book
from fitdb.job_card import answer, ask, check_rate, job_card
from fitdb.model.part import Part
from fitdb.model.problems import Malformed
from fitdb.model.verdict import SwapVerdict
from fitdb.model.work import Span
from fitdb.rules import rulebook
from fitdb.sheets.job_card_report import job_card_report
from fitdb.steps.explain import Display
from fitdb.steps.explain.job_card_words import minutes_text, thread_text
from fitdb.swap import Budget, stock_in, swap

PLANS = Path(SEED) / "plans"
Catalogue = tuple[Engine, Book, Mapping[str, list[Part]]]
SETTLED = "rear_truck.size_a=31.54 +-0.02 mm"
MM, INCH = Display(), Display("inch")


@pytest.fixture(scope="module")
def verdicts(sqlite_catalogue: Catalogue) -> Mapping[str, SwapVerdict]:
    engine, book, _ = sqlite_catalogue
    asked: dict[str, tuple[str, tuple[str, ...]]] = {
        "measure": ("river-path.yaml", ()),
        "settled": ("river-path.yaml", (SETTLED,)),
        "truck": ("river-path-truck.yaml", ()),
        "charger": ("river-path-charger.yaml", ()),
    }
    found = {}
    with engine.connect() as connection:
        for name, (file, readings) in asked.items():
            plan = plan_of_file(connection, book, PLANS / file, readings)
            found[name] = swap(plan, book, rulebook(), stock_in(connection), Budget(seconds=60))
    return found


@pytest.fixture(scope="module")
def cards(verdicts: Mapping[str, SwapVerdict], sqlite_catalogue: Catalogue) -> Mapping[str, dict[str, Any]]:
    book = sqlite_catalogue[1]
    return {name: answer(verdict, book, rulebook(), MM, 45.0) for name, verdict in verdicts.items()}


def keys(card: Mapping[str, Any], *phases: str) -> list[str]:
    return [step["key"] for step in card["steps"] if step["phase"] in phases]


def step(card: Mapping[str, Any], key: str) -> dict[str, Any]:
    return next(one for one in card["steps"] if one["key"] == key)


def test_a_plan_that_can_hurt_somebody_and_is_undecided_is_measured_only(cards: Mapping[str, Any]) -> None:
    card = cards["measure"]
    assert card["measuring_only"] and card["sentence"].startswith("Measuring only")
    assert not keys(card, "alter", "rebuild", "test") and card["parts_to_get"] == [] and card["rechecks"] == []
    # The hanger is read where the clamp sits now, so the old mount is pushed aside; the new one lies on the table.
    assert keys(card, "undo") == ["motor_slackened", "belt_off", "clamp_pushed_aside"]
    readings = {one["reading"]["name"]: one for one in card["steps"] if one["reading"]}
    assert readings["rear_motor_mount.clamp_bore"]["phase"] == "measure"
    assert readings["rear_truck.size_a"]["needs"] and not readings["rear_motor_mount.clamp_bore"]["needs"]
    assert card["steps"][-1]["kind"] == "gate" and "ends here" in card["steps"][-1]["does"]


def test_the_settled_plan_is_undone_and_rebuilt_for_what_changes(cards: Mapping[str, Any]) -> None:
    card = cards["settled"]
    assert set(keys(card, "undo")) == {
        "motor_slackened", "belt_off", "driven_nut_off", "driven_wheel_off", "pulley_off_wheel", "drive_pulley_off",
        "motor_off", "mount_off",
    }  # fmt: skip
    rebuilt = keys(card, "rebuild")
    order = ["mount_on", "motor_on", "drive_pulley_on", "pulley_on_wheel", "driven_wheel_on", "belt_on", "clamp_tight"]
    assert [key for key in rebuilt if key in order] == order
    assert rebuilt[-1] == "motor_screws_tight"  # tension first, then the clamp, then the motor screws
    assert keys(card, "test")[:3] == ["low_power_spin", "brake_and_signal_loss", "full_throttle_spin"]
    assert {"title": "Driven pulley, 40 teeth, six lugs", "count": 2} in step(card, "pulley_on_wheel")["new"]


def test_left_and_right_are_one_line_with_twice_the_minutes(cards: Mapping[str, Any], sqlite_catalogue: Any) -> None:
    line, row = step(cards["settled"], "motor_off"), sqlite_catalogue[1].work.steps["motor_off"]
    assert line["places"] == ["rear_left", "rear_right"]
    assert line["minutes"]["usual"] == 2 * row.minutes.usual
    assert line["minutes"]["low"] < line["minutes"]["usual"] < line["minutes"]["high"]


def test_minutes_of_the_card_are_those_of_its_phases(cards: Mapping[str, Any]) -> None:
    card = cards["settled"]
    for side in ("low", "usual", "high"):
        assert card["minutes"][side] == pytest.approx(sum(one["minutes"][side] for one in card["phases"]))
        assert card["minutes"][side] == pytest.approx(sum(one["minutes"][side] for one in card["steps"]))
    assert "two to three times" in card["first_time"]


def test_fasteners_are_counted_from_the_parts(cards: Mapping[str, Any]) -> None:
    # Two motors on four slots and four threaded holes each; two screws in each of two clamps: counted in the tables.
    motors = step(cards["settled"], "motor_screws_tight")["fasteners"][0]
    assert (motors["count"], motors["each"], motors["thread"], motors["length"]["text"]) == (8, 4, "m4", "14 mm")
    clamps = step(cards["settled"], "clamp_tight")["fasteners"][0]
    assert clamps["count"] == 4 and {one["thread"] for one in clamps["torques"]} == {"m5", "m6"}
    assert "if M5" in clamps["sentence"] and "if M6" in clamps["sentence"]  # nobody told their thread
    assert motors["sentence"].endswith("medium thread lock.")


def test_torques_in_pound_inches_are_those_of_another_reckoning(cards: Mapping[str, Any]) -> None:
    """Against pint, whose units follow NIST SP 811."""
    unit = pint.UnitRegistry()
    for card in cards.values():
        for line in card["steps"]:
            for fasteners in line["fasteners"]:
                for one in fasteners["torques"]:
                    for side in ("low", "high"):
                        there = unit.Quantity(one[f"{side}_n_m"], "newton*meter").to("pound_force*inch").magnitude
                        assert one[f"{side}_lbf_in"] == pytest.approx(there, abs=0.06)


def test_every_test_says_when_it_passes_and_where_to_go_back_to(cards: Mapping[str, Any]) -> None:
    tests = [one for one in cards["settled"]["steps"] if one["kind"] == "test"]
    assert len(tests) >= 6
    for one in tests:
        assert one["test"]["passes"] and one["test"]["back_to"]
        assert all(joint["title"] for joint in one["test"]["back_to"])
        assert one["test"]["back_to"][0]["joint"] in one["test"]["sentence"]


def test_what_was_tightened_is_looked_at_again(cards: Mapping[str, Any]) -> None:
    again = {one["km"]: set(one["what"]) for one in cards["settled"]["rechecks"]}
    assert set(again) == {1, 10, 100}
    assert {"axle nut", "clamp screws", "motor screws"} <= again[1]


def test_a_plan_that_clashes_has_no_card_and_says_why(cards: Mapping[str, Any]) -> None:
    card = cards["charger"]
    assert card["withheld"] == "clash" and card["steps"] == [] and card["quote"] is None
    assert any("J52" in told for told in card["why"])
    assert any("no adapter" in told for told in card["why"])


def test_cuts_between_two_boards_stand_side_by_side(cards: Mapping[str, Any], verdicts: Any) -> None:
    ways = cards["truck"]["ways"]
    assert ways[0]["title"] == "as the plan asks" and len(ways) >= 3
    whole = next(way for way in ways if way["title"].startswith("whole truck"))
    assert "Belt off" not in whole["steps"] and "Truck off the deck" in whole["steps"]  # it leaves as one piece
    assert "Pack unplugged, its plug capped" in whole["steps"]  # with its motors, so with their leads
    assert whole["minutes"]["usual"] < ways[0]["minutes"]["usual"]
    assert whole["clashing"] == len(next(c for c in verdicts["truck"].cut_lines if c.unit == "whole_truck").clashing)


def test_cautions_stand_at_the_step_that_needs_them(cards: Mapping[str, Any]) -> None:
    card = cards["settled"]
    assert any("Wheels up" in caution for caution in step(card, "low_power_spin")["cautions"])
    assert any("nylon ring" in caution for caution in step(card, "driven_wheel_on")["cautions"])
    assert any("Helmet" in caution for caution in step(card, "slow_ride")["cautions"])
    assert any("live at all times" in caution for caution in step(card, "isolate")["cautions"])


# --- money ---------------------------------------------------------------------------------------------------


def test_a_quote_is_labour_by_phase_and_parts(cards: Mapping[str, Any]) -> None:
    card = cards["settled"]
    quote = card["quote"]
    for line in quote["lines"]:
        if line["kind"] == "labour":
            assert line["money_mu"]["usual"] == round(line["minutes"]["usual"] / 60 * 45)
    parts = sum(line["money_mu"]["usual"] for line in quote["lines"] if line["kind"] == "part")
    assert parts == sum(part["money_mu"] for part in card["parts_to_get"]) == 86  # 2 × 32 and 2 × 11, as the plan tells
    assert quote["total"]["usual"] == pytest.approx(card["minutes"]["usual"] / 60 * 45 + parts, abs=1)
    # The mounts that the owner bought are in no list of prices: named, not counted as nothing.
    assert any("Motor mount" in title for title in quote["unpriced"])
    assert "nobody told" in quote["sentence"]


def test_without_a_rate_there_is_no_quote(verdicts: Any, sqlite_catalogue: Catalogue) -> None:
    assert answer(verdicts["settled"], sqlite_catalogue[1], rulebook(), MM)["quote"] is None


@pytest.mark.parametrize("rate", [-1.0, float("nan"), float("inf"), 1e9])
def test_a_rate_that_is_none_is_malformed(rate: float) -> None:
    with pytest.raises(Malformed) as found:
        check_rate(rate)
    assert found.value.problems[0].code == "bad_rate" and found.value.problems[0].hint


# --- from the file, and on a terminal ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def url(tmp_path_factory: pytest.TempPathFactory) -> str:
    return f"sqlite:///{tmp_path_factory.mktemp('job') / 'catalogue.sqlite'}"


def test_the_plan_is_asked_from_its_file_and_compared(url: str) -> None:
    both = ask(url, PLANS / "river-path.yaml", [SETTLED], MM, 45.0, PLANS / "river-path-charger.yaml")
    assert both["this"]["plan"]["id"] == "river-path" and both["other"]["withheld"] == "clash"
    rows = {row["what"]: (row["this"], row["other"]) for row in both["rows"]}
    assert rows["steps"][0] > rows["steps"][1] == 0
    json.dumps(both)  # plain data
    told = job_card_report(both)
    assert told.startswith("river-path beside river-path-charger") and max(map(len, told.splitlines())) <= 80


@pytest.mark.parametrize("name", ["measure", "settled", "truck", "charger"])
@pytest.mark.parametrize("full", [False, True])
def test_the_text_has_a_box_for_every_step_and_fits_the_screen(name: str, full: bool, cards: Mapping[str, Any]) -> None:
    card = cards[name]
    told = job_card_report(card, 80, full)
    assert max(map(len, told.splitlines())) <= 80
    boxes = re.findall(r"^  \[ \] +(\d+)\. ", told, re.MULTILINE)
    assert [int(number) for number in boxes] == [one["number"] for one in card["steps"]]
    assert full or len(told.splitlines()) <= 150
    for caution in {caution for one in card["steps"] for caution in one["cautions"]}:
        assert " ".join(told.split()).replace("! ", "").count(caution.split(".")[0]) == 1  # once, where first needed


def test_full_tells_how_and_what_to_photograph(cards: Mapping[str, Any]) -> None:
    short, full = job_card_report(cards["settled"]), job_card_report(cards["settled"], full=True)
    assert "Photograph first" in full and "Photograph first" not in short
    assert len(full) > 1.5 * len(short)


def test_nothing_is_called_safe(cards: Mapping[str, Any]) -> None:
    words = set(re.findall(r"[a-z]+", json.dumps(list(cards.values())).lower()))
    assert not words & {"safe", "safely", "legal", "legally", "certified"}


def test_lengths_follow_the_units_that_were_asked_for(verdicts: Any, sqlite_catalogue: Catalogue) -> None:
    card = answer(verdicts["settled"], sqlite_catalogue[1], rulebook(), INCH)
    assert step(card, "motor_screws_tight")["fasteners"][0]["length"]["text"].endswith("in")


def test_the_card_is_the_same_from_the_database_and_twice(verdicts: Any, sqlite_catalogue: Catalogue) -> None:
    book = sqlite_catalogue[1]
    assert job_card(verdicts["settled"], book) == job_card(verdicts["settled"], book)


@pytest.mark.parametrize(
    ("span", "told"),
    [
        (Span(4, 6, 20), "6 min (4 to 20 min)"),
        (Span(5, 5, 5), "5 min"),
        (Span(20, 40, 120), "40 min (20 min to 2 h)"),
        (Span(163, 285, 649), "4 h 45 min (2 h 43 min to 10 h 49 min)"),
    ],
)
def test_minutes_are_told_with_their_range(span: Span, told: str) -> None:
    assert minutes_text(span) == told


@pytest.mark.parametrize(("thread", "told"), [("m4", "M4"), ("unf_10_32", "number 10-32"), ("unf_5_16_24", "5/16-24")])
def test_threads_are_told_as_people_say_them(thread: str, told: str) -> None:
    assert thread_text(thread) == told

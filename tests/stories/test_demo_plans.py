"""The three plans that are shipped to be tried first, from the file to the answer, as their comments tell them.

What the answers should say was worked out by hand from the sizes in the plan: 48 teeth of 5 mm pitch have a pitch
radius of 48·5/(2π) = 38.2 mm (plane geometry); with 3 mm of flange that leaves less under 45 mm of wheel than the 8 mm
that stones want (common practice, no source). The belt's length follows from both pulleys and the centre distance
(Shigley, Mechanical Engineering Design, eq. 17-1).
"""

from __future__ import annotations

import csv
import json
import math
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine
from typer.testing import CliRunner

from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.read import Book
from fitdb.cli import app
from fitdb.model.part import Part
from fitdb.model.verdict import SwapVerdict
from fitdb.rules import rulebook
from fitdb.swap import Budget, stock_in, swap

PLANS = Path(SEED) / "plans"
Catalogue = tuple[Engine, Book, dict[str, list[Part]]]
Judged = Callable[..., SwapVerdict]
ENOUGH = Budget(nodes=2000, seconds=300)  # searched to the end, however slow the machine
NONE = {"river-path-truck.yaml": Budget(nodes=1, seconds=0)}  # nothing is asked about its remedies


@pytest.fixture(scope="module")
def judged(sqlite_catalogue: Catalogue) -> Judged:
    """The verdict on a shipped plan with readings; each is judged once and kept."""
    engine, book, _ = sqlite_catalogue
    kept: dict[tuple[str, ...], SwapVerdict] = {}

    def verdict(name: str, *readings: str) -> SwapVerdict:
        if (name, *readings) not in kept:
            with engine.connect() as connection:
                plan = plan_of_file(connection, book, PLANS / name, readings)
                kept[name, *readings] = swap(plan, book, rulebook(), stock_in(connection), NONE.get(name, ENOUGH))
        return kept[name, *readings]

    return verdict


def moves(verdict: SwapVerdict) -> list[tuple[str, str]]:
    """What the best remedies put where: (part, bare seat)."""
    best = verdict.cures[0]
    return [(move.pieces[0].part.id, re.sub(r"^(rear|front)_(left|right)_", "", move.seats[0])) for move in best.moves]


def failing(verdict: SwapVerdict) -> set[str]:
    return {finding.rule.id for joint in verdict.joints for finding in joint.findings if finding.state == "fails"}


def open_rules(verdict: SwapVerdict) -> set[str]:
    joints = verdict.cures[0].joints if verdict.cures else verdict.joints
    return {finding.rule.id for joint in joints for finding in joint.findings if finding.state == "undecided"}


@pytest.mark.parametrize("name", ["river-path.yaml", "river-path-charger.yaml", "river-path-truck.yaml"])
def test_the_board_as_it_stands_has_no_clash_and_no_doubt(judged: Judged, name: str) -> None:
    assert judged(name).before == "fits"


# --- more pull: a clash, a chain of two, a doubt ---------------------------------------------------------------


def test_the_larger_pulley_comes_too_near_the_ground(judged: Judged) -> None:
    verdict = judged("river-path.yaml")
    assert (verdict.as_asked, verdict.best_allowed) == ("clash", "measure")
    assert failing(verdict) == {"pulley_ground.stones_pass_under_the_pulley"}
    (conflict,) = verdict.conflicts
    assert {part.id for _, part in conflict.pieces} == {"driven-48-six-lug", "wheel-90-six-window"}
    most = next(one for one in conflict.frees if one.attribute == "teeth")
    radius = 45 - 3 - 8  # wheel, flange, stones; the wheel flattens a little under its rider
    assert not most.at_least and most.value is not None and most.value <= radius * 2 * math.pi / 5
    assert most.value >= (radius - 1.5) * 2 * math.pi / 5 - 1


def test_the_cure_of_the_ground_breaks_the_belt_and_the_next_cure_mends_that(judged: Judged) -> None:
    verdict = judged("river-path.yaml")
    assert moves(verdict) == [("driven-40-six-lug", "driven_pulley"), ("belt-5mm-275-15", "belt")]
    first, second = verdict.cures[0].cure.chosen_for
    assert first.endswith("|pulley_ground.stones_pass_under_the_pulley")
    assert re.search(r"\|belt_length\.", second)
    assert verdict.complete


def test_the_new_belt_is_one_that_comes_tight_within_the_slot() -> None:
    slot = (60.5, 73.5)  # the mount's 60 to 74 mm, half a millimetre of doubt on each
    assert slot[0] < centre(40, 15, 275) < slot[1]
    assert not slot[0] < centre(40, 15, 300) < slot[1]  # the belt that was bought for 48 teeth
    assert slot[0] < centre(48, 15, 300) < slot[1]


def centre(driven: int, drive: int, length: float, pitch: float = 5.0) -> float:
    """Centre distance of a taut open belt, halved into place from Shigley, eq. 17-1."""
    large, small = driven * pitch / math.pi, drive * pitch / math.pi
    low, high = (large - small) / 2 + 1e-6, length
    for _ in range(80):
        middle = (low + high) / 2
        half = math.asin((large - small) / (2 * middle))
        around = 2 * middle * math.cos(half) + large * (math.pi / 2 + half) + small * (math.pi / 2 - half)
        low, high = (middle, high) if around < length else (low, middle)
    return low


def test_the_wish_is_met_and_the_wheels_stay(judged: Judged) -> None:
    verdict = judged("river-path.yaml")
    assert verdict.cures[0].cure.cost.shortfall == 0 and 40 / 15 > 2.6
    assert not any("wheel" in seat.split("_")[-1] for move in verdict.cures[0].moves for seat in move.seats)


def test_what_is_left_is_one_doubt_about_the_clamp_and_only_measuring_is_allowed(judged: Judged) -> None:
    verdict = judged("river-path.yaml")
    assert open_rules(verdict) == {"clamp_profile.clamp_grips_its_whole_width"}
    assert verdict.blocked
    first = verdict.to_measure[0]
    assert (first.part, first.attribute, first.tool) == ("truck-180-48-cast", "size_a", "caliper")
    assert [outcome.verdict for outcome in first.outcomes] == ["clash", "measure", "fits"]


def test_a_reading_on_the_good_side_settles_it(judged: Judged) -> None:
    # Split 0.5 mm; 31.85 - 31.54 mm of air and 16·tan 0.2° of taper are 0.37 mm: it closes, by plane geometry.
    verdict = judged("river-path.yaml", "rear_truck.size_a=31.54 +-0.02 mm")
    assert (verdict.as_asked, verdict.best_allowed, verdict.blocked) == ("clash", "fits_with", False)
    assert moves(verdict) == [("driven-40-six-lug", "driven_pulley"), ("belt-5mm-275-15", "belt")]


def test_a_reading_on_the_bad_side_adds_a_shim_strip(judged: Judged) -> None:
    # 31.85 - 31.32 mm and the taper are 0.59 mm: the split of 0.5 mm is shut before the clamp grips.
    verdict = judged("river-path.yaml", "rear_truck.size_a=31.32 +-0.02 mm")
    assert verdict.best_allowed == "fits_with"
    assert "clamp_profile.clamp_grips_its_whole_width" in failing(verdict)
    found = moves(verdict)
    assert {("driven-40-six-lug", "driven_pulley"), ("belt-5mm-275-15", "belt")} < set(found)
    assert [part for part, seat in found if seat == "clamp_shim"] == ["clamp-shim-0-2"]  # 0.59 - 2·0.2 mm: the roomier


# --- the charger: a refusal ------------------------------------------------------------------------------------


def test_the_plug_mates_and_the_charger_is_refused_all_the_same(judged: Judged) -> None:
    verdict = judged("river-path-charger.yaml")
    assert (verdict.as_asked, verdict.best_allowed) == ("clash", "clash")
    assert failing(verdict) == {"charger_pack.never_above_full_volts"}
    plug = [joint for joint in verdict.joints if joint.joint.line.kind == "charge_port"]
    assert plug and all(joint.verdict == "fits" for joint in plug)


def test_no_remedy_is_offered_and_the_charger_made_for_ten_cells_is_named_instead(judged: Judged) -> None:
    verdict = judged("river-path-charger.yaml")
    assert verdict.cures == () and all(conflict.refused for conflict in verdict.conflicts)
    named = {move.pieces[0].part.id for plan in verdict.instead for move in plan.moves}
    volts = 10 * 4.2  # lithium-nickel cells are full at 4.20 V
    assert "charger-10s-2" in named
    assert all("charger" in part for part in named)
    assert any(free.attribute == "open_volts" and abs((free.value or 0) - volts) <= 0.31
               for conflict in verdict.conflicts for free in conflict.frees)  # fmt: skip


# --- the dead board's truck: where to cut, and the reading that settles it ---------------------------------------


def test_the_dead_board_is_looked_at_as_a_whole_truck_too(judged: Judged) -> None:
    cuts = judged("river-path-truck.yaml").cut_lines
    whole = next(cut for cut in cuts if cut.unit == "whole_truck")
    assert (whole.donor, whole.end) == ("dead_board", "rear")
    # Its motors report their temperature on another pin and by another kind of sensor than the controller is set for.
    assert any("Sensor plugs" in title for title in whole.clashing)
    assert any("Temperature sensor" in title for title in whole.clashing)


def test_only_the_grip_of_the_mounts_is_in_doubt(judged: Judged) -> None:
    verdict = judged("river-path-truck.yaml")
    assert (verdict.as_asked, verdict.best_allowed) == ("measure", "measure")
    assert {rule.partition(".")[0] for rule in open_rules(verdict)} == {"clamp_profile"}
    first = verdict.to_measure[0]
    assert first.attribute == "clamp_bore" and len({outcome.verdict for outcome in first.outcomes}) == 2


@pytest.mark.parametrize(("bore", "told"), [("31.92", "fits"), ("31.20", "clash")])
def test_one_reading_of_the_bore_settles_it_either_way(judged: Judged, bore: str, told: str) -> None:
    # The hanger is 31.3 to 31.7 mm: 31.92 goes over all of it and closes by 0.8 mm; 31.20 goes over none of it.
    assert judged("river-path-truck.yaml", f"rear_motor_mount.clamp_bore={bore} +-0.03 mm").as_asked == told


# --- over the command line --------------------------------------------------------------------------------------


def run(catalogue: Path, *words: str) -> tuple[int, str]:
    result = CliRunner().invoke(app, [*words, "--catalogue", f"sqlite:///{catalogue}"], env={"COLUMNS": "80"})
    return result.exit_code, result.output


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("demo")


def test_the_first_command_of_the_readme_answers_in_a_screen_and_a_half(desk: Path) -> None:
    bill = desk / "bill.csv"
    code, text = run(desk / "fitdb.sqlite", "swap", str(PLANS / "river-path.yaml"), "--bill", str(bill))
    assert code == 2 and text.startswith("MEASURE FIRST.")
    assert "rear_truck.size_a" in text and "Driven pulley, 40 teeth, six lugs" in text
    lines = text.splitlines()
    assert len(lines) <= 90 and max(map(len, lines)) <= 80
    rows = list(csv.DictReader(bill.read_text(encoding="utf-8").splitlines()))
    assert [(row["part"], row["count"]) for row in rows] == [("driven-40-six-lug", "2"), ("belt-5mm-275-15", "2")]


def test_the_charger_is_refused_on_the_command_line(desk: Path) -> None:
    code, text = run(desk / "fitdb.sqlite", "swap", str(PLANS / "river-path-charger.yaml"))
    assert code == 1 and text.startswith("CLASH.")
    assert "No adapter and no setting may cure this" in text and "Charger 42.0 V, 2 A" in text
    assert "What mends it" not in text and "To get:" not in text


def test_the_reading_of_the_bore_settles_the_truck_on_the_command_line(desk: Path) -> None:
    asked = ["swap", str(PLANS / "river-path-truck.yaml")]
    assert run(desk / "fitdb.sqlite", *asked)[0] == 2
    code, text = run(desk / "fitdb.sqlite", *asked, "--reading", "rear_motor_mount.clamp_bore=31.92 +-0.03 mm")
    assert code == 0 and text.startswith("FITS.")


def test_as_json_it_is_the_same_answer_with_its_numbers(desk: Path) -> None:
    code, text = run(desk / "fitdb.sqlite", "swap", str(PLANS / "river-path-charger.yaml"), "--json")
    told: dict[str, Any] = json.loads(text)
    assert code == 1 and told["verdict"] == "clash" and told["remedies"] == []
    assert told["instead"][0]["moves"][0]["part"] == "charger-10s-2"


@pytest.mark.parametrize("plan", sorted(PLANS.glob("*.yaml")), ids=lambda plan: plan.stem)
def test_the_comments_tell_the_story_before_the_plan_begins(plan: Path) -> None:
    comments, _, rest = plan.read_text(encoding="utf-8").partition("\nplan: ")
    assert comments.count("\n#") >= 4 and rest.startswith(f"{plan.stem}\n")
    assert max(len(line) for line in plan.read_text(encoding="utf-8").splitlines()) <= 120

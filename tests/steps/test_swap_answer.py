"""What the answer to a swap plan says in words: plain names, sizes with their units, both sides of a board once."""

from __future__ import annotations

import itertools
import re
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine

from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.remedy import Move, Remedy
from fitdb.model.source import Source
from fitdb.model.verdict import ToMeasure
from fitdb.rules import rulebook
from fitdb.steps.explain import Display
from fitdb.steps.explain.swap_words import (
    bound_told,
    by_tool,
    counted,
    listed,
    move_in_brief,
    move_told,
    places_of,
    reading_name,
    without_side,
)
from fitdb.steps.explain.swaps import HEADLINES, MEASURE_ONLY
from fitdb.swap import answer, stock_in

INVENTED = Source("demo_invention", "invented", "invented for a test", "")
MM, INCH = Display(), Display("inch")


def remedy(move: str = "substitute", **changed: Any) -> Remedy:
    told = {"title": "another belt", "reversible": True, "gives_up": "", "tool": "", **changed}
    return Remedy(
        "other_belt", move=move, seat="belt", stock="belt", attribute="", minutes=40, money=14, source="", **told
    )


def move(one: Remedy, *seats: str, **changed: Any) -> Move:
    part = Part("belt-280", "belt", "Belt 280 mm", {}, {}, INVENTED)
    told = {"where": "catalogue", "minutes": 40.0, "money": 14.0, **changed}
    return Move(one, tuple(Piece(seat, part) for seat in seats), "Belt 280 mm", **told)


@pytest.mark.parametrize(
    ("attribute", "at_least", "value", "unit", "display", "told"),
    [
        ("teeth", False, 41.0, "", MM, "at most 41 teeth"),
        ("series", True, 12.0, "", MM, "at least 12 cells in series"),
        ("outer_diameter", True, 99.19, "mm", MM, "outer diameter at least 99.19 mm"),
        ("outer_diameter", True, 50.8, "mm", INCH, "outer diameter at least 2.000 in"),
        ("rated_current", True, 40.0, "A", MM, "rating at least 40 A"),
    ],
)
def test_a_bound_is_told_with_its_unit_or_its_noun(
    attribute: str, at_least: bool, value: float, unit: str, display: Display, told: str
) -> None:
    assert bound_told(attribute, at_least, value, unit, display) == told


def test_a_move_says_what_where_at_what_price_and_what_it_gives_up() -> None:
    told = move_told(move(remedy(gives_up="a little pull"), "rear_left_belt", "rear_right_belt"))
    assert told == (
        "another belt: Belt 280 mm, rear left and rear right (40 min, 14 mu, to be bought). Gives up: a little pull."
    )


def test_a_move_that_replaces_what_was_asked_for_says_so() -> None:
    told = move_told(move(remedy(), "rear_left_belt", replaces_wanted=True, where="shelf"))
    assert told == (
        "another belt: Belt 280 mm, rear left (40 min, 14 mu, from your shelf). In place of the one that was asked for."
    )


def test_a_move_for_good_and_its_tool_are_told_and_another_plan_has_no_price() -> None:
    assert "(40 min, 14 mu, for good, takes a soldering iron)" in move_told(
        move(remedy("alter", reversible=False, tool="soldering_iron"), "deck", where="")
    )
    assert "(another plan)" in move_told(move(remedy(), "pack", another_plan=True))


def test_in_brief_a_part_speaks_for_itself_and_a_setting_is_named() -> None:
    assert move_in_brief(move(remedy(), "rear_left_belt")) == "Belt 280 mm"
    assert move_in_brief(move(remedy("set"), "controller")) == "another belt: Belt 280 mm"


def test_places_are_read_off_the_names_of_seats() -> None:
    assert places_of(["rear_left_belt", "rear_right_belt"]) == "rear left and rear right"
    assert places_of(["front_truck", "rear_truck"]) == "front and rear"
    assert places_of(["pack"]) == ""


@pytest.mark.parametrize(
    ("seats", "told"),
    [
        (("rear_left_motor_mount", "rear_right_motor_mount"), "rear_motor_mount.bore"),
        (("rear_left_motor_mount",), "rear_left_motor_mount.bore"),
        (("front_truck", "rear_truck"), "front_truck.bore"),
        (("pack",), "pack.bore"),
    ],
)
def test_a_reading_is_named_as_a_plan_takes_it(seats: tuple[str, ...], told: str) -> None:
    assert reading_name(ToMeasure(seats, "p", "P", "bore", "mm", 1.0, None, "caliper", "", (), ())) == told


def test_small_words() -> None:
    assert without_side("Belt line of the two pulleys, rear left") == "Belt line of the two pulleys"
    assert without_side("Shell, gasket and screws") == "Shell, gasket and screws"
    assert (by_tool("eye"), by_tool("caliper"), by_tool("feeler_gauge")) == (
        "by eye",
        "with a caliper",
        "with a feeler gauge",
    )
    assert (counted(1, "joint"), counted(2, "joint")) == ("1 joint", "2 joints")
    assert listed(["a", "b", "c"]) == "a, b and c"


def test_no_headline_promises_more_than_that_numbers_do_not_clash() -> None:
    for told in HEADLINES.values():
        assert not re.search(r"\b(safe|legal|guarantee)", told)
        assert told.endswith(".")


@pytest.fixture(scope="module")
def truck(sqlite_catalogue: tuple[Engine, Book, dict[str, list[Part]]]) -> dict[str, Any]:
    """The answer to the shipped plan of a truck: a doubt that one reading ends."""
    engine, book, _ = sqlite_catalogue
    with engine.connect() as connection:
        plan = plan_of_file(connection, book, Path(SEED) / "plans" / "river-path-truck.yaml")
        return answer(plan, book, rulebook(), stock_in(connection), Display())


def test_the_lead_counts_before_and_after_and_says_to_measure_only(truck: dict[str, Any]) -> None:
    before, asked, caution = truck["lead"]
    assert before == "Before: these numbers do not clash."
    counts = [int(number) for number in re.findall(r"\d+", asked)]
    assert counts[0] == sum(counts[1:]) == sum(joint["verdict"] != "not_asked" for joint in truck["joints"])
    assert caution == MEASURE_ONLY and truck["measuring_only"]


def test_a_reading_to_take_says_its_name_how_finely_with_what_and_what_comes_of_either_side(
    truck: dict[str, Any],
) -> None:
    first = truck["measure_first"][0]
    name, _, rest = first["sentence"].partition(": ")
    assert name == "rear_motor_mount.clamp_bore"
    assert "the bore of Motor mount of a dead board" in rest and "with a caliper" in rest
    stretches = first["outcomes"]
    assert all(one["verdict"] != other["verdict"] for one, other in itertools.pairwise(stretches))
    fits = next(one for one in stretches if one["verdict"] == "fits")
    assert f"{fits['low']:.2f} mm to {fits['high']:.2f} mm: these numbers do not clash" in rest
    told = float(re.search(r"Read it to ±([\d.]+) mm or better", rest)[1])  # type: ignore[index]
    assert 0.9 * first["settles_within"] <= told <= first["settles_within"] + 1e-9  # never coarser than what decides


@pytest.mark.parametrize("system", ["mm", "inch"])
def test_how_finely_to_read_is_never_told_coarser_than_it_has_to_be(system: str) -> None:
    for unit in ("mm", "A", "V"):
        for value in (0.0123, 0.0599, 0.06, 0.07, 0.18, 0.3, 1.26, 3.719, 27.25, 1234.0):
            number, told = Display(system).finely(value, unit).split(" ")
            read = float(number) * (25.4 if told == "in" else 1.0)
            assert 0.0 < read <= value + 1e-9, (value, unit)
            assert value - read < max(0.1 * value, 0.0254 if told == "in" else 0.0), (value, unit)


def test_cautions_of_what_is_in_doubt_come_before_those_of_what_holds(truck: dict[str, Any]) -> None:
    open_ones = {
        finding["caution"]
        for joint in truck["joints"]
        for finding in joint["findings"]
        if finding["state"] in ("fails", "undecided") and finding["caution"]
    }
    assert open_ones and set(truck["cautions"][1 : 1 + len(open_ones)]) == open_ones


def test_no_sentence_of_the_answer_names_a_seat_or_a_class_with_underscores(truck: dict[str, Any]) -> None:
    told = [*truck["lead"], truck["sentence"], truck["claim"], *(cut["title"] for cut in truck["cut_lines"])]
    told += [item["sentence"].partition(": ")[2] for item in truck["measure_first"]]
    told += [item["sentence"] for item in truck["passed_over"] + truck["beside_measure"]]
    assert [sentence for sentence in told if "_" in sentence] == []


def test_what_was_not_asked_names_the_parts_that_are_wanted_and_no_roles(truck: dict[str, Any]) -> None:
    waiting = [f for joint in truck["joints"] for f in joint["findings"] if f["state"] == "not_asked" and f["wanted"]]
    assert waiting
    for finding in waiting:
        for wanted in finding["wanted"]:
            assert wanted["classes"] and all(one.replace("_", " ") in finding["sentence"] for one in wanted["classes"])
        assert finding["sentence"].startswith("Not asked: it also needs ")

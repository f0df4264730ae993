"""Plan files with mistakes in them: each is one message at its row and column, all at once, however many there are."""

from __future__ import annotations

import time

import pytest
from small_board import keywords

from fitdb.intake.plan_files import parse_plan_file
from fitdb.model.problems import Problem


def faults(text: str) -> tuple[Problem, ...]:
    plan, problems = parse_plan_file(text, file_name="plan.yaml", **keywords())  # type: ignore[arg-type]
    assert plan is None and problems
    return problems


ONE_FAULT = [
    # text, code, row, column, and what the person needs to see
    ("board: {}", "missing_key", 1, "1", "plan: my-swap"),
    ("plan: My Swap", "bad_id", 1, "7", "a-z"),
    ("plan: a\nbord: {}", "unknown_key", 2, "1", "`board`"),
    ("plan: a\nsettings: {}", "unknown_key", 2, "1", "readings"),
    ("plan: a\n\"true\": {deck: deck-ply}", "unknown_key", 2, "1", "`on`"),
    ("plan: a\nlayout: two_wheel_blet", "unknown_layout", 2, "9", "`two_wheel_belt`"),
    ("plan: a\nlayout: qqq", "unknown_layout", 2, "9", "push_board"),
    ("plan: a\nboard: [deck]", "not_a_mapping", 2, "8", "board:"),
    ("plan: a\noff: deck", "not_a_list", 2, "6", "[one, another]"),
    ("plan: a\nboard:\n  rear_whel: wheel-83", "unknown_seat", 3, "3", "`rear_wheel`"),
    ("plan: a\nlayout: push_board\nboard:\n  belt: belt-280", "unknown_seat", 4, "3", "push_board"),
    ("plan: a\nboard:\n  wheel: wheel-38", "unknown_part", 3, "10", "`wheel-83`"),
    ("plan: a\nboard:\n  wheel:", "empty", 3, None, "leave the line out"),
    ("plan: a\nboard:\n  wheel: []", "empty", 3, "10", "leave the line out"),
    ("plan: a\nboard:\n  wheel: deck-ply", "wrong_class", 3, "10",
     "deck-ply is a deck; the seat front_left_wheel takes: wheel, tyre_wheel."),
    ("plan: a\nboard:\n  wheel: {readings: {}}", "not_a_part", 3, "10", "class"),
    ("plan: a\nboard:\n  wheel: {part: wheel-83, reading: {}}", "unknown_key", 3, "27", "`readings`"),
    ("plan: a\nboard:\n  wheel: {part: wheel-83, id: mine}", "unknown_key", 3, "27", "readings"),
    ("plan: a\nboard:\n  wheel: {class: weel}", "unknown_class", 3, "18", "`wheel`"),
    ("plan: a\nboard:\n  wheel: {class: wheel, readings: {wear: 2}}", "missing_source", 3, "36", "caliper"),
    ("plan: a\nboard:\n  wheel: {part: wheel-83, readings: {waer: 2}}", "unknown_attribute", 3, "38", "`wear`"),
    ("plan: a\nboard:\n  wheel: {part: wheel-83, readings: {window_count: 5.5}}", "not_whole", 3, "52", "5|6"),
    ("plan: a\nboard:\n  rear_riser: [riser-3, riser-3, riser-3]", "list_too_long", 3, "3", "2 seats"),
    ("plan: a\nboard:\n  rear_wheel: [wheel-83, wheel-83, wheel-83]", "list_too_long", 3, "3", "rear_right_wheel"),
    ("plan: a\nboard:\n  deck: [deck-ply, deck-ply]", "list_too_long", 3, "3", "1 seat"),
    ("plan: a\nboard:\n  deck: from old", "unknown_part", 3, "9", "only possible under `on`"),
    ("plan: a\nshelf: [{id: x, class: lead}, {id: x, class: lead}]", "duplicate_id", 2, "36", "row 2"),
    ("plan: a\noff: [deck]", "nothing_there", 2, "7", "nothing stands there"),
    ("plan: a\noff: [dekc]", "unknown_seat", 2, "7", "`deck`"),
    ("plan: a\non: {deck: from old}", "unknown_donor", 2, "12", "donors"),
    ("plan: a\ndonors: {old: {}}\non: {deck: from odl}", "unknown_donor", 3, "12", "`old`"),
    ("plan: a\ndonors: {old: {deck: deck-ply}}\non: {truck: from old}", "nothing_there", 3, "13",
     "front_truck, rear_truck"),
    ("plan: a\ndonors: {old: {rear_truck: truck-hex}}\non: {truck: from old}", "nothing_there", 3, "13",
     "nothing in front_truck"),
    ("plan: a\ndonors: {old: {deck: deck-ply}}\non: {deck: from old.dekc}", "unknown_seat", 3, "12", "`deck`"),
    ("plan: a\ndonors: {old: {deck: deck-ply}}\non: {lead: from old.lead}", "nothing_there", 3, "12", "deck"),
    ("plan: a\ndonors: {old: {deck: deck-ply}}\non: {lead: from old.deck}", "wrong_class", 3, "12", "lead"),
    ("plan: a\ndonors: {old: {front_wheel: wheel-83, rear_wheel: wheel-97}}\non: {rear_wheel: from old.wheel}",
     "which_seat", 3, "18", "rear_left_wheel"),
    ("plan: a\ndonors: {old: {deck: deck-ply}}\non: {deck: from}", "bad_donor", 3, "12", "from old_carver"),
    ("plan: a\ndonors: {Old One: {deck: deck-ply}}", "bad_id", 2, "10", "old_carver"),
    ("plan: a\ndonors: {old: deck-ply}", "not_a_mapping", 2, "15", "rear_truck"),
    ("plan: a\nstock: [{part: lead-red, money: -1}]", "impossible_value", 2, "33", "0"),
    ("plan: a\nstock: [{part: lead-red, money: 3 euro}]", "not_a_number", 2, "33", "bare number"),
    ("plan: a\nshelf: [{part: lead-red, money: 3}]", "unknown_key", 2, "26", "readings"),
    ("plan: a\nbuy: catalog", "unknown_word", 2, "6", "`catalogue`"),
    ("plan: a\nrider: {mas: 82}", "unknown_attribute", 2, "9", "`mass`"),
    ("plan: a\nrider: {mass: 900 kg}", "impossible_value", 2, "15", "250"),
    ("plan: a\nrider: deck-ply", "wrong_class", 2, "8", "deck"),
    ("plan: a\nboard: {rider: rider-80}\nrider: {mass: 80}", "seat_taken", 3, "8", "board"),
    ("plan: a\nroute: {surface: rough}", "unknown_word", 2, "18", "coarse"),
    ("plan: a\nwish: {ratoi: {target: 3}}", "unknown_wish", 2, "8", "`ratio`"),
    ("plan: a\nwish: {ratio: {targte: 3}}", "unknown_key", 2, "16", "`target`"),
    ("plan: a\nwish: {ratio: 3}", "target_or_floor", 2, "15", "floor"),
    ("plan: a\nwish: {ratio: {target: 2.41, floor: 2.93}}", "below_floor", 2, "8", "2.93"),
    ("plan: a\nwish: {speed: {floor: 25 mph}, speed_ceiling: 30 km/h}", "below_floor", 2, "8", "ceiling"),
    ("plan: a\nwish: 3", "not_a_mapping", 2, "7", "ratio"),
    ("plan: a\ntools: [dril]", "unknown_tool", 2, "9", "`drill`"),
    ("plan: a\nkeep_as_is: [dekc]", "unknown_seat", 2, "14", "`deck`"),
    ("plan: a\nmost_moves: 13", "impossible_value", 2, "13", "1 to 12"),
    ("plan: a\nmost_moves: 2.5", "impossible_value", 2, "13", "whole"),
    ("plan: a\nreadings: {deck: 3}", "bad_assignment", 2, "12", "rear_left_wheel.window_width"),
    ("plan: a\nreadings: {dekc.length: 3}", "unknown_seat", 2, "12", "`deck`"),
    ("plan: a\nreadings: {deck.length: 3}", "which_role", 2, "25", "no part here"),
    ("plan: a\nboard: {deck: deck-ply}\nreadings: {deck.lenght: 3}", "unknown_attribute", 3, "25", "`length`"),
    ("plan: a\nboard: {deck: deck-ply}\nreadings: {deck.core.length: 3}", "unknown_port", 3, "30", "core"),
    ("plan: a\nboard: {deck: deck-ply}\nreadings: {deck.length: 3 V}", "other_dimension", 3, "25", "mm"),
    ("plan: a\nboard: {deck: deck-ply}\nreadings: {deck.length: [3]}", "not_a_reading", 3, "25", "one value"),
    ("plan: a\nlimits: {wheel_bite.clearence.low: 2}", "unknown_limit", 2, "10", "clearance"),
    ("plan: a\nlimits: {wheel_bite.clearance.low: 2 mm}", "not_a_number", 2, "36", "bare number"),
    ("[1]", "not_a_mapping", 1, "1", "plan:"),
    ("", "empty", None, "", "plan:"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "code", "row", "column", "named"), ONE_FAULT)
def test_one_fault_gives_one_message(text: str, code: str, row: int | None, column: str | None, named: str) -> None:
    (problem,) = faults(text)
    assert (problem.code, problem.row) == (code, row), str(problem)
    assert column in (None, problem.column), str(problem)
    assert named in f"{problem.message} {problem.hint}", str(problem)
    assert problem.file == "plan.yaml"


def test_every_fault_is_named_at_once_and_in_order() -> None:
    problems = faults(
        "plan: a\nbord: {}\nboard:\n  wheel: wheel-38\n  dekc: deck-ply\noff: [truck]\n"
        "on: {belt: deck-ply}\nwish: {ratio: {target: 1, floor: 2}}\ntools: [dril]\nmost_moves: 0\n"
    )
    assert [(one.code, one.row) for one in problems] == [
        ("unknown_key", 2), ("unknown_part", 4), ("unknown_seat", 5), ("nothing_there", 6), ("wrong_class", 7),
        ("below_floor", 8), ("unknown_tool", 9), ("impossible_value", 10),
    ]  # fmt: skip


def test_a_part_that_cannot_be_read_leaves_no_empty_seat_behind() -> None:
    """One mistake, one message: what depends on the faulty part is not called missing."""
    problems = faults(
        "plan: a\nboard: {deck: dekc-ply}\ndonors: {old: {truck: truck-hxe}}\noff: [deck]\n"
        "on: {truck: from old}\nreadings: {deck.length: 900}\n"
    )
    assert [one.code for one in problems] == ["unknown_part", "unknown_part"]


def test_with_an_unknown_layout_the_parts_are_checked_all_the_same() -> None:
    problems = faults("plan: a\nlayout: qqq\nboard: {deck: dekc-ply}\nmost_moves: 0\n")
    assert [one.code for one in problems] == ["unknown_layout", "unknown_part", "impossible_value"]


def test_ten_thousand_parts_are_one_fault_and_quickly_told() -> None:
    text = "plan: a\nshelf:\n" + "".join(f"- wheel-{number}\n" for number in range(10_000))
    started = time.perf_counter()
    (problem,) = faults(text)
    assert time.perf_counter() - started < 3.0
    assert problem.code == "too_many_parts" and "10000" in problem.message and "2000" in problem.message


@pytest.mark.parametrize(
    "text",
    [
        "plan: a\nshelf:\n" + "".join(f"- wheel-x{number}\n" for number in range(2000)),
        "plan: a\nboard:\n" + "".join(f"  whele-{number}: wheel-83\n" for number in range(2000)),
        "plan: a\noff:\n" + "".join(f"- rear_whele-{number}\n" for number in range(40_000)),
        "plan: a\nreadings:\n" + "".join(f"  rear_whele-{number}.wear: 2\n" for number in range(20_000)),
    ],
)
def test_a_file_full_of_faults_is_told_in_bearable_time(text: str) -> None:
    started = time.perf_counter()
    assert len(faults(text)) >= 2000
    assert time.perf_counter() - started < 10.0

"""Plan files: which part ends up in which seat before and after, and every fault at its place."""

from __future__ import annotations

import copy
import json
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_board import PARTS, decoded, keywords

from fitdb.intake.plan_files import parse_plan_document, parse_plan_file, plan_file_schema
from fitdb.model.part import Part
from fitdb.model.plan import StockItem, SwapPlan
from fitdb.model.problems import Problem
from fitdb.model.reading import Number

WHOLE = """\
plan: softer-wheels
title: Softer wheels on the old board
board:
  deck: deck-ply
  wheel: {part: wheel-83, readings: {wear: 2 mm}}
  front_wheel: {id: my-wheel, class: wheel, source: caliper, readings: {outer_diameter: 90 mm}}
  riser: [riser-6, riser-3]
  truck: truck-old
  belt: belt-280
donors:
  old_carver: {rear_truck: truck-hex, lead: [lead-red, lead-black]}
off: [belt]
on:
  rear_wheel: wheel-97
  rear_truck: from old_carver
  lead: from old_carver.lead_2
shelf: [belt-280, {part: riser-6}]
stock: [{part: riser-3, money: 18}, wheel-97]
buy: listed
rider: {mass: 82 kg}
route: {slope: 8 percent}
wish: {ratio: {target: 2.93, floor: 2.41}, speed: {floor: 25 km/h}, speed_ceiling: 30 km/h}
tools: [hex keys, file, drill]
keep_as_is: [deck, riser]
most_moves: 7
readings: {rear_left_wheel.window_width: 9.0 +-0.1 mm, front_wheel.core.window_count: 5}
limits: {wheel_bite.clearance.low: 2}
"""


def parsed(text: str) -> tuple[SwapPlan | None, tuple[Problem, ...]]:
    return parse_plan_file(text, file_name="plan.yaml", **keywords())  # type: ignore[arg-type]


def planned(text: str) -> SwapPlan:
    plan, problems = parsed(text)
    assert problems == () and plan is not None, [str(problem) for problem in problems]
    return plan


def faults(text: str) -> tuple[Problem, ...]:
    plan, problems = parsed(text)
    assert plan is None and problems
    return problems


def before(plan: SwapPlan) -> dict[str, Part]:
    return {piece.seat: piece.part for piece in plan.before}


def after(plan: SwapPlan) -> dict[str, Part]:
    return {piece.seat: piece.part for piece in plan.after}


def ids(filled: dict[str, Part]) -> dict[str, str]:
    return {seat: part.id for seat, part in filled.items()}


def test_a_whole_plan() -> None:
    plan = planned(WHOLE)
    assert (plan.id, plan.title, plan.pattern) == (
        "softer-wheels",
        "Softer wheels on the old board",
        "two_wheel_belt",
    )
    assert ids(before(plan)) == {
        "deck": "deck-ply", "front_truck": "truck-old", "rear_truck": "truck-old",
        "front_riser": "riser-6", "rear_riser": "riser-6", "front_riser_2": "riser-3", "rear_riser_2": "riser-3",
        "front_left_wheel": "my-wheel", "front_right_wheel": "my-wheel",
        "rear_left_wheel": "wheel-83", "rear_right_wheel": "wheel-83",
        "rear_left_belt": "belt-280", "rear_right_belt": "belt-280",
        "rider": "rider", "route": "route", "wish": "wish",
    }  # fmt: skip
    changed = {"rear_truck": "truck-hex", "rear_left_wheel": "wheel-97", "rear_right_wheel": "wheel-97",
               "lead": "lead-black"}  # fmt: skip
    expected = {**ids(before(plan)), **changed}
    assert ids(after(plan)) == {seat: part for seat, part in expected.items() if not seat.endswith("_belt")}
    assert [(item.part.id, item.where, item.money) for item in plan.stock] == [
        ("belt-280", "shelf", 0.0),
        ("riser-6", "shelf", 0.0),
        ("lead-red", "donor old_carver", 0.0),  # truck and second lead have gone to the board
        ("riser-3", "stock", 18.0),
        ("wheel-97", "stock", None),
    ]
    assert [item.owned for item in plan.stock] == [True, True, True, False, False]
    assert not plan.buys and plan.most_moves == 7 and plan.limits == {"wheel_bite.clearance.low": 2.0}
    assert plan.untouchable == {"deck", "front_riser", "rear_riser", "front_riser_2", "rear_riser_2"}
    assert plan.tools == {"hex_keys", "file", "drill"}
    assert [(one.role, one.port, one.attribute, one.typed) for one in plan.readings] == [
        ("rear_left_wheel", "", "window_width", "9.0 +-0.1 mm"),
        ("front_wheel", "core", "window_count", "5"),
    ]


def test_pieces_stand_in_the_order_of_the_seats_and_kept_ones_are_the_same() -> None:
    plan = planned(WHOLE)
    order = list(keywords()["patterns"]["two_wheel_belt"].seats)  # type: ignore[index]
    for pieces in (plan.before, plan.after):
        assert [piece.seat for piece in pieces] == [seat for seat in order if seat in {p.seat for p in pieces}]
    kept = {piece.seat: piece for piece in plan.before}
    for piece in plan.after:
        if piece.seat in ("deck", "front_left_wheel", "rear_riser_2", "rider", "wish"):
            assert piece is kept[piece.seat]
    # One id is one part: left and right, on the board and on the shelf.
    filled = before(plan)
    assert filled["rear_left_belt"] is filled["rear_right_belt"] is plan.stock[0].part
    assert after(plan)["rear_left_wheel"] is plan.stock[4].part


def test_readings_of_ones_own_leave_it_the_same_part() -> None:
    wheel = before(planned(WHOLE))["rear_left_wheel"]
    original = PARTS["wheel-83"]
    wear = wheel.readings["wear"]
    assert (wheel.id, wheel.title, wheel.part_class, wheel.source) == (
        original.id, original.title, original.part_class, original.source
    )  # fmt: skip
    assert isinstance(wear, Number) and (wear.nominal, wear.low, wear.source.kind) == (2.0, 1.9, "caliper")
    assert wheel.readings["outer_diameter"] == original.readings["outer_diameter"]
    assert wheel.ports == original.ports


def test_what_is_stated_has_no_spread() -> None:
    filled = after(planned(WHOLE))
    mass, ratio = filled["rider"].readings["mass"], filled["wish"].readings["ratio_target"]
    assert isinstance(mass, Number) and mass.low == mass.nominal == mass.high == 82.0
    assert isinstance(ratio, Number) and ratio.nominal == 2.93
    assert set(filled["wish"].readings) == {"ratio_target", "ratio_floor", "speed_floor", "speed_ceiling"}
    assert set(filled["route"].readings) == {"slope"}


def test_a_new_build_has_no_before() -> None:
    plan = planned("{plan: new, on: {deck: deck-ply, wheel: wheel-97}, rider: rider-80}")
    assert plan.before == () and plan.title == "new"
    assert ids(after(plan))["rider"] == "rider-80"
    assert plan.buys and plan.tools is None and plan.most_moves == 9 and plan.untouchable == frozenset()


def test_the_shortest_plan_asks_nothing() -> None:
    plan = planned("plan: a\nboard:\ndonors:\noff:\non:\nshelf:\nstock:\ntools:\nreadings:\nlimits:\nrider:\nwish:\n")
    assert plan.before == plan.after == () and plan.stock == () and plan.tools is None


def test_the_narrowest_name_wins_whatever_comes_first() -> None:
    for text in ("{rear_left_wheel: tyre-150, rear_wheel: wheel-83, wheel: wheel-97}",
                 "{wheel: wheel-97, rear_wheel: wheel-83, rear_left_wheel: tyre-150}"):  # fmt: skip
        filled = ids(before(planned(f"{{plan: a, board: {text}}}")))
        assert list(filled.values()) == ["wheel-97", "wheel-97", "tyre-150", "wheel-83"]


def test_two_names_of_equal_width_for_one_seat() -> None:
    text = "plan: a\nboard:\n  rear_wheel: wheel-83\n  left_wheel: wheel-97\n"
    (problem,) = faults(text)
    assert (problem.code, problem.row, problem.column) == ("seat_taken", 4, "3")
    assert "rear_left_wheel" in problem.message and "`rear_wheel` (row 3)" in problem.message
    assert "rear_left_wheel" in problem.hint
    # Naming the seat itself settles it, and the same part twice is no quarrel.
    assert planned(text + "  rear_left_wheel: tyre-150\n")
    assert planned("{plan: a, board: {rear_wheel: wheel-83, left_wheel: wheel-83}}")


def test_lists_fill_rows_or_seats_side_by_side() -> None:
    filled = ids(before(planned("{plan: a, board: {rear_riser: [riser-3, riser-6], lead: [lead-red, lead-black]}}")))
    assert filled == {"lead": "lead-red", "lead_2": "lead-black", "rear_riser": "riser-3", "rear_riser_2": "riser-6"}
    filled = ids(before(planned("{plan: a, board: {wheel: [wheel-83, wheel-97, wheel-83]}}")))
    assert filled == {
        "front_left_wheel": "wheel-83", "front_right_wheel": "wheel-97", "rear_left_wheel": "wheel-83"
    }  # fmt: skip


def test_a_part_is_written_once_and_named_elsewhere() -> None:
    plan = planned("{plan: a, board: {front_wheel: mine}, shelf: [{id: mine, class: wheel}, {part: mine}]}")
    assert before(plan)["front_left_wheel"] is plan.stock[0].part is plan.stock[1].part


def test_parts_without_an_id_are_called_after_their_seat() -> None:
    plan = planned("{plan: a, board: {front_wheel: {class: wheel}}, on: {front_wheel: {class: tyre_wheel}}}")
    assert before(plan)["front_left_wheel"].id == "front_wheel"
    assert after(plan)["front_left_wheel"].id == "front_wheel-2"


def test_donors() -> None:
    donor = "donors: {old: {riser: [riser-6, riser-3], wheel: wheel-83, rear_wheel: wheel-97}}"
    plan = planned(f"{{plan: a, {donor}, on: {{rear_riser: from old, riser_2: from old.front_riser}}}}")
    assert ids(after(plan)) == {
        "front_riser_2": "riser-6", "rear_riser": "riser-6", "rear_riser_2": "riser-6"
    }  # fmt: skip
    # A name takes the second riser along where the donor has one.
    assert len(after(planned(f"{{plan: a, {donor}, on: {{riser: from old}}}}"))) == 4
    plan = planned(f"{{plan: a, {donor}, on: {{rear_wheel: from old}}}}")
    assert [item.part.id for item in plan.stock if item.where == "donor old"] == ["riser-6", "riser-3", "wheel-83"]
    assert all(item.owned and item.money == 0.0 for item in plan.stock)
    assert isinstance(plan.stock[0], StockItem)


@pytest.mark.parametrize(
    ("belt", "agrees"),
    # ISO 5296: the pitch length of a synchronous belt is its number of teeth times the pitch. 57 x 5 mm = 285 mm.
    [
        ("{part: belt-280, readings: {teeth: 57}}", False),
        ("{part: belt-280, readings: {teeth: 57, length: 285 mm}}", True),
        ("{part: belt-280, readings: {length: 282.8 mm}}", True),  # within one per cent
        ("{part: belt-280, readings: {length: 283 mm}}", False),  # 3 of 283 is more than one per cent
        ("{part: belt-280, readings: {teeth: 56|57}}", True),  # one of the counts agrees
        ("{part: belt-280, readings: {length: 300 mm, teeth: unknown}}", True),  # nobody counted
        ("{class: belt, source: counted, readings: {teeth: 72, tooth_pitch: 5, length: 355 mm}}", False),
        ("{class: belt, source: counted, readings: {teeth: 72, tooth_pitch: 5, length: 360 mm}}", True),
        ("{class: belt, source: counted, readings: {length: 355 mm}}", True),
    ],
)
def test_a_length_that_its_teeth_contradict(belt: str, agrees: bool) -> None:
    _, problems = parsed(f"{{plan: a, board: {{belt: {belt}}}}}")
    assert [problem.code for problem in problems] == ([] if agrees else ["contradiction"])


def test_a_reading_of_ones_own_may_contradict_too() -> None:
    (problem,) = faults("plan: a\nboard: {belt: belt-280}\nreadings:\n  rear_left_belt.teeth: 60\n")
    assert (problem.code, problem.row, problem.column) == ("contradiction", 4, "25")
    assert "280 mm" in problem.message and "300 mm" in problem.message


def test_decoded_json_says_the_same() -> None:
    data = decoded(WHOLE)
    plan, problems = parse_plan_document(data, **keywords())  # type: ignore[arg-type]
    text_plan = planned(WHOLE)
    assert problems == () and plan is not None
    assert ids(before(plan)) == ids(before(text_plan)) and ids(after(plan)) == ids(after(text_plan))
    assert plan.limits == text_plan.limits and plan.most_moves == 7
    assert planned(json.dumps(data)).stock == text_plan.stock
    data["board"]["wheel"] = "wheel-38"
    plan, problems = parse_plan_document(data, **keywords())  # type: ignore[arg-type]
    assert plan is None and [(one.code, one.path, one.row) for one in problems] == [
        ("unknown_part", "/board/wheel", None)
    ]


def test_the_schema_is_one_and_agrees_with_the_reader() -> None:
    schema = plan_file_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    data = decoded(WHOLE)
    validator.validate(data)
    validator.validate({"plan": "a", "board": None, "off": None, "rider": "rider-80"})
    wrong: list[tuple[str, Any]] = [
        ("bord", {}), ("plan", "My Swap"), ("board", []), ("off", "deck"), ("buy", "catalog"), ("most_moves", 13),
        ("most_moves", 2.5), ("shelf", [{"part": "lead-red", "money": 3}]), ("limits", {"a.low": "2 mm"}),
        ("stock", [{"part": "lead-red", "money": -1}]), ("on", {"deck": "from Old One"}), ("wish", 3),
        ("board", {"wheel": {"part": "wheel-83", "reading": {}}}), ("board", {"wheel": {"readings": {}}}),
        ("board", {"wheel": {"part": "wheel-83", "id": "mine"}}), ("donors", {"Old One": {}}), ("board", {"wheel": []}),
        ("readings", {"deck": 3}), ("board", {"wheel": "from old_carver"}),
    ]  # fmt: skip
    for key, value in wrong:
        changed = {**copy.deepcopy(data), key: value}
        assert not validator.is_valid(changed), (key, value)
        plan, problems = parse_plan_document(changed, **keywords())  # type: ignore[arg-type]
        assert plan is None and problems, (key, value)


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8) | st.sampled_from(sorted(PARTS)),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)
NAMES = ("deck", "wheel", "rear_wheel", "riser", "part", "class", "readings", "id", "money", "ratio", "old", "source")
ODD = st.dictionaries(
    st.sampled_from(list(plan_file_schema()["properties"])),
    st.recursive(
        JSON | st.sampled_from(["from old", "from old.wheel", "deck", "deck.length", "wheel", "8 mm"]),
        lambda inner: st.dictionaries(st.sampled_from(NAMES), inner, max_size=4) | st.lists(inner, max_size=3),
        max_leaves=15,
    ),
)


VALIDATOR = jsonschema.Draft202012Validator(plan_file_schema())


@settings(max_examples=300, deadline=None)
@given(ODD)
def test_whatever_is_handed_in_is_a_plan_or_faults(data: Any) -> None:
    plan, problems = parse_plan_document({"plan": "a", **data}, **keywords())  # type: ignore[arg-type]
    assert (plan is None) == bool(problems)
    assert all(problem.message and problem.code for problem in problems)
    assert plan is None or VALIDATOR.is_valid({"plan": "a", **data})  # what is read is what the schema describes

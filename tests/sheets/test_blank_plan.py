"""The blank plan of a layout is a plan without a fault, as it stands and with its lines put to use."""

from __future__ import annotations

import re

import jsonschema
import pytest
from small_board import LAYOUTS, TABLE, decoded, keywords

from fitdb.intake.plan_files import parse_plan_file, plan_file_schema, plan_keys
from fitdb.model.plan import SwapPlan
from fitdb.sheets.blank_plan import blank_plan

EXAMPLES = {"wheel": "wheel-83", "deck": "deck-ply"}


def planned(text: str) -> SwapPlan:
    plan, problems = parse_plan_file(text, file_name="plan.yaml", **keywords())  # type: ignore[arg-type]
    assert problems == () and plan is not None, [str(problem) for problem in problems]
    return plan


@pytest.mark.parametrize("layout", ["two_wheel_belt", "push_board"])
def test_as_it_stands_it_asks_nothing(layout: str) -> None:
    text = blank_plan(LAYOUTS[layout], TABLE, EXAMPLES)
    plan = planned(text)
    assert plan.pattern == layout and plan.before == () and plan.after == ()
    jsonschema.Draft202012Validator(plan_file_schema()).validate(decoded(text))
    assert max(len(line) for line in text.splitlines()) <= 120


@pytest.mark.parametrize("examples", [None, EXAMPLES])
def test_every_seat_line_can_be_put_to_use(examples: dict[str, str] | None) -> None:
    board = LAYOUTS["two_wheel_belt"]
    used = re.sub(r"(?m)^  # (?=[a-z0-9_]+: [^…]*$|- )", "  ", blank_plan(board, TABLE, examples))
    plan = planned(used)
    stated = {"rider", "route", "wish"}
    assert {piece.seat for piece in plan.before} == set(board.seats) - stated
    assert plan.stock and plan.tools == {"hex_keys"} and plan.untouchable == {"deck"}


def test_it_names_every_key_every_class_and_every_seat() -> None:
    board = LAYOUTS["two_wheel_belt"]
    text = blank_plan(board, TABLE, EXAMPLES)
    assert all(re.search(rf"(?m)^(# )?{key}:", text) for key in plan_keys())
    words = set(re.findall(r"[a-z0-9_]+", text))
    for seat in board.seats.values():
        assert set(seat.classes) <= words
        if seat.id not in ("rider", "route", "wish"):
            base, *others = (*seat.names, seat.id)
            assert re.search(rf"(?m)^  # {base}: ", text)
            assert {other.removesuffix(base) for other in others} - {""} <= words
    assert "  # Also with front_ or rear_ before the name:\n  # truck: " in text
    assert "ratio: {target: …, floor: …}" in text and "speed: {target: …, floor: …, ceiling: …}" in text

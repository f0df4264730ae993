"""A person's own readings: on one piece or on all that bear a name, and kept pieces stay one and the same."""

from __future__ import annotations

import pytest
from small_board import LAYOUTS, PARTS, TABLE, keywords

from fitdb.intake.own_readings import plan_with_own_readings, with_own_readings
from fitdb.intake.plan_files import parse_plan_file
from fitdb.model.joint import Piece
from fitdb.model.plan import OwnReading, SwapPlan
from fitdb.model.problems import Malformed
from fitdb.model.reading import Count, Number

BOARD = LAYOUTS["two_wheel_belt"]
WHEELS = tuple(Piece(f"{place}_wheel", PARTS["wheel-83"]) for place in ("front_left", "front_right", "rear_left"))
DECK = Piece("deck", PARTS["deck-ply"])


def own(role: str, attribute: str, typed: object, port: str = "") -> OwnReading:
    return OwnReading(role, attribute, typed, "/reading/0", port)


def read(*readings: OwnReading, several: bool = True) -> tuple[Piece, ...]:
    return with_own_readings((*WHEELS, DECK), readings, BOARD, TABLE, {}, several)


def test_a_name_of_several_seats_reaches_them_all_and_identical_parts_stay_one() -> None:
    left, right, rear, deck = read(own("wheel", "wear", "2 mm"))
    wear = left.part.readings["wear"]
    assert isinstance(wear, Number) and wear.nominal == 2.0 and wear.source.kind == "caliper"
    assert left.part is right.part is rear.part and left.part is not PARTS["wheel-83"]
    assert deck is DECK
    left, right, rear, _ = read(own("front_wheel", "wear", "2 mm"), own("wheel", "outer_diameter", "82 mm"))
    assert left.part is right.part and rear.part is not left.part
    assert "wear" not in rear.part.readings and rear.part.readings["outer_diameter"].entered == "82 mm"


def test_one_piece_is_wanted_unless_several_are_allowed() -> None:
    with pytest.raises(Malformed) as raised:
        read(own("wheel", "wear", "2 mm"), own("trcuk", "wear", "2"), own("deck", "lenght", "3"), several=False)
    assert [problem.code for problem in raised.value.problems] == ["which_role", "which_role", "unknown_attribute"]
    assert "several parts" in raised.value.problems[0].message and "no part" in raised.value.problems[1].message
    assert read(own("rear_left_wheel", "wear", "2"), several=False)[2].part.readings["wear"]


def test_a_port_may_be_named() -> None:
    wheel = read(own("rear_left_wheel", "window_count", "5", "core"))[2].part
    count = wheel.ports["core"].readings["window_count"]
    assert isinstance(count, Count) and count.nominal == 5
    assert wheel.ports["core"].signature != PARTS["wheel-83"].ports["core"].signature
    with pytest.raises(Malformed) as raised:
        read(own("rear_left_wheel", "window_count", "5", "coer"), own("deck", "length", "3", "core"))
    assert [(one.code, one.hint) for one in raised.value.problems] == [
        ("unknown_port", "Did you mean `core`?"),
        ("unknown_port", "Its ports: none."),
    ]
    with pytest.raises(Malformed) as raised:
        read(own("rear_left_wheel", "wear", "5", "core"))  # an attribute of the wheel itself
    assert raised.value.problems[0].code == "unknown_attribute"


def plan(text: str) -> SwapPlan:
    found, problems = parse_plan_file(text, file_name="plan.yaml", **keywords())  # type: ignore[arg-type]
    assert found is not None, problems
    return found


def test_a_plan_read_before_and_after() -> None:
    asked = plan(
        "{plan: a, board: {wheel: wheel-83, deck: deck-ply, belt: belt-280}, on: {rear_wheel: wheel-97}, off: [belt], "
        "readings: {wheel.wear: 2 mm, belt.length: 281 mm}}"
    )
    done = plan_with_own_readings(asked, BOARD, TABLE, {})
    before, after = ({piece.seat: piece for piece in pieces} for pieces in (done.before, done.after))
    # A wheel that is kept stays one and the same, left and right, before and after.
    assert before["front_left_wheel"] is after["front_left_wheel"]
    assert before["front_left_wheel"].part is before["front_right_wheel"].part
    assert after["rear_left_wheel"].part.readings["wear"] and after["front_left_wheel"].part.readings["wear"]
    # What comes off where something comes in was not read; what comes off for good was.
    assert "wear" not in before["rear_left_wheel"].part.readings
    assert before["rear_left_belt"].part.readings["length"].entered == "281 mm"
    assert before["deck"] is after["deck"] and before["deck"].part is asked.before[0].part
    nothing = plan("{plan: a, board: {deck: deck-ply}}")
    assert plan_with_own_readings(nothing, BOARD, TABLE, {}) is nothing

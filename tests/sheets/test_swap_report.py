"""The answer to a swap plan on a terminal: short enough to read, nothing said twice, what is left out is named."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest

from fitdb.sheets.swap_report import bill_text, comparison_report, shelf_report, swap_report

LONG = "Road to the rim of the driven pulley, rider on the board is 3.80 mm; wanted: at least 8.00 mm."


def finding(state: str, **changed: Any) -> dict[str, Any]:
    return {
        "state": state,
        "rule": "pulley_ground.stones_pass",
        "question": "Do stones pass under the pulley?",
        "sentence": f"{state.capitalize()}: {LONG} Read it with a caliper, in three places, rider on the board.",
        "value": {"text": "3.80 mm"},
        "limit": {"text": "at least 8.00 mm"},
        **changed,
    }


def joint(verdict: str, title: str, *findings: dict[str, Any]) -> dict[str, Any]:
    return {"number": "J18", "title": title, "verdict": verdict, "findings": list(findings)}


def cure(*moves: str, verdict: str = "fits_with", doubts: int = 0) -> dict[str, Any]:
    return {
        "verdict": verdict,
        "sentence": f"{'; then '.join(moves)} (60 min, 35 mu).",
        "moves": [{"sentence": told} for told in moves],
        "cost": {"minutes": 60.0, "money_mu": 35.0, "new_undecided": doubts},
        "bill": [],
    }


def reading(name: str, *verdicts: str) -> dict[str, Any]:
    outcomes = [{"verdict": verdict} for verdict in verdicts]
    return {"sentence": f"{name}: the size of the truck. Read it with a caliper.", "outcomes": outcomes}


def told(**changed: Any) -> dict[str, Any]:
    lists = (
        "conflicts remedies other_remedies passed_over instead measure_first beside_measure cut_lines waiting joints"
    )
    empty: dict[str, Any] = {key: [] for key in (*lists.split(), "as_it_stood")}
    return {
        **empty,
        "plan": {"id": "mine"},
        "verdict": "clash",
        "sentence": "As asked it clashes.",
        "lead": ["Before: these numbers do not clash.", "As asked: of 3 joints that it touches 1 clashes, 2 hold."],
        "claim": "",
        "cautions": ["It cannot see wear."],
        "catalogue_revision": "r1",
        "rulebook_stamp": "s1",
        "date": "2026-01-02",
        **changed,
    }


def test_the_verdict_comes_first_and_the_stamp_last() -> None:
    lines = swap_report(told()).splitlines()
    assert lines[0] == "CLASH. As asked it clashes."
    assert lines[-1] == "Catalogue r1, rulebook s1, 2026-01-02."


def test_both_sides_of_a_board_are_told_once() -> None:
    joints = [joint("clash", f"Pulley above the ground, rear {side}", finding("fails")) for side in ("left", "right")]
    text = swap_report(told(joints=[*joints, joint("fits", "Play of the wheel, rear left", finding("holds"))]))
    assert "J18 Pulley above the ground, rear left and rear right: clash" in text
    assert text.count("Do stones pass under the pulley?") == 1
    assert "Joints that the swap touches: 3; as asked 1 of them holds." in text
    assert "Play of the wheel" not in text


def test_sides_that_differ_are_told_apart() -> None:
    left, right = finding("fails"), finding("fails", value={"text": "5.10 mm"})
    text = swap_report(
        told(joints=[joint("clash", "Pulley, rear left", left), joint("clash", "Pulley, rear right", right)])
    )
    assert "Pulley, rear left: clash" in text and "Pulley, rear right: clash" in text
    assert "3.80 mm" in text and "5.10 mm" in text


def test_a_comma_in_a_title_is_no_side() -> None:
    text = swap_report(told(joints=[joint("clash", "Shell, gasket and screws", finding("fails"))]))
    assert "J18 Shell, gasket and screws: clash" in text


def test_in_short_a_doubt_keeps_its_numbers_and_leaves_the_how_to_the_readings_above() -> None:
    doubt = joint("measure", "Clamp, rear left", finding("undecided"))
    short, full = (" ".join(swap_report(told(joints=[doubt]), full=full).split()) for full in (False, True))
    assert "3.80 mm; wanted: at least 8.00 mm." in short and "in three places" not in short
    assert "in three places" in full


def test_a_finding_in_words_keeps_its_sentence() -> None:
    words = finding("undecided", value=None, sentence="Cannot tell: nobody has read the polarity.")
    assert "nobody has read the polarity" in swap_report(told(joints=[joint("measure", "Plugs", words)]))


@pytest.mark.parametrize("key", ["conflicts", "passed_over", "cut_lines"])
def test_what_is_left_out_is_counted_and_full_tells_it(key: str) -> None:
    answer = told(**{key: [{"sentence": f"item {n}"} for n in range(9)]})
    short = swap_report(answer)
    left = 9 - short.count("item ")
    assert left > 0 and f"… and {left} more: --full tells all" in short
    assert all(f"item {n}" in swap_report(answer, full=True) for n in range(9))


def test_cautions_left_out_are_counted_too() -> None:
    answer = told(cautions=[f"caution {n}" for n in range(7)])
    assert "… and 2 more: --full tells all" in swap_report(answer)
    assert "caution 6" in swap_report(answer, full=True)


def test_the_remedies_are_numbered_in_their_order_and_summed() -> None:
    text = swap_report(told(verdict="fits_with", remedies=[cure("another pulley", "another belt")]))
    assert text.index("1. another pulley") < text.index("2. another belt")
    assert "Together about 60 min and 35 mu (1 mu is about one euro or dollar)." in text


def test_one_remedy_is_not_told_together() -> None:
    assert "     About 60 min and 35 mu" in swap_report(told(remedies=[cure("another pulley")]))


def test_other_ways_say_how_they_end_and_what_doubts_they_bring() -> None:
    others = [cure("a", doubts=3, verdict="measure"), cure("b", doubts=1, verdict="measure"), cure("c"), cure("d")]
    text = swap_report(told(remedies=[cure("best")], other_remedies=others))
    assert "a (60 min, 35 mu). It brings 3 new doubts." in text and "It brings 1 new doubt." in text
    assert "… and 2 more: --full tells all" in text
    full = swap_report(told(remedies=[cure("best")], other_remedies=others), full=True)
    assert "c (60 min, 35 mu). Then these numbers do not clash." in full


def test_readings_that_decide_come_in_full_and_those_that_only_narrow_by_name() -> None:
    items = [reading("rear_truck.size_a", "clash", "fits"), reading("rear_truck.draft", "measure", "measure")]
    text = swap_report(told(verdict="measure", measure_first=items))
    assert "1. rear_truck.size_a: the size of the truck." in text
    assert "If that is not enough, these narrow it further: rear_truck.draft." in text
    assert "2. rear_truck.draft: the size" in swap_report(told(verdict="measure", measure_first=items), full=True)


def test_where_no_single_reading_decides_all_are_told_in_full() -> None:
    items = [reading(f"truck.size_{n}", "measure", "measure") for n in "ab"]
    text = swap_report(told(verdict="measure", measure_first=items))
    assert "1. truck.size_a: the size" in text and "2. truck.size_b: the size" in text


def test_a_reading_without_outcomes_is_told_in_full() -> None:
    assert "1. truck.outline: the size" in swap_report(told(measure_first=[reading("truck.outline")]))


def test_what_stood_wrong_before_is_told_apart_and_once() -> None:
    stood = [{"number": "J54", "title": "Wires", "verdict": "measure"}] * 2
    stood.append({"number": "J55", "title": "Fuse", "verdict": "fits"})
    text = swap_report(told(as_it_stood=stood))
    assert text.count("J54 Wires: measure first") == 1 and "Fuse" not in text


def test_nothing_is_wider_than_the_terminal() -> None:
    answer = told(
        conflicts=[{"sentence": LONG * 4}],
        remedies=[cure(LONG, LONG)],
        measure_first=[reading("rear_truck.size_a", "clash", "fits")],
        joints=[joint("clash", "Pulley above the ground, with a title that is long, rear left", finding("fails"))],
    )
    for width in (60, 80):
        assert max(len(line) for line in swap_report(answer, width).splitlines()) <= width


def test_the_bill_is_a_table_with_units_in_its_headings() -> None:
    line = {
        "part": "belt-285",
        "title": "Belt, 285 mm",
        "count": 2,
        "money_mu": 14.0,
        "where": "catalogue",
        "neighbours": [{"value": 280.0, "unit": "mm"}, {"value": 290.0, "unit": "mm"}],
    }
    rows = list(csv.reader(io.StringIO(bill_text(told(remedies=[{**cure("belt"), "bill": [line]}])))))
    assert rows[0] == ["part", "title", "count", "money [mu]", "where", "neighbours", "neighbour unit"]
    assert rows[1] == ["belt-285", "Belt, 285 mm", "2", "14", "catalogue", "280 290", "mm"]
    assert bill_text(told()).count("\n") == 1


def test_two_plans_stand_side_by_side_row_by_row() -> None:
    row = {"what": "minutes of the remedies", "this": 100, "other": 0}
    text = comparison_report({"this": told(), "other": told(plan={"id": "other"}), "rows": [row]})
    assert text.splitlines()[0] == "mine beside other"
    assert text.index("minutes of the remedies") < text.index("mine: 100") < text.index("other: 0")


def test_boards_from_the_shelf_are_numbered() -> None:
    board = {"verdict": "fits", "sentence": "Holds.", "parts": {"deck": "deck-1"}, "empty": ["fuse"]}
    text = shelf_report({"sentence": "1 board.", "boards": [board], "catalogue_revision": "r", "rulebook_stamp": "s"})
    assert "1. FITS: Holds." in text and "deck: deck-1" in text and "nothing owned for: fuse" in text

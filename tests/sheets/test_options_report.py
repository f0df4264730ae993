"""The options for a seat as text: every verdict in its words, nothing wider than the page, what is left said."""

from __future__ import annotations

from typing import Any

from fitdb.sheets.options_report import options_report


def line(part: str, verdict: str, sentence: str, **more: Any) -> dict[str, Any]:
    plain = {"price": None, "mass": None, "margin": None, "difference": None, "fits_with": None, "to_read": []}
    plain["alike"] = {"count": 0, "parts": []}
    return {"part": part, "verdict": verdict, "sentence": sentence, "current": False, "owned": False, **plain, **more}


READ: dict[str, Any] = {
    "part": "truck-a",
    "seat": "rear_truck",
    "attribute": "size_a",
    "how": "Caliper across the flats.",
    "tool": "",
    "finer": False,
}
DOCUMENT: dict[str, Any] = {
    "seat": "rear_truck",
    "sentence": "1 do not clash on a whole board, 1 are still being checked.",
    "now": "truck-a",
    "already_clashing": [{"rule": "a.b", "seats": ["rear_left_wheel"], "sentence": "Fails: 3.80 mm; wanted: 8 mm."}],
    "broken": {"why": None, "change": {"sentence": "It stands when this is another choice: wheel: wheel-100."}},
    "left_empty": ["gasket"],
    "total": 9,
    "different": 7,
    "next": "cursor",
    "options": [
        line("truck-a", "fits", "It stands.", current=True, owned=True),
        line("truck-b", "measure", "It may stand.", to_read=[READ]),
        line("truck-c", "checking", "The time was up."),
        line("truck-d", "clash", "Fails: 1 mm; wanted: at least 2 mm."),
    ],
    "why": {"part": "truck-d", "sentence": "With wheel-x: fails, 1 mm."},
    "other_seats": [{"seat": "deck_bolt", "sentence": "3 do not clash on a whole board."}],
    "complete": False,
    "catalogue_revision": "r1-0",
    "rulebook_stamp": "stamp",
}


def test_every_verdict_has_its_words_and_what_is_to_be_read_its_place() -> None:
    told = options_report(DOCUMENT)
    for words in ("FITS  truck-a (there now, owned)", "MEASURE FIRST  truck-b", "STILL CHECKED", "CLASH  truck-d"):
        assert words in told
    assert "Read size a of truck-a (rear truck): Caliper across the flats." in " ".join(told.split())
    assert "--after" in told and "cursor" in told and "gasket" in told and "Deck bolt" not in told
    assert "deck bolt: 3 do not clash" in told and "Why not truck-d: With wheel-x" in told


def test_of_many_readings_the_first_are_told_and_the_rest_counted() -> None:
    many: list[dict[str, Any]] = [{**READ, "attribute": f"size_{number}", "finer": number == 1} for number in range(9)]
    heavy = {"nominal": 0.88, "low": 0.8799, "high": 0.8801, "unit": "kg", "pieces": 4}
    light = {**heavy, "low": 0.8, "high": 0.9}
    both = [
        line("b", "measure", "It may stand.", to_read=many, mass=heavy),
        line("c", "fits", "It stands.", mass=light),
    ]
    told = options_report({**DOCUMENT, "options": both})
    assert told.count("- Read") == 6 and "- 3 more: --json lists them all." in told
    assert "Read size 1 of truck-a (rear truck) more finely: Caliper" in " ".join(told.split())
    assert "Mass 0.88 kg for 4 pieces." in told and "Mass 0.88 (0.8 to 0.9) kg for 4 pieces." in told


def test_what_is_still_checked_is_said_not_to_be_ruled_out_and_no_line_is_too_wide() -> None:
    told = options_report(DOCUMENT, width=60)
    assert "not ruled out" in " ".join(told.split())
    assert max(map(len, told.splitlines())) <= 60


def test_a_complete_answer_does_not_speak_of_time() -> None:
    told = options_report({**DOCUMENT, "complete": True, "broken": None, "other_seats": []})
    assert "time was up before" not in told and "No other seat is open." in told

"""Fifty questions that home builders and small shops really ask, put to the shipped catalogue in one go.

The list was written before it was run. It is there to keep the answers of use: most common questions have to end in a
word that lets somebody act, and one that does not has to say which single reading comes first and how it is taken.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine

from fitdb.catalogue import read
from fitdb.catalogue.asked import typed_question
from fitdb.fit import fit
from fitdb.model.part import Part
from fitdb.model.verdict import VERDICTS, Verdict
from fitdb.rules import rulebook
from fitdb.steps.explain import Display, document

with (Path(__file__).parent / "fifty_questions.csv").open(encoding="utf-8", newline="") as file:
    QUESTIONS = {int(row["number"]): row for row in csv.DictReader(file)}

# What lies in the drawer of somebody who mends boards; the eye counts and names forms.
TOOLS_AT_HAND = {"caliper", "ruler", "tape", "straightedge", "level", "meter", "eye"}

KINDS = {f"J{number:02}" for number in range(1, 50)}

# Worked out by hand, from sizes printed in the parts' own titles; none of these needs a fine reading.
BY_HAND = {
    3: ("fits_with", "63.5 mm against 80 mm: only a plate between the two grids"),
    6: ("clash", "12 + 8 + 6 mm of stack, 5 mm of nut and 1.5 mm of thread are 32.5 mm; the bolt has 31.75"),
    14: ("clash", "common practice, no source: 100 kg wants about 95 A, and 85 A is ten points softer"),
    19: ("fits", "ISO 15: the bore of a 608 is 8.00 mm; 5/16 in is 7.94 mm"),
    20: ("clash", "ISO 15: the bore of a 608 is 8 mm; the axle is 10 mm"),
    25: ("clash", "ISO 261 and ASME B1.1: M8 has 1.25 mm from turn to turn, 5/16-24 has 1.058 mm"),
    34: ("fits", "plane geometry: 265 mm round 25.46 and 57.30 mm puts the axes 65.6 mm apart; the slot has 60 to 74"),
    38: ("clash", "an 8 mm bore does not go over a 10 mm shaft"),
    41: ("fits_with", "30 mm against 44 mm: only a plate between the two circles"),
    42: ("clash", "16 mm less plate and washer are 7.2 mm of screw in 4.3 mm of thread, and the winding lies behind"),
    46: ("clash", "twelve ribs do not go into ten grooves"),
    49: ("clash", "a pack 150 mm wide does not lie in a cavity 146 mm wide"),
}


@pytest.fixture(scope="module")
def answers(sqlite_catalogue: tuple[Engine, read.Book, Mapping[str, list[Part]]]) -> dict[int, Verdict]:
    """Every question's verdict; a malformed question or a fault of ours ends the run here, with its own words."""
    engine, book, _ = sqlite_catalogue
    given = {}
    with engine.connect() as connection:
        for number, row in QUESTIONS.items():
            names = row["parts"].split()
            question = typed_question(
                connection,
                book,
                [name for name in names if "=" not in name],
                [name for name in names if "=" in name],
                [reading.strip() for reading in row["readings"].split(";") if reading.strip()],
            )
            given[number] = fit(question, book, rulebook(), lambda stock: read.parts_of_classes(connection, (stock,)))
    return given


def _asked(verdict: Verdict) -> set[str]:
    """The joints at which at least one rule could be asked."""
    return {
        joint.joint.line.joint
        for joint in verdict.joints
        if any(finding.state != "not_asked" for finding in joint.findings)
    }


def test_there_are_fifty_questions_each_with_its_reason() -> None:
    assert list(QUESTIONS) == list(range(1, 51))
    for row in QUESTIONS.values():
        assert row["question"].strip().endswith((".", "?")), row
        assert len(row["parts"].split()) >= 2, row
        assert row["why"].strip(), row


def test_they_meet_every_kind_of_joint(answers: dict[int, Verdict]) -> None:
    asked = set().union(*map(_asked, answers.values()))
    assert not KINDS - asked


@pytest.mark.parametrize("number", QUESTIONS)
def test_each_ends_in_a_word_of_the_house(answers: dict[int, Verdict], number: int) -> None:
    assert answers[number].best_allowed in VERDICTS
    assert answers[number].as_asked in VERDICTS


def test_at_least_half_let_somebody_act(answers: dict[int, Verdict]) -> None:
    acted = [number for number, verdict in answers.items() if verdict.best_allowed in ("fits", "fits_with", "clash")]
    assert len(acted) * 2 >= len(QUESTIONS), {n: v.best_allowed for n, v in answers.items()}


def test_good_news_and_bad_news_both_occur(answers: dict[int, Verdict]) -> None:
    """A list that only ever clashes, or never does, would say nothing about the rules."""
    words = [verdict.best_allowed for verdict in answers.values()]
    for word in ("fits", "fits_with", "clash"):
        assert words.count(word) >= 3, word


@pytest.mark.parametrize("number", QUESTIONS)
def test_one_that_cannot_be_told_names_the_reading_to_take_first(answers: dict[int, Verdict], number: int) -> None:
    verdict = answers[number]
    if verdict.best_allowed != "measure":
        return
    told = document(verdict, Display())
    first = _first_reading(told)
    assert first["part"] and first["attribute"], first
    assert first["tool"] in TOOLS_AT_HAND, first
    assert first["how"].strip(), first
    assert first["how"] in first["sentence"], first
    assert f"{first['part']}.{first['attribute']}" in first["sentence"], first


def _first_reading(told: dict[str, Any]) -> dict[str, Any]:
    assert told["measure_first"], "an answer that says measure has to say what"
    return dict(told["measure_first"][0])


@pytest.mark.parametrize("number", BY_HAND)
def test_what_can_be_worked_out_by_hand_is_answered_so(answers: dict[int, Verdict], number: int) -> None:
    word, reason = BY_HAND[number]
    assert answers[number].best_allowed == word, reason


@pytest.mark.parametrize("number", QUESTIONS)
def test_no_answer_promises_more_than_numbers_can(answers: dict[int, Verdict], number: int) -> None:
    said = str(document(answers[number], Display())["joints"]).lower()
    for word in ("is safe", "are safe", "is legal", "are legal", "guarantee"):
        assert word not in said

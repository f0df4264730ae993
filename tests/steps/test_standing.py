"""How a rule stands, told without a finding, held against the judge's findings over random boards of shipped parts."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence

import pytest
from random_boards import random_board, traces_on
from sqlalchemy import Engine

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.rules import rulebook
from fitdb.steps.judge import judge
from fitdb.steps.judge.box import combinations_of_words, is_unread, sides_of, used, values_of
from fitdb.steps.judge.standing import standing

Catalogue = tuple[Engine, Book, dict[str, list[Part]]]
LAYOUTS = ("two_wheel_belt", "hub_motors", "gear_drive", "unpowered")


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_rule_stands_as_its_finding_says(layout: str, sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    pattern, rules = book.patterns[layout], rulebook()
    seen: Counter[str] = Counter()
    for seed in range(5):
        seated = random_board(random.Random(f"{layout} {seed}"), pattern, by_class, book.table, 6)
        for joint, rule, followed in traces_on(seated, pattern, rules, book.table):
            finding = judge(followed, None, book.limits)
            told = standing(followed, [one.reading for one in followed.variables], book.limits)
            assert told.state == finding.state, (joint.id, rule.id)
            if told.state == "undecided" and finding.value is not None:
                assert told.code == finding.code, (joint.id, rule.id)
            assert (told.code == "unread") == (finding.code == "unread"), (joint.id, rule.id)
            if finding.value is not None and finding.margin is not None:
                assert told.nominal == finding.value.nominal
                assert told.margin == finding.margin.nominal
            seen[told.state] += 1
    assert min(seen["holds"], seen["fails"], seen["undecided"]) > 15, seen


@pytest.mark.parametrize("layout", LAYOUTS)
def test_where_one_reading_moves_all_that_follows_it_is_worked_out_anew(
    layout: str, sqlite_catalogue: Catalogue
) -> None:
    _, book, by_class = sqlite_catalogue
    pattern, rules = book.patterns[layout], rulebook()
    moved = 0
    seated = random_board(random.Random(f"{layout} moved"), pattern, by_class, book.table, 10)
    for joint, rule, followed in traces_on(seated, pattern, rules, book.table):
        seen = [used(one.reading, one.described, rule.severity) for one in followed.variables]
        readings = tuple(one for one in seen if one is not None)
        if followed.wanted or followed.lacking or len(readings) < len(seen) or any(map(is_unread, readings)):
            continue
        words = combinations_of_words(readings)
        assert words
        nominal, quantity = values_of(readings, words[0]), followed.worked_out()
        row = quantity.row(nominal)
        untouched = list(row)
        for i, side in enumerate(sides_of(readings)):
            for value in side:
                there = [*nominal[:i], value, *nominal[i + 1 :]]
                told = rule.quantity(*[need(there) for need in followed.needs], **followed.constants)
                assert quantity.moved(row, i, value) == quantity.row(there), (joint.id, rule.id)
                assert quantity(there) == told, (joint.id, rule.id)
                moved += 1
        assert row == untouched
    assert moved > 100


def worst_of(findings: Sequence[Finding]) -> str:
    states = {one.state for one in findings}
    return next((one for one in ("fails", "undecided") if one in states), "holds")


def calmer(pieces: Sequence[Piece], bad: Sequence[Finding]) -> list[list[Piece]]:
    """The board without what fails on it, and without whatever is in doubt: few pieces, but of every standing."""
    failing = {item.seat for one in bad if one.state == "fails" for item in one.inputs}
    doubtful = {item.seat for one in bad for item in one.inputs}
    return [[one for one in pieces if one.seat not in out] for out in (failing, doubtful)]


@pytest.mark.parametrize("layout", LAYOUTS)
def test_what_speaks_against_a_board_is_all_that_its_findings_say(layout: str, sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    pattern, rules = book.patterns[layout], rulebook()
    told = 0
    shared = BoardJudge(pattern, book, rules, book.limits)  # asked of all boards, so that its memory is in use
    stood: Counter[str] = Counter()
    for seed in range(10):
        chance = random.Random(f"{layout} whole {seed}")
        pieces = list(random_board(chance, pattern, by_class, book.table, 8).values())
        board = BoardJudge(pattern, book, rules, book.limits).judge(pieces)
        bad = [one for joint in board.joints for one in joint.findings if one.state in ("fails", "undecided")]
        assert list(shared.against(pieces)) == bad
        told += len(bad)
        for moved in calmer(pieces, bad):
            said = BoardJudge(pattern, book, rules, book.limits).judge(moved)
            worst = worst_of([one for joint in said.joints for one in joint.findings])
            assert worst_of(shared.against(moved)) == worst
            stood[worst] += 1
    assert told > 60 and len(stood) > 1, stood

"""Boxes of cells that were asked as one span, held against their cells asked one by one."""

from __future__ import annotations

import random
from collections.abc import Mapping

import pytest
from small_catalogues import Small, small_catalogue
from test_options_by_union_of_boards import ROWS

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, Snapshot, options
from fitdb.possible import tables
from fitdb.possible.questions import CODE, FAILS, HOLDS, UNDECIDED
from fitdb.possible.session import Session

ASKED = 60  # cells of each table, anywhere, so that there are boxes in all of them
CELLS = 6  # asked of each box, the corners of its order among them


def asked_once(small: Small, book: Book, rules: Rulebook, strictly: bool) -> Snapshot:
    """A snapshot that was asked of one group."""
    snapshot = Snapshot(small.pattern, book, rules, dict(book.limits))
    asked = next(group for group, some in zip(small.groups, small.choices, strict=True) if some)
    options(
        book, rules, small.pattern, small.parts_of_class, {}, asked.seats[0],
        budget=Budget(4_000), snapshot=snapshot, whole=small.whole, strictly=strictly,
    )  # fmt: skip
    return snapshot


@pytest.mark.parametrize("seed", range(len(ROWS)))
def test_every_cell_of_a_box_says_what_the_box_says(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"boxes {seed}")
    snapshot = asked_once(small_catalogue(chance, layout, book, by_class, ROWS[seed], most=7), book, rules, False)
    for table in snapshot.tables.values():
        for _ in range(ASKED):
            table.state(tuple(chance.randrange(len(one.parts)) for one in table.classes))
    tried = 0
    for table in snapshot.tables.values():
        for state in (HOLDS, FAILS):
            for box in table.known.boxes.kept[state][:12]:
                cells = {tuple(some[0] for some in box), tuple(some[-1] for some in box)}
                cells |= {tuple(chance.choice(some) for some in box) for _ in range(CELLS - 2)}
                for cell in sorted(cells):
                    finding = table.finding(cell)
                    assert (HOLDS if finding is None else CODE[finding.state]) == state, (
                        table.question.scope.rule.id, cell,
                    )  # fmt: skip
                    tried += 1
    assert tried > 10


@pytest.mark.parametrize("seed", range(len(ROWS)))
def test_in_no_cell_of_a_box_of_doubts_does_the_rule_hold(
    seed: int,
    book: Book,
    rules: Rulebook,
    by_class: Mapping[str, list[Part]],
    layout: Pattern,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(tables, "SMALL", 0)  # boxes are looked for in every table, and each time
    monkeypatch.setattr(tables, "LONGEST_PAUSE", 0)
    chance = random.Random(f"doubts {seed}")
    snapshot = asked_once(small_catalogue(chance, layout, book, by_class, ROWS[seed], most=9), book, rules, True)
    boxes = several = 0
    for table in snapshot.tables.values():
        for _ in range(ASKED):
            cell = tuple(chance.randrange(len(one.parts)) for one in table.classes)
            if table.state(cell) not in (UNDECIDED, FAILS):
                continue
            box = table.doubted_round(cell)
            assert all(at in some for at, some in zip(cell, box, strict=True))
            boxes += 1
            several += any(len(some) > 1 for some in box)
            corners = {tuple(some[0] for some in box), tuple(some[-1] for some in box)}
            inside = corners | {tuple(chance.choice(some) for some in box) for _ in range(CELLS - 2)}
            for one in sorted(inside):
                finding = table.finding(one)
                assert finding is not None and CODE[finding.state] in (UNDECIDED, FAILS), (
                    table.question.scope.rule.id, one,
                )  # fmt: skip
    assert boxes > 20 and several > 10


@pytest.mark.parametrize("seed", range(6))
def test_no_part_stands_by_a_box_of_a_sampled_rule_alone(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"sampled {seed}")
    rows = ("drive_pulley", "driven_pulley", "belt", "motor_mount")
    small = small_catalogue(chance, layout, book, by_class, rows, most=5)
    snapshot = Snapshot(small.pattern, book, rules, dict(book.limits))
    asked = next(group for group, some in zip(small.groups, small.choices, strict=True) if some)
    Session(snapshot, small.parts_of_class, {}, asked.seats, small.whole)  # so that there are tables
    sampled = [table for table in snapshot.tables.values() if table.sampled]
    assert sampled
    for table in sampled:  # the untruth, over everything
        table.known.say_box([list(range(len(one.parts))) for one in table.classes], HOLDS)
    found = options(
        book, rules, small.pattern, small.parts_of_class, {}, asked.seats[0],
        budget=Budget(60_000), snapshot=snapshot, whole=small.whole,
    )  # fmt: skip
    judge = BoardJudge(small.pattern, book, rules, book.limits)
    may_be: dict[str, set[str]] = {"fits": set(), "measure": {"undecided"}, "checking": {"undecided"}}
    for option in found.options:
        if option.board is not None:
            said = {one.state for one in judge.against(Piece(seat, part) for seat, part in option.board.items())}
            assert said <= may_be[option.verdict]

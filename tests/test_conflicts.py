"""The smallest sets that cannot stand together, against going through every subset.

`minimal_sets` promises: every subset that fails while none of its own subsets does, of the least size at which there is
one. It is held against that sentence on sets of random predicates, monotone ones (what fails goes on failing when
something is added) and others; and on failing boards against every subset of the pieces of the joint, each judged by
a judge that has never seen another.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Callable, Sequence
from typing import Any

import pytest
from random_boards import ByClass, Seated, random_board, scratch, within

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.conflicts import MOST_PIECES, failing_findings, minimal_sets, smallest_sets
from fitdb.model.part import Part
from fitdb.model.rule import Rulebook, Shape
from fitdb.rules import rulebook

Fails = Callable[[Sequence[str]], bool]
ITEMS = tuple("abcdefgh")
PREDICATES, BOARDS = 300, 20


def monotone(chance: random.Random, items: Sequence[str]) -> Fails:
    """Fails when it holds all of one of a few sets."""
    cores = [
        frozenset(chance.sample(items, chance.randint(1, min(4, len(items))))) for _ in range(chance.randint(1, 4))
    ]
    return lambda chosen: any(core <= set(chosen) for core in cores)


def with_antidotes(chance: random.Random, items: Sequence[str]) -> Fails:
    """Fails when it holds a set and not the piece that makes up for it: a spacer, a washer."""
    cores = [
        (frozenset(chance.sample(items, chance.randint(1, min(3, len(items))))), frozenset(chance.sample(items, 1)))
        for _ in range(chance.randint(1, 4))
    ]
    return lambda chosen: any(core <= set(chosen) and not (antidote - core) & set(chosen) for core, antidote in cores)


def by_table(chance: random.Random, items: Sequence[str]) -> Fails:
    """Fails on any subsets whatever, the whole among them, the empty one not."""
    table = {
        frozenset(some): chance.random() < 0.3
        for size in range(1, len(items) + 1)
        for some in itertools.combinations(items, size)
    }
    table[frozenset(items)] = True
    return lambda chosen: table.get(frozenset(chosen), False)


def every_smallest(items: Sequence[str], fails: Fails) -> set[frozenset[str]]:
    """All failing subsets of the least size at which one fails: none of their own subsets can fail."""
    for size in range(len(items) + 1):
        hits = {frozenset(some) for some in itertools.combinations(items, size) if fails(list(some))}
        if hits:
            return hits
    return set()


@pytest.mark.parametrize("kind", [monotone, with_antidotes, by_table])
def test_minimal_sets_are_those_of_every_subset(kind: Callable[[random.Random, Sequence[str]], Fails]) -> None:
    wrong, several = [], 0
    for seed in range(PREDICATES):
        chance = random.Random(seed)
        items = ITEMS[: chance.randint(1, len(ITEMS))]
        fails = kind(chance, items)
        if not fails(list(items)):
            continue
        found = list(minimal_sets(items, fails))
        assert len(found) == len(set(found)), f"{kind.__name__} {seed}: one set told twice"
        for some in found:
            assert fails(some) and list(some) == [item for item in items if item in some], f"{kind.__name__} {seed}"
        expected = every_smallest(items, fails)
        several += len(expected) > 1
        if set(map(frozenset, found)) != expected:
            wrong.append((seed, found, sorted(map(sorted, expected))))
    assert several > 20
    assert not wrong, f"{len(wrong)} of {PREDICATES}; the first: {wrong[0]}"


def test_each_set_is_minimal_whatever_the_predicate() -> None:
    """No set that is told holds a smaller one that fails: no piece is blamed for what it takes no part in."""
    wrong = []
    for seed in range(PREDICATES):
        chance = random.Random(seed)
        items = ITEMS[: chance.randint(1, len(ITEMS))]
        fails = chance.choice((monotone, with_antidotes, by_table))(chance, items)
        if fails(list(items)):
            for some in minimal_sets(items, fails):
                parts = [part for size in range(len(some)) for part in itertools.combinations(some, size)]
                if any(fails(part) for part in parts):
                    wrong.append((seed, some))
    assert not wrong, f"{len(wrong)}; the first: {wrong[0]}"


def test_more_pieces_than_can_be_gone_through_give_one_minimal_set() -> None:
    items = tuple(f"piece_{n:02}" for n in range(MOST_PIECES + 6))
    for seed in range(100):
        chance = random.Random(seed)
        cores = [frozenset(chance.sample(items, 3)) for _ in range(6)]
        if frozenset.intersection(*cores):
            continue

        def fails(chosen: Sequence[str], cores: list[frozenset[str]] = cores) -> bool:
            return any(core <= set(chosen) for core in cores)

        found = list(minimal_sets(items, fails))
        assert len(found) == 1 and frozenset(found[0]) in cores, f"seed {seed}"


# --- boards ----------------------------------------------------------------------------------------------------


def failing_boards(book: Book, by_class: ByClass, rules: Rulebook) -> list[tuple[Any, Seated]]:
    """Twenty boards that fail at a joint of at least three pieces, and of no more than eight."""
    quick = {kind for kind, some in rules.by_kind.items() if all(rule.shape is not Shape.ASKED for rule in some)}
    found: list[tuple[Any, Seated]] = []
    for seed in itertools.count():
        chance = random.Random(f"conflict {seed}")
        whole = book.patterns[chance.choice(("two_wheel_belt", "four_wheel_belt", "gear_drive", "hub_motors"))]
        lines = tuple(line for line in whole.lines if line.kind in quick)
        seated = random_board(chance, within(whole, whole.seats), by_class, book.table, 2)
        pattern = within(whole, seated)
        pattern = type(pattern)(
            pattern.id, pattern.title, pattern.seats, tuple(one for one in pattern.lines if one in lines)
        )
        board = scratch(pattern, book, rules, {}, seated)
        sizes = [
            len({piece.seat for some in joint.joint.pieces.values() for piece in some})
            for joint, _ in failing_findings(board.joints)
        ]
        if any(size >= 3 for size in sizes) and max(sizes) <= 8:
            found.append((pattern, seated))
        if len(found) == BOARDS:
            return found
    raise AssertionError


def test_smallest_sets_of_failing_boards(sqlite_catalogue: tuple[Any, Book, dict[str, list[Part]]]) -> None:
    """Every subset of the pieces of a failing joint, each judged from scratch with all others taken away."""
    _, book, by_class = sqlite_catalogue
    rules = rulebook()
    asked = smaller = 0
    wrong = []
    for pattern, seated in failing_boards(book, by_class, rules):
        judge = BoardJudge(pattern, book, rules, book.limits)
        board = judge.judge(seated.values())
        for joint, finding in failing_findings(board.joints):
            line = joint.joint.line
            seats = tuple(dict.fromkeys(piece.seat for some in joint.joint.pieces.values() for piece in some))
            alone = type(pattern)(pattern.id, pattern.title, pattern.seats, (line,))

            def fails(
                chosen: Sequence[str], alone: Any = alone, rule: str = finding.rule.id, on: Seated = seated
            ) -> bool:
                told = scratch(alone, book, rules, {}, {seat: on[seat] for seat in chosen})
                return any(f.state == "fails" and f.rule.id == rule for one in told.joints for f in one.findings)

            expected = every_smallest(seats, fails)
            found = set(map(frozenset, smallest_sets(judge, board, joint, finding.rule)))
            asked += 1
            smaller += any(len(some) < len(seats) for some in expected)
            if found != expected:
                wrong.append((line.id, finding.rule.id, sorted(map(sorted, found)), sorted(map(sorted, expected))))
    assert asked >= 40 and smaller >= 10
    assert not wrong, f"{len(wrong)} of {asked}; the first: {wrong[0]}"

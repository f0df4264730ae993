"""Options on small random catalogues, held against every whole board of them judged one by one.

FITDB_CATALOGUES=1000 pytest tests/possible/test_options_by_exhaustion.py tries more of them.
"""

from __future__ import annotations

import os
import random
from collections import Counter
from collections.abc import Mapping

import pytest
from small_catalogues import Small, boards_of, by_exhaustion, small_catalogue, worst_of

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, Options, Snapshot, options

CATALOGUES = int(os.environ.get("FITDB_CATALOGUES", "200"))
CHUNKS = 10
LAYOUTS = ("two_wheel_belt", "two_wheel_belt", "single_belt", "four_wheel_belt")
PLENTY = Budget(120_000)


def asked_of(chance: random.Random, small: Small) -> tuple[str, tuple[str, ...], dict[str, Part]]:
    """A name to ask for, its seats, and some choices: of whole groups, or of one seat apart from the others."""
    filled = [group for group, some in zip(small.groups, small.choices, strict=True) if some]
    asked = chance.choice(filled)
    chosen: dict[str, Part] = {}
    for group, some in zip(small.groups, small.choices, strict=True):
        if group is not asked and some and chance.random() < 0.3:
            part = chance.choice(some)
            if part is not None:
                chosen |= dict.fromkeys(group.seats if chance.random() < 0.6 else group.seats[:1], part)
    return (asked.name if len(asked.seats) > 1 else asked.seats[0]), asked.seats, chosen


def put(small: Small, book: Book, rules: Rulebook, chosen: Mapping[str, Part], asked: str) -> Options:
    return options(book, rules, small.pattern, small.parts_of_class, chosen, asked, budget=PLENTY, whole=small.whole)


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_options_are_what_every_whole_board_says(
    chunk: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]]
) -> None:
    told: Counter[str] = Counter()
    for seed in range(chunk, CATALOGUES, CHUNKS):
        chance = random.Random(f"small {seed}")
        pattern: Pattern = book.patterns[chance.choice(LAYOUTS)]
        small = small_catalogue(chance, pattern, book, by_class)
        asked, seats, chosen = asked_of(chance, small)
        expected = by_exhaustion(small, book, rules, chosen, seats)
        found = put(small, book, rules, chosen, asked)
        if found.broken is not None:
            assert set(expected.values()) == {"clash"}, (seed, expected)
            assert found.options, seed
            told["broken"] += 1
            change = found.broken.change
            if change is None:
                assert set(by_exhaustion(small, book, rules, {}, seats).values()) == {"clash"}, seed
                continue
            chosen = {seat: part for seat, part in chosen.items() if seat not in change.given_up}
            expected = by_exhaustion(small, book, rules, chosen, seats)
            assert set(expected.values()) != {"clash"}, (seed, change)
        assert {option.part.id: option.verdict for option in found.options} == expected, (seed, small.whole, asked)
        assert found.complete
        told.update(expected.values())
        for option in found.options:
            if option.witness is not None:
                check_witness(small, book, rules, chosen, seats, option.part, option.witness, option.verdict)
    assert told["clash"] and (told["measure"] or told["fits"]), told


def any_board(small: Small, book: Book, rules: Rulebook, chosen: Mapping[str, Part]) -> bool:
    judge = BoardJudge(small.pattern, book, rules, book.limits)
    return any(worst_of(judge, board) != "clash" for board in boards_of(small, chosen, ()))


def check_witness(
    small: Small,
    book: Book,
    rules: Rulebook,
    chosen: Mapping[str, Part],
    seats: tuple[str, ...],
    part: Part,
    witness: Mapping[str, str],
    verdict: str,
) -> None:
    """A witness has what was chosen and asked for, is one of the whole boards, and is judged as it is told."""
    assert all(witness[seat] == part.id for seat in seats)
    assert all(witness[seat] == own.id for seat, own in chosen.items() if seat not in seats)
    judge = BoardJudge(small.pattern, book, rules, book.limits)
    same = [
        board
        for board in boards_of(small, chosen, seats)
        if {seat: own.id for seat, own in board.items()} == dict(witness)
    ]
    assert same, "the witness is none of the whole boards"
    assert worst_of(judge, same[0]) == verdict


@pytest.mark.parametrize("seed", range(12))
def test_the_same_question_gets_the_same_answer(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"again {seed}")
    small = small_catalogue(chance, layout, book, by_class)
    asked, _, chosen = asked_of(chance, small)
    one, other = (put(small, book, rules, chosen, asked) for _ in range(2))
    assert one == other


@pytest.mark.parametrize("seed", range(24))
def test_more_parts_and_fewer_choices_never_take_an_option_away(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"more {seed}")
    small = small_catalogue(chance, layout, book, by_class)
    asked, _, chosen = asked_of(chance, small)
    found = put(small, book, rules, chosen, asked)
    if found.broken is not None:
        return
    possible = found.ids("fits", "measure")
    if chosen:
        seat = chance.choice(sorted(chosen))
        fewer = {own: part for own, part in chosen.items() if own != seat}
        # The other seats of its group take one part together again; they stay free to take the chosen one.
        group = next(group for group in small.groups if seat in group.seats)
        if not set(group.seats) & set(fewer) or set(group.seats) <= set(chosen):
            wider = put(small, book, rules, {k: p for k, p in fewer.items() if k not in group.seats}, asked)
            if len({chosen.get(own) and chosen[own].id for own in group.seats}) == 1:
                assert possible <= wider.ids("fits", "measure"), (seed, seat)
    poorer = poorer_by_one(chance, small, chosen, asked)
    if poorer is not None:
        less = put(poorer, book, rules, chosen, asked)
        if less.broken is None:
            assert less.ids("fits", "measure") <= possible, seed
            assert less.ids("fits") <= found.ids("fits"), seed


def poorer_by_one(chance: random.Random, small: Small, chosen: Mapping[str, Part], asked: str) -> Small | None:
    """The catalogue without one part that is not chosen, of a class that has another."""
    spare = [
        (name, part)
        for name, some in small.by_class.items()
        for part in some
        if len(some) > 1 and part.id not in {own.id for own in chosen.values()}
    ]
    if not spare:
        return None
    name, gone = chance.choice(spare)
    kept = {**small.by_class, name: [part for part in small.by_class[name] if part is not gone]}
    choices = tuple(tuple(part for part in some if part is not gone) for some in small.choices)
    return Small(small.pattern, small.whole, kept, small.groups, choices)


@pytest.mark.parametrize("seed", range(16))
def test_choosing_an_option_leaves_every_seat_an_option(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    """Click by click until every seat is filled; no click leads to where nothing can stand."""
    chance = random.Random(f"clicks {seed}")
    small = small_catalogue(chance, layout, book, by_class)
    chosen: dict[str, Part] = {}
    for group, some in zip(small.groups, small.choices, strict=True):
        if not [part for part in some if part is not None] or group.may_be_empty:
            continue
        found = put(small, book, rules, chosen, group.name if len(group.seats) > 1 else group.seats[0])
        possible = [option for option in found.options if option.possible]
        if not possible:
            assert not chosen, (seed, group.name)
            return
        chosen |= dict.fromkeys(group.seats, chance.choice(possible).part)
    every = dict(chosen)
    last = next(iter(every))
    again = put(small, book, rules, every, last)
    assert every[last].id in again.ids("fits", "measure"), "a filled seat is opened, and its own part can go back"


@pytest.mark.parametrize("seed", range(12))
def test_a_snapshot_that_has_to_forget_boards_answers_alike(
    seed: int,
    book: Book,
    rules: Rulebook,
    by_class: Mapping[str, list[Part]],
    layout: Pattern,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    chance = random.Random(f"forget {seed}")
    small = small_catalogue(chance, layout, book, by_class, most=7)
    questions = [asked_of(chance, small) for _ in range(6)]
    fresh = [verdicts(put(small, book, rules, chosen, asked)) for asked, _, chosen in questions]
    monkeypatch.setattr("fitdb.possible.search.MOST_KEPT", 1)
    snapshot = Snapshot(small.pattern, book, rules, dict(book.limits))
    for (asked, _, chosen), expected in zip(questions, fresh, strict=True):
        found = options(
            book, rules, small.pattern, small.parts_of_class, chosen, asked,
            budget=PLENTY, whole=small.whole, snapshot=snapshot,
        )  # fmt: skip
        assert verdicts(found) == expected


def verdicts(found: Options) -> dict[str, str]:
    return {option.part.id: option.verdict for option in found.options}

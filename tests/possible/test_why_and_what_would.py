"""Why a part is ruled out and what would let it in, held against every whole board; and what is told at the edges."""

from __future__ import annotations

import itertools
import random
from collections.abc import Mapping

import pytest
from small_catalogues import Small, by_exhaustion, small_catalogue
from test_options_by_exhaustion import any_board

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.problems import Malformed
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, Snapshot, options, options_document, what_would, why
from fitdb.steps.explain import Display

PLENTY = Budget(120_000)


def full_choice(chance: random.Random, small: Small) -> dict[str, Part]:
    """Something in every group, whether it clashes or not."""
    chosen: dict[str, Part] = {}
    for group, some in zip(small.groups, small.choices, strict=True):
        part = chance.choice(some) if some else None
        if part is not None:
            chosen |= dict.fromkeys(group.seats, part)
    return chosen


def units(small: Small, chosen: Mapping[str, Part], asked: tuple[str, ...]) -> list[tuple[str, ...]]:
    """Seats that were chosen together."""
    return [group.seats for group in small.groups if set(group.seats) <= set(chosen) and group.seats != asked]


def stands(small: Small, book: Book, rules: Rulebook, chosen: Mapping[str, Part]) -> bool:
    return any_board(small, book, rules, chosen)


@pytest.mark.parametrize("seed", range(40))
def test_what_is_to_blame_and_what_would_do_are_the_smallest(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"why {seed}")
    small = small_catalogue(chance, layout, book, by_class)
    chosen = full_choice(chance, small)
    groups = [group for group in small.groups if set(group.seats) <= set(chosen)]
    asked = chance.choice(groups)
    part = chosen[asked.seats[0]]
    others = {seat: own for seat, own in chosen.items() if seat not in asked.seats}
    name = asked.name if len(asked.seats) > 1 else asked.seats[0]
    here = dict.fromkeys(asked.seats, part)
    told = why(book, rules, small.pattern, small.parts_of_class, others, name, part, budget=PLENTY, whole=small.whole)
    change = what_would(
        book, rules, small.pattern, small.parts_of_class, others, name, part, budget=PLENTY, whole=small.whole
    )
    sets = units(small, others, asked.seats)

    def leaves_a_board(kept: tuple[tuple[str, ...], ...]) -> bool:
        return stands(small, book, rules, {s: chosen[s] for some in kept for s in some} | here)

    if leaves_a_board(tuple(sets)):
        assert told is None and change is not None and change.given_up == ()
        return
    assert told is not None and told.proven
    blamed = tuple(some for some in sets if set(some) <= set(told.choices))
    assert sum(map(len, blamed)) == len(told.choices)
    assert not leaves_a_board(blamed)
    for fewer in itertools.combinations(sets, len(blamed) - 1) if blamed else ():
        assert leaves_a_board(fewer), "a smaller set of choices rules it out"
    assert told.rules, "what is ruled out is ruled out by rules"
    if told.finding is not None:
        assert told.finding.state == "fails" and told.finding.rule.id == told.rules[0][1]
    every = [some for size in range(len(sets) + 1) for some in itertools.combinations(sets, size)]
    needed = next((some for some in every if leaves_a_board(tuple(o for o in sets if o not in some))), None)
    if needed is None:
        assert change is None
        return
    assert change is not None and change.proven
    assert len([some for some in sets if set(some) & set(change.given_up)]) == len(needed)
    assert all(change.witness[seat] == part.id for seat in asked.seats)
    assert all(change.witness[s] == chosen[s].id for s in others if s not in change.given_up)


@pytest.mark.parametrize("seed", range(20))
def test_a_broken_board_is_told_with_its_smallest_change_and_never_an_empty_list(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    chance = random.Random(f"broken {seed}")
    small = small_catalogue(chance, layout, book, by_class)
    chosen = full_choice(chance, small)
    asked = next(group for group in small.groups if set(group.seats) <= set(chosen))
    name = asked.name if len(asked.seats) > 1 else asked.seats[0]
    found = options(book, rules, small.pattern, small.parts_of_class, chosen, name, budget=PLENTY, whole=small.whole)
    assert found.options
    others = {seat: own for seat, own in chosen.items() if seat not in asked.seats}
    expected = by_exhaustion(small, book, rules, others, asked.seats)
    if set(expected.values()) == {"clash"} and others:
        assert found.broken is not None and found.broken.why is not None
        assert not stands(small, book, rules, {s: chosen[s] for s in found.broken.why.choices})
        ever = by_exhaustion(small, book, rules, {}, asked.seats)
        assert (found.broken.change is not None) == (set(ever.values()) != {"clash"})
        if found.broken.change is not None:
            assert found.ids("fits", "measure")
    else:
        assert found.broken is None
    judged = Snapshot(small.pattern, book, rules, dict(book.limits)).judged
    document = options_document(found, Display(), judged)
    for line in document["options"]:
        assert bool(line["undecided"]) == (line["verdict"] == "measure")
    assert document["options"] and document["sentence"]


def test_no_time_at_all_is_told_as_checking_and_never_as_a_clash(
    book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    small = small_catalogue(random.Random("no time"), layout, book, by_class, ("wheel", "bearing", "spacer"))
    found = options(book, rules, small.pattern, small.parts_of_class, {}, "wheel", budget=Budget(0), whole=small.whole)
    assert found.ids("checking") == {option.part.id for option in found.options}
    assert found.options and not found.complete
    judged = Snapshot(small.pattern, book, rules, dict(book.limits)).judged
    assert "checked" in options_document(found, Display(), judged)["sentence"]


def test_a_seat_that_the_layout_lacks_is_named_with_the_nearest(book: Book, rules: Rulebook, layout: Pattern) -> None:
    with pytest.raises(Malformed) as fault:
        options(book, rules, layout, lambda name: (), {}, "weel")
    assert "wheel" in str(fault.value.problems[0].hint)


def test_what_time_did_not_allow_is_told_with_more_time_from_the_same_snapshot(
    book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    small = small_catalogue(random.Random("later"), layout, book, by_class, ("wheel", "bearing", "spacer"))
    snapshot = Snapshot(small.pattern, book, rules, dict(book.limits))

    def put(milliseconds: float) -> dict[str, str]:
        found = options(
            book, rules, small.pattern, small.parts_of_class, {}, "bearing",
            budget=Budget(milliseconds), snapshot=snapshot, whole=small.whole,
        )  # fmt: skip
        return {option.part.id: option.verdict for option in found.options}

    assert set(put(0).values()) == {"checking"}
    assert put(60_000) == by_exhaustion(small, book, rules, {}, small_seats(small, "bearing"))
    assert put(60_000) == put(0), "what is known needs no time"


def small_seats(small: Small, name: str) -> tuple[str, ...]:
    return next(group.seats for group in small.groups if group.name == name)


def test_prices_are_a_bound_and_the_cheapest_board_seen(
    book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    seen = 0
    for seed in range(30):
        small = small_catalogue(random.Random(f"price {seed}"), layout, book, by_class)
        chance = random.Random(seed)
        every = sorted({part.id for some in small.by_class.values() for part in some})
        prices = {one: float(chance.randint(1, 50)) for one in every}
        group = next(g for g, some in zip(small.groups, small.choices, strict=True) if some)
        name = group.name if len(group.seats) > 1 else group.seats[0]
        found = options(
            book, rules, small.pattern, small.parts_of_class, {}, name, prices=prices, budget=PLENTY, whole=small.whole
        )
        for option in found.options:
            if option.witness is None:
                continue
            assert option.price is not None and option.price.cheapest is not None
            witness = sum(prices[one] for one in option.witness.values())
            assert option.price.from_least <= option.price.cheapest <= witness
            assert option.price.unpriced == 0
            seen += 1
    assert seen > 20

"""Order of work: the graph against brute force and networkx, and what every card has to keep on boards at random."""

from __future__ import annotations

import dataclasses
import itertools
import random
from collections.abc import Mapping
from typing import Any, cast

import networkx
import pytest
from random_boards import across, parts_for, random_board
from sqlalchemy import Engine

from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Joint, Piece
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import OurFault
from fitdb.model.verdict import JointVerdict, SwapVerdict, ToMeasure
from fitdb.model.work import CardStep, JobCard, Work
from fitdb.rules import rulebook
from fitdb.steps.order import order_of_work
from fitdb.steps.order.boards import Boards, boards_of, meet
from fitdb.steps.order.conditions import PASSES
from fitdb.steps.order.graph import among, closure, in_order, passed_through

Catalogue = tuple[Engine, Book, Mapping[str, list[Part]]]
Graph = dict[int, set[int]]
GRAPHS = range(300)
BOARDS = range(120)
LAYOUTS = ("two_wheel_belt", "two_wheel_belt_two_boxes", "single_belt", "four_wheel_belt", "gear_drive", "hub_motors")


def random_graph(chance: random.Random) -> tuple[Graph, set[int], set[int]]:
    """Up to nine steps, each after some of those before it, some of them not there, and one to three goals."""
    size = chance.randint(1, 9)
    needs = {node: {one for one in range(node) if chance.random() < 0.35} for node in range(size)}
    present = {node for node in range(size) if chance.random() < 0.8}
    goals = set(chance.sample(range(size), min(size, chance.randint(1, 3))))
    return needs, present, goals


@pytest.mark.parametrize("seed", GRAPHS)
def test_the_teardown_is_the_least_that_reaches_the_goals(seed: int) -> None:
    needs, present, goals = random_graph(random.Random(seed))
    found = closure(among(goals, needs, present), passed_through(needs, present))

    # Brute force: of all sets of steps that are there, the smallest in which whatever a goal or a member waits for, by
    # way of absent steps as well, is a member too.
    def waits_for(node: int) -> set[int]:
        return {one for before in needs[node] for one in ({before} if before in present else waits_for(before))}

    wanted = {one for goal in goals for one in ({goal} if goal in present else waits_for(goal))}
    sound = [
        set(some)
        for length in range(len(present) + 1)
        for some in itertools.combinations(sorted(present), length)
        if wanted <= set(some) and all(waits_for(node) <= set(some) for node in some)
    ]
    assert found == min(sound, key=len)

    # networkx: the goals and their ancestors, absent steps taken out of the whole graph's ancestors afterwards.
    drawn = networkx.DiGraph()
    drawn.add_nodes_from(needs)
    drawn.add_edges_from((before, node) for node, some in needs.items() for before in some)
    reached = goals.union(*(networkx.ancestors(drawn, goal) for goal in goals))
    assert found == reached & present


@pytest.mark.parametrize("seed", GRAPHS)
def test_the_order_is_a_topological_one(seed: int) -> None:
    chance = random.Random(seed)
    needs, present, goals = random_graph(chance)
    inner = passed_through(needs, present)
    nodes = sorted(closure(among(goals, needs, present), inner))
    liking = {node: chance.random() for node in nodes}
    order = in_order(nodes, inner, lambda node, _: liking[node])
    drawn = networkx.DiGraph([(before, node) for node in nodes for before in inner[node]])
    drawn.add_nodes_from(nodes)
    # In that order, and with that liking, networkx has one lexicographic order alone.
    assert list(order) == list(networkx.lexicographical_topological_sort(drawn, key=liking.__getitem__))


def test_steps_that_wait_for_each_other_are_our_fault() -> None:
    with pytest.raises(OurFault, match="wait"):
        in_order(["a", "b"], {"a": {"b"}, "b": {"a"}}, lambda one, _: one)


# --- cards of boards at random -------------------------------------------------------------------------------


@dataclasses.dataclass(frozen=True)
class Dealt:
    """A random plan with a verdict that waits for random readings, and its card."""

    verdict: SwapVerdict
    card: JobCard
    boards: Boards
    work: Work


def dealt(seed: int, catalogue: Catalogue, blocked: bool = False) -> Dealt:
    _, book, by_class = catalogue
    chance = random.Random(seed)
    pattern = book.patterns[chance.choice(LAYOUTS)]
    parts = {own: list(some) for own, some in by_class.items()}
    before = random_board(chance, pattern, parts, book.table, lines=12)
    for seat in ("pack", "controller", "box", "grip", "rear_truck", "rear_left_motor", "rear_right_motor"):
        fitting = parts_for(pattern.seats[seat].classes, parts, book.table) if seat in pattern.seats else []
        if fitting and chance.random() < 0.7:
            before.setdefault(seat, Piece(seat, chance.choice(fitting)))
    after = dict(before)
    for seat in chance.sample(sorted(before), min(len(before), chance.randint(1, 6))):
        other = Piece(seat, chance.choice(parts_for(pattern.seats[seat].classes, parts, book.table)))
        for one in {seat, across(seat)} & set(before):
            after[one] = Piece(one, other.part)
        if chance.random() < 0.15:
            del after[seat]
    plan = SwapPlan("dealt", "", pattern.id, tuple(before.values()), tuple(after.values()))
    verdict = _verdict(chance, plan, book, after, blocked)
    card = order_of_work(verdict, pattern, book.work, book.table)
    return Dealt(verdict, card, boards_of(plan, pattern, book.work, book.table, ()), book.work)


def _verdict(
    chance: random.Random, plan: SwapPlan, book: Book, after: Mapping[str, Piece], blocked: bool
) -> SwapVerdict:
    """A verdict with the few things that the order of work asks of it."""
    hidden = [
        (seat, row.attribute)
        for row in book.work.laid_bare
        for seat in sorted(after)
        if seat.endswith(row.seat) and after[seat].part.offers(row.attribute)[1] is not None
    ]
    readings = [
        ToMeasure((seat,), after[seat].part.id, "", attribute, "mm", 1.0, None, "caliper", "", (), ())
        for seat, attribute in chance.sample(hidden, min(len(hidden), chance.randint(1 if blocked else 0, 3)))
    ]
    passes = Finding(rulebook().rules[PASSES], "slot", chance.choice(("holds", "fails", "undecided")), "")
    joint = JointVerdict(cast(Joint, None), "clash", (passes,))
    told: dict[str, Any] = {one.name: () for one in dataclasses.fields(SwapVerdict)}
    told |= {
        "plan": plan, "as_asked": "measure", "best_allowed": "measure", "blocked": blocked,
        "joints": (joint,), "to_measure": tuple(readings), "revision": "", "stamp": "",
    }  # fmt: skip
    return SwapVerdict(**told)


def undone(card: JobCard) -> list[CardStep]:
    return [step for step in card.steps if step.kind == "work" and step.phase in ("isolate", "undo")]


def all_before(card: JobCard, key: str) -> set[str]:
    needs = {step.key: step.needs for step in card.steps}
    found, waiting = set[str](), list(needs[key])
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += needs.get(one, ())
    return found


@pytest.mark.parametrize("seed", BOARDS)
def test_every_step_comes_after_what_it_needs(seed: int, sqlite_catalogue: Catalogue) -> None:
    card = dealt(seed, sqlite_catalogue).card
    keys = [step.key for step in card.steps]
    assert len(keys) == len(set(keys))
    for index, step in enumerate(card.steps):
        assert set(step.needs) & set(keys) <= set(keys[:index]), step.key


@pytest.mark.parametrize("seed", BOARDS)
def test_no_electrical_step_before_the_pack_is_unplugged(seed: int, sqlite_catalogue: Catalogue) -> None:
    found = dealt(seed, sqlite_catalogue)
    keys = [step.key for step in found.card.steps]
    gates = [own for own, step in found.work.steps.items() if step.gate]
    assert gates == ["pack_unplugged"]
    for step in found.card.steps:
        if step.electrical and step.key not in gates:
            assert "pack_unplugged" in keys[: keys.index(step.key)], step.key
    if "pack_plugged" in keys:  # and it is not plugged before every lead is on
        on = {"phase_leads_plugged", "sensor_leads_plugged", "controller_in", "pack_in", "receiver_in", "meter_test"}
        assert all(keys.index(one) < keys.index("pack_plugged") for one in on & set(keys))


@pytest.mark.parametrize("seed", BOARDS)
def test_nothing_is_done_for_good_before_its_readings(seed: int, sqlite_catalogue: Catalogue) -> None:
    card = dealt(seed, sqlite_catalogue).card
    keys = [step.key for step in card.steps]
    waited_for = [step for step in card.steps if step.reading is not None and step.reading.doubt]
    for step in card.steps:
        if not step.reversible:
            for reading in waited_for:
                behind = step.key in all_before(card, reading.key)
                assert behind or keys.index(reading.key) < keys.index(step.key), (step.key, reading.reading)


def test_the_boards_at_random_have_what_these_tests_are_about(sqlite_catalogue: Catalogue) -> None:
    cards = [dealt(seed, sqlite_catalogue).card for seed in BOARDS]
    assert sum(any(not step.reversible for step in card.steps) for card in cards) >= 10
    assert sum(any(step.electrical for step in card.steps) for card in cards) >= 20
    assert sum(any(step.kind == "reading" for step in card.steps) for card in cards) >= 20
    assert sum(any(step.key == "leads_cut" for step in card.steps) for card in cards) >= 3


@pytest.mark.parametrize("seed", BOARDS)
def test_a_blocked_plan_is_measured_and_nothing_else(seed: int, sqlite_catalogue: Catalogue) -> None:
    card = dealt(seed, sqlite_catalogue, blocked=True).card
    assert card.measuring_only
    assert {step.kind for step in card.steps} <= {"work", "reading", "gate"}
    assert {step.phase for step in card.steps} <= {"measure", "isolate", "undo", "check"}
    assert all(step.reversible for step in card.steps)
    readings = [step.key for step in card.steps if step.kind == "reading"]
    for step in undone(card):
        assert any(step.key in all_before(card, reading) for reading in readings), step.key


@pytest.mark.parametrize("seed", BOARDS)
def test_what_was_taken_off_or_is_new_is_put_on_again(seed: int, sqlite_catalogue: Catalogue) -> None:
    found = dealt(seed, sqlite_catalogue)
    boards, card = found.boards, found.card
    off = {
        seat
        for step in undone(card)
        for place in step.places or ("",)
        for seat in boards.filled_at(found.work.steps[step.key].seats, place, boards.before)
    }
    new = {seat for seat in boards.after if boards.changed(seat)}
    for seat in (off | new) & set(boards.after):
        base = boards.base(seat)
        if base not in ("rider", "route", "wish", "charger", "remote", "deck"):
            rebuild = [step for step in card.steps if step.phase == "rebuild"]
            lines = [step for step in rebuild if base in found.work.steps[step.key].seats]
            places = [place for step in lines for place in step.places or ("",)]
            assert any(meet(place, boards.place(seat)) for place in places), seat


@pytest.mark.parametrize("seed", BOARDS)
def test_nothing_is_undone_that_no_goal_and_no_reading_asks_for(seed: int, sqlite_catalogue: Catalogue) -> None:
    """Every step that is undone frees something that changes, or comes before one that does, or before a reading."""
    found = dealt(seed, sqlite_catalogue)
    boards, card = found.boards, found.card
    touched = {boards.base(seat) for seat in boards.seats if boards.changed(seat)}
    carried = {
        boards.base(seat) for seat in boards.seats if not boards.changed(seat) and boards.leaves_with_its_carrier(seat)
    }
    asked = {
        step.key
        for step in undone(card)
        if (touched | carried) & {*found.work.steps[step.key].seats, *found.work.steps[step.key].opens}
    }
    ends = asked | {step.key for step in card.steps if step.kind == "reading"}
    for step in undone(card):
        assert step.key in ends or any(step.key in all_before(card, end) for end in ends), step.key


# --- the tables ----------------------------------------------------------------------------------------------


def test_every_seat_of_a_board_is_freed_and_filled_by_some_step(sqlite_catalogue: Catalogue) -> None:
    _, book, _ = sqlite_catalogue
    steps = book.work.steps.values()
    freed = {seat for step in steps if step.phase in ("isolate", "undo") for seat in (*step.seats, *step.opens)}
    filled = {seat for step in steps if step.phase == "rebuild" for seat in step.seats}
    bases = {
        (seat.names or (seat.id,))[0]
        for own, pattern in book.patterns.items()
        if own not in ("loose", "board")
        for seat in pattern.seats.values()
    }
    left = bases - {"rider", "route", "wish"}
    assert left - freed == {"deck"}  # everything is taken off the deck
    assert left - filled == {"charger", "remote"}  # they lie beside the board


def test_every_joint_to_go_back_to_is_a_joint_of_the_rulebook(sqlite_catalogue: Catalogue) -> None:
    known = {kind.joint for kind in rulebook().kinds.values()}
    assert {joint for test in sqlite_catalogue[1].work.tests.values() for joint in test.back_to} <= known


def test_words_that_a_caution_must_not_use_are_not_used(sqlite_catalogue: Catalogue) -> None:
    work = sqlite_catalogue[1].work
    told = [*work.cautions.values(), *(test.passes for test in work.tests.values())]
    told += [text for step in work.steps.values() for text in (step.title, step.does, step.note, step.photograph)]
    told += [fastening.manner for fastening in work.fastenings]
    words = " ".join(told).lower().replace(",", " ").replace(".", " ").split()
    assert not {"safe", "safely", "legal", "certified"} & set(words)


def test_thread_lock_is_never_put_on_plastic(sqlite_catalogue: Catalogue) -> None:
    """Thread lock makes loaded plastic crack: common practice, no source."""
    for fastening in sqlite_catalogue[1].work.fastenings:
        into_plastic = fastening.seat in ("box", "second_box", "pocket")
        assert fastening.lock == "none" or not into_plastic, fastening.id
        if fastening.seat == "driven_pulley":
            assert {"printed", "moulded"} <= set(fastening.not_on), fastening.id

"""The search for the cheapest cure against going through every sequence of moves, on small problems made at random.

A toy board has three seats with a small number each (or nothing) and one switch; five rules hold or fail on them, each
with a margin. Remedies move one or two seats at a time. The referee below knows nothing of the search: it tries every
sequence of at most k moves in which each move cures the finding it is chosen for (or, where no single move does,
betters it), no seat moved twice (a seat is one number here), and keeps the cheapest of each set of remedies.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import pytest

from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.remedy import Cost, Move, Remedy
from fitdb.model.source import Source
from fitdb.steps.mend import Failing, Mended, Workshop, mend

OWN = Source("own", "caliper", "own reading", "own reading")
SEATS = ("left", "middle", "right", "switch")
PROBLEMS, WITHOUT_CURE = 500, 150
Board = tuple[int | None, ...]  # what stands in each seat, None: empty; the switch holds 0, 1 or 2
Key = tuple[float, ...]
Margin = Callable[[Board], float | None]


@dataclass(frozen=True)
class Problem:
    """A board that may fail, five rules (margin, None: not asked), moves by remedy, and what a board lacks at last."""

    start: Board
    rules: dict[str, Margin]
    moves: tuple[Move, ...]
    most_moves: int
    undecided: int  # a seat whose odd numbers are new doubts
    target: int  # the sum that is wished for

    def failing(self, board: Board) -> dict[str, float]:
        told = {name: rule(board) for name, rule in self.rules.items()}
        return {name: margin for name, margin in told.items() if margin is not None and margin < 0}

    def applied(self, board: Board, move: Move) -> Board:
        after = list(board)
        for piece in move.pieces:
            after[SEATS.index(piece.seat)] = int(piece.part.id)
        return tuple(after)

    def lead(self, board: Board) -> tuple[int, float, int]:
        total = sum(number or 0 for number in board[:3])
        doubts = int((board[self.undecided] or 0) % 2 == 1 and self.start[self.undecided] != board[self.undecided])
        return doubts, max(0, self.target - total) / 8, int(total == self.target + 1)

    def fitting(self, board: Board, name: str, moved: frozenset[str]) -> tuple[Move, ...]:
        """Moves for a failing rule: those that cure it; those that better it where none does."""
        margin = self.failing(board)[name]
        cures, betters = [], []
        for move in self.moves:
            if moved & set(move.seats):
                continue
            after = self.rules[name](self.applied(board, move))
            if after is not None and after >= 0:
                cures.append(move)
            elif after is not None and after > margin:
                betters.append(move)
        return tuple(cures or betters)


def remedy_of(name: str, chance: random.Random) -> Remedy:
    return Remedy(
        id=name,
        title=name,
        move=chance.choice(("insert", "substitute", "alter", "set")),
        seat="left",
        stock="",
        attribute="",
        reversible=chance.random() < 0.7,
        gives_up=chance.choice(("", "", "noise")),
        minutes=float(chance.choice((5, 10, 10, 30))),
        money=float(chance.choice((0, 5, 20))),
        source="",
    )


def moves_of(remedy: Remedy, chance: random.Random) -> Iterator[Move]:
    """One or two sizes of a remedy, each on the same one or two seats."""
    seats = chance.sample(SEATS, 2) if chance.random() < 0.25 else [chance.choice(SEATS)]
    for number in chance.sample(range(5), chance.choice((1, 2, 2))):
        size = number % 3 if "switch" in seats else number
        part = Part(str(size), "thing", str(size), {}, {}, OWN)
        yield Move(
            remedy,
            tuple(Piece(seat, part) for seat in seats),
            str(size),
            minutes=remedy.minutes,
            money=remedy.money + number,
            replaces_wanted=chance.random() < 0.1,
            another_plan=chance.random() < 0.1,
            step=chance.random(),
        )


def rule_of(chance: random.Random) -> Margin:
    """One rule of a kind that boards know: a size, a sum, a difference, a pair that must be alike, a choice."""
    one, other = chance.sample(range(3), 2)
    bound, sign, wanted = chance.randrange(5), chance.choice((-1, 1)), chance.randrange(3)

    def size(board: Board) -> float | None:
        number = board[one]
        return None if number is None else sign * (number - bound)

    def total(board: Board) -> float | None:
        return sign * (sum(number or 0 for number in board[:3]) - bound - 2)

    def between(board: Board) -> float | None:
        a, b = board[one], board[other]
        return None if a is None or b is None else sign * (a - b) + bound / 2

    def alike(board: Board) -> float | None:
        a, b = board[one], board[other]
        return None if a is None or b is None else -abs(a - b) / 1.0

    def choice(board: Board) -> float | None:
        number = board[one]
        return None if number is None else 0.0 if (number + (board[3] or 0)) % 3 == wanted else -1.0

    return chance.choice((size, total, between, alike, choice))


def problem_of(seed: int) -> Problem:
    chance = random.Random(seed)
    start = (*(chance.choice((None, 0, 1, 2, 3, 4)) for _ in range(3)), chance.randrange(3))
    remedies = [remedy_of(f"remedy_{n}", chance) for n in range(chance.randint(2, 6))]
    return Problem(
        start=start,
        rules={f"rule_{n}": rule_of(chance) for n in range(5)},
        moves=tuple(move for remedy in remedies for move in moves_of(remedy, chance)),
        most_moves=chance.randint(1, 4),
        undecided=chance.randrange(3),
        target=chance.randrange(9),
    )


def shop_of(problem: Problem) -> Workshop[Board]:
    return Workshop(
        failing=lambda board: tuple(Failing(name, margin) for name, margin in problem.failing(board).items()),
        candidates=lambda board, finding, moved: problem.fitting(board, finding.name, frozenset(s for s, _ in moved)),
        applied=problem.applied,
        lead=problem.lead,
        mark=lambda board: board,
    )


def price(problem: Problem, moves: tuple[Move, ...], board: Board) -> Key:
    """What a whole plan costs, added up here: nine numbers, the first counts most."""
    return (
        *problem.lead(board),
        sum(move.another_plan for move in moves),
        sum(not move.remedy.reversible for move in moves),
        sum(bool(move.remedy.gives_up) + move.replaces_wanted for move in moves),
        len(moves),
        sum(move.minutes for move in moves),
        sum(move.money for move in moves),
    )


def as_key(cost: Cost) -> Key:
    return (
        cost.new_undecided,
        cost.shortfall,
        cost.thin,
        cost.exchanges,
        cost.irreversible,
        cost.gives_up,
        cost.count,
        cost.minutes,
        cost.money,
    )


def every_cure(problem: Problem) -> dict[tuple[frozenset[str], Board], Key]:
    """Every (set of remedies, board) that some allowed sequence of moves cures the start to, at its least price."""
    found: dict[tuple[frozenset[str], Board], Key] = {}
    been: set[frozenset[int]] = set()

    def go(board: Board, moves: tuple[Move, ...]) -> None:
        plan = frozenset(map(id, moves))
        if plan in been:
            return
        been.add(plan)
        failing = problem.failing(board)
        if not failing:
            cured, cost = (frozenset(move.remedy.id for move in moves), board), price(problem, moves, board)
            found[cured] = min(cost, found.get(cured, cost))
            return
        if len(moves) == problem.most_moves:
            return
        moved = frozenset(seat for move in moves for seat in move.seats)
        for name in failing:
            for move in problem.fitting(board, name, moved):
                go(problem.applied(board, move), (*moves, move))

    go(problem.start, ())
    return found


def mended(problem: Problem, **budget: Any) -> Mended[Board]:
    settled: dict[str, Any] = {"most_nodes": 100_000, "expired": lambda: False, **budget}
    return mend(problem.start, shop_of(problem), most_moves=problem.most_moves, **settled)


def told(found: Mended[Board]) -> list[tuple[frozenset[str], Board, Key]]:
    return [(frozenset(move.remedy.id for move in cure.moves), board, as_key(cure.cost)) for cure, board in found.cures]


@pytest.fixture(scope="module")
def problems() -> list[tuple[int, Problem, dict[tuple[frozenset[str], Board], Key]]]:
    """Seeds, problems whose start fails, and every cure of each; not too many that have none."""
    found, hopeless = [], 0
    for seed in itertools.count():
        problem = problem_of(seed)
        if not problem.failing(problem.start):
            continue
        cures = every_cure(problem)
        hopeless += not cures
        if cures or hopeless <= WITHOUT_CURE:
            found.append((seed, problem, cures))
        if len(found) == PROBLEMS:
            return found
    raise AssertionError


def test_the_problems_are_worth_asking(problems: Any) -> None:
    """Cures of one move and of several, plans at several prices, and boards with none."""
    cheapest = [min(cures.values()) for _, _, cures in problems if cures]
    assert sum(cost[6] >= 2 for cost in cheapest) >= 80 and sum(cost[6] >= 3 for cost in cheapest) >= 5
    assert sum(len(set(cures.values())) > 1 for _, _, cures in problems) >= 100
    assert sum(not cures for _, _, cures in problems) == WITHOUT_CURE
    assert sum(any(cost[0] or cost[1] or cost[2] for cost in cures.values()) for _, _, cures in problems) >= 100


def test_a_cure_is_found_exactly_where_there_is_one(problems: Any) -> None:
    missed, invented = [], []
    for seed, problem, cures in problems:
        found = mended(problem)
        assert found.proven, f"problem {seed}: nothing cut the search short"
        if cures and not found.cures:
            missed.append(seed)
        if found.cures and not cures:
            invented.append(seed)
    assert not invented, f"problems {invented}: no sequence of moves is allowed to make these cures"
    assert not missed, f"problems {missed}: told complete with no cure, and there is one"


def test_the_first_cure_is_the_cheapest(problems: Any) -> None:
    dearer = []
    for seed, problem, cures in problems:
        found = told(mended(problem))
        if found and cures and found[0][2] != pytest.approx(min(cures.values())):
            dearer.append((seed, found[0][2], min(cures.values())))
    assert not dearer, "\n".join(f"problem {seed}: {got} told, {best} there is" for seed, got, best in dearer)


def test_every_cure_told_is_allowed_and_costs_what_it_says(problems: Any) -> None:
    for seed, problem, cures in problems:
        found = mended(problem)
        for cure, board in found.cures:
            standing, moved = problem.start, frozenset[str]()
            for move, name in zip(cure.moves, cure.chosen_for, strict=True):
                assert move in problem.fitting(standing, name, moved), f"problem {seed}: not a move for {name}"
                standing, moved = problem.applied(standing, move), moved | set(move.seats)
            assert standing == board and not problem.failing(board), f"problem {seed}"
            assert as_key(cure.cost) == pytest.approx(price(problem, cure.moves, board)), f"problem {seed}"
            assert (frozenset(move.remedy.id for move in cure.moves), board) in cures, f"problem {seed}"


def test_the_next_cures_use_other_remedies_and_cost_no_less(problems: Any) -> None:
    several = 0
    for seed, problem, _ in problems:
        found = told(mended(problem))
        several += len(found) > 1
        assert [cost for _, _, cost in found] == sorted(cost for _, _, cost in found), f"problem {seed}"
        for (first, board, _), (later, other, _) in itertools.combinations(found, 2):
            assert not first <= later, f"problem {seed}: {sorted(later)} is {sorted(first)} and more"
            assert board != other, f"problem {seed}: one board told twice"
    assert several > PROBLEMS // 10


def next_of(cures: dict[tuple[frozenset[str], Board], Key], most: int) -> list[Key]:
    """Prices of the cures to be told: of each board the cheapest way there, none with all of an earlier one's moves."""
    told_boards: set[Board] = set()
    used: list[frozenset[str]] = []
    prices: list[Key] = []
    for (remedies, board), cost in sorted(cures.items(), key=lambda one: one[1]):
        if board not in told_boards and not any(other <= remedies for other in used):
            used.append(remedies)
            prices.append(cost)
        told_boards.add(board)
    return prices[:most]


def test_the_next_cures_are_the_cheapest_that_make_another_board(problems: Any) -> None:
    wrong = []
    for seed, problem, cures in problems:
        got, expected = [cost for _, _, cost in told(mended(problem))], next_of(cures, 3)
        if len(got) != len(expected) or any(a != pytest.approx(b) for a, b in zip(got, expected, strict=True)):
            wrong.append((seed, got, expected))
    assert not wrong, "\n".join(f"problem {seed}: {got} told, {expected} there are" for seed, got, expected in wrong)


def test_only_as_many_cures_as_wanted(problems: Any) -> None:
    for seed, problem, _ in problems[:100]:
        three = told(mended(problem))
        assert told(mended(problem, wanted=1)) == three[:1], f"problem {seed}"
        assert told(mended(problem, wanted=2)) == three[:2], f"problem {seed}"


def test_a_spent_budget_claims_nothing(problems: Any) -> None:
    """Cut short, the answer says so; what it tells is a cure all the same; and what is told complete is the truth."""
    cut_short = 0
    for seed, problem, cures in problems:
        at_once = mended(problem, expired=lambda: True)
        assert not at_once.cures, f"problem {seed}: a cure before any move was tried"
        if cures:
            assert not at_once.proven, f"problem {seed}: claims that there is no cure"
        for most_nodes in (1, 2, 3, 5, 9):
            found = mended(problem, most_nodes=most_nodes)
            for remedies, board, cost in told(found):
                assert cost == pytest.approx(cures[remedies, board]) or cost > cures[remedies, board], f"problem {seed}"
            if found.proven:
                assert told(found) == told(mended(problem)), f"problem {seed}, {most_nodes} nodes"
                assert bool(found.cures) == bool(cures), f"problem {seed}, {most_nodes} nodes"
            cut_short += not found.proven
    assert cut_short > PROBLEMS


def test_time_that_runs_out_midway_claims_nothing(problems: Any) -> None:
    for seed, problem, cures in problems[:200]:
        for looks in (1, 2, 4):
            clock = iter(range(10_000))
            found = mended(problem, expired=lambda clock=clock, looks=looks: next(clock) >= looks)
            assert all((remedies, board) in cures for remedies, board, _ in told(found)), f"problem {seed}"
            if found.proven:
                assert told(found) == told(mended(problem)), f"problem {seed}"


def test_the_same_question_has_the_same_answer(problems: Any) -> None:
    for seed, problem, _ in problems[:200]:
        first, second = mended(problem), mended(problem_of(seed))
        assert [(cure.chosen_for, board) for cure, board in first.cures] == [
            (cure.chosen_for, board) for cure, board in second.cures
        ]
        assert (told(first), first.proven, first.nodes) == (told(second), second.proven, second.nodes)


# --- by hand: why one finding at a time is not enough ---------------------------------------------------------


def move(remedy: str, reversible: bool = True, minutes: float = 10.0, **numbers: int) -> Move:
    described = Remedy(remedy, remedy, "set", "left", "", "", reversible, "", minutes, 0.0, "")
    pieces = tuple(Piece(seat, Part(str(n), "thing", str(n), {}, {}, OWN)) for seat, n in numbers.items())
    return Move(described, pieces, "", minutes=minutes)


def by_hand(start: Board, rules: dict[str, Margin], *moves: Move, most_moves: int = 3) -> Problem:
    return Problem(start, rules, moves, most_moves, undecided=0, target=0)


def test_a_finding_gets_its_first_candidate_by_what_cures_another() -> None:
    """A belt too short whatever belt is on the shelf, until the pulley, which fails for its bore, is another."""
    problem = by_hand(
        (0, 0, None, 0),
        {
            "bore": lambda board: -1.0 if board[0] == 0 else 0.0,
            "belt": lambda board: 0.0 if board[0] == board[1] == 1 else -1.0,
        },
        move("other_pulley", left=1),
        move("other_belt", middle=1),
    )
    assert [remedies for remedies, _, _ in told(mended(problem))] == [{"other_pulley", "other_belt"}]


def test_the_cheap_way_begins_at_the_finding_with_more_candidates() -> None:
    """Only a drill cures the width as the board stands; the other plate makes a filed edge enough."""
    problem = by_hand(
        (0, 0, 0, 0),
        {
            "plate": lambda board: -1.0 if board[0] == 0 and board[1] == 0 else 0.0,
            "width": lambda board: 0.0 if board[2] == 2 or (board[2] == 1 and board[0] == 2) else -1.0,
        },
        move("other_plate", left=2),
        move("same_plate_turned", middle=1),
        move("drilled", reversible=False, right=2),
        move("filed", right=1),
    )
    first = told(mended(problem))[0]
    assert first[0] == {"other_plate", "filed"} and first[2][4] == 0, "nothing that cannot be undone is needed"


def test_a_short_way_is_not_dropped_for_a_long_one_to_the_same_board() -> None:
    """Three gentle moves or two rough ones lead to one board that needs a fourth move; only three are allowed."""
    problem = by_hand(
        (0, 0, 0, 0),
        {
            "left": lambda board: float(board[0] or 0) - 1,
            "middle": lambda board: float(board[1] or 0) - 1,
            "right": lambda board: float(board[2] or 0) - 1,
            "switch": lambda board: -1.0 if board == (1, 1, 1, 0) else 0.0,
        },
        move("gentle_left", left=1),
        move("gentle_middle", middle=1),
        move("gentle_right", right=1),
        move("rough_pair", reversible=False, left=1, middle=1),
        move("rough_right", reversible=False, right=1, minutes=5.0),
        move("switched", switch=1),
    )
    first = told(mended(problem))[:1]
    assert [remedies for remedies, _, _ in first] == [{"rough_pair", "gentle_right", "switched"}]


def test_a_board_that_fails_nothing_is_its_own_cure() -> None:
    found = mended(by_hand((0, 0, 0, 0), {"any": lambda board: 0.0}, move("idle", left=1)), expired=lambda: True)
    assert found.proven and [(cure.moves, board) for cure, board in found.cures] == [((), (0, 0, 0, 0))]

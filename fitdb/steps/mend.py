"""Mend: the cheapest set of remedies that leaves nothing failing, found over whole plans, best first.

The search knows boards only through the `Workshop` that it is given: which findings fail, which moves would cure one of
them, what a state costs. It branches on one failing finding, the one with the fewest candidates. A plan's
price from here on is bounded from below by its failing findings whose candidates have no seat in common: each needs a
move of its own. The claim is exact: the cheapest among plans of at most `most_moves` moves of this stock in which every
move cures the finding it was chosen for (or betters it, where no single move cures it), nothing changed twice; and
only if the search was not cut short.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from fitdb.model.remedy import WHOLE, Cost, Cure, Move

State = TypeVar("State")
Marks = frozenset[tuple[str, str]]  # (seat, attribute) that earlier moves changed; `*` for the whole seat


class OutOfBudget(Exception):
    """Raised by a workshop whose time is up while it looks for candidates."""


@dataclass(frozen=True, slots=True)
class Failing:
    """A finding that fails: its name (joint line and rule) and how far it is from its limit (0 where words fail)."""

    name: str
    margin: float = 0.0


@dataclass(frozen=True, slots=True)
class Workshop(Generic[State]):
    """What the search asks of a board.

    failing: the findings that fail. candidates: moves for one of them that change nothing already changed.
    applied: the board after a move. lead: (new undecided, shortfall, thin) of a board. mark: equal for equal boards.
    """

    failing: Callable[[State], tuple[Failing, ...]]
    candidates: Callable[[State, Failing, Marks], Sequence[Move]]
    applied: Callable[[State, Move], State]
    lead: Callable[[State], tuple[int, float, int]]
    mark: Callable[[State], Hashable]


@dataclass(frozen=True, slots=True)
class Mended(Generic[State]):
    """The best cure first, then the next that use other remedies, each with the board it makes.

    complete: False when the budget ended before the claim was proven. nodes: whole plans that were judged.
    """

    cures: tuple[tuple[Cure, State], ...]
    complete: bool
    nodes: int


@dataclass(frozen=True, slots=True)
class _Node(Generic[State]):
    state: State
    moves: tuple[Move, ...]
    chosen_for: tuple[str, ...]
    paid: Cost
    failing: tuple[Failing, ...] = field(default=())


def mend(
    start: State,
    shop: Workshop[State],
    *,
    most_moves: int,
    most_nodes: int,
    expired: Callable[[], bool],
    wanted: int = 3,
) -> Mended[State]:
    """The cheapest cure of `start` and the next `wanted` - 1 that use other remedies; none if there is no cure."""
    search = _Search(shop, most_moves)
    cures: list[tuple[Cure, State]] = []
    used: set[frozenset[str]] = set()
    cut_short = False
    try:
        search.push(_Node(start, (), (), Cost(), shop.failing(start)))
        while search.heap and len(cures) < wanted:
            node, is_cure = search.pop()
            if is_cure:
                remedies = frozenset(move.remedy.id for move in node.moves)
                if not any(other <= remedies for other in used):
                    used.add(remedies)
                    cures.append((Cure(node.moves, node.chosen_for, node.paid), node.state))
                continue
            if search.nodes >= most_nodes or expired():
                raise OutOfBudget
            search.open(node)
    except OutOfBudget:
        cut_short = True
    if cut_short:
        for node in search.waiting_cures():
            remedies = frozenset(move.remedy.id for move in node.moves)
            if len(cures) < wanted and not any(other <= remedies for other in used):
                used.add(remedies)
                cures.append((Cure(node.moves, node.chosen_for, node.paid), node.state))
    return Mended(tuple(cures), not cut_short, search.nodes)


class _Search(Generic[State]):
    """The open plans, cheapest bound first."""

    def __init__(self, shop: Workshop[State], most_moves: int) -> None:
        self.shop, self.most_moves = shop, most_moves
        self.heap: list[tuple[tuple[float, ...], int, float, float, int, _Node[State], bool]] = []
        self.serial = itertools.count()
        self.seen: dict[Hashable, Cost] = {}
        self.nodes = 0

    def push(self, node: _Node[State]) -> None:
        """Puts a plan in its place: a cure at its whole price, an open plan at the least that it can come to."""
        mark = self.shop.mark(node.state)
        if mark in self.seen and self.seen[mark] <= node.paid:
            return
        self.seen[mark] = node.paid
        self.nodes += 1
        if not node.failing:
            undecided, shortfall, thin = self.shop.lead(node.state)
            whole = _plus(node.paid, Cost(undecided, shortfall, thin))
            self._put(whole, _Node(node.state, node.moves, node.chosen_for, whole), is_cure=True)
            return
        least = self._least_to_come(node)
        if least is not None and node.paid.count + least.count <= self.most_moves:
            self._put(_plus(node.paid, least), node, is_cure=False)

    def _put(self, bound: Cost, node: _Node[State], is_cure: bool) -> None:
        worst = min((finding.margin for finding in node.failing), default=0.0)
        step = sum(move.step for move in node.moves)
        key = _key(bound)
        heapq.heappush(self.heap, (key, len(node.failing), -worst, step, next(self.serial), node, is_cure))

    def pop(self) -> tuple[_Node[State], bool]:
        *_, node, is_cure = heapq.heappop(self.heap)
        return node, is_cure

    def waiting_cures(self) -> list[_Node[State]]:
        """Cures that were found and not yet proven cheapest, cheapest first."""
        return [entry[5] for entry in sorted(self.heap, key=lambda entry: (entry[0], entry[4])) if entry[6]]

    def open(self, node: _Node[State]) -> None:
        """Tries every candidate for the failing finding that has the fewest."""
        moved = _changed(node.moves)
        offers = [(finding, self.shop.candidates(node.state, finding, moved)) for finding in node.failing]
        finding, moves = min(offers, key=lambda offer: (len(offer[1]), offer[0].margin, offer[0].name))
        for move in moves:
            after = self.shop.applied(node.state, move)
            failing = self.shop.failing(after)
            paid = _plus(node.paid, move.cost())
            self.push(_Node(after, (*node.moves, move), (*node.chosen_for, finding.name), paid, failing))

    def _least_to_come(self, node: _Node[State]) -> Cost | None:
        """The least that still has to be paid; None when some failing finding has no candidate at all."""
        moved = _changed(node.moves)
        least, taken = Cost(), set[tuple[str, str]]()
        offers = []
        for finding in node.failing:
            moves = self.shop.candidates(node.state, finding, moved)
            if not moves:
                return None
            offers.append((_changed(moves), moves))
        for marks, moves in sorted(offers, key=lambda offer: len(offer[0])):
            if not overlap(marks, taken):
                taken |= marks
                least = _plus(least, _cheapest_of_each(moves))
        return least


def overlap(marks: Iterable[tuple[str, str]], others: Iterable[tuple[str, str]]) -> bool:
    """Whether two sets of changes have one in common; a whole seat has every attribute of it."""
    by_seat: dict[str, set[str]] = {}
    for seat, attribute in others:
        by_seat.setdefault(seat, set()).add(attribute)
    return any(
        seat in by_seat and (attribute == WHOLE or WHOLE in by_seat[seat] or attribute in by_seat[seat])
        for seat, attribute in marks
    )


def _changed(moves: Sequence[Move]) -> Marks:
    return frozenset(mark for move in moves for mark in move.marks)


def _cheapest_of_each(moves: Sequence[Move]) -> Cost:
    costs = [move.cost() for move in moves]
    return Cost(
        exchanges=min(cost.exchanges for cost in costs),
        irreversible=min(cost.irreversible for cost in costs),
        gives_up=min(cost.gives_up for cost in costs),
        count=1,
        minutes=min(cost.minutes for cost in costs),
        money=min(cost.money for cost in costs),
    )


def _plus(one: Cost, other: Cost) -> Cost:
    return Cost(*(a + b for a, b in zip(_key(one), _key(other), strict=True)))  # type: ignore[arg-type]


def _key(cost: Cost) -> tuple[float, ...]:
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

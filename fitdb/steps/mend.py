"""Mend: the cheapest set of remedies that leaves nothing failing, found over whole plans, best first.

The search knows boards only through the `Workshop` that it is given: which findings fail, which moves would cure one of
them, what a state costs. It goes over the plans twice. The first time it branches on one failing finding, the one with
the fewest candidates, and bounds the price from below by the findings whose candidates have nothing in common: each
needs a move of its own. That finds a cure soon, and nearly always the cheapest; but what cures one finding may
give another its first or a cheaper candidate. So the second time it branches on every failing finding, below the price
of what was found, as far as its budget goes. Only when that ends is the claim made: the cheapest among plans of at most
`most_moves` moves of this stock in which every move cures the finding it was chosen for (or betters it, where no
single move cures it), nothing changed twice.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from fitdb.model.remedy import WHOLE, Cost, Cure, Move

NODES_FOR_OTHERS = 40  # whole plans that are judged beyond the first cure, to find others

State = TypeVar("State")
Marks = frozenset[tuple[str, str]]  # (seat, attribute) that earlier moves changed; `*` for the whole seat


class OutOfBudget(Exception):
    """Raised by a workshop whose time is up while it looks for candidates."""


@dataclass(frozen=True, slots=True)
class Failing:
    """A finding that fails: its name (joint line and rule) and how far it is from its limit (0 where words fail)."""

    name: str
    margin: float = 0.0


def _anywhere(failing: Failing, seat: str) -> bool:
    return True


def _never(failing: Failing) -> bool:
    return False


def _alike(state: object, chosen_for: Sequence[str]) -> float:
    return 0.0


@dataclass(frozen=True, slots=True)
class Workshop(Generic[State]):
    """What the search asks of a board.

    failing: the findings that fail. candidates: moves for one of them that change nothing already changed.
    applied: the board after a move. lead: (new undecided, shortfall, thin) of a board. mark: equal for equal boards.
    in_cone: whether a change in a seat could give a finding a candidate that it does not have now. lost: a finding
    that nothing can give one. room: how much the findings that were cured have to spare; of cures that cost the same
    the roomiest is told.
    """

    failing: Callable[[State], tuple[Failing, ...]]
    candidates: Callable[[State, Failing, Marks], Sequence[Move]]
    applied: Callable[[State, Move], State]
    lead: Callable[[State], tuple[int, float, int]]
    mark: Callable[[State], Hashable]
    in_cone: Callable[[Failing, str], bool] = _anywhere
    lost: Callable[[Failing], bool] = _never
    room: Callable[[State, Sequence[str]], float] = _alike


@dataclass(frozen=True, slots=True)
class Mended(Generic[State]):
    """The best cure first, then the next that use other remedies, each with the board it makes.

    complete: the first search came to its end. proven: the second did too, so the claim of this module holds.
    nodes: whole plans that were judged.
    """

    cures: tuple[tuple[Cure, State], ...]
    complete: bool
    proven: bool
    nodes: int


@dataclass(frozen=True, slots=True)
class _Node(Generic[State]):
    state: State
    moves: tuple[Move, ...]
    chosen_for: tuple[str, ...]
    paid: Cost
    failing: tuple[Failing, ...] = field(default=())
    room: float = 0.0

    @property
    def rank(self) -> tuple[Cost, float, float]:
        return self.paid, -self.room, sum(move.step for move in self.moves)


def mend(
    start: State,
    shop: Workshop[State],
    *,
    most_moves: int,
    most_nodes: int,
    expired: Callable[[], bool],
    wanted: int = 3,
    prove_nodes: int | None = None,
) -> Mended[State]:
    """The cheapest cure of `start` and the next `wanted` - 1 that use other remedies; none if there is no cure.

    most_nodes: whole plans that the first search may judge; prove_nodes: those that the second may (None: as many).
    """
    told = _Told(shop, wanted)
    soon = _Search(shop, most_moves, most_nodes, expired)
    complete = soon.run(_Node(start, (), (), Cost(), ()), told, every=False)
    if not complete:
        return Mended(told.cures(), False, False, soon.nodes)
    exact = _Search(shop, most_moves, most_nodes if prove_nodes is None else prove_nodes, expired)
    proven = exact.run(_Node(start, (), (), Cost(), ()), told, every=True)
    return Mended(told.cures(), True, proven, soon.nodes + exact.nodes)


class _Told(Generic[State]):
    """The cures found so far: of those that use the same remedies or more, and of equal boards, the cheapest."""

    def __init__(self, shop: Workshop[State], wanted: int) -> None:
        self.shop, self.wanted = shop, wanted
        self.found: list[_Node[State]] = []

    def add(self, node: _Node[State]) -> None:
        self.found.append(node)

    def different(self) -> list[_Node[State]]:
        kept: list[_Node[State]] = []
        for node in sorted(self.found, key=lambda node: node.rank):
            own = _remedies(node)
            alike = any(_remedies(other) <= own for other in kept)
            same = any(self.shop.mark(other.state) == self.shop.mark(node.state) for other in kept)
            if not alike and not same:
                kept.append(node)
        return kept[: self.wanted]

    def cures(self) -> tuple[tuple[Cure, State], ...]:
        return tuple((Cure(node.moves, node.chosen_for, node.paid), node.state) for node in self.different())


def _remedies(node: _Node[State]) -> frozenset[str]:
    return frozenset(move.remedy.id for move in node.moves)


class _Search(Generic[State]):
    """The open plans, cheapest bound first."""

    def __init__(self, shop: Workshop[State], most_moves: int, most_nodes: int, expired: Callable[[], bool]) -> None:
        self.shop, self.most_moves, self.most_nodes, self.expired = shop, most_moves, most_nodes, expired
        self.heap: list[tuple[tuple[float, ...], int, float, float, int, _Node[State], bool]] = []
        self.serial = itertools.count()
        self.seen: dict[Hashable, Cost] = {}
        self.nodes = 0

    def run(self, start: _Node[State], told: _Told[State], *, every: bool) -> bool:
        """Searches until enough is told (first time), or until nothing can come that is cheaper than what is told.

        Whether it came to its end; of the second search, whether at least the best is proven.
        """
        proven, others_by = False, 0
        try:
            self.push(_Node(start.state, (), (), Cost(), self.shop.failing(start.state)), every)
            while self.heap:
                if every:
                    known = told.different()
                    proven = bool(known) and self.heap[0][0] >= _key(known[0].paid)
                    if len(known) >= told.wanted and self.heap[0][0] >= _key(known[-1].paid):
                        return True
                node, is_cure = self.pop()
                if is_cure:
                    others_by = others_by or self.nodes + NODES_FOR_OTHERS
                    told.add(node)
                    if not every and len(told.different()) >= told.wanted:
                        return True
                    continue
                if not every and told.found and self.nodes >= others_by:
                    return True  # the others are told as far as they come soon
                if self.nodes >= self.most_nodes or self.expired():
                    raise OutOfBudget
                self.open(node, every)
        except OutOfBudget:
            for node in self.waiting_cures():
                told.add(node)
            return proven
        return True

    def push(self, node: _Node[State], every: bool) -> None:
        """Puts a plan in its place: a cure at its whole price, an open plan at the least that it can come to."""
        mark = self.shop.mark(node.state), node.paid.count  # fewer moves leave room for more
        if mark in self.seen and self.seen[mark] <= node.paid:
            return
        self.seen[mark] = node.paid
        self.nodes += 1
        if not node.failing:
            undecided, shortfall, thin = self.shop.lead(node.state)
            whole = _plus(node.paid, Cost(undecided, shortfall, thin))
            room = self.shop.room(node.state, node.chosen_for)
            self._put(whole, _Node(node.state, node.moves, node.chosen_for, whole, (), room), is_cure=True)
            return
        least = Cost(count=1) if every else self._least_to_come(node)
        if least is not None and node.paid.count + least.count <= self.most_moves:
            self._put(_plus(node.paid, least), node, is_cure=False)

    def _put(self, bound: Cost, node: _Node[State], is_cure: bool) -> None:
        worst = min((finding.margin for finding in node.failing), default=node.room)
        step = sum(move.step for move in node.moves)
        key = _key(bound)
        heapq.heappush(self.heap, (key, len(node.failing), -worst, step, next(self.serial), node, is_cure))

    def pop(self) -> tuple[_Node[State], bool]:
        *_, node, is_cure = heapq.heappop(self.heap)
        return node, is_cure

    def waiting_cures(self) -> list[_Node[State]]:
        """Cures that were found and not yet proven cheapest, cheapest first."""
        return [entry[5] for entry in sorted(self.heap, key=lambda entry: (entry[0], entry[4])) if entry[6]]

    def open(self, node: _Node[State], every: bool) -> None:
        """Tries every candidate of the finding that has the fewest, or of every finding."""
        for finding, move in self._branches(node, every):
            after = self.shop.applied(node.state, move)
            failing = self.shop.failing(after)
            paid = _plus(node.paid, move.cost())
            self.push(_Node(after, (*node.moves, move), (*node.chosen_for, finding.name), paid, failing), every)

    def _branches(self, node: _Node[State], every: bool) -> Iterator[tuple[Failing, Move]]:
        offers = self._offers(node)
        stuck = [finding for finding, moves in offers if not moves]
        if any(self.shop.lost(finding) for finding in stuck):
            return
        if every or stuck:
            for finding, moves in offers:
                for move in moves:
                    if every or self._may_help(stuck, move):
                        yield finding, move
            return
        finding, moves = min(offers, key=lambda offer: (len(offer[1]), offer[0].margin, offer[0].name))
        for move in moves:
            yield finding, move

    def _offers(self, node: _Node[State]) -> list[tuple[Failing, Sequence[Move]]]:
        moved = _changed(node.moves)
        return [(finding, self.shop.candidates(node.state, finding, moved)) for finding in node.failing]

    def _may_help(self, stuck: Sequence[Failing], move: Move) -> bool:
        """Whether a move made for another finding could give one that has no candidate its first."""
        return any(self.shop.in_cone(finding, seat) for finding in stuck for seat in move.seats)

    def _least_to_come(self, node: _Node[State]) -> Cost | None:
        """The least that still has to be paid; None when a finding without candidates can never get one."""
        least, taken = Cost(), set[tuple[str, str]]()
        offers = self._offers(node)
        stuck = [finding for finding, moves in offers if not moves]
        if stuck:
            helped = any(self._may_help([one], move) for one in stuck for _, moves in offers for move in moves)
            return Cost(count=2) if helped else None
        for moves in sorted((moves for _, moves in offers), key=lambda moves: len(_changed(moves))):
            marks = _changed(moves)
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

"""Taking apart: the seats that have to come free, and the least that has to be undone for them.

A node is a step at a place. Lines of the card gather the places of a step.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fitdb.model.remedy import Move
from fitdb.model.work import Span, Work, WorkStep
from fitdb.steps.order.boards import NO_WORK, Boards, meet
from fitdb.steps.order.conditions import Decided
from fitdb.steps.order.graph import among, closure, passed_through

TAKING_APART = ("isolate", "undo")


@dataclass(frozen=True, order=True, slots=True)
class At:
    """A step at a place of the board."""

    step: str
    place: str


@dataclass(frozen=True)
class Teardown:
    """The precedence graph of one board. needs: of every node that is there; sure: without what nobody could say."""

    boards: Boards
    work: Work
    needs: dict[At, frozenset[At]]
    sure: dict[At, frozenset[At]]
    all_needs: dict[At, frozenset[At]]

    def least(self, goals: Iterable[At]) -> frozenset[At]:
        """The goals and what comes before them; a goal with nothing to be done to it hands on what it needs."""
        return closure(among(goals, self.all_needs, self.needs), self.needs)

    def doubtful(self, goals: Iterable[At]) -> frozenset[At]:
        """Those of `least` that are there only because nobody could say whether they are needed."""
        there: frozenset[At] = among(goals, self.all_needs, self.needs)
        without: frozenset[At] = closure(there, self.sure)
        return self.least(there) - without

    def minutes(self, nodes: Iterable[At]) -> Span:
        total = Span()
        for node in nodes:
            total = total + self.work.steps[node.step].minutes
        return total

    def irreversible(self, nodes: Iterable[At]) -> list[At]:
        return [node for node in nodes if not self.work.steps[node.step].reversible]


def teardown_of(boards: Boards, decided: Decided) -> Teardown:
    """The graph of what has to be undone before what on the board as it stands."""
    work = boards.work
    steps = [step for step in work.steps.values() if step.phase in TAKING_APART]
    nodes = [At(step.id, place) for step in steps for place in boards.places_of(step)]
    by_step: dict[str, list[At]] = {}
    for node in nodes:
        by_step.setdefault(node.step, []).append(node)
    needs, sure = dict[At, set[At]](), dict[At, set[At]]()
    for node in nodes:
        needs[node], sure[node] = set(), set()
    for need in work.needs:
        for node in by_step.get(need.step, ()):
            holds = decided(need.condition, node.place)
            if holds is not False:
                before = {one for one in by_step.get(need.needs, ()) if meet(one.place, node.place)}
                needs[node] |= before
                if holds:
                    sure[node] |= before
    there = {node for node in nodes if boards.is_there(work.steps[node.step], node.place, boards.before)}
    if any(work.steps[node.step].electrical for node in there):  # where there are leads, there is a pack
        there |= {node for node in nodes if work.steps[node.step].gate}
    if not boards.before:
        there = set()
    frozen = {node: frozenset(some) for node, some in needs.items()}
    return Teardown(boards, work, passed_through(frozen, there), passed_through(sure, there), frozen)


def goals_of(boards: Boards) -> tuple[At, ...]:
    """The steps that free every seat that changes or is altered.

    What sits on a piece that leaves goes with it, and is set free only where it stays itself: wheels that are
    exchanged give up their pulleys, a truck that leaves takes its wheels along.
    """
    found: dict[At, None] = {}
    for seat in boards.seats:
        if boards.base(seat) in NO_WORK:
            continue
        if boards.changed(seat) != boards.leaves_with_its_carrier(seat):
            found |= dict.fromkeys(freeing(boards, seat, fills=seat not in boards.before))
    for move in boards.moves:
        if move.remedy.move in ("alter", "set"):
            for seat in move.seats:
                found |= dict.fromkeys(freeing_for_change(boards, seat, move))
    return tuple(found)


def freeing(boards: Boards, seat: str, fills: bool) -> Iterator[At]:
    """The steps that take the piece off the seat; for a seat to be filled those that lay it open."""
    base = boards.base(seat)
    taking = [step for step in _undoing(boards.work) if base in step.seats]
    opening = [step for step in _undoing(boards.work) if base in step.opens]
    for step in (opening or taking) if fills else (taking or opening):
        for place in boards.places_of(step):
            if meet(place, boards.place(seat)) and _kind_agrees(boards, step, place):
                yield At(step.id, place)


def freeing_for_change(boards: Boards, seat: str, move: Move) -> Iterator[At]:
    """What has to be undone so that a piece can be altered or set where it is."""
    base = boards.base(seat)
    if base in NO_WORK:
        return
    for change in boards.work.changes:
        if (change.seat, change.attribute) == (base, move.remedy.attribute):
            if change.undo:
                step = boards.work.steps[change.undo]
                yield from (At(step.id, one) for one in boards.places_of(step) if meet(one, boards.place(seat)))
            return
    if not boards.changed(seat):
        yield from freeing(boards, seat, fills=False)


def lines_of(boards: Boards, nodes: Iterable[At]) -> dict[str, tuple[str, ...]]:
    """The places of every step, steps in the order of the tables and places in that of the board."""
    wanted = set(nodes)
    return {
        step.id: places
        for step in boards.work.steps.values()
        if (places := tuple(place for place in boards.places_of(step) if At(step.id, place) in wanted))
    }


def _kind_agrees(boards: Boards, step: WorkStep, place: str) -> bool:
    return not step.where or boards.driven(place, boards.before) == (step.where == "driven")


def _undoing(work: Work) -> Iterator[WorkStep]:
    return (step for step in work.steps.values() if step.phase in TAKING_APART)

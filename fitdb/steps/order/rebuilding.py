"""Putting together and trying out: what was undone or is new, in the order of the tables, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitdb.model.remedy import Move
from fitdb.model.work import WorkStep
from fitdb.steps.order.boards import Boards, meet
from fitdb.steps.order.graph import in_order, passed_through
from fitdb.steps.order.undoing import At

ANY = "*"
PUTTING_TOGETHER = ("rebuild", "test")


def rebuilt(boards: Boards, undone: Iterable[At]) -> tuple[tuple[WorkStep, tuple[str, ...]], ...]:
    """The steps of rebuild and test that this plan takes, each with its places, in order."""
    done = tuple(node for node in undone if boards.work.steps[node.step].phase == "undo")
    lines: dict[str, tuple[str, ...]] = {}
    for step in boards.work.steps.values():
        if step.phase in PUTTING_TOGETHER:
            places = tuple(place for place in boards.places_of(step) if _wanted(step, place, boards, done))
            if places:
                lines[step.id] = places
    needs: dict[str, list[str]] = {}
    for need in boards.work.needs:
        if boards.work.steps[need.step].phase in PUTTING_TOGETHER:
            needs.setdefault(need.step, []).append(need.needs)
    order = list(boards.work.steps)
    among_these = passed_through(needs, lines)
    ordered = in_order(lines, among_these, lambda one, _: order.index(one))
    return tuple((boards.work.steps[own], lines[own]) for own in ordered)


def step_of_change(boards: Boards, move: Move, seat: str) -> str:
    """The step of the rebuild at which a setting or alteration is done; empty where it is a step of its own."""
    base = boards.base(seat)
    for change in boards.work.changes:
        if (change.seat, change.attribute) == (base, move.remedy.attribute):
            return change.step
    return ""


def needs_of(boards: Boards, lines: Iterable[str]) -> Mapping[str, frozenset[str]]:
    """What each of these steps comes after, among them."""
    needs: dict[str, list[str]] = {}
    for need in boards.work.needs:
        needs.setdefault(need.step, []).append(need.needs)
    return passed_through(needs, tuple(lines))


def _wanted(step: WorkStep, place: str, boards: Boards, done: tuple[At, ...]) -> bool:
    if step.where and boards.driven(place, boards.after) != (step.where == "driven"):
        return False
    names = step.present or step.seats
    if names and ANY not in names and not any(boards.filled_at(names, place, boards.after)):
        return False
    if any(meet(node.place, place) and (ANY in step.after or node.step in step.after) for node in done):
        return True
    new = any(
        boards.changed(seat) and not boards.came_with_its_carrier(seat)
        for seat in boards.filled_at(step.seats, place, boards.after)
    )
    return new or any(
        step_of_change(boards, move, seat) == step.id or (step.phase == "test" and boards.base(seat) in step.seats)
        for move in boards.moves
        if move.remedy.move in ("alter", "set")
        for seat in move.seats
        if meet(boards.place(seat), place)
    )

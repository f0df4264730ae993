"""Order of work: the shortest way to take the board apart for a plan, what to read and alter, and how to put it back.

What comes before what is rows of the catalogue (`work/`); what each plan needs of it is found here. Three things hold
whatever the rows say: no electrical step before the pack is unplugged, nothing for good before the readings that could
end the plan, and a plan that can hurt somebody and is undecided is measured, nothing else.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable

from fitdb.model.part import AttributeTable
from fitdb.model.pattern import Pattern
from fitdb.model.remedy import Move
from fitdb.model.verdict import SwapVerdict
from fitdb.model.work import CardStep, JobCard, Work
from fitdb.steps.order.boards import NO_WORK, Boards, boards_of
from fitdb.steps.order.card_lines import alteration_line, gate_line, reading_line, rebuild_line, undo_lines
from fitdb.steps.order.conditions import decider
from fitdb.steps.order.graph import in_order
from fitdb.steps.order.readings import Reach, laid_bare, waited_for
from fitdb.steps.order.rebuilding import rebuilt, step_of_change
from fitdb.steps.order.undoing import At, Teardown, goals_of, teardown_of
from fitdb.steps.order.ways import ways_of

BEFORE_FOR_GOOD, BEFORE_ALTERING = "gate_before_anything_for_good", "gate_before_altering"


def order_of_work(verdict: SwapVerdict, pattern: Pattern, work: Work, table: AttributeTable) -> JobCard:
    """The card for a plan that was judged. pattern: the layout of its board. work: the rows of the catalogue."""
    moves = verdict.cures[0].moves if verdict.cures else ()
    boards = boards_of(verdict.plan, pattern, work, table, moves)
    joints = verdict.cures[0].joints if verdict.cures else verdict.joints
    teardown = teardown_of(boards, decider(boards, joints))
    if verdict.best_allowed == "clash":
        return JobCard(verdict.best_allowed, "clash", False, (), (), ways_of(verdict, pattern, work, table))
    if verdict.blocked:
        steps = measuring_only(verdict, teardown)
        return JobCard(verdict.best_allowed, "", True, steps, (), ways_of(verdict, pattern, work, table))
    goals = goals_of(boards)
    least = teardown.least(goals)
    # With a remedy that holds over the whole range no reading is waited for.
    decisive = verdict.to_measure if verdict.best_allowed == "measure" else ()
    waiting = waited_for(decisive, teardown, least)
    beside = laid_bare(joints, teardown, least, waiting)
    undone = least.union(*(one.nodes for one in waiting))
    steps = (
        *_undone_and_read(teardown, undone, teardown.doubtful(goals), waiting, beside),
        *_altered(boards),
        *_put_together(boards, undone),
    )
    nothing = not steps or (not goals and not any(step.phase in ("alter", "rebuild") for step in steps))
    withheld = "nothing_changes" if nothing and not decisive else ""
    promises = tuple(f"{move.remedy.title}: {move.what}" for move in moves if _no_work(boards, move))
    ways = ways_of(verdict, pattern, work, table)
    return JobCard(verdict.best_allowed, withheld, False, () if withheld else steps, promises, ways)


def measuring_only(verdict: SwapVerdict, teardown: Teardown) -> tuple[CardStep, ...]:
    """The readings that the verdict waits for, and what lays them bare; nothing for good, nothing put on."""
    waiting = waited_for(verdict.to_measure, teardown, frozenset())
    undone = frozenset[At]().union(*(one.nodes for one in waiting))
    return _undone_and_read(teardown, undone, frozenset(), waiting, (), ends=True)


def _undone_and_read(
    teardown: Teardown,
    undone: frozenset[At],
    doubtful: frozenset[At],
    waiting: Iterable[Reach],
    beside: Iterable[Reach],
    ends: bool = False,
) -> tuple[CardStep, ...]:
    """Steps of taking apart with the readings between them, each as soon as it can be taken, and the gates behind."""
    lines = {line.key: line for line in undo_lines(teardown, undone, doubtful)}
    order = list(lines)
    for_good = [key for key, line in lines.items() if not line.reversible]
    needs = {key: frozenset(line.needs) for key, line in lines.items()}
    behind = {key for key in lines if _comes_after(key, for_good, needs)}
    first, late, told = list[str](), list[str](), list[str]()
    for number, reach in enumerate((*waiting, *beside), start=1):
        line = reading_line(number, reach, teardown)
        lines[line.key] = line
        needs[line.key] = frozenset(node.step for node in reach.nodes)
        (told if not reach.reading.doubt else late if needs[line.key] & behind else first).append(line.key)
    if for_good and first:
        lines[BEFORE_FOR_GOOD] = gate_line(BEFORE_FOR_GOOD, False, True)
        needs[BEFORE_FOR_GOOD] = frozenset(first)
        needs |= {key: needs[key] | {BEFORE_FOR_GOOD} for key in for_good}
    if late or told or (first and not for_good):
        lines[BEFORE_ALTERING] = gate_line(BEFORE_ALTERING, ends, bool(first or late))
        needs[BEFORE_ALTERING] = frozenset((*first, *late, *told))
    feeds = _before_any(first, needs)

    def prefers(key: str, before: str | None) -> tuple[object, ...]:
        line, last = lines[key], lines.get(before or "")
        return (
            line.kind == "work",
            key not in feeds,
            not line.reversible,
            last is None or last.tool != line.tool,
            last is None or last.places != line.places,
            order.index(key) if key in order else 0,
        )

    ordered = in_order(lines, needs, prefers)
    return tuple(_with_needs(lines[key], needs[key]) for key in ordered)


def _altered(boards: Boards) -> tuple[CardStep, ...]:
    """Alterations and settings that are steps of their own, what cannot be undone last."""
    moves = [
        move
        for move in boards.moves
        if not _no_work(boards, move)
        and (
            (move.remedy.move in ("alter", "set") and not step_of_change(boards, move, move.seats[0]))
            or (move.remedy.move in ("insert", "substitute") and not move.remedy.reversible)
        )
    ]
    return tuple(alteration_line(boards, move) for move in sorted(moves, key=lambda one: not one.remedy.reversible))


def _put_together(boards: Boards, undone: frozenset[At]) -> tuple[CardStep, ...]:
    steps = rebuilt(boards, undone)
    keys = [step.id for step, _ in steps]
    told = set[str]()
    return tuple(rebuild_line(boards, step, places, keys, told) for step, places in steps)


def _no_work(boards: Boards, move: Move) -> bool:
    return all(boards.base(seat) in NO_WORK for seat in move.seats)


def _comes_after(key: str, some: Iterable[str], needs: dict[str, frozenset[str]]) -> bool:
    return bool(_before_any([key], needs) & set(some))


def _before_any(keys: Iterable[str], needs: dict[str, frozenset[str]]) -> set[str]:
    """These steps and all that comes before them."""
    found, waiting = set[str](), list(keys)
    while waiting:
        key = waiting.pop()
        if key not in found:
            found.add(key)
            waiting.extend(needs.get(key, ()))
    return found


def _with_needs(line: CardStep, needs: frozenset[str]) -> CardStep:
    return dataclasses.replace(line, needs=tuple(sorted(needs)))

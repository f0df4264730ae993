"""Several ways side by side: cuts between two boards, or two cures, each by what it takes to take the board apart."""

from __future__ import annotations

from collections.abc import Iterator

from fitdb.model.part import AttributeTable
from fitdb.model.pattern import Pattern
from fitdb.model.verdict import CuredPlan, CutLine, SwapVerdict
from fitdb.model.work import Way, Work
from fitdb.steps.order.boards import Boards, boards_of
from fitdb.steps.order.conditions import decider
from fitdb.steps.order.graph import in_order
from fitdb.steps.order.undoing import At, Teardown, goals_of, lines_of, teardown_of

MOST_WAYS = 4


def ways_of(verdict: SwapVerdict, pattern: Pattern, work: Work, table: AttributeTable) -> tuple[Way, ...]:
    """The ways there are, the plan's own first; none where there is one way only."""
    found = _cuts if verdict.cut_lines else _cures
    ways = list(found(verdict, pattern, work, table))
    return tuple(ways[:MOST_WAYS]) if len(ways) > 1 else ()


def _cuts(verdict: SwapVerdict, pattern: Pattern, work: Work, table: AttributeTable) -> Iterator[Way]:
    moves = verdict.cures[0].moves if verdict.cures else ()
    yield _way("as the plan asks", boards_of(verdict.plan, pattern, work, table, moves), verdict.cures[:1], None)
    asked = boards_of(verdict.plan, pattern, work, table, ())
    for cut in verdict.cut_lines:
        given = asked.donors.get(cut.donor, {})
        unit = {seat: given[seat] for seat in cut.seats if seat in given}
        ends = {seat for seat in asked.before if _at_end(seat, cut.end) and _belongs(asked, seat, cut)}
        after = {seat: piece for seat, piece in asked.before.items() if seat not in ends} | unit
        moved = Boards(pattern, work, table, asked.before, after, (), asked.donors)
        yield _way(f"{cut.title}, {cut.end}, from {cut.donor}", moved, (), cut)


def _at_end(seat: str, end: str) -> bool:
    return seat.startswith(f"{end}_")


def _belongs(boards: Boards, seat: str, cut: CutLine) -> bool:
    """Whether a seat of the board leaves with the unit: it has one of its names."""
    names = {boards.base(one) for one in cut.seats if one in boards.pattern.seats}
    return boards.base(seat) in names


def _cures(verdict: SwapVerdict, pattern: Pattern, work: Work, table: AttributeTable) -> Iterator[Way]:
    for cured in verdict.cures:
        if cured.moves:
            title = "; ".join(f"{move.remedy.title}: {move.what}" for move in cured.moves)
            yield _way(title, boards_of(verdict.plan, pattern, work, table, cured.moves), (cured,), None)


def _ordered(boards: Boards, teardown: Teardown, nodes: frozenset[At]) -> tuple[str, ...]:
    lines = list(lines_of(boards, nodes))
    needs = {own: {one.step for node in nodes if node.step == own for one in teardown.needs[node]} for own in lines}
    return in_order(lines, needs, lambda own, _: (not boards.work.steps[own].reversible, lines.index(own)))


def _way(title: str, boards: Boards, cures: tuple[CuredPlan, ...], cut: CutLine | None) -> Way:
    joints = cures[0].joints if cures else ()
    teardown = teardown_of(boards, decider(boards, joints))
    least = teardown.least(goals_of(boards))
    return Way(
        title=title,
        steps=tuple(boards.work.steps[own].title for own in _ordered(boards, teardown, least)),
        minutes=teardown.minutes(least),
        irreversible=len(teardown.irreversible(least))
        + sum(not move.remedy.reversible for cured in cures for move in cured.moves),
        clashing=len(cut.clashing) if cut else None,
        undecided=cut.undecided if cut else None,
    )

"""Front door: a whole board before and after a swap, judged; what clashes, what mends it, what to measure first.

place · join · survey · judge on the board as it stands and as it is wanted, `mend` over the remedies of the catalogue,
the doubts that one remedy closes, the exchanges that would be another plan, and the readings that decide.
"""

from __future__ import annotations

import datetime
import functools
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fitdb.board import BoardJudge, Judged, touched
from fitdb.catalogue import read
from fitdb.catalogue.asked import NO_BOARDS, plan_of_file
from fitdb.catalogue.keep import kept_readings
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.conflicts import conflicts, exchanges_wanted, failing_findings
from fitdb.cut_lines import cut_lines
from fitdb.intake.nearest import did_you_mean
from fitdb.measuring import to_measure
from fitdb.model.finding import Finding
from fitdb.model.joint import NotAsked
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.remedy import Cost, Cure, Move
from fitdb.model.rule import Rulebook, Severity
from fitdb.model.verdict import CuredPlan, JointVerdict, PassedOver, SwapVerdict
from fitdb.offers import StockOf
from fitdb.rules import rulebook
from fitdb.sheets.blank_plan import blank_plan
from fitdb.steps.bill import bill
from fitdb.steps.explain import Display
from fitdb.steps.explain.swaps import swap_document
from fitdb.steps.mend import Failing, Marks, Mended, OutOfBudget, mend
from fitdb.workshop import BoardWorkshop

WORST_FIRST = ("clash", "measure", "fits")
Clock = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Budget:
    """How much an answer may take: whole plans judged to find cures and to prove the cheapest, seconds on `clock`.

    The clock is the time of this thread, so that a busy machine does not turn a verdict; a solver has threads of its
    own, so three times as long on the wall is the end as well. `seconds` are given to each search, `more` to each of
    what is told beside it: conflicts, exchanges, what was passed over, what to measure.
    """

    nodes: int = 400
    prove_nodes: int = 60
    seconds: float = 6.0
    more: float = 2.0
    clock: Clock = time.thread_time
    wall: Clock = time.monotonic

    def expired(self, seconds: float) -> Callable[[], bool]:
        ends, at_the_latest = self.clock() + seconds, self.wall() + 3 * seconds
        return lambda: self.clock() > ends or self.wall() > at_the_latest


def ask(url: str | None, file: Path, readings: Sequence[str], display: Display, keep: bool = False) -> dict[str, Any]:
    """The answer to the plan in a file, from the catalogue at `url` (None: the default one).

    readings: ROLE.ATTRIBUTE=VALUE, taken since the file was written. keep: they are also written back to the parts.
    Raises Malformed with every fault, by row and column.
    """
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, file, readings)
            told = answer(plan, book, rulebook(), stock_in(connection), display)
        told["kept"] = kept_readings(engine, plan) if keep else []
        return told
    finally:
        engine.dispose()


def answer(plan: SwapPlan, book: Book, rules: Rulebook, stock_of: StockOf, display: Display) -> dict[str, Any]:
    """The verdict on a plan as one document, with a bill for every cure."""
    return told_of(swap(plan, book, rules, stock_of), book, display)


def told_of(verdict: SwapVerdict, book: Book, display: Display) -> dict[str, Any]:
    """A verdict as one document, with a bill for every cure."""
    bills = [bill(cured.moves, book.table, book.stock) for cured in verdict.cures]
    return swap_document(verdict, bills, display, datetime.date.today().isoformat())


def compared(told: dict[str, Any], other: dict[str, Any]) -> dict[str, Any]:
    """Two answers side by side: the same questions, each answered for both."""

    def row(what: str, value: Callable[[dict[str, Any]], Any]) -> dict[str, Any]:
        return {"what": what, "this": value(told), "other": value(other)}

    def cost(answer: dict[str, Any], key: str) -> Any:
        return answer["remedies"][0]["cost"][key] if answer["remedies"] else 0

    rows = [
        row("verdict", lambda one: one["verdict"]),
        row("as asked", lambda one: one["as_asked"]),
        row("joints touched", lambda one: sum(joint["verdict"] != "not_asked" for joint in one["joints"])),
        row("joints that clash as asked", lambda one: sum(joint["verdict"] == "clash" for joint in one["joints"])),
        row("readings to take first", lambda one: len(one["measure_first"])),
        row("remedies", lambda one: [move["sentence"] for plan in one["remedies"] for move in plan["moves"]]),
        row("minutes of the remedies", lambda one: cost(one, "minutes")),
        row("money of the remedies, mu", lambda one: cost(one, "money_mu")),
        row("of these not reversible", lambda one: cost(one, "irreversible")),
    ]
    return {"this": told, "other": other, "rows": rows}


def blank(url: str | None, layout: str) -> str:
    """A commented plan for a layout. Raises Malformed, with the layouts there are, when there is none of that name."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
    finally:
        engine.dispose()
    return blank_in(book, layout)


def blank_in(book: Book, layout: str) -> str:
    """The same, from an open catalogue."""
    known = board_layouts(book)
    if layout not in known:
        hint = f"{did_you_mean(layout, known)} Layouts: {', '.join(known)}.".strip()
        what = f"there is no layout {layout!r}." if layout else "no layout is named."
        raise Malformed([Problem("unknown_layout", what, "/layout", hint=hint)])
    return blank_plan(book.patterns[layout], book.table)


def board_layouts(book: Book) -> tuple[str, ...]:
    """The ids of the layouts of whole boards: not the parts on the table, nor the template that all draw on."""
    return tuple(own for own in book.patterns if own not in NO_BOARDS)


def stock_in(connection: Any) -> StockOf:
    """The catalogue's parts of one class and those like it, each class read once."""
    return functools.lru_cache(maxsize=None)(lambda part_class: read.parts_of_classes(connection, (part_class,)))


def swap(
    plan: SwapPlan,
    book: Book,
    rules: Rulebook,
    stock_of: StockOf,
    budget: Budget = Budget(),
    mending: bool = True,
) -> SwapVerdict:
    """The verdict on a plan. `stock_of` gives the catalogue's parts of one class, for remedies and exchanges.

    mending: whether remedies and exchanges are looked for; without them best_allowed is what it is as asked.
    """
    judge = judge_of(plan, book, rules)
    stood = judge.judge(plan.before) if plan.before else None
    asked = judge.judge(plan.after)
    joints = touched(asked, stood)
    as_asked = verdict_of(joints)
    shop = BoardWorkshop(judge, plan, asked, stood, stock_of)
    search = _mended(shop, asked, plan, budget) if as_asked == "clash" and mending else _no_search(asked)
    closing = budget.expired(budget.more)
    cures = tuple(_closed(shop, cure, board, closing) for cure, board in search.cures) if mending else ()
    best = _best_allowed(as_asked, cures) if mending else as_asked
    instead = _instead(shop, asked, plan, budget) if best == "clash" and mending else ()
    more = functools.partial(budget.expired, budget.more)
    decided = search.cures[0][1] if search.cures and best == "measure" else asked
    ids = {id(joint) for joint in joints}
    return SwapVerdict(
        plan=plan,
        as_asked=as_asked,
        best_allowed=best,
        before=verdict_of(stood.joints) if stood is not None else "not_asked",
        clashed=_clashed(stood),
        joints=_worst_first(joints),
        untouched=_worst_first(joint for joint in asked.joints if id(joint) not in ids),
        not_asked=asked.not_asked,
        waiting=_waiting(asked, stood),
        cures=cures if as_asked != "fits" else (),
        instead=instead,
        wanted=exchanges_wanted(shop, asked, stood, more()) if best == "clash" and mending else (),
        passed_over=_passed_over(shop, asked, cures, more()) if as_asked == "clash" and mending else (),
        conflicts=conflicts(shop, asked, stood, more()) if as_asked == "clash" else (),
        to_measure=to_measure(judge, decided, stood, more()) if best == "measure" or as_asked == "measure" else (),
        beside_measure=_beside(shop, asked, more()) if as_asked == "measure" and best == "measure" else (),
        cut_lines=cut_lines(judge, plan, stood),
        complete=search.complete,
        proven=search.proven,
        blocked=_blocked(touched(decided, stood)) and best != "fits_with",
        nodes=search.nodes,
        rules_judged=judge.work.judged,
        revision=book.revision,
        stamp=rules.stamp,
    )


def verdict_of(joints: Sequence[JointVerdict]) -> str:
    """The worst of the joints; not_asked where no rule could be asked."""
    verdicts = {joint.verdict for joint in joints}
    return next((word for word in WORST_FIRST if word in verdicts), "not_asked")


def _clashed(stood: Judged | None) -> tuple[str, ...]:
    """Titles of the joints that clashed on the board as it stood."""
    joints = stood.joints if stood is not None else ()
    return tuple(dict.fromkeys(joint.joint.line.title for joint in joints if joint.verdict == "clash"))


def _waiting(asked: Judged, stood: Judged | None) -> tuple[NotAsked, ...]:
    """Lines that a part which is put on has a role in, and that could not be asked because another role is empty."""
    before = stood.seated if stood is not None else {}
    new = {seat for seat, piece in asked.seated.items() if seat not in before or before[seat].part is not piece.part}
    return tuple(
        item
        for item in asked.not_asked
        if any(seat in new for role in item.line.roles if role.how == "single" for seat in role.seats)
    )


def judge_of(plan: SwapPlan, book: Book, rules: Rulebook) -> BoardJudge:
    """The judge of a plan's boards, with the plan's own limits over those of the catalogue."""
    before = {piece.seat: piece for piece in plan.before}
    return BoardJudge(book.patterns[plan.pattern], book, rules, {**book.limits, **plan.limits}, before)


def _mended(shop: BoardWorkshop, board: Judged, plan: SwapPlan, budget: Budget) -> Mended[Judged]:
    shop.expired = expired = budget.expired(budget.seconds)
    found = mend(
        board,
        shop.shop(),
        most_moves=plan.most_moves,
        most_nodes=budget.nodes,
        expired=expired,
        prove_nodes=budget.prove_nodes,
    )
    shop.expired = _never
    return found


def _never() -> bool:
    return False


def _no_search(board: Judged) -> Mended[Judged]:
    """Nothing fails, so nothing has to be mended: the board as it is, at no cost."""
    return Mended(((Cure((), (), Cost()), board),), True, True, 1)


def _closed(shop: BoardWorkshop, cure: Cure, board: Judged, late: Callable[[], bool]) -> CuredPlan:
    """The cured board with those doubts closed that one reversible remedy closes over the whole range.

    Unproven by design: each doubt takes the first remedy that closes it and opens none.
    """
    cured, closing = board, list[Move]()
    while not late():
        moves = _closers(shop, board, frozenset(mark for move in (*cure.moves, *closing) for mark in move.marks))
        if not moves:
            break
        closing.append(moves[0])
        board = shop.applied(board, moves[0])
    if closing and verdict_of(touched(board, shop.stood)) != "fits":  # a doubt that stays leaves nothing closed
        board, closing = cured, []
    joints = touched(board, shop.stood)
    told = verdict_of(joints)
    mended = "fits_with" if told == "fits" and (cure.moves or closing) else told
    return CuredPlan(cure, tuple(closing), mended, _worst_first(joints))


def _closers(shop: BoardWorkshop, board: Judged, moved: Marks) -> tuple[Move, ...]:
    for joint in touched(board, shop.stood):
        for finding in joint.findings:
            if finding.state == "undecided" and not finding.unread and not any(one.widened for one in finding.inputs):
                moves = shop.closers(board, f"{joint.joint.line.id}|{finding.rule.id}", moved)
                if moves:
                    return moves
    return ()


def _best_allowed(as_asked: str, cures: Sequence[CuredPlan]) -> str:
    if as_asked in ("fits", "not_asked"):
        return as_asked
    if not cures:
        return "clash"
    if any(cured.verdict == "fits_with" for cured in cures):
        return "fits_with"
    return "measure"


def _instead(shop: BoardWorkshop, asked: Judged, plan: SwapPlan, budget: Budget) -> tuple[CuredPlan, ...]:
    """Plans in which a deck, truck, motor, box, pack, charger or controller is another: never remedies."""
    wider = BoardWorkshop(shop.judge, plan, asked, shop.stood, shop.stock_of, exchanges=True)
    search = _mended(wider, asked, plan, budget)
    late = budget.expired(budget.more)
    return tuple(_closed(wider, cure, board, late) for cure, board in search.cures)


def _passed_over(
    shop: BoardWorkshop, asked: Judged, cures: Sequence[CuredPlan], late: Callable[[], bool]
) -> tuple[PassedOver, ...]:
    """Remedies that cure a finding of the board as asked and are in no answer, each with what ruled it out."""
    used = {move.remedy.id for cured in cures for move in cured.moves}
    told: dict[str, PassedOver] = {}
    failed = {failing.name for failing in shop.failing(asked)}
    for failing in shop.failing(asked):
        for move in _candidates(shop, asked, failing, late):
            if move.remedy.id in used or move.remedy.id in told or late():
                continue
            after = shop.applied(asked, move)
            left = {one.name for one in shop.failing(after)}
            if failing.name in left:
                continue
            new = [
                (joint, finding)
                for joint, finding in failing_findings(touched(after, shop.stood))
                if f"{joint.joint.line.id}|{finding.rule.id}" not in failed
            ]
            broken = _worst_new(shop, asked, after)
            by = new[0][1] if new else broken
            why = "" if by is not None else _why_not(cures, left)
            told[move.remedy.id] = PassedOver(move.remedy.title, move.what, failing.name, by, why)
    for title, why in shop.offers.left_out.items():
        told.setdefault(title, PassedOver(title, "", "", None, why))
    return tuple(told.values())[:8]


def _candidates(shop: BoardWorkshop, board: Judged, failing: Failing, late: Callable[[], bool]) -> tuple[Move, ...]:
    """The moves for one finding; none where the time is over before they are all looked at."""
    shop.expired = late
    try:
        return shop.candidates(board, failing, frozenset())
    except OutOfBudget:
        return ()
    finally:
        shop.expired = _never


def _why_not(cures: Sequence[CuredPlan], left: set[str]) -> str:
    """Why a remedy that breaks nothing is in no answer."""
    if cures:
        return "it costs more, or gives more up, than the answer"
    still = ", ".join(sorted({name.split("|")[1] for name in left}))
    return f"it cures that much, but no remedy cures {still}"


def _worst_new(shop: BoardWorkshop, asked: Judged, after: Judged) -> Finding | None:
    """What is newly undecided: a remedy may only shift the doubt."""
    before = {
        (joint.joint.line.id, f.rule.id)
        for joint in touched(asked, shop.stood)
        for f in joint.findings
        if f.state == "undecided"
    }
    for joint in touched(after, shop.stood):
        for finding in joint.findings:
            if finding.state == "undecided" and (joint.joint.line.id, finding.rule.id) not in before:
                return finding
    return None


def _beside(shop: BoardWorkshop, board: Judged, late: Callable[[], bool]) -> tuple[Move, ...]:
    """Remedies that hold whatever the reading turns out to be, told beside `measure`."""
    found: dict[str, Move] = {}
    for joint in touched(board, shop.stood):
        for finding in joint.findings:
            if finding.state == "undecided" and not late():
                name = f"{joint.joint.line.id}|{finding.rule.id}"
                for move in _candidates(shop, board, Failing(name), late):
                    after = shop.applied(board, move)
                    states = {
                        f.state
                        for one in after.joints
                        if one.joint.line.id == joint.joint.line.id
                        for f in one.findings
                    }
                    if not states & {"fails", "undecided"} and not shop.failing(after) and not shop.lead(after)[0]:
                        found.setdefault(move.remedy.id, move)
    return tuple(found.values())[:4]


def _blocked(joints: Sequence[JointVerdict]) -> bool:
    """Whether an injury or fire joint is undecided: then only measuring steps may be taken."""
    return any(
        finding.state == "undecided" and finding.rule.severity >= Severity.INJURY
        for joint in joints
        for finding in joint.findings
    )


def _worst_first(joints: Any) -> tuple[JointVerdict, ...]:
    order = (*WORST_FIRST, "not_asked")
    return tuple(sorted(joints, key=lambda joint: order.index(joint.verdict)))


CONFLICT_KEYS = (
    "plan",
    "verdict",
    "as_asked",
    "before",
    "sentence",
    "conflicts",
    "measuring_only",
    "cautions",
    "catalogue_revision",
    "rulebook_stamp",
    "date",
)


def conflicts_answer(
    plan: SwapPlan, book: Book, rules: Rulebook, stock_of: StockOf, display: Display
) -> dict[str, Any]:
    """Which choices of a plan cannot stand together, as one document; nothing is mended, so it is told sooner."""
    verdict = swap(plan, book, rules, stock_of, mending=False)
    told = swap_document(verdict, (), display, datetime.date.today().isoformat())
    if verdict.as_asked == "clash":  # what remedies do about it was not asked, so nothing is claimed of them
        told["sentence"] = "As asked it clashes; remedies were not looked for."
    return {key: told[key] for key in CONFLICT_KEYS}

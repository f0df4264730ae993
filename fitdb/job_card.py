"""Front door: the order of work for a plan, from the first reading to the last ride, with what it takes and costs.

The plan is judged first. A plan that clashes gets no card, one that is undecided where somebody can be hurt is measured
and nothing else; for every other the least is undone, checked, altered, put back and tried out.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.intake.seat_names import base_name
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.model.verdict import SwapVerdict
from fitdb.model.work import JobCard
from fitdb.rules import rulebook
from fitdb.steps.bill import bill
from fitdb.steps.explain import Display
from fitdb.steps.explain.job_cards import Charged, compared_cards, job_card_document
from fitdb.steps.order import order_of_work
from fitdb.swap import Budget, stock_in, swap

GREATEST_RATE = 10_000.0  # mu per hour; more is a slip of the keys


def ask(
    url: str | None,
    file: Path,
    readings: Sequence[str],
    display: Display,
    rate: float | None = None,
    compare: Path | None = None,
) -> dict[str, Any]:
    """The card for the plan in a file, from the catalogue at `url` (None: the default one).

    readings: ROLE.ATTRIBUTE=VALUE, taken since the file was written. rate: mu per hour, for a quote. compare: another
    plan; the answer is then {this, other, rows}. Raises Malformed with every fault.
    """
    check_rate(rate)
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            told = []
            for one, taken in ((file, readings), *(((compare, ()),) if compare is not None else ())):
                plan = plan_of_file(connection, book, one, taken)
                verdict = swap(plan, book, rulebook(), stock_in(connection), Budget())
                told.append(answer(verdict, book, rulebook(), display, rate))
        return told[0] if compare is None else compared_cards(told[0], told[1])
    finally:
        engine.dispose()


def job_card(verdict: SwapVerdict, book: Book) -> JobCard:
    """The order of work for a judged plan, from the layout and the work tables of the catalogue it was judged with."""
    return order_of_work(verdict, book.patterns[verdict.plan.pattern], book.work, book.table)


def answer(
    verdict: SwapVerdict, book: Book, rules: Rulebook, display: Display, rate: float | None = None
) -> dict[str, Any]:
    """The card as one document, with a quote where a rate (mu per hour) is told."""
    card = job_card(verdict, book)
    parts = bill(verdict.cures[0].moves, book.table, book.stock) if verdict.cures else ()
    joints: dict[str, str] = {}
    for kind in rules.kinds.values():
        joints.setdefault(kind.joint, kind.title)
    charged = Charged(rate, parts, _unpriced(verdict)) if rate is not None else None
    today = datetime.date.today().isoformat()
    return job_card_document(card, verdict, joints, parts, _sets(verdict, book), charged, display, today)


def check_rate(rate: float | None) -> None:
    """Malformed unless the rate is a number from 0 to GREATEST_RATE."""
    if rate is not None and not (math.isfinite(rate) and 0 <= rate <= GREATEST_RATE):
        hint = f"Say mu per hour, 0 to {GREATEST_RATE:g}; one mu is about one euro or dollar."
        raise Malformed([Problem("bad_rate", f"{rate:g} mu per hour is no rate.", "/rate", hint=hint)])


def _sets(verdict: SwapVerdict, book: Book) -> frozenset[str]:
    """Parts of which one stands for all fasteners of a place: what lies in the seat of screws that are counted."""
    many = {one.length.partition(".")[0] for one in book.work.fastenings if one.counts != ("1",)} - {""}
    pattern = book.patterns[verdict.plan.pattern]
    moves = verdict.cures[0].moves if verdict.cures else ()
    pieces = [piece for move in moves for piece in move.pieces]
    return frozenset(piece.part.id for piece in pieces if base_name(pattern.seats[piece.seat]) in many)


def _unpriced(verdict: SwapVerdict) -> tuple[str, ...]:
    """New parts of the plan itself that stay in the answer: the bill prices only what the remedies put in."""
    before = {piece.seat: piece.part.id for piece in verdict.plan.before}
    given = {piece.part.id for pieces in verdict.plan.donors.values() for piece in pieces}
    priced = {item.part.id for item in verdict.plan.stock if item.money is not None}
    moves = verdict.cures[0].moves if verdict.cures else ()
    replaced = {seat for move in moves for seat in move.seats if move.remedy.move in ("insert", "substitute")}
    return tuple(
        dict.fromkeys(
            piece.part.title
            for piece in verdict.plan.after
            if not piece.by_default
            and piece.seat not in replaced
            and before.get(piece.seat) != piece.part.id
            and piece.part.id not in given | priced
            and piece.seat not in ("rider", "route", "wish")
        )
    )

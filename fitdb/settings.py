"""Front door: what to set in the controllers of a board, each value with the link that sets it.

The sheet of a plan is for the board as it would be built: as asked, with the changes of the best answer. Beside every
line stands the same line of the board as it is; what is set now is what the controllers of the plan say.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.model.joint import Piece
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook, Severity
from fitdb.model.set_up import SettingsSheet, Standing
from fitdb.model.verdict import SwapVerdict
from fitdb.rules import rulebook
from fitdb.steps.explain import Display
from fitdb.steps.explain.settings_sheets import settings_document
from fitdb.steps.explain.swap_words import move_in_brief, reading_name
from fitdb.steps.set_up import set_up
from fitdb.swap import stock_in, swap

MOST_NAMED = 6


def ask(url: str | None, file: Path, readings: Sequence[str], display: Display) -> dict[str, Any]:
    """The settings sheet of the plan in a file, from the catalogue at `url` (None: the default one).

    readings: ROLE.ATTRIBUTE=VALUE, taken since the file was written. Raises Malformed with every fault, by row and
    column.
    """
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, file, readings)
            verdict = swap(plan, book, rulebook(), stock_in(connection))
            return told(verdict, book, rulebook(), display)
    finally:
        engine.dispose()


def answer(verdict_of_plan: SwapVerdict, book: Book, display: Display) -> dict[str, Any]:
    """The settings sheet beside a verdict that was already asked for."""
    return told(verdict_of_plan, book, rulebook(), display)


def told(verdict: SwapVerdict, book: Book, rules: Rulebook, display: Display) -> dict[str, Any]:
    """The sheet of a verdict as one document: the board as it would be built, beside the board as it stands."""
    plan = verdict.plan
    limits = {**book.limits, **plan.limits}
    sheet = set_up(built(verdict), book.table, limits, now=plan.after)
    before = set_up(plan.before, book.table, limits) if plan.before else None
    return settings_document(
        sheet,
        display,
        standing=standing(verdict),
        before=before,
        plan={"id": plan.id, "title": plan.title},
        revision=book.revision,
        stamp=rules.stamp,
        date=datetime.date.today().isoformat(),
    )


def settings(pieces: Sequence[Piece], pattern: Pattern, book: Book) -> SettingsSheet:
    """The settings sheet of the pieces of a board. Pieces in seats that the pattern lacks are left out."""
    return set_up([piece for piece in pieces if piece.seat in pattern.seats], book.table, book.limits)


def built(verdict: SwapVerdict) -> tuple[Piece, ...]:
    """The board as it would be built: as asked, with the moves of the best answer done one after the other."""
    seated = {piece.seat: piece for piece in verdict.plan.after}
    for cured in verdict.cures[:1]:
        for move in cured.moves:
            seated.update({piece.seat: piece for piece in move.pieces})
    return tuple(seated.values())


def standing(verdict: SwapVerdict) -> Standing:
    """Whether the sheet may be used: not while the board clashes, nor while a reading decides whether it does."""
    moves = [move for cured in verdict.cures[:1] for move in cured.moves]
    changes = tuple(move_in_brief(move) for move in moves)
    if verdict.best_allowed == "clash":
        titles = [joint.joint.line.title for joint in verdict.joints if joint.verdict == "clash"]
        return Standing("clash", changes, tuple(dict.fromkeys(titles))[:MOST_NAMED])
    if verdict.blocked:
        return Standing("blocked", changes, _to_read(verdict, hurting=True))
    if verdict.best_allowed == "measure":
        return Standing("readings", changes, _to_read(verdict, hurting=False))
    return Standing("changes" if changes else "ready", changes)


def _to_read(verdict: SwapVerdict, hurting: bool) -> tuple[str, ...]:
    """The readings that decide; with `hurting` those alone that decide about a joint that can hurt someone."""
    found = [
        reading_name(item)
        for item in verdict.to_measure
        if not hurting or any(finding.rule.severity >= Severity.INJURY for finding in item.decides)
    ]
    return tuple(dict.fromkeys(found))[:MOST_NAMED] or ("the readings that the verdict names",)

"""Front door: what to set in the controllers of a board, each value with the link that sets it.

The sheet of a plan is for the board as it would be built: as asked, with the changes of the best answer. Beside every
line stands the same line of the board as it is; what is set now is what the controllers of the plan say.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import replace
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
from fitdb.model.verdict import JointVerdict, SwapVerdict
from fitdb.rules import rulebook
from fitdb.steps.explain import Display
from fitdb.steps.explain.settings_sheets import settings_document
from fitdb.steps.explain.swap_words import move_in_brief, reading_name
from fitdb.steps.set_up import seat_words, set_up
from fitdb.swap import stock_in, swap

MOST_NAMED = 6
ON_THE_SHEET = frozenset(
    (
        "pack_current",
        "motor_current",
        "braking_motor_current",
        "braking_charge_limit",
        "soft_cutoff_start",
        "soft_cutoff_end",
        "rev_ceiling",
        "speed_ceiling",
        "runs_above_voltage_limit",
        "temperature_setting",
        "position_sensing",
    )
)


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
            return answer(verdict, book, rulebook(), display)
    finally:
        engine.dispose()


def answer(verdict: SwapVerdict, book: Book, rules: Rulebook, display: Display) -> dict[str, Any]:
    """The sheet of a verdict as one document: the board as it would be built, beside the board as it stands."""
    plan = verdict.plan
    limits = {**book.limits, **plan.limits}
    board = verdict.built
    seats = book.patterns[plan.pattern].seats
    sheet = set_up(board, book.table, limits, now=plan.after, layout=seats)
    before = set_up(plan.before, book.table, limits, layout=seats) if plan.before else None
    return settings_document(
        measured_anew(sheet, plan.before, board),
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
    here = [piece for piece in pieces if piece.seat in pattern.seats]
    return set_up(here, book.table, book.limits, layout=pattern.seats)


def measured_anew(sheet: SettingsSheet, before: Sequence[Piece], after: Sequence[Piece]) -> SettingsSheet:
    """The sheet with what the plan changes of motors, their leads and controllers, told where motors are measured."""
    if not before:
        return sheet
    stood = {piece.seat: piece.part.id for piece in before}
    changed = [piece.seat for piece in after if _measured(piece.seat) and stood.get(piece.seat) != piece.part.id]
    note = (
        f"This plan changes: {seat_words(changed)}."
        if changed
        else "This plan changes neither motor, lead, sensor nor controller: what was measured before may stand."
    )
    lines = [
        replace(line, notes=(*line.notes, note)) if line.id == "self_measurement" else line for line in sheet.lines
    ]
    return replace(sheet, lines=tuple(lines))


def _measured(seat: str) -> bool:
    return seat.endswith(("motor", "direct_drive", "phase_lead", "sensor_lead")) or seat.startswith("controller")


def standing(verdict: SwapVerdict) -> Standing:
    """Whether the sheet may be used: not while the board clashes, nor while a reading decides whether it does."""
    moves = [move for cured in verdict.cures[:1] for move in cured.moves]
    changes, sets = (
        tuple(move_in_brief(move) for move in moves if (move.remedy.attribute in ON_THE_SHEET) is on_the_sheet)
        for on_the_sheet in (False, True)
    )
    titles = _clashing(verdict.joints)
    stood = _clashing(verdict.untouched)
    if verdict.best_allowed == "clash":
        return Standing("clash", changes, titles, sets, stood)
    if verdict.blocked:
        return Standing("blocked", changes, _to_read(verdict, hurting=True), sets, stood)
    if verdict.best_allowed == "measure":
        return Standing("readings", changes, _to_read(verdict, hurting=False), sets, stood)
    return Standing("changes" if changes else "ready", changes, (), sets, stood)


def _clashing(joints: Sequence[JointVerdict]) -> tuple[str, ...]:
    titles = [joint.joint.line.title for joint in joints if joint.verdict == "clash"]
    return tuple(dict.fromkeys(titles))[:MOST_NAMED]


def _to_read(verdict: SwapVerdict, hurting: bool) -> tuple[str, ...]:
    """The readings that decide; with `hurting` those alone that decide about a joint that can hurt someone."""
    found = [
        reading_name(item)
        for item in verdict.to_measure
        if not hurting or any(finding.rule.severity >= Severity.INJURY for finding in item.decides)
    ]
    return tuple(dict.fromkeys(found))[:MOST_NAMED] or ("the readings that the verdict names",)

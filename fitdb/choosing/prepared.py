"""Answers found ahead of questions: boards of a layout put together at random, and what that takes is stored.

Whoever asks later, in this process or another, finds it there: the judge is what an answer waits for.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.asked import NO_BOARDS
from fitdb.catalogue.session import open_catalogue
from fitdb.choosing.kept import STORED_EACH, Opened, Snapshots
from fitdb.intake.nearest import did_you_mean
from fitdb.model.part import Part
from fitdb.model.problems import Malformed, Problem
from fitdb.options import Budget, options
from fitdb.possible.whole import groups_of, name_of
from fitdb.rules import rulebook

MOST_SECONDS = 24 * 3600.0


def prepare(
    url: str | None, layout: str, seconds: float, seed: int = 1, told: Callable[[str], None] = lambda line: None
) -> dict[str, Any]:
    """Puts boards of a layout together for so long, seat by seat in any order; what was done, as one document.

    The same seed asks the same questions, as far as the time goes. told: called now and then with a sentence.
    Malformed when there is no such layout or the time is out of range.
    """
    if not 0 < seconds <= MOST_SECONDS:
        raise Malformed([Problem("bad_number", f"{seconds:g} s cannot be spent.", "/seconds", hint="At most a day.")])
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            layouts = [own for own in book.patterns if own not in NO_BOARDS]
            if layout not in layouts:
                hint = did_you_mean(layout, layouts) or f"Layouts: {', '.join(layouts)}."
                raise Malformed([Problem("unknown_layout", f"there is no layout {layout!r}.", "/layout", hint=hint)])
            kept = Snapshots().of(connection, book, rulebook(), book.patterns[layout], {})
        began = stored = time.monotonic()
        boards = 0
        while (left := seconds - (time.monotonic() - began)) > 0:
            _one_board(kept, random.Random(f"{seed} {boards}"), began + seconds)
            boards += 1
            if time.monotonic() - stored > STORED_EACH:
                kept.store()
                stored = time.monotonic()
                told(f"{boards} boards, {left:.0f} s left")
        kept.store()
        asked = kept.snapshot.asking
        return {
            "layout": layout,
            "boards": boards,
            "cells_asked": asked.cells,
            "spans_asked": asked.spans,
            "sentence": f"{boards} boards put together; {asked.cells + asked.spans} questions to the judge, kept.",
        }
    finally:
        engine.dispose()


def _one_board(kept: Opened, chance: random.Random, until: float) -> None:
    """One board, each seat filled with one of the parts that can stand there; it ends early when the time is up."""
    shot = kept.snapshot
    groups = [one for one in groups_of(shot.pattern, shot.book.remedies, shot.book.table, {}) if not one.may_be_empty]
    chance.shuffle(groups)
    chosen: dict[str, Part] = {}
    for group in groups:
        left = until - time.monotonic()
        if left <= 0:
            return
        found = options(
            shot.book, shot.rules, shot.pattern, kept.parts_of_class, chosen, name_of(group, shot.pattern),
            budget=Budget(1000.0 * left), snapshot=shot,
        )  # fmt: skip
        possible = [one.part for one in found.options if one.possible]
        if not possible:
            return
        chosen |= dict.fromkeys(found.seats, chance.choice(possible))

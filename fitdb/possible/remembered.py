"""What tables know, written down for other processes: the judge is dear to ask, and says the same everywhere.

Written is what was said of cells and boxes, and of each class of parts a digest of what its rule sees of it. Another
process that meets a part of the same digest knows what was said of it; under another stamp nothing is used.
"""

from __future__ import annotations

import functools
import json
import zlib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from fitdb.catalogue.read import Book
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.possible.followed import digest
from fitdb.possible.questions import FAILS, HOLDS, UNDECIDED
from fitdb.possible.tables import Table

HOUSE = Path(__file__).parents[1]
ASKED_WITH = (
    "model",
    "formulas",
    "rules",
    "intake",
    "steps",
    "possible",
)  # rooms whose text decides what a cell is told
CELLS = ("cells", "states", "told")
MOST_CELLS = 200_000  # of one table; a larger one is not written


def stamp_of(book: Book, rules: Rulebook) -> str:
    """What every answer depends on: rules, formulas, the judge itself, and what attributes may be."""
    attributes = [f"{key}{one}" for key, one in sorted(book.table.attributes.items())]
    classes = [f"{key}{one}" for key, one in sorted(book.table.classes.items())]
    return f"{rules.stamp[:40]}-{digest((_text_of_the_house(), attributes, classes))}"


def about(pattern: Pattern, limits: Mapping[str, float]) -> str:
    """What the answers are about: one layout under one set of limits."""
    return digest((pattern, sorted(limits.items())))


def written(table: Table) -> bytes | None:
    """All that a table knows; None where that is too much to be kept."""
    if len(table.known.cells) > MOST_CELLS:
        return None
    cells = sorted(table.known.cells.items())
    known = [(own.named(), len(own.parts)) for own in table.classes]
    told: dict[str, Any] = {
        "classes": [[named.get(at, "") for at in range(count)] for named, count in known],
        "cells": [list(cell) for cell, _ in cells],
        "states": [state for _, state in cells],
        "told": [table.told[cell] for cell, _ in cells],
        "boxes": [[state, box] for state in (HOLDS, UNDECIDED, FAILS) for box in table.known.boxes.kept[state]],
        "doubts": table.doubts.kept[UNDECIDED],
    }
    return zlib.compress(json.dumps(told, separators=(",", ":")).encode(), 6)


def taken_up(table: Table, known: bytes) -> bool:
    """Gives a new table what was written of one of its form; False, and nothing given, where that cannot be read."""
    try:
        told = json.loads(zlib.decompress(known))
        classes = [[str(one) for one in own] for own in told["classes"]]
        counts = [len(own) for own in classes]
        cells = {
            _placed([[at] for at in cell], counts): (_state(state), None if value is None else float(value))
            for cell, state, value in zip(*(told[key] for key in CELLS), strict=True)
        }
        boxes = [(_state(state), tuple(tuple(some) for some in box)) for state, box in told["boxes"]]
        doubts = [tuple(tuple(some) for some in box) for box in told["doubts"]]
        for box in (*(box for _, box in boxes), *doubts):
            _placed(box, counts)
        if len(classes) != len(table.classes):
            return False
    except (ValueError, KeyError, TypeError, OverflowError, RecursionError, zlib.error):
        return False
    for own, digests in zip(table.classes, classes, strict=True):
        own.reserve(digests)
    table.know(cells, boxes, doubts)
    return True


def _state(told: object) -> int:
    """A state as it was written; ValueError for anything else."""
    if type(told) is not int or told not in (HOLDS, UNDECIDED, FAILS):
        raise ValueError(told)
    return told


def _placed(box: Any, counts: list[int]) -> tuple[int, ...]:
    """The first cell of a box; ValueError where it does not lie among so many classes."""
    for some, count in zip(box, counts, strict=True):
        if not some or not all(type(at) is int and 0 <= at < count for at in some):
            raise ValueError(box)
    return tuple(some[0] for some in box)


@functools.cache
def _text_of_the_house() -> str:
    files = sorted(file for room in ASKED_WITH for file in (HOUSE / room).rglob("*.py"))
    return digest([(str(file.relative_to(HOUSE)), file.read_bytes()) for file in files])

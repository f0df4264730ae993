"""Front door: a large catalogue of invented parts, to see how fitdb bears many of them.

Every part and interface is invented, marked with the source demo_invention, and has an id that begins with `demo-`.
The same number and seed give the same parts. sizes says what they are drawn from, invented draws them.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.bulk import unmarked_parts, unmarked_signatures, write_parts
from fitdb.catalogue.session import open_catalogue
from fitdb.demo.invented import MARK, SOURCE, Invention, Known
from fitdb.fit_table import fill_fit_table
from fitdb.model.problems import Malformed, Problem

MOST_PARTS, MOST_DESIGNS = 10_000_000, 100_000


def write_demo(
    url: str | None,
    parts: int,
    seed: int = 1,
    *,
    replace: bool = False,
    told: Callable[[int], None] | None = None,
    pairs_seconds: float = 0.0,
    designs: int | None = None,
) -> dict[str, Any]:
    """Fills the catalogue at `url` with invented parts, in one transaction; what was done, as one document.

    replace: invented parts that are there already are taken away first; without it they are a fault. told: called
    with the number written so far. pairs_seconds: for so long the new interfaces are asked against all others, so that
    the first lists of what fits need not. designs: at most so many different parts of each class; None lets them grow
    with the number of parts. Malformed when a number is out of range or the catalogue is not empty of invented parts.
    """
    if not 1 <= parts <= MOST_PARTS:
        what = f"{parts} parts cannot be invented."
        raise Malformed([Problem("bad_number", what, "/parts", hint=f"Name a number from 1 to {MOST_PARTS}.")])
    if designs is not None and not 1 <= designs <= MOST_DESIGNS:
        what = f"{designs} different parts of a class cannot be invented."
        raise Malformed([Problem("bad_number", what, "/designs", hint=f"Name a number from 1 to {MOST_DESIGNS}.")])
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            invention = invented(known_of(connection), parts, seed, designs)
        began = time.perf_counter()
        written = write_parts(
            engine,
            invention.interfaces,
            invention.parts(),
            mark=MARK,
            source_id=SOURCE,
            expected=parts,
            replace=replace,
            told=told,
        )
        taken = time.perf_counter() - began
        with engine.connect() as connection:
            revision = read.revision(connection)
    finally:
        engine.dispose()
    pairs = fill_fit_table(url, pairs_seconds) if pairs_seconds > 0 else None
    return {
        "parts": written,
        "interfaces": len(invention.interfaces),
        "seed": seed,
        "seconds": round(taken, 3),
        "parts_per_second": round(written / taken) if taken > 0 else 0,
        "sentence": f"{written} invented parts and {len(invention.interfaces)} interfaces, in {taken:.1f} s.",
        "pairs_asked": pairs.stored if pairs else 0,
        "pairs_left": pairs.left if pairs else None,
        "catalogue_revision": revision,
    }


def invented(known: Known, parts: int, seed: int, designs: int | None = None) -> Invention:
    """The invention itself: pure, the same for the same numbers and seed."""
    return Invention(known, parts, seed, designs)


def known_of(connection: Any) -> Known:
    """What invented parts are drawn from: the tables, and all parts of the catalogue that are not invented."""
    templates, said = unmarked_parts(connection, MARK), unmarked_signatures(connection, MARK)
    return Known(read.attribute_table(connection), read.fits(connection), templates, said)

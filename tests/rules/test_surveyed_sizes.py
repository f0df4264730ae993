"""A size that is worked out has its range at the corners of its readings, unless its line says that it turns back.

Held against points inside the box, over random boards of shipped parts: the packing and bite solvers are handed these
ranges as they are.
"""

from __future__ import annotations

import operator
import random
from collections.abc import Iterator

from random_boards import random_board, traces_on
from sqlalchemy import Engine

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.rule import Rule, Shape
from fitdb.model.trace import Trace
from fitdb.rules import rulebook
from fitdb.steps.judge.box import combinations_of_words, is_unread, used, values_of
from fitdb.steps.judge.ranging import Ranged, ranged

Catalogue = tuple[Engine, Book, dict[str, list[Part]]]


def test_no_size_leaves_its_corners_unless_it_is_said_to(sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    rules = rulebook()
    tried: set[str] = set()
    for layout in ("two_wheel_belt", "hub_motors", "gear_drive"):
        pattern = book.patterns[layout]
        for seed in range(8):
            seated = random_board(random.Random(f"sizes {layout} {seed}"), pattern, by_class, book.table, 10)
            for joint, rule, followed in traces_on(seated, pattern, rules, book.table):
                for need, corners, inside in sizes(rule, followed):
                    slack = 1e-9 * max(1.0, abs(corners.high), abs(corners.low))
                    assert corners.low - slack <= inside.low, (need, joint.id)
                    assert inside.high <= corners.high + slack, (need, joint.id)
                    tried.add(need)
    assert len(tried) > 20, tried


def sizes(rule: Rule, followed: Trace) -> Iterator[tuple[str, Ranged, Ranged]]:
    """Each need that is worked out and is not said to turn back: its range at the corners, and with points inside."""
    seen = [used(one.reading, one.described, rule.severity) for one in followed.variables]
    readings = tuple(one for one in seen if one is not None)
    if followed.wanted or followed.lacking or len(readings) < len(seen) or any(map(is_unread, readings)):
        return
    words = combinations_of_words(readings)
    if not words:
        return
    nominal, sides = values_of(readings, words[0]), [ends(one) for one in readings]
    for at, need in enumerate(followed.needs):
        read = isinstance(need, operator.itemgetter) or rule.needs[at].startswith("over.")
        if read or followed.turns[at] or not isinstance(need(nominal), float):
            continue
        moved = [side if i in followed.reads[at] else () for i, side in enumerate(sides)]
        yield rule.needs[at], *(ranged(need, nominal, moved, shape) for shape in (Shape.MONOTONE, Shape.SAMPLED))


def ends(reading: Reading) -> tuple[float, ...] | tuple[int, ...]:
    if isinstance(reading, Word | Outline):
        return ()
    if isinstance(reading, Count):
        return reading.values if len(reading.values) > 1 else ()
    return (float(reading.low), float(reading.high)) if reading.high > reading.low else ()

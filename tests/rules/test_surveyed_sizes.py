"""A size that is worked out has its range at the corners of its readings, unless its line says that it turns back.

Held against points inside the box, over random boards of shipped parts: the packing and bite solvers are handed these
ranges as they are.
"""

from __future__ import annotations

import operator
import random

from random_boards import random_board
from sqlalchemy import Engine

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.rule import Shape
from fitdb.rules import rulebook
from fitdb.steps.join import joints_of
from fitdb.steps.judge.box import combinations_of_words, is_unread, used, values_of
from fitdb.steps.judge.ranging import ranged
from fitdb.steps.survey import trace

Catalogue = tuple[Engine, Book, dict[str, list[Part]]]


def test_no_size_leaves_its_corners_unless_it_is_said_to(sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    rules = rulebook()
    tried: set[str] = set()
    for layout in ("two_wheel_belt", "hub_motors", "gear_drive"):
        pattern = book.patterns[layout]
        takes = {seat.id: seat.classes for seat in pattern.seats.values()}
        for seed in range(8):
            seated = random_board(random.Random(f"sizes {layout} {seed}"), pattern, by_class, book.table, 10)
            for line in pattern.lines:
                for joint in joints_of(line, seated, pattern)[0]:
                    for rule in rules.by_kind.get(line.kind, ()):
                        followed = trace(joint, rule, rules, book.table, takes)
                        seen = [used(one.reading, one.described, rule.severity) for one in followed.variables]
                        readings = tuple(one for one in seen if one is not None)
                        if followed.wanted or followed.lacking or len(readings) < len(seen):
                            continue
                        words = combinations_of_words(readings)
                        if any(map(is_unread, readings)) or not words:
                            continue
                        nominal, sides = values_of(readings, words[0]), [ends(one) for one in readings]
                        for at, need in enumerate(followed.needs):
                            middle = need(nominal)
                            worked_out = not isinstance(need, operator.itemgetter) and isinstance(middle, float)
                            if not worked_out or followed.turns[at] or rule.needs[at].startswith("over."):
                                continue
                            moved = [side if i in followed.reads[at] else () for i, side in enumerate(sides)]
                            corners = ranged(need, nominal, moved, Shape.MONOTONE)
                            inside = ranged(need, nominal, moved, Shape.SAMPLED)
                            slack = 1e-9 * max(1.0, abs(corners.high), abs(corners.low))
                            assert corners.low - slack <= inside.low, (rule.needs[at], joint.id)
                            assert inside.high <= corners.high + slack, (rule.needs[at], joint.id)
                            tried.add(rule.needs[at])
    assert len(tried) > 20, tried


def ends(reading: Reading) -> tuple[float, ...] | tuple[int, ...]:
    if isinstance(reading, Word | Outline):
        return ()
    if isinstance(reading, Count):
        return reading.values if len(reading.values) > 1 else ()
    return (float(reading.low), float(reading.high)) if reading.high > reading.low else ()

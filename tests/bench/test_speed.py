"""How long the judge takes beside a naive way of doing the same, in one run, as ratios.

`pytest tests/bench -s` prints the table. Nothing here fails on a slow day: what is asserted is that both ways agree
(or that the naive way says no more than ours); the figures are for reading.
"""

from __future__ import annotations

import itertools
import random
import statistics
import time
from collections.abc import Callable
from typing import Any

import pytest

from fitdb.board import BoardJudge
from fitdb.catalogue import read
from fitdb.catalogue.asked import typed_question
from fitdb.fit import LOOSE, fit, pieces_of
from fitdb.model.reading import Count, Designation, Number
from fitdb.model.rule import Shape
from fitdb.model.trace import Trace
from fitdb.rules import rulebook
from fitdb.search import fitting
from fitdb.steps.explain import Display
from fitdb.steps.judge import judge
from fitdb.steps.survey import trace

PAIR = ("wheel-90-six-window", "driven-36-six-lug")


def seconds(work: Callable[[], Any], rounds: int = 7) -> float:
    """The median of several rounds."""
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def told(capsys: pytest.CaptureFixture[str], name: str, ours: float, naive: float, beside: str) -> None:
    with capsys.disabled():
        print(f"\n{name:34} {ours * 1e3:9.3f} ms   {beside}: {naive * 1e3:9.3f} ms   ratio {naive / ours:6.1f}")


def every_corner(one: Trace) -> tuple[float, float]:
    """The naive range: the quantity at every corner of the box."""
    sides = []
    for variable in one.variables:
        reading = variable.reading
        if isinstance(reading, Number | Designation):
            sides.append((reading.low, reading.high))
        elif isinstance(reading, Count):
            sides.append(reading.values)
        else:
            sides.append(
                tuple(reading.possible) if reading is not None and hasattr(reading, "possible") else (reading,)
            )
    values = [one.quantity(corner) for corner in itertools.product(*sides)]
    return min(values), max(values)


MOST_READINGS = 13  # 8192 corners take seconds


def test_one_rule_over_its_box(capsys: pytest.CaptureFixture[str], sqlite_catalogue: Any) -> None:
    """A rule with many readings that needs no solver, beside all 2^n corners."""
    engine, book, _ = sqlite_catalogue
    traces = [one for one in all_traces(engine, book) if one.rule.shape in (Shape.MONOTONE, Shape.STEPPED)]
    full = [
        one
        for one in traces
        if all(v.reading is not None for v in one.variables) and not one.wanted and not one.lacking
    ]
    numeric = [one for one in full if judge(one).value is not None]
    widest = max((one for one in numeric if len(one.variables) <= MOST_READINGS), key=lambda one: len(one.variables))
    finding = judge(widest)
    low, high = every_corner(widest)
    assert finding.value is not None
    assert finding.value.low <= low + 1e-9 and finding.value.high >= high - 1e-9, widest.rule.id
    ours, naive = seconds(lambda: judge(widest)), seconds(lambda: every_corner(widest))
    told(capsys, f"one rule, {len(widest.variables)} readings", ours, naive, f"2^{len(widest.variables)} corners")


def test_one_joint(capsys: pytest.CaptureFixture[str], sqlite_catalogue: Any) -> None:
    """All rules of the joint of wheel and pulley, beside 400 random boards of the same box."""
    engine, book, _ = sqlite_catalogue
    with engine.connect() as connection:
        question = typed_question(connection, book, PAIR)
    pieces = pieces_of(question, book)

    def ours() -> Any:
        return BoardJudge(book.patterns[LOOSE], book, rulebook(), {}).judge(pieces)

    traces = [one for one in all_traces(engine, book) if one.rule.kind == "core_windows" and not one.wanted]
    full = [one for one in traces if all(v.reading is not None for v in one.variables) and not one.lacking]
    dice = random.Random(7)

    def naive() -> None:
        for one in full:
            for _ in range(400 if one.rule.shape is not Shape.ASKED else 4):
                one.quantity([_point(variable.reading, dice) for variable in one.variables])

    told(capsys, "one joint, wheel and pulley", seconds(ours, 5), seconds(naive, 3), "400 random points")


def test_one_find_over_the_seed(capsys: pytest.CaptureFixture[str], sqlite_catalogue: Any) -> None:
    """Every wheel for a pulley, beside asking the whole fit question of each wheel from SQL again."""
    engine, book, _ = sqlite_catalogue
    with engine.connect() as connection:
        question = typed_question(connection, book, [PAIR[1]])
        wheels = read.parts_of_classes(connection, ("wheel",))

        def ours() -> Any:
            return fitting(question, "wheel", wheels, book, rulebook(), True, Display())

        def naive() -> list[str]:
            verdicts = []
            for wheel in wheels:
                fresh = read.book(connection)
                asked = typed_question(connection, fresh, [PAIR[1], wheel.id])
                verdicts.append(fit(asked, fresh, rulebook(), lambda stock: ()).as_asked)
            return verdicts

        found = {item["part"]: item["verdict"] for item in ours()["found"]}
        again = dict(zip([wheel.id for wheel in wheels], naive(), strict=True))
        assert all(again[part] == verdict for part, verdict in found.items())
        told(capsys, f"one find, {len(wheels)} wheels", seconds(ours, 3), seconds(naive, 1), "whole question each")


def all_traces(engine: Any, book: read.Book) -> list[Trace]:
    """Traces of a belt board's worth of parts: whatever the catalogue has first in every seat."""
    pattern = book.patterns[LOOSE]
    with engine.connect() as connection:
        parts = []
        for seat in pattern.seats.values():
            here = read.parts_of_classes(connection, seat.classes[:1])
            parts += [f"{seat.id}={here[0].id}"] if here else []
        question = typed_question(connection, book, [], parts)
    from fitdb.steps.join import join
    from fitdb.steps.place import place

    joints, _ = join(place(question.parts, pattern, book.table), pattern)
    seats_take = {seat.id: seat.classes for seat in pattern.seats.values()}
    rules = rulebook()
    return [
        trace(joint, rule, rules, book.table, seats_take) for joint in joints for rule in rules.by_kind[joint.line.kind]
    ]


def _point(reading: Any, dice: random.Random) -> Any:
    if isinstance(reading, Number | Designation):
        return dice.uniform(reading.low, reading.high)
    if isinstance(reading, Count):
        return dice.choice(reading.values)
    return dice.choice(sorted(reading.possible)) if hasattr(reading, "possible") else reading

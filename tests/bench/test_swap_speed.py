"""How long a whole board takes: first judgement, again after one reading, mending, the stories.

`pytest tests/bench -s` prints. Everything is a ratio within one run, work is also counted in rules judged; nothing
here fails on a slow day.
"""

from __future__ import annotations

import dataclasses
import itertools
import random
import statistics
import time
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from sqlalchemy import Engine
from stories.whole_swap import on_the_bench, stories

from fitdb.board import BoardJudge
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.reading import Number
from fitdb.moves import with_reading
from fitdb.rules import rulebook
from fitdb.swap import Budget, stock_in, swap
from fitdb.workshop import BoardWorkshop

PLANS = Path(__file__).parents[2] / "seed_parts" / "plans"
SOLVED = ("pack", "controller", "bms", "receiver", "box")  # their sizes go to the packing solver, told apart

Catalogue = tuple[Engine, read.Book, Mapping[str, list[Part]]]


def timed(what: Callable[[], object], times: int = 1) -> float:
    """Milliseconds, the median of `times` runs."""
    took = []
    for _ in range(times):
        start = time.perf_counter()
        what()
        took.append((time.perf_counter() - start) * 1000)
    return statistics.median(took)


def told(line: str) -> None:
    print(line)


@pytest.fixture(scope="module")
def demo(sqlite_catalogue: Catalogue):  # type: ignore[no-untyped-def]
    engine, book, _ = sqlite_catalogue
    with engine.connect() as connection:
        plan = plan_of_file(connection, book, PLANS / "river-path.yaml")
        stock_of = stock_in(connection)
        for remedy in book.remedies:
            stock_of(remedy.stock)
        yield plan, book, stock_of


def test_first_and_again(demo) -> None:  # type: ignore[no-untyped-def]
    """A whole board for the first time, and again after each of its readings was taken more finely."""
    plan, book, _ = demo
    pattern = book.patterns[plan.pattern]
    warm = BoardJudge(pattern, book, rulebook(), {})
    warm.judge(plan.after)  # what the packing solver says is remembered from here on
    judge = BoardJudge(pattern, book, rulebook(), {})
    first = timed(lambda: judge.judge(plan.after))
    board = judge.judge(plan.after)
    asked = [joint for joint in board.joints if joint.verdict != "not_asked"]
    work = judge.work.judged
    took, counts = [], []
    for piece in plan.after:
        for name, reading in piece.part.readings.items():
            if isinstance(reading, Number) and reading.high > reading.low and piece.seat not in SOLVED:
                finer = dataclasses.replace(
                    reading,
                    low=(reading.low + reading.nominal) / 2,
                    high=(reading.high + reading.nominal) / 2,
                )
                part = with_reading(piece.part, "", name, finer)
                moved = {other.seat: Piece(other.seat, part) for other in plan.after if other.part is piece.part}
                before = judge.work.judged
                took.append(timed(lambda moved=moved: judge.again(board, moved)))  # type: ignore[misc]
                counts.append(judge.work.judged - before)
    again, worst = statistics.median(took), max(took)
    told(f"\nfirst judgement: {len(plan.after)} pieces, {len(asked)} joints, {work} rules judged, {first:.0f} ms")
    told(
        f"again after one reading ({len(took)} readings): median {again:.1f} ms, worst {worst:.1f} ms, "
        f"{statistics.median(counts):.0f} rules judged (most {max(counts)}); {first / max(again, 1e-6):.0f} times less"
    )


def test_mending_beside_exhaustive_search(demo) -> None:  # type: ignore[no-untyped-def]
    """The demo plan mended, beside judging every pair of its moves from scratch."""
    plan, book, stock_of = demo
    pattern = book.patterns[plan.pattern]
    before = {piece.seat: piece for piece in plan.before}
    took = timed(lambda: swap(plan, book, rulebook(), stock_of))
    verdict = swap(plan, book, rulebook(), stock_of)
    judge = BoardJudge(pattern, book, rulebook(), dict(plan.limits), before)
    asked, stood = judge.judge(plan.after), judge.judge(plan.before)
    shop = BoardWorkshop(judge, plan, asked, stood, stock_of)
    moves = [move for seat in pattern.seats for move in shop.moves_at(asked, seat)]
    pairs = list(itertools.combinations(moves, 2))
    sample = random.Random(7).sample(pairs, min(20, len(pairs)))
    fresh = BoardJudge(pattern, book, rulebook(), dict(plan.limits), before)

    def all_of_them() -> None:
        for one, other in sample:
            seated = {**asked.seated, **{p.seat: p for p in (*one.pieces, *other.pieces)}}
            fresh.judge(seated.values())

    each = timed(all_of_them) / max(len(sample), 1)
    work = fresh.work.judged / max(len(sample), 1)
    told(
        f"\nmending the demo plan: {verdict.nodes} plans, {verdict.rules_judged} rules judged, {took:.0f} ms, "
        f"complete {verdict.complete}, proven {verdict.proven}\n"
        f"exhaustive search: its {len(moves)} moves make {len(pairs)} pairs alone; {len(sample)} of them took "
        f"{each:.0f} ms and {work:.0f} rules each: {len(pairs) * each / max(took, 1e-6):.0f} times as long, "
        "without chains of three"
    )


def test_the_stories(sqlite_catalogue: Catalogue) -> None:
    """The 22 whole swaps, each put to the engine once."""
    _, book, shipped = sqlite_catalogue
    took, work = [], []
    for story in stories():
        bench = on_the_bench(story, book, rulebook(), shipped)
        start = time.perf_counter()
        verdict = swap(bench.plan, bench.book, bench.rules, lambda part_class: (), Budget(nodes=400, seconds=60))
        took.append((time.perf_counter() - start) * 1000)
        work.append(verdict.rules_judged)
    ordered = sorted(took)
    p50, p95 = ordered[len(ordered) // 2], ordered[int(len(ordered) * 0.95)]
    told(
        f"\n{len(took)} whole swaps: p50 {p50:.0f} ms, p95 {p95:.0f} ms, worst {ordered[-1]:.0f} ms; "
        f"rules judged: median {statistics.median(work):.0f}, most {max(work)}"
    )

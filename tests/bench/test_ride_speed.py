"""How long it takes to foresee a ride: beside judging the same boards, and many draws beside one draw at a time.

`pytest tests/bench -s` prints. Everything is a ratio within one run; nothing here fails on a slow day.
"""

from __future__ import annotations

import dataclasses
import statistics
import time
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from sqlalchemy import Engine

from fitdb.board import BoardJudge
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.model.part import Part
from fitdb.ride import foreseen
from fitdb.rules import rulebook
from fitdb.steps.foresee import rider_and_route, top_of
from fitdb.steps.foresee.board_drive import Unknown, body_of, drive_of
from fitdb.steps.foresee.brake_figures import brake_figures
from fitdb.steps.foresee.draws import Draws
from fitdb.steps.foresee.ride_figures import ride_figures, ride_of
from fitdb.swap import Budget, judge_of, swap

PLANS = Path(__file__).parents[2] / "seed_parts" / "plans"
Catalogue = tuple[Engine, read.Book, Mapping[str, list[Part]]]


def timed(what: Callable[[], object], times: int = 3) -> float:
    """Milliseconds of this thread, the median of `times` runs: other work on the machine does not count."""
    took = []
    for _ in range(times):
        start = time.thread_time()
        what()
        took.append((time.thread_time() - start) * 1000)
    return statistics.median(took)


def told(line: str) -> None:
    print(line)


@pytest.fixture(scope="module")
def demo(sqlite_catalogue: Catalogue):  # type: ignore[no-untyped-def]
    engine, book, _ = sqlite_catalogue
    with engine.connect() as connection:
        plan = plan_of_file(connection, book, PLANS / "river-path.yaml")
    # Not searched: the boards before and as asked are what is foreseen.
    return swap(plan, book, rulebook(), lambda part_class: (), Budget(nodes=1, seconds=0.5, more=0.1)), book


def test_foreseeing_beside_judging(demo) -> None:  # type: ignore[no-untyped-def]
    """Every figure of both boards, with charts and without, beside judging the same boards for the first time."""
    verdict, book = demo
    boards = [verdict.plan.before, verdict.plan.after]

    def judged() -> None:
        judge: BoardJudge = judge_of(verdict.plan, book, rulebook())
        for board in boards:
            judge.judge(board)

    judged()  # what the packing solver says is remembered from here on
    judging = timed(judged)
    # Foreseeing judges its boards once itself, for the sizes that are worked out there: that much is taken off.
    plain = timed(lambda: foreseen(verdict, judge_of(verdict.plan, book, rulebook()), charts=False)) - judging
    drawn = timed(lambda: foreseen(verdict, judge_of(verdict.plan, book, rulebook()))) - judging
    told(
        f"\njudging {len(boards)} boards: {judging:.0f} ms; foreseeing all their figures: {plain:.0f} ms, "
        f"{plain / max(judging, 1e-6):.2f} times as long; with charts {drawn:.0f} ms, "
        f"{drawn / max(judging, 1e-6):.2f} times"
    )


def test_many_draws_beside_one_at_a_time(demo) -> None:  # type: ignore[no-untyped-def]
    """256 draws of a board's ride as rows of arrays, beside the same figures of one board, 257 times."""
    verdict, book = demo
    pieces = {piece.seat: piece for piece in verdict.plan.after}

    def ridden(count: int) -> int:
        draws = dataclasses.replace(Draws(book.table), count=count)
        body = body_of(pieces, *rider_and_route(pieces), draws)
        assert not isinstance(body, Unknown)
        drive = drive_of(pieces, body, draws)
        assert not isinstance(drive, Unknown)
        ride = ride_of(pieces, *drive, body, draws)
        return len([*ride_figures(pieces, ride, draws), *brake_figures(pieces, ride, draws)])

    figures = ridden(256)
    many, alone = timed(lambda: ridden(256)), timed(lambda: ridden(2), times=9)
    nominal = timed(lambda: top_of(pieces, book.table), times=9)
    told(
        f"\n{figures} figures of one board: {many:.0f} ms for 257 rows at once, {alone:.1f} ms for three; one row at a "
        f"time would take about {257 * alone / max(many, 1e-6):.0f} times as long; its top speed alone {nominal:.1f} ms"
    )

"""The whole swaps again: what has to be undone for each, against the lists of somebody who does it every day.

The lists stand in teardowns.yaml. Where the engine undoes other steps, the reason stands in disagreements.md under the
name of the test: that test has to fail, and one that passes although it is listed fails.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml
from sqlalchemy import Engine
from stories.whole_swap import Bench, on_the_bench, stories

from fitdb.catalogue import read
from fitdb.job_card import job_card
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.work import JobCard
from fitdb.rules import rulebook

HERE = Path(__file__).parent
LISTS: Mapping[str, Any] = yaml.safe_load((HERE / "teardowns.yaml").read_text(encoding="utf-8"))
LISTED = re.compile(r"^\* `(\w+ teardown)`: \S", re.MULTILINE)
DISAGREEMENTS = tuple(LISTED.findall((HERE / "disagreements.md").read_text(encoding="utf-8")))
# What stands in the way on a usual board, by the name of its seats.
USUAL = (
    "truck", "wheel", "axle_nut", "driven_pulley", "belt", "belt_cover", "drive_pulley", "motor", "motor_mount", "box",
    "pack", "controller", "receiver",
)  # fmt: skip

Catalogue = tuple[Engine, read.Book, Mapping[str, list[Part]]]


def _param(own: str) -> Any:
    listed = pytest.mark.xfail(strict=True, raises=AssertionError, reason="see disagreements.md")
    return pytest.param(own, id=f"{own} teardown", marks=[listed] if f"{own} teardown" in DISAGREEMENTS else [])


@pytest.fixture(scope="module")
def cards(sqlite_catalogue: Catalogue) -> Mapping[str, JobCard]:
    _, book, shipped = sqlite_catalogue
    found = {}
    for story in stories():
        bench = on_the_bench(story, book, rulebook(), shipped)
        verdict = dataclasses.replace(bench.verdict, plan=on_a_usual_board(bench, shipped))
        found[story.id] = job_card(verdict, bench.book)
    return found


def on_a_usual_board(bench: Bench, shipped: Mapping[str, list[Part]]) -> SwapPlan:
    """The plan of a story with what stands in the way: parts that stay, and parts that leave untold."""
    before = {piece.seat: piece for piece in bench.plan.before}
    after = {piece.seat: piece for piece in bench.plan.after}
    told = set(LISTS[bench.story.id].get("took_off", ()))
    gone = tuple(
        seat.removesuffix("truck") for seat in after if "truck" in told and seat not in before and "_truck" in seat
    )
    for seat in bench.pattern.seats.values():
        usual = Piece(seat.id, shipped[seat.classes[0]][0]) if shipped.get(seat.classes[0]) else None
        if usual is None:
            continue
        if seat.id in after and seat.id not in before and told & set(seat.classes):
            before[seat.id] = usual
        elif seat.names[0] in USUAL and seat.id not in after and seat.id not in before:
            before[seat.id] = usual
            if not seat.id.startswith(gone or " "):  # what sits on a truck that leaves goes with it
                after[seat.id] = usual
    return dataclasses.replace(bench.plan, before=tuple(before.values()), after=tuple(after.values()))


@pytest.mark.parametrize("own", [_param(own) for own in LISTS])
def test_teardown(own: str, cards: Mapping[str, JobCard]) -> None:
    undone = [step.key for step in cards[own].steps if step.phase in ("isolate", "undo")]
    assert set(undone) == set(LISTS[own]["steps"])
    for step in cards[own].steps:
        if step.key in undone:
            assert all(undone.index(need) < undone.index(step.key) for need in step.needs if need in undone)


def test_every_swap_has_a_list() -> None:
    assert set(LISTS) == {story.id for story in stories()}


def test_every_listed_teardown_is_one_of_these() -> None:
    assert {name.split()[0] for name in DISAGREEMENTS} <= set(LISTS)


def test_every_step_of_the_lists_is_a_step_of_the_tables(sqlite_catalogue: Catalogue) -> None:
    steps = sqlite_catalogue[1].work.steps
    assert {name for one in LISTS.values() for name in one["steps"]} <= set(steps)

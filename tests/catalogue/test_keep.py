"""Readings that a plan keeps on its parts: who read them, twice at one port, and nothing half-kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import Engine

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.keep import kept_readings
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.session import open_catalogue
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed

PLAN = """plan: kept
layout: two_wheel_belt
board: {wheel: wheel-90-six-window, driven_pulley: %s}
on: {belt: belt-5mm-265-15}
"""


@pytest.fixture
def catalogue(tmp_path: Path) -> Engine:
    return open_catalogue(f"sqlite:///{tmp_path / 'own.sqlite'}", seed=SEED)


def planned(engine: Engine, tmp_path: Path, *readings: str, pulley: str = "driven-36-six-lug") -> SwapPlan:
    file = tmp_path / "plan.yaml"
    file.write_text(PLAN % pulley, encoding="utf-8")
    with engine.connect() as connection:
        return plan_of_file(connection, read.book(connection), file, readings)


def test_a_kept_reading_says_who_read_it_even_where_it_says_the_same(catalogue: Engine, tmp_path: Path) -> None:
    with catalogue.connect() as connection:
        shipped = read.part(connection, "wheel-90-six-window")
    assert shipped is not None
    stood = shipped.offers("window_width")[1]
    assert stood is not None and stood.source.standing == "invented for the demo"
    typed = f"{stood.nominal:g} -{stood.nominal - stood.low:g}/+{stood.high - stood.nominal:g} mm"  # type: ignore[union-attr]
    told = kept_readings(catalogue, planned(catalogue, tmp_path, f"wheel.window_width={typed}"))
    assert told == [{"part": "wheel-90-six-window", "attributes": ["window_width"], "version": shipped.version + 1}]
    with catalogue.connect() as connection:
        kept = read.part(connection, "wheel-90-six-window")
    assert kept is not None
    reading = kept.offers("window_width")[1]
    assert reading is not None and reading.source.kind == "caliper" and reading.source.standing == "own reading"
    assert kept.offers("window_count")[1] == shipped.offers("window_count")[1]


def test_a_port_may_be_read_again_and_again(catalogue: Engine, tmp_path: Path) -> None:
    for width in ("9.05 +-0.03 mm", "9.11 +-0.02 mm", "9.05 +-0.03 mm"):
        kept_readings(catalogue, planned(catalogue, tmp_path, f"wheel.window_width={width}"))
    with catalogue.connect() as connection:
        kept = read.part(connection, "wheel-90-six-window")
    assert kept is not None and kept.version == 4
    reading = kept.offers("window_width")[1]
    assert reading is not None and (reading.low, reading.high) == (pytest.approx(9.02), pytest.approx(9.08))  # type: ignore[union-attr]


def test_a_part_that_is_in_the_plan_alone_keeps_nothing_for_any(catalogue: Engine, tmp_path: Path) -> None:
    own = "{id: own-pulley, class: driven_pulley, source: caliper, readings: {face_width: 16.5 mm}}"
    plan = planned(catalogue, tmp_path, "wheel.outer_diameter=89 mm", "driven_pulley.face_width=16.4 mm", pulley=own)
    with pytest.raises(Malformed) as refused:
        kept_readings(catalogue, plan)
    (problem,) = refused.value.problems
    assert problem.code == "unknown_part" and problem.path == "/reading/1" and "own-pulley" in problem.message
    with catalogue.connect() as connection:
        wheel = read.part(connection, "wheel-90-six-window")
    assert wheel is not None and wheel.version == 1  # the other reading was not kept either

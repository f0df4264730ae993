"""How long finding parts takes beside the plain way of doing the same, in one run, as ratios.

`pytest tests/bench -s` prints the table. Nothing fails on a slow day: what is asserted is that both ways agree.
`fitdb.bench.run` measures catalogues of up to a million parts, on both databases and over HTTP.
"""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine

from fitdb.bench import FIGURES, Measured, write_curves
from fitdb.catalogue import read
from fitdb.catalogue.find_parts import page_by_id, parts_with
from fitdb.catalogue.floor import driver_seconds, recorded
from fitdb.catalogue.part_conditions import Wanted
from fitdb.catalogue.session import open_catalogue
from fitdb.catalogue.snapshot import PartSnapshot
from fitdb.demo import write_demo
from fitdb.model.plan import FitQuestion
from fitdb.part_search import Order, PartSearch
from fitdb.rules import rulebook
from fitdb.search import classes_like, fitting
from fitdb.steps.explain import Display

PULLEY, PARTS, PAGE = "driven-36-six-lug", 3_000, 20


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Engine, float]]:
    url = f"sqlite:///{tmp_path_factory.mktemp('speed') / 'large.sqlite'}"
    told = write_demo(url, PARTS, 1)
    engine = open_catalogue(url)
    yield engine, told["parts_per_second"]
    engine.dispose()


def seconds(work: Callable[[], Any], rounds: int = 5) -> float:
    """The median of several rounds."""
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def told(capsys: pytest.CaptureFixture[str], name: str, ours: float, other: float, beside: str) -> None:
    with capsys.disabled():
        print(f"\n{name:38} {ours * 1e3:9.3f} ms   {beside}: {other * 1e3:9.3f} ms   ratio {other / ours:6.2f}")


def test_a_page_of_what_fits(capsys: pytest.CaptureFixture[str], large: tuple[Engine, float]) -> None:
    """The first page, its pairs asked and its parts judged, beside judging the whole class."""
    engine, _ = large
    with engine.connect() as connection:
        book = read.book(connection)
        pulley, classes = read.part(connection, PULLEY), classes_like("wheel", book)
        assert pulley is not None
        question = FitQuestion((("", pulley),))

        def page() -> list[str]:
            search = PartSearch(book, rulebook())
            beside = search.beside_parts(question, classes)
            found = search.page_beside(connection, Wanted(classes), Order(), beside, False, None, PAGE, Display())
            return [line["id"] for line in found.lines]

        def whole() -> list[str]:
            candidates = read.parts_of_classes(connection, classes)
            found = fitting(question, "wheel", candidates, book, rulebook(), False, Display())["found"]
            return sorted(one["part"] for one in found)[:PAGE]

        assert page() == whole()
        told(capsys, "first page of what fits, unasked", seconds(page, 3), seconds(whole, 1), "whole class judged")


def test_the_statements_of_a_page(capsys: pytest.CaptureFixture[str], large: tuple[Engine, float]) -> None:
    """The same statements through fitdb, parts built from their rows, and through the bare driver."""
    engine, _ = large
    with engine.connect() as connection:
        book = read.book(connection)
        search, classes = PartSearch(book, rulebook()), classes_like("wheel", book)
        pulley = read.part(connection, PULLEY)
        assert pulley is not None
        beside = search.beside_parts(FitQuestion((("", pulley),)), classes)
        wanted = search.narrowed(connection, Wanted(classes), beside, False, lambda: False)

        def page() -> Any:
            found = page_by_id(connection, wanted, search.shelf, "", PAGE)
            interfaces = search.shelf.interfaces(connection)
            return parts_with(connection, [one.id for one in found], book.table.sources, interfaces)

        page()
        with recorded(connection) as statements:
            assert len(page()) == PAGE
        told(capsys, "statements of that page", seconds(page, 9), driver_seconds(connection, statements), "bare driver")


def test_a_class_in_memory(capsys: pytest.CaptureFixture[str], large: tuple[Engine, float]) -> None:
    engine, per_second = large

    def whole() -> int:
        with engine.connect() as connection:
            return len(read.parts_of_classes(connection, ("wheel",)))

    def alike() -> int:
        return sum(len(one.part_ids) for one in PartSnapshot(engine).parts_like("wheel"))

    assert whole() == alike()
    told(capsys, "a class collapsed to signatures", seconds(alike), seconds(whole, 3), "part by part")
    with capsys.disabled():
        print(f"\n{'invented parts written':38} {per_second:9.0f} in a second")


def test_growth_is_drawn_as_curves(tmp_path: Path) -> None:
    found = [
        Measured(database, parts, dict.fromkeys(FIGURES, parts / 1000 * factor))
        for database, factor in (("sqlite", 1.0), ("postgresql", 2.0))
        for parts in (1_000, 10_000, 100_000)
    ]
    written = write_curves(found, tmp_path)
    assert {f"{key}.svg" for key in FIGURES} | {"figures.json"} == set(written)
    svg = (tmp_path / "page_again_ms.svg").read_text("utf-8")
    assert svg.startswith("<svg") and "sqlite" in svg and "postgresql" in svg
    assert len(json.loads((tmp_path / "figures.json").read_text("utf-8"))) == 6

"""Invented catalogues: the same for the same seed on both databases, marked, possible, all of them or nothing."""

from __future__ import annotations

import hashlib
import statistics
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from large_catalogues import own_database
from sqlalchemy import Engine, func, select

from fitdb.catalogue import bulk, read, tables
from fitdb.catalogue.session import open_catalogue
from fitdb.demo import invented, known_of, write_demo
from fitdb.demo.invented import MARK, SOURCE, InventedPart, Invention, shares_of
from fitdb.intake.counted_sizes import contradictions
from fitdb.model.part import Part
from fitdb.model.problems import Malformed
from fitdb.model.reading import Word

Catalogue = tuple[Engine, read.Book, dict[str, list[Part]]]


@pytest.fixture(scope="module")
def three_thousand(sqlite_catalogue: Catalogue) -> tuple[Invention, list[InventedPart]]:
    with sqlite_catalogue[0].connect() as connection:
        invention = invented(known_of(connection), 3_000, 7)
    return invention, list(invention.parts())


def bytes_of(invention: Invention) -> str:
    digest = hashlib.sha256()
    for one in (*invention.interfaces, *invention.parts()):
        digest.update(repr(one).encode())
    return digest.hexdigest()


def test_the_same_seed_gives_the_same_parts_and_another_gives_others(sqlite_catalogue: Catalogue) -> None:
    with sqlite_catalogue[0].connect() as connection:
        known = known_of(connection)
    first = bytes_of(Invention(known, 800, 3))
    assert first == bytes_of(Invention(known, 800, 3))
    assert first != bytes_of(Invention(known, 800, 4))


def test_what_is_drawn_does_not_depend_on_the_order_of_rows(sqlite_catalogue: Catalogue) -> None:
    with sqlite_catalogue[0].connect() as connection:
        known = known_of(connection)
    turned = {own: list(reversed(some)) for own, some in reversed(list(known.templates.items()))}
    other = type(known)(known.table, known.fits, turned, known.said)
    assert bytes_of(Invention(known, 300, 3)) == bytes_of(Invention(other, 300, 3))


def test_there_are_parts_of_every_class_that_a_seat_takes(
    sqlite_catalogue: Catalogue, three_thousand: tuple[Invention, list[InventedPart]]
) -> None:
    book = sqlite_catalogue[1]
    made = {part.part_class for part in three_thousand[1]}
    for pattern in book.patterns.values():
        for seat in pattern.seats.values():
            assert any(set(book.table.line_of(own)) & set(seat.classes) for own in made), seat.id
    assert len(three_thousand[1]) == 3_000 == len({part.id for part in three_thousand[1]})


@pytest.mark.parametrize("parts", [1, 50, 997, 10_000, 1_000_000])
def test_the_shares_add_up(parts: int) -> None:
    shares = shares_of(("wheel", "deck", "rider", "belt"), parts)
    assert sum(shares.values()) == parts and all(many >= 0 for many in shares.values())


def test_every_reading_is_possible_and_says_that_it_is_invented(
    sqlite_catalogue: Catalogue, three_thousand: tuple[Invention, list[InventedPart]]
) -> None:
    table = sqlite_catalogue[1].table
    for part in three_thousand[1]:
        assert part.id.startswith(MARK)
        own = table.own_attributes(part.part_class)
        for name, reading in part.readings:
            assert reading.source.id == SOURCE
            if isinstance(reading, Word):
                assert reading.possible <= set(own[name].vocabulary) or own[name].open_vocabulary
            elif own[name].physical is not None:
                low, high = own[name].physical
                assert low <= reading.low <= reading.high <= high, (part.id, name)
    for interface in three_thousand[0].interfaces:
        assert all(reading.source.id == SOURCE for reading in interface.readings.values())


def test_sizes_cluster_interfaces_are_shared_unevenly_and_some_readings_are_missing(
    three_thousand: tuple[Invention, list[InventedPart]],
) -> None:
    wheels = [part for part in three_thousand[1] if part.part_class == "wheel"]
    sizes = Counter(
        dict(part.readings)["outer_diameter"].nominal for part in wheels if "outer_diameter" in dict(part.readings)
    )
    assert len(sizes) <= 20, "the trade has few diameters"
    assert sizes.most_common(1)[0][1] > 3 * statistics.median(sizes.values())
    cores = Counter(dict(part.ports)["core"] for part in wheels if "core" in dict(part.ports))
    assert cores.most_common(1)[0][1] > 3 * statistics.median(cores.values())
    unread = sum("hardness" not in dict(part.readings) for part in wheels) / len(wheels)
    assert 0.02 < unread < 0.4
    said = Counter((part.ports, part.readings) for part in wheels)
    assert len(said) < len(wheels), "some parts differ in name alone"


def test_what_is_invented_contradicts_no_count(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'demo.sqlite'}"
    write_demo(url, 1_500, 2)
    engine = open_catalogue(url)
    with engine.connect() as connection:
        table = read.attribute_table(connection)
        belts = read.parts_of_classes(connection, ("belt",))
    engine.dispose()
    assert len([part for part in belts if part.id.startswith(MARK)]) > 50
    assert [found for part in belts for found in contradictions(part, table) if part.id.startswith(MARK)] == []


# --- writing -------------------------------------------------------------------------------------------------


def rows_of(url: str) -> dict[str, list[tuple[Any, ...]]]:
    engine = open_catalogue(url)
    found = {}
    with engine.connect() as connection:
        for name in (*bulk.PART_TABLES, "interface", "interface_reading", "interface_word"):
            table = tables.metadata.tables[name]
            found[name] = sorted(tuple(row) for row in connection.execute(select(table)))
    engine.dispose()
    return found


@pytest.fixture
def databases(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[tuple[str, str]]:
    """An address on SQLite and one on PostgreSQL, each its own."""
    with (
        own_database("sqlite", tmp_path, request) as sqlite,
        own_database("postgresql", tmp_path, request) as postgresql,
    ):
        yield sqlite, postgresql


def test_both_databases_hold_the_same(databases: tuple[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bulk, "LARGE", 100)  # as for large loads: indexes and references afterwards
    for url in databases:
        assert write_demo(url, 700, 5)["parts"] == 700
    one, other = (rows_of(url) for url in databases)
    assert one == other


def test_a_large_load_leaves_every_index_and_reference_behind(empty_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    from alembic.autogenerate import compare_metadata
    from alembic.migration import MigrationContext

    monkeypatch.setattr(bulk, "LARGE", 100)
    write_demo(empty_url, 300, 1)
    engine = open_catalogue(empty_url)
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), tables.metadata) == []
    engine.dispose()


def test_invented_parts_are_not_written_twice_unless_told(empty_url: str) -> None:
    write_demo(empty_url, 200, 1)
    first = rows_of(empty_url)
    with pytest.raises(Malformed) as refused:
        write_demo(empty_url, 200, 2)
    assert refused.value.problems[0].code == "not_empty"
    assert rows_of(empty_url) == first
    write_demo(empty_url, 150, 2, replace=True)
    now = rows_of(empty_url)["part"]
    assert sum(row[0].startswith(MARK) for row in now) == 150
    write_demo(empty_url, 200, 1, replace=True)
    assert rows_of(empty_url) == first, "the same number and seed, the same rows"


def test_a_load_that_fails_leaves_nothing(empty_url: str) -> None:
    engine = open_catalogue(empty_url)
    with engine.connect() as connection:
        invention = invented(known_of(connection), 300, 1)
        before = connection.execute(select(func.count()).select_from(tables.interface)).scalar_one()

    def breaking() -> Iterator[InventedPart]:
        for count, part in enumerate(invention.parts()):
            if count == 250:
                raise KeyboardInterrupt
            yield part

    with pytest.raises(KeyboardInterrupt):
        bulk.write_parts(engine, invention.interfaces, breaking(), mark=MARK, source_id=SOURCE, expected=300)
    with engine.connect() as connection:
        assert bulk.marked(connection, MARK) == 0
        assert connection.execute(select(func.count()).select_from(tables.interface)).scalar_one() == before
    engine.dispose()


@pytest.mark.parametrize("parts", [0, -5, 10_000_001])
def test_a_number_out_of_range_is_refused(parts: int) -> None:
    with pytest.raises(Malformed):
        write_demo("sqlite://", parts)


def test_the_same_designs_are_sold_by_more_and_more(sqlite_catalogue: Catalogue) -> None:
    with sqlite_catalogue[0].connect() as connection:
        known = known_of(connection)

    def designs(parts: int) -> dict[str, set[str]]:
        found: dict[str, set[str]] = {}
        for one in Invention(known, parts, 3, designs=20).parts():
            found.setdefault(one.part_class, set()).add(repr((one.ports, one.readings)))
        return found

    few, many = designs(2_000), designs(20_000)
    assert all(len(some) <= 20 for some in many.values())
    assert all(few[own] <= many[own] for own in few if own in many)
    assert len(many["wheel"]) == 20
    with pytest.raises(Malformed, match="different parts"):
        write_demo("sqlite://", 10, designs=0)

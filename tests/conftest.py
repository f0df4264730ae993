"""Databases for the tests: every test that asks for `engine` runs on SQLite and on a real PostgreSQL."""

from __future__ import annotations

import itertools
import os
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pgtemp
import pytest
from sqlalchemy import Engine, create_engine, text
from sqlalchemy.engine import make_url

from fitdb.catalogue import read
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.session import engine_for, migrate, open_catalogue
from fitdb.model.part import Part

BACKENDS = ("sqlite", "postgresql")
_numbers = itertools.count(1)


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    """The address of a running server. Without one: skipped with the reason, or failed if FITDB_REQUIRE_POSTGRES=1."""
    with ExitStack() as stack:
        try:
            url = stack.enter_context(pgtemp.server())
        except pgtemp.NoServer as reason:
            if os.environ.get("FITDB_REQUIRE_POSTGRES") == "1":
                pytest.fail(f"FITDB_REQUIRE_POSTGRES=1, but {reason}", pytrace=False)
            pytest.skip(str(reason))
        yield url


def _in_database(postgres: str, statement: str) -> None:
    address = make_url(postgres).set(drivername="postgresql+psycopg")
    engine = create_engine(address, isolation_level="AUTOCOMMIT")
    try:
        with engine.connect() as connection:
            connection.execute(text(statement))
    finally:
        engine.dispose()


@pytest.fixture(scope="session")
def _migrated_template(postgres: str) -> Iterator[str]:
    """A migrated, empty database that others are copied from: a copy takes some 50 ms, a migration 300."""
    name = f"fitdb_template_{os.getpid()}"
    _in_database(postgres, f"create database {name}")
    engine = engine_for(make_url(postgres).set(database=name).render_as_string(hide_password=False))
    migrate(engine)
    engine.dispose()
    yield name
    _in_database(postgres, f"drop database {name} with (force)")


@pytest.fixture(params=BACKENDS)
def backend(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def empty_url(backend: str, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The address of a database without tables, its own for each test."""
    if backend == "sqlite":
        yield f"sqlite:///{tmp_path / 'empty.sqlite'}"
        return
    yield from _own_database(request.getfixturevalue("postgres"), "template0")


def _own_database(postgres: str, template: str) -> Iterator[str]:
    name = f"fitdb_test_{os.getpid()}_{next(_numbers)}"
    _in_database(postgres, f"create database {name} template {template} strategy file_copy")
    try:
        yield make_url(postgres).set(database=name).render_as_string(hide_password=False)
    finally:
        _in_database(postgres, f"drop database {name} with (force)")


@pytest.fixture
def engine(backend: str, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """A migrated, empty catalogue of the test's own, once on each database."""
    if backend == "sqlite":
        opened = engine_for(f"sqlite:///{tmp_path / 'catalogue.sqlite'}")
        migrate(opened)
        yield opened
        opened.dispose()
        return
    postgres = request.getfixturevalue("postgres")
    databases = _own_database(postgres, request.getfixturevalue("_migrated_template"))
    opened = engine_for(next(databases))
    yield opened
    opened.dispose()
    next(databases, None)


@pytest.fixture(scope="session", params=BACKENDS)
def seeded_engine(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Engine]:
    """The catalogue with the shipped tables, shared by all tests of a session: read it, never write to it."""
    if request.param == "sqlite":
        opened = open_catalogue(f"sqlite:///{tmp_path_factory.mktemp('seeded') / 'catalogue.sqlite'}", seed=SEED)
        yield opened
        opened.dispose()
        return
    databases = _own_database(request.getfixturevalue("postgres"), "template0")
    opened = open_catalogue(next(databases), seed=SEED)
    yield opened
    opened.dispose()
    next(databases, None)


@pytest.fixture(scope="session")
def sqlite_catalogue(
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[tuple[Engine, read.Book, dict[str, list[Part]]]]:
    """Engine, book, and all parts by class of the shipped catalogue on SQLite: for tests that only look things up."""
    opened = open_catalogue(f"sqlite:///{tmp_path_factory.mktemp('shipped') / 'catalogue.sqlite'}", seed=SEED)
    by_class: dict[str, list[Part]] = {}
    with opened.connect() as connection:
        book = read.book(connection)
        for part in read.parts_of_classes(connection, tuple(book.table.classes)):
            by_class.setdefault(part.part_class, []).append(part)
    yield opened, book, by_class
    opened.dispose()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Gives each test a name of its own: of several that share one, workers run one and say nothing of the others."""
    for item in items:
        operation = getattr(item, "operation_label", None)  # one test per operation of the document, all named alike
        if operation and operation not in item.nodeid:
            item._id = item.id.with_params(operation)
    twice = [name for name, count in Counter(item.nodeid for item in items).items() if count > 1]
    if twice:
        raise pytest.UsageError(f"Tests that share a name with another: {', '.join(sorted(twice)[:5])}.")

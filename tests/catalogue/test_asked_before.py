"""What was found out is kept under its stamp, on both databases; where nothing can be written nothing is lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from large_catalogues import own_database
from sqlalchemy import Engine, func, select

from fitdb.catalogue import tables
from fitdb.catalogue.asked_before import found_before, keep_found
from fitdb.catalogue.session import engine_for, migrate


@pytest.fixture(params=["sqlite", "postgresql"])
def engine(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    with own_database(request.param, tmp_path, request) as url:
        opened = engine_for(url)
        migrate(opened)
        yield opened
        opened.dispose()


def rows(engine: Engine) -> int:
    with engine.connect() as connection:
        return int(connection.execute(select(func.count()).select_from(tables.asked_before)).scalar_one())


def test_what_is_kept_is_found_under_its_stamp_alone(engine: Engine) -> None:
    many = {f"form-{number:04}": bytes([number % 256]) * 3 for number in range(1200)}
    assert keep_found(engine, "a-layout", "stamp-1", many)
    assert keep_found(engine, "another", "stamp-1", {"form-0001": b"\x00\xff"})
    assert keep_found(engine, "a-layout", "stamp-1", {"form-0001": b"newer", "form-x": b""})
    with engine.connect() as connection:
        assert found_before(connection, "a-layout", "stamp-1") == {**many, "form-0001": b"newer", "form-x": b""}
        assert found_before(connection, "another", "stamp-1") == {"form-0001": b"\x00\xff"}
        assert found_before(connection, "a-layout", "stamp-2") == {}
    assert keep_found(engine, "a-layout", "stamp-2", {"form-0002": b"2"})
    assert rows(engine) == 1, "what stands under another stamp goes"


def test_nothing_is_kept_of_nothing_or_in_memory() -> None:
    memory = engine_for("sqlite://")
    migrate(memory)
    assert not keep_found(memory, "a", "s", {"form": b"1"})
    memory.dispose()


def test_a_catalogue_that_cannot_be_written_to_keeps_nothing_and_is_no_fault(tmp_path: Path) -> None:
    file = tmp_path / "catalogue.sqlite"
    engine = engine_for(f"sqlite:///{file}")
    migrate(engine)
    with engine.connect() as connection:
        connection.exec_driver_sql("pragma query_only = 1")
        assert not keep_found(engine, "a", "s", {})
    engine.dispose()
    locked = engine_for(f"sqlite:///file:{file}?mode=ro&uri=true")
    assert not keep_found(locked, "a", "s", {"form": b"1"})
    locked.dispose()

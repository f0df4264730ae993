"""Databases of a module's own, on SQLite and PostgreSQL, for catalogues that are filled once and then only read."""

from __future__ import annotations

import itertools
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.engine import make_url

_numbers = itertools.count(1)


@contextmanager
def own_database(kind: str, folder: Path, request: pytest.FixtureRequest) -> Iterator[str]:
    """The address of an empty database on `kind` (sqlite or postgresql) that goes when it is done with."""
    number = next(_numbers)
    if kind == "sqlite":
        yield f"sqlite:///{folder / f'large_{number}.sqlite'}"
        return
    server = make_url(request.getfixturevalue("postgres"))
    name = f"fitdb_large_{os.getpid()}_{number}"
    admin = create_engine(server.set(drivername="postgresql+psycopg"), isolation_level="AUTOCOMMIT")
    try:
        with admin.connect() as connection:
            connection.execute(text(f"create database {name} template template0"))
        yield server.set(database=name).render_as_string(hide_password=False)
    finally:
        with admin.connect() as connection:
            connection.execute(text(f"drop database if exists {name} with (force)"))
        admin.dispose()

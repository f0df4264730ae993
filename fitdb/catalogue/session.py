"""Opening a catalogue: one engine per database, migrated and filled with the shipped tables on first use.

SQLite (a file or memory) is the embedded default, PostgreSQL the shared catalogue; the same code runs on both.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, StaticPool, create_engine, event, inspect, text
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, OperationalError

from fitdb.catalogue.paths import MIGRATIONS, SEED
from fitdb.model.problems import Malformed, OurFault, Problem

# One number for everybody who migrates or seeds the same PostgreSQL database: they queue for it.
ADVISORY_LOCK = 704217

SQLITE_PRAGMAS = (
    "busy_timeout=5000",
    "synchronous=NORMAL",
    "cache_size=-65536",
    "mmap_size=268435456",
    "temp_store=MEMORY",
)
WRITE_AHEAD_SECONDS = 5.0
POSTGRESQL_OPTIONS = "-c statement_timeout=15000 -c lock_timeout=5000 -c timezone=UTC"


def default_url() -> str:
    """The catalogue to open when none is named: FITDB_URL, else a SQLite file in the user's data folder.

    The folder is $XDG_DATA_HOME/fitdb, else ~/.local/share/fitdb; it is created when it is missing.
    Malformed when it cannot be.
    """
    named = os.environ.get("FITDB_URL", "").strip()
    if named:
        return named
    home = os.environ.get("XDG_DATA_HOME", "").strip()
    folder = (Path(home) if home else Path.home() / ".local" / "share") / "fitdb"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise Malformed([_cannot_open(str(folder), f"the folder cannot be created ({fault.strerror}).")]) from fault
    return f"sqlite:///{folder / 'fitdb.sqlite'}"


def engine_for(url: str, *, foreign_keys: bool = True) -> Engine:
    """An engine with the settings that both databases need to keep their promises.

    `foreign_keys=False` is for migrations on SQLite alone, which copy and move whole tables.
    Malformed when the address cannot be read or names a database that is neither SQLite nor PostgreSQL.
    """
    try:
        address = make_url(url)
    except ArgumentError as fault:
        raise Malformed([_cannot_open("the address given", "this is no database address.")]) from fault  # a secret?
    if address.get_backend_name() == "postgresql":
        return create_engine(
            address.set(drivername="postgresql+psycopg"),
            pool_pre_ping=True,
            connect_args={"options": POSTGRESQL_OPTIONS},
        )
    if address.get_backend_name() != "sqlite":
        place = address.render_as_string(hide_password=True)
        raise Malformed([_cannot_open(place, f"fitdb does not work on {address.get_backend_name()}.")])
    if address.database in (None, "", ":memory:"):  # every connection of a plain pool would get its own memory
        engine = create_engine("sqlite://", poolclass=StaticPool, connect_args={"check_same_thread": False})
    else:
        engine = create_engine(address.set(drivername="sqlite"))

    @event.listens_for(engine, "connect")
    def _connect(driver_connection: Any, _record: Any) -> None:
        driver_connection.isolation_level = None  # the driver's own BEGIN does not wrap CREATE TABLE
        for pragma in (*SQLITE_PRAGMAS, f"foreign_keys={'ON' if foreign_keys else 'OFF'}"):
            driver_connection.execute(f"PRAGMA {pragma}")
        _write_ahead(driver_connection)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        # A transaction that reads first and writes later fails at once when another writes meanwhile: say so first.
        writes = connection.get_execution_options().get("write")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def _write_ahead(driver_connection: Any) -> None:
    """Puts a SQLite file into write-ahead mode, which it then stays in.

    The change does not wait for others as other statements do (busy_timeout is not heeded): where several programs
    open one new file at once, all but the first are told that it is locked, and try again.
    """
    import sqlite3

    give_up = time.monotonic() + WRITE_AHEAD_SECONDS
    while True:
        try:
            driver_connection.execute("PRAGMA journal_mode=WAL")
            return
        except sqlite3.OperationalError as fault:
            if "locked" not in str(fault) or time.monotonic() > give_up:
                raise
            time.sleep(0.01)


def writing(engine: Engine) -> Engine:
    """The same engine for a transaction that will write: `with writing(engine).begin() as connection`."""
    return engine.execution_options(write=True)


def queue_up(connection: Connection) -> None:
    """Waits until nobody else migrates or seeds this database; held to the end of the transaction.

    On SQLite the write transaction itself is that queue.
    """
    if connection.dialect.name == "postgresql":
        connection.execute(text("select pg_advisory_xact_lock(:lock)"), {"lock": ADVISORY_LOCK})


def migrate(engine: Engine, location: Path = MIGRATIONS) -> None:
    """Brings the tables up to date in one transaction: all steps or none.

    OurFault when a migration leaves rows that point nowhere. Several programs may start at once: they queue.
    """
    if _is_current(engine, location):
        return
    if is_memory(engine):
        _upgrade(engine, location)  # a second engine would be a second memory; an empty one has no children to lose
        return
    own = engine_for(engine.url.render_as_string(hide_password=False), foreign_keys=False)
    try:
        _upgrade(own, location)
    finally:
        own.dispose()


def newest_revision(location: Path = MIGRATIONS) -> str:
    """The revision that the tables should be at: revisions are numbered in a line, file names begin with them."""
    return max(file.name.split("_", 1)[0] for file in (location / "versions").glob("*.py"))


def _is_current(engine: Engine, location: Path) -> bool:
    """Asks the database alone: an up-to-date one needs neither alembic (a slow import) nor the right to write."""
    with engine.connect() as connection:
        if not inspect(connection).has_table("alembic_version"):
            return False
        at = connection.execute(text("select version_num from alembic_version")).scalars().all()
    return at == [newest_revision(location)]


def _upgrade(engine: Engine, location: Path) -> None:
    from alembic import command
    from alembic.config import Config

    with writing(engine).begin() as connection:
        queue_up(connection)
        config = Config()
        config.set_main_option("script_location", str(location).replace("%", "%%"))
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
        if connection.dialect.name == "sqlite":
            orphans = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
            if orphans:
                raise OurFault(
                    f"The migration would leave {len(orphans)} rows that point nowhere; nothing was changed."
                )


def is_memory(engine: Engine) -> bool:
    """Whether the catalogue lives in memory and ends with the program."""
    return engine.url.get_backend_name() == "sqlite" and engine.url.database in (None, "", ":memory:")


def open_catalogue(url: str | None = None, *, seed: Path = SEED) -> Engine:
    """The catalogue at `url` (else `default_url()`), migrated, and filled from the shipped tables.

    Seed rows are replaced when the shipped tables changed since they were loaded; rows of persons stay. Dispose of
    the engine when done: SQLite then folds its side files into one. Malformed, with a plain message, when the database
    cannot be opened; OurFault when the shipped tables are at fault.
    """
    from fitdb.catalogue.seeding import seed_if_changed

    engine = engine_for(url if url is not None else default_url())
    try:
        _explained(engine, lambda: migrate(engine))
        _explained(engine, lambda: seed_if_changed(engine, seed))
    except BaseException:
        engine.dispose()
        raise
    return engine


def _explained(engine: Engine, step: Callable[[], object]) -> None:
    """Runs one step of opening; what the driver says becomes a plain sentence."""
    place = engine.url.render_as_string(hide_password=True)
    try:
        step()
    except OperationalError as fault:
        said = str(fault.orig).strip().splitlines()[0] if str(fault.orig).strip() else "no reason given"
        raise Malformed([_cannot_open(place, f"the database says: {said}.")]) from fault
    except DBAPIError as fault:
        if "not a database" in str(fault.orig):
            raise Malformed([_cannot_open(place, "this file is no fitdb catalogue.")]) from fault
        raise OurFault(f"The catalogue at {place} could not be brought up to date: {fault.orig}") from fault


def _cannot_open(place: str, why: str) -> Problem:
    return Problem(
        code="catalogue_cannot_open",
        message=f"The catalogue at {place} cannot be opened: {why}",
        hint="Make that place readable and writable, or name another one: FITDB_URL=sqlite:///parts.sqlite, for "
        "instance, or FITDB_URL=postgresql://user@host/fitdb.",
    )

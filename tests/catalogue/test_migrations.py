"""The tables in a database are those that the code means, on both databases, and a migration is all or nothing."""

from __future__ import annotations

import shutil
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from subprocess import PIPE, Popen

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import CheckConstraint, Engine, func, inspect, select, text
from sqlalchemy.exc import DBAPIError

from fitdb.catalogue import tables
from fitdb.catalogue.paths import MIGRATIONS
from fitdb.catalogue.session import engine_for, migrate, newest_revision, open_catalogue

TINY = Path(__file__).parent / "tiny_seed"


def test_an_empty_database_is_brought_up_to_date(empty_url: str) -> None:
    engine = engine_for(empty_url)
    try:
        migrate(engine)
        assert set(inspect(engine).get_table_names()) == {*tables.metadata.tables, "alembic_version"}
        migrate(engine)  # a second time changes nothing
    finally:
        engine.dispose()


def test_the_migrations_build_what_the_code_means(engine: Engine) -> None:
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), tables.metadata) == []


def test_every_constraint_of_the_code_stands_in_the_database(engine: Engine) -> None:
    # compare_metadata does not look at CHECK constraints, and they carry two of the catalogue's laws.
    found = inspect(engine)
    for name, table in tables.metadata.tables.items():
        meant = {str(one.name) for one in table.constraints if isinstance(one, CheckConstraint)}
        standing = {str(one["name"]) for one in found.get_check_constraints(name)}
        assert standing == {f"ck_{name}_{check.removeprefix(f'ck_{name}_')}" for check in meant}, name


def test_the_newest_revision_is_the_head() -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    assert ScriptDirectory.from_config(config).get_heads() == [newest_revision()]


def test_a_migration_that_fails_leaves_nothing_behind(empty_url: str, tmp_path: Path) -> None:
    location = Path(shutil.copytree(MIGRATIONS, tmp_path / "100 % new"))  # a percent sign in the path must not matter
    (location / "versions" / "9999_half.py").write_text(
        "import sqlalchemy as sa\nfrom alembic import op\n"
        f"revision = '9999'\ndown_revision = {newest_revision()!r}\nbranch_labels = depends_on = None\n"
        "def upgrade():\n    op.create_table('half_made', sa.Column('id', sa.Integer()))\n"
        "    op.execute('insert into no_such_table values (1)')\n"
    )
    engine = engine_for(empty_url)
    try:
        with pytest.raises(DBAPIError, match="no_such_table"):
            migrate(engine, location)
        assert inspect(engine).get_table_names() == []
    finally:
        engine.dispose()


def test_a_migration_that_rebuilds_a_table_keeps_its_children(empty_url: str, tmp_path: Path) -> None:
    # On SQLite a batch migration drops the old table: with foreign keys on, that would delete every reading.
    engine = open_catalogue(empty_url, seed=TINY)
    location = Path(shutil.copytree(MIGRATIONS, tmp_path / "migrations"))
    (location / "versions" / "9999_note.py").write_text(
        "import sqlalchemy as sa\nfrom alembic import op\n"
        f"revision = '9999'\ndown_revision = {newest_revision()!r}\nbranch_labels = depends_on = None\n"
        "def upgrade():\n    with op.batch_alter_table('part', recreate='always') as batch:\n"
        "        batch.add_column(sa.Column('note', sa.String(10)))\n"
        "    op.execute('select 1')\n"
    )
    try:
        with engine.connect() as connection:
            before = connection.execute(select(func.count()).select_from(tables.part_reading)).scalar_one()
        if engine.dialect.name == "postgresql":
            location.joinpath("versions", "9999_note.py").write_text(
                location.joinpath("versions", "9999_note.py").read_text().replace("recreate='always'", "")
            )
        migrate(engine, location)
        with engine.connect() as connection:
            after = connection.execute(select(func.count()).select_from(tables.part_reading)).scalar_one()
            assert connection.execute(text("select count(note) from part")).scalar_one() == 0
        assert after == before > 0
    finally:
        engine.dispose()


def test_three_programs_may_start_at_once_on_an_empty_database(empty_url: str) -> None:
    program = (
        "import sys; from pathlib import Path; from fitdb.catalogue.session import open_catalogue\n"
        "open_catalogue(sys.argv[1], seed=Path(sys.argv[2])).dispose()"
    )
    started = [Popen([sys.executable, "-c", program, empty_url, str(TINY)], stderr=PIPE) for _ in range(3)]
    said = [one.communicate(timeout=60)[1].decode() for one in started]
    assert [one.returncode for one in started] == [0, 0, 0], said
    _loaded_once(empty_url)


def test_three_threads_may_open_an_empty_database_at_once(empty_url: str) -> None:
    with ThreadPoolExecutor(3) as threads:
        for engine in threads.map(lambda _: open_catalogue(empty_url, seed=TINY), range(3)):
            engine.dispose()
    _loaded_once(empty_url)


def _loaded_once(url: str) -> None:
    engine = engine_for(url)
    try:
        with engine.connect() as connection:
            assert connection.execute(select(tables.catalogue_revision.c.number)).scalars().all() == [1]
            assert connection.execute(select(func.count()).select_from(tables.part)).scalar_one() == 7
    finally:
        engine.dispose()

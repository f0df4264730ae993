"""Opening a catalogue: where it is, what is said when it cannot be opened, and how long a first start takes."""

from __future__ import annotations

import sqlite3
import threading
import time
from pathlib import Path

import pytest
from sqlalchemy import text

from fitdb.catalogue import read
from fitdb.catalogue.seed import load_seed
from fitdb.catalogue.session import default_url, engine_for, open_catalogue
from fitdb.model.problems import Malformed, OurFault

TINY = Path(__file__).parent / "tiny_seed"


def test_the_address_comes_from_the_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("FITDB_URL", " postgresql://somewhere/fitdb ")
    assert default_url() == "postgresql://somewhere/fitdb"
    monkeypatch.delenv("FITDB_URL")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    assert default_url() == f"sqlite:///{tmp_path}/data/fitdb/fitdb.sqlite"
    monkeypatch.setenv("XDG_DATA_HOME", "")
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    assert default_url() == f"sqlite:///{tmp_path}/home/.local/share/fitdb/fitdb.sqlite"
    assert (tmp_path / "home/.local/share/fitdb").is_dir()


def test_a_folder_that_cannot_be_made_is_named(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.delenv("FITDB_URL", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "file"))
    with pytest.raises(Malformed, match="the folder cannot be created"):
        default_url()


def test_the_first_start_makes_a_whole_catalogue(empty_url: str) -> None:
    began = time.perf_counter()
    engine = open_catalogue(empty_url, seed=TINY)
    try:
        assert time.perf_counter() - began < 3.0
        with engine.connect() as connection:
            assert {one.id: one for one in read.parts(connection)} == load_seed(TINY).parts
        began = time.perf_counter()
        open_catalogue(empty_url, seed=TINY).dispose()
        assert time.perf_counter() - began < 1.0
        with engine.connect() as connection:
            assert read.revision(connection).startswith("r1-")
    finally:
        engine.dispose()


def test_a_catalogue_in_memory_works() -> None:
    engine = open_catalogue("sqlite://", seed=TINY)
    with engine.connect() as connection:
        assert len(read.parts(connection)) == 7
    engine.dispose()


def test_a_closed_sqlite_catalogue_is_one_file(tmp_path: Path) -> None:
    # Whoever copies only that file must not lose anything.
    engine = open_catalogue(f"sqlite:///{tmp_path / 'one.sqlite'}", seed=TINY)
    engine.dispose()
    assert [path.name for path in tmp_path.iterdir()] == ["one.sqlite"]


def test_foreign_keys_are_on_for_everybody(tmp_path: Path) -> None:
    engine = open_catalogue(f"sqlite:///{tmp_path / 'one.sqlite'}", seed=TINY)
    with engine.connect() as connection:
        assert connection.execute(text("pragma foreign_keys")).scalar_one() == 1
    engine.dispose()


@pytest.mark.parametrize(
    ("url", "said"),
    [
        ("nonsense", "this is no database address"),
        ("oracle://host/fitdb", "fitdb does not work on oracle"),
        ("sqlite:////no/such/folder/fitdb.sqlite", "unable to open database file"),
        ("postgresql://user:secret@/fitdb?host=/no/such/socket", "No such file or directory"),
    ],
)
def test_what_cannot_be_opened_is_said_plainly(url: str, said: str) -> None:
    with pytest.raises(Malformed, match=said) as refused:
        open_catalogue(url, seed=TINY)
    assert "secret" not in str(refused.value)
    assert "FITDB_URL=sqlite:///" in refused.value.problems[0].hint


def test_a_file_that_is_no_database_is_said_plainly(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear reader, " * 200)
    with pytest.raises((Malformed, OurFault), match="no fitdb catalogue"):
        open_catalogue(f"sqlite:///{tmp_path / 'letter.txt'}", seed=TINY)


def test_a_catalogue_that_another_program_holds_is_said_plainly(tmp_path: Path) -> None:
    path = tmp_path / "held.sqlite"
    holder = sqlite3.connect(path, isolation_level=None)
    holder.execute("begin exclusive")
    engine = engine_for(f"sqlite:///{path}")
    engine.dispose()
    try:
        with pytest.raises(Malformed, match="database is locked"):
            open_catalogue(f"sqlite:///{path}", seed=TINY)
    finally:
        holder.close()


def test_a_file_that_another_program_is_making_is_waited_for(tmp_path: Path) -> None:
    """Beside a writer, the change to write-ahead mode is refused without waiting; the opening waits all the same."""
    file = tmp_path / "new.sqlite"
    other = sqlite3.connect(file, isolation_level=None, check_same_thread=False)
    other.execute("create table there (id integer)")
    other.execute("begin immediate")
    other.execute("insert into there values (1)")
    release = threading.Timer(0.4, other.execute, ["commit"])
    release.start()
    engine = engine_for(f"sqlite:///{file}")
    try:
        with engine.connect() as connection:
            assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"
    finally:
        release.join()
        engine.dispose()
        other.close()

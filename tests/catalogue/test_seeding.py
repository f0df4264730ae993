"""The shipped tables in a catalogue: the same values from SQL as from the files, and new tables over old ones."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import Engine, func, insert, select, update

from fitdb.catalogue import read, tables
from fitdb.catalogue.seed import SeedBook, load_seed
from fitdb.catalogue.seeding import seed_if_changed, write_seed
from fitdb.catalogue.session import writing
from fitdb.catalogue.write import save_part
from fitdb.intake.readings import own_source
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Number

CALIPER = own_source("caliper")


def _seed(engine: Engine, directory: Path) -> None:
    with writing(engine).begin() as connection:
        write_seed(connection, load_seed(directory))


def _edit(directory: Path, file: str, old: str, new: str) -> None:
    path = directory / file
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, new))


def _save(engine: Engine, part: Part, expected: int | None = None) -> Part:
    with writing(engine).begin() as connection:
        return save_part(connection, part, expected)


def test_sql_gives_what_the_files_say(filled: Engine, tiny: SeedBook) -> None:
    with filled.connect() as connection:
        book = read.book(connection)
        assert book.table == tiny.table
        assert list(book.table.attributes) == list(tiny.table.attributes)  # in the order of the files, too
        assert (book.fits, book.patterns, book.remedies) == (tiny.fits, tiny.patterns, tiny.remedies)
        assert (book.stock, book.limits) == (tiny.stock, tiny.limits)
        assert {one.id: one for one in read.parts(connection)} == tiny.parts
        assert {one.id: one for one in read.interfaces(connection)} == tiny.interfaces
        assert book.revision == f"r1-{tiny.digest[:8]}"


def test_the_same_tables_are_not_loaded_twice(filled: Engine, tiny_copy: Path) -> None:
    assert seed_if_changed(filled, tiny_copy) is False
    _edit(tiny_copy, "limits.csv", "0.15", "0.2")
    assert seed_if_changed(filled, tiny_copy) is True
    assert seed_if_changed(filled, tiny_copy) is False
    with filled.connect() as connection:
        assert read.limits(connection) == {"core_windows.lugs_enter.least": 0.2}
        assert read.revision(connection).startswith("r2-")


def test_new_tables_replace_old_ones_and_raise_versions(filled: Engine, tiny_copy: Path) -> None:
    _edit(tiny_copy, "parts/wheel.csv", "wheel-90,Ninety wheel,core-six,90,", "wheel-90,Ninety wheel,core-six,91,")
    _edit(tiny_copy, "parts/wheel.csv", "wheel-unread,Wheel that nobody has read,,,,invented_sheet\n", "")
    _edit(tiny_copy, "remedies.csv", "file-lugs,File", "grind-lugs,Grind")
    _edit(tiny_copy, "patterns/lines.csv", "loose,bite,wheel_bite,J08,Wheel and deck", "loose,bite,wheel_bite,J08,Bite")
    _seed(filled, tiny_copy)
    wanted = load_seed(tiny_copy)
    with filled.connect() as connection:
        found = {one.id: one for one in read.parts(connection)}
        unversioned = {
            own: replace(one, version=1, ports={port: replace(at, version=1) for port, at in one.ports.items()})
            for own, one in found.items()
        }
        assert unversioned == wanted.parts
        assert {one.version for one in found.values()} == {2}  # whoever holds the old ETag is told
        assert (read.remedies(connection), read.patterns(connection)) == (wanted.remedies, wanted.patterns)
        for child in (tables.part_reading, tables.part_word, tables.part_outline, tables.part_port):
            stored = connection.execute(select(func.count()).select_from(child)).scalar_one()
            assert stored == len(wanted.rows.get(child.name, ())), child.name


def test_interfaces_may_change_places(filled: Engine, tiny_copy: Path) -> None:
    _edit(tiny_copy, "interfaces/wheel_core.csv", "core-six,", "spare,")
    _edit(tiny_copy, "interfaces/wheel_core.csv", "core-unread,", "core-six,")
    _edit(tiny_copy, "interfaces/wheel_core.csv", "spare,", "core-unread,")
    _seed(filled, tiny_copy)
    with filled.connect() as connection:
        assert read.interface(connection, "core-unread").readings["window_width"].nominal == 9.0  # type: ignore[union-attr]
        assert "window_width" not in read.interface(connection, "core-six").readings  # type: ignore[union-attr]


def test_what_a_person_made_stays(filled: Engine, tiny: SeedBook, tiny_copy: Path) -> None:
    width = Number(8.95, 9.0, 9.05, "mm", CALIPER, "9.0 @caliper")
    core = Interface("my-core", "wheel_core", "My core", {"window_width": width}, "")
    mine = _save(filled, Part("my-wheel", "wheel", "My wheel", {}, {"core": core}, CALIPER))
    shipped = tiny.parts["wheel-97"]
    edited = _save(filled, replace(shipped, title="Measured again"), expected=1)
    lent = _save(filled, Part("my-pulley", "driven_pulley", "Mine", {}, tiny.parts["pulley-36"].ports, CALIPER))
    # The next tables change the part that the person edited, and drop the interface that the person's pulley names.
    _edit(tiny_copy, "parts/wheel.csv", "Ninety-seven wheel", "Another title")
    (tiny_copy / "parts" / "driven_pulley.csv").unlink()
    (tiny_copy / "interfaces" / "lug_ring--six.csv").unlink()
    _seed(filled, tiny_copy)
    with filled.connect() as connection:
        assert read.part(connection, "my-wheel") == mine
        kept = read.part(connection, "wheel-97")
        assert kept is not None and (kept.title, kept.version) == ("Measured again", edited.version)
        assert kept.readings == edited.readings
        pulley = read.part(connection, "my-pulley")
        assert pulley is not None and pulley.ports["lugs"].id == lent.ports["lugs"].id == "lugs-six"
        assert read.part(connection, "pulley-36") is None


def test_a_persons_interface_that_is_shipped_later_becomes_the_shipped_one(filled: Engine, tiny_copy: Path) -> None:
    sheet = load_seed(tiny_copy).table.sources["invented_sheet"]
    core = Interface("my-core", "wheel_core", "My core", {"window_count": Count((8,), 8, sheet)}, "")
    _save(filled, Part("my-wheel", "wheel", "My wheel", {}, {"core": core}, CALIPER))
    with open(tiny_copy / "interfaces" / "wheel_core.csv", "a") as opened:
        opened.write("core-eight,Eight-window core,8,,,,invented_sheet\n")
    _seed(filled, tiny_copy)
    with filled.connect() as connection:
        mine = read.part(connection, "my-wheel")
        assert mine is not None and mine.ports["core"].id == "core-eight"
        assert read.interface(connection, "my-core") is None


def test_stored_answers_do_not_outlive_their_interfaces(filled: Engine, tiny_copy: Path) -> None:
    answer = {"interface_a": "core-six", "interface_b": "lugs-six", "rule": "r", "state": "fails", "stamp": "s"}
    with writing(filled).begin() as connection:
        connection.execute(insert(tables.fit_answer), answer)
    _seed(filled, tiny_copy)
    with filled.connect() as connection:
        assert connection.execute(select(tables.fit_answer)).all() == []


def test_faulty_tables_leave_the_old_ones(filled: Engine, tiny_copy: Path, tiny: SeedBook) -> None:
    _edit(tiny_copy, "limits.csv", "0.15", "soon")
    with pytest.raises(OurFault, match=r"1 faults and were not loaded(.|\n)*limits\.csv, row 2, column value"):
        seed_if_changed(filled, tiny_copy)
    with filled.connect() as connection:
        assert read.limits(connection) == tiny.limits
        assert read.revision(connection).startswith("r1-")


def test_an_interruption_half_way_leaves_the_old_tables(
    filled: Engine, tiny_copy: Path, tiny: SeedBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    _edit(tiny_copy, "limits.csv", "0.15", "0.2")

    def cut(*_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("fitdb.catalogue.seeding.bump_revision", cut)
    with pytest.raises(KeyboardInterrupt):
        seed_if_changed(filled, tiny_copy)
    with filled.connect() as connection:
        assert read.limits(connection) == tiny.limits
        assert {one.id: one for one in read.parts(connection)} == tiny.parts


def test_the_revision_is_one_row(filled: Engine) -> None:
    with writing(filled).begin() as connection:
        connection.execute(update(tables.catalogue_revision).values(number=tables.catalogue_revision.c.number + 1))
        assert connection.execute(select(func.count()).select_from(tables.catalogue_revision)).scalar_one() == 1

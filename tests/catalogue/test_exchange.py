"""Catalogues as files: what goes out comes back the same, and an import is all or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import Engine, func, select

from fitdb.catalogue import read, tables
from fitdb.catalogue.exchange import check_import, export_directory, import_directory
from fitdb.catalogue.seed import SeedBook, load_seed
from fitdb.catalogue.seeding import write_seed
from fitdb.catalogue.session import writing
from fitdb.model.problems import Malformed

MINE = {
    "sources.csv": "id,kind,title,standing\nmy_caliper,caliper,My caliper,own reading\n"
    "workshop,default,What workshops usually do,\"common practice, no source\"\n",
    "interfaces/wheel_core.csv": "id,title,window_count,window_width [mm],source\nmy-core,My core,7,8.5,my_caliper\n",
    "parts/wheel.csv": "id,title,port:core,outer_diameter [in],source\n"
    "mine-1,First of mine,my-core,3.5 @ruler,my_caliper\nmine-2,Second of mine,core-six,\"3,54\",my_caliper\n",
}  # fmt: skip


def _write(directory: Path, files: dict[str, str]) -> Path:
    for file, text in files.items():
        path = directory / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return directory


def test_what_is_exported_loads_as_the_same(filled: Engine, tiny: SeedBook, tmp_path: Path) -> None:
    files = export_directory(filled, tmp_path / "out")
    again = load_seed(tmp_path / "out")
    for name in ("table", "fits", "patterns", "remedies", "stock", "limits", "interfaces", "parts"):
        assert getattr(again, name) == getattr(tiny, name), name
    assert "parts/driven_pulley.csv" in files and "stock.csv" in files


def test_an_import_adds_to_the_catalogue(filled: Engine, tiny: SeedBook, tmp_path: Path) -> None:
    directory = _write(tmp_path / "mine", MINE)
    assert check_import(filled, directory) == ()
    added = import_directory(filled, directory)
    assert (added["part"], added["interface"]) == (2, 1)
    with filled.connect() as connection:
        first, second = read.part(connection, "mine-1"), read.part(connection, "mine-2")
        assert first is not None and second is not None
        assert first.readings["outer_diameter"].nominal == pytest.approx(88.9)  # type: ignore[union-attr]
        assert first.readings["outer_diameter"].source.kind == "ruler"
        assert second.readings["outer_diameter"].nominal == pytest.approx(89.916)  # type: ignore[union-attr]
        assert second.ports["core"].id == "core-six"
        own = select(tables.part.c.id).where(tables.part.c.origin == "own")
        assert set(connection.execute(own).scalars()) == {"mine-1", "mine-2"}
        assert read.revision(connection).startswith("r2-")
    with writing(filled).begin() as connection:
        write_seed(connection, tiny)
    with filled.connect() as connection:
        assert read.part(connection, "mine-1") == first


def test_own_parts_can_be_carried_to_another_catalogue(filled: Engine, tiny: SeedBook, tmp_path: Path) -> None:
    import_directory(filled, _write(tmp_path / "mine", MINE))
    with filled.connect() as connection:
        before = read.parts(connection)
    files = export_directory(filled, tmp_path / "out", own_only=True)
    assert set(files) == {"sources.csv", "interfaces/wheel_core.csv", "parts/wheel.csv"}
    with writing(filled).begin() as connection:  # the other catalogue: this one, without what was imported
        for table in reversed(tables.metadata.sorted_tables):
            connection.execute(table.delete())
        write_seed(connection, tiny)
    import_directory(filled, tmp_path / "out")
    with filled.connect() as connection:
        assert read.parts(connection) == before


SPOILT = {
    "reading": ("parts/wheel.csv", MINE["parts/wheel.csv"].replace("3.5 @ruler", "round"),
                "parts/wheel.csv, row 2, column outer_diameter [in]"),
    "part of the catalogue": ("parts/wheel.csv", MINE["parts/wheel.csv"].replace("mine-2", "wheel-90"),
                              "parts/wheel.csv, row 3, column id: `wheel-90` is in the catalogue"),
    "unknown interface": ("parts/wheel.csv", MINE["parts/wheel.csv"].replace("core-six", "core-nine"),
                          "parts/wheel.csv, row 3, column port:core"),
    "interface of the catalogue under another name": (
        "interfaces/wheel_core.csv",
        "id,title,window_count,core_material,source\nmy-core,My core,unknown,unknown,workshop\n",
        "`my-core` and `core-unread` say the same"),
    "source of the catalogue": ("sources.csv", MINE["sources.csv"].replace("What workshops usually do", "Rumour"),
                                "sources.csv, row 3, column id"),
}  # fmt: skip


@pytest.mark.parametrize("name", SPOILT)
def test_a_faulty_import_changes_nothing(filled: Engine, tmp_path: Path, name: str) -> None:
    file, text, place = SPOILT[name]
    assert text != MINE[file]
    directory = _write(tmp_path / "mine", MINE | {file: text})
    with filled.connect() as connection:
        before = {name: len(rows) for name, rows in read.all_rows(connection).items()}
    with pytest.raises(Malformed) as refused:
        import_directory(filled, directory)
    assert place in str(refused.value)
    assert check_import(filled, directory) == refused.value.problems
    with filled.connect() as connection:
        assert {name: len(rows) for name, rows in read.all_rows(connection).items()} == before
        assert read.revision(connection).startswith("r1-")


def test_a_directory_that_is_not_there_is_a_fault(filled: Engine, tmp_path: Path) -> None:
    with pytest.raises(Malformed, match="no such directory"):
        import_directory(filled, tmp_path / "nowhere")


def test_a_shipped_pattern_takes_no_more_seats(filled: Engine, tmp_path: Path) -> None:
    seats = "pattern,seat,row,order,classes,title,source\nloose,spare,,1,wheel,Spare wheel,workshop\n"
    with pytest.raises(Malformed, match="pattern `loose` is in the catalogue already"):
        import_directory(filled, _write(tmp_path / "more", {"patterns/seats.csv": seats}))
    mine = seats.replace("loose", "mine")
    assert import_directory(filled, _write(tmp_path / "own", {"patterns/seats.csv": mine}))["seat"] == 1
    with filled.connect() as connection:
        assert list(read.patterns(connection)) == ["loose", "mine"]
        assert connection.execute(select(func.count()).select_from(tables.seat)).scalar_one() == 4

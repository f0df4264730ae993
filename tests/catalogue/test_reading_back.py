"""Pages of parts and interfaces, filters, and how many queries they take."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from sqlalchemy import Connection, Engine, event, insert

from fitdb.catalogue import read, tables
from fitdb.catalogue.session import writing
from fitdb.model.part import Part


@pytest.fixture
def connection(filled: Engine) -> Iterator[Connection]:
    with filled.connect() as opened:
        yield opened


def _ids(parts: object) -> list[str]:
    return [one.id for one in parts]  # type: ignore[attr-defined]


def test_pages_follow_one_another(connection: Connection) -> None:
    everything = _ids(read.parts(connection))
    assert everything == sorted(everything) and len(everything) == 7
    seen: list[str] = []
    while page := read.parts(connection, after=seen[-1] if seen else "", limit=3):
        assert len(page) <= 3
        seen += _ids(page)
    assert seen == everything


def test_a_class_stands_for_those_that_are_like_it(connection: Connection) -> None:
    wheels = ["tyre-150", "wheel-90", "wheel-97", "wheel-unread"]
    assert _ids(read.parts(connection, classes=["wheel"])) == wheels
    assert _ids(read.parts(connection, classes=["tyre_wheel"])) == ["tyre-150"]
    assert _ids(read.parts_of_classes(connection, ["bearing", "wheel"])) == ["bearing-10", "bearing-608", *wheels]
    assert _ids(read.parts(connection, classes=["no_such_class"])) == []


def test_parts_by_interface_and_text(connection: Connection) -> None:
    assert _ids(read.parts(connection, interface="core-six")) == ["wheel-90"]
    assert _ids(read.parts(connection, interface="core-six", classes=["bearing"])) == []
    assert _ids(read.parts(connection, text=" NINETY ")) == ["wheel-90", "wheel-97"]
    assert _ids(read.parts(connection, text="608")) == ["bearing-608"]
    assert _ids(read.parts(connection, text="%")) == []  # a sign of SQL is a sign like any other
    assert _ids(read.parts(connection, text="_")) == []


def test_interfaces_by_kind_and_text(connection: Connection) -> None:
    assert _ids(read.interfaces(connection)) == ["core-five-or-six", "core-six", "core-unread", "lugs-six"]
    assert _ids(read.interfaces(connection, kinds=["lug_ring"])) == ["lugs-six"]
    assert _ids(read.interfaces(connection, text="nobody", limit=1)) == ["core-unread"]
    assert _ids(read.interfaces(connection, after="core-six", limit=1)) == ["core-unread"]


def test_what_is_not_there_is_none(connection: Connection) -> None:
    assert read.part(connection, "nothing") is None
    assert read.interface(connection, "nothing") is None
    assert read.pattern(connection, "nothing") is None
    assert read.pattern(connection, "loose") is not None


@contextmanager
def _counted(engine: Engine) -> Iterator[list[str]]:
    said: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_: object) -> None:
        said.append(statement)

    event.listen(engine, "before_cursor_execute", note)
    try:
        yield said
    finally:
        event.remove(engine, "before_cursor_execute", note)


def test_a_longer_page_takes_no_more_queries(filled: Engine) -> None:
    with writing(filled).begin() as connection:
        head = {"class_id": "wheel", "source_id": "workshop", "origin": "own", "title": "Copy"}
        copies = [f"copy-{number:03}" for number in range(200)]
        connection.execute(insert(tables.part), [{"id": own, **head} for own in copies])
        port = {"port": "core", "interface_id": "core-six", "class_id": "wheel"}
        connection.execute(insert(tables.part_port), [{"part_id": own, **port} for own in copies])
    taken = []
    for limit in (2, 200):
        with filled.connect() as connection, _counted(filled) as said:
            page = read.parts(connection, after="copy", limit=limit)
            assert len(page) == limit and page[0].ports["core"].id == "core-six"
            taken.append(len(said))
    assert taken[0] == taken[1] <= 12


def test_of_many_ids_those_near_a_mistyped_one_are_looked_at(
    sqlite_catalogue: tuple[Engine, read.Book, dict[str, list[Part]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    every = {part.id for some in sqlite_catalogue[2].values() for part in some}
    with sqlite_catalogue[0].connect() as connection:
        assert set(read.part_ids_near(connection, "anything")) == every
        monkeypatch.setattr(read, "MOST_COMPARED", 60)
        for typed, meant in (
            ("wheel-90-six-windw", "wheel-90-six-window"),
            ("weel-90-six-window", "wheel-90-six-window"),
            ("Wheel 90 six window", "wheel-90-six-window"),
        ):
            near = read.part_ids_near(connection, typed)
            assert meant in near and len(near) <= 60
        assert len(read.part_ids_near(connection, "\0%_'\N{LATIN SMALL LETTER SHARP S}")) <= 60

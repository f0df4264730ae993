"""The snapshot has every part once, and what stands for parts that are alike says what each of them says."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

import pytest
from large_catalogues import own_database
from sqlalchemy import Engine

from fitdb.asked_readings import readings_asked
from fitdb.catalogue import read
from fitdb.catalogue.session import open_catalogue, writing
from fitdb.catalogue.snapshot import Moved, PartSnapshot
from fitdb.catalogue.write import save_part
from fitdb.demo import write_demo
from fitdb.intake.part_files import signature
from fitdb.model.part import Part
from fitdb.rules import rulebook

Demo = tuple[Engine, read.Book, dict[str, Part]]


@pytest.fixture(scope="module", params=("sqlite", "postgresql"))
def demo(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    with own_database(request.param, tmp_path_factory.mktemp("snapshot"), request) as url:
        write_demo(url, 2_000, 9)
        engine = open_catalogue(url)
        with engine.connect() as connection:
            book = read.book(connection)
            parts = {part.id: part for part in read.parts_of_classes(connection, tuple(book.table.classes))}
        yield engine, book, parts
        engine.dispose()


def said(part: Part, only: frozenset[str] | None = None) -> tuple[object, ...]:
    """What a part says, by the signatures that interfaces are told apart by; who read it does not count."""
    own = {name: one for name, one in part.readings.items() if only is None or name in only}
    return part.part_class, signature("", own), tuple(sorted((port, one.id) for port, one in part.ports.items()))


def test_every_part_stands_under_one_signature_that_says_what_it_says(demo: Demo) -> None:
    engine, book, parts = demo
    snapshot = PartSnapshot(engine)
    found: dict[str, Part] = {}
    for part_class in book.table.classes:
        for one in snapshot.parts_of_class(part_class):
            assert one.part.id == one.part_ids[0] and list(one.part_ids) == sorted(one.part_ids)
            for own in one.part_ids:
                assert own not in found
                found[own] = one.part
    assert found.keys() == parts.keys()
    for own, part in found.items():
        assert said(part) == said(parts[own]), own
        assert part.ports == parts[own].ports
        if part.id == own:  # the one that stands for its like is told as the catalogue has it, down to who said what
            first = parts[own]
            assert (part.title, part.source) == (first.title, first.source)
            assert {name: one.source for name, one in part.readings.items()} == {
                name: one.source for name, one in first.readings.items()
            }
    assert len({id(part) for part in found.values()}) < len(found), "some parts are alike"


def test_no_two_signatures_of_a_class_say_the_same(demo: Demo) -> None:
    engine, _, _ = demo
    for part_class in ("wheel", "belt", "cap_screw", "deck"):
        shapes = [said(one.part) for one in PartSnapshot(engine).parts_of_class(part_class)]
        assert len(shapes) == len(set(shapes)), part_class


def test_only_what_rules_can_read_tells_parts_apart(demo: Demo) -> None:
    engine, book, parts = demo
    asked = readings_asked(book.patterns["two_wheel_belt"], book, rulebook())
    narrow, whole = PartSnapshot(engine, asked.get), PartSnapshot(engine)
    for part_class in ("wheel", "motor", "pack"):
        few, many = narrow.parts_of_class(part_class), whole.parts_of_class(part_class)
        assert len(few) <= len(many)
        assert sum(len(one.part_ids) for one in few) == sum(len(one.part_ids) for one in many)
        for one in few:
            assert set(one.part.readings) <= asked[part_class]
            for own in one.part_ids:
                assert said(parts[own], asked[part_class]) == said(one.part)
    assert "mass" not in asked["wheel"]


def test_those_that_are_like_a_class_come_with_it(demo: Demo) -> None:
    engine, _, parts = demo
    found = {own for one in PartSnapshot(engine).parts_like("wheel") for own in one.part_ids}
    assert found == {own for own, part in parts.items() if part.part_class in ("wheel", "tyre_wheel")}


def test_a_part_is_made_when_it_is_asked_for_and_once(demo: Demo) -> None:
    one = PartSnapshot(demo[0]).parts_of_class("wheel")[0]
    assert one._part is None
    assert one.part is one.part


def test_a_catalogue_that_moves_ends_the_snapshot(demo: Demo) -> None:
    engine, _, parts = demo
    snapshot = PartSnapshot(engine)
    decks = snapshot.parts_of_class("deck")
    template = next(part for part in parts.values() if part.part_class == "deck")
    with writing(engine).begin() as connection:
        save_part(connection, dataclasses.replace(template, id="a-new-deck"), None)
    with pytest.raises(Moved):
        snapshot.parts_of_class("wheel")
    assert snapshot.parts_of_class("deck") is decks, "what was read stands as it was at that revision"
    assert "a-new-deck" in {own for one in PartSnapshot(engine).parts_of_class("deck") for own in one.part_ids}

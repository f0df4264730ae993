"""Pages of parts under any mix of conditions, held against the same conditions worked out part by part."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest
from large_catalogues import own_database
from sqlalchemy import Engine

from fitdb.catalogue import find_parts, read
from fitdb.catalogue.count_parts import counted, counted_classes, counted_interfaces, counted_sizes, counted_words
from fitdb.catalogue.find_parts import Found, Shelf, alike_ids, page_by_id, page_by_size, part_heads, parts_with
from fitdb.catalogue.part_conditions import Wanted
from fitdb.catalogue.session import open_catalogue
from fitdb.demo import write_demo
from fitdb.intake.part_filters import SizeWanted, WordsWanted
from fitdb.model.part import Part
from fitdb.model.reading import Outline, Reading, Word

Demo = tuple[Engine, dict[str, Part]]
PARTS = 1_200


@pytest.fixture(scope="module", params=("sqlite", "postgresql"))
def demo(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Demo]:
    """A catalogue with invented parts and, read part by part, what it holds."""
    with own_database(request.param, tmp_path_factory.mktemp("found"), request) as url:
        write_demo(url, PARTS, 11)
        engine = open_catalogue(url)
        with engine.connect() as connection:
            table = read.attribute_table(connection)
            parts = {part.id: part for part in read.parts_of_classes(connection, tuple(table.classes))}
        yield engine, parts
        engine.dispose()


def reading_at(part: Part, port: str, attribute: str) -> Reading | None:
    if not port:
        found = part.readings.get(attribute)
    else:
        found = part.ports[port].readings.get(attribute) if port in part.ports else None
    return None if found is None or found.value_assumed else found


def has(part: Part, wanted: Wanted) -> bool:
    """The same conditions in plain words."""
    if wanted.classes and part.part_class not in wanted.classes:
        return False
    if wanted.text and wanted.text.lower() not in part.id.lower() and wanted.text.lower() not in part.title.lower():
        return False
    if wanted.interface and all(one.id != wanted.interface for one in part.ports.values()):
        return False
    for size in wanted.sizes:
        reading = reading_at(part, size.port, size.attribute)
        if reading is None or isinstance(reading, Word | Outline):
            if not wanted.or_unread:
                return False
        elif not (size.low is None or reading.nominal >= size.low) or not (
            size.high is None or reading.nominal <= size.high
        ):
            return False
    for words in wanted.words:
        reading = reading_at(part, words.port, words.attribute)
        if not isinstance(reading, Word):
            if not wanted.or_unread:
                return False
        elif not reading.possible <= set(words.words):
            return False
    refused = wanted.refused.get(part.part_class, {})
    return all(port not in part.ports or part.ports[port].id not in some for port, some in refused.items())


def questions(parts: dict[str, Part], dice: random.Random) -> Iterator[Wanted]:
    """Mixes of conditions, most of which some part satisfies."""
    listed = list(parts.values())
    while True:
        like = dice.choice(listed)
        sizes, words = [], []
        for name, reading in dice.sample(sorted(like.readings.items()), min(2, len(like.readings))):
            if isinstance(reading, Word):
                words.append(WordsWanted("", name, tuple(sorted(reading.possible))))
            elif not isinstance(reading, Outline):
                low = reading.nominal - abs(reading.nominal) * dice.choice((0, 0.1, 0.5))
                high = reading.nominal + abs(reading.nominal) * dice.choice((0, 0.1, 0.5))
                ends = dice.choice(((low, high), (low, None), (None, high)))
                sizes.append(SizeWanted("", name, *ends))
        for port, interface in like.ports.items():
            for name, reading in interface.readings.items():
                if isinstance(reading, Word | Outline) or dice.random() > 0.2:
                    continue
                sizes.append(SizeWanted(port, name, reading.nominal, reading.nominal))
        offered = sorted({one.id for part in listed for one in part.ports.values()})
        ports = sorted({(part.part_class, port) for part in listed for port in part.ports})
        refused: dict[str, dict[str, frozenset[str]]] = {}
        for part_class, port in ports:
            if part_class == like.part_class and dice.random() < 0.5:
                there = sorted(
                    {one.ports[port].id for one in listed if one.part_class == part_class and port in one.ports}
                )
                refused.setdefault(part_class, {})[port] = frozenset(
                    own for own in there if dice.random() < dice.choice((0.2, 0.95))
                )
        yield Wanted(
            classes=dice.choice(((), (like.part_class,), (like.part_class, "wheel")))
            if not refused
            else (like.part_class,),
            text=dice.choice(("", "", "", "no. 1", "WHEEL", "%", "_", "/")),
            interface=dice.choice(("", "", "", *(one.id for one in like.ports.values()), dice.choice(offered))),
            sizes=tuple(sizes[: dice.randint(0, 2)]),
            words=tuple(words[: dice.randint(0, 1)]),
            or_unread=dice.random() < 0.3,
            refused=refused,
        )


@pytest.mark.parametrize(("dense", "few"), [(0.02, 2_000), (2.0, 0), (0.0, 0), (2.0, 3)])
def test_pages_have_what_is_wanted_and_all_of_it(
    demo: Demo, dense: float, few: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whichever way is taken: a walk along the class, a merge of interfaces, or a few looked up one by one."""
    monkeypatch.setattr(find_parts, "DENSE", dense)
    monkeypatch.setattr(find_parts, "FEW", few)
    engine, parts = demo
    asked = questions(parts, random.Random(f"{dense} {few}"))
    with engine.connect() as connection:
        shelf = Shelf(read.revision(connection))
        for _ in range(60):
            wanted = next(asked)
            expected = sorted(own for own, part in parts.items() if has(part, wanted))
            found: list[str] = []
            while page := page_by_id(connection, wanted, shelf, found[-1] if found else "", 37):
                found += [one.id for one in page]
                assert len(page) == 37 or found[-1] == page[-1].id
            assert found == expected, wanted
            assert counted(connection, wanted) == len(expected)


@pytest.mark.parametrize("falling", [False, True])
@pytest.mark.parametrize("few", [2_000, 0])
def test_a_list_by_size_is_in_order_and_ends_with_what_nobody_read(
    demo: Demo, falling: bool, few: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(find_parts, "FEW", few)
    engine, parts = demo
    asked = questions(parts, random.Random(f"{falling} {few}"))
    with engine.connect() as connection:
        shelf = Shelf(read.revision(connection))
        for _ in range(25):
            wanted, name = next(asked), "mass"
            some = [part for part in parts.values() if has(part, wanted)]
            sized = [(reading_at(part, "", name), part.id) for part in some]
            read_ones = sorted(((one.nominal, own) for one, own in sized if one is not None), reverse=falling)  # type: ignore[union-attr]
            unread = sorted(own for one, own in sized if one is None)
            found: list[Found] = []
            while page := page_by_size(connection, wanted, shelf, name, falling, found[-1] if found else None, 23):
                found += page
            assert [(one.value, one.id) for one in found if one.value is not None] == read_ones, wanted
            assert [one.id for one in found if one.value is None] == unread
            assert [one.id for one in found] == [own for _, own in read_ones] + unread


def test_counts_are_those_of_counting(demo: Demo) -> None:
    engine, parts = demo
    wheels = [part for part in parts.values() if part.part_class == "wheel"]
    wanted = Wanted(("wheel",))
    with engine.connect() as connection:
        for name in ("outer_diameter", "hardness"):
            told = counted_sizes(connection, wanted, name)
            for value, many in told.items():
                found = [reading_at(part, "", name) for part in wheels]
                assert many == sum(getattr(one, "nominal", None) == value for one in found)
            assert sum(told.values()) == len(wheels)
        used = counted_words(connection, wanted, "used")
        assert used.get("no", 0) == sum(
            isinstance(one, Word) and one.possible == {"no"}
            for one in (reading_at(part, "", "used") for part in wheels)
        )
        cores = counted_interfaces(connection, wanted, "core")
        assert cores.get(None, 0) == sum("core" not in part.ports for part in wheels)
        assert sum(cores.values()) == len(wheels)
        assert counted_classes(connection, Wanted()) == {
            own: sum(part.part_class == own for part in parts.values())
            for own in {one.part_class for one in parts.values()}
        }


def test_parts_of_a_page_are_the_parts_themselves(demo: Demo) -> None:
    engine, parts = demo
    ids = random.Random(2).sample(sorted(parts), 60)
    with engine.connect() as connection:
        shelf, sources = Shelf(read.revision(connection)), read.sources(connection)
        found = parts_with(connection, ids, sources, shelf.interfaces(connection))
        assert [part.id for part in found] == ids
        for part in found:
            there = parts[part.id]
            assert (part.readings, part.ports, part.title, part.source) == (
                there.readings,
                there.ports,
                there.title,
                there.source,
            )
        assert [head.id for head in part_heads(connection, [*ids, "none-such"])] == ids


def test_a_mistyped_id_is_not_held_against_the_whole_catalogue(demo: Demo) -> None:
    engine, parts = demo
    with engine.connect() as connection:
        assert "demo-wheel-0000012" in alike_ids(connection, "demo-wheel-000001x")
        assert len(alike_ids(connection, "demo-wheel")) <= 200
        assert set(alike_ids(connection, "zzzz")) <= parts.keys()
        assert alike_ids(connection, "") == ()

"""Saving a part: versions, interfaces that are shared, and what is refused."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest
from sqlalchemy import Engine, func, select

from fitdb.catalogue import read, tables
from fitdb.catalogue.seed import SeedBook
from fitdb.catalogue.session import writing
from fitdb.catalogue.write import Stale, save_part
from fitdb.intake.readings import own_source
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.problems import Malformed
from fitdb.model.reading import Count, Number, Outline, Word
from fitdb.model.source import Source

CALIPER = own_source("caliper")
SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
CORE = Interface(
    "my-core",
    "wheel_core",
    "My core",
    {
        "window_count": Count((6,), 6, own_source("counted"), "6"),
        "window_width": Number(8.95, 9.0, 9.05, "mm", CALIPER, "9.0"),
        "core_material": Word(frozenset({"alloy"}), CALIPER, "alloy", False, True),
        "windows_drawn": Outline((SQUARE,), ((0.0, 0.0, 2.0, 0.0, 0.0),), 0.2, CALIPER, "drawn"),
    },
    "",
)
WHEEL = Part(
    "my-wheel",
    "wheel",
    "My wheel",
    {"outer_diameter": Number(89.0, 90.0, 91.0, "mm", CALIPER, "90 +-1")},
    {"core": CORE},
    CALIPER,
)


def _save(engine: Engine, part: Part, expected: int | None) -> Part:
    with writing(engine).begin() as connection:
        return save_part(connection, part, expected)


def test_a_new_part_comes_back_as_it_was_saved(filled: Engine) -> None:
    saved = _save(filled, WHEEL, None)
    assert saved.version == 1 and saved.readings == WHEEL.readings
    assert saved.ports["core"].readings == CORE.readings and saved.ports["core"].signature
    with filled.connect() as connection:
        assert read.part(connection, "my-wheel") == saved
        assert read.revision(connection).startswith("r2-")
        assert read.sources(connection)["own-caliper"] == CALIPER


def test_each_save_raises_the_version_and_replaces_what_stood_there(filled: Engine) -> None:
    saved = _save(filled, WHEEL, None)
    other = replace(saved, part_class="tyre_wheel", readings={}, ports={}, title="Other")
    assert _save(filled, other, 1).version == 2
    with filled.connect() as connection:
        assert read.part(connection, "my-wheel") == replace(other, version=2)


def test_an_old_version_is_refused_and_changes_nothing(filled: Engine) -> None:
    saved = _save(filled, WHEEL, None)
    second = _save(filled, replace(saved, title="Second"), 1)
    with pytest.raises(Stale, match="it is at version 2") as stale:
        _save(filled, replace(saved, title="Third"), 1)
    assert (stale.value.expected, stale.value.current) == (1, 2)
    with pytest.raises(Stale, match="a new part was to be made, but it is at version 2"):
        _save(filled, WHEEL, None)
    with pytest.raises(Stale, match="it is not in the catalogue") as gone:
        _save(filled, replace(WHEEL, id="nowhere"), 3)
    assert gone.value.current is None
    with filled.connect() as connection:
        assert read.part(connection, "my-wheel") == second


def test_of_many_who_save_at_once_one_wins(filled: Engine) -> None:
    _save(filled, WHEEL, None)

    def attempt(number: int) -> bool:
        try:
            _save(filled, replace(WHEEL, title=f"Attempt {number}"), 1)
        except Stale:
            return False
        return True

    with ThreadPoolExecutor(4) as threads:
        assert sum(threads.map(attempt, range(8))) == 1
    with filled.connect() as connection:
        part = read.part(connection, "my-wheel")
        assert part is not None and part.version == 2 and part.title.startswith("Attempt")


def test_an_interface_that_says_the_same_is_the_same(filled: Engine, tiny: SeedBook) -> None:
    shipped = tiny.interfaces["core-six"]
    copied = replace(shipped, id="copied", title="Copied", signature="whatever the caller thinks")
    assert _save(filled, replace(WHEEL, ports={"core": copied}), None).ports["core"].id == "core-six"
    first = _save(filled, replace(WHEEL, id="first"), None)
    second = _save(filled, replace(WHEEL, id="second", ports={"core": replace(CORE, id="other-name")}), None)
    assert first.ports["core"].id == second.ports["core"].id == "my-core"
    with filled.connect() as connection:
        count = connection.execute(select(func.count()).select_from(tables.interface)).scalar_one()
    assert count == len(tiny.interfaces) + 1


def test_a_persons_reading_of_a_shipped_interface_needs_a_name_of_its_own(filled: Engine) -> None:
    with pytest.raises(Malformed, match="`core-six` is in the catalogue with other readings"):
        _save(filled, replace(WHEEL, ports={"core": replace(CORE, id="core-six")}), None)
    with filled.connect() as connection:
        assert read.part(connection, "my-wheel") is None


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        ({"id": "no spaces"}, "An id is letters"),
        ({"id": "x" * 81}, "At most 80 characters"),
        ({"title": "x" * 241}, "At most 240 characters"),
        ({"title": "null\x00"}, "cannot be printed"),
        ({"title": "lone \ud800 surrogate"}, "cannot be printed"),
        ({"part_class": "no_such_class"}, "No part class is called"),
        ({"source": Source("own-x", "caliper", "y" * 1001, "own reading")}, "At most 1000 characters"),
        ({"readings": {"x": Number(1, 1, 1, "mm", CALIPER, "1" * 10_001)}}, "At most 10000 characters"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_text_that_does_not_fit_is_refused_on_both_databases(
    filled: Engine, fault: dict[str, object], said: str
) -> None:
    with pytest.raises(Malformed, match=said):
        _save(filled, replace(WHEEL, **fault), None)  # type: ignore[arg-type]
    with filled.connect() as connection:
        assert read.revision(connection).startswith("r1-")
        assert len(read.parts(connection)) == 7

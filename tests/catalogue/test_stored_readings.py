"""What the database itself refuses, and that every kind of reading comes back as it went in."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine, delete, insert
from sqlalchemy.exc import IntegrityError

from fitdb.catalogue import tables
from fitdb.catalogue.read import _of_ids, sources
from fitdb.catalogue.rows import reading_of, reading_row
from fitdb.catalogue.session import writing
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.source import Source

CALIPER = Source("invented_caliper", "caliper", "Invented readings of these tests", "invented for the demo")
SOUND: dict[str, Any] = {
    "part_id": "wheel-90",
    "attribute": "width",
    "kind": "number",
    "low": 1.0,
    "nominal": 2.0,
    "high": 3.0,
    "counts": "",
    "unit": "mm",
    "fit": "",
    "entered": "2",
    "value_assumed": False,
    "spread_assumed": False,
    "source_id": "invented_caliper",
}


def _store(engine: Engine, row: dict[str, Any]) -> None:
    with writing(engine).begin() as connection:
        connection.execute(insert(tables.part_reading), row)


def test_a_sound_row_is_stored(filled: Engine) -> None:
    _store(filled, SOUND)


@pytest.mark.parametrize(
    "fault",
    [
        {"source_id": None},
        {"source_id": "nobody"},
        {"low": 2.5},
        {"high": 1.5},
        {"nominal": None},
        {"nominal": math.nan},
        {"high": math.inf},
        {"low": -math.inf},
        {"low": math.nan, "nominal": math.nan, "high": math.nan},
        {"kind": "colour"},
        {"part_id": "no-such-part"},
    ],
    ids=str,
)
def test_a_reading_without_source_or_order_is_refused(filled: Engine, fault: dict[str, Any]) -> None:
    with pytest.raises(IntegrityError):
        _store(filled, SOUND | fault)


@pytest.mark.parametrize("table", [tables.part_word, tables.part_outline], ids=str)
def test_a_word_or_outline_without_source_is_refused(filled: Engine, table: Any) -> None:
    row = {"part_id": "wheel-90", "attribute": "x", "entered": "", "value_assumed": False, "source_id": None}
    row |= {"possible": "a", "open": False} if table is tables.part_word else {"rings": "", "holes": "", "spread": 0.1}
    with pytest.raises(IntegrityError), writing(filled).begin() as connection:
        connection.execute(insert(table), row)


def test_a_source_that_readings_cite_cannot_be_deleted(filled: Engine) -> None:
    with pytest.raises(IntegrityError), writing(filled).begin() as connection:
        connection.execute(delete(tables.source).where(tables.source.c.id == "invented_caliper"))


def test_two_interfaces_of_one_kind_cannot_share_a_signature(filled: Engine) -> None:
    row = {"id": "one", "kind_id": "wheel_core", "title": "One", "signature": "same", "source_id": "workshop"}
    with writing(filled).begin() as connection:
        connection.execute(insert(tables.interface), row)
    with pytest.raises(IntegrityError), writing(filled).begin() as connection:
        connection.execute(insert(tables.interface), row | {"id": "two"})


sizes = st.floats(-1e6, 1e6)
spans = st.lists(sizes, min_size=3, max_size=3).map(sorted)
texts = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FFF, exclude_categories=("Cs", "Cc")), max_size=30)
flags = st.booleans()
numbers = st.builds(lambda s, e, v, a: Number(s[0], s[1], s[2], "mm", CALIPER, e, v, a), spans, texts, flags, flags)
designations = st.builds(
    lambda s, e, v: Designation(s[0], s[1], s[2], "mm", CALIPER, "iso_492_bore", e, v), spans, texts, flags
)
counts = st.sets(st.integers(-5, 400), min_size=1, max_size=20).map(
    lambda values: Count(tuple(sorted(values)), min(values), CALIPER, "typed", False)
)
words = st.builds(
    lambda possible, e, v, o: Word(possible, CALIPER, e, v, o),
    st.frozensets(st.from_regex(r"[a-z][a-z_0-9]{0,8}", fullmatch=True), max_size=6), texts, flags, flags,
)  # fmt: skip
points = st.tuples(sizes, sizes)
outlines = st.builds(
    lambda rings, holes, spread: Outline(tuple(map(tuple, rings)), tuple(holes), spread, CALIPER, "drawn"),
    st.lists(st.lists(points, min_size=3, max_size=5), max_size=2),
    st.lists(st.tuples(sizes, sizes, sizes, sizes, sizes), max_size=3),
    st.floats(0, 10),
)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(reading=st.one_of(numbers, designations, counts, words, outlines))
def test_every_kind_of_reading_comes_back_as_it_went_in(filled: Engine, reading: Reading) -> None:
    kind, row = reading_row("any", reading)
    name = f"part_{kind}"
    with writing(filled).begin() as connection:
        connection.execute(insert(tables.metadata.tables[name]), {"part_id": "wheel-unread", **row})
        (stored,) = _of_ids(connection, name, "part_id", ["wheel-unread"])[name]
        assert reading_of(stored, sources(connection)) == reading
        connection.rollback()

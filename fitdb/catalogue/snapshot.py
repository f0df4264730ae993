"""All parts of a class in memory, collapsed to signatures: what is alike in all that counts stands there once.

A million parts are some ten thousand different ones to a rule. The snapshot belongs to one revision of the catalogue
and reads a class when it is first asked for; rows are read as the driver gives them, and each reading is understood
once, however many parts have it.
"""

from __future__ import annotations

import bisect
import functools
import gc
import itertools
from array import array
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, Engine, Table

from fitdb.catalogue import read, tables
from fitdb.catalogue.rows import READING_TABLES, reading_of
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.reading import Reading
from fitdb.model.source import Source

LAST = ("entered", "source_id")  # how a reading was typed, and by whom: no rule looks at it
MOST_LOOKED_FOR = 5000  # ids whose places are remembered


class Moved(Exception):
    """The catalogue has moved since the snapshot was begun; begin another one."""


class Packed(Sequence[str]):
    """Texts laid end to end: a million ids or titles are bytes here, not objects."""

    __slots__ = ("_bytes", "_ends")

    def __init__(self, texts: Sequence[str]) -> None:
        written = [text.encode() for text in texts]
        self._bytes, self._ends = b"".join(written), array("q", [0])
        for one in written:
            self._ends.append(self._ends[-1] + len(one))

    def __len__(self) -> int:
        return len(self._ends) - 1

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, slice):
            return [self[place] for place in range(*at.indices(len(self)))]
        at = range(len(self))[at]
        return self._bytes[self._ends[at] : self._ends[at + 1]].decode()


class PartIds(Sequence[str]):
    """The ids of the parts of one signature, in order; they are looked up as they are asked for."""

    __slots__ = ("_ids", "_places")

    def __init__(self, ids: Sequence[str], places: Sequence[int]) -> None:
        self._ids, self._places = ids, places

    def __len__(self) -> int:
        return len(self._places)

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, slice):
            return [self._ids[place] for place in self._places[at]]
        return self._ids[self._places[at]]


class Signature:
    """Parts that are alike, by their ids; `part` stands for all of them, made when it is first asked for.

    It has the id, title and source of the first, and the readings that count.
    """

    __slots__ = ("_made", "_part", "part_ids")

    def __init__(self, part_ids: PartIds, made: Callable[[], Part]) -> None:
        self.part_ids, self._made = part_ids, made
        self._part: Part | None = None

    @property
    def part(self) -> Part:
        if self._part is None:
            self._part = self._made()
        return self._part


@dataclass(frozen=True, slots=True)
class PartsOfClass:
    """The parts of one class: `number_at` tells by the place of an id in `ids` which signature it is of."""

    ids: Packed
    titles: Packed
    signatures: tuple[Signature, ...]
    number_at: Sequence[int]

    def place_of(self, part_id: str) -> int | None:
        """Where an id stands in `ids`; None where no part of this class has it."""
        place = bisect.bisect_left(self.ids, part_id)
        return place if place < len(self.ids) and self.ids[place] == part_id else None


def _all_of_them(part_class: str) -> frozenset[str] | None:
    return None


@dataclass
class PartSnapshot:
    """The parts of one revision. attributes: the readings that count for a part class; None for all of them.

    Only the parts' own readings are narrowed: equal interfaces are one interface in the catalogue already.
    """

    engine: Engine
    attributes: Callable[[str], frozenset[str] | None] = _all_of_them
    revision: str = ""
    _given: Connection | None = None
    _classes: dict[str, PartsOfClass] = field(default_factory=dict)
    _like: dict[str, list[str]] = field(default_factory=dict)
    _sources: dict[str, Source] = field(default_factory=dict)
    _interfaces: dict[str, Interface] = field(default_factory=dict)
    _readings: dict[tuple[str, Any, str], Reading] = field(default_factory=dict)
    _looked_for: dict[tuple[str, int], tuple[tuple[Signature, str] | None]] = field(default_factory=dict)

    def parts_of_class(self, part_class: str) -> tuple[Signature, ...]:
        """The different parts of exactly this class, in the order of their first ids.

        Raises Moved when the catalogue is not at the revision at which the snapshot was begun.
        """
        if part_class not in self._classes:
            with self.connected() as connection, _many_values():
                self._begin(connection)
                found = self._read_class(connection, part_class)
                self._begin(connection)  # nothing was written in between
            self._classes[part_class] = found
        return self._classes[part_class].signatures

    def find(self, part_id: str) -> tuple[Signature, str] | None:
        """The signature and the title of a part, looked for in the classes that were read."""
        key = (part_id, len(self._classes))
        known = self._looked_for.get(key)
        if known is None:
            if len(self._looked_for) >= MOST_LOOKED_FOR:
                self._looked_for.clear()
            known = self._looked_for[key] = (self._find(part_id),)
        return known[0]

    def _find(self, part_id: str) -> tuple[Signature, str] | None:
        for some in tuple(self._classes.values()):  # another thread may read one more meanwhile
            place = some.place_of(part_id)
            if place is not None:
                return some.signatures[some.number_at[place]], some.titles[place]
        return None

    def parts_like(self, part_class: str) -> tuple[Signature, ...]:
        """The same of the class and of all that are like it."""
        if not self._like:
            with self.connected() as connection:
                table = read.attribute_table(connection)
            for own in table.classes:
                for like in table.line_of(own):
                    self._like.setdefault(like, []).append(own)
        return tuple(one for own in self._like.get(part_class, ()) for one in self.parts_of_class(own))

    @contextmanager
    def through(self, connection: Connection) -> Iterator[None]:
        """Reads with this connection in the meantime: a catalogue in memory has no other."""
        self._given = connection
        try:
            yield
        finally:
            self._given = None

    @contextmanager
    def connected(self) -> Iterator[Connection]:
        """A connection to read with: the one that was given, or one of its own."""
        if self._given is not None:
            yield self._given
            return
        with self._steady().connect() as connection:
            yield connection

    def _steady(self) -> Engine:
        """PostgreSQL would show what others add between two statements; SQLite does not."""
        if self.engine.dialect.name == "postgresql":
            return self.engine.execution_options(isolation_level="REPEATABLE READ")
        return self.engine

    def _begin(self, connection: Connection) -> None:
        now = read.revision(connection)
        if self.revision not in ("", now):
            raise Moved(f"The catalogue is at {now}, the snapshot was begun at {self.revision}.")
        if not self.revision:
            self.revision, self._sources = now, read.sources(connection)
            last = ""
            while page := read.interfaces(connection, after=last, limit=500):
                self._interfaces.update((one.id, one) for one in page)
                last = page[-1].id
        if connection.dialect.name == "postgresql":
            connection.exec_driver_sql("set local statement_timeout = 0")

    def _read_class(self, connection: Connection, part_class: str) -> PartsOfClass:
        query = "select p.id, p.title, p.source_id from part p where p.class_id = {} order by p.id"
        heads = sorted(_asked(connection, query, part_class))  # a database has an order of its own for letters
        ids, titles = Packed([row[0] for row in heads]), Packed([row[1] for row in heads])
        place_of = {row[0]: place for place, row in enumerate(heads)}
        # Per part a number for each table: equal numbers, equal rows.
        columns: list[list[int]] = []
        contents: list[list[tuple[Any, ...]]] = []
        said_by: list[tuple[Sequence[int], Sequence[tuple[str, ...]]]] = []
        for name in ("part_port", *(f"part_{kind}" for kind in READING_TABLES)):
            behind = 0 if name == "part_port" else len(LAST)
            codes, different, said, sources = _numbered(self._rows(connection, name, part_class), behind, place_of)
            columns.append(codes)
            contents.append(different)
            said_by.append((said, sources))
        alike: dict[tuple[int, ...], list[int]] = {}
        for place, key in enumerate(zip(*columns, strict=True)):
            if key in alike:
                alike[key].append(place)
            else:
                alike[key] = [place]
        number_at = array("l", [0]) * len(heads)
        for number, places in enumerate(alike.values()):
            for place in places:
                number_at[place] = number
        signatures = tuple(
            Signature(
                PartIds(ids, array("l", places)),
                functools.partial(
                    self._part,
                    heads[places[0]],
                    part_class,
                    key,
                    contents,
                    [told[said[places[0]]] for said, told in said_by],
                ),
            )
            for key, places in alike.items()
        )
        return PartsOfClass(ids, titles, signatures, number_at)

    def _part(
        self,
        head: tuple[Any, ...],
        part_class: str,
        key: tuple[int, ...],
        contents: Sequence[Sequence[tuple[Any, ...]]],
        said_by: Sequence[tuple[str, ...]],
    ) -> Part:
        own, title, source = head
        ports, *read_rows = (content[code] for content, code in zip(contents, key, strict=True))
        readings = {
            reading[0]: reading[1]
            for kind, rows, sources in zip(READING_TABLES, read_rows, said_by[1:], strict=True)
            for reading in (self._reading(f"part_{kind}", *one) for one in zip(rows, sources, strict=True))
        }
        offered = {port: self._interfaces[interface] for (port, interface), _ in ports}
        return Part(own, part_class, title, readings, offered, self._sources[source])

    def _reading(self, table: str, row: tuple[Any, ...], source: str) -> tuple[str, Reading]:
        counts, entered = row
        key = (table, counts, source)
        if key not in self._readings:
            names = _columns(tables.metadata.tables[table])
            named = dict(zip(names, (*counts, entered, source), strict=True))
            self._readings[key] = reading_of(named, self._sources)
        return str(counts[0]), self._readings[key]

    def _rows(self, connection: Connection, name: str, part_class: str) -> Iterator[tuple[Any, ...]]:
        """The rows of one table for the parts of a class, in the order of the parts."""
        table = tables.metadata.tables[name]
        names = ("port", "interface_id") if name == "part_port" else _columns(table)
        only = ""
        counting = self.attributes(part_class)
        if counting is not None and name != "part_port":
            listed = ", ".join(f"'{own}'" for own in sorted(counting) if own.isidentifier())
            # A plus keeps SQLite from looking up every name of the list for every part.
            column = "+t.attribute" if connection.dialect.name == "sqlite" else "t.attribute"
            only = f" and {column} in ({listed or 'null'})"
        order = "port" if name == "part_port" else "attribute"
        query = (
            f"select t.part_id, {', '.join(f't.{column}' for column in names)} from part p"
            f" join {name} t on t.part_id = p.id where p.class_id = {{}}{only} order by p.id, t.{order}"
        )
        return _asked(connection, query, part_class)


def _columns(table: Table) -> tuple[str, ...]:
    """The columns behind the part's id, what no rule looks at at the end."""
    names = [str(column.name) for column in table.columns if column.name != "part_id"]
    return (*(name for name in names if name not in LAST), *LAST)


def _asked(connection: Connection, query: str, part_class: str) -> Iterator[tuple[Any, ...]]:
    """Rows as the driver gives them: a hundred thousand need no names."""
    mark = "%s" if connection.dialect.name == "postgresql" else "?"
    driver: Any = connection.connection.driver_connection
    cursor = driver.cursor()
    cursor.execute(query.format(mark), (part_class,))
    return iter(cursor)


@contextmanager
def _many_values() -> Iterator[None]:
    """Millions of rows that nothing points back to: looking for circles among them takes half of the time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _numbered(
    rows: Iterator[tuple[Any, ...]], behind: int, place_of: Mapping[str, int]
) -> tuple[list[int], list[tuple[Any, ...]], Sequence[int], list[tuple[str, ...]]]:
    """By part the number of what its rows say together, and what each number stands for; then the same of the sources.

    0 is no row at all. Of a row the first column is the part's id, and the last `behind` ones, how it was typed and by
    whom, do not tell it from another.
    """
    codes = [0] * len(place_of)
    numbers: dict[tuple[int, ...], int] = {(): 0}
    single: dict[Any, int] = {}
    kept: list[tuple[Any, str]] = []
    said = array("l", [0]) * len(place_of)
    told: dict[tuple[str, ...], int] = {(): 0}
    number, end = single.get, -behind or None
    current = ""
    some: list[int] = []
    sources: list[str] = []
    for row in itertools.chain(rows, [("",)]):
        if row[0] != current:
            if current:
                place = place_of[current]
                codes[place] = numbers.setdefault(tuple(some), len(numbers))
                said[place] = told.setdefault(tuple(sources), len(told))
            current, some, sources = row[0], [], []
        if not current:
            break
        counts = row[1:end]
        code = number(counts)
        if code is None:
            code = single[counts] = len(kept)
            kept.append((counts, row[-2] if behind else ""))
        some.append(code)
        if behind:
            sources.append(row[-1])
    return codes, [tuple(kept[code] for code in key) for key in numbers], said, list(told)

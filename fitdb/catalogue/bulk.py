"""Many parts at once, in one transaction: rows as tuples on SQLite, COPY on PostgreSQL.

The readings of many parts are few: what a reading says is worked out once, and only the part's id is put before it.
Large loads take the indexes away first and build them again at the end, still in the same transaction.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Protocol

from sqlalchemy import Connection, Engine, ForeignKeyConstraint, Index, Table, delete, func, select, text
from sqlalchemy.schema import AddConstraint, CreateIndex, DropConstraint, DropIndex

from fitdb.catalogue import tables
from fitdb.catalogue.read import _parts_by_id as parts_of_ids
from fitdb.catalogue.rows import READING_TABLES, interface_rows, reading_row
from fitdb.catalogue.seeding import add_rows, bump_revision
from fitdb.catalogue.session import queue_up, writing
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.problems import Malformed, Problem
from fitdb.model.reading import Reading

AT_ONCE = 20_000
LARGE = 20_000  # parts from which on the indexes are built afterwards
Tail = tuple[Any, ...]


class Written(Protocol):
    """A part as it is written: ids of interfaces by port, readings by attribute, in pairs."""

    @property
    def id(self) -> str: ...
    @property
    def part_class(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def ports(self) -> tuple[tuple[str, str], ...]: ...
    @property
    def readings(self) -> tuple[tuple[str, Reading], ...]: ...


PART_TABLES: Mapping[str, Table] = {
    name: tables.metadata.tables[name] for name in ("part", "part_port", *(f"part_{kind}" for kind in READING_TABLES))
}


def write_parts(
    engine: Engine,
    interfaces: Sequence[Interface],
    parts: Iterable[Written],
    *,
    mark: str,
    source_id: str,
    expected: int,
    replace: bool = False,
    told: Callable[[int], None] | None = None,
) -> int:
    """Writes the interfaces and parts, all of them or none; how many parts.

    `mark` is what all their ids begin with. Malformed where the catalogue has parts of that mark already, unless
    `replace` says to take those away first. `expected` is about how many there will be. They are nobody's shipped
    rows: new shipped tables leave them alone.
    """
    with writing(engine).begin() as connection:
        queue_up(connection)
        standing = marked(connection, mark)
        if standing and not replace:
            what = f"the catalogue has {standing} invented parts already; nothing was written."
            raise Malformed([Problem("not_empty", what, hint="Say that they may be replaced, or use another one.")])
        if standing:
            remove_marked(connection, mark)
        if connection.dialect.name == "postgresql":
            connection.execute(text("set local statement_timeout = 0"))
        later = tuple(_indexes()) if expected >= LARGE else ()
        # PostgreSQL asks for every row whether what it points to is there; asked of all at once, that is far quicker.
        pointing = tuple(_pointing()) if later and connection.dialect.name == "postgresql" else ()
        for constraint in pointing:
            connection.execute(DropConstraint(constraint))
        for index in later:
            connection.execute(DropIndex(index))
        for interface in interfaces:
            for name, rows in interface_rows(interface, source_id).items():
                own = {"origin": "own"} if name == "interface" else {}
                add_rows(connection, tables.metadata.tables[name], rows, **own)
        count = 0
        writer = _Copied(connection) if connection.dialect.name == "postgresql" else _Listed(connection)
        for some in _in_turns(parts, AT_ONCE):
            writer.write(some, source_id)
            count += len(some)
            if told is not None:
                told(count)
        for index in later:
            connection.execute(CreateIndex(index))
        for constraint in reversed(pointing):
            connection.execute(AddConstraint(constraint))
        if connection.dialect.name == "postgresql":
            connection.execute(text("analyze"))
        bump_revision(connection)
    return count


def marked(connection: Connection, mark: str) -> int:
    """How many parts have an id that begins with `mark`."""
    table = tables.part
    query = select(func.count()).select_from(table).where(table.c.id.startswith(mark, autoescape=True))
    return int(connection.execute(query).scalar_one())


def unmarked_parts(connection: Connection, mark: str) -> dict[str, list[Part]]:
    """All parts whose ids do not begin with `mark`, by class, in the order of their ids."""
    table = tables.part
    query = select(table.c.id).where(~table.c.id.startswith(mark, autoescape=True)).order_by(table.c.id)
    by_class: dict[str, list[Part]] = {}
    for part in parts_of_ids(connection, connection.execute(query).scalars().all()).values():
        by_class.setdefault(part.part_class, []).append(part)
    return by_class


def unmarked_signatures(connection: Connection, mark: str) -> frozenset[str]:
    """What the interfaces say whose ids do not begin with `mark`."""
    table = tables.interface
    query = select(table.c.signature).where(~table.c.id.startswith(mark, autoescape=True))
    return frozenset(connection.execute(query).scalars())


def remove_marked(connection: Connection, mark: str) -> None:
    """Takes away the parts and interfaces whose ids begin with `mark`; what others refer to cannot be taken."""
    for table in (*reversed(tuple(PART_TABLES.values())), tables.interface):
        column = table.c.part_id if "part_id" in table.c else table.c.id
        connection.execute(delete(table).where(column.startswith(mark, autoescape=True)))


def _indexes() -> Iterator[Index]:
    for table in PART_TABLES.values():
        yield from sorted(table.indexes, key=lambda index: str(index.name))


def _pointing() -> Iterator[ForeignKeyConstraint]:
    for table in reversed(tuple(PART_TABLES.values())):
        yield from sorted(table.foreign_key_constraints, key=lambda one: str(one.name))


def _in_turns(parts: Iterable[Written], many: int) -> Iterator[list[Written]]:
    waiting = iter(parts)
    while some := list(itertools.islice(waiting, many)):
        yield some


class _Listed:
    """Rows as tuples through the driver: what SQLite takes fastest."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.tails: dict[tuple[str, int], tuple[str, Tail, Reading]] = {}
        self.statements = {name: _insert_of(table) for name, table in PART_TABLES.items()}

    def write(self, parts: Sequence[Written], source_id: str) -> None:
        rows: dict[str, list[Tail]] = {name: [] for name in PART_TABLES}
        heads, ports = rows["part"], rows["part_port"]
        for part in parts:
            heads.append((part.id, part.part_class, part.title, source_id, "own", 1))
            for port, interface in part.ports:
                ports.append((part.id, port, interface, part.part_class))
            for name, reading in part.readings:
                key = (name, id(reading))
                known = self.tails.get(key)
                if known is None:
                    table, tail = _tail(name, reading)
                    known = self.tails[key] = (table, tail, reading)
                rows[known[0]].append((part.id, *known[1]))
        for name, some in rows.items():
            if some:
                self.connection.exec_driver_sql(self.statements[name], some)


class _Copied:
    """Rows as text through COPY: what PostgreSQL takes fastest."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.tails: dict[tuple[str, int], tuple[str, str, Reading]] = {}

    def write(self, parts: Sequence[Written], source_id: str) -> None:
        lines: dict[str, list[str]] = {name: [] for name in PART_TABLES}
        heads, ports = lines["part"], lines["part_port"]
        for part in parts:
            heads.append(f"{part.id}\t{part.part_class}\t{_escaped(part.title)}\t{source_id}\town\t1\n")
            for port, interface in part.ports:
                ports.append(f"{part.id}\t{port}\t{interface}\t{part.part_class}\n")
            for name, reading in part.readings:
                key = (name, id(reading))
                known = self.tails.get(key)
                if known is None:
                    table, tail = _tail(name, reading)
                    known = self.tails[key] = (table, "\t".join(map(_escaped, tail)) + "\n", reading)
                lines[known[0]].append(f"{part.id}\t{known[1]}")
        driver: Any = self.connection.connection.driver_connection
        for name, some in lines.items():
            if some:
                columns = ", ".join(_columns(PART_TABLES[name]))
                with driver.cursor() as cursor, cursor.copy(f"copy {name} ({columns}) from stdin") as copy:
                    copy.write("".join(some))


def _tail(attribute: str, reading: Reading) -> tuple[str, Tail]:
    """The table of a reading, and its row behind the part's id, in the order of the columns."""
    kind, row = reading_row(attribute, reading)
    name = f"part_{kind}"
    return name, tuple(row[column] for column in _columns(PART_TABLES[name])[1:])


def _columns(table: Table) -> tuple[str, ...]:
    return tuple(str(column.name) for column in table.columns)


def _insert_of(table: Table) -> str:
    columns = _columns(table)
    return f"insert into {table.name} ({', '.join(columns)}) values ({', '.join('?' * len(columns))})"


def _escaped(value: object) -> str:
    """A value as COPY reads it."""
    if isinstance(value, bool):
        return "t" if value else "f"
    if isinstance(value, float):
        return repr(value)
    text_of = str(value)
    return text_of.replace("\\", "\\\\").replace("\t", "\\t").replace("\n", "\\n").replace("\r", "\\r")

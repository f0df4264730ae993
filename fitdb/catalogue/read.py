"""From the tables back to model values. Everything here only reads.

Parts and interfaces come with their readings in a fixed number of queries per page, however long the page.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Select, Table, func, or_, select

from fitdb.catalogue import rows as built
from fitdb.catalogue import tables
from fitdb.catalogue.rows import READING_TABLES, Row
from fitdb.catalogue.work_rows import WORK_TABLES, work_of
from fitdb.intake.readings import Fits
from fitdb.model.interface import Interface
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern
from fitdb.model.plan import Unit
from fitdb.model.remedy import Remedy
from fitdb.model.source import Source
from fitdb.model.work import Work

MOST_AT_ONCE = 500  # ids in one query: below the parameter limits of both databases
MOST_COMPARED = 6000  # ids that a mistyped one is held against
SHORTEST_WORD = 3
VOCABULARY = ("source", "spread", "part_class", "interface_kind", "class_port", "attribute")


@dataclass(frozen=True, slots=True)
class Book:
    """What a front door needs to answer, but for the parts: one reading of the catalogue at one revision.

    stock: stocked sizes by (part class, attribute). limits: bounds that the catalogue sets otherwise, by key.
    work: the order of work.
    """

    table: AttributeTable
    fits: Fits
    patterns: Mapping[str, Pattern]
    remedies: tuple[Remedy, ...]
    stock: Mapping[tuple[str, str], tuple[float, ...]]
    units: tuple[Unit, ...]
    limits: Mapping[str, float]
    work: Work
    revision: str


def book(connection: Connection) -> Book:
    """Everything but the parts, in one call."""
    return Book(
        table=attribute_table(connection),
        fits=fits(connection),
        patterns=patterns(connection),
        remedies=remedies(connection),
        stock=stock(connection),
        units=units(connection),
        limits=limits(connection),
        work=work(connection),
        revision=revision(connection),
    )


def revision(connection: Connection) -> str:
    """`r7-1a2b3c4d`: moves with every change of the catalogue; behind the hyphen the shipped tables."""
    table = tables.catalogue_revision
    row = connection.execute(select(table.c.number, table.c.seed)).first()
    return f"r{row.number}-{row.seed[:8]}" if row else "r0-"


def newer(revision: str, other: str) -> bool:
    """Whether a revision came after another one of the same catalogue."""
    return int(revision[1:].partition("-")[0]) > int(other[1:].partition("-")[0])


# --- vocabulary --------------------------------------------------------------------------------------------


def attribute_table(connection: Connection) -> AttributeTable:
    """Classes, kinds, attributes, spreads and sources, classes and attributes in the order of the tables."""
    return built.attribute_table_of(_whole(connection, *VOCABULARY))


def sources(connection: Connection) -> dict[str, Source]:
    """Sources by id."""
    return built.sources_of(_whole(connection, "source")["source"])


def fits(connection: Connection) -> Fits:
    """Bands and names of designations, by fit table."""
    return built.fits_of(_whole(connection, "fit", "fit_name"))


# --- boards, remedies, stock, limits -----------------------------------------------------------------------


def patterns(connection: Connection) -> Mapping[str, Pattern]:
    """Board layouts by id."""
    return built.patterns_of(_whole(connection, "pattern", "seat", "line", "line_role"))


def pattern(connection: Connection, pattern_id: str) -> Pattern | None:
    """One board layout; None if there is none of that id."""
    return patterns(connection).get(pattern_id)


def remedies(connection: Connection) -> tuple[Remedy, ...]:
    """Remedies in the order of the tables."""
    return built.remedies_of(_whole(connection, "remedy")["remedy"])


def units(connection: Connection) -> tuple[Unit, ...]:
    """What is moved from board to board in one piece, in the order of the tables."""
    return built.units_of(_whole(connection, "unit")["unit"])


def stock(connection: Connection) -> dict[tuple[str, str], tuple[float, ...]]:
    """Stocked sizes in rising order by (part class, attribute), in the attribute's canonical unit."""
    return built.stock_of(_whole(connection, "stock")["stock"])


def limits(connection: Connection) -> dict[str, float]:
    """Bounds of the rulebook that this catalogue sets otherwise, by key."""
    return built.limits_of(_whole(connection, "limit_override")["limit_override"])


def work(connection: Connection) -> Work:
    """Steps of taking apart and putting together, and all that belongs to them."""
    return work_of(_whole(connection, *WORK_TABLES))


# --- parts -------------------------------------------------------------------------------------------------


def part(connection: Connection, part_id: str) -> Part | None:
    """One part with its readings and interfaces; None if there is none of that id."""
    return _parts_by_id(connection, [part_id]).get(part_id)


def parts(
    connection: Connection,
    *,
    classes: Sequence[str] = (),
    interface: str | None = None,
    text: str = "",
    after: str = "",
    limit: int = 50,
) -> tuple[Part, ...]:
    """A page of parts in the order of their ids, beginning behind the id `after`.

    classes: these and the classes that are like them. interface: parts that offer it at some port. text: stands in the
    id or title, capitals or not. Ask for one more than is shown to know whether there is a next page.
    """
    table, ports = tables.part, tables.part_port
    query = select(table.c.id).where(table.c.id > after).order_by(table.c.id).limit(limit)
    if classes:
        query = query.where(table.c.class_id.in_(_with_those_like(connection, classes)))
    if interface is not None:
        query = query.where(table.c.id.in_(select(ports.c.part_id).where(ports.c.interface_id == interface)))
    query = _containing(query, table, text)
    return tuple(_parts_by_id(connection, connection.execute(query).scalars().all()).values())


def part_ids_near(connection: Connection, typed: str) -> tuple[str, ...]:
    """Ids among which to look for the one that a mistyped id was meant to be.

    All of them while they are few; of a large catalogue those that stand next to it in the order of ids, and those that
    have its longest word.
    """
    own = tables.part.c.id
    found = connection.execute(select(own).order_by(own).limit(MOST_COMPARED + 1)).scalars().all()
    if len(found) <= MOST_COMPARED:
        return tuple(found)
    written = re.sub(r"[^a-z0-9._-]+", "-", typed.casefold()[:80])
    word = max(re.split(r"[^a-z0-9]+", written), key=len)
    looked_for = [
        select(own).where(own >= written).order_by(own),
        select(own).where(own < written).order_by(own.desc()),
    ]
    if len(word) >= SHORTEST_WORD:
        looked_for.append(select(own).where(own.contains(word)).order_by(own))
    ids = [one for query in looked_for for one in connection.execute(query.limit(MOST_COMPARED // 3)).scalars()]
    return tuple(dict.fromkeys(ids))


def parts_of_classes(connection: Connection, classes: Sequence[str]) -> tuple[Part, ...]:
    """All parts of these classes and of those that are like them, in the order of their ids."""
    table = tables.part
    wanted = table.c.class_id.in_(_with_those_like(connection, classes))
    ids = connection.execute(select(table.c.id).where(wanted).order_by(table.c.id)).scalars().all()
    return tuple(_parts_by_id(connection, ids).values())


def interface(connection: Connection, interface_id: str) -> Interface | None:
    """One interface with its readings; None if there is none of that id."""
    return _interfaces_by_id(connection, [interface_id], sources(connection)).get(interface_id)


def interfaces(
    connection: Connection, *, kinds: Sequence[str] = (), text: str = "", after: str = "", limit: int = 50
) -> tuple[Interface, ...]:
    """A page of interfaces in the order of their ids, beginning behind the id `after`; filters as for `parts`."""
    table = tables.interface
    query = select(table.c.id).where(table.c.id > after).order_by(table.c.id).limit(limit)
    if kinds:
        query = query.where(table.c.kind_id.in_(kinds))
    query = _containing(query, table, text)
    ids = connection.execute(query).scalars().all()
    return tuple(_interfaces_by_id(connection, ids, sources(connection)).values())


def all_rows(connection: Connection) -> dict[str, list[Row]]:
    """Every row of every table, by table name: for checks, import and export."""
    return _whole(connection, *tables.metadata.tables)


def _with_those_like(connection: Connection, classes: Sequence[str]) -> set[str]:
    """The classes and all that are like one of them, near or far."""
    like = {row.id: row.like_ids.split() for row in connection.execute(select(tables.part_class)).all()}
    found, grown = set(classes), True
    while grown:
        more = {own for own, named in like.items() if own not in found and found & set(named)}
        found, grown = found | more, bool(more)
    return found


def _containing(query: Select[Any], table: Table, text: str) -> Select[Any]:
    if not text.strip():
        return query
    wanted = text.strip().lower()
    return query.where(
        or_(
            func.lower(table.c.id).contains(wanted, autoescape=True),
            func.lower(table.c.title).contains(wanted, autoescape=True),
        )
    )


def _parts_by_id(connection: Connection, ids: Sequence[str]) -> dict[str, Part]:
    """Parts in the order of `ids`; ids that are not there are left out."""
    loaded = _of_ids(connection, "part", "id", ids)
    for name in ("part_port", *(f"part_{kind}" for kind in READING_TABLES)):
        loaded |= _of_ids(connection, name, "part_id", ids)
    known = sources(connection)
    named = sorted({row["interface_id"] for row in loaded["part_port"]})
    found = built.parts_of(loaded, known, _interfaces_by_id(connection, named, known))
    return {own: found[own] for own in ids if own in found}


def _interfaces_by_id(connection: Connection, ids: Sequence[str], known: Mapping[str, Source]) -> dict[str, Interface]:
    loaded = _of_ids(connection, "interface", "id", ids)
    for kind in READING_TABLES:
        loaded |= _of_ids(connection, f"interface_{kind}", "interface_id", ids)
    found = built.interfaces_of(loaded, known)
    return {own: found[own] for own in ids if own in found}


# --- rows --------------------------------------------------------------------------------------------------


def _of_ids(connection: Connection, name: str, column: str, ids: Sequence[str]) -> dict[str, list[Row]]:
    """The rows of one table whose `column` is among `ids`, under the table's name."""
    table = tables.metadata.tables[name]
    found: list[Row] = []
    for start in range(0, len(ids), MOST_AT_ONCE):
        query = select(table).where(table.c[column].in_(ids[start : start + MOST_AT_ONCE]))
        found += _plain(connection, table, query)
    return {name: found}


def _whole(connection: Connection, *names: str) -> dict[str, list[Row]]:
    """All rows of some tables, in the order of their position or key."""
    found = {}
    for name in names:
        table = tables.metadata.tables[name]
        order = table.c.position if "position" in table.c else None
        query = select(table).order_by(*([] if order is None else [order]), *table.primary_key.columns)
        found[name] = _plain(connection, table, query)
    return found


def _plain(connection: Connection, table: Table, query: Select[Any]) -> list[Row]:
    """Rows as plain dictionaries: keys that are plain text, and half the time of mappings."""
    names = tuple(str(column.name) for column in table.columns)
    return [dict(zip(names, row, strict=True)) for row in connection.execute(query)]

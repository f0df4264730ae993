"""Finding parts among very many: pages under any mix of conditions, by id or by a size, on both databases.

A page is found along an index, never by sorting the catalogue. Which index is chosen by counting a little first:
few parts with a size that is asked for are looked up one by one; few interfaces that are left give their first parts
each, and these are merged; else the class is walked in the order of the ids until the page is full.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from sqlalchemy import Connection

from fitdb.catalogue import read, tables
from fitdb.catalogue.part_conditions import Binds, Wanted, asked, between, conditions_of, select_of
from fitdb.catalogue.rows import READING_TABLES, readings_by_owner
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.source import Source

FEW = 2_000  # so many parts are looked up one by one
DENSE = 0.02  # share of a class from which on walking it finds a page soonest
MOST_MERGED = 400  # interfaces in one merge; SQLite takes 500 selects in one statement
MOST_CLASSES = 8  # so many classes are walked side by side


@dataclass
class Shelf:
    """What is remembered of one revision of the catalogue: how many parts of a class, what they offer, all interfaces.

    Ask it only while the catalogue stands at that revision.
    """

    revision: str
    known: dict[str, Interface] = field(default_factory=dict)
    sizes: dict[str, int] = field(default_factory=dict)
    offers: dict[tuple[str, str], dict[str, int]] = field(default_factory=dict)

    def interfaces(self, connection: Connection) -> dict[str, Interface]:
        """All interfaces by id: few, however many parts there are."""
        if not self.known:
            found: dict[str, Interface] = {}
            last = ""
            while page := read.interfaces(connection, after=last, limit=500):
                found.update((one.id, one) for one in page)
                last = page[-1].id
            self.known = found  # in one step: others may be reading
        return self.known

    def size(self, connection: Connection, part_class: str) -> int:
        if part_class not in self.sizes:
            query = "select count(*) from part where class_id = :c"
            self.sizes[part_class] = int(asked(connection, query, {"c": part_class})[0][0])
        return self.sizes[part_class]

    def offered(self, connection: Connection, part_class: str, kind: str) -> dict[str, int]:
        """How many ports of the class's parts offer each interface of a kind."""
        key = (part_class, kind)
        if key not in self.offers:
            binds = Binds()
            listed = binds.listed(sorted(own for own, one in self.interfaces(connection).items() if one.kind == kind))
            query = (
                "select interface_id, count(*) from part_port "
                f"where interface_id in ({listed}) and class_id = {binds.one(part_class)} group by interface_id"
            )
            self.offers[key] = {row[0]: int(row[1]) for row in asked(connection, query, binds.values)}
        return self.offers[key]


@dataclass(frozen=True, slots=True)
class Found:
    """One part of a page; `value` is what it was sorted by, None where nobody has read that."""

    id: str
    value: float | None = None


def page_by_id(connection: Connection, wanted: Wanted, shelf: Shelf, after: str, limit: int) -> tuple[Found, ...]:
    """The parts behind the id `after`, in the order of the ids."""
    if limit < 1:
        return ()
    few = _few(connection, wanted)
    if few is not None:
        return tuple(Found(own) for own in _among(connection, wanted, few, after, limit))
    if wanted.interface and not wanted.classes:
        query = "select distinct o.class_id from part_port o where o.interface_id = :i"
        offering = [str(row[0]) for row in asked(connection, query, {"i": wanted.interface})]
        wanted = replace(wanted, classes=tuple(sorted(offering)))
    binds = Binds()
    selects: list[str] = []
    if wanted.interface and not wanted.classes:
        return ()
    if wanted.classes and (len(wanted.classes) <= MOST_CLASSES or wanted.refused or wanted.interface):
        for part_class in wanted.classes:
            selects += _of_class(connection, wanted, part_class, shelf, after, limit, binds)
    else:
        classes = f"p.class_id in ({binds.listed(wanted.classes)})" if wanted.classes else ""
        selects = [_walk(wanted, "", classes, after, limit, binds, connection)]
    if len(selects) == 1:
        return tuple(Found(row[0]) for row in asked(connection, selects[0], binds.values))
    union = " union ".join(f"select part_id from ({one}) as s{n}" for n, one in enumerate(selects))
    query = f"select part_id from ({union}) as u order by part_id limit {int(limit)}"
    return tuple(Found(row[0]) for row in asked(connection, query, binds.values))


def page_by_size(
    connection: Connection,
    wanted: Wanted,
    shelf: Shelf,
    attribute: str,
    falling: bool,
    after: Found | None,
    limit: int,
) -> tuple[Found, ...]:
    """The parts behind `after` by the nominal reading of `attribute`, then by id; those that nobody has read last."""
    found: list[Found] = []
    if after is None or after.value is not None:
        found = _by_size(connection, wanted, shelf, attribute, falling, after, limit)
    if len(found) < limit:
        behind = after.id if after is not None and after.value is None else ""
        binds = Binds()
        read = f"from part_reading r where r.part_id = p.id and r.attribute = {binds.one(attribute)}"
        unread = f"(select count(*) {read} and not r.value_assumed) = 0"
        conditions = [*conditions_of(connection, wanted, "", binds), unread]
        conditions += [f"p.class_id in ({binds.listed(wanted.classes)})"] if wanted.classes else []
        query = select_of("part p", "p.id", [*conditions, f"p.id > {binds.one(behind)}"], limit - len(found))
        found += [Found(row[0]) for row in asked(connection, query, binds.values)]
    return tuple(found)


@dataclass(frozen=True, slots=True)
class PartHead:
    """A part without its readings: one line of a list."""

    id: str
    part_class: str
    title: str
    source: str
    ports: Mapping[str, str]


def part_heads(connection: Connection, ids: Sequence[str]) -> tuple[PartHead, ...]:
    """The parts in the order of `ids`, with the ids of their interfaces by port."""
    binds, ports = Binds(), Binds()
    heads = asked(
        connection,
        f"select p.id, p.class_id, p.title, p.source_id from part p where {binds.among('p.id', ids, connection)}",
        binds.values,
    )
    query = (
        "select q.part_id, q.port, q.interface_id from part_port q"
        f" where {ports.among('q.part_id', ids, connection)} order by q.part_id, q.port"
    )
    offered: dict[str, dict[str, str]] = {}
    for row in asked(connection, query, ports.values):
        offered.setdefault(row[0], {})[row[1]] = row[2]
    found = {row[0]: PartHead(row[0], row[1], row[2], row[3], offered.get(row[0], {})) for row in heads}
    return tuple(found[own] for own in ids if own in found)


def parts_with(
    connection: Connection, ids: Sequence[str], sources: Mapping[str, Source], interfaces: Mapping[str, Interface]
) -> tuple[Part, ...]:
    """Whole parts in the order of `ids`, from interfaces and sources that were read before."""
    heads = part_heads(connection, ids)
    new = {own for head in heads for own in head.ports.values()} - interfaces.keys()  # somebody is adding parts
    if new or {head.source for head in heads} - sources.keys():
        return tuple(part for part in (read.part(connection, own) for own in ids) if part is not None)
    loaded: dict[str, list[dict[str, Any]]] = {}
    for kind in READING_TABLES:
        binds, table = Binds(), tables.metadata.tables[f"part_{kind}"]
        names = tuple(str(column.name) for column in table.columns)
        query = f"select {', '.join(names)} from {table.name} where {binds.among('part_id', ids, connection)}"
        rows = asked(connection, query, binds.values)
        loaded[table.name] = [dict(zip(names, row, strict=True)) for row in rows]
    readings = readings_by_owner(loaded, "part", sources)
    return tuple(
        Part(
            head.id,
            head.part_class,
            head.title,
            readings.get(head.id, {}),
            {port: interfaces[own] for port, own in head.ports.items()},
            sources[head.source],
        )
        for head in heads
    )


def alike_ids(connection: Connection, part_id: str, many: int = 200) -> tuple[str, ...]:
    """Ids that begin as this one does, to name the one that was meant: never all of a large catalogue."""
    found: dict[str, None] = {}
    for length in dict.fromkeys((len(part_id) - 1, len(part_id) // 2, 3, 1)):
        start = part_id[: max(length, 0)]
        if not start or len(found) >= many:
            continue
        query = "select id from part where id >= :a and id < :b order by id limit :n"
        last = start[:-1] + chr(min(ord(start[-1]) + 1, 0x10FFFF - 1))
        rows = asked(connection, query, {"a": start, "b": last, "n": many - len(found)})
        found.update((str(row[0]), None) for row in rows)
    return tuple(found)


# --- plans -------------------------------------------------------------------------------------------------


def _few(connection: Connection, wanted: Wanted) -> tuple[str, ...] | None:
    """The parts with one of the sizes, where they are few: they are then looked at one by one."""
    if wanted.or_unread:
        return None
    for size in wanted.sizes:
        if size.port:
            continue
        binds = Binds()
        within = between(size, binds, "r")
        query = (
            f"select r.part_id from part_reading r where r.attribute = {binds.one(size.attribute)}"
            f" and {within} limit {FEW + 1}"
        )
        rows = asked(connection, query, binds.values)
        if len(rows) <= FEW:
            return tuple(str(row[0]) for row in rows)
    return None


def _among(connection: Connection, wanted: Wanted, ids: Sequence[str], after: str, limit: int) -> list[str]:
    """Those of a few parts that have all that is wanted, behind `after`, in order."""
    if not ids:
        return []
    binds = Binds()
    conditions = conditions_of(connection, wanted, "", binds)
    conditions += [f"p.class_id in ({binds.listed(wanted.classes)})"] if wanted.classes else []
    conditions += [binds.among("p.id", ids, connection), f"p.id > {binds.one(after)}"]
    query = select_of("part p", "p.id", conditions, limit)
    return [str(row[0]) for row in asked(connection, query, binds.values)]


def _of_class(
    connection: Connection, wanted: Wanted, part_class: str, shelf: Shelf, after: str, limit: int, binds: Binds
) -> list[str]:
    """Selects that together give the first parts of one class: a walk, or a merge of what few interfaces offer."""
    own = binds.one(part_class)
    if wanted.interface:
        conditions = conditions_of(connection, wanted, part_class, binds, but_interface=True)
        return [_offering(binds.one(wanted.interface), own, "", conditions, after, limit, binds)]
    refused = {port: some for port, some in wanted.refused.get(part_class, {}).items() if some}
    size = shelf.size(connection, part_class) if refused else 0
    lead, left = "", size
    allowed: dict[str, int] = {}
    for port in refused:
        open_there = _left_at(connection, wanted, part_class, port, shelf)
        named = sum(open_there[0].values())
        if named + max(size - open_there[1], 0) < left or not lead:
            lead, allowed, left = port, open_there[0], named + max(size - open_there[1], 0)
    if not lead or left >= size * DENSE or len(allowed) > MOST_MERGED:
        return [_walk(wanted, part_class, f"p.class_id = {own}", after, limit, binds, connection)]
    conditions = conditions_of(connection, wanted, part_class, binds, but_port=lead)
    port = binds.one(lead)
    selects = [
        _offering(binds.one(interface), own, port, conditions, after, limit, binds)
        for interface in sorted(allowed)
        if allowed[interface]
    ]
    if left > sum(allowed.values()):  # parts of which nobody has named that port
        nobody = f"(select count(*) from part_port q where q.part_id = p.id and q.port = {port}) = 0"
        behind = f"p.id > {binds.one(after)}"
        selects.append(select_of("part p", "p.id", [f"p.class_id = {own}", nobody, *conditions, behind], limit))
    return selects or [select_of("part p", "p.id", ["1 = 0"], limit)]


def _left_at(
    connection: Connection, wanted: Wanted, part_class: str, port: str, shelf: Shelf
) -> tuple[dict[str, int], int]:
    """How many ports offer each interface that is not refused there, and how many offer any of that kind."""
    refused = wanted.refused[part_class][port]
    known = shelf.interfaces(connection)
    kinds = {known[own].kind for own in refused if own in known}
    offered = {own: many for kind in kinds for own, many in shelf.offered(connection, part_class, kind).items()}
    return {own: many for own, many in offered.items() if own not in refused}, sum(offered.values())


def _walk(
    wanted: Wanted, part_class: str, classes: str, after: str, limit: int, binds: Binds, connection: Connection
) -> str:
    conditions = [*([classes] if classes else []), *conditions_of(connection, wanted, part_class, binds)]
    return select_of("part p", "p.id", [*conditions, f"p.id > {binds.one(after)}"], limit)


def _offering(
    interface: str, part_class: str, port: str, conditions: Sequence[str], after: str, limit: int, binds: Binds
) -> str:
    """The first parts of a class that offer an interface, along the index of both."""
    at = f" and o.port = {port}" if port else ""
    begin = f"o.interface_id = {interface} and o.class_id = {part_class} and o.part_id > {binds.one(after)}{at}"
    if not conditions:
        return f"select distinct o.part_id from part_port o where {begin} order by o.part_id limit {int(limit)}"
    also = " and ".join(conditions)
    return (
        f"select distinct o.part_id from part_port o join part p on p.id = o.part_id where {begin} and {also}"
        f" order by o.part_id limit {int(limit)}"
    )


def _by_size(
    connection: Connection,
    wanted: Wanted,
    shelf: Shelf,
    attribute: str,
    falling: bool,
    after: Found | None,
    limit: int,
) -> list[Found]:
    binds = Binds()
    conditions = conditions_of(connection, wanted, "", binds)
    if wanted.classes:
        conditions.append(f"p.class_id in ({binds.listed(wanted.classes)})")
    conditions += [f"r.attribute = {binds.one(attribute)}", "not r.value_assumed"]
    if after is not None and after.value is not None:
        sign = "<" if falling else ">"
        conditions.append(f"(r.nominal, r.part_id) {sign} ({binds.one(after.value)}, {binds.one(after.id)})")
    few = _few(connection, wanted)
    if few is not None:
        if not few:
            return []
        conditions.append(binds.among("p.id", few, connection))
    small = few is not None or (
        bool(wanted.classes) and sum(shelf.size(connection, own) for own in wanted.classes) <= FEW
    )
    # SQLite joins in the order written here: from the parts where they are few, else along the index of the sizes.
    tables = "part p cross join part_reading r" if small else "part_reading r cross join part p"
    way = " desc" if falling else ""
    query = (
        f"select p.id, r.nominal from {tables} where p.id = r.part_id and {' and '.join(conditions)}"
        f" order by r.nominal{way}, r.part_id{way} limit {int(limit)}"
    )
    return [Found(str(row[0]), float(row[1])) for row in asked(connection, query, binds.values)]

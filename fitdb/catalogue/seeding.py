"""Putting the shipped tables into a catalogue, and putting new ones in the place of old ones.

Rows of persons (`origin` own) are never touched: where the shipped tables hold the same id, the person's row stands.
What the new tables no longer hold goes, unless a person's row refers to it; then it stays as that person's own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Table, and_, bindparam, delete, insert, select, update
from sqlalchemy.exc import IntegrityError

from fitdb.catalogue import tables
from fitdb.catalogue.rows import Row
from fitdb.catalogue.seed import SeedBook, digest_of, load_seed
from fitdb.catalogue.session import queue_up, writing
from fitdb.model.problems import Malformed, OurFault

INTERFACE_CHILDREN = (tables.interface_reading, tables.interface_word, tables.interface_outline)
PART_CHILDREN = (tables.part_reading, tables.part_word, tables.part_outline, tables.part_port)
PATTERN_CHILDREN = (tables.line_role, tables.line, tables.seat)

# Tables whose rows belong to a row of another table, by the column that names it.
CHILDREN: dict[Table, tuple[Table, str]] = {
    **dict.fromkeys(INTERFACE_CHILDREN, (tables.interface, "interface_id")),
    **dict.fromkeys(PART_CHILDREN, (tables.part, "part_id")),
    **dict.fromkeys(PATTERN_CHILDREN, (tables.pattern, "pattern_id")),
}
BOOKKEEPING = (tables.fit_answer, tables.asked_before, tables.catalogue_revision, tables.saved_document)
HEADS = tuple(table for table in tables.metadata.sorted_tables if table not in CHILDREN and table not in BOOKKEEPING)

Key = tuple[Any, ...]


def seed_if_changed(engine: Engine, directory: Path) -> bool:
    """Loads the tables of `directory` unless they are those that were loaded last; whether it did.

    OurFault, with the first faults, when they cannot be loaded. Several programs may start at once: they queue.
    """
    digest = digest_of(directory)
    with engine.connect() as connection:
        if _loaded(connection) == digest:
            return False
    with writing(engine).begin() as connection:
        queue_up(connection)
        if _loaded(connection) == digest:
            return False
        try:
            write_seed(connection, load_seed(directory))
        except Malformed as fault:
            first = "\n".join(str(problem) for problem in fault.problems[:5])
            raise OurFault(
                f"The tables in {directory} have {len(fault.problems)} faults and were not loaded; "
                f"`python -m fitdb.catalogue.seed` lists them all. The first:\n{first}"
            ) from fault
    return True


def _loaded(connection: Connection) -> str | None:
    return connection.execute(select(tables.catalogue_revision.c.seed)).scalar_one_or_none()


def bump_revision(connection: Connection, seed: str | None = None) -> int:
    """Counts one more change of the catalogue, and notes the digest of the shipped tables if they are what changed."""
    revision = tables.catalogue_revision
    values: dict[str, Any] = {"number": revision.c.number + 1} | ({} if seed is None else {"seed": seed})
    if connection.execute(update(revision).values(values)).rowcount == 0:
        connection.execute(insert(revision), {"id": 1, "number": 1, "seed": seed or ""})
    return int(connection.execute(select(revision.c.number)).scalar_one())


def write_seed(connection: Connection, book: SeedBook) -> None:
    """Puts `book` in the place of the seed rows that stand there; part of the caller's transaction."""
    twins = _give_up_twins(connection, book)
    existing = {table: _origins(connection, table) for table in HEADS}
    wanted = {table: _by_key(table, book.rows.get(table.name, ())) for table in HEADS}
    connection.execute(delete(tables.fit_answer))
    _remove_children_of_seed(connection)
    # Signatures may change places between interfaces; until all are written, each has one that no other can have.
    shipped = tables.interface.c.origin == "seed"
    connection.execute(update(tables.interface).where(shipped).values(signature="-" + tables.interface.c.id))
    for table in reversed(HEADS):
        gone = [key for key, origin in existing[table].items() if origin == "seed" and key not in wanted[table]]
        _remove(connection, table, gone)
    for table in HEADS:
        _put(connection, table, wanted[table], existing[table])
    own = {table: {key[0] for key, origin in existing[table].items() if origin == "own"} for table in HEADS}
    for child, (parent, column) in _parents_first(CHILDREN):
        add_rows(connection, child, [row for row in book.rows.get(child.name, ()) if row[column] not in own[parent]])
    _join_twins(connection, twins, book)
    bump_revision(connection, book.digest)


def add_rows(connection: Connection, table: Table, rows: Sequence[Row], **always: Any) -> None:
    """Inserts rows into one table, `always` added to each."""
    if rows:
        connection.execute(insert(table), [{**row, **always} for row in rows])


def _parents_first(children: Mapping[Table, Any]) -> Iterable[tuple[Table, Any]]:
    order = tables.metadata.sorted_tables
    return sorted(children.items(), key=lambda entry: order.index(entry[0]))


def _key_columns(table: Table) -> list[str]:
    return [column.name for column in table.primary_key.columns]


def _by_key(table: Table, rows: Iterable[Row]) -> dict[Key, Row]:
    names = _key_columns(table)
    return {tuple(row[name] for name in names): row for row in rows}


def _origins(connection: Connection, table: Table) -> dict[Key, str]:
    rows = connection.execute(select(*table.primary_key.columns, table.c.origin)).all()
    return {tuple(row[:-1]): row[-1] for row in rows}


@dataclass(frozen=True, slots=True)
class _Twin:
    """A person's interface that the tables hold under another id; equal signature = same interface."""

    own: str
    shipped: str
    ports: tuple[tuple[str, str], ...]  # (part, port) that named it


def _give_up_twins(connection: Connection, book: SeedBook) -> list[_Twin]:
    """Hands the person's interfaces that have a shipped twin over to the tables; `_join_twins` completes it."""
    table, port = tables.interface, tables.part_port
    shipped = {(row["kind_id"], row["signature"]): row["id"] for row in book.rows.get("interface", ())}
    own = connection.execute(
        select(table.c.id, table.c.kind_id, table.c.signature).where(table.c.origin == "own")
    ).all()
    owned = {row.id for row in own}
    found = []
    for row in own:
        twin = shipped.get((row.kind_id, row.signature), row.id)
        if twin != row.id and twin not in owned:
            named = connection.execute(select(port.c.part_id, port.c.port).where(port.c.interface_id == row.id)).all()
            found.append(_Twin(row.id, twin, tuple((one.part_id, one.port) for one in named)))
            connection.execute(update(table).where(table.c.id == row.id).values(origin="seed"))
    return found


def _join_twins(connection: Connection, twins: Iterable[_Twin], book: SeedBook) -> None:
    """Lets the parts that named a given-up interface name its twin."""
    table, port = tables.interface, tables.part_port
    still_shipped = {row["id"] for row in book.rows.get("interface", ())}
    for twin in twins:
        for part, name in twin.ports:
            here = and_(port.c.part_id == part, port.c.port == name)
            connection.execute(update(port).where(here).values(interface_id=twin.shipped))
        if twin.own not in still_shipped:
            connection.execute(delete(table).where(table.c.id == twin.own))


def _remove_children_of_seed(connection: Connection) -> None:
    for child, (parent, column) in reversed(list(_parents_first(CHILDREN))):
        shipped = select(parent.c.id).where(parent.c.origin == "seed")
        connection.execute(delete(child).where(child.c[column].in_(shipped)))


def _where_key(table: Table) -> Any:
    return and_(*[table.c[name] == bindparam(f"key_{name}") for name in _key_columns(table)])


def _parameters(table: Table, key: Key) -> dict[str, Any]:
    return {f"key_{name}": value for name, value in zip(_key_columns(table), key, strict=True)}


def _remove(connection: Connection, table: Table, keys: Iterable[Key]) -> None:
    """Deletes rows one by one; what a person's row refers to stays, as that person's own."""
    for key in keys:
        try:
            with connection.begin_nested():
                connection.execute(delete(table).where(_where_key(table)), _parameters(table, key))
        except IntegrityError:
            kept = update(table).where(_where_key(table)).values(origin="own")
            connection.execute(kept, _parameters(table, key))


def _put(connection: Connection, table: Table, wanted: Mapping[Key, Row], existing: Mapping[Key, str]) -> None:
    """Writes rows that are new, and over those of the tables that stood there before."""
    versioned = "version" in table.c
    fresh = [row for key, row in wanted.items() if key not in existing]
    add_rows(connection, table, fresh, origin="seed", **({"version": 1} if versioned else {}))
    changed = [key for key in wanted if existing.get(key) == "seed"]
    if not changed:
        return
    kept = {"origin", "version", *_key_columns(table)}
    names = [column.name for column in table.columns if column.name not in kept]
    values: dict[str, Any] = {name: bindparam(f"new_{name}") for name in names}
    if versioned:
        values["version"] = table.c.version + 1
    if values:
        rows = [{f"new_{name}": wanted[key][name] for name in names} | _parameters(table, key) for key in changed]
        connection.execute(update(table).where(_where_key(table)).values(values), rows)

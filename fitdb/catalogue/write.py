"""Saving what a person edits: one part at a time, against the version that the person saw."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import replace

from sqlalchemy import Connection, delete, insert, select, update
from sqlalchemy.exc import IntegrityError

from fitdb.catalogue import tables
from fitdb.catalogue.read import interface as read_interface
from fitdb.catalogue.rows import Row, interface_rows, part_rows
from fitdb.catalogue.seed_cells import ID_FORM
from fitdb.catalogue.seed_files import unfit_text
from fitdb.catalogue.seeding import PART_CHILDREN, add_rows, bump_revision
from fitdb.intake.part_files import signature
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.model.problems import Malformed, Problem
from fitdb.model.source import Source


class Stale(Exception):
    """Somebody else saved the row in the meantime, or it is not there. `current` is its version now, None if none."""

    def __init__(self, part_id: str, expected: int | None, current: int | None) -> None:
        self.part_id, self.expected, self.current = part_id, expected, current
        now = "it is not in the catalogue" if current is None else f"it is at version {current}"
        seen = "a new part was to be made" if expected is None else f"version {expected} was to be changed"
        super().__init__(f"`{part_id}` was not saved: {seen}, but {now}. Read it again and repeat the change.")


def save_part(connection: Connection, part: Part, expected_version: int | None) -> Part:
    """Saves a part with its readings, ports, and interfaces and sources that are new; returns it as it now stands.

    expected_version: the version that the person saw, None for a new part. The part becomes the person's own: later
    shipped tables leave it alone. An interface that says the same as one in the catalogue is that one. Part of the
    caller's transaction, which must be a writing one. Stale when the version does not hold; Malformed when a text does
    not fit, the class is unknown, or an interface has the id of another in the catalogue that says something else.
    """
    _refuse_unknown_class(connection, part)
    _claim(connection, part, expected_version)
    sources = {reading.source for reading in part.readings.values()} | {part.source}
    for interface in part.ports.values():
        sources |= {reading.source for reading in interface.readings.values()}
    _add_missing_sources(connection, sources)
    ports = {port: _known_or_added(connection, one, part.source) for port, one in part.ports.items()}
    saved = replace(part, ports=ports, version=1 if expected_version is None else expected_version + 1)
    rows = part_rows(saved)
    for child in PART_CHILDREN:  # before the part itself: its ports repeat its class, which may change
        connection.execute(delete(child).where(child.c.part_id == part.id))
    table = tables.part
    head = {**rows["part"][0], "origin": "own"}
    _refuse_unfit("part", [head])
    connection.execute(update(table).where(table.c.id == part.id).values(head))
    for child in PART_CHILDREN:
        _refuse_unfit(child.name, rows.get(child.name, ()))
        add_rows(connection, child, rows.get(child.name, ()))
    bump_revision(connection)
    return saved


def _claim(connection: Connection, part: Part, expected: int | None) -> None:
    """Takes the row, so that of two who save the same version one is told; a new row is a placeholder until filled."""
    table = tables.part
    if expected is None:
        _refuse_unfit("part", [{"id": part.id, "title": part.title}])
        _add_missing_sources(connection, {part.source})
        row = {"id": part.id, "class_id": part.part_class, "title": part.title, "source_id": part.source.id}
        try:
            with connection.begin_nested():
                connection.execute(insert(table), {**row, "origin": "own", "version": 1})
        except IntegrityError:
            raise Stale(part.id, None, _version(connection, part.id)) from None
        return
    here = (table.c.id == part.id) & (table.c.version == expected)
    taken = connection.execute(update(table).where(here).values(version=expected + 1)).rowcount
    if taken != 1:
        raise Stale(part.id, expected, _version(connection, part.id))


def _version(connection: Connection, part_id: str) -> int | None:
    return connection.execute(select(tables.part.c.version).where(tables.part.c.id == part_id)).scalar_one_or_none()


def _refuse_unknown_class(connection: Connection, part: Part) -> None:
    table = tables.part_class
    if connection.execute(select(table.c.id).where(table.c.id == part.part_class)).first() is None:
        problem = Problem("unknown_id", f"No part class is called `{part.part_class[:80]}`.", path="/class")
        raise Malformed([problem])


def _add_missing_sources(connection: Connection, sources: Iterable[Source]) -> None:
    table = tables.source
    for source in sorted(sources, key=lambda one: one.id):
        if connection.execute(select(table.c.id).where(table.c.id == source.id)).first() is None:
            row = {"id": source.id, "kind": source.kind, "title": source.title, "standing": source.standing}
            _refuse_unfit("source", [row])
            connection.execute(insert(table), {**row, "origin": "own"})


def _known_or_added(connection: Connection, interface: Interface, source: Source) -> Interface:
    """The interface as the catalogue has it, found by id or by what it says; added when it is new."""
    table = tables.interface
    said = signature(interface.kind, interface.readings)
    # What says the same is the same; but whoever read it again keeps the name of who read it, with what, and how typed.
    for signed in (said, f"{said}+{_read_by(interface)}"):
        same = (table.c.kind_id == interface.kind) & (table.c.signature == signed)
        twin = connection.execute(select(table.c.id).where(same)).scalar_one_or_none()
        if twin is None:
            said = signed
            break
        found = read_interface(connection, twin)
        assert found is not None  # the row was there a moment ago, in the same transaction
        if _read_by(found) == _read_by(interface):
            return found
    if connection.execute(select(table.c.id).where(table.c.id == interface.id)).first() is not None:
        message = f"The interface `{interface.id}` is in the catalogue with other readings."
        problem = Problem("duplicate_id", message, path="/ports", hint="Give this one an id of its own.")
        raise Malformed([problem])
    added = replace(interface, signature=said, version=1)
    for name, rows in interface_rows(added, source.id).items():
        _refuse_unfit(name, rows)
        own = {"origin": "own"} if name == "interface" else {}
        add_rows(connection, tables.metadata.tables[name], rows, **own)
    return added


def _read_by(interface: Interface) -> str:
    """Sixteen digits over the source of every reading and the text in which it was entered."""
    lines = [f"{name} {one.source.id} {one.entered}" for name, one in sorted(interface.readings.items())]
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()[:16]


def _refuse_unfit(name: str, rows: Iterable[Row]) -> None:
    """Text that is longer than its column, or that cannot be printed: one database would take it, the other not."""
    problems = []
    for row in rows:
        for column, longest in tables.LENGTHS[name].items():
            text = row.get(column)
            unfit = unfit_text(text, longest) if isinstance(text, str) else ""
            if not unfit and column == "id" and not ID_FORM.fullmatch(str(text)):
                unfit = "An id is letters, digits, `_`, `-`, `.` or `+`, and begins with a letter or digit."
            if unfit:
                problems.append(Problem("bad_text", unfit, path=f"/{column}"))
    if problems:
        raise Malformed(problems)

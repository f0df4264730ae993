"""Keeping what a person measured: a reading written back to its part, and boards and plans under a name."""

from __future__ import annotations

import datetime
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import Connection, Engine, delete, insert, select, update
from sqlalchemy.exc import IntegrityError

from fitdb.catalogue import read, tables
from fitdb.catalogue.session import queue_up, writing
from fitdb.catalogue.write import Stale, save_part
from fitdb.intake.part_files import signature
from fitdb.intake.seat_names import seats_named
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem

KINDS = ("board", "plan")


def kept_readings(engine: Engine, plan: SwapPlan) -> list[dict[str, Any]]:
    """Writes the plan's own readings back to the parts that they were taken on; what was kept, with the new version.

    The part becomes the person's own: later shipped tables leave it alone. Malformed when a part is not in the
    catalogue (it then lives in the plan alone) or was changed by somebody else in the meantime; nothing is kept then.
    """
    with writing(engine).begin() as connection:
        queue_up(connection)
        patterns = read.patterns(connection)
        taken: dict[str, tuple[Part, list[str]]] = {}
        problems = []
        for own in plan.readings:
            seats = seats_named(own.role, patterns[plan.pattern])
            parts = {
                piece.part.id: piece.part for piece in plan.after if piece.seat in seats or piece.part.id == own.role
            }
            for part in parts.values():
                standing = read.part(connection, part.id)
                if standing is None:
                    what = f"{part.id} is not in the catalogue, so its reading cannot be kept there."
                    hint = "Write it into the plan, or add the part with `fitdb tables`."
                    problems.append(Problem("unknown_part", what, own.path, hint=hint))
                else:
                    kept, names = taken.setdefault(part.id, (standing, []))
                    taken[part.id] = (_with_reading_of(kept, part, own.attribute), [*names, own.attribute])
        if problems:
            raise Malformed(problems)
        saved = []
        for part, names in taken.values():
            try:
                stored = save_part(connection, part, part.version)
            except Stale as stale:
                raise Malformed([Problem("stale", str(stale))]) from stale
            saved.append({"part": stored.id, "attributes": names, "version": stored.version})
        return saved


def _with_reading_of(standing: Part, measured: Part, attribute: str) -> Part:
    """The part of the catalogue with the one reading that was taken, wherever on the part it stands."""
    place, reading = measured.offers(attribute)
    if reading is None:
        return standing
    if not place:
        return replace(standing, readings={**standing.readings, attribute: reading})
    port = measured.ports[place]
    own = replace(port, id=f"{standing.id}.{place}-{signature(port.kind, port.readings)[:8]}")
    return replace(standing, ports={**standing.ports, place: own})


@dataclass(frozen=True, slots=True)
class Saved:
    """A board or plan under a name: the document as it was written, its version, and when it was saved."""

    kind: str
    id: str
    title: str
    document: Any
    version: int
    saved_at: str


def saved_documents(connection: Connection, kind: str, after: str = "", limit: int = 50) -> tuple[Saved, ...]:
    """A page of what is kept, in the order of the ids."""
    table = tables.saved_document
    query = select(table).where(table.c.kind == kind, table.c.id > after).order_by(table.c.id).limit(limit)
    return tuple(_saved(row._asdict()) for row in connection.execute(query))


def saved_document(connection: Connection, kind: str, own: str) -> Saved | None:
    """One board or plan; None if there is none of that id."""
    table = tables.saved_document
    row = connection.execute(select(table).where(table.c.kind == kind, table.c.id == own)).first()
    return _saved(row._asdict()) if row else None


def save_document(
    connection: Connection, kind: str, own: str, title: str, document: Any, expected_version: int | None
) -> Saved:
    """Keeps a document under its id. `expected_version` is the version that the person saw, None for a new one.

    Stale when somebody else saved it in the meantime, or it is there already. Part of the caller's transaction.
    """
    table = tables.saved_document
    now = datetime.datetime.now(datetime.UTC).replace(microsecond=0).isoformat()
    row = {"title": title, "document": json.dumps(document, ensure_ascii=False), "saved_at": now}
    if expected_version is None:
        try:
            with connection.begin_nested():
                connection.execute(insert(table), {"kind": kind, "id": own, "version": 1, **row})
        except IntegrityError:
            raise Stale(own, None, _version(connection, kind, own)) from None
    else:
        here = (table.c.kind == kind) & (table.c.id == own) & (table.c.version == expected_version)
        changed = connection.execute(update(table).where(here).values(version=expected_version + 1, **row)).rowcount
        if changed != 1:
            raise Stale(own, expected_version, _version(connection, kind, own))
    stored = saved_document(connection, kind, own)
    assert stored is not None
    return stored


def remove_document(connection: Connection, kind: str, own: str, expected_version: int) -> None:
    """Takes a document away; Stale when the version does not hold."""
    table = tables.saved_document
    here = (table.c.kind == kind) & (table.c.id == own) & (table.c.version == expected_version)
    if connection.execute(delete(table).where(here)).rowcount != 1:
        raise Stale(own, expected_version, _version(connection, kind, own))


def _version(connection: Connection, kind: str, own: str) -> int | None:
    found = saved_document(connection, kind, own)
    return found.version if found else None


def _saved(row: Mapping[str, Any]) -> Saved:
    return Saved(row["kind"], row["id"], row["title"], json.loads(row["document"]), row["version"], row["saved_at"])

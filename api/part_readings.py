"""POST /v1/parts/{part_id}/readings: what a person measured, kept on the part of the catalogue."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Request, Response

from api.bodies import decoded_body
from api.desk import Connection
from api.kept import own_example
from api.kept_shapes import KeptReadings
from api.parts import part_named
from api.replies import DISPLAYS, Checked, Units, desk_of, json_response
from api.writes import FromThisMachine, IfMatch, seen_version, stale, tag_of
from fitdb.catalogue import read
from fitdb.catalogue.read import Book
from fitdb.catalogue.write import Stale, save_part
from fitdb.fit import LOOSE
from fitdb.intake.counted_sizes import contradictions
from fitdb.intake.documents import step
from fitdb.intake.nearest import shortened
from fitdb.intake.own_readings import with_own_readings
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.plan import OwnReading
from fitdb.model.problems import Malformed, Problem
from fitdb.steps.explain import Display, reading_document, reading_text

router = APIRouter(tags=["parts"], dependencies=[Checked])
MEASURED = "wheel-90-six-window-unread"
MOST_READINGS = 100
HOW = 'Write {"window_width": "9.0 +-0.1 mm"}, or "core.window_width" to name the port.'
PLACE = "measured"  # where the part lies while its readings are taken; the seat of no layout
BODY = {
    "requestBody": {
        "required": True,
        "content": {
            "application/json": {
                "schema": {
                    "type": "object",
                    "description": "Readings by attribute, or by port.attribute.",
                    "minProperties": 1,
                    "maxProperties": MOST_READINGS,
                    "additionalProperties": {"$ref": "#/components/schemas/PartFileReading"},
                },
                "examples": {"a window, with a caliper": {"value": {"window_width": "9.0 +-0.1 mm"}}},
            }
        },
    }
}
MeasuredPart = Annotated[str, Path(description="A part id.", openapi_examples=own_example(MEASURED))]


@router.post(
    "/v1/parts/{part_id}/readings",
    operation_id="keepReadings",
    dependencies=[FromThisMachine],
    responses={200: {"model": KeptReadings, "description": "What was kept, and the part's new version."}},
    openapi_extra=BODY,
)
def keep_readings(
    request: Request,
    part_id: MeasuredPart,
    body: Annotated[Any, Depends(decoded_body)],
    if_match: IfMatch = None,
    units: Units = "mm",
) -> Response:
    """Keeps readings on a part of the catalogue: taken with a caliper, unless one says otherwise (`9 mm @ruler`).

    With `if-match` and the part's `version`, in quotes. The part becomes your own: later shipped tables leave it alone.
    `unknown` takes a reading away. Only from the machine that the server runs on.
    """

    def change(connection: Connection, book: Book) -> dict[str, Any]:
        part = part_named(connection, part_id)
        measured = part_with(part, body, book)
        what = f"the part `{part.id}`"
        seen_version(request, part.version, what)
        try:
            saved = save_part(connection, measured, part.version)
        except Stale as late:
            raise stale(what, late.expected, late.current) from None
        return {
            "part": saved.id,
            "title": saved.title,
            "version": saved.version,
            "kept": [_kept(saved, name, DISPLAYS[units]) for name in body],
            "catalogue_revision": read.revision(connection),
        }

    told = desk_of(request).change(change)
    return json_response(told, {"etag": tag_of(told["version"]), "cache-control": "no-store"})


def part_with(part: Part, body: object, book: Book) -> Part:
    """The part with the readings of a decoded body; Malformed with every fault, at the key that has it."""
    if not isinstance(body, dict) or not body:
        raise Malformed([Problem("not_a_mapping", "this is no object of readings.", hint=HOW)])
    if len(body) > MOST_READINGS:
        what = f"{len(body)} readings are sent; {MOST_READINGS} are the most at once."
        raise Malformed([Problem("too_many_readings", what, hint="Send them in several goes.")])
    faults = [
        Problem("bad_assignment", f"`{shortened(name)}` names no attribute.", step("", name), hint=HOW)
        for name in body
        if not all(name.split(".")) or name.count(".") > 1
    ]
    if faults:
        raise Malformed(faults)
    readings = [_own(part, name, typed) for name, typed in body.items()]
    pieces = (Piece(PLACE, part),)
    pattern = book.patterns[LOOSE]
    measured = with_own_readings(pieces, readings, pattern, book.table, book.fits, several=True)[0].part
    faults = list(_disagreeing(measured, body, book))
    if faults:
        raise Malformed(faults)
    return _with_interfaces_of_its_own(part, measured)


def _own(part: Part, name: str, typed: object) -> OwnReading:
    port, _, attribute = name.rpartition(".")
    return OwnReading(part.id, attribute, typed, step("", name), port)


def _disagreeing(part: Part, names: Iterable[str], book: Book) -> Iterable[Problem]:
    """Readings that a count of the same part contradicts."""
    for found in contradictions(part, book.table):
        place = next((name for name in names if name.rpartition(".")[2] in found.attributes), None)
        if place is not None:
            hint = "Read the three again; one of them is wrong."
            yield Problem("contradiction", found.message, step("", place), hint=hint)


def _with_interfaces_of_its_own(part: Part, measured: Part) -> Part:
    """Ports that were measured have an interface called after what it says: measured again, it is another one."""
    return dataclasses.replace(
        measured,
        ports={
            port: one
            if part.ports.get(port) is one
            else dataclasses.replace(one, id=f"{part.id[:40]}.{port[:24]}.{one.signature[:12]}")
            for port, one in measured.ports.items()
        },
    )


def _kept(part: Part, name: str, display: Display) -> dict[str, Any]:
    """A reading as it stands on the part now."""
    port, _, attribute = name.rpartition(".")
    if port:
        reading = part.ports[port].readings.get(attribute)
    else:
        port, reading = part.offers(attribute)
    return {
        "attribute": attribute,
        "port": port,
        "text": reading_text(reading, display) if reading is not None else "",
        "reading": reading_document(reading),
    }

"""GET /v1/parts: what the catalogue has, page by page, and which parts of a class fit a given one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response

from api.desk import Connection
from api.paging import key_of, next_page
from api.parameters import AllOfThem, ClassWanted, PartId, With, answered, example
from api.problems import not_found, placed_at
from api.replies import DISPLAYS, After, Checked, Limit, Units, desk_of, told
from api.roles import question_of
from api.shapes import FittingList, PartList, PartShape
from fitdb.catalogue import read
from fitdb.catalogue.read import Book
from fitdb.intake.part_files import WELL_FORMED_ID
from fitdb.model.interface import Interface
from fitdb.model.part import Part
from fitdb.search import BEST_FIRST, classes_like, fitting, part_document, part_line

router = APIRouter(tags=["parts"], dependencies=[Checked])


def part_named(connection: Connection, part_id: str, pointer: str = "/path/part_id") -> Part:
    """The part of the path; an id that no part could have never reaches the database."""
    part = read.part(connection, part_id) if WELL_FORMED_ID.fullmatch(part_id) else None
    if part is None:
        raise not_found(pointer, "part", part_id, read.part_ids(connection))
    return part


def interface_named(connection: Connection, interface_id: str, pointer: str = "/path/interface_id") -> Interface:
    """The same for an interface."""
    found = read.interface(connection, interface_id) if WELL_FORMED_ID.fullmatch(interface_id) else None
    if found is None:
        ids: list[str] = []
        while page := read.interfaces(connection, after=ids[-1] if ids else "", limit=500):
            ids += [interface.id for interface in page]
        raise not_found(pointer, "interface", interface_id, ids)
    return found


@router.get("/v1/parts", operation_id="listParts", responses=answered(PartList, "A page of parts, by id."))
def list_parts(
    request: Request,
    part_class: Annotated[
        str,
        Query(
            alias="class",
            max_length=80,
            description="Parts of this class and of those that are like it.",
            openapi_examples=example("wheel"),
        ),
    ] = "",
    interface: Annotated[str, Query(max_length=80, description="Parts that offer this interface at some port.")] = "",
    text: Annotated[str, Query(max_length=100, description="Stands in the id or title, capitals or not.")] = "",
    after: After = "",
    limit: Limit = 50,
) -> Response:
    """The parts of the catalogue, page by page; the filters narrow the list together."""

    def page(connection: Connection, book: Book) -> dict[str, Any]:
        last = key_of(request, after, 1)
        if part_class:
            with placed_at("/query/class"):
                classes_like(part_class, book)
        if interface:
            interface_named(connection, interface, "/query/interface")
        found = read.parts(
            connection,
            classes=(part_class,) if part_class else (),
            interface=interface or None,
            text=text,
            after=last[0] if last else "",
            limit=limit + 1,
        )
        more = next_page(request, (found[limit - 1].id,)) if len(found) > limit else None
        told_parts = [part_line(part) for part in found[:limit]]
        return {"parts": told_parts, "next": more, "catalogue_revision": book.revision}

    return told(request, page)


@router.get("/v1/parts/{part_id}", operation_id="getPart", responses=answered(PartShape, "One part."))
def get_part(request: Request, part_id: PartId, units: Units = "mm") -> Response:
    """One part: every reading with its span and source, its ports, and what nobody has read yet."""
    return told(
        request,
        lambda connection, book: part_document(part_named(connection, part_id), book, DISPLAYS[units]),
    )


@router.get(
    "/v1/parts/{part_id}/fitting",
    operation_id="listFittingParts",
    responses=answered(FittingList, "A page of parts that fit, best first."),
)
def list_fitting_parts(
    request: Request,
    part_id: PartId,
    part_class: ClassWanted,
    everything: AllOfThem = False,
    with_: With = [],  # noqa: B006
    units: Units = "mm",
    after: After = "",
    limit: Limit = 50,
) -> Response:
    """Every part of a class judged against this one, best first; `with` adds parts that both must live with."""

    def page(connection: Connection, book: Book) -> dict[str, Any]:
        part = part_named(connection, part_id)
        with placed_at("/query/class"):
            classes = classes_like(part_class, book)
        question = question_of(connection, book, [("", part)], with_)
        display = DISPLAYS[units]

        def judged() -> dict[str, Any]:
            candidates = read.parts_of_classes(connection, classes)
            with placed_at("/query/class"):  # the two have no seats beside each other
                return fitting(question, part_class, candidates, book, desk_of(request).rules, everything, display)

        key = (book.revision, part_id, part_class, everything, units, *with_)
        return fitting_page(request, desk_of(request).remembered(key, judged), after, limit)

    return told(request, page)


def fitting_page(request: Request, judged: Mapping[str, Any], after: str, limit: int) -> dict[str, Any]:
    """One page of a judged list, behind the verdict and id at which the last one ended."""

    def place(verdict: str, part: str) -> tuple[int, str]:
        return BEST_FIRST.index(verdict) if verdict in BEST_FIRST else len(BEST_FIRST), part

    last = key_of(request, after, 2)
    found = judged["found"]
    behind = [one for one in found if not last or place(one["verdict"], one["part"]) > place(*last)]
    shown = behind[:limit]
    more = next_page(request, (shown[-1]["verdict"], shown[-1]["part"])) if len(behind) > limit else None
    return {**judged, "matching": len(found), "found": shown, "next": more}

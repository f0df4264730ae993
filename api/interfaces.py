"""GET /v1/interfaces: the shapes that parts share at a port, and which parts fit one of them."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response

from api.desk import Connection
from api.paging import key_of, next_page
from api.parameters import AllOfThem, ClassWanted, InterfaceId, answered, example
from api.parts import fitting_page, interface_named
from api.problems import placed_at
from api.replies import DISPLAYS, After, Checked, Limit, Units, desk_of, told
from api.shapes import FittingList, InterfaceList, InterfaceShape
from fitdb.catalogue import read
from fitdb.catalogue.read import Book
from fitdb.intake.nearest import did_you_mean
from fitdb.model.plan import FitQuestion
from fitdb.model.problems import Malformed, Problem
from fitdb.search import classes_like, fitting, interface_document, stand_in

router = APIRouter(tags=["interfaces"], dependencies=[Checked])
FittingClass = Annotated[ClassWanted, Query(openapi_examples=example("driven_pulley"))]


@router.get("/v1/interfaces", operation_id="listInterfaces", responses=answered(InterfaceList, "A page of interfaces."))
def list_interfaces(
    request: Request,
    kind: Annotated[
        str, Query(max_length=80, description="Of this interface kind.", openapi_examples=example("wheel_core"))
    ] = "",
    text: Annotated[str, Query(max_length=100, description="Stands in the id or title, capitals or not.")] = "",
    after: After = "",
    limit: Limit = 50,
) -> Response:
    """The interfaces of the catalogue, page by page, by id."""

    def page(connection: Connection, book: Book) -> dict[str, Any]:
        last = key_of(request, after, 1)
        if kind and kind not in book.table.kinds:
            hint = did_you_mean(kind, book.table.kinds)
            raise Malformed([Problem("unknown_kind", "there is no such interface kind.", "/query/kind", hint=hint)])
        found = read.interfaces(
            connection, kinds=(kind,) if kind else (), text=text, after=last[0] if last else "", limit=limit + 1
        )
        more = next_page(request, (found[limit - 1].id,)) if len(found) > limit else None
        lines = [{"id": one.id, "kind": one.kind, "title": one.title} for one in found[:limit]]
        return {"interfaces": lines, "next": more, "catalogue_revision": book.revision}

    return told(request, page)


@router.get(
    "/v1/interfaces/{interface_id}", operation_id="getInterface", responses=answered(InterfaceShape, "One interface.")
)
def get_interface(request: Request, interface_id: InterfaceId, units: Units = "mm") -> Response:
    """One interface: its readings, what nobody has read, and the classes with a port of its kind."""
    return told(
        request,
        lambda connection, book: interface_document(interface_named(connection, interface_id), book, DISPLAYS[units]),
    )


@router.get(
    "/v1/interfaces/{interface_id}/fitting",
    operation_id="listPartsFittingInterface",
    responses=answered(FittingList, "A page of parts that fit, best first."),
)
def list_parts_fitting_interface(
    request: Request,
    interface_id: InterfaceId,
    part_class: FittingClass,
    everything: AllOfThem = False,
    units: Units = "mm",
    after: After = "",
    limit: Limit = 50,
) -> Response:
    """Every part of a class judged against a part of which nothing but this interface is known.

    The stand-in is of the first class that a joint line looks at by such a port while the class wanted stands in
    another role of the line. Rules that read more of it than the interface stay undecided, so `measure` is common;
    name a whole part to settle them.
    """

    def page(connection: Connection, book: Book) -> dict[str, Any]:
        interface = interface_named(connection, interface_id)
        with placed_at("/query/class"):
            classes = classes_like(part_class, book)
        found = stand_in(interface, part_class, book)
        rules = desk_of(request).rules

        def judged() -> dict[str, Any]:
            if found is None:
                what = f"nothing that {interface.id} offers is wanted by a {part_class}."
                head = {"class": part_class, "fits": [interface.id], "judged": 0, "found": [], "sentence": what}
                return {**head, "catalogue_revision": book.revision, "rulebook_stamp": rules.stamp}
            candidates = read.parts_of_classes(connection, classes)
            with placed_at("/query/class"):
                return fitting(FitQuestion((found,)), part_class, candidates, book, rules, everything, DISPLAYS[units])

        key = (book.revision, "interface", interface_id, part_class, everything, units)
        told_page = fitting_page(request, desk_of(request).remembered(key, judged), after, limit)
        if found is None:
            return {**told_page, "stand_in": None}
        seat, part = found
        note = f"nothing but {interface.id} is known of this {part.part_class}"
        return {**told_page, "stand_in": {"class": part.part_class, "seat": seat, "note": note}}

    return told(request, page)

"""GET /v1/layouts: the layouts of whole boards, their seats by every name, and a blank plan for each."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Request, Response
from pydantic import Field

from api.parameters import answered, example
from api.problems import not_found
from api.replies import Checked, desk_of, told, told_as
from api.shapes import Revision, Shape, Words
from fitdb.catalogue.read import Book
from fitdb.model.pattern import Pattern
from fitdb.swap import blank_in, board_layouts

router = APIRouter(tags=["layouts"], dependencies=[Checked])
LayoutId = Annotated[str, Path(description="A layout id.", openapi_examples=example("two_wheel_belt"))]
BLANK = {"type": "object", "description": "A plan file (/v1/schemas/plan-file), commented."}
YAML = {"description": "The plan.", "content": {"text/yaml": {"schema": BLANK}}}


class LayoutLine(Shape):
    id: str
    title: str
    seats: int
    lines: int = Field(description="Joint lines.")


class LayoutList(Shape):
    layouts: list[LayoutLine]
    tools: Words = Field(description="Tools that a remedy may take beside hex keys and sockets: name those owned.")
    catalogue_revision: Revision


class LayoutSeat(Shape):
    seat: str
    names: Words = Field(description="What it may be called in a plan; a name that several bear means all of them.")
    title: str
    row: str = Field(description="Seats of one row are filled in `order` by a list of parts.")
    order: int
    classes: Words = Field(description="Part classes that it takes, and all that are like them.")


class LayoutShape(Shape):
    id: str
    title: str
    seats: list[LayoutSeat]
    blank_plan: str = Field(description="The address of a commented plan to fill in.")
    catalogue_revision: Revision


@router.get("/v1/layouts", operation_id="listLayouts", responses=answered(LayoutList, "Every layout of a board."))
def list_layouts(request: Request) -> Response:
    """Every layout of a whole board, by what drives it."""

    def listed(_: Any, book: Book) -> dict[str, Any]:
        layouts = [book.patterns[own] for own in board_layouts(book)]
        return {
            "layouts": [
                {"id": one.id, "title": one.title, "seats": len(one.seats), "lines": len(one.lines)} for one in layouts
            ],
            "tools": sorted({remedy.tool for remedy in book.remedies if remedy.tool}),
            "catalogue_revision": book.revision,
        }

    return told(request, listed)


@router.get("/v1/layouts/{layout_id}", operation_id="getLayout", responses=answered(LayoutShape, "One layout."))
def get_layout(request: Request, layout_id: LayoutId) -> Response:
    """One layout: its seats, what each may be called in a plan, and what it takes. /v1/patterns has its joint lines."""

    def shown(_: Any, book: Book) -> dict[str, Any]:
        layout = layout_named(book, layout_id)
        return {
            "id": layout.id,
            "title": layout.title,
            "seats": [
                {
                    "seat": seat.id,
                    "names": list(seat.names or (seat.id,)),
                    "title": seat.title,
                    "row": seat.row,
                    "order": seat.order,
                    "classes": list(seat.classes),
                }
                for seat in layout.seats.values()
            ],
            "blank_plan": f"/v1/layouts/{layout.id}/plan.yaml",
            "catalogue_revision": book.revision,
        }

    return told(request, shown)


@router.get(
    "/v1/layouts/{layout_id}/plan.yaml",
    operation_id="getBlankPlan",
    response_class=Response,
    responses={200: YAML},
)
def get_blank_plan(request: Request, layout_id: LayoutId) -> Response:
    """A commented plan for a layout, to fill in: every seat, every section, and a plain line about each."""

    def blank(_: Any, book: Book) -> Response:
        layout = layout_named(book, layout_id)
        return told_as(request, "text/yaml", book.revision, lambda: blank_in(book, layout.id))

    return desk_of(request).ask(blank)


def layout_named(book: Book, layout_id: str) -> Pattern:
    """The layout of the path; the parts on the table and the template that all draw on are none."""
    known = board_layouts(book)
    if layout_id not in known:
        raise not_found("/path/layout_id", "layout", layout_id, known)
    return book.patterns[layout_id]

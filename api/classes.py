"""GET /v1/classes and /v1/attributes: the vocabulary in which parts are described, with how to measure each size."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request, Response

from api.parameters import answered, example
from api.problems import placed_at
from api.replies import Checked, told
from api.shapes import AttributeList, ClassList, ClassShape
from fitdb.search import attributes_document, class_document, classes_document

router = APIRouter(tags=["vocabulary"], dependencies=[Checked])


@router.get("/v1/classes", operation_id="listClasses", responses=answered(ClassList, "Every part class."))
def list_classes(request: Request) -> Response:
    """Every part class, what it is like, and its ports."""
    return told(request, lambda _, book: classes_document(book))


@router.get("/v1/classes/{class_id}", operation_id="getClass", responses=answered(ClassShape, "One class."))
def get_class(
    request: Request, class_id: Annotated[str, Path(description="A class id.", openapi_examples=example("wheel"))]
) -> Response:
    """One class: its ports and attributes, each with unit, plausible range, default, tool and how to measure it."""
    with placed_at("/path/class_id"):
        return told(request, lambda _, book: class_document(class_id, book))


@router.get("/v1/attributes", operation_id="listAttributes", responses=answered(AttributeList, "Attributes."))
def list_attributes(
    request: Request,
    owner: Annotated[
        str, Query(max_length=80, description="A part class or interface kind.", openapi_examples=example("wheel_core"))
    ] = "",
) -> Response:
    """All attributes, or those of one part class or interface kind."""
    with placed_at("/query/owner"):
        return told(request, lambda _, book: attributes_document(owner, book))

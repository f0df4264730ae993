"""GET /v1/patterns: board layouts, their seats and joint lines."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Request, Response

from api.parameters import answered, example
from api.problems import not_found
from api.replies import Checked, told
from api.shapes import PatternList, PatternShape
from fitdb.catalogue.read import Book
from fitdb.fit import LOOSE
from fitdb.model.pattern import Pattern
from fitdb.search import pattern_document

router = APIRouter(tags=["patterns"], dependencies=[Checked])


@router.get("/v1/patterns", operation_id="listPatterns", responses=answered(PatternList, "Every pattern."))
def list_patterns(request: Request) -> Response:
    """Every board layout; `loose` is parts on the table, with no board yet."""
    return told(
        request,
        lambda _, book: {
            "patterns": [
                {"id": one.id, "title": one.title, "seats": len(one.seats), "lines": len(one.lines)}
                for one in book.patterns.values()
            ],
            "catalogue_revision": book.revision,
        },
    )


@router.get("/v1/patterns/{pattern_id}", operation_id="getPattern", responses=answered(PatternShape, "One pattern."))
def get_pattern(
    request: Request, pattern_id: Annotated[str, Path(description="A pattern id.", openapi_examples=example(LOOSE))]
) -> Response:
    """One board layout: seats with the classes they take, and the joint lines with the roles that seats fill."""

    def named(book: Book) -> Pattern:
        if pattern_id not in book.patterns:
            raise not_found("/path/pattern_id", "pattern", pattern_id, book.patterns)
        return book.patterns[pattern_id]

    return told(request, lambda _, book: pattern_document(named(book), book))

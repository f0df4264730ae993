"""GET /v1/sources: where the numbers come from."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from api.parameters import answered
from api.replies import Checked, told
from api.shapes import SourceList
from fitdb.steps.explain import source_document

router = APIRouter(tags=["vocabulary"], dependencies=[Checked])


@router.get("/v1/sources", operation_id="listSources", responses=answered(SourceList, "Every source."))
def list_sources(request: Request) -> Response:
    """Every named origin of readings and limits, and how far to trust it."""
    return told(
        request,
        lambda _, book: {
            "sources": [source_document(source) for source in book.table.sources.values()],
            "catalogue_revision": book.revision,
        },
    )

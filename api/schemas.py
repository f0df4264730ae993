"""GET /v1/schemas: the form of what people write."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from api.replies import Checked, told
from fitdb.intake.part_files import part_file_schema
from fitdb.intake.plan_files import plan_file_schema

router = APIRouter(tags=["vocabulary"], dependencies=[Checked])
SCHEMA = {"application/json": {"schema": {"type": "object", "description": "A JSON Schema (2020-12)."}}}


@router.get(
    "/v1/schemas/part-file",
    operation_id="getPartFileSchema",
    responses={200: {"description": "The JSON Schema of a part file.", "content": SCHEMA}},
)
def get_part_file_schema(request: Request) -> Response:
    """The JSON Schema (2020-12) of a part file: one part of somebody's own, or several."""
    return told(request, lambda *_: part_file_schema())


@router.get(
    "/v1/schemas/plan-file",
    operation_id="getPlanFileSchema",
    responses={200: {"description": "The JSON Schema of a plan file.", "content": SCHEMA}},
)
def get_plan_file_schema(request: Request) -> Response:
    """The JSON Schema (2020-12) of a plan file: a board, what comes off and goes on, and on what terms it is mended."""
    return told(request, lambda *_: plan_file_schema())

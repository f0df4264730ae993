"""The OpenAPI document: what FastAPI knows of the routes, and what every operation has in common."""

from __future__ import annotations

import json
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import BaseModel

from api.fit_shapes import Batch, Question
from api.problems import KINDS, MEDIA_TYPE
from api.replies import VERSION
from api.shapes import ProblemShape
from fitdb.intake.part_files import part_file_schema

REFERENCE = "#/components/schemas/{model}"
PART_FILE = {"part": "PartFileEntry", "id": "PartFileId", "reading": "PartFileReading", "outline": "PartFileOutline"}
ABOUT = (
    "Does this part fit that one? Answers from numbers, with margins, reasons and sources. Lengths are in mm and "
    "angles in degrees unless a `unit` says otherwise. Unknown is never zero: what nobody has read is named. Every "
    "failure has one shape (RFC 9457); `pointer` is a JSON pointer into the body, or /path/... and /query/... for a "
    "parameter. Lists come in pages: follow `next`. Every GET has a strong ETag, answers If-None-Match with 304, and "
    "answers HEAD."
)


def described(app: FastAPI) -> dict[str, Any]:
    """The document, OpenAPI 3.1, made once."""
    document: dict[str, Any] = get_openapi(
        title="fitdb", version=VERSION, openapi_version="3.1.0", description=ABOUT, routes=app.routes
    )
    schemas = document["components"]["schemas"]
    for left_over in ("HTTPValidationError", "ValidationError"):
        schemas.pop(left_over, None)
    schemas.update(_part_file_schemas())
    for model in (Question, Batch, ProblemShape):
        _add(schemas, model)
    # What intake or a second validation looks into is `Any` for the models.
    schemas["OwnPart"]["properties"]["part"] = {"$ref": REFERENCE.format(model="PartFileEntry")}
    schemas["Question"]["properties"]["readings"]["additionalProperties"] = {
        "$ref": REFERENCE.format(model="PartFileReading")
    }
    schemas["Batch"]["properties"]["questions"]["items"] = {
        "description": "A question; whatever is none is refused in its place and leaves the others alone.",
        "anyOf": [{"$ref": REFERENCE.format(model="Question")}, {}],
    }
    for path, operations in document["paths"].items():
        for method, operation in operations.items():
            _complete(path, method, operation)
    return document


def parameters_of(document: dict[str, Any]) -> dict[str, dict[str, bool]]:
    """By path: the names of its query parameters, and whether each may be repeated."""
    return {
        path: {
            parameter["name"]: parameter["schema"].get("type") == "array"
            for operation in operations.values()
            for parameter in operation.get("parameters", [])
            if parameter["in"] == "query"
        }
        for path, operations in document["paths"].items()
    }


def _complete(path: str, method: str, operation: dict[str, Any]) -> None:
    """Summary, headers and problems, which are alike for all."""
    operation["summary"] = operation["description"].partition("\n")[0].partition(". ")[0].rstrip(".") + "."
    responses = operation["responses"]
    statuses = [413, 422, 500]
    if method == "get":
        headers = {"ETag": _header("Strong; moves with the catalogue and the rulebook."), "Cache-Control": _header("")}
        if any(parameter["name"] == "after" for parameter in operation.get("parameters", [])):
            headers["Link"] = _header('The next page, rel="next"; absent on the last.')
        responses["200"]["headers"] = headers
        responses["304"] = {"description": "What the caller has, by If-None-Match, is still so."}
    else:
        statuses += [400, 415]
    if "{" in path:
        statuses.append(404)
    for status in sorted(statuses):
        content = {MEDIA_TYPE: {"schema": {"$ref": REFERENCE.format(model=ProblemShape.__name__)}}}
        responses[str(status)] = {"description": KINDS[status][1] + ".", "content": content}


def _header(description: str) -> dict[str, Any]:
    return {"description": description, "schema": {"type": "string"}}


def _add(schemas: dict[str, Any], model: type[BaseModel]) -> None:
    schema = model.model_json_schema(ref_template=REFERENCE)
    for name, inner in schema.pop("$defs", {}).items():
        schemas.setdefault(name, inner)
    schemas[model.__name__] = schema


def _part_file_schemas() -> dict[str, Any]:
    """The definitions of the part file's own schema under names of this document."""
    text = json.dumps(part_file_schema()["$defs"])
    for name, own in PART_FILE.items():
        text = text.replace(f'"#/$defs/{name}"', f'"{REFERENCE.format(model=own)}"')
    return {PART_FILE[name]: schema for name, schema in json.loads(text).items()}

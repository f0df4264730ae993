"""The OpenAPI document: what FastAPI knows of the routes, and what every operation has in common."""

from __future__ import annotations

import json
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import BaseModel

from api import boards
from api.fit_shapes import Batch, Question
from api.options_shapes import OptionsQuestion, WhyQuestion
from api.plan_examples import PACK
from api.plan_shapes import QUESTIONS
from api.problems import KINDS, MEDIA_TYPE
from api.replies import VERSION
from api.shapes import ProblemShape
from fitdb.intake.plan_files import plan_file_schema

REFERENCE = "#/components/schemas/{model}"
PART_FILE = {"part": "PartFileEntry", "id": "PartFileId", "reading": "PartFileReading", "outline": "PartFileOutline"}
ASKING = (*QUESTIONS, OptionsQuestion, WhyQuestion)
PLAN_FILE, BOARD_FILE = "PlanFile", "BoardFile"
ABOUT = (
    "Does this part fit that one, and what does a swap do to a whole board? Answers from numbers, with margins, "
    "reasons and sources. Lengths are in mm and angles in degrees unless a `unit` says otherwise. Unknown is never "
    "zero: what nobody has read is named. Every failure has one shape (RFC 9457); `pointer` is a JSON pointer into "
    "the body, or /path/... and /query/... for a parameter. Lists come in pages: follow `next`. Every GET has a "
    "strong ETag, answers If-None-Match with 304, and answers HEAD.\n\n"
    "POST /v1/fits asks about parts on the table. POST /v1/swaps asks about a whole board before and after a swap: "
    "what clashes, what mends it and what that breaks in turn, what to measure first. POST /v1/ride tells what the "
    "board will do, POST /v1/settings what to set in its controllers, POST /v1/jobcard the order of work, each of the "
    "same plan, and POST /v1/sheets all of it as one page to print. POST /v1/options tells which parts can stand in a "
    "seat of a board that is being put together, and why another cannot. /v1/layouts has the layouts with "
    "their seats and a blank plan, /v1/schemas/plan-file the form of a plan. /v1/boards and /v1/plans keep both under "
    "an id, and POST /v1/parts/{part_id}/readings keeps what was measured. These three change something, so they "
    "answer only on the machine that the server runs on, and only against the version that was seen (If-Match).\n\n"
    f"curl -s http://127.0.0.1:8480/v1/swaps -H 'content-type: application/json' -d '{json.dumps(PACK)}'"
)


def described(app: FastAPI) -> dict[str, Any]:
    """The document, OpenAPI 3.1, made once."""
    document: dict[str, Any] = get_openapi(
        title="fitdb", version=VERSION, openapi_version="3.1.0", description=ABOUT, routes=app.routes
    )
    schemas = document["components"]["schemas"]
    for left_over in ("HTTPValidationError", "ValidationError"):
        schemas.pop(left_over, None)
    schemas.update(_file_schemas())
    for model in (Question, Batch, *ASKING, ProblemShape):
        _add(schemas, model)
    # What intake or a second validation looks into is `Any` for the models.
    schemas["OwnPart"]["properties"]["part"] = {"$ref": REFERENCE.format(model="PartFileEntry")}
    schemas["Question"]["properties"]["readings"]["additionalProperties"] = {
        "$ref": REFERENCE.format(model="PartFileReading")
    }
    plan = {"$ref": REFERENCE.format(model=PLAN_FILE)}
    for form in ASKING:
        schemas[form.__name__]["properties"]["plan"] = plan
    schemas["SwapQuestion"]["properties"]["compare"] = {
        "description": schemas["SwapQuestion"]["properties"]["compare"]["description"],
        "anyOf": [plan, {"type": "null"}],
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
    given = {parameter["name"] for parameter in operation.get("parameters", []) if parameter["in"] == "header"}
    if method == "get":
        headers = {"ETag": _header("Strong; moves with what is told."), "Cache-Control": _header("")}
        if any(parameter["name"] == "after" for parameter in operation.get("parameters", [])):
            headers["Link"] = _header('The next page, rel="next"; absent on the last.')
        responses["200"]["headers"] = headers
        responses["304"] = {"description": "What the caller has, by If-None-Match, is still so."}
    if "requestBody" in operation:
        statuses += [400, 415]
    if given:
        statuses += [403, 412, 428]
        for done in responses.keys() & {"200", "201"}:
            responses[done]["headers"] = {"ETag": _header("The version now, a number in quotes.")}
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


def _file_schemas() -> dict[str, Any]:
    """The schemas of part files and plan files under names of this document; a board is a plan with fewer keys."""
    plan = plan_file_schema()
    names = {**{name: _called(name) for name in plan["$defs"]}, **PART_FILE}
    text = json.dumps(plan)
    for name, own in names.items():
        for ending in ('"', "/"):  # a reference to a definition, or to something in it
            text = text.replace(f'"#/$defs/{name}{ending}', f'"{REFERENCE.format(model=own)}{ending}')
    whole = json.loads(text)
    found = {names[name]: schema for name, schema in whole.pop("$defs").items()}
    for key in ("$schema", "$id"):  # this document says both for all of its schemas
        whole.pop(key)
    of_a_board = {key: schema for key, schema in whole["properties"].items() if key in boards.KIND.keys}
    board = {
        **whole,
        "title": "Board file",
        "description": "A board as it stands: a plan document without a swap.",
        "properties": of_a_board,
    }
    return {**found, PLAN_FILE: whole, BOARD_FILE: board}


def _called(name: str) -> str:
    """`seat_list` of the plan file is PlanFileSeatList here."""
    return PLAN_FILE + "".join(word.capitalize() for word in name.split("_"))

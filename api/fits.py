"""POST /v1/fits, GET /v1/fits/{first}/{second} and its drawings: do these parts fit each other?"""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Mapping
from typing import Annotated, Any, TypeVar

from fastapi import APIRouter, Depends, Request, Response
from pydantic import BaseModel, ValidationError

from api.bodies import decoded_body
from api.desk import Connection
from api.fit_shapes import NAMED, OWN, Answer, Answers, Batch, NamedPart, OwnPart, Question
from api.parameters import FirstPart, RuleId, SecondPart, With, answered
from api.parts import part_named
from api.problems import our_fault, placed_at, pointer_of, problem_document
from api.replies import DISPLAYS, Checked, Units, desk_of, json_response, told, told_as
from api.roles import question_of
from fitdb.catalogue import read
from fitdb.catalogue.asked import Named, document_question
from fitdb.catalogue.read import Book
from fitdb.fit import StockOf, answer, drawing, fit
from fitdb.intake.nearest import did_you_mean
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.model.verdict import Verdict

router = APIRouter(tags=["fits"], dependencies=[Checked])
Model = TypeVar("Model", bound=BaseModel)
UNSEEN = frozenset({NAMED, OWN, "[key]"})
CODES = {"missing": "missing_key", "extra_forbidden": "unknown_key", "literal_error": "unknown_word"}
EXAMPLES = {
    "two parts of the catalogue": {
        "value": {"parts": [{"id": "wheel-90-six-window"}, {"id": "driven-36-six-lug"}]},
    },
    "a reading of one's own, with drawings": {
        "value": {
            "parts": [{"id": "wheel-90-six-window"}, {"id": "driven-36-six-lug"}],
            "readings": {"wheel.window_width": "9.0 +-0.1 mm"},
            "units": "mm",
            "include": ["drawings"],
        },
    },
    "a part of one's own": {
        "value": {
            "parts": [
                {
                    "part": {
                        "id": "my-wheel",
                        "class": "wheel",
                        "like": "wheel-90-six-window",
                        "source": "caliper",
                        "readings": {"outer_diameter": "88 mm"},
                    },
                    "role": "wheel",
                },
                {"id": "driven-36-six-lug"},
            ]
        },
    },
    "several questions at once": {
        "value": {
            "questions": [
                {"parts": [{"id": "wheel-90-six-window"}, {"id": "driven-36-six-lug"}]},
                {"parts": [{"id": "wheel-90-six-window"}], "units": "inch"},
            ]
        },
    },
}
BODY = {
    "required": True,
    "content": {
        "application/json": {
            "schema": {"oneOf": [{"$ref": "#/components/schemas/Question"}, {"$ref": "#/components/schemas/Batch"}]},
            "examples": EXAMPLES,
        }
    },
}
DRAWING = {"description": "The drawing.", "content": {"image/svg+xml": {"schema": {"type": "string"}}}}


@router.post(
    "/v1/fits",
    operation_id="askFits",
    responses={200: {"model": Answer | Answers, "description": "The answer, or one per question of a batch."}},
    openapi_extra={"requestBody": BODY},
)
def ask_fits(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """Do these parts fit each other? One question, or up to 50 at once, each answered or refused in its place.

    "They do not fit" and "these two do not meet" are answers. Only a question that cannot be understood is refused.
    """
    desk = desk_of(request)

    def asked(question: object) -> dict[str, Any]:
        # Each question has a connection of its own, so that one that breaks leaves the others of a batch alone.
        return desk.ask(lambda connection, book: told_of(question, connection, book, desk.rules))

    def in_place(question: object, place: str) -> dict[str, Any]:
        try:
            return asked(question)
        except Malformed as malformed:
            problems = [dataclasses.replace(fault, path=place + fault.path) for fault in malformed.problems]
            return problem_document(422, problems)
        except Exception as fault:  # the others still get their answers
            return our_fault(fault, place)

    if not (isinstance(body, dict) and "questions" in body):
        return json_response(asked(body), {"cache-control": "no-store"})
    questions = validated(Batch, body).questions
    answers = [in_place(question, f"/questions/{index}") for index, question in enumerate(questions)]
    return json_response({"answers": answers}, {"cache-control": "no-store"})


@router.get("/v1/fits/{first}/{second}", operation_id="getFit", responses=answered(Answer, "The answer."))
def get_fit(
    request: Request,
    first: FirstPart,
    second: SecondPart,
    with_: With = [],  # noqa: B006
    units: Units = "mm",
) -> Response:
    """Do these two parts of the catalogue fit each other?"""
    rules = desk_of(request).rules
    return told(
        request,
        lambda connection, book: answer(pair(connection, book, rules, first, second, with_), DISPLAYS[units]),
    )


@router.get(
    "/v1/fits/{first}/{second}/{rule_id}/drawing.svg",
    operation_id="getDrawing",
    response_class=Response,
    responses={200: DRAWING},
)
def get_drawing(
    request: Request,
    first: FirstPart,
    second: SecondPart,
    rule_id: RuleId,
    with_: With = [],  # noqa: B006
) -> Response:
    """What one rule says of these two parts, as a drawing."""
    rules = desk_of(request).rules

    def drawn(connection: Connection, book: Book) -> str:
        verdict = pair(connection, book, rules, first, second, with_)
        with placed_at("/path/rule_id"):
            return drawing(verdict, rule_id)

    return desk_of(request).ask(
        lambda connection, book: told_as(
            request, "image/svg+xml", f"{book.revision} {rules.stamp}", lambda: drawn(connection, book)
        )
    )


def pair(connection: Connection, book: Book, rules: Rulebook, first: str, second: str, with_: list[str]) -> Verdict:
    """The verdict on two parts of the path; an unknown one is a fault of the path."""
    faults: list[Problem] = []
    parts = []
    for name, part_id in (("first", first), ("second", second)):
        try:
            parts.append(("", part_named(connection, part_id, f"/path/{name}")))
        except Malformed as malformed:
            faults += malformed.problems
    if faults:
        raise Malformed(faults)
    question = question_of(connection, book, parts, with_)
    return fit(question, book, rules, stock_of(connection))


def stock_of(connection: Connection) -> StockOf:
    """The catalogue's parts of one class, read once however many remedies draw on them."""
    return functools.cache(lambda part_class: read.parts_of_classes(connection, (part_class,)))


def told_of(data: object, connection: Connection, book: Book, rules: Rulebook) -> dict[str, Any]:
    """The answer to one decoded question; Malformed with every fault by JSON pointer."""
    question = validated(Question, data)
    named = [
        Named(part.role, part.id, None, f"/parts/{index}/id")
        if isinstance(part, NamedPart)
        else Named(part.role, "", "" if part.part is None else part.part, f"/parts/{index}/part")
        for index, part in enumerate(question.parts)
    ]
    asked = document_question(connection, book, named, question.readings, question.limits)
    verdict = fit(asked, book, rules, stock_of(connection))
    return answer(verdict, DISPLAYS[question.units], with_drawings="drawings" in question.include)


def validated(model: type[Model], data: object) -> Model:
    """The model, or Malformed with every fault: code, pointer, and the nearest known key for one that is unknown."""
    try:
        return model.model_validate(data)
    except ValidationError as invalid:
        faults = [_fault(model, error) for error in invalid.errors(include_input=False, include_url=False)]
        raise Malformed(faults) from None


def _fault(model: type[BaseModel], error: Mapping[str, Any]) -> Problem:
    place = error["loc"]
    message = f"{error['msg'][:1].lower()}{error['msg'][1:]}."
    hint = ""
    if error["type"] == "extra_forbidden":
        owner = NamedPart if NAMED in place else OwnPart if OWN in place else model
        hint = did_you_mean(str(place[-1]), owner.model_fields) or f"Known here: {', '.join(owner.model_fields)}."
        message = "this key is not known here."
    elif error["type"] == "missing":
        message = f"the key `{place[-1]}` is missing."
    elif error["type"] in ("model_type", "dict_type"):
        message = "this is no object with keys and values."
    return Problem(CODES.get(error["type"], "bad_value"), message, pointer_of(place, UNSEEN), hint=hint)

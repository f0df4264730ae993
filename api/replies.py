"""Answers on the wire: JSON bytes with a strong ETag, 304 where nothing changed, and the parameters all share."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable
from importlib.metadata import version
from typing import Annotated, Any, Literal

from fastapi import Depends, Query, Request, Response

from api.bodies import text_faults
from api.desk import Connection, Desk
from fitdb.catalogue.read import Book
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.problems import Malformed, Problem
from fitdb.steps.explain import Display

VERSION = version("fitdb")
DISPLAYS = {"mm": Display(), "inch": Display("inch"), "fraction": Display("inch", True)}
ENTITY_TAG = re.compile(r'(?:W/)?("[^"]*")')

Units = Annotated[
    Literal["mm", "inch", "fraction"],
    Query(description="How lengths stand in sentences: mm, inches as decimals, or inches as fractions."),
]
After = Annotated[
    str, Query(max_length=400, description="The cursor of the last page: follow `next` instead of making one.")
]
Limit = Annotated[int, Query(ge=1, le=200, description="At most so many entries on a page.")]


def desk_of(request: Request) -> Desk:
    desk = request.app.state.desk
    assert isinstance(desk, Desk)
    return desk


def told(request: Request, question: Callable[[Connection, Book], dict[str, Any]]) -> Response:
    """200 with the document and its ETag; 304 when the caller has it; Malformed goes through."""

    def answered(connection: Connection, book: Book) -> Response:
        tag = entity_tag(request, f"{book.revision} {desk_of(request).rules.stamp}")
        wanted = request.headers.get("if-none-match", "")
        if tag in ENTITY_TAG.findall(wanted):
            return not_modified(tag)
        document = question(connection, book)
        if wanted.strip() == "*":
            return not_modified(tag)
        return json_response(document, {"etag": tag, "cache-control": "no-cache", **_links(document)})

    return desk_of(request).ask(answered)


def told_of_kept(request: Request, question: Callable[[Connection, Book], tuple[dict[str, Any], str]]) -> Response:
    """The same for what people keep, which moves without the catalogue: `question` gives the document and its tag.

    An empty tag stands for one that is made from the document itself.
    """
    document, tag = desk_of(request).ask(question)
    tag = tag or entity_tag(request, hashlib.sha256(_encoded(document)).hexdigest())
    wanted = request.headers.get("if-none-match", "")
    if tag in ENTITY_TAG.findall(wanted) or wanted.strip() == "*":
        return not_modified(tag)
    return json_response(document, {"etag": tag, "cache-control": "no-cache", **_links(document)})


def _links(document: dict[str, Any]) -> dict[str, str]:
    """The Link header of a page (RFC 8288)."""
    return {"link": f'<{document["next"]}>; rel="next"'} if document.get("next") else {}


def told_as(request: Request, media_type: str, state: str, text: Callable[[], str]) -> Response:
    """The same for text: a page, a style sheet, a drawing. `state` is what the text is made from."""
    tag = entity_tag(request, state)
    wanted = request.headers.get("if-none-match", "")
    if tag in ENTITY_TAG.findall(wanted):
        return not_modified(tag)
    body = text().encode()
    if wanted.strip() == "*":
        return not_modified(tag)
    return Response(body, 200, {"etag": tag, "cache-control": "no-cache"}, media_type)


def prefers(request: Request, media_type: str) -> bool:
    """Whether `accept` names this type, and JSON not before it (RFC 9110, 12.5.1)."""
    weights = _weights(request)
    return weights.get(media_type, 0.0) > weights.get("application/json", 0.0)


def accepts(request: Request, media_type: str) -> bool:
    """Whether `accept` takes this type, by its name or as one of many; without the header anything is taken."""
    weights = _weights(request)
    for named in (media_type, f"{media_type.partition('/')[0]}/*", "*/*"):
        if named in weights:
            return weights[named] > 0.0
    return not weights


def _weights(request: Request) -> dict[str, float]:
    """The media types of the header `accept`, each with its weight; one that cannot be read weighs nothing."""
    weights: dict[str, float] = {}
    for entry in request.headers.get("accept", "").split(","):
        media_type, *parameters = (part.strip().lower() for part in entry.split(";"))
        weight = next((part.removeprefix("q=") for part in parameters if part.startswith("q=")), "1")
        try:
            weights[media_type] = float(weight)
        except ValueError:
            weights[media_type] = 0.0
    weights.pop("", None)
    return weights


def json_response(document: object, headers: dict[str, str], status: int = 200) -> Response:
    """JSON as bytes; NaN and infinity cannot pass."""
    return Response(_encoded(document), status, headers, "application/json")


def _encoded(document: object) -> bytes:
    return json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode("utf-8", "replace")


def not_modified(tag: str) -> Response:
    return Response(None, 304, {"etag": tag, "cache-control": "no-cache"})


def entity_tag(request: Request, state: str) -> str:
    """A strong tag over what the answer depends on: our version, catalogue, rulebook, path and query."""
    asked = f"{VERSION} {state} {request.url.path}?{request.url.query}"
    return f'"{hashlib.sha256(asked.encode("utf-8", "replace")).hexdigest()[:24]}"'


async def only_known_parameters(request: Request) -> None:
    """Unknown, repeated and unprintable parameters of the query are faults, not to be passed over in silence."""
    known: dict[str, bool] = request.app.state.parameters[request.scope["route"].path]
    faults = []
    names = [name for name, _ in request.query_params.multi_items()]
    for name in dict.fromkeys(names):
        place = f"/query/{shortened(name, 80)}"
        if name not in known:
            hint = did_you_mean(name, known) or (f"Known here: {', '.join(known)}." if known else "It takes none.")
            faults.append(Problem("unknown_parameter", "this parameter is not known here.", place, hint=hint))
        elif names.count(name) > 1 and not known[name]:
            faults.append(Problem("repeated_parameter", "this parameter stands there twice.", place, hint="Keep one."))
    for name, value in request.query_params.multi_items():
        faults += text_faults(value, f"/query/{shortened(name, 80)}")
    if faults:
        raise Malformed(faults)


Checked = Depends(only_known_parameters)

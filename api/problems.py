"""Every failure in one shape: RFC 9457 problem details, with each fault and its place.

A pointer is a JSON pointer (RFC 6901) into the body; `/path/...` and `/query/...` name a parameter instead. What was
sent is never echoed whole, so that a failure cannot fail again on the way out.
"""

from __future__ import annotations

import dataclasses
import json
import logging
import uuid
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.routing import Match

from fitdb.intake.documents import step
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.problems import Malformed, Problem

MEDIA_TYPE = "application/problem+json"
# Status, type and title are our own table, so that they do not move with the Python version.
KINDS = {
    400: ("urn:fitdb:problem:undecodable", "The body cannot be decoded"),
    403: ("urn:fitdb:problem:not-from-here", "Nothing may be changed from here"),
    404: ("urn:fitdb:problem:not-found", "There is no such thing here"),
    405: ("urn:fitdb:problem:method-not-allowed", "This path does not know that method"),
    412: ("urn:fitdb:problem:stale", "It is not what you saw any more"),
    413: ("urn:fitdb:problem:too-large", "The body is too large"),
    415: ("urn:fitdb:problem:not-json", "The body is not declared as JSON"),
    422: ("urn:fitdb:problem:malformed", "The question cannot be answered as it stands"),
    428: ("urn:fitdb:problem:unseen", "Say which version you saw"),
    500: ("urn:fitdb:problem:our-fault", "Our fault, not yours"),
}
METHODS = ("GET", "POST", "PUT", "PATCH", "DELETE")
log = logging.getLogger("fitdb.api")


class Refused(Exception):
    """A request that is refused with one of the statuses of KINDS, whatever it asks."""

    def __init__(self, status: int, problems: Iterable[Problem], headers: Mapping[str, str] | None = None) -> None:
        self.status = status
        self.problems = tuple(problems)
        self.headers = headers
        super().__init__(self.status, *self.problems)


def problem_document(status: int, problems: Sequence[Problem], instance: str = "") -> dict[str, Any]:
    """The one shape of a failure; `instance` is set only where the log says more."""
    kind, title = KINDS.get(status, ("about:blank", "The request was refused"))
    count = len(problems)
    detail = _told(problems[0]) if count == 1 else f"{count} faults; each stands under errors with its place."
    document: dict[str, Any] = {
        "type": kind,
        "title": title,
        "status": status,
        "detail": detail,
        "errors": [
            {"code": one.code, "pointer": one.path, "detail": one.message, "hint": one.hint} for one in problems
        ],
    }
    return document | ({"instance": instance} if instance else {})


def problem_response(status: int, problems: Sequence[Problem], headers: Mapping[str, str] | None = None) -> Response:
    return document_response(problem_document(status, problems), headers)


def document_response(document: Mapping[str, Any], headers: Mapping[str, str] | None = None) -> Response:
    body = json.dumps(document, ensure_ascii=False).encode("utf-8", "replace")
    return Response(body, document["status"], {"cache-control": "no-store", **(headers or {})}, MEDIA_TYPE)


def malformed_status(problems: Sequence[Problem]) -> int:
    """404 when every fault is something in the path that is not there, else 422."""
    return 404 if all(one.path.startswith("/path/") for one in problems) else 422


def our_fault(fault: BaseException, place: str = "") -> dict[str, Any]:
    """500 with a number under which the log has the whole story; the answer itself tells nothing of it."""
    instance = uuid.uuid4().urn
    log.error("%s", instance, exc_info=fault)
    what = "fitdb broke down over this request."
    problem = Problem("our_fault", what, place, hint=f"Tell whoever runs this server; its log has {instance}.")
    return problem_document(500, [problem], instance)


@contextmanager
def placed_at(pointer: str) -> Iterator[None]:
    """Faults that a front door finds in here concern this parameter of the request."""
    try:
        yield
    except Malformed as malformed:
        raise Malformed(dataclasses.replace(one, path=pointer) for one in malformed.problems) from malformed


def not_found(pointer: str, what: str, wanted: str, known: Iterable[str]) -> Malformed:
    """Nothing of that name; `what` completes "there is no ...", `known` is searched for the nearest name."""
    hint = did_you_mean(wanted, known)
    message = f"there is no {what} {shortened(wanted)!r}."
    return Malformed([Problem(f"unknown_{what.replace(' ', '_')}", message, pointer, hint=hint)])


def pointer_of(place: Iterable[str | int], leave_out: frozenset[str] = frozenset()) -> str:
    """A JSON pointer from the place that the validation of a model names."""
    pointer = ""
    for key in place:
        if key not in leave_out:
            pointer = step(pointer, shortened(key, 80) if isinstance(key, str) else key)
    return pointer


def install_handlers(app: FastAPI) -> None:
    """Every way in which a request can fail ends in one shape."""

    async def on_malformed(_: Request, malformed: Exception) -> Response:
        assert isinstance(malformed, Malformed)
        return problem_response(malformed_status(malformed.problems), malformed.problems)

    async def on_refused(_: Request, refused: Exception) -> Response:
        assert isinstance(refused, Refused)
        return problem_response(refused.status, refused.problems, refused.headers)

    async def on_invalid(_: Request, invalid: Exception) -> Response:
        assert isinstance(invalid, RequestValidationError)
        return problem_response(422, [_parameter_fault(error) for error in invalid.errors()])

    async def on_http(request: Request, refused: Exception) -> Response:
        assert isinstance(refused, HTTPException)
        headers = dict(refused.headers or {})
        if refused.status_code == 405:
            headers["Allow"] = ", ".join(_methods_here(request))
            what = f"this path answers {headers['Allow']}, not {shortened(request.method)}."
            return problem_response(405, [Problem("method_not_allowed", what)], headers)
        what = "no path of this API is called that." if refused.status_code == 404 else str(refused.detail)
        problem = Problem("unknown_path", what, hint="GET /v1 lists every path.")
        return problem_response(refused.status_code, [problem], headers)

    app.add_exception_handler(Malformed, on_malformed)
    app.add_exception_handler(Refused, on_refused)
    app.add_exception_handler(RequestValidationError, on_invalid)
    app.add_exception_handler(HTTPException, on_http)


def _methods_here(request: Request) -> list[str]:
    """Every method that this path answers (RFC 9110, 10.2.1), each asked of the routes, HEAD wherever GET is."""

    def answers(method: str) -> bool:
        scope = {**request.scope, "method": method}
        return any(route.matches(scope)[0] is Match.FULL for route in request.app.routes)

    allowed = {method for method in METHODS if answers(method)}
    return sorted(allowed | ({"HEAD"} if "GET" in allowed else set()))


def _told(problem: Problem) -> str:
    return f"{problem.message} {problem.hint}".rstrip()


def _parameter_fault(error: Mapping[str, Any]) -> Problem:
    """What validation says of a parameter; its value is left out on purpose."""
    place = pointer_of(error["loc"])
    if error["type"] == "missing":
        return Problem("missing_parameter", "this parameter is missing.", place, hint="Add it to the query.")
    return Problem("bad_parameter", f"{error['msg'][:1].lower()}{error['msg'][1:]}.", place)

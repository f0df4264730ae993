"""What stands around every request, as plain ASGI: the size of a body, HEAD, headers, and the last wall."""

from __future__ import annotations

from typing import Any

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.problems import Refused, document_response, our_fault, problem_response
from fitdb.model.problems import Problem

LARGEST_BODY = 1_000_000
# A recorded way is long. Beside the largest one that is read: a plan, and what JSON adds to quotes and line ends.
LARGEST_WITH_A_TRACK = 10_000_000
WITH_A_TRACK = ("/v1/ride", "/v1/sheets")
MOST_DISCARDED = 20_000_000
HEADERS = {
    "content-security-policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
}


class SecurityHeaders:
    """The same few headers on every response."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)  # a page with a style of its own has a policy of its own
            await send(message)

        await self.app(scope, receive, sent if scope["type"] == "http" else send)


class HeadAsGet:
    """HEAD is answered like GET, without the body (RFC 9110, 9.3.2)."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["method"] != "HEAD":
            await self.app(scope, receive, send)
            return

        async def without_body(message: Message) -> None:
            if message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        await self.app({**scope, "method": "GET"}, receive, without_body)


class LastWall:
    """A fault of ours becomes a 500 in the one shape; the trace goes to the log and nowhere else."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        started = False

        async def watched(message: Message) -> None:
            nonlocal started
            started = started or message["type"] == "http.response.start"
            await send(message)

        try:
            await self.app(scope, receive, watched)
        except Exception as fault:
            if started:
                raise
            await document_response(our_fault(fault))(scope, receive, send)


class BodyLimit:
    """Refuses bodies that are too large for their path with 413, whether their length is declared or not."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        largest = LARGEST_WITH_A_TRACK if scope["path"] in WITH_A_TRACK else LARGEST_BODY
        declared = dict(scope["headers"]).get(b"content-length", b"0")
        if declared.isdigit() and len(declared) < 20 and int(declared) > largest:
            await _discard(receive, int(declared))
            await problem_response(413, [_too_large(largest)])(scope, receive, send)
            return
        received = 0

        async def counted() -> Message:
            nonlocal received
            message = await receive()
            received += len(message.get("body", b""))
            if received > largest:
                await _discard(receive, 0) if message.get("more_body") else None
                raise Refused(413, [_too_large(largest)])
            return message

        await self.app(scope, counted, send)


async def _discard(receive: Receive, declared: int) -> None:
    """Reads on for a while: a client that is still sending would otherwise see a broken connection, not the answer."""
    left = MOST_DISCARDED
    while left > 0 and declared <= MOST_DISCARDED:
        message: dict[str, Any] = dict(await receive())
        left -= len(message.get("body", b""))
        if message["type"] == "http.disconnect" or not message.get("more_body"):
            return


def _too_large(largest: int) -> Problem:
    what = f"the body is larger than {largest // 1_000_000} MB."
    hint = "A question holds parts, not a catalogue; ask in several batches."
    if largest == LARGEST_WITH_A_TRACK:
        hint = "Export the track with fewer points: one each 5 m is all that is used."
    return Problem("too_large", what, hint=hint)

"""Cursors of keyset pages: opaque, bound to the list they come from, checked before they reach a query."""

from __future__ import annotations

import base64
import hashlib
import json
from urllib.parse import urlencode

from fastapi import Request

from fitdb.intake.part_files import WELL_FORMED_ID
from fitdb.model.problems import Malformed, Problem

NOT_A_FILTER = ("after", "limit")


def next_page(request: Request, key: tuple[str, ...]) -> str:
    """The address of the page behind `key`, the last row shown, with the same filters and limit."""
    written = json.dumps([_list_mark(request), *key], separators=(",", ":"))
    cursor = base64.urlsafe_b64encode(written.encode()).decode().rstrip("=")
    kept = [(name, value) for name, value in request.query_params.multi_items() if name != "after"]
    return f"{request.url.path}?{urlencode([*kept, ('after', cursor)])}"


def key_of(request: Request, cursor: str, length: int) -> tuple[str, ...]:
    """The key of `length` parts behind which the page begins; empty without a cursor.

    Malformed when the cursor was not made here, or for a list with other filters.
    """
    if not cursor:
        return ()
    try:
        mark, *key = json.loads(base64.urlsafe_b64decode(cursor + "=" * (-len(cursor) % 4)))
    except (ValueError, TypeError, RecursionError):
        raise Malformed([_bad_cursor("this is no cursor of ours.")]) from None
    if len(key) != length or not all(isinstance(part, str) and WELL_FORMED_ID.fullmatch(part) for part in key):
        raise Malformed([_bad_cursor("this is no cursor of ours.")])
    if mark != _list_mark(request):
        raise Malformed([_bad_cursor("this cursor belongs to a list with other filters.")])
    return tuple(key)


def _list_mark(request: Request) -> str:
    """A short mark of path and filters, the order of the filters not counting."""
    filters = sorted(pair for pair in request.query_params.multi_items() if pair[0] not in NOT_A_FILTER)
    return hashlib.sha256(json.dumps([request.url.path, filters]).encode()).hexdigest()[:16]


def _bad_cursor(what: str) -> Problem:
    return Problem("bad_cursor", what, "/query/after", hint="Leave `after` out for the first page; then follow `next`.")

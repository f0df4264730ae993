"""Changing something: only by whoever sits at this machine, and only against the version that they saw.

There are no accounts here. A server that is bound to this machine alone is its owner's; from anywhere else the
catalogue can be asked, and nothing in it changed.
"""

from __future__ import annotations

import ipaddress
import re
from typing import Annotated, Any

from fastapi import Depends, Header, Request

from api.problems import Refused
from fitdb.model.problems import Problem

BOUND_TO = "FITDB_HOST"  # the environment variable with the address that the server listens on
# What a server that passes requests on tells of them (RFC 7239; RFC 9110, 7.6.3; the older two are common practice).
PASSED_ON = ("forwarded", "via", "x-forwarded-for", "x-real-ip")
TAG = re.compile(r'(?:W/)?"[^"]*"|[^",\s]+')
AT_THIS_MACHINE = "Ask from this machine, of a server started with `fitdb serve` alone, at http://127.0.0.1."
READ_AGAIN = "Read it again, repeat your change on what it is now, and send its new version."

IfMatch = Annotated[
    str | None,
    Header(
        alias="if-match",
        max_length=200,
        description="The version that you saw, as its ETag tells it: a number in quotes.",
        openapi_examples={"the first version": {"value": '"1"'}},
    ),
]
IfMatchToChange = Annotated[
    str | None,
    Header(alias="if-match", max_length=200, description='To change it: the version that you saw, such as "1".'),
]
IfNoneMatchToMake = Annotated[
    str | None,
    Header(
        alias="if-none-match",
        max_length=200,
        description="To make a new one: * and nothing else.",
        openapi_examples={"a new one": {"value": "*"}},
    ),
]


async def only_from_this_machine(request: Request) -> None:
    """Refused (403) unless the server is bound to this machine alone and the caller, and the name asked, are here too.

    The name counts because a page of somebody else's may have its own name lead to this machine.
    """
    client, reached = request.client, request.scope.get("server")
    places = [
        ("it was reached from outside of this machine", reached[0] if reached else ""),
        ("you ask from another machine", client.host if client else ""),
        ("it was asked under a name that is not this machine's", request.url.hostname or ""),
    ]
    if request.app.state.bound_to:
        places.insert(0, ("it listens on more than this machine", request.app.state.bound_to))
    reasons = [why for why, place in places if not is_this_machine(place)]
    if any(name in request.headers for name in PASSED_ON):
        reasons.append("the request was passed on by another server")
    if reasons:
        what = f"this server takes no changes, because {reasons[0]}."
        raise Refused(403, [Problem("not_from_here", what, hint=AT_THIS_MACHINE)])


FromThisMachine = Depends(only_from_this_machine)


def is_this_machine(host: str) -> bool:
    """Whether an address or name can only mean the machine itself (RFC 1122, 3.2.1.3; RFC 4291, 2.5.3; RFC 6761)."""
    if host.lower() == "localhost":
        return True
    try:
        address = ipaddress.ip_address(host.strip("[]"))
    except ValueError:
        return False
    mapped = getattr(address, "ipv4_mapped", None)
    return (mapped or address).is_loopback


def tag_of(version: int) -> str:
    """The strong ETag of a version."""
    return f'"{version}"'


def seen_version(request: Request, current: int | None, what: str) -> int | None:
    """The version that the caller saw and that still holds; None for a new one. `current`: as it is now, None for none.

    `what` names the thing in a sentence. Refused with 428 when the caller does not say what they saw (RFC 6585, 3),
    and with 412 and the current version when it has moved (RFC 9110, 13.1).
    """
    match, none_match = request.headers.get("if-match"), request.headers.get("if-none-match")
    new = none_match is not None and none_match.strip() == "*"
    if (match is None and not new) or (match is not None and match.strip() == "*"):
        how = "Send `if-match` with its ETag to change it, or `if-none-match: *` to make a new one."
        raise Refused(428, [Problem("unseen", f"which version of {what} was seen is not said.", hint=how)])
    if new and current is not None:
        raise stale(what, None, current)
    if match is not None and (current is None or tag_of(current) not in TAG.findall(match)):
        raise stale(what, match, current)
    return current


def stale(what: str, seen: Any, current: int | None) -> Refused:
    """412: it is not as the caller saw it any more; the ETag says how it is now."""
    saw = "it was to be new" if seen is None else "it was seen at another version"
    now = "it is not there" if current is None else f"it is at version {current}"
    problem = Problem("stale", f"{what} was not changed: {saw}, and {now}.", hint=READ_AGAIN)
    return Refused(412, [problem], {"etag": tag_of(current)} if current is not None else None)

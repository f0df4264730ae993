"""The query of GET /v1/parts: names of its own, and every attribute by its name; cursors that know the revision."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from fastapi import Query, Request

from api.bodies import text_faults
from api.paging import key_of, next_page
from api.parameters import example
from fitdb.catalogue.find_parts import Found
from fitdb.catalogue.read import Book
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.part_filters import SizeWanted, WordsWanted, filter_names, parse_filters
from fitdb.model.problems import Malformed, Problem

SEVERAL = ("with", "facet")
OWN = (
    *("class", "interface", "text", "fits", "with", "board", "plan", "seat", "all", "unread", "by", "falling"),
    *("count", "facet", "units", "after", "limit"),
)
MOST_FACETS = 6
BY_ID, UNREAD = "id", "unread"  # what stands in a cursor in the place of a size
READINGS = {
    "parameters": [
        {
            "name": "readings",
            "in": "query",
            "required": False,
            "style": "form",
            "explode": True,
            "description": "Any attribute by its name, or `port.attribute` for one at a port: "
            "`outer_diameter=80mm..100mm`, `mass=..250g`, `core.window_width=9mm`, `hardness=78..`, "
            "`mount_style=top|drop_through`. Sizes in any unit that a part file may use, held against the nominal "
            "reading; words against every word still possible. What nobody has read does not match, unless `unread` "
            "says so. GET /v1/attributes has the names.",
            "schema": {"type": "object", "additionalProperties": {"type": "string", "maxLength": 200}},
        }
    ]
}

Class = Annotated[
    str,
    Query(
        alias="class",
        max_length=80,
        description="Parts of this class and of those that are like it.",
        openapi_examples=example("wheel"),
    ),
]
Interface = Annotated[str, Query(max_length=80, description="Parts that offer this interface at some port.")]
Text = Annotated[str, Query(max_length=100, description="Stands in the id or title, capitals or not.")]
Fits = Annotated[
    str, Query(max_length=80, description="Parts that fit this part; with `class`, and `with` as in /v1/fits.")
]
Board = Annotated[str, Query(max_length=80, description="Parts that fit the seat `seat` of this kept board.")]
Plan = Annotated[str, Query(max_length=80, description="The same for a kept plan, as the board is wanted.")]
Seat = Annotated[str, Query(max_length=80, description="The seat of `board` or `plan` that the parts are for.")]
Everything = Annotated[bool, Query(alias="all", description="With `fits`, `board` or `plan`: those that clash too.")]
OrUnread = Annotated[bool, Query(alias="unread", description="Keep parts on which nobody has read what is asked.")]
By = Annotated[str, Query(max_length=80, description="Sort by `id`, or by a size of the parts such as `mass`.")]
Falling = Annotated[bool, Query(description="The largest first; with `by`.")]
Count = Annotated[bool, Query(description="Say how many parts there are: counted anew for every page that asks.")]
Facets = Annotated[
    list[str],
    Query(
        alias="facet",
        max_length=MOST_FACETS,
        description="Count the parts by `class`, a port, an attribute or `port.attribute`; any number of times up to "
        f"{MOST_FACETS}.",
    ),
]


def conditions_of(
    request: Request, book: Book, classes: Sequence[str]
) -> tuple[tuple[SizeWanted, ...], tuple[WordsWanted, ...]]:
    """What is asked of readings; Malformed with every fault: unknown, repeated and unprintable parameters as well."""
    pairs = request.query_params.multi_items()
    names = [name for name, _ in pairs]
    faults: list[Problem] = []
    typed: list[tuple[str, str]] = []
    known = None
    for name in dict.fromkeys(names):
        place = f"/query/{shortened(name, 80)}"
        if name not in SEVERAL and names.count(name) > 1:
            faults.append(Problem("repeated_parameter", "this parameter stands there twice.", place, hint="Keep one."))
        if name in OWN:
            continue
        known = known or (*OWN, *filter_names(book.table, classes))
        if name not in known:
            hint = did_you_mean(name, known)
            elsewhere = classes and name in filter_names(book.table, ())
            what = "parts of this class have no such reading." if elsewhere else "this parameter is not known here."
            faults.append(Problem("unknown_parameter", what, place, hint=hint or f"Known here: {', '.join(OWN)}."))
        else:
            typed += [(name, value) for own, value in pairs if own == name][:1]
    for name, value in pairs:
        faults += text_faults(value, f"/query/{shortened(name, 80)}")
    if faults:
        raise Malformed(faults)
    sizes, words, problems = parse_filters(typed, classes, book.table, book.fits)
    if problems:
        raise Malformed(problems)
    return sizes, words


def cursor_of(request: Request, after: str) -> tuple[str, Found | None]:
    """The revision that the page before was told under, and where it ended; nothing without a cursor."""
    key = key_of(request, after, 3)
    if not key:
        return "", None
    revision, value, own = key
    if value in (BY_ID, UNREAD):
        return revision, Found(own)
    try:
        return revision, Found(own, float.fromhex(value.removeprefix("v")))
    except (ValueError, OverflowError):
        what = "this is no cursor of ours."
        hint = "Leave `after` out for the first page; then follow `next`."
        raise Malformed([Problem("bad_cursor", what, "/query/after", hint=hint)]) from None


def next_of(request: Request, revision: str, last: Found | None, sorted_by_size: bool) -> str | None:
    """The address of the page behind `last`."""
    if last is None:
        return None
    value = f"v{last.value.hex().replace('+', '')}" if last.value is not None else UNREAD if sorted_by_size else BY_ID
    return next_page(request, (revision, value, last.id))

"""GET /v1/parts: what the catalogue has, page by page, and which parts of a class fit a given one."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request, Response

from api.desk import Connection
from api.paging import key_of, next_page
from api.parameters import AllOfThem, ClassWanted, PartId, With, answered
from api.part_filters import (
    READINGS,
    Board,
    By,
    Class,
    Count,
    Everything,
    Facets,
    Falling,
    Fits,
    Interface,
    OrUnread,
    Plan,
    Seat,
    Text,
    conditions_of,
    cursor_of,
    next_of,
)
from api.part_list_shapes import PartPage
from api.plan_documents import plan_of
from api.problems import not_found, placed_at
from api.replies import DISPLAYS, After, Checked, Limit, Units, desk_of, told, told_of_kept
from api.roles import question_of
from api.shapes import FittingList, PartShape
from fitdb.catalogue import read
from fitdb.catalogue.count_parts import counted
from fitdb.catalogue.find_parts import alike_ids
from fitdb.catalogue.keep import saved_document, saved_documents
from fitdb.catalogue.part_conditions import Wanted
from fitdb.catalogue.read import Book
from fitdb.intake.part_files import WELL_FORMED_ID
from fitdb.model.interface import Interface as OfferedInterface
from fitdb.model.part import Part
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.part_facets import asked_document, facets
from fitdb.part_search import Beside, PartSearch, order_of, ruled_out_document
from fitdb.search import BEST_FIRST, classes_like, fitting, part_document

MOST_JUDGED_AT_ONCE = 5_000  # a list that is best first has to judge all before it can show one
router = APIRouter(tags=["parts"])  # the list checks its own parameters: every attribute is one


def part_named(connection: Connection, part_id: str, pointer: str = "/path/part_id") -> Part:
    """The part of the path; an id that no part could have never reaches the database."""
    part = read.part(connection, part_id) if WELL_FORMED_ID.fullmatch(part_id) else None
    if part is None:
        raise not_found(pointer, "part", part_id, alike_ids(connection, part_id) if part_id.isprintable() else ())
    return part


def interface_named(connection: Connection, interface_id: str, pointer: str = "/path/interface_id") -> OfferedInterface:
    """The same for an interface."""
    found = read.interface(connection, interface_id) if WELL_FORMED_ID.fullmatch(interface_id) else None
    if found is None:
        ids: list[str] = []
        while page := read.interfaces(connection, after=ids[-1] if ids else "", limit=500):
            ids += [interface.id for interface in page]
        raise not_found(pointer, "interface", interface_id, ids)
    return found


@router.get(
    "/v1/parts",
    operation_id="listParts",
    responses=answered(PartPage, "A page of parts."),
    openapi_extra=READINGS,
)
def list_parts(
    request: Request,
    part_class: Class = "",
    interface: Interface = "",
    text: Text = "",
    fits: Fits = "",
    with_: With = [],  # noqa: B006
    board: Board = "",
    plan: Plan = "",
    seat: Seat = "",
    everything: Everything = False,
    or_unread: OrUnread = False,
    by: By = "",
    falling: Falling = False,
    count: Count = False,
    facet: Facets = [],  # noqa: B006
    units: Units = "mm",
    after: After = "",
    limit: Limit = 50,
) -> Response:
    """The parts of the catalogue, page by page; all conditions narrow the list together.

    Any attribute is a condition by its name: `outer_diameter=80mm..100mm`, `core.window_width=9mm`. `fits` keeps what
    fits a part, `board` or `plan` with `seat` what fits a seat of a board that is kept; each part shown has been
    judged. Nothing is counted unless `count` or `facet` ask.
    """

    def page(connection: Connection, book: Book) -> dict[str, Any]:
        classes: tuple[str, ...] = ()
        if part_class:
            with placed_at("/query/class"):
                classes = classes_like(part_class, book)
        sizes, words = conditions_of(request, book, classes)
        seen, place = cursor_of(request, after)
        order = order_of(by, falling, classes, book)
        if interface:
            interface_named(connection, interface, "/query/interface")
        wanted = Wanted(classes, text, interface, sizes, words, or_unread)
        search = _search(request, book)
        beside = _beside(search, connection, (fits, board, plan), seat, part_class, with_, desk_of(request).rules)
        if beside is None:
            found = search.page(connection, wanted, order, place, limit, DISPLAYS[units])
        else:
            found = search.page_beside(connection, wanted, order, beside, everything, place, limit, DISPLAYS[units])
            if count or facet:
                wanted = search.narrowed(connection, wanted, beside, everything, lambda: False)
        return {
            "parts": list(found.lines),
            "next": next_of(request, book.revision, found.last, order.attribute is not None),
            "complete": found.complete,
            "ruled_out": ruled_out_document(beside, everything, DISPLAYS[units]),
            "moved_from": seen if seen and seen != book.revision else None,
            "asked": asked_document(sizes, words, book),
            "count": {"parts": counted(connection, wanted), "exact": beside is None} if count else None,
            "facets": facets(connection, wanted, facet, classes, book, search.shelf),
            "catalogue_revision": book.revision,
        }

    def judged(connection: Connection, book: Book) -> tuple[dict[str, Any], str]:
        _search(request, book)  # what it remembers is worth more than any one page
        if board or plan:  # follows what is kept as well, so it is not remembered
            return page(connection, book), ""
        key = ("parts that fit", book.revision, *sorted(request.query_params.multi_items()))
        return desk_of(request).remembered(key, lambda: page(connection, book)), ""

    return told_of_kept(request, judged) if fits or board or plan else told(request, page)


def _search(request: Request, book: Book) -> PartSearch:
    """The search in this revision of the catalogue, one for all requests."""
    desk = desk_of(request)
    kept = desk.remembered(("part search", book.revision), lambda: {"search": PartSearch(book, desk.rules)})
    search = kept["search"]
    assert isinstance(search, PartSearch)
    return search


def _beside(
    search: PartSearch,
    connection: Connection,
    named: tuple[str, str, str],
    seat: str,
    part_class: str,
    with_: list[str],
    rules: Rulebook,
) -> Beside | None:
    """What the parts are to fit: a part, or a seat of a kept board or plan; None where nothing is named."""
    fits, board, plan = named
    book = search.book
    faults = []
    if sum(map(bool, named)) > 1:
        what = "`fits`, `board` and `plan` are three questions."
        faults.append(Problem("too_many", what, "/query/fits" if fits else "/query/board", hint="Ask one of them."))
    if bool(board or plan) != bool(seat):
        what = "`seat` goes with `board` or `plan`, and they with it."
        faults.append(Problem("missing_parameter", what, "/query/seat", hint="Name both, or neither."))
    if with_ and not fits:
        faults.append(Problem("missing_parameter", "`with` goes with `fits`.", "/query/with", hint="Name a part."))
    if fits and not part_class:
        hint = "Name the class of part that is looked for."
        faults.append(Problem("missing_parameter", "`fits` wants a class.", "/query/class", hint=hint))
    if faults:
        raise Malformed(faults)
    if fits:
        part = part_named(connection, fits, "/query/fits")
        question = question_of(connection, book, [("", part)], with_)
        with placed_at("/query/class"):
            key = ("fits", fits, part_class, *with_)
            classes = classes_like(part_class, book)
            return search.remembered(key, lambda: search.beside_parts(question, classes))
    if not board and not plan:
        return None
    kind, own = ("board", board) if board else ("plan", plan)
    saved = saved_document(connection, kind, own) if WELL_FORMED_ID.fullmatch(own) else None
    if saved is None:
        raise not_found(f"/query/{kind}", kind, own, [one.id for one in saved_documents(connection, kind, limit=200)])
    with placed_at(f"/query/{kind}"):
        swap = plan_of(saved.document, connection, book, rules)
    digest = hashlib.sha256(json.dumps(saved.document, sort_keys=True).encode()).hexdigest()
    key = (kind, own, digest, seat, part_class)
    return search.remembered(key, lambda: search.beside_board(swap, seat, part_class))


@router.get(
    "/v1/parts/{part_id}",
    operation_id="getPart",
    dependencies=[Checked],
    responses=answered(PartShape, "One part."),
)
def get_part(request: Request, part_id: PartId, units: Units = "mm") -> Response:
    """One part: every reading with its span and source, its ports, and what nobody has read yet."""
    return told(
        request,
        lambda connection, book: part_document(part_named(connection, part_id), book, DISPLAYS[units]),
    )


@router.get(
    "/v1/parts/{part_id}/fitting",
    operation_id="listFittingParts",
    dependencies=[Checked],
    responses=answered(FittingList, "A page of parts that fit, best first."),
)
def list_fitting_parts(
    request: Request,
    part_id: PartId,
    part_class: ClassWanted,
    everything: AllOfThem = False,
    with_: With = [],  # noqa: B006
    units: Units = "mm",
    after: After = "",
    limit: Limit = 50,
) -> Response:
    """Every part of a class judged against this one, best first; `with` adds parts that both must live with."""

    def page(connection: Connection, book: Book) -> dict[str, Any]:
        part = part_named(connection, part_id)
        with placed_at("/query/class"):
            classes = classes_like(part_class, book)
        shelf = _search(request, book).shelf
        many = sum(shelf.size(connection, own) for own in classes)
        if many > MOST_JUDGED_AT_ONCE:
            what = f"{many} parts are too many to judge at once; {MOST_JUDGED_AT_ONCE} are the most."
            hint = f"Ask for them page by page: GET /v1/parts?class={part_class}&fits={part.id}."
            raise Malformed([Problem("too_many", what, "/query/class", hint=hint)])
        question = question_of(connection, book, [("", part)], with_)
        display = DISPLAYS[units]

        def judged() -> dict[str, Any]:
            candidates = read.parts_of_classes(connection, classes)
            with placed_at("/query/class"):  # the two have no seats beside each other
                return fitting(question, part_class, candidates, book, desk_of(request).rules, everything, display)

        key = (book.revision, part_id, part_class, everything, units, *with_)
        return fitting_page(request, desk_of(request).remembered(key, judged), after, limit)

    return told(request, page)


def fitting_page(request: Request, judged: Mapping[str, Any], after: str, limit: int) -> dict[str, Any]:
    """One page of a judged list, behind the verdict and id at which the last one ended."""

    def place(verdict: str, part: str) -> tuple[int, str]:
        return BEST_FIRST.index(verdict) if verdict in BEST_FIRST else len(BEST_FIRST), part

    last = key_of(request, after, 2)
    found = judged["found"]
    behind = [one for one in found if not last or place(one["verdict"], one["part"]) > place(*last)]
    shown = behind[:limit]
    more = next_page(request, (shown[-1]["verdict"], shown[-1]["part"])) if len(behind) > limit else None
    return {**judged, "matching": len(found), "found": shown, "next": more}

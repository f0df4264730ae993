"""What boards and plans have in common: a list, one of them, keeping it under an id, and taking it away."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import Request, Response

from api.desk import Connection
from api.paging import key_of, next_page
from api.plan_documents import plan_of
from api.problems import not_found
from api.replies import desk_of, json_response, told_of_kept
from api.writes import seen_version, stale, tag_of
from fitdb.catalogue.keep import Saved, remove_document, save_document, saved_document, saved_documents
from fitdb.catalogue.read import Book
from fitdb.catalogue.tables import LENGTHS
from fitdb.catalogue.write import Stale
from fitdb.intake.nearest import shortened
from fitdb.intake.part_files import WELL_FORMED_ID
from fitdb.intake.plan_files import default_layout, plan_keys
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook

LONGEST = LENGTHS["saved_document"]["document"] or 0
NEW_ID = r"^[a-z0-9][a-z0-9._-]{0,79}$"


@dataclass(frozen=True, slots=True)
class Kind:
    """boards or plans: `word` is one of them, `keys` are those that its document may have (empty: all of a plan)."""

    word: str
    keys: tuple[str, ...] = ()

    @property
    def several(self) -> str:
        return f"{self.word}s"


def own_example(value: str) -> dict[str, Any]:
    """An example that is there only when somebody has kept it."""
    return {"one of your own": {"value": value}}


def kept_list(request: Request, kind: Kind, after: str, limit: int) -> Response:
    """A page of what is kept, by id."""

    def page(connection: Connection, _: Book) -> tuple[dict[str, Any], str]:
        last = key_of(request, after, 1)
        found = saved_documents(connection, kind.word, last[0] if last else "", limit + 1)
        more = next_page(request, (found[limit - 1].id,)) if len(found) > limit else None
        return {kind.several: [_line(saved) for saved in found[:limit]], "next": more}, ""

    return told_of_kept(request, page)


def kept_one(request: Request, kind: Kind, own: str) -> Response:
    """One of them, its version as its ETag."""

    def found(connection: Connection, _: Book) -> tuple[dict[str, Any], str]:
        saved = kept_named(connection, kind, own)
        return _whole(saved), tag_of(saved.version)

    return told_of_kept(request, found)


def keep(request: Request, kind: Kind, own: str, document: object) -> Response:
    """201 with a new one, 200 with one that was changed; what has a fault is refused, and nothing is kept."""
    desk = desk_of(request)
    plan = desk.ask(lambda connection, book: _checked(kind, own, document, connection, book, desk.rules))
    what = f"the {kind.word} `{own}`"

    def save(connection: Connection, _: Book) -> tuple[Saved, bool]:
        standing = saved_document(connection, kind.word, own)
        seen = seen_version(request, standing.version if standing else None, what)
        try:
            return save_document(connection, kind.word, own, plan.title, document, seen), seen is None
        except Stale as late:  # somebody else was faster by less than a transaction
            raise stale(what, late.expected, late.current) from None

    saved, new = desk.change(save)
    headers = {"etag": tag_of(saved.version), "cache-control": "no-store"}
    if not new:
        return json_response(_whole(saved), headers)
    return json_response(_whole(saved), {**headers, "location": f"/v1/{kind.several}/{own}"}, 201)


def remove(request: Request, kind: Kind, own: str) -> Response:
    """204 when it is gone."""
    what = f"the {kind.word} `{shortened(own)}`"

    def gone(connection: Connection, _: Book) -> None:
        standing = kept_named(connection, kind, own)
        seen = seen_version(request, standing.version, what)
        try:
            remove_document(connection, kind.word, own, seen or 0)
        except Stale as late:
            raise stale(what, late.expected, late.current) from None

    desk_of(request).change(gone)
    return Response(None, 204, {"cache-control": "no-store"})


def kept_named(connection: Connection, kind: Kind, own: str) -> Saved:
    """The board or plan of the path; an id that none could have never reaches the database."""
    saved = saved_document(connection, kind.word, own) if WELL_FORMED_ID.fullmatch(own) else None
    if saved is None:
        known = [one.id for one in saved_documents(connection, kind.word, limit=200)]
        raise not_found(f"/path/{kind.word}_id", kind.word, own, known)
    return saved


def _checked(kind: Kind, own: str, document: object, connection: Connection, book: Book, rules: Rulebook) -> SwapPlan:
    """The plan that the document describes; Malformed with every fault, those of keeping it under this id as well."""
    faults: list[Problem] = []
    if isinstance(document, Mapping):
        called = document.get("plan")
        if isinstance(called, str) and called != own and WELL_FORMED_ID.fullmatch(called):
            what = f"the document is called `{called}`, and the path `{own}`."
            faults.append(Problem("other_id", what, "/plan", hint=f"Write `{own}` here, or PUT it to `{called}`."))
        for key in document if kind.keys else ():
            if key not in kind.keys and key in plan_keys():
                what = f"a {kind.word} has no `{key}`: it says how a board stands, and nothing of a swap."
                faults.append(Problem("not_of_a_board", what, f"/{key}", hint="Keep it as a plan: PUT /v1/plans/{id}."))
        if len(json.dumps(document, ensure_ascii=False)) > LONGEST:
            what = f"the document is longer than {LONGEST} characters."
            faults.append(Problem("too_large", what, hint="Leave out what other plans tell."))
    try:
        plan = plan_of(document, connection, book, rules)
    except Malformed as malformed:
        raise Malformed((*malformed.problems, *faults)) from None
    if faults:
        raise Malformed(faults)
    return plan


def _line(saved: Saved) -> dict[str, Any]:
    layout = saved.document.get("layout") or default_layout()
    return {
        "id": saved.id,
        "title": saved.title,
        "layout": layout,
        "version": saved.version,
        "saved_at": saved.saved_at,
    }


def _whole(saved: Saved) -> dict[str, Any]:
    return {**_line(saved), "document": saved.document}

"""POST /v1/options: what may stand in a seat of a board that is being put together, and why something may not."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from typing import Annotated, Any

from anyio import to_thread
from fastapi import APIRouter, Depends, Request, Response

from api.asked import asked_plan
from api.bodies import decoded_body
from api.desk import Connection
from api.fits import validated
from api.options_shapes import OptionsAnswer, OptionsQuestion, WhyAnswer, WhyQuestion
from api.parameters import answered
from api.plan_examples import BOARD, GEARED
from api.problems import placed_at
from api.replies import Checked, desk_of, json_response
from api.swaps import plan_body
from fitdb.catalogue.read import Book
from fitdb.choose import Question, answer, why_answer
from fitdb.choosing.kept import Opened, Snapshots
from fitdb.choosing.pages import Wanted
from fitdb.model.problems import Malformed, Problem
from fitdb.possible.whole import seats_called

router = APIRouter(tags=["options"], dependencies=[Checked])
LOOKED_AT_EACH = 0.1  # seconds between two looks whether somebody still waits
WHOLE = {**{key: value for key, value in GEARED.items() if key != "on"}, "plan": "river-board-whole"}

Answer = Callable[[Callable[[], bool]], dict[str, Any]]


@router.post(
    "/v1/options",
    operation_id="askOptions",
    responses=answered(OptionsAnswer, "A page of options."),
    openapi_extra=plan_body(
        {
            "another belt for a whole board": {"plan": WHOLE, "seat": "belt", "limit": 5},
            "wheels for a board that is begun, counted": {
                "plan": BOARD,
                "seat": "rear_wheel",
                "limit": 3,
                "facets": ["outer_diameter"],
            },
        },
        OptionsQuestion,
    ),
)
async def ask_options(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """Which parts can stand in this seat, each as part of a whole board on which nothing clashes?

    Every part has a verdict, every possible one a whole board that was judged and can be sent to /v1/swaps. What was
    not known in time is `checking`; ask again, and it is worked on from there. A filled seat is opened: its part is
    told beside those that could stand in its place.
    """

    def asked(connection: Connection, book: Book) -> tuple[Question, Opened, str]:
        question = _question(body, OptionsQuestion, connection, book, request)
        form = validated(OptionsQuestion, body)
        wanted = Wanted(
            limit=form.limit,
            after=form.after,
            sort=form.sort,
            where=form.where,
            facets=None if form.facets is None else tuple(form.facets),
            everything=form.all_seats,
            why=form.why,
            alike_to=form.alike_to,
            milliseconds=form.budget_ms,
            most_price=form.most_price_mu,
            remedies=form.remedies,
        ).checked()
        return _opened(question, form.seat, wanted, connection, book, request)

    return await _answered(request, asked, answer)


@router.post(
    "/v1/options/why",
    operation_id="askWhyNot",
    responses=answered(WhyAnswer, "The reason, and the change that would let the part in."),
    openapi_extra=plan_body(
        {"a belt that is too short": {"plan": WHOLE, "seat": "belt", "part": "belt-5mm-225-9"}}, WhyQuestion
    ),
)
async def ask_why_not(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """Why can this part not stand here, and what would make it possible? One sentence with its numbers."""

    def asked(connection: Connection, book: Book) -> tuple[Question, Opened, str]:
        question = _question(body, WhyQuestion, connection, book, request)
        form = validated(WhyQuestion, body)
        wanted = Wanted(limit=0, why=form.part, milliseconds=form.budget_ms).checked()
        return _opened(question, form.seat, wanted, connection, book, request)

    return await _answered(request, asked, why_answer)


async def _answered(
    request: Request,
    asked: Callable[[Connection, Book], tuple[Question, Opened, str]],
    told: Callable[..., dict[str, Any]],
) -> Response:
    """The answer, worked out in a thread that stops when nobody waits for it any more."""
    desk, gone = desk_of(request), threading.Event()

    def work() -> dict[str, Any]:
        question, snapshot, newest = desk.ask(asked)
        document = told(question, snapshot, desk.rules, newest, gone.is_set)
        request.app.state.snapshots.store_in_time(snapshot)
        return document

    async def watch() -> None:
        while not await request.is_disconnected():
            await asyncio.sleep(LOOKED_AT_EACH)
        gone.set()

    watching = asyncio.create_task(watch())
    try:
        document = await to_thread.run_sync(work)
    finally:
        watching.cancel()
    return json_response(document, {"cache-control": "no-store"})


def _question(
    body: object, form: type[OptionsQuestion] | type[WhyQuestion], connection: Connection, book: Book, request: Request
) -> Question:
    if not isinstance(body, dict) or not isinstance(body.get("plan"), dict):
        hint = 'Send {"plan": {"plan": "my-board", "layout": "two_wheel_belt"}, "seat": "wheel"}.'
        raise Malformed([Problem("missing_key", "a plan is wanted, and a seat beside it.", "/plan", hint=hint)])
    read = asked_plan(body, form, connection, book, desk_of(request).rules)
    return Question(read.plan, body["plan"], "", Wanted(), read.display)


def _opened(
    question: Question, seat: str, wanted: Wanted, connection: Connection, book: Book, request: Request
) -> tuple[Question, Opened, str]:
    """The question with the snapshot that it is put to; Malformed where the layout has no such seat."""
    pattern = book.patterns[question.plan.pattern]
    with placed_at("/seat"):
        seats_called(pattern, seat)
    snapshots: Snapshots = request.app.state.snapshots
    opened = snapshots.of(connection, book, desk_of(request).rules, pattern, question.plan.limits)
    return Question(question.plan, question.document, seat, wanted, question.display), opened, book.revision

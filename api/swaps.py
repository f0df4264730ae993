"""POST /v1/swaps: a whole board before and after a swap; its conflicts alone; boards from what is owned."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request, Response

from api.asked import AskedPlan, asked_plan
from api.bodies import decoded_body
from api.desk import Connection
from api.fits import stock_of
from api.plan_examples import PACK, PACK_AND_CHARGER, SHELF, WHEELS
from api.plan_shapes import PlanQuestion, SwapQuestion
from api.replies import Checked, desk_of, json_response, prefers
from api.swap_shapes import BuildsAnswer, Comparison, ConflictsAnswer, SwapAnswer
from fitdb import job_card, ride, settings
from fitdb.builds import shelf_builds
from fitdb.catalogue.read import Book
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.model.verdict import SwapVerdict
from fitdb.offers import StockOf
from fitdb.sheets.swap_report import bill_text
from fitdb.steps.explain import Display
from fitdb.swap import compared, conflicts_answer, swap, told_of

router = APIRouter(tags=["swaps"], dependencies=[Checked])
CSV = "text/csv"
BILL = {CSV: {"schema": {"type": "string", "description": "The parts to get for the best plan of remedies."}}}
Added = Callable[[SwapVerdict, Book, Rulebook, StockOf, Display], dict[str, Any]]
ADDED: dict[str, Added] = {
    "ride": lambda verdict, book, rules, stock, display: ride.answer(verdict, book, rules, stock, display),
    "settings": lambda verdict, book, rules, _, display: settings.answer(verdict, book, rules, display),
    "jobcard": lambda verdict, book, rules, _, display: job_card.answer(verdict, book, rules, display),
}
Include = Annotated[
    str,
    Query(
        max_length=80,
        description="What to add to the answer, with commas between: ride, settings, jobcard. Each as its own resource "
        "tells it, from the same judgement.",
    ),
]
MOST_OWNED = 40  # some five seconds; nothing else bounds how long boards are put together


def plan_body(examples: dict[str, Any], form: type[PlanQuestion] = SwapQuestion) -> dict[str, Any]:
    """How a body with a plan is documented: the plan as it is, or with what is wanted beside it."""
    schema = {
        "oneOf": [{"$ref": "#/components/schemas/PlanFile"}, {"$ref": f"#/components/schemas/{form.__name__}"}],
    }
    shown = {name: {"value": value} for name, value in examples.items()}
    return {"requestBody": {"required": True, "content": {"application/json": {"schema": schema, "examples": shown}}}}


@router.post(
    "/v1/swaps",
    operation_id="askSwap",
    responses={
        200: {
            "model": SwapAnswer | Comparison,
            "description": "The answer, or two side by side; the bill where `accept: text/csv` asks for it.",
            "content": BILL,
        }
    },
    openapi_extra=plan_body(
        {
            "other wheels": WHEELS,
            "in inches, beside another plan": {"plan": PACK, "units": "inch", "compare": PACK_AND_CHARGER},
        }
    ),
)
def ask_swap(request: Request, body: Annotated[Any, Depends(decoded_body)], include: Include = "") -> Response:
    """What clashes on a board after a swap, what mends it, and what to measure first? Before and after, judged whole.

    "It clashes" and "measure first" are answers. A plan that cannot be read is refused with every fault at its place.
    With `accept: text/csv` the answer is the bill: the parts to get for the best plan of remedies. With `include` what
    the board will do, its settings and the order of work stand in the answer as well, and the plan is judged once.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> Response:
        question = asked_plan(body, SwapQuestion, connection, book, desk.rules)
        words = included(request, include)
        if question.compare is not None and prefers(request, CSV):
            what = "a bill is of one plan, and two are sent."
            raise Malformed([Problem("one_plan", what, "/compare", hint="Leave `compare` out.")])
        return swap_response(request, swap_told(question, connection, book, desk.rules, words))

    return desk.ask(asked)


@router.post(
    "/v1/swaps/conflicts",
    operation_id="askConflicts",
    responses={200: {"model": ConflictsAnswer, "description": "The conflicts, most severe first."}},
    openapi_extra=plan_body({"other wheels": WHEELS, "in inches": {"plan": PACK, "units": "inch"}}),
)
def ask_conflicts(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """Which parts of a plan cannot stand together, and what would free each? No remedy is looked for."""
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = asked_plan(body, SwapQuestion, connection, book, desk.rules, alone=True)
        return conflicts_answer(question.plan, book, desk.rules, stock_of(connection), question.display)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


@router.post(
    "/v1/swaps/builds",
    operation_id="askBuilds",
    responses={200: {"model": BuildsAnswer, "description": "The boards, best first."}},
    openapi_extra=plan_body({"from the shelf": SHELF, "in inches": {"plan": SHELF, "units": "inch"}}),
)
def ask_builds(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """Which boards of the plan's layout could be built from what is owned? Its board, its shelf and its donors count.

    The best boards that were found, not a proof. At most 40 owned parts are put together.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = asked_plan(body, SwapQuestion, connection, book, desk.rules, alone=True)
        _refuse_a_whole_shop(question.plan, question.place)
        return shelf_builds(question.plan, book, desk.rules, question.display)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


def swap_told(
    question: AskedPlan, connection: Connection, book: Book, rules: Rulebook, words: tuple[str, ...] = ()
) -> dict[str, Any]:
    """The answer to the plan, or to both side by side, each with the documents that the words add to it."""
    stock = stock_of(connection)

    def told(plan: SwapPlan) -> dict[str, Any]:
        verdict = swap(plan, book, rules, stock)
        added = {word: ADDED[word](verdict, book, rules, stock, question.display) for word in words}
        return {**told_of(verdict, book, question.display), **added}

    if question.compare is None:
        return told(question.plan)
    return compared(told(question.plan), told(question.compare))


def included(request: Request, include: str) -> tuple[str, ...]:
    """The words of the parameter `include`, each once; Malformed with every one that is not known, or with a bill."""
    words = tuple(dict.fromkeys(word for one in include.split(",") if (word := one.strip())))
    faults = [
        Problem(
            "unknown_word",
            f"`{shortened(word)}` is nothing that can be included.",
            "/query/include",
            hint=did_you_mean(word, ADDED) or f"Known here: {', '.join(ADDED)}.",
        )
        for word in words
        if word not in ADDED
    ]
    if words and not faults and prefers(request, CSV):
        hint = "Ask for JSON, or leave `include` out."
        faults.append(Problem("not_in_a_bill", "a bill has no place for more documents.", "/query/include", hint=hint))
    if faults:
        raise Malformed(faults)
    return words


def swap_response(request: Request, told: dict[str, Any]) -> Response:
    """The answer as JSON, or the bill as CSV where that is preferred: only its heading where nothing is to be got."""
    if prefers(request, CSV):
        return Response(bill_text(told), 200, {"cache-control": "no-store"}, CSV)
    return json_response(told, {"cache-control": "no-store"})


def _refuse_a_whole_shop(plan: SwapPlan, place: str) -> None:
    """Boards are put together from what somebody owns; a shop's whole stock would take minutes."""
    owned = {piece.part.id for piece in plan.before} | {item.part.id for item in plan.stock if item.owned}
    if len(owned) > MOST_OWNED:
        what = f"{len(owned)} different parts are owned; {MOST_OWNED} are the most that are put together."
        raise Malformed([Problem("too_many_parts", what, place, hint="Leave out what you would not use.")])

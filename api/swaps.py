"""POST /v1/swaps: a whole board before and after a swap; its conflicts alone; boards from what is owned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request, Response

from api.bodies import decoded_body
from api.desk import Connection
from api.fits import stock_of, validated
from api.plan_documents import BESIDE, plan_of
from api.plan_examples import PACK, PACK_AND_CHARGER, SHELF, WHEELS
from api.replies import DISPLAYS, Checked, desk_of, json_response
from api.swap_shapes import BuildsAnswer, Comparison, ConflictsAnswer, SwapAnswer, SwapQuestion
from fitdb.builds import shelf_builds
from fitdb.catalogue.read import Book
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.sheets.swap_report import bill_text
from fitdb.steps.explain import Display
from fitdb.swap import answer, compared, conflicts_answer

router = APIRouter(tags=["swaps"], dependencies=[Checked])
BILL = {"text/csv": {"schema": {"type": "string", "description": "The parts to get for the best plan of remedies."}}}
MOST_OWNED = 40  # some five seconds; nothing else bounds how long boards are put together


def plan_body(examples: dict[str, Any]) -> dict[str, Any]:
    """How a body with a plan is documented: the plan as it is, or with what is wanted beside it."""
    schema = {
        "oneOf": [{"$ref": "#/components/schemas/PlanFile"}, {"$ref": "#/components/schemas/SwapQuestion"}],
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
def ask_swap(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """What clashes on a board after a swap, what mends it, and what to measure first? Before and after, judged whole.

    "It clashes" and "measure first" are answers. A plan that cannot be read is refused with every fault at its place.
    With `accept: text/csv` the answer is the bill: the parts to get for the best plan of remedies.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> Response:
        question = asked_swap(body, connection, book, desk.rules)
        if prefers_csv(request):
            if question.compare is not None:
                what = "a bill is of one plan, and two are sent."
                raise Malformed([Problem("one_plan", what, "/compare", hint="Leave `compare` out.")])
            return bill_response(question.answer(connection, book, desk.rules))
        return json_response(question.answer(connection, book, desk.rules), {"cache-control": "no-store"})

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
        question = asked_swap(body, connection, book, desk.rules, alone=True)
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
        question = asked_swap(body, connection, book, desk.rules, alone=True)
        _refuse_a_whole_shop(question.plan, question.place)
        return shelf_builds(question.plan, book, desk.rules, question.display)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


@dataclass(frozen=True, slots=True)
class AskedSwap:
    """What a body asks: a plan, the units of its sentences, maybe another plan; `place` is where the plan stands."""

    plan: SwapPlan
    display: Display
    compare: SwapPlan | None = None
    place: str = ""

    def answer(self, connection: Connection, book: Book, rules: Rulebook) -> dict[str, Any]:
        """The answer to the plan, or both side by side."""
        stock = stock_of(connection)
        told = answer(self.plan, book, rules, stock, self.display)
        if self.compare is None:
            return told
        return compared(told, answer(self.compare, book, rules, stock, self.display))


def asked_swap(body: object, connection: Connection, book: Book, rules: Rulebook, alone: bool = False) -> AskedSwap:
    """What a decoded body asks; Malformed with every fault of every plan. `alone`: no plan may stand beside it."""
    if not _stands_in_an_object(body):
        return AskedSwap(plan_of(body, connection, book, rules), DISPLAYS["mm"])
    assert isinstance(body, dict)
    faults: list[Problem] = []
    try:
        units = validated(SwapQuestion, body).units
    except Malformed as malformed:
        units = "mm"
        faults += malformed.problems
    if alone and body.get("compare") is not None:
        hint = "POST /v1/swaps compares two plans."
        faults.append(Problem("unknown_key", "nothing is compared here.", "/compare", hint=hint))
    plans: dict[str, SwapPlan] = {}
    for name in ("plan", "compare"):
        if body.get(name) is not None:
            try:
                plans[name] = plan_of(body[name], connection, book, rules, f"/{name}")
            except Malformed as malformed:
                faults += malformed.problems
    if faults:
        raise Malformed(faults)
    return AskedSwap(plans["plan"], DISPLAYS[units], plans.get("compare"), "/plan")


def _stands_in_an_object(body: object) -> bool:
    """A plan alone has its name under `plan`; where the plan itself stands there, something may stand beside it."""
    if not isinstance(body, dict):
        return False
    return isinstance(body["plan"], dict) if "plan" in body else any(key in body for key in BESIDE)


def _refuse_a_whole_shop(plan: SwapPlan, place: str) -> None:
    """Boards are put together from what somebody owns; a shop's whole stock would take minutes."""
    owned = {piece.part.id for piece in plan.before} | {item.part.id for item in plan.stock if item.owned}
    if len(owned) > MOST_OWNED:
        what = f"{len(owned)} different parts are owned; {MOST_OWNED} are the most that are put together."
        raise Malformed([Problem("too_many_parts", what, place, hint="Leave out what you would not use.")])


def prefers_csv(request: Request) -> bool:
    """Whether `accept` names text/csv, and JSON not before it (RFC 9110, 12.5.1)."""
    weights: dict[str, float] = {}
    for entry in request.headers.get("accept", "").split(","):
        media_type, *parameters = (part.strip().lower() for part in entry.split(";"))
        weight = next((part.removeprefix("q=") for part in parameters if part.startswith("q=")), "1")
        try:
            weights[media_type] = float(weight)
        except ValueError:
            weights[media_type] = 0.0
    return weights.get("text/csv", 0.0) > weights.get("application/json", 0.0)


def bill_response(told: dict[str, Any]) -> Response:
    """The bill as CSV; only its heading where nothing is to be got."""
    return Response(bill_text(told), 200, {"cache-control": "no-store"}, "text/csv")

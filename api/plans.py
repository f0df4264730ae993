"""/v1/plans: swap plans kept under an id, and the answers to a kept one."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Query, Request, Response

from api.asked import AskedPlan
from api.bodies import decoded_body
from api.desk import Connection
from api.jobcard_shapes import JobcardAnswer
from api.jobcards import jobcard_told
from api.kept import NEW_ID, Kind, keep, kept_list, kept_named, kept_one, own_example, remove
from api.kept_shapes import KeptShape, PlanList
from api.parameters import answered
from api.plan_documents import plan_of
from api.plan_examples import PACK
from api.replies import DISPLAYS, After, Checked, Limit, Units, desk_of, json_response
from api.ride_shapes import RideAnswer
from api.rides import DRAWN, ChartId, ride_response
from api.settings_shapes import SettingsAnswer
from api.settings_sheets import settings_told
from api.swap_shapes import SwapAnswer
from api.swaps import BILL, Include, included, swap_response, swap_told
from api.writes import FromThisMachine, IfMatch, IfMatchToChange, IfNoneMatchToMake
from fitdb.catalogue.read import Book
from fitdb.job_card import GREATEST_RATE
from fitdb.model.rule import Rulebook

router = APIRouter(tags=["plans"], dependencies=[Checked])
KIND = Kind("plan")
PlanId = Annotated[str, Path(description="The id of a plan.", openapi_examples=own_example(PACK["plan"]))]
NewPlanId = Annotated[
    str, Path(description="The id of the plan.", pattern=NEW_ID, openapi_examples=own_example(PACK["plan"]))
]
Rate = Annotated[
    float | None,
    Query(
        alias="rate_mu_per_hour",
        ge=0,
        le=GREATEST_RATE,
        description="What an hour of labour costs, mu: adds a quote. One mu is about one euro or dollar.",
    ),
]
BODY = {
    "requestBody": {
        "required": True,
        "content": {
            "application/json": {
                "schema": {"$ref": "#/components/schemas/PlanFile"},
                "examples": {"a plan": {"value": PACK}},
            }
        },
    }
}


@router.get("/v1/plans", operation_id="listPlans", responses=answered(PlanList, "A page of plans, by id."))
def list_plans(request: Request, after: After = "", limit: Limit = 50) -> Response:
    """The plans that are kept, page by page."""
    return kept_list(request, KIND, after, limit)


@router.get("/v1/plans/{plan_id}", operation_id="getPlan", responses=answered(KeptShape, "The plan."))
def get_plan(request: Request, plan_id: PlanId) -> Response:
    """A plan as it was kept. Its ETag is its version."""
    return kept_one(request, KIND, plan_id)


@router.put(
    "/v1/plans/{plan_id}",
    operation_id="keepPlan",
    dependencies=[FromThisMachine],
    responses={
        200: {"model": KeptShape, "description": "The plan as it is now."},
        201: {"model": KeptShape, "description": "The new plan."},
    },
    openapi_extra=BODY,
)
def keep_plan(
    request: Request,
    plan_id: NewPlanId,
    body: Annotated[Any, Depends(decoded_body)],
    if_match: IfMatchToChange = None,
    if_none_match: IfNoneMatchToMake = None,
) -> Response:
    """Keeps a plan under an id, written as in a plan file.

    A new one with `if-none-match: *`, a changed one with `if-match` and the version that you saw. Only from the
    machine that the server runs on.
    """
    return keep(request, KIND, plan_id, body)


@router.delete(
    "/v1/plans/{plan_id}",
    operation_id="removePlan",
    dependencies=[FromThisMachine],
    status_code=204,
    response_class=Response,
    responses={204: {"description": "It is gone."}},
)
def remove_plan(request: Request, plan_id: PlanId, if_match: IfMatch = None) -> Response:
    """Takes a plan away, with `if-match` and the version that you saw. Only from the machine of the server."""
    return remove(request, KIND, plan_id)


@router.post(
    "/v1/plans/{plan_id}/swap",
    operation_id="askKeptPlan",
    responses={
        200: {
            "model": SwapAnswer,
            "description": "The answer; the bill where `accept: text/csv` asks for it.",
            "content": BILL,
        }
    },
)
def ask_kept_plan(request: Request, plan_id: PlanId, units: Units = "mm", include: Include = "") -> Response:
    """The answer to a kept plan, as POST /v1/swaps would give it now.

    Where the catalogue has lost a part that the plan names, the faults point into the plan's document.
    """
    desk = desk_of(request)
    words = included(request, include)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = kept_question(plan_id, units, connection, book, desk.rules)
        return swap_told(question, connection, book, desk.rules, words)

    return swap_response(request, desk.ask(asked))


@router.post(
    "/v1/plans/{plan_id}/ride",
    operation_id="askKeptRide",
    responses={
        200: {"model": RideAnswer, "description": "The figures; one chart where `chart` names it.", "content": DRAWN}
    },
)
def ask_kept_ride(request: Request, plan_id: PlanId, units: Units = "mm", chart: ChartId = "") -> Response:
    """What the board of a kept plan will do, as POST /v1/ride would tell it now.

    A track is sent there, with the plan.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> Response:
        question = kept_question(plan_id, units, connection, book, desk.rules)
        return ride_response(request, question, connection, book, desk.rules, chart)

    return desk.ask(asked)


@router.post(
    "/v1/plans/{plan_id}/settings",
    operation_id="askKeptSettings",
    responses=answered(SettingsAnswer, "The settings sheet."),
)
def ask_kept_settings(request: Request, plan_id: PlanId, units: Units = "mm") -> Response:
    """What to set in the controllers of the board of a kept plan, as POST /v1/settings would tell it now."""
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = kept_question(plan_id, units, connection, book, desk.rules)
        return settings_told(question, connection, book, desk.rules)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


@router.post(
    "/v1/plans/{plan_id}/jobcard",
    operation_id="askKeptJobcard",
    responses=answered(JobcardAnswer, "The job card."),
)
def ask_kept_jobcard(request: Request, plan_id: PlanId, units: Units = "mm", rate: Rate = None) -> Response:
    """The order of work for a kept plan, as POST /v1/jobcard would tell it now."""
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = kept_question(plan_id, units, connection, book, desk.rules, rate)
        return jobcard_told(question, connection, book, desk.rules)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


def kept_question(
    plan_id: str, units: str, connection: Connection, book: Book, rules: Rulebook, rate: float | None = None
) -> AskedPlan:
    """What a kept plan asks; Malformed where there is none of that id, or the catalogue has lost what it names."""
    document = kept_named(connection, KIND, plan_id).document
    return AskedPlan(plan_of(document, connection, book, rules), DISPLAYS[units], rate=rate)

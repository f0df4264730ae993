"""/v1/plans: swap plans kept under an id, and the answer to a kept one."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Request, Response

from api.bodies import decoded_body
from api.desk import Connection
from api.fits import stock_of
from api.kept import NEW_ID, Kind, keep, kept_list, kept_named, kept_one, own_example, remove
from api.kept_shapes import KeptShape, PlanList
from api.parameters import answered
from api.plan_documents import plan_of
from api.plan_examples import PACK
from api.replies import DISPLAYS, After, Checked, Limit, Units, desk_of, json_response
from api.swap_shapes import SwapAnswer
from api.swaps import BILL, bill_response, prefers_csv
from api.writes import FromThisMachine, IfMatch, IfMatchToChange, IfNoneMatchToMake
from fitdb.catalogue.read import Book
from fitdb.swap import answer

router = APIRouter(tags=["plans"], dependencies=[Checked])
KIND = Kind("plan")
PlanId = Annotated[str, Path(description="The id of a plan.", openapi_examples=own_example(PACK["plan"]))]
NewPlanId = Annotated[
    str, Path(description="The id of the plan.", pattern=NEW_ID, openapi_examples=own_example(PACK["plan"]))
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
def ask_kept_plan(request: Request, plan_id: PlanId, units: Units = "mm") -> Response:
    """The answer to a kept plan, as POST /v1/swaps would give it now.

    Where the catalogue has lost a part that the plan names, the faults point into the plan's document.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        plan = plan_of(kept_named(connection, KIND, plan_id).document, connection, book, desk.rules)
        return answer(plan, book, desk.rules, stock_of(connection), DISPLAYS[units])

    told = desk.ask(asked)
    return bill_response(told) if prefers_csv(request) else json_response(told, {"cache-control": "no-store"})

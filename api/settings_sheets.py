"""POST /v1/settings: what to set in the controllers of the board of a plan, each value with the link that sets it."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request, Response

from api.asked import AskedPlan, asked_plan
from api.bodies import decoded_body
from api.desk import Connection
from api.fits import stock_of
from api.parameters import answered
from api.plan_examples import GEARED
from api.plan_shapes import PlanQuestion
from api.replies import Checked, desk_of, json_response
from api.settings_shapes import SettingsAnswer
from api.swaps import plan_body
from fitdb import settings
from fitdb.catalogue.read import Book
from fitdb.model.rule import Rulebook
from fitdb.swap import swap

router = APIRouter(tags=["settings"], dependencies=[Checked])


@router.post(
    "/v1/settings",
    operation_id="askSettings",
    responses=answered(SettingsAnswer, "The settings sheet."),
    openapi_extra=plan_body({"larger pulleys": GEARED, "in inches": {"plan": GEARED, "units": "inch"}}, PlanQuestion),
)
def ask_settings(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """What has to be set in the controllers of the board, what sets each value, and what is set now?

    For the board as it would be built. While it clashes, or a reading decides about a joint that can hurt someone, the
    sheet says that it is not to be used, and until when.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = asked_plan(body, PlanQuestion, connection, book, desk.rules)
        return settings_told(question, connection, book, desk.rules)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


def settings_told(question: AskedPlan, connection: Connection, book: Book, rules: Rulebook) -> dict[str, Any]:
    """The settings sheet of a plan, which is judged for it."""
    return settings.answer(swap(question.plan, book, rules, stock_of(connection)), book, rules, question.display)

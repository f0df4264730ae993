"""POST /v1/jobcard: the order of work for a plan; POST /v1/sheets: all that a plan comes to as one page to print."""

from __future__ import annotations

import base64
import hashlib
import re
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request, Response

from api.asked import AskedPlan, asked_plan
from api.bodies import decoded_body, decoded_body_with_a_track
from api.desk import Connection
from api.fits import stock_of
from api.jobcard_shapes import JobcardAnswer
from api.parameters import answered
from api.plan_examples import GEARED, WAY
from api.plan_shapes import JobcardQuestion, SheetQuestion
from api.replies import Checked, desk_of, json_response
from api.swaps import plan_body
from fitdb import job_card
from fitdb.catalogue.read import Book
from fitdb.model.rule import Rulebook
from fitdb.sheet import page_of
from fitdb.swap import swap

router = APIRouter(tags=["jobcard"], dependencies=[Checked])
HTML = "text/html"
PAGE = {HTML: {"schema": {"type": "string", "description": "A page that stands by itself and can be printed."}}}
STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)


@router.post(
    "/v1/jobcard",
    operation_id="askJobcard",
    responses=answered(JobcardAnswer, "The job card."),
    openapi_extra=plan_body(
        {"larger pulleys": GEARED, "with a quote": {"plan": GEARED, "rate_mu_per_hour": 60}}, JobcardQuestion
    ),
)
def ask_jobcard(request: Request, body: Annotated[Any, Depends(decoded_body)]) -> Response:
    """In which order is the work done, with what, and how long does it take? From the first reading to the last ride.

    A plan that clashes gets no card; one that is undecided where somebody can be hurt is measured and nothing else. A
    rate, mu per hour, adds a quote.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> dict[str, Any]:
        question = asked_plan(body, JobcardQuestion, connection, book, desk.rules)
        return jobcard_told(question, connection, book, desk.rules)

    return json_response(desk.ask(asked), {"cache-control": "no-store"})


@router.post(
    "/v1/sheets",
    operation_id="askSheet",
    response_class=Response,
    responses={200: {"description": "The sheet.", "content": PAGE}},
    openapi_extra=plan_body(
        {
            "larger pulleys": GEARED,
            "with a track and a quote": {"plan": GEARED, "track": WAY, "rate_mu_per_hour": 60},
        },
        SheetQuestion,
    ),
)
def ask_sheet(request: Request, body: Annotated[Any, Depends(decoded_body_with_a_track)]) -> Response:
    """Everything that a plan comes to, on one page to print and take to the bench.

    Verdict, readings to take, what to get, what the board will do, settings, order of work, drawings and cautions.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> Response:
        question = asked_plan(body, SheetQuestion, connection, book, desk.rules)
        stock = stock_of(connection)
        verdict = swap(question.plan, book, desk.rules, stock)
        page = page_of(verdict, book, desk.rules, stock, question.display, question.rate, question.track)
        headers = {"cache-control": "no-store", "content-security-policy": policy_of(page)}
        return Response(page, 200, headers, HTML)

    return desk.ask(asked)


def jobcard_told(question: AskedPlan, connection: Connection, book: Book, rules: Rulebook) -> dict[str, Any]:
    """The job card of a plan, which is judged for it."""
    verdict = swap(question.plan, book, rules, stock_of(connection))
    return job_card.answer(verdict, book, rules, question.display, question.rate)


def policy_of(page: str) -> str:
    """The policy of a page that stands by itself: its own style by its hash (CSP Level 3, 2.3.1), and nothing else."""
    hashes = [base64.b64encode(hashlib.sha256(style.encode()).digest()).decode() for style in STYLE.findall(page)]
    styles = " ".join(f"'sha256-{one}'" for one in hashes) or "'none'"
    return f"default-src 'none'; style-src {styles}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

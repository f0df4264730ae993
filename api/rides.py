"""POST /v1/ride: what the board of a plan will do, before and after; its charts and the board to scale as drawings."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request, Response

from api.asked import AskedPlan, asked_plan
from api.bodies import decoded_body, decoded_body_with_a_track
from api.desk import Connection
from api.fits import stock_of
from api.plan_examples import GEARED, WAY
from api.plan_shapes import BoardWord, PlanQuestion, RideQuestion, ViewWord
from api.replies import Checked, accepts, desk_of, json_response, prefers
from api.ride_shapes import RideAnswer
from api.swaps import plan_body
from fitdb import ride
from fitdb.catalogue.read import Book
from fitdb.drawings.board_views import board_svg, plan_view, side_view
from fitdb.drawings.charts import chart_svg
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.outlook import Chart
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.sheet import chart_of
from fitdb.swap import judge_of, swap

router = APIRouter(tags=["ride"], dependencies=[Checked])
SVG = "image/svg+xml"
DRAWN = {SVG: {"schema": {"type": "string", "description": "A drawing that stands by itself."}}}
ChartId = Annotated[
    str,
    Query(max_length=80, description="The id of a chart of the answer: that chart comes as SVG, and nothing else."),
]
View = Annotated[ViewWord, Query(description="From the right side, or from above (plan).")]
Board = Annotated[
    BoardWord,
    Query(
        description="The board as it stands, as the plan asks, or as it would be built: as asked, with the changes of "
        "the answer where it has any."
    ),
]
VIEWS = {
    "side": (side_view, "From the side", "its wheelbase, or how high its axles stand, is not among the readings"),
    "plan": (plan_view, "From above", "its wheelbase is not among the readings"),
}


@router.post(
    "/v1/ride",
    operation_id="askRide",
    responses={
        200: {"model": RideAnswer, "description": "The figures; one chart where `chart` names it.", "content": DRAWN}
    },
    openapi_extra=plan_body(
        {"larger pulleys": GEARED, "on a track, in inches": {"plan": GEARED, "units": "inch", "track": WAY}},
        RideQuestion,
    ),
)
def ask_ride(
    request: Request, body: Annotated[Any, Depends(decoded_body_with_a_track)], chart: ChartId = ""
) -> Response:
    """What will the board do, before and after: speed, pull, hill, range, way to stop, and what ends each?

    Every figure has the range that its readings leave, and names the readings that move it most. What cannot be told is
    told as unknown, with what to read. With a `track` also what that way takes, and where the board falls short of it.
    With `chart` and `accept: image/svg+xml` the answer is one chart as a drawing.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> Response:
        question = asked_plan(body, RideQuestion, connection, book, desk.rules)
        return ride_response(request, question, connection, book, desk.rules, chart)

    return desk.ask(asked)


@router.post(
    "/v1/ride/views",
    operation_id="askRideView",
    response_class=Response,
    responses={200: {"description": "The drawing, in mm.", "content": DRAWN}},
    openapi_extra=plan_body({"larger pulleys": GEARED}, PlanQuestion),
)
def ask_ride_view(
    request: Request,
    body: Annotated[Any, Depends(decoded_body)],
    view: View = "side",
    board: Board = "built",
) -> Response:
    """A whole board to scale, with its clearances, as a drawing.

    What nobody has read is named below it. A board of which too little is known to draw it is a sentence in a frame.
    """
    desk = desk_of(request)

    def asked(connection: Connection, book: Book) -> Response:
        question = asked_plan(body, PlanQuestion, connection, book, desk.rules)
        if board == "before" and not question.plan.before:
            hint = "Ask for board=as_asked, or tell under `board` how it stands."
            what = "this plan is for a new board: there is none as it stands."
            raise Malformed([Problem("no_such_board", what, "/query/board", hint=hint)])
        drawn = board_drawn(question, connection, book, desk.rules, view, board)
        return Response(drawn, 200, {"cache-control": "no-store"}, SVG)

    return desk.ask(asked)


def ride_response(
    request: Request, question: AskedPlan, connection: Connection, book: Book, rules: Rulebook, chart: str
) -> Response:
    """The outlook as JSON, or one of its charts as SVG. Malformed where a chart is wanted and cannot be given."""
    refuse_half_a_chart(request, chart)
    stock = stock_of(connection)
    verdict = swap(question.plan, book, rules, stock)
    told = ride.answer(verdict, book, rules, stock, question.display, question.track)
    if not chart:
        return json_response(told, {"cache-control": "no-store"})
    return Response(chart_drawn(told, chart), 200, {"cache-control": "no-store"}, SVG)


def refuse_half_a_chart(request: Request, chart: str) -> None:
    """Malformed where a drawing is preferred and none is named, or one is named and no drawing is taken."""
    if chart and not accepts(request, SVG):
        hint = f"Send `accept: {SVG}`, or leave `chart` out: the whole answer holds its numbers."
        raise Malformed(
            [Problem("not_accepted", "a chart comes as SVG, and `accept` takes none.", "/query/chart", hint=hint)]
        )
    if not chart and prefers(request, SVG):
        hint = "Add the id of a chart, such as chart=force; the whole answer is JSON."
        what = "a drawing is asked for, and this parameter does not say which."
        raise Malformed([Problem("missing_parameter", what, "/query/chart", hint=hint)])


def chart_drawn(told: dict[str, Any], chart: str) -> str:
    """One chart of an outlook as SVG; Malformed where it has none of that id."""
    way = told["track"]["charts"] if told["track"] else []
    charts = {one["id"]: one for one in [*told["charts"], *way]}
    if chart not in charts:
        hint = did_you_mean(chart, charts)
        hint = f"{hint} Charts of this answer: {', '.join(charts)}.".strip()
        what = f"there is no chart {shortened(chart)!r}."
        raise Malformed([Problem("unknown_chart", what, "/query/chart", hint=hint)])
    return chart_svg(chart_of(charts[chart]))


def board_drawn(
    question: AskedPlan, connection: Connection, book: Book, rules: Rulebook, view: ViewWord, board: BoardWord
) -> str:
    """One board of a plan as SVG, or a frame with a sentence; no remedy is looked for unless the board needs it."""
    verdict = swap(question.plan, book, rules, stock_of(connection), mending=board == "built")
    boards = ride.foreseen(verdict, judge_of(verdict.plan, book, rules), charts=False)
    seen = boards.get(board) or boards["as_asked"]
    look, title, lacking = VIEWS[view]
    drawing = look(seen.seated, seen.outlook.sizes)
    if drawing is not None:
        return board_svg(drawing)
    return chart_svg(Chart(view, title, "", "", "", "", "", (), f"This board cannot be drawn to scale: {lacking}."))

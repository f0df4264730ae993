"""Front door: the sheet for the bench, one file that holds everything a plan comes to and can be printed.

Verdict, readings to take, bill, what the board will do, settings, order of work, drawings and cautions: the plan is
judged once, and every part is what its own front door would answer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.drawings.board_views import board_svg, plan_view, side_view
from fitdb.drawings.charts import chart_svg
from fitdb.intake.tracks import track_of_file
from fitdb.job_card import answer as card_answer
from fitdb.job_card import check_rate
from fitdb.model.outlook import Chart, Series
from fitdb.model.rule import Rulebook
from fitdb.model.track import Track
from fitdb.model.verdict import SwapVerdict
from fitdb.offers import StockOf
from fitdb.ride import Foreseen, foreseen
from fitdb.ride import told_of as ride_of_boards
from fitdb.rules import rulebook
from fitdb.settings import answer as settings_answer
from fitdb.sheets.job_page import SheetParts, job_page
from fitdb.steps.explain import Display
from fitdb.swap import judge_of, stock_in, swap, told_of

LAST = ("built", "as_asked")


def page(
    url: str | None,
    file: Path,
    readings: Sequence[str],
    display: Display,
    rate: float | None = None,
    track: Path | None = None,
) -> str:
    """The sheet of the plan in a file as HTML, from the catalogue at `url` (None: the default one).

    readings: ROLE.ATTRIBUTE=VALUE, taken since the file was written. rate: mu per hour, for a quote. track: a way
    ridden, as GPX or CSV. Raises Malformed with every fault.
    """
    check_rate(rate)
    way = track_of_file(track) if track is not None else None
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, file, readings)
            rules, stock = rulebook(), stock_in(connection)
            return page_of(swap(plan, book, rules, stock), book, rules, stock, display, rate, way)
    finally:
        engine.dispose()


def page_of(
    verdict: SwapVerdict,
    book: Book,
    rules: Rulebook,
    stock_of: StockOf,
    display: Display,
    rate: float | None = None,
    track: Track | None = None,
) -> str:
    """The sheet of a plan that has been judged."""
    judge = judge_of(verdict.plan, book, rules)
    boards = foreseen(verdict, judge, track)
    ride = ride_of_boards(verdict, boards, judge, stock_of, display)
    parts = SheetParts(
        swap=told_of(verdict, book, display),
        ride=ride,
        settings=settings_answer(verdict, book, rules, display),
        card=card_answer(verdict, book, rules, display, rate),
        charts=chart_drawings(ride),
        views=board_drawings(boards),
    )
    return job_page(parts)


def chart_drawings(ride: dict[str, Any]) -> dict[str, str]:
    """The charts of a ride document as SVG, by id; those of the track last."""
    charts = [*ride["charts"], *(ride["track"]["charts"] if ride["track"] else ())]
    return {chart["id"]: chart_svg(chart_of(chart)) for chart in charts}


def chart_of(document: dict[str, Any]) -> Chart:
    """The chart that a document tells."""
    series = tuple(
        Series(one["name"], one["board"], one["role"], *(tuple(one[key]) for key in ("x", "y", "low", "high")))
        for one in document["series"]
    )
    x, y = document["x"], document["y"]
    return Chart(
        document["id"],
        document["title"],
        document["description"],
        x["title"],
        x["unit"],
        y["title"],
        y["unit"],
        series,
        document["missing"],
    )


def board_drawings(boards: Mapping[str, Foreseen]) -> tuple[tuple[str, str], ...]:
    """Side and plan view of the board as it would be built, to scale; none of a board of which nothing can be drawn."""
    last = boards[next(name for name in LAST if name in boards)]
    drawn = (
        ("From the side, front on the right.", side_view(last.seated, last.outlook.sizes)),
        ("From above, front on the right.", plan_view(last.seated, last.outlook.sizes)),
    )
    return tuple((title, board_svg(drawing)) for title, drawing in drawn if drawing is not None)

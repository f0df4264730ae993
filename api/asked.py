"""What a body with a plan asks: the plan alone, or in an object with what is wanted beside it; every fault at once."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from api.desk import Connection
from api.fits import validated
from api.plan_documents import plan_of
from api.plan_shapes import PlanQuestion
from api.problems import placed_at
from api.replies import DISPLAYS
from fitdb.catalogue.read import Book
from fitdb.intake.tracks import read_track
from fitdb.job_card import check_rate
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.model.track import Track
from fitdb.steps.explain import Display

LARGEST_TRACK = 8_000_000
"""Bytes: some fifteen hours with a point a second, at 150 bytes each."""
RATE, TRACK = "rate_mu_per_hour", "track"


@dataclass(frozen=True, slots=True)
class AskedPlan:
    """What a body asks: a plan, and what stands beside it. `place` is where in the body the plan stands.

    compare: another plan. track: a way that was ridden. rate: mu per hour.
    """

    plan: SwapPlan
    display: Display
    place: str = ""
    compare: SwapPlan | None = None
    track: Track | None = None
    rate: float | None = None


def asked_plan(
    body: object,
    form: type[PlanQuestion],
    connection: Connection,
    book: Book,
    rules: Rulebook,
    alone: bool = False,
) -> AskedPlan:
    """What a decoded body of this form asks; Malformed with every fault of all that stands in it.

    `alone`: no plan may stand beside it, though the form has a place for one.
    """
    beside = tuple(name for name in form.model_fields if name != "plan")
    if not _stands_in_an_object(body, beside):
        return AskedPlan(plan_of(body, connection, book, rules, beside=beside), DISPLAYS["mm"])
    assert isinstance(body, dict)
    faults: list[Problem] = []
    units = "mm"
    try:
        units = validated(form, body).units
    except Malformed as malformed:
        faults += malformed.problems
    if alone and body.get("compare") is not None:
        hint = "POST /v1/swaps compares two plans."
        faults.append(Problem("unknown_key", "nothing is compared here.", "/compare", hint=hint))
    plans: dict[str, SwapPlan] = {}
    for name in [key for key in ("plan", "compare") if key == "plan" or key in form.model_fields]:
        if body.get(name) is not None:
            try:
                plans[name] = plan_of(body[name], connection, book, rules, f"/{name}", beside)
            except Malformed as malformed:
                faults += malformed.problems
    track, rate = body.get(TRACK), body.get(RATE)
    way = None
    if TRACK in form.model_fields and isinstance(track, str):
        try:
            way = track_of(track)
        except Malformed as malformed:
            faults += malformed.problems
    if RATE in form.model_fields and _is_number(rate):
        try:
            with placed_at(f"/{RATE}"):
                check_rate(rate)
        except Malformed as malformed:
            faults += malformed.problems
    if faults:
        raise Malformed(faults)
    return AskedPlan(plans["plan"], DISPLAYS[units], "/plan", plans.get("compare"), way, rate)


def track_of(text: str) -> Track:
    """The way in the text of a file; Malformed with every fault at /track, its row and column in the words."""
    track, problems = read_track(text, most_bytes=LARGEST_TRACK)
    if track is None:
        raise Malformed(_in_words(problem) for problem in problems)
    return track


def _in_words(problem: Problem) -> Problem:
    where = problem.where()
    message = f"{where}: {problem.message}" if where else problem.message
    return dataclasses.replace(problem, message=message, path=f"/{TRACK}", row=None, column="")


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _stands_in_an_object(body: object, beside: Iterable[str]) -> bool:
    """A plan alone has its name under `plan`; where the plan itself stands there, something may stand beside it."""
    if not isinstance(body, dict):
        return False
    return isinstance(body["plan"], dict) if "plan" in body else any(key in body for key in beside)

"""Front door: what the finished board will do, before and after a swap, what limits it, and what would change it.

The board as it stands, as the plan asks, and as it would be built with the changes of the best cure are each foreseen
from the same draws, so that what they have in common falls out of the difference.
"""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fitdb.board import BoardJudge, Judged
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.intake.tracks import track_of_file
from fitdb.model.joint import Joint, Piece
from fitdb.model.outlook import BOARDS, Outlook
from fitdb.model.rule import Rule, Rulebook
from fitdb.model.trace import Trace
from fitdb.model.track import Track
from fitdb.model.verdict import SwapVerdict
from fitdb.offers import StockOf
from fitdb.rules import rulebook
from fitdb.steps.explain import Display
from fitdb.steps.explain.rides import ride_document
from fitdb.steps.foresee import foresee, top_of
from fitdb.steps.foresee.choices import choices
from fitdb.steps.foresee.draws import Draws, Memory
from fitdb.steps.foresee.ride_figures import Ride
from fitdb.steps.foresee.told import Rows
from fitdb.steps.foresee.track_ride import TrackRide, track_ride
from fitdb.steps.survey import trace
from fitdb.swap import Budget, judge_of, stock_in, swap
from fitdb.workshop import BoardWorkshop
from fitdb.would_change import WouldChange, would_change

# Sizes of the standing board: their name, the kind of joint that knows the roles, and what is worked out there: a need
# of the survey, or a rule whose quantity it is. {place} and {end} are those of the joint.
SIZES = (
    ("{end}.deck_height", "wheel_bite", "truck.deck_height"),
    ("{end}.wheel_radius", "wheel_bite", "wheel.effective_radius"),
    ("{end}.steer", "wheel_bite", "truck.steer"),
    ("{end}.lean", "wheel_bite", "truck.max_lean"),
    ("{place}.inner_face", "wheel_bite", "wheel.inner_face"),
    ("{place}.outer_face", "wheel_bite", "wheel.outer_face"),
    ("{place}.bite_clearance", "wheel_bite", "wheel_bite.wood_clears_the_wheel"),
    ("front.axis_angle", "axis_angles", "front_truck.working_axis_angle"),
    ("rear.axis_angle", "axis_angles", "rear_truck.working_axis_angle"),
    ("deck.sag", "box_flex", "deck.static_sag"),
    ("deck.sag", "steering_under_load", "deck.static_sag"),
    ("deck.mid_height", "box_ground", "deck.mid_height"),
    ("{box}.ground_gap", "box_ground", "box_ground.box_clears_at_rest"),
    ("{box}.ground_gap_on_bump", "box_ground", "box_ground.box_clears_on_a_bump"),
    ("{place}_motor.ground_gap", "motor_to_ground", "motor_to_ground.motor_clears_the_ground"),
    ("{place}_motor.centre_distance", "motor_to_ground", "motor_mount.centre_distance"),
    ("{place}_motor.belt_centre", "belt_length", "belt.taut_centre_distance"),
    ("{place}_motor.belt_pull", "belt_pull", "belt.pull"),
    ("{place}_motor.belt_in_hand", "belt_pull", "belt_pull.pull_stays_below_peak"),
    ("{place}_motor.angle_deg", "motor_to_ground", "motor_mount.working_angle"),
    ("{place}_driven_pulley.ground_gap", "pulley_ground", "pulley_ground.stones_pass_under_the_pulley"),
)
FOR_CHANGES = 6.0  # seconds after which no more changes are tried; the count of them ends it long before
ENDS, SIDES = ("front", "rear"), ("left", "right")


@dataclass(frozen=True, slots=True)
class Foreseen:
    """One board foreseen: its outlook, the rows of its figures, and the drive behind them (None without one)."""

    outlook: Outlook
    rows: Mapping[str, Rows]
    ride: Ride | None
    seated: Mapping[str, Piece]
    draws: Draws
    way: TrackRide | None


def ask(
    url: str | None, file: Path, readings: Sequence[str], display: Display, track: Path | None = None
) -> dict[str, Any]:
    """What the boards of the plan in a file do, from the catalogue at `url` (None: the default one).

    readings: ROLE.ATTRIBUTE=VALUE, taken since the file was written. track: a way ridden, as GPX or CSV. Raises
    Malformed with every fault.
    """
    way = track_of_file(track) if track is not None else None
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, file, readings)
            rules, stock = rulebook(), stock_in(connection)
            return answer(swap(plan, book, rules, stock), book, rules, stock, display, way)
    finally:
        engine.dispose()


def answer(
    verdict: SwapVerdict,
    book: Book,
    rules: Rulebook,
    stock_of: StockOf,
    display: Display,
    track: Track | None = None,
) -> dict[str, Any]:
    """The outlook on every board of a judged plan as one document; on a track as well, where one is given."""
    judge = judge_of(verdict.plan, book, rules)
    return told_of(verdict, foreseen(verdict, judge, track), judge, stock_of, display)


def told_of(
    verdict: SwapVerdict, boards: Mapping[str, Foreseen], judge: BoardJudge, stock_of: StockOf, display: Display
) -> dict[str, Any]:
    """The same of boards that have been foreseen."""
    last = list(boards.values())[-1]
    return ride_document(
        verdict,
        {name: one.outlook for name, one in boards.items()},
        {name: _known_rows(one.rows) for name, one in boards.items()},
        _changes(verdict, last, judge, stock_of),
        choices(last.seated, last.ride, last.draws) if last.ride is not None else (),
        {name: one.way for name, one in boards.items() if one.way is not None},
        display,
        datetime.date.today().isoformat(),
    )


def _changes(verdict: SwapVerdict, last: Foreseen, judge: BoardJudge, stock_of: StockOf) -> tuple[WouldChange, ...]:
    """What would change the figures of the finished board; nothing where it cannot be ridden."""
    if last.ride is None:
        return ()
    stood = judge.judge(verdict.plan.before) if verdict.plan.before else None
    board = judge.judge(last.seated.values())
    shop = BoardWorkshop(judge, verdict.plan, board, stood, stock_of)
    budget = Budget()
    return would_change(shop, board, last.ride, judge.book.table, budget.expired(FOR_CHANGES))


def _known_rows(rows: Mapping[str, Rows]) -> dict[str, Any]:
    return {own: one.rows for own, one in rows.items() if one.rows is not None}


def foreseen(
    verdict: SwapVerdict, judge: BoardJudge, track: Track | None = None, charts: bool = True
) -> dict[str, Foreseen]:
    """The boards of a plan by name: `before` where there is one, `as_asked`, and `built` where a cure changes it.

    `judge` is that of the plan, as `swap.judge_of` makes it.
    """
    boards = dict(zip(BOARDS, (verdict.plan.before, verdict.plan.after, verdict.built), strict=True))
    if not boards["before"]:
        del boards["before"]
    if boards["built"] == boards["as_asked"]:
        del boards["built"]
    memory = Memory()
    reached = (top_of({piece.seat: piece for piece in pieces}, judge.book.table) for pieces in boards.values())
    tops = tuple(top for top in reached if top is not None)
    return {name: _foreseen(name, pieces, judge, memory, track, charts, tops) for name, pieces in boards.items()}


def _foreseen(
    name: str,
    pieces: Iterable[Piece],
    judge: BoardJudge,
    memory: Memory,
    track: Track | None,
    charts: bool,
    tops: tuple[float, ...],
) -> Foreseen:
    judged = judge.judge(pieces)
    traces = worked_out(judged, judge)
    outlook, rows, ride, draws = foresee(
        name, judged.seated, traces, judge.book.table, memory=memory, charts=charts, tops=tops
    )
    way = track_ride(name, ride, track, draws) if ride is not None and track is not None else None
    return Foreseen(outlook, rows, ride, judged.seated, draws, way)


def worked_out(judged: Judged, judge: BoardJudge) -> dict[str, tuple[Trace, ...]]:
    """How the sizes of a standing board follow from its readings, by name; a name may have several places."""
    takes = {seat.id: seat.classes for seat in judge.pattern.seats.values()}
    found: dict[str, list[Trace]] = {}
    for joint in (one.joint for one in judged.joints):
        for name, kind, what in SIZES:
            if joint.line.kind != kind:
                continue
            rule = judge.rules.rules.get(what) or _measuring(what, joint, judge.rules)
            if rule is not None:
                found.setdefault(_named(name, joint), []).append(
                    trace(joint, rule, judge.rules, judge.book.table, takes)
                )
    return {name: tuple(traces) for name, traces in found.items()}


def _measuring(need: str, joint: Joint, rules: Rulebook) -> Rule | None:
    """A rule that measures one need and asks nothing of it; None where the joint has no such role."""
    if joint.line.role(need.partition(".")[0]) is None:
        return None
    some = next(iter(rules.rules.values()))
    line = rules.survey.get(need)
    return dataclasses.replace(
        some,
        id=need,
        needs=(need,),
        quantity=_as_it_is,
        constants=(),
        excused_by="",
        unit=line.unit if line is not None else "deg" if need.endswith("lean") else "mm",
    )


def _as_it_is(value: Any) -> Any:
    return value


def _named(name: str, joint: Joint) -> str:
    """The name with the place, end or box of the joint filled in."""
    seats = [piece.seat for pieces in joint.pieces.values() for piece in pieces]
    place = next(
        (f"{end}_{side}" for end in ENDS for side in SIDES for s in seats if s.startswith(f"{end}_{side}")), ""
    )
    end = next((end for end in ENDS for seat in seats if seat.startswith(f"{end}_")), "")
    box = next((seat for seat in seats if seat in ("box", "second_box", "pocket")), "box")
    return name.format(place=place, end=end, box=box)

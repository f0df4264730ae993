"""What would change a number of the finished board: the cheapest changes of a part or a setting, with their effect.

Every change is one that the catalogue has as a remedy. Its effect is worked out for the nominal board, all changes at
once as rows of one array; then the board is judged with it, and what fails by it is named beside it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitdb.board import Judged, with_moved
from fitdb.formulas.drive_system import (
    MOTOR_ARRAYS,
    Drive,
    Motors,
    Road,
    Supply,
    driving_force,
    stopping,
    top_speed,
)
from fitdb.formulas.pack_ride import PackStore, lasting
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable
from fitdb.model.reading import Count, Designation, Number
from fitdb.model.remedy import Move
from fitdb.model.rule import Severity
from fitdb.steps.foresee import rider_and_route
from fitdb.steps.foresee.board_drive import KMH, Body, Unknown, body_of, drive_of, faded
from fitdb.steps.foresee.draws import Draws, Memory
from fitdb.steps.foresee.ride_figures import HALF, REACHED, Ride, grade, grips, route_power
from fitdb.workshop import BoardWorkshop

Array = NDArray[np.float64]
# Settings first: of a full catalogue there are more parts than can be looked at.
SEATS = ("controller", "controller_2", "drive_pulley", "driven_pulley", "gear_drive", "wheel", "hub_sleeve", "motor")
SETTINGS = (
    "motor_current",
    "pack_current",
    "braking_motor_current",
    "braking_charge_limit",
    "speed_ceiling",
    "rev_ceiling",
)
FIGURES = {"top_speed_half": 1, "pull": 1, "grade_start": 1, "range": 1, "stopping_distance": -1}
"""The figures that are asked of, with the direction in which they get better."""
TRUE_AND_NO_ADVICE = (("range", "speed_ceiling"),)  # whoever rides slower rides farther, and knows it
MOST_JUDGED = 60  # boards; a count, so that the same plan has the same answer on a busy machine
LEAST_PERCENT = 4.0
MOST_MOVES = 300
MOST_PARTS = 8
TOLD = 3
Findings = Mapping[tuple[str, str], Finding]


@dataclass(frozen=True, slots=True)
class WouldChange:
    """One change by which nothing fails, or fails by more: what it does to a figure in per cent, from what to what.

    raised: whether a setting or size goes up; None where a part is exchanged or a word is set.
    """

    figure: str
    move: Move
    percent: float
    before: float
    after: float
    raised: bool | None


def would_change(
    shop: BoardWorkshop, board: Judged, ride: Ride, table: AttributeTable, late: Callable[[], bool]
) -> tuple[WouldChange, ...]:
    """For each figure the three cheapest changes that better it and by which nothing fails.

    board: as it would be built; ride: what it does now. late: whether the time for it is over; then fewer are told.
    """
    moves = list(_moves(shop, board))[:MOST_MOVES]
    boards = [board.seated, *(with_moved(board.seated, {p.seat: p for p in move.pieces}) for move in moves)]
    told = _figures(boards, ride, table)
    stands = _findings(board)
    judged: dict[int, bool] = {}

    def enough() -> bool:
        return len(judged) >= MOST_JUDGED or late()

    def fails(index: int) -> bool:
        if index not in judged:
            move = moves[index - 1]
            judged[index] = _worsens(stands, _findings(shop.applied(board, move)), move)
        return judged[index]

    with np.errstate(divide="ignore", invalid="ignore"):
        percent = {figure: (told[figure] / told[figure][0] - 1.0) * 100.0 for figure in FIGURES}
    best: dict[str, list[int]] = {figure: [] for figure in FIGURES}
    # Settings and sizes first, of every figure: they cost nothing, and parts take the longest to judge.
    for sized in (True, False):
        for figure, better in FIGURES.items():
            gain = percent[figure] * better
            good = [i for i in range(1, len(boards)) if np.isfinite(gain[i]) and gain[i] >= LEAST_PERCENT]
            for indexes in _by_remedy(good, moves, gain):
                if (figure, moves[indexes[0] - 1].remedy.attribute) in TRUE_AND_NO_ADVICE:
                    continue
                if (moves[indexes[0] - 1].remedy.move in ("alter", "set")) is not sized:
                    continue
                most = None if enough() else _farthest(indexes, fails) if sized else _most(indexes, fails, enough)
                best[figure] += [] if most is None else [most]
    found: list[WouldChange] = []
    for figure, indexes in best.items():
        indexes.sort(key=lambda index: (not moves[index - 1].remedy.reversible, *_price(moves[index - 1])))
        for index in indexes[:TOLD]:
            move, before, after = moves[index - 1], float(told[figure][0]), float(told[figure][index])
            found.append(WouldChange(figure, move, float(percent[figure][index]), before, after, _raised(board, move)))
    return tuple(found)


def _farthest(indexes: Sequence[int], fails: Callable[[int], bool]) -> int | None:
    """Of the sizes of one remedy, those that do least first, the one that does most before something fails by it.

    By halving: what fails at a size is taken to fail at those that do more. None where even the first one fails.
    """
    if not indexes or fails(indexes[0]):
        return None
    low, high = 0, len(indexes)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if not fails(indexes[middle]) else (low, middle)
    return indexes[low]


def _most(indexes: Sequence[int], fails: Callable[[int], bool], late: Callable[[], bool]) -> int | None:
    """Of the parts of one remedy, those that do least first, the one that does most and by which nothing fails.

    Parts differ in more than one size, so that each is tried, a few of them; None where all of these fail.
    """
    for index in reversed(indexes[-MOST_PARTS:]):
        if late():
            return None
        if not fails(index):
            return index
    return None


def _raised(board: Judged, move: Move) -> bool | None:
    """Whether a setting or size is raised, None where it is not that kind of change."""
    if move.remedy.move not in ("alter", "set"):
        return None
    stood, now = board.seated[move.pieces[0].seat].part, move.pieces[0].part
    sizes = [part.offers(move.remedy.attribute)[1] for part in (stood, now)]
    before, after = (one.nominal if isinstance(one, Number | Count | Designation) else None for one in sizes)
    return None if before is None or after is None else after > before


def _moves(shop: BoardWorkshop, board: Judged) -> Iterator[Move]:
    """Every move on a seat that the ride depends on; alike seats move together, and are asked once."""
    seen: set[tuple[str, tuple[str, ...], str]] = set()
    for name in SEATS:
        for seat in shop.offers.named.get(name, ()):
            for move in shop.moves_at(board, seat):
                if move.remedy.move == "set" and move.remedy.attribute not in SETTINGS:
                    continue
                key = (move.remedy.id, tuple(sorted(move.seats)), move.what)
                if key not in seen:
                    seen.add(key)
                    yield move


def _by_remedy(good: Sequence[int], moves: Sequence[Move], gain: Array) -> list[list[int]]:
    """The moves of each remedy, the one that gains least first."""
    groups: dict[str, list[int]] = {}
    for index in sorted(good, key=lambda index: float(gain[index])):
        groups.setdefault(moves[index - 1].remedy.id, []).append(index)
    return list(groups.values())


def _price(move: Move) -> tuple[float, float]:
    return move.money, move.minutes


def _findings(board: Judged) -> dict[tuple[str, str], Finding]:
    """Every finding by joint and rule."""
    return {(joint.joint.id, one.rule.id): one for joint in board.joints for one in joint.findings}


def _worsens(stands: Findings, after: Findings, move: Move) -> bool:
    """Whether something fails by the move, or fails by more than before; where it can hurt someone, also whether
    something is left in doubt by it, or in greater doubt."""
    for key, now in after.items():
        before = stands.get(key)
        if now.state == "fails":
            if before is None or before.state != "fails" or _least(now) < _least(before) - 1e-9:
                return True
        elif now.state == "undecided" and now.rule.severity >= Severity.INJURY:
            if before is None or before.state not in ("undecided", "fails"):
                return True
            if _least(now) < _least(before) - 1e-9:
                return True
            # Where no number can be told, a reading that is changed by the move changes the doubt as well.
            if now.margin is None and any((item.seat, item.attribute) in move.marks for item in now.inputs):
                return True
    return False


def _least(finding: Finding) -> float:
    return finding.margin.low if finding.margin is not None else 0.0


# --- the nominal boards, all at once -----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Row:
    """One nominal board: its drive with the pack half full, what the pack holds, and what is carried."""

    half: Drive
    store: PackStore
    body: Body
    dry: Array
    pulling: Array
    speed: Array
    climb: Array
    stops: Array
    reaction: Array
    metered: Array | None


def _figures(boards: Sequence[Mapping[str, Piece]], ride: Ride, table: AttributeTable) -> dict[str, Array]:
    """Each figure for every board; not a number where a board has no drive that can be worked out."""
    memory = Memory()
    rows = [_row(pieces, table, memory) for pieces in boards]
    alike = [i for i, row in enumerate(rows) if row is not None and len(row.half.motors) == len(ride.half.motors)]
    told = {name: np.full(len(boards), np.nan) for name in FIGURES}
    some = [row for i in alike if (row := rows[i]) is not None]
    if not some:
        return told
    half = _stacked([row.half for row in some])
    held, pulling = (np.concatenate([getattr(row, name) for row in some]) for name in ("dry", "pulling"))
    top = top_speed(half)[0]
    pull = driving_force(half, np.zeros(len(some)), pulling)[0]
    body = dataclasses.replace(some[0].body, road=half.road)
    ridden = np.full(len(some), float(ride.ridden[0]))  # from the same speed, or a slower board would brake better
    told["top_speed_half"][alike] = top * KMH
    told["pull"][alike] = pull
    told["grade_start"][alike] = grade(pull, body) * 100.0
    reaction = np.concatenate([row.reaction for row in some])
    told["stopping_distance"][alike] = stopping(half, ridden, reaction, held, steps=16)[0]
    capacity, series, resistance, end = (
        np.concatenate([getattr(row.store, name) for row in some])
        for name in ("capacity", "series", "resistance", "end_volts")
    )
    store = PackStore(series, capacity, resistance, end, some[0].store.chemistry)
    speed = np.minimum(np.concatenate([row.speed for row in some]), REACHED * top)
    climb, stops = (np.concatenate([getattr(row, name) for row in some]) for name in ("climb", "stops"))
    metered = [row.metered for row in some]
    told_by = (
        None if any(one is None for one in metered) else np.concatenate([one for one in metered if one is not None])
    )
    power = route_power(dataclasses.replace(ride, half=half), speed, climb, stops, told_by)
    told["range"][alike] = lasting(store, power).hours * speed * KMH
    return told


def _row(pieces: Mapping[str, Piece], table: AttributeTable, memory: Memory) -> _Row | None:
    draws = Draws(table, memory, count=0)
    rider, route = rider_and_route(pieces)
    body = body_of(pieces, rider, route, draws)
    if isinstance(body, Unknown):
        return None
    drive = drive_of(pieces, body, draws)
    if isinstance(drive, Unknown):
        return None
    whole, store = drive
    half = dataclasses.replace(whole, supply=faded(whole.supply, store, HALF, pieces, draws))
    places = tuple(place for place in DRIVEN if any(f"{place}_{kind}" in pieces for kind in MOTOR_KINDS))
    speed, climb, stops = (draws.size(route, name) for name in ("mean_speed", "mean_climb", "stops_per_km"))
    reaction = draws.size(rider, "reaction_time")
    if speed is None or climb is None or stops is None or reaction is None:
        return None
    dry, pulling = grips(body, places, braking=True), grips(body, places, braking=False)
    metered = draws.read(route, "consumption")
    return _Row(half, store, body, dry, pulling, speed / KMH, climb / 100.0, stops, reaction, metered)


DRIVEN = ("rear_left", "rear_right", "front_left", "front_right")
MOTOR_KINDS = ("motor", "hub_motor", "direct_drive")


def _stacked(drives: Sequence[Drive]) -> Drive:
    """Several boards with as many motors as rows of one."""

    def joined(values: Sequence[Array]) -> Array:
        return np.concatenate([np.asarray(value, dtype=float) for value in values])

    motors = tuple(
        Motors(alike[0].count, *(joined([getattr(one, name) for one in alike]) for name in MOTOR_ARRAYS))
        for alike in zip(*(drive.motors for drive in drives), strict=True)
    )
    supply = Supply(*(joined([getattr(drive.supply, name) for drive in drives]) for name in Supply.__slots__))
    mass, rolling, drag, density = (
        joined([getattr(drive.road, name) for drive in drives]) for name in ("mass", "rolling", "drag_area", "density")
    )
    return Drive(motors, supply, Road(mass, rolling, drag, density, 0.0))  # the nominal board has no wind

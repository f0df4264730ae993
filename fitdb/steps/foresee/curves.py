"""Curves of one board, for charts that put two boards side by side. Lines are the nominal board; bands its draws."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.drive_system import braking_force, driving_force, mapped, road_force, stopping
from fitdb.formulas.pack_ride import PackStore, lasting
from fitdb.model.joint import Piece
from fitdb.model.outlook import Chart, Series
from fitdb.model.trace import Trace
from fitdb.steps.foresee.board_drive import KMH
from fitdb.steps.foresee.body_figures import full_lean, turn_radius_rows
from fitdb.steps.foresee.draws import MIDDLE, Draws
from fitdb.steps.foresee.ride_figures import REACHED, Ride, grips, mean_power, route_power, stands

Array = NDArray[np.float64]
BAND = 48  # draws that a band is made of: enough for a line that is drawn
SPEEDS = 41
FASTEST_KMH = 70.0
WET = 0.6

FORCE = (
    "force",
    "Pull against speed",
    "What the motors pull at every speed, and what the road takes on the flat and up the steepest hill of the route. "
    "Where the lines meet is the speed that it reaches.",
    ("speed", "km/h"),
    ("force at the ground", "N"),
)
RANGE = (
    "range",
    "Range against speed",
    "How far one charge goes at a steady speed on the route.",
    ("speed", "km/h"),
    ("range", "km"),
)
STOPPING = (
    "stopping",
    "Way to stop against speed",
    "Reaction time included, on the flat, pack half full.",
    ("speed", "km/h"),
    ("way to stop", "m"),
)
VOLTS = (
    "volts",
    "Volts of the pack over the ride",
    "At the terminals, at the mean power of the route, until power ends.",
    ("way ridden", "km"),
    ("volts", "V"),
)
TURNING = (
    "turning",
    "Turn radius against lean",
    "How tight it turns at every lean up to the full one.",
    ("lean", "deg"),
    ("turn radius", "m"),
)
Titles = tuple[str, str, str, tuple[str, str], tuple[str, str]]


def ride_charts(board: str, ride: Ride, draws: Draws) -> tuple[Chart, ...]:
    """The four charts of a board that can be ridden."""
    some = _some_rows(ride, draws)
    force = _chart(FORCE, _force_lines(board, ride, draws))
    stopping_way = _chart(STOPPING, _stopping_lines(board, ride, some, draws))
    if ride.top["half"][0][0] <= 0.0:
        return force, _chart(RANGE, (), stands(ride)), stopping_way, _chart(VOLTS, (), stands(ride))
    volts = _volts_lines(board, ride, draws)
    return (
        force,
        _chart(RANGE, (_range_line(board, ride, some, draws),)),
        stopping_way,
        _chart(VOLTS, volts, "" if volts else "the pack cannot give the power that the route takes"),
    )


def missing_charts(why: str) -> tuple[Chart, ...]:
    """The same without lines, each with the reason."""
    return tuple(_chart(titles, (), why) for titles in (FORCE, RANGE, STOPPING, VOLTS))


def turning_chart(
    board: str, traces: Mapping[str, tuple[Trace, ...]], pieces: Mapping[str, Piece], draws: Draws
) -> Chart:
    """Turn radius over lean; two kingpins steer a little less at the end of their lean than drawn."""
    lean = full_lean(traces, draws)
    whole = turn_radius_rows(traces, pieces, draws)
    if lean is None or whole is None or not lean[0] > 0.0:
        return _chart(TURNING, (), "it takes the wheelbase, and axis and lean of both trucks")
    leans = np.linspace(max(3.0, 0.2 * lean[0]), lean[0], 24)
    share = np.sin(np.radians(leans)) / np.sin(np.radians(lean[0]))
    radii = whole[: BAND + 1, None] / share
    return _chart(TURNING, (_line("turn radius", board, "main", leans, radii),))


def _chart(titles: Titles, series: tuple[Series, ...], missing: str = "") -> Chart:
    own, title, description, (x, x_unit), (y, y_unit) = titles
    return Chart(own, title, description, x, x_unit, y, y_unit, series, missing)


def _line(name: str, board: str, role: str, x: Array, rows: Array) -> Series:
    """The first row as the line, the other rows as its band, where there are some."""
    if len(rows) < 3:
        return Series(name, board, role, tuple(x.tolist()), tuple(rows[0].tolist()))
    low, high = np.nanpercentile(rows[1:], MIDDLE, axis=0)
    return Series(
        name,
        board,
        role,
        tuple(x.tolist()),
        tuple(rows[0].tolist()),
        tuple(np.minimum(low, rows[0]).tolist()),
        tuple(np.maximum(high, rows[0]).tolist()),
    )


def _some_rows(ride: Ride, draws: Draws) -> Callable[[Array], Array]:
    def first(value: Array) -> Array:
        return np.asarray(value)[: BAND + 1]

    return first


def _speeds(ride: Ride) -> Array:
    """Speeds in m/s up to a little beyond the greatest that the board reaches."""
    return np.linspace(0.0, min(1.08 * float(ride.top["full"][0][0]) + 0.5, FASTEST_KMH / KMH), SPEEDS)


def _force_lines(board: str, ride: Ride, draws: Draws) -> tuple[Series, ...]:
    speeds = _speeds(ride)
    one = mapped(ride.half, lambda value: np.asarray(value)[:1, None])
    places = tuple(own.place for own in ride.geared)
    held = grips(ride.body, places, braking=False)[:1, None]
    pull, _ = driving_force(one, speeds[None, :], held)
    flat = road_force(one.road, speeds[None, :])
    lines = [
        _line("pull", board, "main", speeds * KMH, pull),
        _line("road, flat", board, "resistance", speeds * KMH, flat),
    ]
    slope = draws.size(ride.body.route, "slope")
    if slope is not None and slope[0] > 0.0:
        hill = road_force(one.road, speeds[None, :], float(slope[0]) / 100.0)
        lines.append(_line(f"road, {slope[0]:.0f} % up", board, "resistance", speeds * KMH, hill))
    if held[0, 0] < 1.3 * pull.max():
        lines.append(_line("grip", board, "limit", speeds * KMH, np.full((1, SPEEDS), held[0, 0])))
    return tuple(lines)


def _range_line(board: str, ride: Ride, some: Callable[[Array], Array], draws: Draws) -> Series:
    climb, stops = draws.size(ride.body.route, "mean_climb"), draws.size(ride.body.route, "stops_per_km")
    fast = max(float(ride.top["half"][0][0]), 2.5)
    speeds = np.linspace(2.0, fast, 14)
    rows = []
    for speed in speeds:
        power = mean_power(
            ride,
            np.full(draws.rows, speed),
            np.zeros(draws.rows) if climb is None else climb / 100.0,
            np.zeros(draws.rows) if stops is None else stops,
        )
        held = ride.store
        shorter = PackStore(
            some(held.series), some(held.capacity), some(held.resistance), some(held.end_volts), held.chemistry
        )
        rows.append(lasting(shorter, some(power)).hours * speed * KMH)
    return _line("range", board, "main", speeds * KMH, np.stack(rows, axis=1))


def _stopping_lines(board: str, ride: Ride, some: Callable[[Array], Array], draws: Draws) -> tuple[Series, ...]:
    reaction = draws.size(ride.body.rider, "reaction_time")
    assert reaction is not None
    places = tuple(own.place for own in ride.geared)
    drive = mapped(ride.half, lambda value: some(value)[:, None])
    fast = max(float(ride.top["full"][0][0]), float(ride.ridden[0]))
    speeds = np.linspace(1.0, fast, 18)
    lines = []
    for name, wet in (("dry", 1.0), ("wet", WET)):
        held = some(grips(ride.body, places, braking=True, wet=wet))[:, None]
        way, _ = stopping(drive, np.broadcast_to(speeds, (BAND + 1, 18)), some(reaction)[:, None], held, steps=12)
        lines.append(_line(name, board, "main" if name == "dry" else "limit", speeds * KMH, way))
    ends = [float(braking_force(mapped(drive, lambda v: v[:1]), speeds[None, :])[0].max())]
    return tuple(lines) if ends[0] > 0.0 else tuple(lines[:1])


def _volts_lines(board: str, ride: Ride, draws: Draws) -> tuple[Series, ...]:
    route = ride.body.route
    speed, climb, stops = (draws.size(route, name) for name in ("mean_speed", "mean_climb", "stops_per_km"))
    if speed is None or climb is None or stops is None:
        return ()
    speed = np.minimum(speed, REACHED * ride.top["half"][0] * KMH)
    power = route_power(ride, speed / KMH, climb / 100.0, stops, draws.read(route, "consumption"))
    lasts = lasting(ride.store, power)
    volts = lasts.volts[0]
    there = np.isfinite(volts)
    # Hours up to each charge: what flows between two points at the volts that are there, power over volts.
    slow = ride.store.capacity[0] * volts / power[0]
    hours = np.concatenate([[0.0], np.cumsum(0.5 * (slow[1:] + slow[:-1]) * -np.diff(lasts.charge_left))])
    ways = hours * float(speed[0])
    end = float(ride.store.end_volts[0])
    line = Series("volts", board, "main", tuple(ways[there].tolist()), tuple(volts[there].tolist()))
    stop = Series("power ends", board, "limit", (0.0, float(ways[there][-1])), (end, end)) if there.any() else None
    return (line, stop) if stop is not None else ()

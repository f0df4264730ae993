"""A board on a track: what the way takes out of the pack, stretch by stretch, and where the board falls short of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.drive_system import (
    Drive,
    braking_force,
    electrical_power,
    full_brake,
    full_pull,
    mapped,
    road_force,
    top_speed,
)
from fitdb.formulas.pack_ride import Ridden, ridden
from fitdb.formulas.tracks import stretches
from fitdb.model.outlook import Chart, Figure, Series
from fitdb.model.track import Track
from fitdb.steps.foresee.board_drive import KMH
from fitdb.steps.foresee.draws import MIDDLE, Draws
from fitdb.steps.foresee.ride_figures import Ride
from fitdb.steps.foresee.told import Rows, told

Array = NDArray[np.float64]
ROWS = 65  # the nominal board and 64 draws: the way is long, and its ranges wide
MOST_POINTS = 400  # of a line on paper
SLOWEST = 1.0  # m/s: below walking pace nobody rides
SOURCE = "motor, pack and road solved together, stretch by stretch"


@dataclass(frozen=True, slots=True)
class TrackRide:
    """What a board does on a track. notes say how the file was counted, spots where the board falls short of it; the
    chart has its volts."""

    track: Track
    figures: tuple[Rows, ...]
    notes: tuple[str, ...]
    spots: tuple[str, ...]
    chart: Chart


def track_ride(board: str, ride: Ride, track: Track, draws: Draws) -> TrackRide:
    """The whole way from a full pack. Where the heights are not known it is counted as flat, which is said."""
    way = stretches(track)
    lengths, starts = np.array(way.length_m), np.array(way.start_m)
    slopes = np.zeros(len(lengths)) if way.slope is None else np.array(way.slope)
    notes, spots = list(track.notes), list[str]()
    if way.slope is None:
        notes.append(
            "The file does not tell heights: hills are left out, so that the way takes more than is told here."
        )
    mean = draws.size(ride.body.route, "mean_speed")
    usual = 20.0 if mean is None else float(mean[0])
    if way.speed_kmh is None:
        notes.append(f"The file does not tell speeds: {usual:.0f} km/h are counted all the way.")
    wished = np.full(len(lengths), usual) if way.speed_kmh is None else np.array(way.speed_kmh)
    speeds, slow = _reachable(ride, wished / KMH, slopes)
    spots += _slow_spots(slow, wished, speeds, slopes, starts)
    some = mapped(ride.half, lambda value: np.asarray(value)[:ROWS, None])
    power, held = _power(some, speeds, slopes, lengths)
    spots += _unheld_spots(held, slopes, starts)
    store = ride.store
    shorter = type(store)(
        store.series[:ROWS], store.capacity[:ROWS], store.resistance[:ROWS], store.end_volts[:ROWS], store.chemistry
    )
    supply = ride.full.supply
    done = ridden(
        shorter,
        power,
        np.broadcast_to(lengths / speeds, power.shape),
        lengths,
        supply.charge[:ROWS],
        supply.most_volts[:ROWS],
    )
    if done.overfull[0] > 0.5:
        spots.append(
            f"The full pack cannot take {done.overfull[0]:.0f} Wh of braking at the start: the motor brake is weak."
        )
    figures = _figures(track, done, float(lengths.sum()), draws)
    return TrackRide(
        track, figures, tuple(notes), tuple(spots), _chart(board, starts + lengths, done, shorter.end_volts)
    )


def _reachable(ride: Ride, wished: Array, slopes: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Speeds in m/s that the nominal board reaches on every stretch, and where they fall short of those ridden."""
    one = mapped(ride.half, lambda value: np.asarray(value)[:1, None])
    most = top_speed(one, slopes[None, :])[0][0]
    speeds = np.maximum(np.minimum(wished, most), SLOWEST)
    return speeds, most < 0.97 * wished


def _power(drive: Drive, speeds: Array, slopes: Array, lengths: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Power at the pack on every stretch, W, and where the motor brake cannot hold the speed downhill.

    What is needed beyond road and slope to change the speed comes or goes as ½·m·(v₂² − v₁²).
    """
    before = np.concatenate([speeds[:1], speeds[:-1]])
    inertia = drive.road.mass * (speeds**2 - before**2) / (2.0 * lengths)
    force = road_force(drive.road, speeds[None, :], slopes[None, :]) + inertia
    share = np.clip(force / full_pull(drive), 0.0, 1.0)
    driving = electrical_power(drive, share, np.broadcast_to(speeds, share.shape))
    held, _ = braking_force(drive, np.broadcast_to(speeds, share.shape))
    braked = np.minimum(np.maximum(-force, 0.0), held)
    part = braked / np.maximum(full_brake(drive), 1e-9)
    recovered = np.zeros(share.shape)
    for one in drive.motors:
        current = part * one.braking_current
        made = one.kt * speeds / one.radius * one.ratio * current - one.resistance * current**2
        recovered = recovered + one.count * np.maximum(made, 0.0)
    power = np.where(force > 0.0, driving, -recovered * drive.supply.efficiency)
    steep = (slopes < -0.02) & (-force[0] > 1.05 * held[0])
    return power, steep


def _slow_spots(slow: NDArray[np.bool_], wished: Array, speeds: Array, slopes: Array, starts: Array) -> list[str]:
    """Where the board does not reach the speeds of the track; the worst place and how much there is of it."""
    if not slow.any():
        return []
    worst = int(np.argmax(np.where(slow, wished - speeds, -1.0)))
    where = f"at {starts[worst] / 1000.0:.1f} km ({slopes[worst] * 100.0:.0f} %)"
    share = 100.0 * float(slow.mean())
    if speeds[worst] <= SLOWEST:
        return [f"It does not get up the hill {where}: somebody has to push there."]
    return [
        f"On {share:.0f} % of the way it is slower than the track was ridden; {where} it does "
        f"{speeds[worst] * KMH:.0f} km/h instead of {wished[worst]:.0f} km/h."
    ]


def _unheld_spots(held: NDArray[np.bool_], slopes: Array, starts: Array) -> list[str]:
    """Descents on which the motor brake alone does not hold the speed."""
    if not held.any():
        return []
    worst = int(np.argmin(np.where(held, slopes, 1.0)))
    return [
        f"Downhill at {starts[worst] / 1000.0:.1f} km ({-slopes[worst] * 100.0:.0f} %) the motor brake alone does not "
        "hold that speed: brake before it, by foot or slower."
    ]


def _figures(track: Track, done: Ridden, length: float, draws: Draws) -> tuple[Rows, ...]:
    """What the way takes, as rows of the nominal board and some draws."""

    def figure(own: str, title: str, unit: str) -> Figure:
        return Figure(own, title, unit, "track", None, source=SOURCE)

    km = np.maximum(done.way, 1.0) / 1000.0
    net = np.maximum(done.drawn - done.recovered, 1e-9)
    empty = done.way < 0.999 * length
    lasts = np.where(empty, km, km / np.maximum(1.0 - done.end_left, 1e-6))
    ends = f"the empty pack after {km[0]:.1f} km" if empty[0] else ""
    return (
        told(figure("track_energy", "energy that the way takes", "Wh"), done.drawn, draws),
        told(figure("track_recovered", "of it put back by braking", "Wh"), done.recovered, draws),
        told(figure("track_consumption", "energy per kilometre on it", "Wh/km"), net / km, draws),
        told(figure("track_left", "charge left at its end", "percent"), 100.0 * done.end_left, draws, limited_by=ends),
        told(figure("track_range", "way on one charge, ridden again and again", "km"), lasts, draws),
        told(figure("track_volts", "least volts of the pack on it", "V"), done.least_volts, draws),
        told(figure("track_current", "greatest current out of the pack on it", "A"), done.greatest_current, draws),
    )


def _chart(board: str, ends: Array, done: Ridden, end_volts: Array) -> Chart:
    """Volts of the pack along the way, at most MOST_POINTS of them."""
    kept = np.unique(np.linspace(0, len(ends) - 1, min(len(ends), MOST_POINTS)).astype(int))
    km = tuple((ends[kept] / 1000.0).tolist())
    drawn = done.volts[:, kept]
    low, high = np.percentile(drawn[1:], MIDDLE, axis=0) if len(drawn) > 1 else (drawn[0],) * 2
    volts = drawn[0]
    series = (
        Series(
            "volts",
            board,
            "main",
            km,
            tuple(volts.tolist()),
            tuple(np.minimum(low, volts).tolist()),
            tuple(np.maximum(high, volts).tolist()),
        ),
        Series("power ends", board, "limit", (km[0], km[-1]), (float(end_volts[0]),) * 2),
    )
    description = "At the terminals on the track that was given, from a full pack."
    return Chart("track_volts", "Volts of the pack along the track", description, "way", "km", "volts", "V", series)

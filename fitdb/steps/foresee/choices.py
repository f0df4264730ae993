"""What somebody of the trade would choose differently: parts that are larger than what feeds them, or starve others.

Each question looks at the nominal board and answers with a sentence that has its numbers, or with nothing. The shares
at which a part counts as too large or too small are common practice, no source.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.drive_system import (
    PACK_CURRENT,
    PACK_POWER,
    SPEED_CEILING,
    braking_force,
    driving_force,
    full_pull,
    mapped,
    top_speed,
)
from fitdb.model.joint import Piece
from fitdb.steps.foresee.board_drive import KMH, PACKS
from fitdb.steps.foresee.brake_figures import braked_by
from fitdb.steps.foresee.draws import Draws, by_seat
from fitdb.steps.foresee.ride_figures import Ride, grips

Array = NDArray[np.float64]
LARGE, SMALL = 2.0, 0.5
HEAT_SHARE = 0.7  # sheets of motors are a fifth to a half too high


def choices(pieces: Mapping[str, Piece], ride: Ride, draws: Draws) -> tuple[str, ...]:
    """Sentences, what matters most first."""
    found = (
        ("pack_current", _pack_holds_motors_back(ride)),
        ("motor_current", _motors_starve(ride, draws)),
        ("motor_current", _motors_are_large(ride, draws)),
        ("speed_ceiling", _geared_for_another_speed(ride)),
        ("pack_current", _cells_in_hand(pieces, ride, draws)),
        ("motor_current", _more_pull_than_grip(ride)),
        ("braking_charge_limit", _brake_starves(ride)),
    )
    # Nobody is told to choose other parts because of a setting that nobody has read.
    return tuple(told for setting, told in found if told and setting not in ride.doubts)


def _pack_holds_motors_back(ride: Ride) -> str:
    """The speed from which the pack, not the motors, ends the pull."""
    top = float(ride.top["half"][0][0])
    speeds = np.linspace(0.05, 1.0, 60) * top
    one = mapped(ride.half, lambda value: np.asarray(value)[:1, None])
    pull, code = driving_force(one, speeds[None, :])
    bound = np.isin(code[0], (PACK_CURRENT, PACK_POWER))
    if not bound.any() or top <= 0.0:
        return ""
    at = int(np.argmax(bound))
    if speeds[at] > 0.6 * top:
        return ""
    there = float(pull[0, -1] / full_pull(one)[0, 0]) * 100.0
    return (
        f"From {speeds[at] * KMH:.0f} km/h on the pack current ({ride.half.supply.current[0]:.0f} A in all) holds the "
        f"motors back; at {top * KMH:.0f} km/h they give {there:.0f} % of the pull that they have from rest. Larger "
        "motors would add nothing there: more pack current would, where cells, wires and fuse bear it."
    )


def _bears(ride: Ride, draws: Draws) -> float | None:
    """Motor current in A that the motors bear for long, the least of them."""
    sheets = [draws.size(one.motor, "continuous_current") for one in ride.geared]
    known = [float(sheet[0]) * HEAT_SHARE for sheet in sheets if sheet is not None]
    return min(known) if known else None


def _motors_starve(ride: Ride, draws: Draws) -> str:
    bears, is_set = _bears(ride, draws), float(ride.half.motors[0].current[0])
    if bears is None or is_set < LARGE * bears:
        return ""
    return (
        f"The motors are set to {is_set:.0f} A each and bear about {bears:.0f} A for long: on a long hill they get "
        "hot. Larger motors, a larger ratio or a lower setting."
    )


def _motors_are_large(ride: Ride, draws: Draws) -> str:
    bears, is_set = _bears(ride, draws), float(ride.half.motors[0].current[0])
    if bears is None or is_set > SMALL * bears:
        return ""
    return (
        f"The motors bear about {bears:.0f} A each for long and are set to {is_set:.0f} A: smaller ones would pull as "
        "hard with these settings."
    )


def _geared_for_another_speed(ride: Ride) -> str:
    """A speed ceiling far below what ratio and volts give: the motors work slowly, with much current."""
    speed, code = ride.top["half"]
    if int(code[0]) != SPEED_CEILING:
        return ""
    none = np.full_like(ride.half.supply.ceiling, np.inf)
    free = dataclasses.replace(ride.half, supply=dataclasses.replace(ride.half.supply, ceiling=none))
    could = float(top_speed(free)[0][0])
    if could < 1.5 * float(speed[0]):
        return ""
    return (
        f"It is geared for {could * KMH:.0f} km/h and held at {speed[0] * KMH:.0f} km/h by its setting: a larger ratio "
        "would pull harder and run cooler at the same speed."
    )


def _cells_in_hand(pieces: Mapping[str, Piece], ride: Ride, draws: Draws) -> str:
    asked = float(ride.half.supply.current[0])
    bears = 0.0
    for pack in by_seat(pieces, *PACKS):
        parallel, cell = draws.size(pack, "parallel"), draws.read(pack, "cell_continuous_current")
        if parallel is None or cell is None:
            return ""
        bears += float(parallel[0] * cell[0])
    if not 0.0 < asked < np.inf or bears < LARGE * asked:
        return ""
    return (
        f"The cells give {bears:.0f} A for long by their sheet and are asked for {asked:.0f} A: of this pack the "
        "charge is used, not the strength."
    )


def _more_pull_than_grip(ride: Ride) -> str:
    pull = float(full_pull(ride.half)[0])
    held = float(grips(ride.body, tuple(one.place for one in ride.geared), braking=False)[0])
    if pull < 1.1 * held:
        return ""
    enough = float(ride.half.motors[0].current[0]) * held / pull
    return (
        f"From rest the motors could pull {pull:.0f} N, and the tread holds about {held:.0f} N: what is above some "
        f"{enough:.0f} A of motor current spins the wheels."
    )


def _brake_starves(ride: Ride) -> str:
    force, code = braking_force(ride.half, ride.ridden)
    whole = float(sum(one.kt[0] * one.braking_current[0] * one.ratio[0] / one.radius[0] for one in ride.half.motors))
    if int(code[0]) != PACK_CURRENT or whole <= 0.0 or force[0] > 0.5 * whole:
        return ""
    return (
        f"At {ride.ridden[0] * KMH:.0f} km/h the brake gives {force[0]:.0f} N of the {whole:.0f} N that the motors "
        f"could: {braked_by(PACK_CURRENT, ride.half, ride.doubts)} ends it. More cells in parallel would brake harder "
        "at speed."
    )

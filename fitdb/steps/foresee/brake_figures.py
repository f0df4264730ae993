"""How a board brakes: how hard, how far it goes until it stands, and what ends the brake."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitdb.formulas.drive_system import (
    GRIP,
    MOTOR_CURRENT,
    Drive,
    braking_force,
    charge_taken,
    coasting,
    road_force,
    stopping,
)
from fitdb.model.joint import Piece
from fitdb.model.outlook import Figure
from fitdb.steps.foresee.board_drive import KMH, PRACTICE
from fitdb.steps.foresee.draws import Draws
from fitdb.steps.foresee.ride_figures import NEWTON, Ride, grips
from fitdb.steps.foresee.told import Rows, told

UNREAD_CHARGE = (
    "Nobody has read the charging current that the controllers allow while braking: a fifth to all of the capacity per "
    "hour is counted. Read it in the settings."
)


def braked_by(code: int, drive: Drive, doubts: Mapping[str, str]) -> str:
    """What ends a brake, with its number, and that it is assumed where `doubts_of` the settings say so."""
    if code == MOTOR_CURRENT:
        doubt = doubts.get("braking_motor_current", "")
        amps = drive.motors[0].braking_current[0]
        return f"the motor current {'for' if doubt else 'set for'} braking ({amps:.0f} A each{doubt})"
    if code == GRIP:
        return "the grip of the driven wheels"
    supply = drive.supply
    taken = float(charge_taken(supply)[0])
    if taken < 0.99 * supply.charge[0]:
        return f"the pack, which takes {taken:.1f} A only before it is too full"
    doubt = doubts.get("braking_charge_limit", "")
    return f"the charging current that braking may put into the pack ({supply.charge[0]:.0f} A in all{doubt})"


def brake_figures(pieces: Mapping[str, Piece], ride: Ride, draws: Draws) -> Iterator[Rows]:
    """Every figure of braking, of a board that has a motor, a pack and wheels."""
    reaction = draws.size(ride.body.rider, "reaction_time")
    assert reaction is not None
    places = tuple(one.place for one in ride.geared)
    dry = grips(ride.body, places, braking=True)
    worse = draws.assumption("wet_grip", "grip in the wet over grip in the dry", "", (0.5, 0.6, 0.7), PRACTICE)
    wet = grips(ride.body, places, braking=True, wet=worse)
    at = f"from {ride.ridden[0] * KMH:.0f} km/h"
    force, code = braking_force(ride.half, ride.ridden, dry)
    slowed = (force + road_force(ride.half.road, ride.ridden)) / ride.half.road.mass
    figure = Figure("brake_deceleration", f"deceleration of the motor brake {at}", "m/s2", "brake", None, source=NEWTON)
    unread = f" {UNREAD_CHARGE}" if "braking_charge_limit" in ride.doubts else ""
    yield told(figure, slowed, draws, limited_by=braked_by(int(code[0]), ride.half, ride.doubts), note=unread.strip())
    for name, title, drive, held in (
        ("stopping_distance", "dry, pack half full", ride.half, dry),
        ("stopping_distance_wet", "wet, pack half full", ride.half, wet),
        ("stopping_distance_full", "dry, pack just off the charger", ride.full, dry),
    ):
        way, _ = stopping(drive, ride.ridden, reaction, held, steps=20)
        _, ends = braking_force(drive, ride.ridden, held)
        figure = Figure(
            name, f"way to stop {at}, {title}", "m", "brake", None, source="energy of motion; power balance"
        )
        note = f"{reaction[0]:.1f} s before the rider brakes are counted in.{unread}"
        yield told(figure, way, draws, limited_by=braked_by(int(ends[0]), drive, ride.doubts), note=note)
    figure = Figure(
        "rolling_out",
        f"way that it rolls {at} when the motor brake is gone",
        "m",
        "brake",
        None,
        source="closed form of rolling and air",
    )
    yield told(figure, coasting(ride.half.road, ride.ridden), draws, note="Learn to stop by foot before you need to.")

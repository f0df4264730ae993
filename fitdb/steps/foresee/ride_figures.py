"""Speed, pull, hill, range and brake of a board, worked out from motors, pack and road as one system."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.deck_flex import STANDARD_GRAVITY
from fitdb.formulas.drive_system import (
    GRIP,
    LIMITS,
    MOTOR_CURRENT,
    Codes,
    Drive,
    Motors,
    driving_force,
    electrical_power,
    full_pull,
    grip_while_braking,
    grip_while_driving,
    mapped,
    pack_current,
    road_force,
    seconds_to,
    top_speed,
)
from fitdb.formulas.pack_ride import Lasting, PackStore, lasting
from fitdb.model.joint import Piece
from fitdb.model.outlook import Figure
from fitdb.steps.foresee.board_drive import (
    KMH,
    Body,
    Geared,
    Unknown,
    doubts_of,
    faded,
    geared,
    motors_of,
)
from fitdb.steps.foresee.draws import Draws
from fitdb.steps.foresee.told import Rows, told

Array = NDArray[np.float64]
FULL, HALF, LOW = 1.0, 0.5, 0.15
REACHED = 0.95  # of the top speed: no mean speed is above that
PULLED = 0.75  # of the top speed: there the pull is told
MOST_BORNE = 3.0  # m/s²: more than that nobody stands on; common practice, no source
QUICK_KMH = 20.0
OF_THE_SHEET = 0.7  # sheets of motors are a fifth to a half too high; common practice, no source
HILL_OF_HEAT = 0.1  # tan θ: a street that is steep, and still ridden every day
STEEPEST = 0.9  # tan θ: no board is ridden up more
SYSTEM = "motor, pack and road solved together; Martin et al., J. Appl. Biomech. 14 (1998) 276, for the road"
NEWTON = "Newton's second law"
SPEEDS_TRIED = 16


@dataclass(frozen=True, slots=True)
class Ride:
    """A board ready to be ridden: its drive with the pack full, half full and low; speeds in m/s.

    geared: its driven wheels. pulled: the speed at which its pull is told. ridden: the speed from which it has to
    brake, and whether somebody said it. Both speeds are the same for all boards of an answer, or they could not be
    compared. doubts: the settings that nobody has read, as `doubts_of` tells them.
    """

    full: Drive
    half: Drive
    low: Drive
    store: PackStore
    geared: tuple[Geared, ...]
    body: Body
    top: Mapping[str, tuple[Array, Codes]]
    pulled: float
    ridden: Array
    ridden_said: bool
    doubts: Mapping[str, str]

    def at(self, name: str) -> Drive:
        return {"full": self.full, "half": self.half, "low": self.low}[name]

    def ends(self, code: Codes) -> str:
        """What ends a speed or a pull of the board as it was read, with its pack half full."""
        return ended_by(int(code[0]), self.half, self.doubts)


def ride_of(
    pieces: Mapping[str, Piece],
    drive: Drive,
    store: PackStore,
    body: Body,
    draws: Draws,
    tops: tuple[float, ...] = (),
) -> Ride:
    """The three states of the pack, and the greatest speed in each. `drive` has its pack full.

    tops: m/s, the speeds that the boards of the answer reach, its own among them; none where it stands alone. Their
    pull is told at three quarters of the least, which all reach, and they brake from the greatest, where nobody said
    from which.
    """
    found = geared(pieces, draws)
    assert not isinstance(found, Unknown)
    full = dataclasses.replace(drive, supply=faded(drive.supply, store, FULL, pieces, draws))
    half = dataclasses.replace(drive, supply=faded(drive.supply, store, HALF, pieces, draws))
    low = dataclasses.replace(drive, supply=faded(drive.supply, store, LOW, pieces, draws))
    top = {name: top_speed(one) for name, one in (("full", full), ("half", half), ("low", low))}
    tops = tops or (float(top["half"][0][0]),)
    wish = pieces.get("wish")
    said = draws.read(wish, "riding_speed") if wish is not None else None
    ridden = said / KMH if said is not None else np.full(draws.rows, max(tops))
    return Ride(
        full, half, low, store, found, body, top, PULLED * min(tops), ridden, said is not None, doubts_of(pieces, draws)
    )


def ride_figures(pieces: Mapping[str, Piece], ride: Ride, draws: Draws) -> Iterator[Rows]:
    """Every figure of driving, of a board that has a motor, a pack and wheels; `brake_figures` has those of braking."""
    yield from _speeds(ride, draws)
    yield from _pulls(ride, draws)
    yield from _hills(pieces, ride, draws)
    yield from _energy(ride, draws)
    yield from _currents(ride, draws)


# --- what ends it ------------------------------------------------------------------------------------------


def ended_by(code: int, drive: Drive, doubts: Mapping[str, str]) -> str:
    """What ends a speed or a pull, with its number, and that it is assumed where `doubts_of` the settings say so."""
    supply = drive.supply
    return {
        "road": "",
        "voltage": f"the volts of the pack ({supply.open_volts[0]:.1f} V at rest)",
        "pack_current": f"the pack current ({supply.current[0]:.0f} A in all{doubts.get('pack_current', '')})",
        "motor_current": current_of_motors(drive.motors, doubts),
        "pack_power": "the power that the pack can give at all",
        "speed_ceiling": f"the speed ceiling that is set ({supply.ceiling[0] * KMH:.0f} km/h"
        f"{doubts.get('speed_ceiling', '')})",
        "rev_ceiling": "the ceiling of the electrical speed",
        "grip": "the grip of the driven wheels",
    }[LIMITS[code]]


def current_of_motors(motors: Sequence[Motors], doubts: Mapping[str, str]) -> str:
    """The motor current that ends a pull, in words."""
    doubt = doubts.get("motor_current", "")
    return f"the motor current{'' if doubt else ' that is set'} ({motors[0].current[0]:.0f} A each{doubt})"


# --- speed -------------------------------------------------------------------------------------------------


def _speeds(ride: Ride, draws: Draws) -> Iterator[Rows]:
    motors = ride.full.motors[0]
    unloaded = ride.full.supply.modulation * ride.full.supply.open_volts / motors.kt / motors.ratio * motors.radius
    figure = Figure("unloaded_speed", "speed with the wheels up, pack full", "km/h", "speed", None, source="kinematics")
    yield told(figure, unloaded * KMH, draws, note="The number of the bench; nobody rides as fast as that.")
    for name, title in (("full", "just off the charger"), ("half", "pack half full"), ("low", "pack low, 15 % left")):
        speed, code = ride.top[name]
        figure = Figure(f"top_speed_{name}", f"top speed, {title}", "km/h", "speed", None, source=SYSTEM)
        yield told(figure, speed * KMH, draws, limited_by=ended_by(int(code[0]), ride.at(name), ride.doubts))


# --- pull and hill -----------------------------------------------------------------------------------------


def grips(body: Body, places: tuple[str, ...], braking: bool, slope: float = 0.0, wet: Array | float = 1.0) -> Array:
    """What the driven wheels hold, N: of one axle by its share of the weight, of both axles by that of their wheels."""
    friction = body.friction * wet
    rear, front = (any(place.startswith(end) for place in places) for end in ("rear", "front"))
    weight = body.road.mass * STANDARD_GRAVITY
    if rear and front:
        return np.asarray(friction * weight * np.cos(np.arctan(slope)) * len(places) / 4.0)
    one_sided = 0.5 if len(places) == 1 else 1.0  # a single driven wheel carries half of its axle's load
    base = body.wheelbase if body.wheelbase is not None else np.full_like(weight, 0.7)
    share = body.rear_share if rear else 1.0 - body.rear_share
    if rear != braking:  # pulling loads the rear axle, braking the front one
        return one_sided * grip_while_driving(body.road, friction, share, body.centre_height, base, slope)
    return one_sided * grip_while_braking(body.road, friction, share, body.centre_height, base)


def _pulls(ride: Ride, draws: Draws) -> Iterator[Rows]:
    places = tuple(one.place for one in ride.geared)
    held = grips(ride.body, places, braking=False)
    pull, code = driving_force(ride.half, np.zeros(draws.rows), held)
    figure = Figure("pull", "pull from rest", "N", "pull", None, source="statics; equality of powers")
    yield told(figure, pull, draws, limited_by=ride.ends(code))
    road = road_force(ride.half.road, np.zeros(draws.rows))
    figure = Figure("acceleration", "acceleration from rest on the flat", "m/s2", "pull", None, source=NEWTON)
    brisk = (pull - road) / ride.half.road.mass
    note = "More than 2 to 3 m/s² nobody stands on; the rider's balance ends it." if brisk[0] > MOST_BORNE else ""
    yield told(figure, brisk, draws, limited_by=ride.ends(code), note=note)
    fast = ride.pulled
    pull, code = driving_force(ride.half, np.full(draws.rows, fast), held)
    figure = Figure("pull_at_speed", f"pull at {fast * KMH:.0f} km/h", "N", "pull", None, source=SYSTEM)
    yield told(figure, pull, draws, limited_by=ride.ends(code))
    figure = Figure("time_to_20", "time from rest to 20 km/h", "s", "pull", None, source=NEWTON)
    seconds = seconds_to(ride.half, QUICK_KMH / KMH, held, MOST_BORNE, steps=12)
    reach = f"it never reaches 20 km/h: {ride.ends(ride.top['half'][1])} ends it before"
    note = f"At most {MOST_BORNE:.0f} m/s² are counted: more nobody stands on." if brisk[0] > MOST_BORNE else ""
    yield told(figure, seconds, draws, unknown=reach, note=note)


def _hills(pieces: Mapping[str, Piece], ride: Ride, draws: Draws) -> Iterator[Rows]:
    places = tuple(one.place for one in ride.geared)
    held = grips(ride.body, places, braking=False)
    for name, title, of, unread in (
        ("grade_start", "hill on which it starts", "", 1.0),
        ("grade_minute", "hill that it climbs for a minute", "peak_current", 0.7),
        ("grade_all_day", "hill that it climbs all day", "continuous_current", 0.45),
    ):
        drive = _heated(ride, of, unread, draws) if of else ride.half
        pull, code = driving_force(drive, np.zeros(draws.rows), held)
        figure = Figure(name, title, "percent", "hill", None, source="statics; heat by common practice, no source")
        ends = ended_by(int(code[0]), drive, ride.doubts)
        if drive.motors[0].current[0] < ride.half.motors[0].current[0] and int(code[0]) == MOTOR_CURRENT:
            read = draws.read(ride.geared[0].motor, of) is not None
            doubt = "" if read else ", assumed: nobody has read what they bear"
            ends = f"the heat of the motors ({drive.motors[0].current[0]:.0f} A each{doubt})"
        yield told(figure, grade(pull, ride.body) * 100.0, draws, limited_by=ends)
    yield _winding_heat(ride, draws)
    slope = draws.size(ride.body.route, "slope")
    if slope is None:
        return
    steepness = np.clip(slope / 100.0, 0.0, STEEPEST)
    speed, code = top_speed(ride.half, steepness)
    slips = road_force(ride.half.road, np.zeros(draws.rows), steepness) > held * np.cos(np.arctan(steepness))
    speed, code = np.where(slips, 0.0, speed), np.where(slips, GRIP, code)
    figure = Figure(
        "hill_speed", f"speed up the steepest hill of the route ({slope[0]:.0f} %)", "km/h", "hill", None, source=SYSTEM
    )
    stands = "It does not get up there at all." if speed[0] <= 0.0 else ""
    if slope[0] / 100.0 > STEEPEST:
        stands = f"A slope of {slope[0]:.0f} % is steeper than any road that is ridden: told for 90 %."
    yield told(figure, speed * KMH, draws, limited_by=ride.ends(code), note=stands)


def _winding_heat(ride: Ride, draws: Draws) -> Rows:
    """I²·R of one motor at the pull of a hill of 10 %, the same before and after, whatever turns the wheels."""
    figure = Figure("winding_heat", "heat in the winding of each motor up 10 %", "W", "hill", None, source="Joule")
    share = road_force(ride.half.road, np.zeros(draws.rows), HILL_OF_HEAT) / full_pull(ride.half)
    heat = np.max([(share * one.current) ** 2 * one.resistance for one in ride.half.motors], axis=0)
    note = "It does not get up there: its greatest pull is less." if share[0] > 1.0 else ""
    return told(figure, heat, draws, note=note)


def grade(pull: Array, body: Body) -> Array:
    """tan θ on which a pull just holds the board: m·g·(c·cos θ + sin θ) = F, solved for θ; at most 1 (45°)."""
    rolling = body.road.rolling
    share = pull / (body.road.mass * STANDARD_GRAVITY * np.sqrt(1.0 + rolling * rolling))
    return np.asarray(np.tan(np.clip(np.arcsin(np.clip(share, -1.0, 1.0)) - np.arctan(rolling), 0.0, np.pi / 4.0)))


def _heated(ride: Ride, attribute: str, unread: float, draws: Draws) -> Drive:
    """The drive at the current that its motors bear: a share of what their sheet says, which is optimistic; of a motor
    without a sheet the share `unread` of what is set."""
    motors = []
    for one, held in zip(ride.half.motors, ride.geared, strict=True):
        sheet = draws.size(held.motor, attribute)
        most = one.current * unread if sheet is None else sheet * OF_THE_SHEET
        motors.append(dataclasses.replace(one, current=np.minimum(one.current, most)))
    return dataclasses.replace(ride.half, motors=tuple(motors))


# --- energy ------------------------------------------------------------------------------------------------


def mean_power(ride: Ride, speed: Array, climb: Array, stops: Array) -> Array:
    """Power out of the pack at a mean speed, W: what the road takes there, and the energy of every stop.

    What braking puts back about makes up for what driving loses on the way to the speed, so that a stop costs ½·m·v².
    Common practice, no source (a fifth to a third is recovered).
    """
    force = road_force(ride.half.road, speed, climb)
    steady = electrical_power(ride.half, force / full_pull(ride.half), speed)
    return np.asarray(steady + stops / 1000.0 * 0.5 * ride.half.road.mass * speed**3)


def route_power(ride: Ride, speed: Array, climb: Array, stops: Array, metered: Array | None) -> Array:
    """Power out of the pack on the route at a mean speed in m/s, W: as metered in Wh/km, else as worked out."""
    return metered * speed * KMH if metered is not None else mean_power(ride, speed, climb, stops)


def stands(ride: Ride) -> str:
    """Why a board does not move at all."""
    return f"it does not move on the flat: {ride.ends(ride.top['half'][1])} ends it before"


TAKEN = (
    ("usable_energy", "energy that the ride takes out of it", "Wh"),
    ("consumption", "energy per kilometre", "Wh/km"),
    ("range", "range on one charge", "km"),
)


def _energy(ride: Ride, draws: Draws) -> Iterator[Rows]:
    route = ride.body.route
    speed, climb = draws.size(route, "mean_speed"), draws.size(route, "mean_climb")
    stops = draws.size(route, "stops_per_km")
    if speed is None or climb is None or stops is None:
        return
    if ride.top["half"][0][0] <= 0.0:
        for own, title, unit in TAKEN:
            yield told(Figure(own, title, unit, "range", None, source=SYSTEM), None, draws, unknown=stands(ride))
        return
    reached = REACHED * ride.top["half"][0] * KMH
    slower = f" (the {speed[0]:.0f} km/h of the route are more than it reaches)" if speed[0] > reached[0] else ""
    speed = np.minimum(speed, reached)
    metered = draws.read(route, "consumption")
    power = route_power(ride, speed / KMH, climb / 100.0, stops, metered)
    if metered is not None:
        note = "As metered on the way."
    else:
        note = (
            f"At a mean of {speed[0]:.0f} km/h{slower}, with {climb[0]:.1f} % of climbing and a stop every "
            f"{1.0 / max(float(stops[0]), 1e-3):.1f} km."
            if stops[0] > 0.05
            else f"At a mean of {speed[0]:.0f} km/h{slower}, with {climb[0]:.1f} % of climbing, without a stop."
        )
    lasts = lasting(ride.store, power)
    moves = np.where(speed > 0.0, speed, np.nan)
    taken, eaten, far = (Figure(own, title, unit, "range", None, source=SYSTEM) for own, title, unit in TAKEN)
    yield told(taken, lasts.energy, draws)
    yield told(eaten, power / moves, draws, note=note)
    yield told(far, lasts.hours * speed, draws, note=note, limited_by=_range_ends(ride, lasts))


def _range_ends(ride: Ride, lasts: Lasting) -> str:
    left = 1.0 - lasts.charge[0] / ride.store.capacity[0]
    if lasts.hours[0] <= 0.0:
        return "the pack, which cannot give that power at all"
    return (
        f"the volts at which power ends ({ride.store.end_volts[0]:.1f} V), with {100 * left:.0f} % of the charge left"
    )


def _currents(ride: Ride, draws: Draws) -> Iterator[Rows]:
    """The greatest pack current at full pull at any speed, what the volts lose by it, and the heat of it."""
    shares = np.linspace(0.05, 1.0, SPEEDS_TRIED)
    grown = mapped(ride.half, lambda value: np.asarray(value)[..., None])
    speeds = ride.top["half"][0][:, None] * shares
    pull, _ = driving_force(grown, speeds)
    power = electrical_power(grown, pull / full_pull(grown), speeds)
    current = np.nanmax(pack_current(grown.supply, power), axis=1)
    figure = Figure("pack_current", "greatest current out of the pack", "A", "pack", None, source=SYSTEM)
    at_limit = current[0] > 0.98 * ride.half.supply.current[0]
    code = LIMITS.index("pack_current") if at_limit else MOTOR_CURRENT
    ends = ended_by(code, ride.half, ride.doubts)
    yield told(figure, current, draws, limited_by=ends)
    figure = Figure("pack_sag", "volts that the pack loses at that current", "V", "pack", None, source="Ohm")
    yield told(figure, current * ride.store.resistance, draws)
    volts = ride.store.open_volts(HALF) - current * ride.store.resistance
    figure = Figure("pack_power", "power out of the pack at that current, half full", "W", "pack", None, source="Ohm")
    yield told(figure, current * volts, draws)
    figure = Figure("pack_heat", "heat made inside the pack at that current", "W", "pack", None, source="Joule")
    yield told(figure, current**2 * ride.store.resistance, draws)


# --- a board of which not enough is known -------------------------------------------------------------------


def without_pack(pieces: Mapping[str, Piece], body: Body, draws: Draws, why: str) -> Iterator[Rows]:
    """What can be told of motors alone: pull and hill; all else says what is missing."""
    motors = motors_of(pieces, draws)
    found = geared(pieces, draws)
    if not isinstance(motors, Unknown) and not isinstance(found, Unknown):
        pull = np.sum([_pull(one) for one in motors], axis=0)
        held = grips(body, tuple(one.place for one in found), braking=False)
        figure = Figure("pull", "pull from rest", "N", "pull", None, source="statics; equality of powers")
        ends = current_of_motors(motors, doubts_of(pieces, draws))
        yield told(figure, np.minimum(pull, held), draws, limited_by=ends if pull[0] < held[0] else "the grip")
        figure = Figure("grade_start", "hill on which it starts", "percent", "hill", None, source="statics")
        yield told(figure, grade(np.minimum(pull, held), body) * 100.0, draws)
    for own, title, unit, group in NEEDS_A_PACK:
        yield told(Figure(own, title, unit, group, None), None, draws, unknown=why)


def _pull(one: Motors) -> Array:
    return np.asarray(one.kt * one.current * one.ratio * one.efficiency / one.radius)


NEEDS_A_PACK = (
    ("top_speed_half", "top speed, pack half full", "km/h", "speed"),
    ("range", "range on one charge", "km", "range"),
    ("stopping_distance", "way to stop, dry, pack half full", "m", "brake"),
)

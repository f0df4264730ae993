"""From the parts of a board to its drive: motors, pack and road as rows of numbers, or why that cannot be told."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.cell_volts import cell_volts
from fitdb.formulas.drive_system import Drive, Motors, Road, Supply
from fitdb.formulas.motors import torque_constant
from fitdb.formulas.pack_ride import PackStore
from fitdb.model.joint import Piece
from fitdb.steps.foresee.draws import Draws, by_seat

Array = NDArray[np.float64]
PLACES = ("rear_left", "rear_right", "front_left", "front_right")
CONTROLLERS, PACKS = ("controller", "controller_2"), ("pack", "pack_2")
PRACTICE = "common practice, no source"
# Settings of a controller that end a speed, a pull or a brake.
SETTINGS = ("motor_current", "braking_motor_current", "pack_current", "braking_charge_limit", "speed_ceiling")
NO_CEILING_KMH = 200.0  # how the catalogue writes that no speed ceiling is set
RPM = 2.0 * np.pi / 60.0
KMH = 3.6
# Volts of one cell where power begins to fade and where it has gone, where braking charge begins to fade and where it
# has gone, where nothing was set: common practice, no source.
FADES = {"nickel": (3.4, 3.1, 4.15, 4.22), "phosphate": (3.0, 2.7, 3.55, 3.65)}
EFFICIENCIES = {
    "belt": ("efficiency of the belt drive", (0.90, 0.92, 0.95)),
    "gear": ("efficiency of the gears", (0.92, 0.94, 0.96)),
    "direct": ("efficiency of a motor without gears or belt", (0.97, 0.98, 1.00)),
}


@dataclass(frozen=True, slots=True)
class Unknown:
    """Why a figure cannot be told, and what to name or read."""

    why: str


@dataclass(frozen=True, slots=True)
class Geared:
    """A motor with the wheel that it turns, and what stands between them."""

    place: str
    motor: Piece
    wheel: Piece
    by: str
    ratio: Array


@dataclass(frozen=True, slots=True)
class Body:
    """What is carried and rolls, whatever drives it. All rows; wheelbase and heights in m, None where not known."""

    road: Road
    rider: Piece
    route: Piece
    friction: Array
    rear_share: Array
    centre_height: Array
    wheelbase: Array | None


def geared(pieces: Mapping[str, Piece], draws: Draws) -> tuple[Geared, ...] | Unknown:
    """Every driven wheel with its motor and ratio. A board without a motor, or with a gap in its drive, is Unknown."""
    found = []
    for place in PLACES:
        motors = by_seat(pieces, f"{place}_motor", f"{place}_hub_motor", f"{place}_direct_drive")
        if not motors:
            continue
        wheels = by_seat(pieces, f"{place}_wheel", f"{place}_hub_sleeve")
        if not wheels:
            return Unknown(f"the plan names no wheel for the {place.replace('_', ' ')} motor")
        turned = ratio_at(pieces, place, draws)
        if turned is None:
            return Unknown(f"the plan does not name both pulleys of the {place.replace('_', ' ')} motor")
        by, ratio = turned
        if ratio is None:
            return Unknown(f"nobody has counted the teeth, or read the ratio, of the {place.replace('_', ' ')} drive")
        found.append(Geared(place, motors[0], wheels[0], by, ratio))
    return tuple(found) or Unknown("this board has no motor")


def ratio_at(pieces: Mapping[str, Piece], place: str, draws: Draws) -> tuple[str, Array | None] | None:
    """What turns the wheel of a place, and turns of the motor per turn of it (None: not counted).

    None where the plan names neither gears, nor both pulleys, nor a motor that turns with its wheel.
    """
    gear = pieces.get(f"{place}_gear_drive")
    if gear is not None:
        return "gear", draws.size(gear, "ratio")
    drive, driven = pieces.get(f"{place}_drive_pulley"), pieces.get(f"{place}_driven_pulley")
    if drive is not None and driven is not None:
        teeth, others = draws.size(driven, "teeth", "teeth"), draws.size(drive, "teeth", "teeth")
        return "belt", None if teeth is None or others is None else teeth / others
    if by_seat(pieces, f"{place}_hub_motor", f"{place}_direct_drive"):
        return "direct", np.ones(draws.rows)
    return None


def wheel_radius(wheel: Piece, draws: Draws) -> Array | None:
    """Radius in m on which a wheel rolls under the rider: half its diameter, less wear.

    How far a tyre sinks is left out: its tread keeps its length, so that it rolls nearly as far per turn as unloaded.
    """
    diameter = draws.size(wheel, "outer_diameter")
    if diameter is None:
        return None
    used = draws.word(wheel, "used")
    wear = draws.size(wheel, "wear") if used == ("yes",) else None
    return (0.5 * diameter - (0.0 if wear is None else wear)) / 1000.0


def body_of(pieces: Mapping[str, Piece], rider: Piece, route: Piece, draws: Draws) -> Body | Unknown:
    """Masses, rolling and air; rider and route are those of the plan, or ones of whom nothing has been read."""
    wheels = by_seat(pieces, *(f"{place}_{kind}" for place in PLACES for kind in ("wheel", "hub_sleeve")))
    if not wheels:
        return Unknown("the plan names no wheel")
    # Like wheels roll alike on the same road: what one of them does, all do.
    alike = {wheel.part.id: wheel for wheel in reversed(wheels)}
    sizes = [draws.size(wheel, "rolling_coefficient") for wheel in alike.values()]
    rolled = [one for one in sizes if one is not None]
    riders, board = draws.size(rider, "mass"), draws.size(rider, "board_mass")
    drag = draws.size(rider, "drag_area")
    friction, share = draws.size(route, "grip"), draws.size(rider, "rear_share")
    height = draws.size(rider, "centre_height")
    if riders is None or board is None or drag is None or not rolled:
        return Unknown("nothing is known of the mass of rider and board, of their drag, or of how the wheels roll")
    assert friction is not None and share is not None and height is not None
    density = draws.assumption("air_density", "density of the air", "kg/m3", (1.13, 1.2, 1.29), PRACTICE)
    # Nobody rides in still air: against the wind out, with it home.
    wind = draws.assumption("headwind", "headwind", "m/s", (-2.0, 0.0, 2.0), PRACTICE)
    deck = pieces.get("deck")
    base = draws.size(deck, "wheelbase") if deck is not None else None
    return Body(
        Road(riders + board, np.mean(rolled, axis=0), drag, density, wind),
        rider,
        route,
        friction,
        share / 100.0,
        height / 1000.0,
        None if base is None else base / 1000.0,
    )


def motors_of(pieces: Mapping[str, Piece], draws: Draws) -> tuple[Motors, ...] | Unknown:
    """The motors of a board with the greatest currents that its controllers are set to."""
    found = geared(pieces, draws)
    if isinstance(found, Unknown):
        return found
    controllers = by_seat(pieces, *CONTROLLERS)
    told = []
    for one in found:
        made = _motor(one, controllers, draws)
        if isinstance(made, Unknown):
            return made
        told.append(made)
    return tuple(told)


def _motor(one: Geared, controllers: list[Piece], draws: Draws) -> Motors | Unknown:
    place = one.place.replace("_", " ")
    kv, radius = draws.size(one.motor, "velocity_constant"), wheel_radius(one.wheel, draws)
    ohms, idle = draws.size(one.motor, "line_resistance"), draws.size(one.motor, "no_load_current")
    if kv is None or radius is None or ohms is None or idle is None:
        sizes = {
            "speed constant": kv,
            "resistance from phase to phase": ohms,
            "current without load": idle,
            "diameter of its wheel": radius,
        }
        unread = " or ".join(name for name, size in sizes.items() if size is None)
        return Unknown(f"of the {place} motor nobody has read the {unread}")
    current = motor_current(one.motor, controllers, draws)
    if current is None:
        return Unknown(f"nobody has read the motor current that the controller gives the {place} motor")
    braking = _greatest([size for own in controllers if (size := draws.read(own, "braking_motor_current")) is not None])
    if braking is None:
        part = draws.assumption(
            "braking_share", "braking motor current over motor current", "", (0.6, 0.8, 1.0), PRACTICE
        )
        braking = part * current
    title, spread = EFFICIENCIES[one.by]
    efficiency = draws.assumption(f"efficiency_{one.by}", title, "", spread, PRACTICE)
    # Copper has 0.39 % more resistance per kelvin: a motor that works is some 50 K warmer than on the bench.
    warm = draws.assumption(
        "warm_copper", "resistance of the warm winding over the cold one", "", (1.05, 1.2, 1.35), PRACTICE
    )
    return Motors(
        1,
        torque_constant(1.0) / kv,
        ohms / 1000.0 * warm,
        idle,
        one.ratio,
        efficiency,
        radius,
        current * convention(controllers, draws),
        braking * convention(controllers, draws),
        _rev_limited(one, controllers, radius, draws),
    )


def motor_current(motor: Piece, controllers: list[Piece], draws: Draws) -> Array | None:
    """The greatest current in A that goes through a motor: what controllers are set to, else what its sheet says."""
    asked = [draws.size(controller, "motor_current") for controller in controllers]
    current = _greatest([size for size in asked if size is not None])
    return draws.size(motor, "peak_current") if current is None else current


def _greatest(sizes: list[Array]) -> Array | None:
    return np.max(sizes, axis=0) if sizes else None


def convention(controllers: list[Piece], draws: Draws) -> Array:
    """What of the controller's motor current counts as direct current: all of it, or √3/2 of a peak of one phase."""
    words = {word for controller in controllers for word in draws.word(controller, "current_convention")}
    peak = torque_constant(1.0, "peak_phase") / torque_constant(1.0)
    if words == {"peak_phase"}:
        return np.full(draws.rows, peak)
    if "peak_phase" in words:
        return np.where(draws.chosen("current_convention", 2) == 1, peak, 1.0)
    return np.ones(draws.rows)


def _rev_limited(one: Geared, controllers: list[Piece], radius: Array, draws: Draws) -> Array:
    """The speed in m/s at which the electrical speed reaches what the controller is set to or can do."""
    pairs = draws.size(one.motor, "pole_pairs")
    ceilings = [
        size
        for controller in controllers
        for name in ("rev_ceiling", "electrical_speed_limit")
        if (size := draws.read(controller, name)) is not None
    ]
    if pairs is None or not ceilings:
        return np.full(draws.rows, np.inf)
    return np.asarray(np.min(ceilings, axis=0) / pairs * RPM / one.ratio * radius)


def store_of(pieces: Mapping[str, Piece], draws: Draws) -> PackStore | Unknown:
    """What the packs hold together; packs in parallel add their charge, and share one current."""
    packs = by_seat(pieces, *PACKS)
    if not packs:
        return Unknown("the plan names no pack")
    words = {draws.word(pack, "chemistry") for pack in packs}
    chemistry = next(iter(words))
    if len(words) > 1 or len(chemistry) != 1:
        return Unknown("nobody has said of which chemistry the cells are, or the packs differ in it")
    series = draws.size(packs[0], "series")
    if series is None:
        return Unknown("nobody has counted the cells in series")
    held = _charge(packs, draws)
    if isinstance(held, Unknown):
        return held
    capacity, conductance = held
    left = draws.assumption(
        "charge_there", "charge that is there over the charge that is printed", "", (0.85, 0.95, 1.0), PRACTICE
    )
    fade = FADES[chemistry[0]]
    controllers = by_seat(pieces, *CONTROLLERS)
    ends = [size for one in controllers if (size := draws.read(one, "soft_cutoff_end")) is not None]
    end = np.max(ends, axis=0) if ends else series * fade[1]
    return PackStore(series, capacity * left, 1.0 / conductance, end, chemistry[0])


def _charge(packs: list[Piece], draws: Draws) -> tuple[Array, Array] | Unknown:
    """Ah of all packs, and their conductance in siemens."""
    capacity, conductance = np.zeros(draws.rows), np.zeros(draws.rows)
    for pack in packs:
        held, parallel = draws.size(pack, "capacity_ah"), draws.size(pack, "parallel")
        cell, links = draws.size(pack, "cell_resistance"), draws.size(pack, "link_resistance")
        series = draws.size(pack, "series")
        if held is None or parallel is None or cell is None or links is None or series is None:
            return Unknown("of the pack the capacity, the cells in parallel or their resistance are not known")
        capacity = capacity + held
        conductance = conductance + 1000.0 / (series / parallel * cell + links)
    return capacity, conductance


def supply_of(pieces: Mapping[str, Piece], store: PackStore, motors: int, draws: Draws) -> Supply:
    """What feeds the motors, the pack full; without a controller no setting holds it back."""
    controllers = by_seat(pieces, *CONTROLLERS)
    outputs = _summed(controllers, "channels", draws)
    part = np.minimum(1.0, motors / np.maximum(outputs, 1.0)) if controllers else np.ones(draws.rows)
    drawn = _times_channels(controllers, "pack_current", draws) * part
    if "braking_charge_limit" not in doubts_of(pieces, draws):
        charge = _times_channels(controllers, "braking_charge_limit", draws) * part
    else:
        # The middle of what controllers can be set to would brake far too well: what cells are usually allowed, by
        # their capacity, stands in for what nobody has read.
        charge = store.capacity * draws.assumption(
            "usual_charge", "charging current while braking over capacity", "1/h", (0.2, 0.5, 1.0), PRACTICE
        )
    none = np.full(draws.rows, np.inf)
    ceilings = [draws.size(one, "speed_ceiling") for one in controllers]
    set_kmh = [size for size in ceilings if size is not None and size[0] < NO_CEILING_KMH]
    fading, full = FADES[store.chemistry][2:]
    bms = by_seat(pieces, "bms", "bms_2")
    opens = [size for one in bms if (size := draws.read(one, "cell_over_volts")) is not None]
    most = store.series * np.min([np.full(draws.rows, full), *opens], axis=0)
    return Supply(
        store.open_volts(np.ones(draws.rows)),
        store.resistance,
        drawn if controllers else none,
        charge,
        np.minimum(store.series * fading, most),
        most,
        draws.assumption(
            "modulation", "share of the volts that a controller puts out", "", (0.93, 0.95, 0.97), PRACTICE
        ),
        draws.assumption("controller_efficiency", "efficiency of the controller", "", (0.95, 0.97, 0.98), PRACTICE),
        np.min(set_kmh, axis=0) / KMH if set_kmh else none,
    )


def _summed(controllers: list[Piece], name: str, draws: Draws) -> Array:
    sizes = [draws.size(one, name) for one in controllers]
    return np.sum([size for size in sizes if size is not None], axis=0) if controllers else np.zeros(draws.rows)


def _times_channels(controllers: list[Piece], name: str, draws: Draws) -> Array:
    total = np.zeros(draws.rows)
    for one in controllers:
        size, channels = draws.size(one, name), draws.size(one, "channels")
        total = total + (np.inf if size is None else size * (1.0 if channels is None else channels))
    return total


def doubts_of(pieces: Mapping[str, Piece], draws: Draws) -> dict[str, str]:
    """By setting of the controllers why its number is assumed, as words that go behind it; none for what was read."""
    controllers = by_seat(pieces, *CONTROLLERS)
    why = "nobody has read the setting" if controllers else "no controller is named"
    return {
        setting: f", assumed: {why}"
        for setting in SETTINGS
        if not controllers or any(draws.read(one, setting) is None for one in controllers)
    }


def faded(supply: Supply, store: PackStore, charge_left: float, pieces: Mapping[str, Piece], draws: Draws) -> Supply:
    """The same at another charge: rest volts, and the current that the fade of power leaves.

    The controller lets the current fall in a straight line between the volts where power begins to fade and those where
    it has gone; the volts sag with the current, so that I = I_set·(V − V_end)/((V_start − V_end) + R·I_set).
    """
    rest = store.series * cell_volts(np.full(draws.rows, charge_left), store.chemistry)
    controllers = by_seat(pieces, *CONTROLLERS)
    starts = [size for one in controllers if (size := draws.read(one, "soft_cutoff_start")) is not None]
    start = np.max(starts, axis=0) if starts else store.series * FADES[store.chemistry][0]
    if not controllers:
        return dataclasses.replace(supply, open_volts=rest)
    span = np.maximum(start - store.end_volts, 1e-6)
    room = np.maximum(rest - store.end_volts, 0.0)
    # I_set·room/(span + R·I_set), written so that it holds for a current that nothing limits as well.
    left = room / (span / np.maximum(supply.current, 1e-9) + store.resistance)
    return dataclasses.replace(supply, open_volts=rest, current=np.minimum(supply.current, left))


def drive_of(pieces: Mapping[str, Piece], body: Body, draws: Draws) -> tuple[Drive, PackStore] | Unknown:
    """The whole drive with its pack full."""
    motors = motors_of(pieces, draws)
    if isinstance(motors, Unknown):
        return motors
    store = store_of(pieces, draws)
    if isinstance(store, Unknown):
        return store
    return Drive(motors, supply_of(pieces, store, len(motors), draws), body.road), store

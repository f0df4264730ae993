"""Motors, pack and road as one system: what a board can do at a speed, and at which speed it can do no more.

Everything here takes arrays: one row per draw or per variant of a board, broadcast against speeds. Each motor is the
equivalent direct-current circuit, V = K_t·ω + R·I, whose speed constant and torque constant are one number; the pack
is open-circuit volts behind one resistance; the road is rolling, slope and air. No folklore factor stands in it.

Units: m, s, kg, N, V, A, ohm, W unless said. Sources: equality of mechanical and electrical power; Kirchhoff; Martin et
al., Journal of Applied Biomechanics 14 (1998) 276 for the road; Drela, First-Order DC Electric Motor Model (2007), from
memory, for the no-load current.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitdb.formulas.deck_flex import STANDARD_GRAVITY

Array = NDArray[np.float64]
Codes = NDArray[np.int64]

HALVINGS = 44  # of 60 m/s: far below a micrometre per second
FASTEST = 60.0
LIMITS = ("road", "voltage", "pack_current", "motor_current", "pack_power", "speed_ceiling", "rev_ceiling", "grip")
"""What ends a speed or a force; the codes of the functions below are places in this tuple."""
ROAD, VOLTAGE, PACK_CURRENT, MOTOR_CURRENT, PACK_POWER, SPEED_CEILING, REV_CEILING, GRIP = range(len(LIMITS))


@dataclass(frozen=True, slots=True)
class Road:
    """What holds a board back. mass kg, rolling c, drag_area C_dA m², density ρ kg/m³, headwind m/s."""

    mass: Array
    rolling: Array
    drag_area: Array
    density: Array
    headwind: Array | float = 0.0


@dataclass(frozen=True, slots=True)
class Motors:
    """One motor and its wheel, or several alike.

    count; kt N m/A of the equivalent direct current; resistance ohm from line to line, warm; no_load A; ratio motor
    turns per wheel turn; efficiency of belt or gears; radius m of the wheel; current A, the most while driving;
    braking_current A, the most while braking; fastest m/s, where a rev ceiling ends it (inf for none).
    """

    count: int
    kt: Array
    resistance: Array
    no_load: Array
    ratio: Array
    efficiency: Array
    radius: Array
    current: Array
    braking_current: Array
    fastest: Array


@dataclass(frozen=True, slots=True)
class Supply:
    """Pack and controllers. open_volts V; resistance ohm of the pack; current A, the most drawn of it; charge A, the
    most that braking puts into it; fading_volts V at which braking charge begins to fade and most_volts V at which it
    has faded out; modulation, the share of the volts that a controller can put out; efficiency of the controllers;
    ceiling m/s, a speed setting (inf for none)."""

    open_volts: Array
    resistance: Array
    current: Array
    charge: Array
    fading_volts: Array
    most_volts: Array
    modulation: Array
    efficiency: Array
    ceiling: Array


@dataclass(frozen=True, slots=True)
class Drive:
    """The whole board: motors by kind of wheel, what feeds them, and what holds it back."""

    motors: tuple[Motors, ...]
    supply: Supply
    road: Road


def road_force(road: Road, speed: Array, slope: Array | float = 0.0) -> Array:
    """Force that holds the board back, N: c·m·g·cos θ + m·g·sin θ + ½·ρ·C_dA·(v + w)·|v + w|.

    ``speed`` m/s, ``slope`` tan θ (0.1 is ten per cent uphill).
    """
    angle = np.arctan(slope)
    weight = road.mass * STANDARD_GRAVITY
    air = speed + road.headwind
    drag = 0.5 * road.density * road.drag_area * air * np.abs(air)
    return np.asarray(weight * (road.rolling * np.cos(angle) + np.sin(angle)) + drag)


def full_pull(drive: Drive) -> Array:
    """Pull of all motors at the ground at their greatest current, N: Σ n·K_t·I·i·η/r."""
    return np.asarray(sum(_pull_per_share(one) for one in drive.motors))


def _pull_per_share(one: Motors) -> Array:
    return one.count * one.kt * one.current * one.ratio * one.efficiency / one.radius


def full_brake(drive: Drive) -> Array:
    """Braking pull of all motors at the ground at their greatest braking current, N. The loss of belt or gears, which
    helps a brake, is left out: nobody knows how much of it there is."""
    return np.asarray(sum(one.count * one.kt * one.braking_current * one.ratio / one.radius for one in drive.motors))


def electrical_power(drive: Drive, share: Array, speed: Array) -> Array:
    """Power drawn from the pack, W, at ``share`` (0..1) of the greatest motor currents: Σ n·(E·I + R·I²)/η_c."""
    total = np.zeros(np.broadcast_shapes(share.shape, speed.shape))
    for one in drive.motors:
        current = share * one.current + one.no_load
        total = total + one.count * (_back_volts(one, speed) * current + one.resistance * current * current)
    return np.asarray(total / drive.supply.efficiency)


def pack_current(supply: Supply, power: Array) -> Array:
    """Current out of the pack at a power, A; not a number where the pack cannot give that power.

    I = 2·P/(V + √(V² − 4·R·P)), the root that is reached from rest; below zero while braking.
    """
    under_root = supply.open_volts**2 - 4.0 * supply.resistance * power
    with np.errstate(invalid="ignore"):
        return np.asarray(2.0 * power / (supply.open_volts + np.sqrt(under_root)))


def _back_volts(one: Motors, speed: Array) -> Array:
    return one.kt * speed / one.radius * one.ratio


def _ends(drive: Drive, share: Array, speed: Array) -> Codes:
    """What forbids that share of the currents at that speed: a place in LIMITS, 0 where nothing does."""
    supply = drive.supply
    drawn = pack_current(supply, electrical_power(drive, share, speed))
    bus = supply.open_volts - drawn * supply.resistance
    ends = np.zeros(np.broadcast_shapes(share.shape, speed.shape), dtype=np.int64)
    for one in drive.motors:
        wanted = _back_volts(one, speed) + one.resistance * (share * one.current + one.no_load)
        ends = np.where(wanted > supply.modulation * bus, VOLTAGE, ends)
        ends = np.where(speed > one.fastest, REV_CEILING, ends)
    ends = np.where(drawn > supply.current * (1.0 + 1e-9), PACK_CURRENT, ends)
    ends = np.where(np.isnan(drawn), PACK_POWER, ends)
    ends = np.where(share > 1.0 + 1e-9, MOTOR_CURRENT, ends)
    return np.where(speed > supply.ceiling, SPEED_CEILING, ends)


def top_speed(drive: Drive, slope: Array | float = 0.0) -> tuple[Array, Codes]:
    """The greatest speed that can be held on a slope, m/s, and what ends it (a place in LIMITS).

    0 where the board does not even creep up that slope. ``slope`` tan θ. By halving: what is needed grows with the
    speed and what there is falls.
    """
    full = full_pull(drive)

    def forbidden(speed: Array) -> Codes:
        return _ends(drive, road_force(drive.road, speed, slope) / full, speed)

    shape = np.broadcast_shapes(full.shape, np.shape(slope), drive.supply.open_volts.shape)
    low, high = np.zeros(shape), np.full(shape, FASTEST)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        free = forbidden(middle) == 0
        low, high = np.where(free, middle, low), np.where(free, high, middle)
    return np.where(high < 1e-9, 0.0, low), forbidden(high)


def driving_force(drive: Drive, speed: Array, grip: Array | float = np.inf) -> tuple[Array, Codes]:
    """The greatest pull at a speed, N, and what ends it. ``grip`` N, what the tread holds.

    By halving the share of the greatest motor currents, 30 times: to a billionth of them.
    """
    full = full_pull(drive)
    shape = np.broadcast_shapes(full.shape, speed.shape, drive.supply.open_volts.shape)
    low, high = np.zeros(shape), np.ones(shape)
    whole = _ends(drive, high, speed)
    for _ in range(30):
        middle = 0.5 * (low + high)
        free = _ends(drive, middle, speed) == 0
        low, high = np.where(free, middle, low), np.where(free, high, middle)
    share = np.where(whole == 0, 1.0, low)
    ends = np.where(whole == 0, MOTOR_CURRENT, _ends(drive, high, speed))
    pull = share * full
    return np.minimum(pull, grip), np.where(pull > grip, GRIP, ends)


def braking_force(drive: Drive, speed: Array, grip: Array | float = np.inf) -> tuple[Array, Codes]:
    """The greatest braking pull of the motors at a speed, N, and what ends it: motor current, charge, or grip.

    The charge must stay under what the setting and the volts of the pack leave; what arrives there is
    η_c·Σ n·(E·I − R·I²). The share of the braking currents is the smaller root of that. ``grip`` N.
    """
    supply = drive.supply
    charge = charge_taken(supply)
    taken = charge * (supply.open_volts + charge * supply.resistance) / supply.efficiency
    made = lost = np.zeros(np.broadcast_shapes(speed.shape, supply.open_volts.shape))
    for one in drive.motors:
        made = made + one.count * _back_volts(one, speed) * one.braking_current
        lost = lost + one.count * one.resistance * one.braking_current**2
    under_root = made * made - 4.0 * lost * taken
    with np.errstate(invalid="ignore", divide="ignore"):
        root = np.where(lost > 0, (made - np.sqrt(under_root)) / (2.0 * lost), taken / np.maximum(made, 1e-12))
    share = np.where(under_root <= 0.0, 1.0, np.clip(root, 0.0, 1.0))
    pull = share * full_brake(drive)
    ends = np.where(share < 1.0, PACK_CURRENT, MOTOR_CURRENT)
    return np.minimum(pull, grip), np.where(pull > grip, GRIP, ends)


def charge_taken(supply: Supply) -> Array:
    """The most current that braking puts into the pack, A: the setting, less what fades as the pack is nearly full.

    The charge falls in a straight line from I_set at V_fade to nothing at V_most, at the terminals, which the charge
    itself raises: I = I_set·(V_most − V)/((V_most − V_fade) + R·I_set). Without a setting, the limit of that:
    (V_most − V)/R. Source: Ohm; the fade is common practice, no source.
    """
    room = np.maximum(supply.most_volts - supply.open_volts, 0.0)
    span = np.maximum(supply.most_volts - supply.fading_volts, 0.0)
    lost = span / np.maximum(supply.charge, 1e-9) + supply.resistance  # volts per ampere of charge
    return np.asarray(np.minimum(supply.charge, room / np.maximum(lost, 1e-9)))


def stopping(
    drive: Drive, speed: Array, reaction: Array | float, grip: Array | float, slope: float = 0.0, steps: int = 48
) -> tuple[Array, Array]:
    """Way from a speed to a stop, m, the reaction time included, and the mean deceleration of the braking, m/s².

    ``speed`` m/s, ``reaction`` s in which nothing is done, ``grip`` N at the driven wheels, ``slope`` tan θ (downhill
    below zero). s = v·t + ∫ v/a(v) dv, by Gauss-Legendre; infinite where the board never stops.
    """
    points, weights = np.polynomial.legendre.leggauss(steps)
    speeds = 0.5 * (points + 1.0) * speed[..., None]
    grown = _grown(drive)
    held, _ = braking_force(grown, speeds, np.asarray(grip)[..., None])
    force = held + road_force(grown.road, speeds, slope)
    with np.errstate(divide="ignore", invalid="ignore"):
        integrand = np.where(force > 0.0, speeds * grown.road.mass / force, np.inf)
        way = np.sum(integrand * weights, axis=-1) * 0.5 * speed
        mean = np.where(way > 0.0, speed * speed / (2.0 * way), 0.0)
    return speed * reaction + way, mean


def coasting(road: Road, speed: Array) -> Array:
    """Way that a board rolls on the flat before it stands, when nothing drives or brakes it, m: ln(1 + B·v²/A)/(2·B).

    A = c·g, B = ρ·C_dA/(2·m). Closed form of m·v' = −(m·A + m·B·v²). Source: ordinary differential equations.
    """
    a = road.rolling * STANDARD_GRAVITY
    b = road.density * road.drag_area / (2.0 * road.mass)
    return np.asarray(np.log1p(b * speed * speed / a) / (2.0 * b))


def seconds_to(drive: Drive, speed: float, grip: Array | float, most: float, steps: int = 32) -> Array:
    """Time from rest to a speed on the flat at full pull, s; infinite where it never gets there.

    ``speed`` m/s, ``most`` m/s², the acceleration that a standing rider bears. t = ∫ dv/a(v), by Gauss-Legendre.
    """
    points, weights = np.polynomial.legendre.leggauss(steps)
    speeds = 0.5 * (points + 1.0) * speed
    grown = _grown(drive)
    pull, _ = driving_force(grown, speeds, np.asarray(grip)[..., None])
    over = (pull - road_force(grown.road, speeds)) / grown.road.mass
    with np.errstate(divide="ignore"):
        slowness = np.where(over > 0.0, 1.0 / np.minimum(over, most), np.inf)
    return np.asarray(np.sum(slowness * weights, axis=-1) * 0.5 * speed)


def grip_while_driving(
    road: Road, friction: Array, share: Array, height: Array, wheelbase: Array, slope: float
) -> Array:
    """The pull that the driven wheels of the rear axle hold, N: μ·m·g·cos θ·k/(1 − μ·h/W).

    ``friction`` μ, ``share`` k of the weight that stands on the rear axle at rest, ``height`` h of the centre of mass
    above the road and ``wheelbase`` W, m: pulling loads the rear axle by m·a·h/W, at most by the whole weight, when the
    other axle lifts. Source: statics.
    """
    weight = road.mass * STANDARD_GRAVITY * np.cos(np.arctan(slope))
    loaded = np.minimum(share / np.maximum(1.0 - friction * height / wheelbase, 0.05), 1.0)
    return np.asarray(friction * weight * loaded)


def grip_while_braking(road: Road, friction: Array, share: Array, height: Array, wheelbase: Array) -> Array:
    """The braking pull that the wheels of the rear axle hold, N: μ·m·g·k/(1 + μ·h/W), as above: braking unloads it."""
    return np.asarray(friction * road.mass * STANDARD_GRAVITY * share / (1.0 + friction * height / wheelbase))


def _grown(drive: Drive) -> Drive:
    """The same board with a last axis of length one for speeds."""

    def grow(value: Array) -> Array:
        return np.asarray(value)[..., None]

    return mapped(drive, grow)


def mapped(drive: Drive, change: Callable[[Array], Array]) -> Drive:
    """The same board with every array changed alike: rows taken, an axis added, several boards laid together."""
    motors = tuple(Motors(one.count, *[change(getattr(one, name)) for name in MOTOR_ARRAYS]) for one in drive.motors)
    supply = Supply(*[change(getattr(drive.supply, name)) for name in Supply.__slots__])
    road = drive.road
    wind = road.headwind if isinstance(road.headwind, float) else change(road.headwind)
    still = Road(change(road.mass), change(road.rolling), change(road.drag_area), change(road.density), wind)
    return Drive(motors, supply, still)


MOTOR_ARRAYS = tuple(name for name in Motors.__slots__ if name != "count")

"""Quick figures of the ride: speed, pull, hill, brake, consumption and range (J73 to J76).

Speeds are in km/h, diameters in mm, forces in N, masses in kg, currents in A, volts in V; a slope is in percent.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import asin, atan, cos, isfinite, pi, sin, tan

from fitdb.formulas.deck_flex import STANDARD_GRAVITY
from fitdb.formulas.motors import torque_constant

KMH_PER_M_S = 3.6
STEEPEST = 0.999
"""Largest sine of a slope: a pull beyond the weight itself climbs a wall, and no board is ridden up one."""
SLOWEST_KMH = 1.0
"""Below walking pace a braking charge is no longer what holds the board; it keeps the quotient finite."""


def _require_positive(name: str, value: float) -> None:
    if not (value > 0.0 and isfinite(value)):
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again")


def drive_ratio(drive_teeth: Sequence[int], driven_teeth: Sequence[int], gear_ratios: Sequence[float]) -> float:
    """Turns of the motor per turn of the wheel.

    A gear drive has its own ratio; two pulleys have driven over drive teeth; a hub motor or a direct drive, which has
    neither, turns with its wheel: 1. Each argument is empty where there is no such piece. Source: kinematics.
    """
    if gear_ratios:
        return float(gear_ratios[0])
    if drive_teeth and driven_teeth:
        _require_positive("teeth of the drive pulley", drive_teeth[0])
        return driven_teeth[0] / drive_teeth[0]
    return 1.0


def drive_efficiency(
    drive_teeth: Sequence[int], gear_ratios: Sequence[float], belt: float, gear: float, direct: float
) -> float:
    """Share of the motor's torque that arrives at the wheel: that of a gear, of a belt, or of neither.

    Source: common practice, no source (belt 0.92 to 0.95, gear 0.93 to 0.96, direct 0.97 to 1).
    """
    return gear if gear_ratios else belt if drive_teeth else direct


def rolling_diameter(outer_diameter: float, used: Sequence[str], wear: Sequence[float]) -> float:
    """Diameter in mm on which the wheel rolls, unloaded: as it was read, less what has been ridden off since.

    used and wear are empty where the tread is a sleeve. Source: geometry.
    """
    worn = wear[0] if used and wear and used[0] == "yes" else 0.0
    return outer_diameter - 2.0 * worn


def unloaded_speed_kmh(kv: float, volts: float, ratio: float, diameter: float, modulation: float) -> float:
    """Speed in km/h with the wheels in the air: v = K_v·V·m/i · π·D · 60/10⁶.

    kv in rpm/V, ratio i motor turns per wheel turn, diameter D in mm, modulation m the share of the volts that a
    controller can put out. Raises ValueError for a ratio not above zero. Source: kinematics of an unloaded motor.
    """
    _require_positive("ratio", ratio)
    return kv * volts * modulation / ratio * pi * diameter * 60.0 / 1e6


def held_back_kmh(speed: float, ceilings: Sequence[float]) -> float:
    """The speed, or the lowest speed ceiling that a controller is set to. Source: how such a setting works."""
    return min((speed, *ceilings))


def wheel_pull(
    kvs: Sequence[float], current: float, convention: str, ratio: float, diameter: float, efficiency: float
) -> float:
    """Pull of all motors at the ground in N: F = Σ K_t · I · i · η / (D/2).

    kvs in rpm/V, one per motor; current I in A through each; convention `block` or `peak_phase` says what the
    controller's figure counts; ratio i, diameter D in mm, efficiency η. Raises ValueError for a diameter not above
    zero. Source: statics; the torque constant from equality of mechanical and electrical power.
    """
    _require_positive("diameter in mm", diameter)
    torque = sum(torque_constant(kv, "peak_phase" if convention == "peak_phase" else "block") for kv in kvs) * current
    return torque * ratio * efficiency / (diameter / 2000.0)


def road_load(
    mass: float, speed: float, rolling: float, drag_area: float, slope: float = 0.0, air_density: float = 1.2
) -> float:
    """Force in N that holds a rolling board back: F = c·m·g·cos θ + m·g·sin θ + ½·ρ·C_dA·v².

    mass m in kg, speed v in km/h against still air, rolling c, drag_area C_dA in m², slope tan θ in percent,
    air_density ρ in kg/m³. Source: Martin et al., Journal of Applied Biomechanics 14 (1998) 276.
    """
    angle = atan(slope / 100.0)
    weight = mass * STANDARD_GRAVITY
    return weight * (rolling * cos(angle) + sin(angle)) + 0.5 * air_density * drag_area * (speed / KMH_PER_M_S) ** 2


def acceleration(pull: float, mass: float, rolling: float) -> float:
    """Acceleration from rest on the flat in m/s²: a = (F − c·m·g)/m. Source: Newton's second law."""
    _require_positive("mass in kg", mass)
    return pull / mass - rolling * STANDARD_GRAVITY


def grade_percent(pull: float, mass: float, rolling: float) -> float:
    """Steepest slope in percent on which the pull still starts the board: tan(asin((F − c·m·g)/(m·g))).

    Ends at the slope whose sine is 0.999. Raises ValueError for a mass not above zero. Source: statics, with cos θ of
    the rolling resistance taken as 1.
    """
    _require_positive("mass in kg", mass)
    share = pull / (mass * STANDARD_GRAVITY) - rolling
    return 100.0 * tan(asin(max(-STEEPEST, min(STEEPEST, share))))


def braking_charge(limits: Sequence[float], channels: Sequence[float], motors: int) -> float:
    """Charging current in A that the board takes while braking: Σ limit · channels, for the channels that have a motor.

    limits: setting of each controller for one of its channels; channels: motors that each controller drives; motors:
    how many there are. Raises ValueError when limits and channels differ in length.
    Source: Kirchhoff's law of currents.
    """
    total = sum(limit * count for limit, count in zip(limits, channels, strict=True))
    outputs = sum(channels)
    return total * min(1.0, motors / outputs) if outputs > 0 else 0.0


def charge_deceleration(
    charge: float, volts: float, efficiency: float, speed: float, mass: float, rolling: float, drag_area: float
) -> float:
    """Deceleration in m/s² that a limit on the braking charge leaves at that speed: (I·V/(η·v) + road load)/m.

    charge I in A, volts V of the pack, efficiency η from wheel to pack: of the brake's power only η arrives there.
    Speeds under 1 km/h count as 1. Raises ValueError for η or mass not above zero. Source: balance of power.
    """
    _require_positive("efficiency", efficiency)
    _require_positive("mass in kg", mass)
    fast = max(speed, SLOWEST_KMH)
    force = charge * volts / (efficiency * fast / KMH_PER_M_S)
    return (force + road_load(mass, fast, rolling, drag_area)) / mass


def pull_deceleration(pull: float, speed: float, mass: float, rolling: float, drag_area: float) -> float:
    """Deceleration in m/s² by a braking pull at the ground: (F + road load)/m. Source: Newton's second law."""
    _require_positive("mass in kg", mass)
    return (pull + road_load(mass, speed, rolling, drag_area)) / mass


def stopping_distance(speed: float, deceleration: float, reaction_time: float) -> float:
    """Way to a stop in m: s = v·t + v²/(2a), speed v in km/h, deceleration a in m/s², reaction_time t in s.

    Raises ValueError for a deceleration not above zero. Source: uniformly decelerated motion; the same form as the
    stopping sight distance of AASHTO, A Policy on Geometric Design of Highways and Streets.
    """
    _require_positive("deceleration in m/s²", deceleration)
    fast = speed / KMH_PER_M_S
    return fast * reaction_time + fast * fast / (2.0 * deceleration)


def consumption_wh_per_km(road_force: float, efficiency: float) -> float:
    """Energy from the pack per way in Wh/km: F/3.6/η, one newton being 1/3.6 Wh/km. Source: work is force times way."""
    _require_positive("efficiency", efficiency)
    return road_force / KMH_PER_M_S / efficiency


def usable_energy_wh(
    capacities: Sequence[float],
    series: Sequence[float],
    chemistries: Sequence[str],
    nickel_mean: float,
    phosphate_mean: float,
    usable: float,
) -> float:
    """Energy in Wh that a ride can take out of all packs: Σ Ah · S · mean volts of a cell · usable share.

    Raises ValueError for a chemistry other than `nickel` and `phosphate`. Source: energy is charge times volts.
    """
    mean = {"nickel": nickel_mean, "phosphate": phosphate_mean}
    total = 0.0
    for capacity, cells, chemistry in zip(capacities, series, chemistries, strict=True):
        if chemistry not in mean:
            raise ValueError(f"unknown chemistry {chemistry!r}: nickel or phosphate is wanted")
        total += capacity * cells * mean[chemistry]
    return total * usable


def static_safety(static_rating: float, mass: float, bearings: float, shock: float) -> float:
    """Static safety s₀ = C₀/P₀ of a bearing under the load of the board, P₀ = k·m·g/n.

    static_rating C₀ in kN, mass m in kg, bearings n that share the load, shock k the load on a bump over that at rest.
    Raises ValueError for a mass not above zero. Source: ISO 76, from memory.
    """
    _require_positive("mass in kg", mass)
    return static_rating * 1000.0 * bearings / (shock * mass * STANDARD_GRAVITY)

"""What flows in and out of a battery pack: open-circuit volts behind one resistance (J63, J65, J72).

The cell is a source of open-circuit volts, straight between the points of a table, with one constant resistance in
series. Within that model every result here is exact: no step size, no iteration. Against a full electrochemical model
of an energy cell it is within 3 % up to 2C at 25 °C; above that, or in the cold, a real cell gives less.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

VoltPoints = Sequence[tuple[float, float]]
"""(charge left as a share 0 to 1, open-circuit volts), rising in both; at least two points."""


@dataclass(frozen=True, slots=True)
class Discharge:
    """What a discharge gave until the least volts: energy Wh, charge Ah, time s, and the share of charge left."""

    energy_wh: float
    charge_ah: float
    seconds: float
    charge_left: float


def _require_positive(name: str, value: float) -> None:
    if not 0.0 < value < math.inf:
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}")


def _require_not_negative(name: str, value: float) -> None:
    if not 0.0 <= value < math.inf:
        raise ValueError(f"{name} must be finite and not negative, got {value!r}")


def _checked(points: VoltPoints) -> tuple[tuple[float, float], ...]:
    rows = tuple(points)
    if len(rows) < 2:
        raise ValueError("open-circuit volts need two points or more")
    for (left, low), (right, high) in itertools.pairwise(rows):
        if not (left < right and 0.0 < low <= high):
            raise ValueError(f"open-circuit volts must rise with the charge left, not {left}: {low} to {right}: {high}")
    return rows


def open_circuit_volts(charge_left: float, points: VoltPoints) -> float:
    """Open-circuit volts V, straight between the points.

    ``charge_left`` share 0 to 1. Raises ValueError outside the table, or if the table does not rise.
    """
    rows = _checked(points)
    for (left, low), (right, high) in itertools.pairwise(rows):
        if left <= charge_left <= right:
            return low + (high - low) * (charge_left - left) / (right - left)
    raise ValueError(f"charge left must lie from {rows[0][0]:g} to {rows[-1][0]:g}, got {charge_left!r}")


def volts_under_current(open_volts: float, current: float, resistance: float) -> float:
    """Volts at the terminals V = V_oc − I·R.

    ``open_volts`` V_oc V, ``current`` I A (drawn above zero, charged below), ``resistance`` R ohm. Source: Ohm.
    """
    return open_volts - current * resistance


def sag(current: float, resistance: float) -> float:
    """Volts lost inside the pack, ΔV = I·R, V. ``current`` I A, ``resistance`` R ohm. Source: Ohm."""
    return current * resistance


def heat_w(current: float, resistance: float) -> float:
    """Heat made inside the pack, P = I²·R, W. ``current`` I A either way, ``resistance`` R ohm. Source: Joule."""
    return current * current * resistance


def greatest_power_w(open_volts: float, resistance: float) -> float:
    """The most that the pack can give for a moment, V_oc²/(4·R), W, at half of its open-circuit volts.

    ``open_volts`` V_oc V, ``resistance`` R ohm. Raises ValueError unless both are above zero.
    Source: maximum power transfer.
    """
    _require_positive("open-circuit volts", open_volts)
    _require_positive("resistance of the pack in ohm", resistance)
    return open_volts * open_volts / (4.0 * resistance)


def current_at_power(power: float, open_volts: float, resistance: float) -> float:
    """Current that a constant power draws, A: I = 2·P / (V_oc + √(V_oc² − 4·R·P)).

    ``power`` P W at the terminals (below zero: braking charge; the current is then below zero too), ``open_volts``
    V_oc V, ``resistance`` R ohm (may be zero). This is the smaller root of R·I² − V_oc·I + P = 0, the one that is
    reached from rest, written so that no digits cancel. Raises ValueError where P is above V_oc²/(4·R): no current
    gives that power. Source: Kirchhoff and the quadratic formula.
    """
    _require_positive("open-circuit volts", open_volts)
    _require_not_negative("resistance of the pack in ohm", resistance)
    under_root = open_volts * open_volts - 4.0 * resistance * power
    if under_root < 0.0:
        most = greatest_power_w(open_volts, resistance)
        raise ValueError(f"{power:g} W is more than the {most:.1f} W that this pack can give; ask for less")
    return 2.0 * power / (open_volts + math.sqrt(under_root))


def discharge_at_current(
    current: float, capacity_ah: float, resistance: float, points: VoltPoints, least_volts: float
) -> Discharge:
    """A discharge from the end of the table at constant current, until the terminals reach the least volts or empty.

    ``current`` I A above zero, ``capacity_ah`` Ah between charge left 0 and 1, ``resistance`` R ohm, ``points`` the
    open-circuit volts, ``least_volts`` V at the terminals. Raises ValueError for malformed numbers or table.
    Exact: under constant current the terminal volts are straight wherever the open-circuit volts are.
    """
    _require_positive("current in A", current)
    _require_positive("capacity in Ah", capacity_ah)
    _require_not_negative("resistance in ohm", resistance)
    stops_at = least_volts + current * resistance
    charge = energy = 0.0
    left = _checked(points)[-1][0]
    for lower, upper, low, high, done in _downhill(points, stops_at):
        left = lower
        step = (upper - lower) * capacity_ah
        charge += step
        energy += step * ((low + high) / 2.0 - current * resistance)
        if done:
            break
    return Discharge(energy, charge, charge / current * 3600.0, left)


def discharge_at_power(
    power: float, capacity_ah: float, resistance: float, points: VoltPoints, least_volts: float
) -> Discharge:
    """A discharge from the end of the table at constant power, until the terminals reach the least volts or empty.

    ``power`` P W above zero, the rest and the errors as ``discharge_at_current``. Exact: with the open-circuit volts V
    straight over the charge, the time is the integral of 1/I = (V + √(V² − 4·R·P))/(2·P), which has a closed form.
    It stops where no current gives the power, should that come before the least volts.
    """
    _require_positive("power in W", power)
    _require_positive("capacity in Ah", capacity_ah)
    _require_not_negative("resistance in ohm", resistance)
    _require_positive("least volts", least_volts)
    # Below half of its open-circuit volts a pack gives less and less power, so the peak comes first there.
    peak = 2.0 * math.sqrt(resistance * power)
    stops_at = max(least_volts + power / least_volts * resistance if least_volts * 2.0 > peak else peak, peak)
    charge = hours = 0.0
    left = _checked(points)[-1][0]
    for lower, upper, low, high, done in _downhill(points, stops_at):
        left = lower
        step = (upper - lower) * capacity_ah
        charge += step
        if high > low:
            hours += step / (high - low) * (_hours_upto(high, power, peak) - _hours_upto(low, power, peak))
        elif step:
            hours += step / current_at_power(power, low, resistance)
        if done:
            break
    return Discharge(power * hours, charge, hours * 3600.0, left)


def _hours_upto(volts: float, power: float, peak: float) -> float:
    """Antiderivative of (V + √(V² − c))/(2·P) over V, with c = 4·R·P = peak²."""
    root = math.sqrt(max(volts * volts - peak * peak, 0.0))
    logarithm = peak * peak * math.log(volts + root) if peak else 0.0
    return (volts * volts + volts * root - logarithm) / (4.0 * power)


def _downhill(points: VoltPoints, stops_at: float) -> list[tuple[float, float, float, float, bool]]:
    """Segments from full to empty, the last cut off where the open-circuit volts reach ``stops_at``."""
    segments = []
    for (left, low), (right, high) in reversed(list(itertools.pairwise(_checked(points)))):
        if high <= stops_at:
            break
        if low >= stops_at:
            segments.append((left, right, low, high, False))
            continue
        cut = left + (right - left) * (stops_at - low) / (high - low)
        segments.append((cut, right, stops_at, high, True))
        break
    return segments


def braking_charge_asked(limits: Sequence[float], channels: Sequence[float]) -> float:
    """Charging current that all controllers together may push back while braking, A: Σ limit·channels.

    ``limits`` A per motor of each controller, ``channels`` motors that it drives. ValueError if they differ in length.
    Source: Kirchhoff's law of currents.
    """
    return sum(limit * count for limit, count in zip(limits, channels, strict=True))


def charge_borne(parallel: Sequence[float], cell_charge_current: Sequence[float]) -> float:
    """Charging current that the cells of all packs together take, A: Σ P·I_cell.

    ``parallel`` cells in parallel of each pack, ``cell_charge_current`` A of one of its cells. ValueError if they
    differ in length. Source: Kirchhoff's law of currents.
    """
    return sum(count * current for count, current in zip(parallel, cell_charge_current, strict=True))


def braking_force_n(charge_current: float, volts: float, speed: float, efficiency: float) -> float:
    """Force at the ground that a braking charge makes, N: F = I·V / (η·v).

    ``charge_current`` I A into the pack, ``volts`` V at the pack, ``speed`` v m/s, ``efficiency`` η of the way from
    wheel to pack (0 to 1]. The faster the board, the weaker a brake that is limited by its charge.
    Raises ValueError for a speed not above zero or η outside. Source: conservation of energy.
    """
    _require_positive("speed in m/s", speed)
    if not 0.0 < efficiency <= 1.0:
        raise ValueError(f"efficiency must be above 0 and at most 1, got {efficiency!r}")
    return charge_current * volts / (efficiency * speed)


def equalising_current(volts_from: float, volts_into: float, resistance_from: float, resistance_into: float) -> float:
    """Current that flows from one pack into another when the two are joined, A: I = (V₁ − V₂)/(R₁ + R₂).

    ``volts_from`` V₁ and ``volts_into`` V₂ at rest, V; ``resistance_from`` R₁ and ``resistance_into`` R₂, mohm. Below
    zero it flows the other way. Raises ValueError unless the resistances together are above zero. Source: Ohm.
    """
    _require_positive("resistance of both packs in mohm", resistance_from + resistance_into)
    return (volts_from - volts_into) * 1000.0 / (resistance_from + resistance_into)


def current_share(resistance: float, other_resistance: float) -> float:
    """Share of a current that flows through the first of two packs in parallel, 0 to 1: R₂/(R₁ + R₂).

    ``resistance`` R₁ and ``other_resistance`` R₂ in the same unit; like open-circuit volts. Raises ValueError unless
    both together are above zero. Source: Kirchhoff, current divider.
    """
    _require_positive("resistance of both packs", resistance + other_resistance)
    return other_resistance / (resistance + other_resistance)


def capacitor_energy_j(capacitance_mf: float, volts: float) -> float:
    """Energy of charged capacitors, J: E = ½·C·V². As much again turns to heat where they are charged through contacts.

    ``capacitance_mf`` C mF, ``volts`` V. Source: electrostatics.
    """
    return 0.5 * capacitance_mf / 1000.0 * volts * volts


def pre_charge_seconds(resistance: float, capacitance_mf: float, time_constants: float) -> float:
    """Time in which a pre-charge path brings capacitors up to the pack, s: n·R·C.

    ``resistance`` R ohm, ``capacitance_mf`` C mF, ``time_constants`` n: after 3 a twentieth of the volts is left over
    the contacts, e⁻³ = 0.0498. Source: exponential charging of a capacitor through a resistor.
    """
    return time_constants * resistance * capacitance_mf / 1000.0


def bms_charge_borne(
    charge_currents: Sequence[float], discharge_currents: Sequence[float], port_layouts: Sequence[str]
) -> float:
    """Braking charge that the protection boards let in together, A.

    ``charge_currents`` and ``discharge_currents`` A of each board's two paths; ``port_layouts``: `common_port` (the
    charge path is on the way of the braking charge) or `separate_ports` (it goes back through the discharge path).
    ValueError for another layout or lists of different length. Source: how the boards are wired; common practice.
    """
    total = 0.0
    for charge, discharge, layout in zip(charge_currents, discharge_currents, port_layouts, strict=True):
        if layout not in ("common_port", "separate_ports"):
            raise ValueError(f"port layout must be common_port or separate_ports, got {layout!r}")
        total += charge if layout == "common_port" else discharge
    return total

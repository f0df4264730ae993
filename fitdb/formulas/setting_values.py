"""Values for the settings of a controller, worked out from cells, links, belt and shaft (J54 to J64, J71).

Floats in, floats out. The shares that the trade keeps in hand stand in one table, `PRACTICE`, each with its unit and
its source; the limits that the rulebook has as well are taken from its rules by the step that draws up the sheet.
"""

from __future__ import annotations

import math

from fitdb.formulas.belts import pitch_diameter
from fitdb.model.rule import Constant

_TRADE = "common practice, no source"
_CELL_SHEETS = "data sheets of cells: half of the greatest charging current at 0 to 15 °C"
_PHOSPHATE_SHEET = "data sheet of an iron-phosphate cell: a fifth of the greatest charging current at 0 to 5 °C"

PRACTICE: dict[str, Constant] = {
    one.name: one
    for one in (
        Constant("cells_drawn", 0.9, "1", _TRADE),
        Constant("bms_drawn", 0.9, "1", _TRADE),
        Constant("cells_charged", 0.7, "1", _TRADE),
        Constant("bms_charged", 0.9, "1", _TRADE),
        Constant("unread_charge_rate", 0.5, "1/h", _TRADE),
        Constant("cold_nickel", 0.5, "1", _CELL_SHEETS),
        Constant("cold_phosphate", 0.2, "1", _PHOSPHATE_SHEET),
        Constant("fade_start_nickel", 3.4, "V", _TRADE),
        Constant("fade_start_phosphate", 3.0, "V", _TRADE),
        Constant("fade_end_nickel", 3.1, "V", _TRADE),
        Constant("fade_end_phosphate", 2.7, "V", _TRADE),
        Constant("brake_fade_start_nickel", 4.15, "V", _TRADE),
        Constant("brake_fade_start_phosphate", 3.55, "V", _TRADE),
        Constant("brake_fade_end_nickel", 4.22, "V", _TRADE),
        Constant("brake_fade_end_phosphate", 3.65, "V", _TRADE),
        Constant("brake_fade_width", 0.05, "V", _TRADE),
        Constant("below_over_volts", 0.03, "V", "common practice, no source: cells of a good pack differ by 0.03 V"),
        Constant("rail_share", 0.95, "1", _TRADE),
        Constant("brake_least", 0.6, "1", _TRADE),
        Constant("brake_most", 1.0, "1", _TRADE),
        Constant("motor_heat_fade", 80.0, "°C", _TRADE),
        Constant("motor_heat_end", 100.0, "°C", _TRADE),
        Constant("controller_heat_fade", 80.0, "°C", _TRADE),
        Constant("controller_heat_end", 95.0, "°C", _TRADE),
        Constant("first_motor_current", 0.4, "1", _TRADE),
        Constant("first_pack_current", 0.5, "1", _TRADE),
        Constant("way_to_pack", 0.8, "1", _TRADE),
        Constant("mean_nickel", 3.6, "V", _TRADE),
        Constant("mean_phosphate", 3.2, "V", _TRADE),
    )
}


def practice(name: str) -> float:
    """The value of a row of `PRACTICE`. KeyError for an unknown name."""
    value = PRACTICE[name].value
    assert isinstance(value, float)
    return value


def _require_positive(name: str, value: float) -> None:
    if not 0.0 < value < math.inf:
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again")


def cells_leave(parallel: float, cell_current: float, in_use: float, share: float) -> float:
    """Current of all packs together at which the cells of one pack carry what is kept to, A: k·P·I_cell/s.

    ``parallel`` P cells in parallel, ``cell_current`` I_cell A of one cell, driving or charging, ``in_use`` k the part
    of it that is used, ``share`` s of the whole current that this pack carries, (0, 1].
    Raises ValueError for a share not above zero. Source: Kirchhoff's law of currents.
    """
    _require_positive("share of the pack", share)
    return in_use * parallel * cell_current / share


def link_leaves(rated: float, in_use: float, share: float = 1.0) -> float:
    """Current of all packs together that one link of the chain leaves, A: k·I/s.

    ``rated`` I A of BMS, fuse, switch, connector or pack, ``in_use`` k the part of it that is used, ``share`` s of the
    whole current that goes through this link, (0, 1]. Raises ValueError for a share not above zero. Source: Kirchhoff.
    """
    _require_positive("share of the link", share)
    return in_use * rated / share


def branch_leaves(lead_current: float, channels: float, channels_behind: float) -> float:
    """Current of all channels together at which a lead to one controller carries what it bears, A: I·n/n_behind.

    ``lead_current`` A of that lead, ``channels`` n in use on the board, all set alike, ``channels_behind`` those of
    them behind this lead. Raises ValueError unless at least one is behind it. Source: Kirchhoff's law of currents.
    """
    _require_positive("channels behind the lead", channels_behind)
    return lead_current * channels / channels_behind


def loss_leaves(percent: float, volts: float, area: float, length: float, resistivity: float) -> float:
    """Current at which a lead loses that share of the volts, out and back, A: I = u·V·A/(100·ρ·2l).

    ``percent`` u, ``volts`` V of the rail, ``area`` A mm2 of one core, ``length`` l one way in mm, ``resistivity`` ρ
    in ohm mm2/m. Raises ValueError for a length or resistivity not above zero. Source: Ohm.
    """
    _require_positive("length of the lead in mm", length)
    _require_positive("resistivity", resistivity)
    return percent / 100.0 * volts * area / (resistivity * 2.0 * length / 1000.0)


def capacity_charges(capacity: float, rate: float, in_use: float, share: float) -> float:
    """Braking charge that stands in where nobody read what the cells take, A: k·C·rate/s.

    ``capacity`` C Ah of the pack, ``rate`` 1/h (half the capacity in an hour is common practice), ``in_use`` k,
    ``share`` s of the charge that this pack takes. Raises ValueError for a share not above zero.
    """
    _require_positive("share of the pack", share)
    return in_use * capacity * rate / share


def torque_leaves(torque: float, kt: float) -> float:
    """Motor current at which the shaft carries that torque, A: I = T/K_t.

    ``torque`` T N m, ``kt`` K_t N m/A. Raises ValueError for K_t not above zero. Source: statics of the motor.
    """
    _require_positive("torque constant in N m/A", kt)
    return torque / kt


def belt_leaves(
    width: float, pull_per_width: float, mesh_factor: float, reserve: float, teeth: float, pitch: float, kt: float
) -> float:
    """Motor current at which the belt keeps its reserve, A: I = w·q·k_mesh/n · d/(2·K_t), d = z·p/π.

    ``width`` w mm, ``pull_per_width`` q N/mm at its peak, ``mesh_factor`` k_mesh for the teeth in mesh, ``reserve`` n,
    ``teeth`` z and ``pitch`` p mm of the motor pulley, ``kt`` K_t N m/A. Raises ValueError for a malformed size.
    Source: statics.
    """
    _require_positive("reserve of the belt", reserve)
    pull = width * pull_per_width * mesh_factor / reserve
    return torque_leaves(pull * pitch_diameter(teeth, pitch) / 2000.0, kt)


def lugs_leave(
    force: float, lugs: float, radius: float, drive_teeth: float, driven_teeth: float, counted: float, kt: float
) -> float:
    """Motor current at which the core bears each lug, A: I = F·n·r·z_drive/(z_driven·k·K_t).

    ``force`` F N that a plastic core bears per lug, ``lugs`` n, ``radius`` r mm of the lug circle, tooth counts of the
    two pulleys, ``counted`` k the part of the force that counts in this core (1 plastic, a quarter in alloy), ``kt``
    K_t N m/A. Raises ValueError for a size not above zero. Source: statics.
    """
    _require_positive("teeth of the driven pulley", driven_teeth)
    _require_positive("part of the force that counts", counted)
    return torque_leaves(force * lugs * radius / 1000.0 * drive_teeth / driven_teeth / counted, kt)


def volts_of_pack(series: float, cell_volts: float) -> float:
    """Volts of the whole pack where every cell stands at the same volts, V: S·V_cell."""
    return series * cell_volts


def speed_still_braked(charge: float, volts: float, mass: float, deceleration: float, way_to_pack: float) -> float:
    """Speed up to which a braking charge still slows the board that hard, km/h: v = 3.6·I·V/(η·m·a).

    ``charge`` I A into the packs, ``volts`` V, ``mass`` m kg of rider and board, ``deceleration`` a m/s2,
    ``way_to_pack`` η from wheel to pack. Road and air, which help, are left out: the careful side.
    Raises ValueError for mass, deceleration or η not above zero. Source: conservation of energy.
    """
    for name, value in (("mass in kg", mass), ("deceleration", deceleration), ("efficiency", way_to_pack)):
        _require_positive(name, value)
    return 3.6 * charge * volts / (way_to_pack * mass * deceleration)


def step_typed(value: float, unit: str) -> float:
    """The step in which a person types a setting of that size: amperes by 1, 0.5 below 20, 0.1 below 5; volts by 0.1;
    rpm by 1000, 100 below 10 000; everything else whole. Common practice, no source."""
    if unit == "A":
        return 1.0 if value >= 20.0 else 0.5 if value >= 5.0 else 0.1
    if unit == "V":
        return 0.1
    if unit == "rpm":
        return 1000.0 if value >= 10000.0 else 100.0
    return 1.0


def typed(value: float, unit: str, upward: bool = False) -> float:
    """The value as it is typed, rounded down, or ``upward`` where more is the careful side; never below zero.

    A value that stands on a step but for the last bits of a binary fraction stays there.
    """
    step = step_typed(value, unit)
    steps = value / step
    whole = math.ceil(steps - 1e-9) if upward else math.floor(steps + 1e-9)
    return max(0.0, round(whole * step, 6))

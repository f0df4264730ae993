"""Torque from motor to wheel and what it does to lugs, keys and clamps (J15, J22, J25, J29)."""

import math
from typing import Literal


def _require_positive(name: str, value: float) -> None:
    if not 0.0 < value < math.inf:
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again on the part")


def torque_constant(kv: float, convention: Literal["block", "peak_phase"] = "block") -> float:
    """Torque constant K_t in N m/A from the speed constant.

    ``kv`` K_v in rev/min per volt. K_t = 60/(2π·K_v) = 9.549/K_v when the current is that of the equivalent
    direct-current circuit ("block"); K_t = (√3/2)·60/(2π·K_v) = 8.27/K_v when it is the peak phase current of a
    field-oriented controller ("peak_phase"). An unknown convention is a doubt of −13 % on the pull and is to be said.
    Raises ValueError for K_v not above zero or another convention.
    Source: equality of mechanical and electrical power; the second by the ratio of line to phase voltage.
    """
    _require_positive("speed constant in rev/min per volt", kv)
    block = 30.0 / (math.pi * kv)
    if convention == "block":
        return block
    if convention == "peak_phase":
        return block * math.sqrt(3.0) / 2.0
    raise ValueError(f"current convention must be 'block' or 'peak_phase', got {convention!r}")


def motor_torque(kt: float, current: float) -> float:
    """Torque at the motor shaft T = K_t·I in N m, before iron and bearing losses.

    ``kt`` in N m/A, ``current`` in A; the sign of the current passes through (braking is negative). A key or a set
    screw carries this torque (J25). Raises ValueError for K_t not above zero.
    """
    _require_positive("torque constant in N m/A", kt)
    return kt * current


def wheel_torque(kt: float, current: float, ratio: float, efficiency: float = 1.0) -> float:
    """Torque one motor puts on its wheel, T_w = K_t·I·i·η, in N m.

    ``kt`` in N m/A, ``current`` in A, ``ratio`` i = driven teeth / drive teeth, ``efficiency`` η of the drive (leave 1
    for strength: a brake turns the loss the other way). The mount's clamp must hold as much (J29).
    Raises ValueError for K_t or ratio not above zero, or η not in (0, 1]. Source: statics.
    """
    _require_positive("ratio of driven to drive teeth", ratio)
    if not 0.0 < efficiency <= 1.0:
        raise ValueError(f"efficiency must be above 0 and at most 1, got {efficiency!r}")
    return motor_torque(kt, current) * ratio * efficiency


def lug_force_n(torque_nm: float, lugs: float, radius_mm: float) -> float:
    """Force on one lug or bolt of a driven pulley, F = T/(n·r), in N, all sharing alike.

    ``torque_nm`` T at the wheel in N m, ``lugs`` n, ``radius_mm`` r of the lug centres. Lugs rarely share alike:
    side clearance makes the first one carry more. Raises ValueError for n or r not above zero. Source: statics.
    """
    _require_positive("number of lugs", lugs)
    _require_positive("radius of the lugs in mm", radius_mm)
    return torque_nm * 1000.0 / (lugs * radius_mm)


def lug_play_deg(side_clearance_mm: float, radius_mm: float) -> float:
    """Angle by which a driven pulley turns before its lugs take up, s/r, in degrees.

    ``side_clearance_mm`` s in all between a window and its lug, ``radius_mm`` r of the lug centres.
    Raises ValueError for r not above zero. Source: geometry, small angle.
    """
    _require_positive("radius of the lugs in mm", radius_mm)
    return math.degrees(side_clearance_mm / radius_mm)

"""The formulas behind the expected margins of whole_swaps.yaml, worked out apart from the engine: an oracle for tests.

Nothing of the engine is imported here and the engine imports nothing of this. Belts: the length of an open belt round
two pitch circles (plane geometry, ISO 5294 gives the same). Motors: torque per ampere is 60/(2π·Kv). Packs, sag and
bite: plane geometry and Ohm's law; the 15 mΩ of links and the share of 0.69 of a standing rider's weight that bends the
middle of the deck are common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from math import pi

GRAVITY = 9.81


def pd(teeth: float, pitch: float) -> float:
    """Pitch diameter in mm."""
    return teeth * pitch / pi


def belt_length(teeth_1: float, teeth_2: float, pitch: float, centre: float) -> float:
    """Length in mm of an open belt round two pulleys whose axes are `centre` apart."""
    large, small = max(pd(teeth_1, pitch), pd(teeth_2, pitch)), min(pd(teeth_1, pitch), pd(teeth_2, pitch))
    angle = math.asin((large - small) / (2 * centre))
    return 2 * centre * math.cos(angle) + pi * (large + small) / 2 + angle * (large - small)


def belt_c(teeth_1: float, teeth_2: float, pitch: float, length: float) -> float:
    """Centre distance in mm at which a belt of `length` is taut, by halving."""
    low, high = abs(pd(teeth_1, pitch) - pd(teeth_2, pitch)) / 2 + 1e-6, length
    for _ in range(200):
        middle = (low + high) / 2
        if belt_length(teeth_1, teeth_2, pitch, middle) < length:
            low = middle
        else:
            high = middle
    return low


def kt(kv: float) -> float:
    """Torque per ampere in N·m/A of a motor of `kv` rpm/V."""
    return 60 / (2 * pi * kv)


def belt_pull(kv: float, current: float, drive_teeth: float, pitch: float) -> float:
    """Pull of the belt in N."""
    return kt(kv) * current / (pd(drive_teeth, pitch) / 2000)


def el_rpm(kv: float, volts: float, pole_pairs: float) -> float:
    """Electrical revolutions per minute."""
    return kv * volts * pole_pairs


def rpack(series: float, parallel: float, cell_milliohm: float, links_milliohm: float = 15) -> float:
    """Resistance of a pack in Ω."""
    return (series / parallel * cell_milliohm + links_milliohm) / 1000


def bite(height: float, wheel_radius: float, half_width: float, lean: float) -> float:
    """Upright gap in mm between a wheel and the straight edge of wood above it, leaned by `lean` degrees."""
    return height - wheel_radius - half_width * math.sin(math.radians(lean))


def sag_mid(mass: float, stiffness: float) -> float:
    """Sag in mm at the middle of a deck of `stiffness` N/mm under a standing rider."""
    return mass * GRAVITY * 0.69 / stiffness


def sagitta(sag: float, box_length: float, span: float) -> float:
    """How far the bent deck bows over the length of a box, for a load at the middle of a simple beam."""
    share = box_length / span
    return sag * (1.5 * share**2 - 0.5 * share**3)


def bite_angle(height: float, wheel_radius: float, half_width: float) -> float:
    """Lean in degrees at which the straight edge of the wood meets the wheel."""
    return math.degrees(math.asin(min(1.0, (height - wheel_radius) / half_width)))


def v_kmh(kv: float, volts: float, ratio: float, diameter: float) -> float:
    """Speed of the unloaded wheel in km/h; 0.95 of the volts are put out (common practice, no source)."""
    return kv * volts * 0.95 / ratio * pi * diameter / 1000 * 60 / 1000


def mesh(teeth_1: float, teeth_2: float, pitch: float, centre: float) -> int:
    """Whole teeth that the belt holds on the smaller of two pulleys."""
    wrap = 180 - 2 * math.degrees(math.asin(abs(pd(teeth_1, pitch) - pd(teeth_2, pitch)) / (2 * centre)))
    return math.floor(min(teeth_1, teeth_2) * wrap / 360)


NAMES: dict[str, float | Callable[..., float]] = {
    "pd": pd,
    "belt_c": belt_c,
    "kt": kt,
    "belt_pull": belt_pull,
    "el_rpm": el_rpm,
    "rpack": rpack,
    "bite": bite,
    "sag_mid": sag_mid,
    "sagitta": sagitta,
    "bite_angle": bite_angle,
    "v_kmh": v_kmh,
    "mesh": mesh,
    "degrees": math.degrees,
    "pi": pi,
    "tan": math.tan,
    "radians": math.radians,
    "min": min,
    "abs": abs,
}


def worked_out(formula: str) -> float:
    """The value of a formula of whole_swaps.yaml."""
    return float(eval(formula, {"__builtins__": {}}, NAMES))

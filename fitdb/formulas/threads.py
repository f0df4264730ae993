"""Screw threads, the holes and heads that go with them, engagement and tightening (J01, J03, J14, J27, J28).

Lengths in mm, areas in mm², forces in N, stresses in MPa (N/mm²). A thread that is not tabulated raises ``ValueError``.
Two threads mate only if both major diameter and pitch agree: M8 and 5/16-24 are 0.06 mm apart and strip each other.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Thread:
    """Basic sizes of a thread: ``major`` d, ``pitch`` P, ``pitch_diameter`` d₂, ``minor`` D₁ of the nut (mm), and
    ``stress_area`` A_s (mm²)."""

    designation: str
    major: float
    pitch: float
    pitch_diameter: float
    minor: float
    stress_area: float


@dataclass(frozen=True)
class FastenerSizes:
    """Socket head cap screw and hexagon nut of one thread, mm.

    ``head_diameter_plain`` and ``head_diameter_knurled`` d_k (greatest), ``head_height`` k (greatest), ``socket`` key
    size across flats; ``nut_across_flats`` s, ``nut_height`` m (greatest).
    """

    head_diameter_plain: float
    head_diameter_knurled: float
    head_height: float
    socket: float
    nut_across_flats: float
    nut_height: float


def _unified(designation: str, major_in: float, threads_per_inch: float, stress_area: float) -> Thread:
    # ISO 68-1 / ASME B1.1 basic profile: d2 = d - 3H/4, D1 = d - 5H/4 with H = P * sqrt(3)/2.
    pitch = 25.4 / threads_per_inch
    height = pitch * math.sqrt(3.0) / 2.0
    major = 25.4 * major_in
    return Thread(designation, major, pitch, major - 0.75 * height, major - 1.25 * height, stress_area)


# Metric coarse: ISO 261, ISO 724, stress areas ISO 898-1. Unified: ASME B1.1.
THREADS: dict[str, Thread] = {
    thread.designation: thread
    for thread in (
        Thread("M3", 3.0, 0.5, 2.675, 2.459, 5.03),
        Thread("M4", 4.0, 0.7, 3.545, 3.242, 8.78),
        Thread("M5", 5.0, 0.8, 4.480, 4.134, 14.2),
        Thread("M6", 6.0, 1.0, 5.350, 4.917, 20.1),
        Thread("M8", 8.0, 1.25, 7.188, 6.647, 36.6),
        Thread("M10", 10.0, 1.5, 9.026, 8.376, 58.0),
        _unified("8-32", 0.164, 32.0, 9.04),
        _unified("10-32", 0.190, 32.0, 12.90),
        _unified("5/16-24", 0.3125, 24.0, 37.5),
        _unified("3/8-24", 0.375, 24.0, 56.7),
    )
}

# ISO 273: fine (H12), medium (H13), coarse (H14).
_CLEARANCE_HOLES: dict[str, tuple[float, float, float]] = {
    "M3": (3.2, 3.4, 3.6),
    "M4": (4.3, 4.5, 4.8),
    "M5": (5.3, 5.5, 5.8),
    "M6": (6.4, 6.6, 7.0),
    "M8": (8.4, 9.0, 10.0),
    "M10": (10.5, 11.0, 12.0),
    "M12": (13.0, 13.5, 14.5),
}
_HOLE_SERIES = ("fine", "medium", "coarse")

NUMBER_10_CLEARANCE_DRILLS: dict[str, float] = {"close": 5.22, "normal": 5.61}
"""Clearance drills in mm for a number 10 screw: no. 5 (0.2055 in) and no. 2 (0.221 in). Source: ASME B18.2.8."""

# ISO 4762 heads (the plain head diameters are from memory of the same table), ISO 4032 nuts.
_FASTENERS: dict[str, FastenerSizes] = {
    "M3": FastenerSizes(5.5, 5.68, 3.0, 2.5, 5.5, 2.4),
    "M4": FastenerSizes(7.0, 7.22, 4.0, 3.0, 7.0, 3.2),
    "M5": FastenerSizes(8.5, 8.72, 5.0, 4.0, 8.0, 4.7),
    "M6": FastenerSizes(10.0, 10.22, 6.0, 5.0, 10.0, 5.2),
    "M8": FastenerSizes(13.0, 13.27, 8.0, 6.0, 13.0, 6.8),
    "M10": FastenerSizes(16.0, 16.27, 10.0, 8.0, 16.0, 8.4),
}

PROOF_STRESS_MPA: dict[str, float] = {"8.8": 580.0, "10.9": 830.0, "12.9": 970.0}
"""Proof stress by strength class, coarse thread up to M16. Source: ISO 898-1, from memory."""


def _require_positive(name: str, value: float) -> None:
    if not 0.0 < value < math.inf:
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again on the part")


def _not_tabulated(what: str, designation: str, known: Iterable[str]) -> ValueError:
    return ValueError(f"no {what} is tabulated for thread {designation!r}; known are {', '.join(known)}")


def thread(designation: str) -> Thread:
    """Basic sizes of a thread by its designation, such as "M8" (coarse) or "10-32".

    Raises ValueError for a thread that is not tabulated. Source: ISO 261, ISO 724, ISO 898-1, ASME B1.1.
    """
    try:
        return THREADS[designation]
    except KeyError:
        raise _not_tabulated("basic size", designation, THREADS) from None


def clearance_hole(designation: str, series: Literal["fine", "medium", "coarse"] = "medium") -> float:
    """Diameter in mm of the clearance hole for a metric screw M3 to M10, or M12.

    ``series`` fine, medium or coarse. Raises ValueError for another screw or series. Source: ISO 273.
    """
    try:
        row = _CLEARANCE_HOLES[designation]
    except KeyError:
        raise _not_tabulated("ISO 273 clearance hole", designation, _CLEARANCE_HOLES) from None
    if series not in _HOLE_SERIES:
        raise ValueError(f"clearance hole series must be fine, medium or coarse, got {series!r}")
    return row[_HOLE_SERIES.index(series)]


def fastener_sizes(designation: str) -> FastenerSizes:
    """Head of a socket cap screw and size of a hexagon nut, M3 to M10, in mm.

    Raises ValueError for another thread. A nut with a nylon ring is taller than this.
    Source: ISO 4762 and ISO 4032.
    """
    try:
        return _FASTENERS[designation]
    except KeyError:
        raise _not_tabulated("head and nut", designation, _FASTENERS) from None


def metric_stress_area(major: float, pitch: float) -> float:
    """Stress area of a metric thread, A_s = π/4·((d₂ + d₃)/2)², in mm².

    ``major`` d and ``pitch`` P in mm; d₂ = d − 0.64952·P, d₃ = d − 1.22687·P. Raises ValueError for a malformed
    number. Source: ISO 898-1.
    """
    _require_positive("major diameter in mm", major)
    _require_positive("thread pitch in mm", pitch)
    height = pitch * math.sqrt(3.0) / 2.0
    mean = major - 0.5 * (0.75 + 17.0 / 12.0) * height
    return 0.25 * math.pi * mean * mean


def unified_stress_area(major: float, threads_per_length: float) -> float:
    """Tensile stress area of a unified thread, A_t = 0.7854·(D − 0.9743/n)².

    ``major`` D in inches and ``threads_per_length`` n per inch give in²; mm and threads per mm give mm².
    Raises ValueError for a malformed number. Source: ASME B1.1, FED-STD-H28.
    """
    _require_positive("major diameter", major)
    _require_positive("threads per unit of length", threads_per_length)
    return 0.7854 * (major - 0.9743 / threads_per_length) ** 2


def engagement_for_load(
    force: float, shear_strength: float, screw_major_least: float, nut_pitch_diameter_most: float, pitch: float
) -> float:
    """Length of engagement in mm at which the threads of the tapped part would just shear under a force.

    L_e = F / (τ·(π·D_s,min/P)·(P/2 + 0.57735·(D_s,min − E_n,max))): the load F in N over the shear strength τ in MPa of
    the tapped material; ``screw_major_least`` D_s,min, ``nut_pitch_diameter_most`` E_n,max and ``pitch`` P in mm.
    Raises ValueError for a malformed number, or D_s,min so small that the threads do not overlap.
    Source: FED-STD-H28/2B, shear area of the internal thread.
    """
    _require_positive("force in N", force)
    _require_positive("shear strength in MPa", shear_strength)
    _require_positive("least major diameter of the screw in mm", screw_major_least)
    _require_positive("greatest pitch diameter of the tapped hole in mm", nut_pitch_diameter_most)
    _require_positive("thread pitch in mm", pitch)
    overlap = 0.5 * pitch + (screw_major_least - nut_pitch_diameter_most) / math.sqrt(3.0)
    if overlap <= 0.0:
        raise ValueError(
            f"a screw of {screw_major_least!r} mm does not reach the threads of a hole with pitch diameter "
            f"{nut_pitch_diameter_most!r} mm; check that both belong to the same thread"
        )
    return force / (shear_strength * math.pi * screw_major_least / pitch * overlap)


def engagement_length(
    stress_area: float, nut_minor_most: float, screw_pitch_diameter_least: float, threads_per_length: float
) -> float:
    """Length of engagement at which a screw breaks before its threads shear, screw and nut of equal strength.

    L_e = 2·A_t / (π·K_n,max·(1/2 + 0.57735·n·(E_s,min − K_n,max))): ``stress_area`` A_t, ``nut_minor_most`` K_n,max,
    ``screw_pitch_diameter_least`` E_s,min and ``threads_per_length`` n, all in inches or all in mm; the result is in
    that unit. A weaker tapped part needs the result times the ratio of strengths.
    Raises ValueError for a malformed number, or threads that do not overlap. Source: FED-STD-H28/2B, as quoted in
    Machinery's Handbook.
    """
    _require_positive("stress area", stress_area)
    _require_positive("greatest minor diameter of the nut", nut_minor_most)
    _require_positive("least pitch diameter of the screw", screw_pitch_diameter_least)
    _require_positive("threads per unit of length", threads_per_length)
    overlap = 0.5 + threads_per_length * (screw_pitch_diameter_least - nut_minor_most) / math.sqrt(3.0)
    if overlap <= 0.0:
        raise ValueError(
            f"a nut of minor diameter {nut_minor_most!r} does not reach a screw of pitch diameter "
            f"{screw_pitch_diameter_least!r}; check that both belong to the same thread"
        )
    return 2.0 * stress_area / (math.pi * nut_minor_most * overlap)


def floating_fastener_position_tolerance(hole: float, fastener: float) -> float:
    """Diameter within which each hole pattern may be off place when both parts have clearance holes, T = H − F, in mm.

    ``hole`` H least hole diameter, ``fastener`` F greatest screw diameter. Negative: the screw does not enter the hole.
    Assumes both patterns are measured from aligned data. Raises ValueError for a malformed number.
    Source: ASME Y14.5-2009, appendix B.
    """
    _require_positive("hole diameter in mm", hole)
    _require_positive("screw diameter in mm", fastener)
    return hole - fastener


def fixed_fastener_position_tolerance(hole: float, fastener: float) -> float:
    """Diameter within which each hole pattern may be off place when one part is tapped, T = (H − F)/2, in mm.

    As ``floating_fastener_position_tolerance``, shared equally between the parts, tapped holes square to the face.
    Source: ASME Y14.5-2009, appendix B.
    """
    return 0.5 * floating_fastener_position_tolerance(hole, fastener)


def tightening_torque_nm(preload: float, diameter: float, torque_coefficient: float = 0.2) -> float:
    """Torque T = K·d·F in N m that brings a screw to a preload.

    ``preload`` F in N, ``diameter`` d in mm, ``torque_coefficient`` K (0.2 as received; oil lowers it, a nylon ring
    adds its own drag). The scatter of preload at one torque is ±25 % or more. Raises ValueError for a malformed number.
    Source: Shigley, Mechanical Engineering Design, chapter 8.
    """
    _require_positive("preload in N", preload)
    _require_positive("screw diameter in mm", diameter)
    _require_positive("torque coefficient", torque_coefficient)
    return torque_coefficient * preload * diameter / 1000.0


def wedge_thickness_at_bolts(middle_thickness: float, bolt_spacing: float, angle_deg: float) -> tuple[float, float]:
    """Thickness of a wedge riser at its thin and its thick pair of bolts, t ∓ (g/2)·tan α, in mm.

    ``middle_thickness`` t, ``bolt_spacing`` g along the slope, ``angle_deg`` α; the two pairs take bolts of two
    lengths. A thin end of zero or less means that the wedge runs out before the bolts.
    Raises ValueError for t or g not above zero, or α not from 0 to under 90. Source: geometry.
    """
    _require_positive("thickness of the wedge at its middle in mm", middle_thickness)
    _require_positive("bolt spacing in mm", bolt_spacing)
    if not 0.0 <= angle_deg < 90.0:
        raise ValueError(f"wedge angle must lie from 0 to under 90 degrees, got {angle_deg!r}")
    half_rise = 0.5 * bolt_spacing * math.tan(math.radians(angle_deg))
    return middle_thickness - half_rise, middle_thickness + half_rise

"""Toothed belts on two pulleys: sizes, length, centre distance, mesh and pull (J18, J19, J21, J22, J24).

Lengths in millimetres, angles in degrees, forces in newtons. Where two pulleys are named, either may be the larger.

A geometry that cannot exist (a belt too short for its pulleys, a centre distance at which one pitch circle lies
inside the other) is an answer and is returned as ``nan``; a ``nan`` centre distance passes through every function
here. The caller reads ``nan`` as "no such drive". A malformed number (zero or negative teeth, infinite length)
raises ``ValueError``.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class BeltProfile:
    """Tooth profile of a curvilinear (H form) belt.

    ``pitch`` p, ``belt_height`` h_s over tooth and back, ``tooth_height`` h_t, ``pitch_line_differential`` a from the
    pulley's tip circle to the pitch line, and the standard belt ``widths``; all in mm.
    """

    pitch: float
    belt_height: float
    tooth_height: float
    pitch_line_differential: float
    widths: tuple[float, ...]


# ISO 13050, tables 1 and 2 (H profiles). The 5 mm and 8 mm differentials are printed there as 0.572 and 0.686; the
# inch originals 0.0225 in and 0.0270 in give the fourth decimal. Belts of equal pitch need not share the tooth form.
BELT_PROFILES: dict[str, BeltProfile] = {
    "H3M": BeltProfile(3.0, 2.4, 1.21, 0.381, (6.0, 9.0, 15.0)),
    "H5M": BeltProfile(5.0, 3.8, 2.08, 0.5715, (9.0, 15.0, 25.0)),
    "H8M": BeltProfile(8.0, 6.0, 3.38, 0.6858, (20.0, 30.0, 50.0, 85.0)),
}


def _require_positive(name: str, value: float) -> None:
    if not 0.0 < value < math.inf:
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again on the part")


def _require_positive_or_nan(name: str, value: float) -> None:
    if not (0.0 < value < math.inf or math.isnan(value)):
        raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again on the part")


def pitch_diameter(teeth: float, pitch: float) -> float:
    """Pitch diameter d = z·p/π in mm.

    ``teeth`` z, ``pitch`` p in mm. Raises ValueError unless both are finite and above zero.
    Source: definition of circular pitch, ISO 13050.
    """
    _require_positive("number of teeth", teeth)
    _require_positive("belt pitch in mm", pitch)
    return teeth * pitch / math.pi


def outside_diameter(teeth: float, pitch: float, pitch_line_differential: float) -> float:
    """Outside (tip) diameter of a pulley, OD = z·p/π − 2a, in mm.

    ``teeth`` z, ``pitch`` p in mm, ``pitch_line_differential`` a in mm, a property of the tooth form (see
    BELT_PROFILES); makers differ by about 0.01 mm on the diameter. Raises ValueError for a malformed number.
    Source: ISO 13050.
    """
    if not 0.0 <= pitch_line_differential < math.inf:
        raise ValueError(
            f"pitch-line differential in mm must be finite and not negative, got {pitch_line_differential!r}; "
            "take it from the tooth form's table"
        )
    return pitch_diameter(teeth, pitch) - 2.0 * pitch_line_differential


def least_centre_distance(teeth_a: float, teeth_b: float, pitch: float, pitch_line_differential: float) -> float:
    """Centre distance at which two bare pulleys touch, (OD_a + OD_b)/2, in mm.

    ``teeth_a``, ``teeth_b`` z, ``pitch`` p in mm, ``pitch_line_differential`` a in mm. Flanges need more than this.
    Raises ValueError for a malformed number. Source: geometry of two circles.
    """
    return 0.5 * (
        outside_diameter(teeth_a, pitch, pitch_line_differential)
        + outside_diameter(teeth_b, pitch, pitch_line_differential)
    )


def open_belt_length(big: float, small: float, centre: float) -> float:
    """Exact length of an open belt along its pitch line, in mm (any one unit of length will do).

    L = √(4C² − (D−d)²) + (D·θ_D + d·θ_d)/2, θ_d = π − 2·asin((D−d)/2C), θ_D = 2π − θ_d.
    ``big`` D and ``small`` d are pitch diameters, in either order; ``centre`` C is the centre distance.
    Returns ``nan`` where 2C < |D−d| (one circle inside the other) or C is ``nan``; raises ValueError for a malformed
    number. Source: Shigley, Mechanical Engineering Design, eqs. 17-1 and 17-2.
    """
    _require_positive("pitch diameter", big)
    _require_positive("pitch diameter", small)
    _require_positive_or_nan("centre distance", centre)
    difference = abs(big - small)
    if not 2.0 * centre >= difference:
        return math.nan
    theta = math.asin(difference / (2.0 * centre))
    straight = math.sqrt(4.0 * centre * centre - difference * difference)
    return straight + 0.5 * math.pi * (big + small) + theta * difference


def centre_distance_for_length(teeth_a: float, teeth_b: float, pitch: float, belt_length: float) -> float:
    """Centre distance C in mm at which an open belt of length L is just taut: the root of ``open_belt_length``.

    ``teeth_a``, ``teeth_b`` in either order, ``pitch`` p in mm, ``belt_length`` L in mm along the pitch line.
    Returns ``nan`` when no centre exists, that is when L < z_big·p: the belt does not even reach round the larger
    pulley (equal pulleys have none at L = z·p either). Whether the pulleys clear each other at C is another question,
    see ``least_centre_distance``.
    Raises ValueError only for a malformed number. Source: Shigley eq. 17-1, solved here.
    """
    diameter_a = pitch_diameter(teeth_a, pitch)
    diameter_b = pitch_diameter(teeth_b, pitch)
    _require_positive("belt length in mm", belt_length)
    slack = belt_length - 0.5 * math.pi * (diameter_a + diameter_b)
    delta = 0.5 * abs(diameter_a - diameter_b)
    if belt_length < max(teeth_a, teeth_b) * pitch:
        return math.nan
    if delta == 0.0:
        return 0.5 * slack if slack > 0.0 else math.nan
    # L(C) rises and is convex, and L(C) >= 2C + pi(D+d)/2, so slack/2 lies at or right of the root. From there
    # Newton's steps only fall and cannot pass the root. At the shortest belt the slope is zero: a step then still
    # takes off a third of the error, hence the room in the count.
    centre = 0.5 * slack
    for _ in range(80):
        ratio = delta / centre
        if ratio >= 1.0:
            return delta
        slope = 2.0 * math.sqrt((1.0 - ratio) * (1.0 + ratio))
        step = (slope * centre + 2.0 * delta * math.asin(ratio) - slack) / slope
        centre -= step
        if abs(step) <= 1e-13 * centre:
            break
    return max(centre, delta)


def wrap_angle_deg(big: float, small: float, centre: float) -> float:
    """Angle of wrap on the smaller pulley, 180° − 2·asin(|D−d|/2C), in degrees.

    ``big`` D and ``small`` d are pitch diameters in either order, ``centre`` C; one unit of length.
    Returns ``nan`` where 2C < |D−d| or C is ``nan``; raises ValueError for a malformed number.
    Source: Shigley eq. 17-1.
    """
    _require_positive("pitch diameter", big)
    _require_positive("pitch diameter", small)
    _require_positive_or_nan("centre distance", centre)
    difference = abs(big - small)
    if not 2.0 * centre >= difference:
        return math.nan
    return 180.0 - 2.0 * math.degrees(math.asin(difference / (2.0 * centre)))


def teeth_in_mesh(teeth_a: float, teeth_b: float, pitch: float, centre: float) -> float:
    """Teeth in mesh on the smaller pulley, z·wrap/360, as a real number.

    ``teeth_a``, ``teeth_b`` in either order, ``pitch`` p in mm, ``centre`` C in mm.
    Returns ``nan`` where no such drive exists; raises ValueError for a malformed number.
    Source: geometry, wrap after Shigley eq. 17-1.
    """
    wrap = wrap_angle_deg(pitch_diameter(teeth_a, pitch), pitch_diameter(teeth_b, pitch), centre)
    return min(teeth_a, teeth_b) * wrap / 360.0


def whole_teeth_in_mesh(teeth_a: float, teeth_b: float, pitch: float, centre: float) -> float:
    """Teeth in mesh on the smaller pulley counted in whole teeth, ⌊z·wrap/360⌋, as a float.

    Arguments, ``nan`` and errors as ``teeth_in_mesh``. A result within 1e-9 below a whole tooth counts as that tooth,
    so that rounding in the last place never costs one.
    """
    mesh = teeth_in_mesh(teeth_a, teeth_b, pitch, centre)
    return mesh if math.isnan(mesh) else float(math.floor(mesh + 1e-9))


def teeth_in_mesh_handbook(teeth_a: float, teeth_b: float, pitch: float, centre: float) -> float:
    """Teeth in mesh on the smaller pulley by the belt makers' approximation z·(0.5 − (D−d)/(6C)).

    Arguments in mm as ``teeth_in_mesh``; it puts 3 in place of π, so it is good to about one per cent.
    Passes ``nan`` through; raises ValueError for a malformed number. Source: belt makers' engineering pages.
    """
    _require_positive_or_nan("centre distance in mm", centre)
    difference = abs(pitch_diameter(teeth_a, pitch) - pitch_diameter(teeth_b, pitch))
    return min(teeth_a, teeth_b) * (0.5 - difference / (6.0 * centre))


def mesh_factor(teeth_meshed: float) -> float:
    """Share of its rating that a belt carries on a brake pulley: 1.0 at six teeth in mesh, 0.8 at five, 0.6 at four,
    nothing below.

    ``teeth_meshed`` is cut to whole teeth. Returns ``nan`` for ``nan``; raises ValueError below zero.
    Source: common practice, no source: below four teeth the published table still grants something, but a belt that
    skips a tooth is a brake that is gone.
    """
    return _stepped_factor(teeth_meshed, least_teeth=4)


def published_mesh_factor(teeth_meshed: float) -> float:
    """Share of its rating that a belt carries, 20 % off for every tooth in mesh short of six.

    1.0 / 0.8 / 0.6 / 0.4 / 0.2 for six and more / five / four / three / two teeth, nothing below.
    ``teeth_meshed`` is cut to whole teeth. Returns ``nan`` for ``nan``; raises ValueError below zero.
    Source: a belt maker's engineering page (2012).
    """
    return _stepped_factor(teeth_meshed, least_teeth=2)


# 1 - 0.2 * (6 - z) written out, so that 0.8 is exactly 0.8.
_FACTOR_BY_WHOLE_TEETH = (0.0, 0.0, 0.2, 0.4, 0.6, 0.8)


def _stepped_factor(teeth_meshed: float, least_teeth: int) -> float:
    if math.isnan(teeth_meshed):
        return math.nan
    if teeth_meshed < 0.0:
        raise ValueError(f"teeth in mesh cannot be negative, got {teeth_meshed!r}; work it out again from the drive")
    if teeth_meshed + 1e-9 >= 6.0:
        return 1.0
    whole = math.floor(teeth_meshed + 1e-9)
    return _FACTOR_BY_WHOLE_TEETH[whole] if whole >= least_teeth else 0.0


def belt_pull_n(kt: float, current: float, teeth: float, pitch: float) -> float:
    """Effective pull of the belt F = T/(d/2) in N, with T = K_t·I at the motor pulley.

    ``kt`` K_t in N m/A, ``current`` I in A (motor current; its sign passes through), ``teeth`` and ``pitch`` in mm of
    the motor pulley. Raises ValueError for teeth or pitch not above zero. Source: statics.
    """
    return kt * current * 2000.0 / pitch_diameter(teeth, pitch)


def neighbouring_stock_lengths(
    wanted_length: float, stock_lengths: Iterable[float], count: int = 3
) -> tuple[float, ...]:
    """The ``count`` stocked belt lengths nearest to ``wanted_length``, in rising order (fewer if the stock is small).

    Lengths in mm. Of two equally near the shorter is taken. A stocked length equal to the wanted one is among them.
    Raises ValueError for a wanted length or a count not above zero.
    Source: common practice, no source: buy adjacent lengths, for half a millimetre on the slot moves the choice.
    """
    _require_positive("wanted belt length in mm", wanted_length)
    if count < 1:
        raise ValueError(f"count of stock lengths must be at least 1, got {count!r}")
    nearest = sorted(set(stock_lengths), key=lambda length: (abs(length - wanted_length), length))[:count]
    return tuple(sorted(nearest))


def root_wall_over_keyway(
    teeth: float,
    pitch: float,
    bore: float,
    key_hub_depth: float,
    pitch_line_differential: float | None = None,
    tooth_depth: float | None = None,
) -> float:
    """Metal left between the tooth root and the bottom of the hub's keyway, OD/2 − h − (b/2 + t₂), in mm.

    ``teeth`` and ``pitch`` of the pulley, ``bore`` b, ``key_hub_depth`` t₂ (0 for a hub without keyway);
    ``pitch_line_differential`` a and ``tooth_depth`` h default to the H profile of that pitch, whose belt tooth height
    stands for the groove depth (the groove is cut up to 0.1 deeper). Negative: the keyway breaks into the teeth.
    Raises ValueError for a malformed number, or for a pitch without an H profile when a or h is not given.
    Source: geometry; profile from ISO 13050.
    """
    _require_positive("bore in mm", bore)
    if not 0.0 <= key_hub_depth < math.inf:
        raise ValueError(
            f"hub keyway depth in mm must be finite and not negative, got {key_hub_depth!r}; 0 means no keyway"
        )
    if pitch_line_differential is None or tooth_depth is None:
        profile = next((entry for entry in BELT_PROFILES.values() if entry.pitch == pitch), None)
        if profile is None:
            raise ValueError(
                f"no H profile of pitch {pitch!r} mm is tabulated (3, 5 and 8 are); "
                "give pitch_line_differential and tooth_depth of the tooth form"
            )
        if pitch_line_differential is None:
            pitch_line_differential = profile.pitch_line_differential
        if tooth_depth is None:
            tooth_depth = profile.tooth_height
    root_radius = 0.5 * outside_diameter(teeth, pitch, pitch_line_differential) - tooth_depth
    return root_radius - (0.5 * bore + key_hub_depth)

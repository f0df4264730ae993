"""Deck flex: sag, slope and curve of a deck carried at its trucks; what they ask of boxes and leads."""

from math import degrees, radians, sqrt, tan

STANDARD_GRAVITY = 9.80665
"""m/s², the agreed standard value (3rd CGPM, 1901)."""

LOAD_SHARE_AT_MID = 1.0
"""Share of the load that bends the middle when all of it stands there."""

LOAD_SHARE_AT_QUARTER_POINTS = 0.69
"""The same for two feet at the quarter points of the span; a uniform beam gives exactly 11/16 = 0.6875."""


def mid_sag(mass: float, stiffness: float, load_share: float = LOAD_SHARE_AT_QUARTER_POINTS) -> float:
    """Static sag at mid-span, mm: δ = m·g·k / K.

    ``mass`` m kg, ``stiffness`` K N/mm of the middle under a load at the middle, ``load_share`` k: 1 for a
    load at mid, 0.69 for feet at the quarter points. Raises ValueError unless K is above zero. Source:
    Hooke's law; k from beam theory (see :func:`four_point_mid_deflection`).
    """
    if not stiffness > 0.0:
        raise ValueError(
            f"mid_sag: stiffness is {stiffness} N/mm, but a deck's stiffness is above zero; stand on it"
            " and read the sag"
        )
    return mass * STANDARD_GRAVITY * load_share / stiffness


def rectangle_second_moment(width: float, thickness: float) -> float:
    """Second moment of area of a solid rectangle about its own middle, mm⁴: I = b·h³ / 12.

    ``width`` b across the board, ``thickness`` h, mm. Source: Gere, Mechanics of Materials, appendix on plane
    areas.
    """
    return width * thickness**3 / 12.0


def three_point_mid_deflection(force: float, span: float, modulus: float, second_moment: float) -> float:
    """Mid-span deflection of a simply supported beam with one load at mid, mm: δ = P·L³ / (48·E·I).

    ``force`` P N, ``span`` L mm, ``modulus`` E N/mm² (MPa), ``second_moment`` I mm⁴.
    Source: Gere, Mechanics of Materials, beam deflection tables.
    """
    return force * span**3 / (48.0 * modulus * second_moment)


def four_point_mid_deflection(
    total_force: float, span: float, foot_distance: float, modulus: float, second_moment: float
) -> float:
    """Mid-span deflection under two equal loads, each at ``foot_distance`` a from its nearer support, mm.

    δ = (P/2)·a·(3L² − 4a²) / (24·E·I), with P = ``total_force`` N of both loads together, lengths mm, E
    N/mm², I mm⁴. Raises ValueError unless 0 <= a <= L/2. Source: Gere, Mechanics of Materials, beam
    deflection tables.
    """
    if not 0.0 <= foot_distance <= span / 2.0:
        raise ValueError(
            f"four_point_mid_deflection: foot_distance is {foot_distance} mm on a span of {span} mm, but each"
            " load stands between its support and mid-span; give its distance from the nearer support"
        )
    bending = foot_distance * (3.0 * span**2 - 4.0 * foot_distance**2)
    return total_force / 2.0 * bending / (24.0 * modulus * second_moment)


def end_slope_deg(sag: float, span: float) -> float:
    """Slope of the deck at its trucks, degrees: 3δ/L rad.

    ``sag`` δ of a load at mid, ``span`` L, in one unit. Small angles.
    Source: Gere, beam tables: θ = P·L²/(16·E·I) = 3δ/L.
    """
    return degrees(3.0 * sag / span)


def sagitta_under_box(sag: float, box_length: float, span: float) -> float:
    """How far the deck curves away from a straight box centred under it, mm: s = δ·[1.5·(ℓ/L)² − 0.5·(ℓ/L)³].

    ``sag`` δ at mid (a load at mid), ``box_length`` ℓ, ``span`` L, mm. Raises ValueError unless 0 <= ℓ <= L.
    Source: deflection curve of the centrally loaded beam (Gere, beam tables), y(x) = δ·(3x/L − 4x³/L³).
    """
    if not 0.0 <= box_length <= span:
        raise ValueError(
            f"sagitta_under_box: box_length {box_length} mm does not lie within the span of {span} mm"
            " between the trucks; give the length of the box that touches the deck between the axles"
        )
    ratio = box_length / span
    return sag * (1.5 * ratio**2 - 0.5 * ratio**3)


def impact_factor(drop_height: float, static_sag: float) -> float:
    """Greatest deflection over static deflection when the load drops: n = 1 + √(1 + 2h/δ).

    ``drop_height`` h and ``static_sag`` δ in one unit. Assumes that the deck stays elastic and that no energy
    is lost: a warning, not a forecast. Raises ValueError unless δ > 0 and h >= 0. Source: Gere, Mechanics of
    Materials, deflections produced by impact.
    """
    if not (static_sag > 0.0 and drop_height >= 0.0):
        raise ValueError(
            f"impact_factor: drop_height {drop_height} and static_sag {static_sag} must be at least zero and"
            " above zero; a deck without sag has no finite factor, so measure its sag first"
        )
    return 1.0 + sqrt(1.0 + 2.0 * drop_height / static_sag)


def lead_lengthening(depth_below_deck_middle: float, sag: float, span: float) -> float:
    """Extra length asked of a lead fixed at both ends of a sagging deck, mm: Δ = z·6δ/L.

    ``depth_below_deck_middle`` z from the deck's middle plane to the lead, ``sag`` δ, ``span`` L, mm; 6δ/L is
    the change of slope between the two ends. Source: bending of plane sections; end slope as
    :func:`end_slope_deg`.
    """
    return depth_below_deck_middle * 6.0 * sag / span


def breakover_height(wheelbase: float, ramp_change_deg: float) -> float:
    """Ground clearance that a crest under mid-span takes, mm: (W/2)·tan(α/2).

    ``wheelbase`` W mm, ``ramp_change_deg`` α the change of slope over the crest. High by R·(1/cos(α/2) − 1)
    for wheels of radius R, 0.2 mm at 45 mm and 10 degrees. Source: plane geometry.
    """
    return wheelbase / 2.0 * tan(radians(ramp_change_deg / 2.0))

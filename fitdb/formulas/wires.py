"""Copper wire: gauge, area, resistance and volts lost (J48, J54, J57).

These give area and resistance. How much current a lead may carry also hangs on its insulation, bundle and air, and is
a limit of the rule, not of this file.
"""

import math

COPPER_RESISTIVITY_OHM_MM2_PER_M = 1.0 / 58.0
"""Annealed copper at 20 °C, 0.017241 Ω·mm²/m (IEC 60028). Leads bought by gauge measure 0.0175 to 0.021 over their
nominal area (common practice, no source)."""

COPPER_TEMPERATURE_COEFFICIENT_PER_K = 0.00393
"""Of annealed copper about 20 °C (IEC 60028)."""

# IEC 60228, table 3: class 5 flexible plain copper, greatest resistance at 20 °C, by nominal area in mm².
CLASS_5_OHM_PER_KM: dict[float, float] = {
    0.5: 39.0,
    0.75: 26.0,
    1.0: 19.5,
    1.5: 13.3,
    2.5: 7.98,
    4.0: 4.95,
    6.0: 3.30,
    10.0: 1.91,
    16.0: 1.21,
}


def awg_diameter_mm(gauge: float) -> float:
    """Diameter of a solid round wire of American wire gauge n, d = 0.127·92^((36−n)/39), in mm.

    ``gauge`` n from −3 (written 4/0; 1/0 is 0) to 40. Raises ValueError outside. Source: ASTM B258.
    """
    if not -3.0 <= gauge <= 40.0:
        raise ValueError(f"wire gauge must lie from -3 (4/0) to 40, got {gauge!r}; thicker wire has the lower number")
    return 0.127 * math.pow(92.0, (36.0 - gauge) / 39.0)


def awg_area_mm2(gauge: float) -> float:
    """Area of copper of American wire gauge n, π·d²/4, in mm².

    ``gauge`` as in ``awg_diameter_mm``, with the same error. A stranded lead of that gauge has about this copper; its
    outside is much thicker. Source: ASTM B258.
    """
    diameter = awg_diameter_mm(gauge)
    return 0.25 * math.pi * diameter * diameter


def wire_resistance_ohm(
    length_mm: float,
    area_mm2: float,
    temperature_c: float = 20.0,
    resistivity: float = COPPER_RESISTIVITY_OHM_MM2_PER_M,
) -> float:
    """Resistance of one conductor, R = ρ·l/A·(1 + α(t − 20)), in Ω.

    ``length_mm`` l of the one conductor (out only), ``area_mm2`` A, ``temperature_c`` t in °C, ``resistivity`` ρ at
    20 °C in Ω·mm²/m. Raises ValueError for a negative length, or area or resistivity not above zero.
    Source: Ohm; α from IEC 60028.
    """
    if not 0.0 <= length_mm < math.inf:
        raise ValueError(f"length of the wire in mm must be finite and not negative, got {length_mm!r}")
    if not 0.0 < area_mm2 < math.inf:
        raise ValueError(f"area of the wire in mm2 must be a finite number above zero, got {area_mm2!r}")
    if not 0.0 < resistivity < math.inf:
        raise ValueError(f"resistivity in ohm mm2/m must be a finite number above zero, got {resistivity!r}")
    warming = 1.0 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (temperature_c - 20.0)
    return resistivity * length_mm / 1000.0 / area_mm2 * warming


def voltage_drop_v(
    current_a: float,
    length_mm: float,
    area_mm2: float,
    temperature_c: float = 20.0,
    resistivity: float = COPPER_RESISTIVITY_OHM_MM2_PER_M,
) -> float:
    """Volts lost along a pair of leads out and back, U = 2·I·R.

    ``current_a`` I in A, ``length_mm`` of the pair one way, the rest and the errors as ``wire_resistance_ohm``.
    Source: Ohm.
    """
    return 2.0 * current_a * wire_resistance_ohm(length_mm, area_mm2, temperature_c, resistivity)


def class_5_resistance_ohm_per_km(nominal_area_mm2: float) -> float:
    """Greatest resistance at 20 °C of a class 5 (flexible) plain copper conductor, in Ω/km.

    ``nominal_area_mm2`` is the metric size on the jacket. Raises ValueError for a size the table has not.
    Source: IEC 60228, table 3.
    """
    try:
        return CLASS_5_OHM_PER_KM[nominal_area_mm2]
    except KeyError:
        sizes = ", ".join(f"{size:g}" for size in CLASS_5_OHM_PER_KM)
        raise ValueError(
            f"IEC 60228 class 5 has no nominal area {nominal_area_mm2!r} mm2 here; known are {sizes}"
        ) from None

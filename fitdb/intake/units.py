"""Units of the trade: how people spell them, what they are worth, and how a size is shown.

Factors come from pint; the wire gauge is not a factor and follows ASTM B258. Only the spellings below are
understood: an expression is never evaluated, so no typed unit can make the machine work hard.
"""

from __future__ import annotations

import functools
import math
from fractions import Fraction
from typing import Any, NamedTuple

from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.problems import Problem


class Unit(NamedTuple):
    """A unit: its id, its expression for pint, what it measures, how it is printed and how people spell it."""

    id: str
    expression: str
    measures: str
    label: str
    spellings: tuple[str, ...] = ()


AWG = "AWG"
SHORE_A = "shore_a"
SMALLEST_GAUGE, LARGEST_GAUGE = -3, 56  # 4/0 (written -3) to 56: the sizes that ASTM B258 tabulates
MM_PER_INCH = 25.4  # exact by definition (International Yard and Pound Agreement, 1959)
SIXTY_FOURTHS = 64

# A torque and an energy have the same dimension for pint, and so have degrees and percent: `measures` keeps them apart.
UNITS = (
    Unit("mm", "millimeter", "length", "mm", ("millimeter", "millimetre", "millimeters", "millimetres")),
    Unit("cm", "centimeter", "length", "cm", ("centimeter", "centimetre")),
    Unit("m", "meter", "length", "m", ("meter", "metre", "meters", "metres")),
    Unit("um", "micrometer", "length", "µm", ("µm", "μm", "micron", "microns")),
    Unit("in", "inch", "length", "in", ("inch", "inches", '"', "″", "”", "''", "in.", "′′")),
    Unit("ft", "foot", "length", "ft", ("foot", "feet")),
    Unit("km", "kilometer", "length", "km", ("kilometer", "kilometre", "kilometers", "kilometres")),
    Unit("mi", "mile", "length", "mi", ("mile", "miles")),
    Unit("thou", "thou", "length", "thou", ("mil", "mils")),
    Unit("mm2", "millimeter**2", "area", "mm²", ("mm²", "mm^2", "sq mm", "sqmm")),
    Unit("cm2", "centimeter**2", "area", "cm²", ("cm²", "cm^2")),
    Unit("in2", "inch**2", "area", "in²", ("in²", "in^2", "sq in")),
    Unit("m2", "meter**2", "area", "m²", ("m²", "m^2", "sq m", "sqm")),
    Unit(AWG, "", "wire gauge", "AWG", ("ga", "gauge")),
    Unit("kg", "kilogram", "mass", "kg", ("kilogram", "kilograms", "kilo")),
    Unit("g", "gram", "mass", "g", ("gram", "grams", "gramme")),
    Unit("lb", "pound", "mass", "lb", ("lbs", "pound", "pounds", "lbm")),
    Unit("oz", "ounce", "mass", "oz", ("ounce", "ounces")),
    Unit("A", "ampere", "current", "A", ("amp", "amps", "ampere", "amperes")),
    Unit("mA", "milliampere", "current", "mA", ("milliamp", "milliamps")),
    Unit("V", "volt", "voltage", "V", ("volt", "volts")),
    Unit("mV", "millivolt", "voltage", "mV", ("millivolt", "millivolts")),
    Unit("ohm", "ohm", "resistance", "Ω", ("Ω", "Ω", "ohms")),
    Unit("mohm", "milliohm", "resistance", "mΩ", ("mΩ", "mΩ", "milliohm", "milliohms", "mohms")),
    Unit("kohm", "kiloohm", "resistance", "kΩ", ("kΩ", "kΩ", "kiloohm")),
    Unit("Wh", "watt*hour", "energy", "Wh", ("W h", "watt hours", "watt hour")),
    Unit("kWh", "kilowatt*hour", "energy", "kWh", ("kW h",)),
    Unit("Ah", "ampere*hour", "charge", "Ah", ("A h", "amp hours", "amp hour")),
    Unit("mAh", "milliampere*hour", "charge", "mAh", ("mA h",)),
    Unit("W", "watt", "power", "W", ("watt", "watts")),
    Unit("kW", "kilowatt", "power", "kW", ("kilowatt", "kilowatts")),
    Unit("deg", "degree", "angle", "°", ("°", "º", "degree", "degrees")),
    Unit("rad", "radian", "angle", "rad", ("radian", "radians")),
    Unit("N", "newton", "force", "N", ("newton", "newtons")),
    Unit("kN", "kilonewton", "force", "kN", ("kilonewton",)),
    Unit("lbf", "pound_force", "force", "lbf", ()),
    Unit("kgf", "kilogram_force", "force", "kgf", ()),
    Unit("N_m", "newton*meter", "torque", "N m", ("N m", "Nm", "N·m", "N*m", "N.m", "N-m", "nm", "newton metres")),
    Unit("lbf_in", "pound_force*inch", "torque", "lbf in", ("lbf in", "lbf·in", "lbf-in", "in lb", "in-lb", "in lbf")),
    Unit("lbf_ft", "pound_force*foot", "torque", "lbf ft", ("lbf ft", "lbf·ft", "lbf-ft", "ft lb", "ft-lb", "ft lbf")),
    Unit("rpm", "rpm", "speed of rotation", "rpm", ("1/min", "r/min", "rev/min")),
    Unit("rpm/V", "rpm/volt", "speed constant", "rpm/V", ("kv", "rpm per volt")),
    Unit("N/mm", "newton/millimeter", "stiffness", "N/mm", ()),
    Unit("N/m", "newton/meter", "stiffness", "N/m", ()),
    Unit("lbf/in", "pound_force/inch", "stiffness", "lbf/in", ("lb/in",)),
    Unit("km/h", "kilometer/hour", "speed", "km/h", ("kmh", "kph", "km h")),
    Unit("mph", "mile/hour", "speed", "mph", ("mi/h",)),
    Unit("m/s", "meter/second", "speed", "m/s", ()),
    Unit("m/s2", "meter/second**2", "acceleration", "m/s²", ("m/s²", "m/s^2")),
    Unit("Wh/km", "watt*hour/kilometer", "energy per way", "Wh/km", ("Wh per km",)),
    Unit("Wh/mi", "watt*hour/mile", "energy per way", "Wh/mi", ("Wh/mile", "Wh per mile")),
    Unit("s", "second", "time", "s", ("sec", "second", "seconds")),
    Unit("ms", "millisecond", "time", "ms", ()),
    Unit("min", "minute", "time", "min", ("minute", "minutes")),
    Unit("h", "hour", "time", "h", ("hour", "hours")),
    Unit("percent", "percent", "share", "%", ("%", "per cent", "pct")),
    Unit(SHORE_A, "", "hardness", "shore A", ("shore A", "shoreA", "ShA", "A shore")),
    Unit("mF", "millifarad", "capacitance", "mF", ("millifarad",)),
    Unit("uF", "microfarad", "capacitance", "µF", ("µF", "μF", "microfarad")),
    Unit("F", "farad", "capacitance", "F", ("farad",)),
    Unit("kPa", "kilopascal", "pressure", "kPa", ("kilopascal",)),
    Unit("bar", "bar", "pressure", "bar", ()),
    Unit("psi", "pound_force_per_square_inch", "pressure", "psi", ()),
)
BY_ID = {unit.id: unit for unit in UNITS}
BY_SPELLING = {spelling: unit for unit in UNITS for spelling in (unit.id, unit.label, *unit.spellings)}


def _by_folded_spelling() -> dict[str, Unit]:
    # Capitals are forgiven only where no other unit is meant by them.
    folded: dict[str, Unit | None] = {}
    for spelling, unit in BY_SPELLING.items():
        key = spelling.casefold()
        folded[key] = unit if folded.get(key, unit) is unit else None
    return {key: unit for key, unit in folded.items() if unit is not None}


BY_FOLDED_SPELLING = _by_folded_spelling()
# A capital M is mega: 1 MΩ read as 1 mΩ would be wrong by a factor of a thousand million.
MEGA = frozenset({"MA", "MV", "MΩ", "Mohm", "MOhm", "MOHM", "MAh", "MAH", "MF", "MW", "MN", "MS"})


def known_units() -> tuple[str, ...]:
    """Ids of the units that are understood, in the order of the table."""
    return tuple(BY_ID)


def label(unit: str) -> str:
    """The unit as it is printed: `N m` for `N_m`, `°` for `deg`; an unknown one as it is."""
    known = BY_ID.get(unit)
    return known.label if known else unit


@functools.lru_cache(maxsize=2048)
def unit_of(typed: str, canonical_unit: str = "") -> Unit | None:
    """The unit that a spelling stands for; None if it is not known.

    `canonical_unit` settles the two spellings that mean two things: `78 A` is a hardness where a hardness is read.
    """
    spelled = " ".join(typed.split())
    if canonical_unit == SHORE_A and spelled.casefold() in ("a", "shore"):
        return BY_ID[SHORE_A]
    if spelled in BY_SPELLING:
        return BY_SPELLING[spelled]
    if spelled in MEGA:
        return None
    return BY_FOLDED_SPELLING.get(spelled.casefold())


def unknown_unit(typed: str, canonical_unit: str = "") -> Problem:
    """The Problem `unknown_unit`, naming the nearest known spelling and those that would do."""
    measures = BY_ID[canonical_unit].measures if canonical_unit in BY_ID else ""
    fitting = [unit for unit in UNITS if measures and unit.measures in _readable_as(measures)]
    spellings = [spelling for unit in fitting for spelling in (unit.id, unit.label, *unit.spellings)]
    hint = did_you_mean(typed, spellings) or did_you_mean(typed, BY_SPELLING)
    if fitting:
        hint = f"{hint} Here one of these is wanted: {', '.join(unit.id for unit in fitting)}.".lstrip()
    return Problem("unknown_unit", f"`{shortened(typed)}` is not a unit that is known here.", hint=hint)


def to_canonical(value: float, unit: str, canonical_unit: str) -> float | Problem:
    """`value` given in `unit`, in `canonical_unit`.

    A wire gauge becomes an area in mm2, or a diameter where a length is wanted (ASTM B258). Returns a Problem
    `unknown_unit`, `other_dimension` or `impossible_value` (a gauge outside the table) instead of raising.
    """
    if unit == canonical_unit:
        return value
    known = unit_of(unit, canonical_unit)
    if known is not None and known.id == AWG and canonical_unit != AWG:
        return _from_gauge(value, canonical_unit)
    worth = factor(unit, canonical_unit)
    return worth if isinstance(worth, Problem) else value * worth


@functools.lru_cache(maxsize=4096)
def factor(unit: str, canonical_unit: str) -> float | Problem:
    """What one `unit` is worth in `canonical_unit`; a Problem if it is unknown or measures something else."""
    if unit == canonical_unit:
        return 1.0
    given, wanted = unit_of(unit, canonical_unit), unit_of(canonical_unit)
    if given is None:
        return unknown_unit(unit, canonical_unit)
    if wanted is None or given.measures != wanted.measures:
        return _other_dimension(given, canonical_unit)
    if given.id == wanted.id:
        return 1.0
    quantity = _registry().Quantity(1.0, given.expression).to(wanted.expression)
    return float(f"{quantity.magnitude:.15g}")  # definitions such as 0.45359237 kg/lb come out exact again


@functools.cache
def _registry() -> Any:
    import pint  # a quarter of a second: only whoever types a foreign unit waits for it

    return pint.UnitRegistry()


def gauge_diameter(gauge: float) -> float:
    """Diameter in mm of a solid wire of the American wire gauge: d = 0.127 mm · 92^((36 − n)/39) (ASTM B258).

    0 is 1/0, −1 is 2/0, −3 is 4/0.
    """
    return 0.127 * math.pow(92.0, (36.0 - gauge) / 39.0)


def gauge_area(gauge: float) -> float:
    """Area in mm2 of a solid wire of the American wire gauge (ASTM B258)."""
    return math.pi / 4.0 * gauge_diameter(gauge) ** 2


def _from_gauge(gauge: float, canonical_unit: str) -> float | Problem:
    wanted = unit_of(canonical_unit)
    if wanted is None or wanted.measures not in ("area", "length"):
        return _other_dimension(BY_ID[AWG], canonical_unit)
    if not SMALLEST_GAUGE <= gauge <= LARGEST_GAUGE or gauge != int(gauge):
        return Problem(
            "impossible_value",
            f"{gauge:g} AWG is not a wire gauge: they are whole numbers from 4/0 to {LARGEST_GAUGE}.",
            hint="Write the area in mm2 if the gauge is not printed on the wire.",
        )
    if wanted.measures == "area":
        return to_canonical(gauge_area(gauge), "mm2", canonical_unit)
    return to_canonical(gauge_diameter(gauge), "mm", canonical_unit)


def _readable_as(measures: str) -> tuple[str, ...]:
    return (measures, "wire gauge") if measures == "area" else (measures,)


def _other_dimension(given: Unit, canonical_unit: str) -> Problem:
    wanted = unit_of(canonical_unit)
    if not canonical_unit:
        return Problem(
            "other_dimension",
            f"{given.label} measures {given.measures}, but no unit is wanted here.",
            hint="Write the bare number.",
        )
    what = f"{wanted.measures} in {wanted.label}" if wanted else f"a value in {canonical_unit}"
    hint = f"Write it in {label(canonical_unit)}."
    if given.measures == "mass" and wanted is not None and wanted.measures == "force":
        hint = "A force is written in N, kgf or lbf."
    return Problem("other_dimension", f"{given.label} measures {given.measures}, but {what} is wanted here.", hint=hint)


def show(value: float, unit: str, system: str = "mm", fractions: bool = False) -> str:
    """A value with its unit, as a person reads it.

    Lengths in mm: three decimals under 0.1, two under 100, one under 1000. `system="inch"` turns mm into inches
    with three decimals, or with `fractions` into the nearest 1/64, decimals beside an inexact one. Every other unit
    stays as it is, to four significant digits.
    """
    if not math.isfinite(value):
        return "unknown"
    if unit != "mm":
        return (
            f"{_digits(value)} {label(unit)}".rstrip()
            if unit not in ("deg", "percent")
            else _digits(value) + label(unit)
        )
    if system != "inch":
        size = abs(value)
        decimals = 3 if size < 0.0995 else 2 if size < 99.995 else 1 if size < 999.95 else 0
        return f"{_fixed(value, decimals)} mm"
    inches = value / MM_PER_INCH
    return _fraction(inches) if fractions else f"{_fixed(inches, 3)} in"


def _fixed(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0 else text


def _digits(value: float) -> str:
    if abs(value) >= 1000:
        return _fixed(value, 0)
    text = f"{value:.4g}"
    return "0" if float(text) == 0 else text if "e" not in text else f"{value:.6f}".rstrip("0")


def _fraction(inches: float) -> str:
    sixty_fourths = round(inches * SIXTY_FOURTHS)
    whole, part = divmod(abs(sixty_fourths), SIXTY_FOURTHS)
    sign = "-" if sixty_fourths < 0 else ""
    pieces = [str(whole)] if whole or not part else []
    if part:
        fraction = Fraction(part, SIXTY_FOURTHS)
        pieces.append(f"{fraction.numerator}/{fraction.denominator}")
    text = f"{sign}{' '.join(pieces)} in"
    if round(abs(inches - sixty_fourths / SIXTY_FOURTHS), 3) == 0:
        return text
    decimal = _fixed(inches, 3)
    return f"about {text} ({decimal})" if sixty_fourths else f"{decimal} in"

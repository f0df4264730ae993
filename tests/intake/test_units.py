"""Units: what the trade types, against published definitions and tables."""

from __future__ import annotations

import math

import pytest

from fitdb.intake.units import known_units, label, show, to_canonical, unit_of
from fitdb.model.problems import Problem

# NIST Special Publication 811, appendix B: the factors marked exact, and those given to seven digits.
EXACT = [
    (1, "in", "mm", 25.4),
    (1, "inch", "mm", 25.4),
    (1, "″", "mm", 25.4),
    (1, '"', "mm", 25.4),
    (1, "thou", "mm", 0.0254),
    (1, "cm", "mm", 10.0),
    (1, "m", "mm", 1000.0),
    (1, "lb", "kg", 0.45359237),
    (1, "oz", "kg", 0.028349523125),
    (1000, "g", "kg", 1.0),
    (1, "mph", "km/h", 1.609344),
    (10, "m/s", "km/h", 36.0),
    (1, "mi", "km", 1.609344),
    (12, "miles", "km", 19.312128),
    (0.55, "m²", "m2", 0.55),
    (5500, "cm2", "m2", 0.55),
    (2, "m/s²", "m/s2", 2.0),
    (16.09344, "Wh/mi", "Wh/km", 10.0),
    (1, "bar", "kPa", 100.0),
    (1, "Ω", "mohm", 1000.0),
    (30, "mΩ", "ohm", 0.030),
    (250, "mA", "A", 0.25),
    (4200, "mV", "V", 4.2),
    (4000, "mAh", "Ah", 4.0),
    (1, "kWh", "Wh", 1000.0),
    (180, "°", "rad", math.pi),
    (1, "kN", "N", 1000.0),
    (470, "uF", "mF", 0.47),
    (2, "Nm", "N_m", 2.0),
    (2, "N m", "N_m", 2.0),
    (190, "kv", "rpm/V", 190.0),
    (35, "%", "percent", 35.0),
    (78, "A", "shore_a", 78.0),
    (78, "shore A", "shore_a", 78.0),
    (5, "mm²", "mm2", 5.0),
    (5, "mm^2", "mm2", 5.0),
    (5, "MM", "mm", 5.0),
]
SEVEN_DIGITS = [
    (1, "lbf", "N", 4.448222),
    (1, "lbf in", "N_m", 0.1129848),
    (1, "in-lb", "N_m", 0.1129848),
    (1, "psi", "kPa", 6.894757),
    (1, "lbf/in", "N/mm", 0.1751268),
    (1, "lbf_ft", "N_m", 1.355818),
]


@pytest.mark.parametrize(("value", "unit", "canonical", "expected"), EXACT)
def test_exact_factors(value: float, unit: str, canonical: str, expected: float) -> None:
    assert to_canonical(value, unit, canonical) == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(("value", "unit", "canonical", "expected"), SEVEN_DIGITS)
def test_rounded_factors(value: float, unit: str, canonical: str, expected: float) -> None:
    assert to_canonical(value, unit, canonical) == pytest.approx(expected, rel=5e-7)


# ASTM B258 table 1: diameters in mil (thousandths of an inch) of solid wire, to the 0.1 mil it prints.
@pytest.mark.parametrize(
    ("gauge", "mils"),
    [(-3, 460.0), (0, 324.9), (4, 204.3), (8, 128.5), (10, 101.9), (12, 80.8), (14, 64.1), (20, 32.0), (36, 5.0)],
)
def test_wire_gauge(gauge: float, mils: float) -> None:
    diameter = to_canonical(gauge, "AWG", "mm")
    assert isinstance(diameter, float)
    assert diameter == pytest.approx(mils * 0.0254, abs=0.05 * 0.0254 + 1e-6)
    assert to_canonical(gauge, "awg", "mm2") == pytest.approx(math.pi / 4 * diameter**2)


def test_published_wire_area() -> None:
    # IEC 60228 annex / ASTM B258: 12 AWG is 3.31 mm2.
    assert to_canonical(12, "AWG", "mm2") == pytest.approx(3.31, abs=0.005)


@pytest.mark.parametrize(
    ("unit", "canonical", "code", "named"),
    [
        ("mmm", "mm", "unknown_unit", "`mm`"),
        ("volst", "V", "unknown_unit", "`volt`"),
        ("MΩ", "mohm", "unknown_unit", "`mΩ`"),  # a million times a thousand too much to be forgiven as a capital
        ("9**9**9", "mm", "unknown_unit", "mm, cm"),
        ("kg", "mm", "other_dimension", "length in mm"),
        ("kg", "N", "other_dimension", "lbf"),
        ("Wh", "N_m", "other_dimension", "torque"),  # same dimension on paper, another thing to measure
        ("°", "percent", "other_dimension", "share"),
        ("AWG", "V", "other_dimension", "wire gauge"),
        ("mm", "", "other_dimension", "no unit"),
    ],
)
def test_units_that_do_not_go(unit: str, canonical: str, code: str, named: str) -> None:
    problem = to_canonical(1.0, unit, canonical)
    assert isinstance(problem, Problem)
    assert problem.code == code
    assert named in f"{problem.message} {problem.hint}"


@pytest.mark.parametrize("gauge", [-4, 57, 12.5])
def test_gauges_outside_the_table(gauge: float) -> None:
    problem = to_canonical(gauge, "AWG", "mm2")
    assert isinstance(problem, Problem) and problem.code == "impossible_value"


def test_every_unit_knows_its_own_name_and_label() -> None:
    for unit in known_units():
        for spelling in (unit, label(unit)):
            found = unit_of(spelling)
            assert found is not None and found.id == unit


@pytest.mark.parametrize(
    ("value", "unit", "system", "fractions", "expected"),
    [
        (9, "mm", "mm", False, "9.00 mm"),
        (0.008, "mm", "mm", False, "0.008 mm"),
        (-0.0001, "mm", "mm", False, "0.000 mm"),
        (99.999, "mm", "mm", False, "100.0 mm"),
        (760, "mm", "mm", False, "760.0 mm"),
        (12345.6, "mm", "mm", False, "12346 mm"),
        (8, "mm", "inch", False, "0.315 in"),
        (7.9375, "mm", "inch", True, "5/16 in"),
        (63.5, "mm", "inch", True, "2 1/2 in"),
        (8, "mm", "inch", True, "about 5/16 in (0.315)"),
        (62.95, "mm", "inch", True, "about 2 31/64 in (2.478)"),
        (0, "mm", "inch", True, "0 in"),
        (-7.9375, "mm", "inch", True, "-5/16 in"),
        (4.5, "N_m", "inch", True, "4.5 N m"),
        (35, "deg", "inch", False, "35°"),
        (12345, "rpm", "mm", False, "12345 rpm"),
        (6, "", "mm", False, "6"),
        (math.nan, "mm", "mm", False, "unknown"),
    ],
)
def test_show(value: float, unit: str, system: str, fractions: bool, expected: str) -> None:
    assert show(value, unit, system, fractions) == expected

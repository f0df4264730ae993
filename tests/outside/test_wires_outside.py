"""Wire against printed tables: gauges, resistances, flexible conductors, temperature factors; and motor constants."""

import csv
from pathlib import Path

import pytest

from fitdb.formulas import motors, wires


def _gauges() -> list[dict[str, str]]:
    text = (Path(__file__).parent / "data" / "awg_copper.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


GAUGES = _gauges()


def test_all_gauges_are_read() -> None:
    assert [int(row["gauge"]) for row in GAUGES] == [8, 10, 12, 14, 16, 18, 20, 24]


@pytest.mark.parametrize("row", GAUGES, ids=lambda row: row["gauge"])
def test_gauges(row: dict[str, str]) -> None:
    gauge = int(row["gauge"])
    assert wires.awg_diameter_mm(gauge) == pytest.approx(float(row["diameter_mm"]), abs=6e-5)
    area = wires.awg_area_mm2(gauge)
    assert area == pytest.approx(float(row["area_mm2"]), abs=6e-4)
    # Printed to three figures.
    ohm_per_km = wires.wire_resistance_ohm(1_000_000.0, area)
    assert ohm_per_km == pytest.approx(float(row["printed_ohm_per_km"]), rel=0.0035)


def test_the_defining_gauges() -> None:
    # ASTM B258 fixes two sizes, 0.005 in at number 36 and 0.46 in at 4/0, and spaces the rest evenly between.
    assert wires.awg_diameter_mm(36) == pytest.approx(0.005 * 25.4)
    assert wires.awg_diameter_mm(-3) == pytest.approx(0.46 * 25.4)


def test_a_metre_of_number_12_at_30_amperes() -> None:
    resistance = wires.wire_resistance_ohm(1000.0, wires.awg_area_mm2(12))
    assert 30.0 * resistance == pytest.approx(0.156, abs=0.0005)
    assert 30.0**2 * resistance == pytest.approx(4.69, abs=0.005)
    assert wires.voltage_drop_v(30.0, 1000.0, wires.awg_area_mm2(12)) == pytest.approx(0.3127, abs=0.001)


@pytest.mark.parametrize(
    ("area", "ohm_per_km"),
    # IEC 60228, class 5, plain copper at 20 °C, two printed tables.
    [
        (0.5, 39.0),
        (0.75, 26.0),
        (1, 19.5),
        (1.5, 13.3),
        (2.5, 7.98),
        (4, 4.95),
        (6, 3.30),
        (10, 1.91),
        (16, 1.21),
    ],
)
def test_class_5_conductors(area: float, ohm_per_km: float) -> None:
    assert wires.class_5_resistance_ohm_per_km(area) == ohm_per_km
    # Flexible leads are 7 to 16 % above solid copper of their nominal area: never below.
    solid = wires.wire_resistance_ohm(1_000_000.0, area)
    assert 1.07 < ohm_per_km / solid < 1.16


@pytest.mark.parametrize(("temperature", "factor"), [(40.0, 0.926), (60.0, 0.862)])
def test_temperature_factors(temperature: float, factor: float) -> None:
    # IEC 60228 annex: a resistance measured warm is multiplied by the factor to get it at 20 °C.
    warm = wires.wire_resistance_ohm(1000.0, 1.0, temperature_c=temperature)
    assert wires.wire_resistance_ohm(1000.0, 1.0) / warm == pytest.approx(factor, rel=0.004)


@pytest.mark.parametrize(
    ("kv", "kt"),
    # 60/(2 pi Kv) worked out separately, to six decimals.
    [
        (50, 0.190986),
        (75, 0.127324),
        (130, 0.073456),
        (150, 0.063662),
        (170, 0.056172),
        (190, 0.050259),
        (270, 0.035368),
    ],
)
def test_torque_constants(kv: float, kt: float) -> None:
    assert motors.torque_constant(kv) == pytest.approx(kt, abs=6e-7)
    # The controllers' peak phase current figure is 8.27/Kv.
    assert motors.torque_constant(kv, "peak_phase") == pytest.approx(8.27 / kv, rel=1e-4)


def test_the_examination_motor_needs_2_0944_amperes() -> None:
    # An examination question on a permanent magnet motor: 2 V at 100 rev/min; 0.4 N m needs 2.0944 A.
    assert motors.motor_torque(motors.torque_constant(100.0 / 2.0), 2.0944) == pytest.approx(0.4, rel=1e-4)


def test_lug_play_is_about_a_degree() -> None:
    # 0.4/20.5 rad of 57.296 degrees each, worked by hand.
    assert motors.lug_play_deg(0.4, 20.5) == pytest.approx(1.118, abs=0.001)

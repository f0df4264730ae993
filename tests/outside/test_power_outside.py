"""The electrical rules against figures that others published."""

from __future__ import annotations

import pytest

from fitdb.formulas.power_leads import lead_current, share_of_volts_lost
from fitdb.formulas.wires import awg_area_mm2
from fitdb.model.rule import AtLeast, AtMost
from fitdb.rules import rulebook

# NEC table 310.16 (2023), copper at 30 °C air, not more than three conductors in a raceway: 60, 75, 90 °C insulation.
NEC_310_16 = {14: (15, 20, 25), 12: (20, 25, 30), 10: (30, 35, 40), 8: (40, 50, 55)}
# Single wires in free air, "chassis wiring" column of the Handbook of Electronic Tables and Formulas.
CHASSIS_WIRING = {16: 22, 14: 32, 12: 41, 10: 55, 8: 73}


def density(laying: str) -> float:
    constants = {
        constant.name: constant.value for constant in rulebook().rules["power_lead.carries_the_current"].constants
    }
    value = constants[laying]
    assert isinstance(value, float)
    return value


@pytest.mark.parametrize("gauge", [14, 12, 10])
def test_a_bundled_lead_is_rated_below_fixed_wiring_at_90_degrees(gauge: int) -> None:
    """Silicone leads bear more than 90 °C, and yet the rule of thumb for bundles stays under the code's column."""
    allowed = lead_current(awg_area_mm2(gauge), "enclosed_bundle", density("open_air"), density("enclosed_bundle"))
    assert allowed <= NEC_310_16[gauge][2]
    assert allowed >= 0.5 * NEC_310_16[gauge][0]


@pytest.mark.parametrize("gauge", [16, 14, 12, 10])
def test_a_lead_in_open_air_is_rated_below_chassis_wiring(gauge: int) -> None:
    allowed = lead_current(awg_area_mm2(gauge), "open_air", density("open_air"), density("enclosed_bundle"))
    assert 0.5 * CHASSIS_WIRING[gauge] <= allowed <= CHASSIS_WIRING[gauge]


def test_the_rule_of_thumb_outgrows_the_tables_at_8_awg() -> None:
    """A fixed density is generous to thick leads, whose surface grows slower than their copper: stated, not hidden."""
    open_air = lead_current(awg_area_mm2(8), "open_air", density("open_air"), density("enclosed_bundle"))
    assert CHASSIS_WIRING[8] < open_air < 1.2 * CHASSIS_WIRING[8]


def test_loss_along_a_metre_of_12_awg() -> None:
    """0.156 V at 30 A for one metre of 12 AWG (ASTM B258 area, copper of IEC 60028); out and back twice that."""
    lost = share_of_volts_lost(30.0, 1000.0, awg_area_mm2(12), 100.0, 0.017241)
    assert lost == pytest.approx(2 * 0.156, abs=0.002)


@pytest.mark.parametrize(("series", "chemistry", "published"), [
    (10, "nickel", 42.0),
    (12, "nickel", 50.4),
    (13, "nickel", 54.6),
    (14, "nickel", 58.8),
    (10, "phosphate", 36.5),
    (16, "phosphate", 58.4),
])  # fmt: skip
def test_full_volts_are_those_on_the_labels_of_chargers(series: int, chemistry: str, published: float) -> None:
    """4.20 V and 3.65 V for each cell: published data sheets of 21700 and iron-phosphate cells."""
    line = rulebook().survey["pack.full_volts"]
    constants = {constant.name: constant.value for constant in line.constants}
    assert line.quantity(series, chemistry, **constants) == pytest.approx(published)


@pytest.mark.parametrize(("volts", "series"), [(60.0, 12), (75.0, 16), (100.0, 21)])
def test_classes_of_rated_volts_take_the_cells_that_the_trade_gives_them(volts: float, series: int) -> None:
    """60 V takes 12 cells, 75 V takes 16, 100 V takes 21 (common practice, no source), and none takes one more."""
    rule = rulebook().rules["rail_volts.full_pack_within_rating"]
    constants = {constant.name: constant.value for constant in rule.constants}
    assert isinstance(rule.hard, AtLeast)
    assert rule.quantity(volts, 4.20 * series, **constants) >= rule.hard.low.value
    assert rule.quantity(volts, 4.20 * (series + 1), **constants) < rule.hard.low.value


@pytest.mark.parametrize(("series", "breaks"), [(7, True), (8, False)])
def test_a_vehicle_fuse_ends_at_seven_cells(series: int, breaks: bool) -> None:
    """32 V of direct current, the rating of blade fuses for vehicles (ISO 8820-3, from memory)."""
    rule = rulebook().rules["main_fuse.volts_cover_the_full_pack"]
    assert isinstance(rule.hard, AtLeast)
    assert (rule.quantity(32.0, 4.20 * series) >= rule.hard.low.value) is breaks


def test_no_charger_of_another_number_of_cells_slips_through() -> None:
    """Neighbouring numbers of cells lie 4.20 or 3.65 V apart: the window must be far narrower than half of that."""
    rules = rulebook().rules
    above, below = rules["charger_pack.never_above_full_volts"].hard, rules["charger_pack.reaches_full_volts"].hard
    assert isinstance(above, AtMost) and isinstance(below, AtLeast)
    assert above.high.value - below.low.value < 3.65 / 2

"""The settings sheet against what is published outside: cells, copper, belts, and windows of volts.

Values are typed here from their sources, never taken from our own tables.
"""

from __future__ import annotations

import math

import pytest

from fitdb.formulas import setting_values as sv
from fitdb.formulas.motors import torque_constant
from fitdb.rules.belt_pull.pull_leaves_reserve import RULE as RESERVE
from fitdb.rules.power_lead.carries_the_current import RULE as LEAD
from fitdb.steps.set_up import set_up
from fitdb.steps.set_up.readings import constant

# Greatest charging current of one cell, by its own data sheet: (chemistry, at 15 °C and more, coldest of 0 to 15 °C).
# A 21700 cell of 4 Ah: 6 A at 15 to 45 °C, 3 A at 0 to 15 °C. An iron-phosphate cell of 3.3 Ah: 1 C at 15 to 55 °C,
# 0.5 C at 5 to 15 °C, 0.2 C at 0 to 5 °C.
CELL_SHEETS = [("nickel", 6.0, 3.0), ("phosphate", 3.3, 0.2 * 3.3)]


@pytest.mark.parametrize(("chemistry", "warm", "cold"), CELL_SHEETS)
@pytest.mark.parametrize("parallel", [1, 2, 3, 4])
def test_braking_charge_stays_below_the_cells_own_sheet_warm_and_cold(
    chemistry: str, warm: float, cold: float, parallel: int
) -> None:
    allowed = sv.cells_leave(parallel, warm, sv.practice("cells_charged"), 1.0)
    assert allowed <= parallel * warm
    in_the_cold = allowed * sv.practice(f"cold_{chemistry}")
    assert in_the_cold <= parallel * cold


def test_half_the_capacity_in_an_hour_is_within_both_sheets() -> None:
    """4 Ah · 0.5/h · 0.7 = 1.4 A ≤ 3 A in the cold; 3.3 Ah: 1.155 A ≤ 3.3 A warm."""
    habit = sv.capacity_charges(4.0, sv.practice("unread_charge_rate"), sv.practice("cells_charged"), 1.0)
    assert habit <= 3.0
    habit = sv.capacity_charges(3.3, sv.practice("unread_charge_rate"), sv.practice("cells_charged"), 1.0)
    assert habit <= 3.3


def awg_area(gauge: int) -> float:
    """ASTM B258: d = 0.127 mm · 92^((36 − n)/39)."""
    return math.pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2


# ASTM B258 gauge with its area in mm²; current of fixed wiring with insulation for 90 °C (NEC table 310.16); current of
# a short lead in free air (Handbook of Electronic Tables, chassis wiring).
GAUGES = [(10, 5.261, 40.0, 55.0), (12, 3.309, 30.0, 41.0), (14, 2.081, 25.0, 32.0)]


@pytest.mark.parametrize(("gauge", "area", "fixed", "free_air"), GAUGES)
def test_a_lead_in_a_bundle_stays_below_fixed_wiring_and_one_in_open_air_below_a_lead_in_free_air(
    gauge: int, area: float, fixed: float, free_air: float
) -> None:
    assert awg_area(gauge) == pytest.approx(area, abs=0.001)
    assert constant(LEAD, "enclosed_bundle") * area <= fixed
    assert constant(LEAD, "open_air") * area <= free_air


def test_for_eight_gauge_common_practice_lies_above_both_tables() -> None:
    """Thick leads bear fewer amperes per mm²; common practice does not say so: 83.7 and 58.6 A against 73 and 55 A."""
    area = awg_area(8)
    assert area == pytest.approx(8.366, abs=0.001)
    assert 73.0 < constant(LEAD, "open_air") * area < 84.0
    assert 55.0 < constant(LEAD, "enclosed_bundle") * area < 59.0


@pytest.mark.parametrize(("area", "ohm_per_km"), [(1.5, 13.3), (2.5, 7.98), (4.0, 4.95), (6.0, 3.30), (10.0, 1.91)])
def test_the_loss_along_a_lead_counts_no_better_copper_than_the_standard_lets_flexible_cores_have(
    area: float, ohm_per_km: float
) -> None:
    """IEC 60228 class 5, greatest resistance at 20 °C: at the current that is left no more is lost than was asked."""
    resistivity = 0.021
    current = sv.loss_leaves(5.0, 42.0, area, 700.0, resistivity)
    lost = current * 2 * 0.7 * ohm_per_km / 1000
    assert lost / 42.0 <= 0.05


def test_a_belt_at_its_setting_pulls_between_the_tables_of_two_kinds_of_belt() -> None:
    """Allowable working tension per 25.4 mm, a timing-belt handbook: 5 mm curvilinear rubber 454 N (17.9 N/mm),
    modified curvilinear 712 N (28.0 N/mm). A setting is a peak of seconds, so it may lie above the first, never above
    the second."""
    kt = torque_constant(170.0)
    assert RESERVE.comfort is not None
    current = sv.belt_leaves(15.0, 30.0, 1.0, 1.5, 16, 5.0, kt)
    pull = current * kt / (16 * 5.0 / math.pi / 2000)  # F = T/(d/2), d = z·p/π
    assert 454 / 25.4 * 15 <= pull <= 712 / 25.4 * 15
    # The handbook's 15 mm on 16 teeth: 3.41 N m at 268 N, so our 300 N come to 3.82 N m.
    assert current * kt == pytest.approx(3.41 * 300 / 268, abs=0.02)


# Volts of one cell by two data sheets of 21700 cells and two of iron-phosphate: end of charge, end of discharge.
WINDOWS = {"nickel": (4.20, 2.5), "phosphate": (3.65, 2.0)}
OVER_VOLTS = {"nickel": 4.25, "phosphate": 3.75}  # where protection boards for each end the charge, their labels


@pytest.mark.parametrize("chemistry", ["nickel", "phosphate"])
@pytest.mark.parametrize("series", [6, 10, 12, 13, 16, 20])
def test_fades_lie_inside_the_window_of_the_cells(chemistry: str, series: int) -> None:
    full, empty = (series * volts for volts in WINDOWS[chemistry])
    start, end = (
        sv.typed(sv.volts_of_pack(series, sv.practice(f"fade_{what}_{chemistry}")), "V", upward=True)
        for what in ("start", "end")
    )
    assert empty < end < start < full
    brake_start, brake_end = (
        sv.typed(sv.volts_of_pack(series, sv.practice(f"brake_fade_{what}_{chemistry}")), "V")
        for what in ("start", "end")
    )
    assert start < brake_start < full  # it begins to fade before any cell is full
    assert brake_start < brake_end < series * OVER_VOLTS[chemistry]
    # With current the terminals stand I·R above the cells: 0.02 V per cell are 1 A through the 20 mΩ of a good one.
    assert brake_end - full <= series * 0.02 + 1e-9


def test_packs_of_the_handbook_have_the_full_volts_of_their_label() -> None:
    """10S 42.0, 12S 50.4, 14S 58.8 V of nickel; 16S 58.4 V of iron-phosphate: begins 0.05 to 0.1 V per cell below."""
    labels = ((10, "nickel", 42.0), (12, "nickel", 50.4), (14, "nickel", 58.8), (16, "phosphate", 58.4))
    for series, chemistry, label in labels:
        begins = sv.volts_of_pack(series, sv.practice(f"brake_fade_start_{chemistry}"))
        assert label - 0.101 * series <= begins <= label - 0.049 * series


def test_a_board_of_no_parts_needs_no_catalogue_to_say_so() -> None:
    """The step is pure: no database stands behind it."""
    from fitdb.model.part import AttributeTable

    sheet = set_up([], AttributeTable({}, {}, {}, {}, {}))
    assert sheet.channels == 0 and sheet.lines == () and "nothing can be set" in sheet.notes[0]

"""Values for settings, worked by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitdb.formulas import setting_values as sv
from fitdb.formulas.motors import torque_constant


def test_cells_give_nine_tenths_of_their_sheet_and_a_pack_that_carries_half_leaves_twice() -> None:
    assert sv.cells_leave(3, 25.0, 0.9, 1.0) == pytest.approx(67.5)  # 0.9 · 3 · 25
    assert sv.cells_leave(3, 25.0, 0.9, 0.5) == pytest.approx(135.0)


def test_a_link_leaves_what_is_used_of_it() -> None:
    assert sv.link_leaves(50.0, 1 / 1.25) == pytest.approx(40.0)  # fuse of 50 A
    assert sv.link_leaves(60.0, 0.8) == pytest.approx(48.0)  # switch of 60 A


def test_a_lead_to_one_of_three_channels_leaves_three_times_its_current() -> None:
    assert sv.branch_leaves(30.0, 3, 1) == 90.0


def test_a_lead_may_lose_five_per_cent_of_the_volts() -> None:
    # 5 % of 50.4 V is 2.52 V; 1 m of 4 mm² there and back is 2 · 0.021/4 = 10.5 mΩ: 240 A
    assert sv.loss_leaves(5.0, 50.4, 4.0, 1000.0, 0.021) == pytest.approx(240.0)


def test_half_the_capacity_in_an_hour_stands_in_for_an_unread_charging_current() -> None:
    assert sv.capacity_charges(12.0, 0.5, 0.7, 1.0) == pytest.approx(4.2)


def test_the_current_through_a_set_screw_on_a_flat() -> None:
    # 2.5 N m at 190 rpm/V, K_t = 60/(2π·190) = 0.050259 N m/A: 49.74 A
    assert sv.torque_leaves(2.5, torque_constant(190.0)) == pytest.approx(49.742, abs=0.001)


def test_the_current_through_a_belt() -> None:
    # 15 mm · 30 N/mm · 0.8 / 1.5 = 240 N on d = 14·5/π = 22.282 mm: 2.6738 N m, over 0.050259 N m/A: 53.20 A
    assert sv.belt_leaves(15.0, 30.0, 0.8, 1.5, 14, 5.0, torque_constant(190.0)) == pytest.approx(53.20, abs=0.01)


def test_a_belt_that_holds_too_few_teeth_leaves_nothing() -> None:
    assert sv.belt_leaves(15.0, 30.0, 0.0, 1.5, 14, 5.0, 0.05) == 0.0


def test_the_current_through_the_lugs() -> None:
    # 250 N · 6 · 24 mm = 36 N m at the wheel, · 15/36 = 15 N m at the motor, over 0.06 N m/A: 250 A; alloy 4 times
    assert sv.lugs_leave(250.0, 6, 24.0, 15, 36, 1.0, 0.06) == pytest.approx(250.0)
    assert sv.lugs_leave(250.0, 6, 24.0, 15, 36, 0.25, 0.06) == pytest.approx(1000.0)


def test_the_speed_up_to_which_a_charge_brakes() -> None:
    # 20 A · 46 V / (0.8 · 97 kg · 2 m/s²) = 5.928 m/s = 21.3 km/h
    assert sv.speed_still_braked(20.0, 46.0, 97.0, 2.0, 0.8) == pytest.approx(21.34, abs=0.01)


@pytest.mark.parametrize(
    ("value", "unit", "upward", "typed"),
    [
        (47.99, "A", False, 47.0),
        (48.0 - 1e-12, "A", False, 48.0),  # 60 · 0.8 in binary fractions
        (12.6, "A", False, 12.5),
        (6.3, "A", False, 6.0),
        (4.29, "A", False, 4.2),
        (0.04, "A", False, 0.0),
        (36.01, "V", True, 36.1),
        (49.8, "V", False, 49.8),
        (40.8, "V", True, 40.8),  # 12 · 3.4 is 40.8 but for the last bit
        (89999.0, "rpm", False, 89000.0),
        (9450.0, "rpm", False, 9400.0),
        (25.9, "km/h", False, 25.0),
    ],
)
def test_a_setting_is_typed_on_its_careful_side(value: float, unit: str, upward: bool, typed: float) -> None:
    assert sv.typed(value, unit, upward) == typed


@given(st.floats(0.0, 2e5), st.sampled_from(["A", "V", "rpm", "km/h", "°C"]), st.booleans())
def test_typing_never_crosses_to_the_careless_side_nor_strays_more_than_a_step(
    value: float, unit: str, upward: bool
) -> None:
    typed, step = sv.typed(value, unit, upward), sv.step_typed(value, unit)
    assert abs(typed - value) <= step + 1e-6
    assert typed >= value - 1e-6 if upward else typed <= value + 1e-6


@pytest.mark.parametrize("share", [0.0, -1.0, math.nan, math.inf])
def test_a_share_that_cannot_be_is_refused(share: float) -> None:
    for formula in (sv.link_leaves, lambda r, u, s: sv.cells_leave(2.0, r, u, s)):
        with pytest.raises(ValueError, match="share"):
            formula(10.0, 0.9, share)


def test_every_share_of_the_trade_has_a_unit_and_a_source() -> None:
    assert all(one.unit and one.source for one in sv.PRACTICE.values())
    with pytest.raises(KeyError):
        sv.practice("what nobody wrote down")

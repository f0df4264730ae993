"""Bends by hand: a factor of 4 for leads that stay put, 8 for leads that keep moving (common practice, no source)."""

from __future__ import annotations

import math

import pytest

from fitdb.formulas.bends import (
    arc_length_mm,
    bend_radius_ratio,
    bend_room_mm,
    least_bend_radius_mm,
    path_length_mm,
)


def test_a_lead_of_five_and_a_half_needs_22_at_rest_and_44_moving() -> None:
    assert least_bend_radius_mm(5.5, 4) == 22.0
    assert least_bend_radius_mm(5.5, 8) == 44.0


def test_the_ratio_is_the_factor_at_the_least_radius() -> None:
    assert bend_radius_ratio(least_bend_radius_mm(3.5, 4), 3.5) == 4.0
    assert bend_radius_ratio(0.0, 3.5) == 0.0


def test_room_before_a_face_is_the_radius_and_the_lead() -> None:
    assert bend_room_mm(5.5, 4) == 27.5


def test_a_quarter_turn_is_measured_along_the_middle_of_the_lead() -> None:
    assert arc_length_mm(20.0, 90.0) == pytest.approx(10 * math.pi)
    assert arc_length_mm(20.0, 90.0, 4.0) == pytest.approx(11 * math.pi)


def test_a_path_is_the_sum_of_its_pieces() -> None:
    assert path_length_mm([100.0, 50.0], [(20.0, 90.0), (20.0, 90.0)]) == pytest.approx(150 + 20 * math.pi)
    assert path_length_mm([], []) == 0.0


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: least_bend_radius_mm(0.0, 4), "outside_diameter_mm"),
        (lambda: least_bend_radius_mm(5.5, math.nan), "factor"),
        (lambda: bend_radius_ratio(-1.0, 5.5), "inside_radius_mm"),
        (lambda: arc_length_mm(10.0, -90.0), "angle_deg"),
        (lambda: path_length_mm([1.0, -2.0], []), "straight piece 2"),
    ],
)
def test_a_malformed_question_says_which_number(ask: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        ask()  # type: ignore[operator]

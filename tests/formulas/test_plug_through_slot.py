"""Signed margins of plugs in openings, by hand."""

from __future__ import annotations

import random

import pytest

from fitdb.formulas.plug_through_slot import (
    circle_through_rectangle_margin,
    circle_through_round_hole_margin,
    rectangle_margin,
    rectangle_passes,
    rectangle_through_round_hole_margin,
)


def test_an_unturned_plug_has_the_smaller_of_its_two_gaps_exactly() -> None:
    assert rectangle_margin(16.0, 8.0, 20.0, 8.75) == 0.75
    assert rectangle_margin(16.0, 8.0, 16.25, 8.75) == 0.25
    assert rectangle_margin(16.0, 8.0, 16.0, 8.0) == 0.0
    assert rectangle_margin(16.0, 8.0, 20.0, 7.5) == -0.5


def test_sides_may_be_given_in_any_order() -> None:
    assert rectangle_margin(8.0, 16.0, 8.75, 20.0) == rectangle_margin(16.0, 8.0, 20.0, 8.75)


def test_clearance_is_taken_off_the_margin() -> None:
    assert rectangle_margin(16.0, 8.0, 20.0, 9.0, clearance=0.5) == 0.5
    assert rectangle_through_round_hole_margin(2.5, 3.5, 6.0, clearance=0.5) == 1.0  # 3-4-5
    assert circle_through_rectangle_margin(5.5, 8.0, 6.0, clearance=0.25) == 0.25


def test_the_margin_says_how_much_the_plug_may_grow() -> None:
    dice = random.Random(3)
    for _ in range(300):
        p, q, a, b = dice.uniform(2, 20), dice.uniform(2, 20), dice.uniform(2, 20), dice.uniform(2, 20)
        margin = rectangle_margin(p, q, a, b)
        if min(p, q) + margin > 1e-3:
            assert rectangle_passes(p + margin - 1e-6, q + margin - 1e-6, a, b)
            assert not rectangle_passes(p + margin + 1e-6, q + margin + 1e-6, a, b)


def test_the_margin_is_monotone_in_every_size() -> None:
    dice = random.Random(4)
    for _ in range(500):
        sizes = [dice.uniform(1, 20) for _ in range(4)]
        grown = sizes[:]
        which = dice.randrange(4)
        grown[which] += dice.uniform(0, 5)
        before, after = rectangle_margin(*sizes), rectangle_margin(*grown)
        assert after <= before + 2e-9 if which < 2 else after >= before - 2e-9


def test_a_rod_longer_than_any_diagonal_still_has_a_margin() -> None:
    """100 x 1 in 6 x 8: shrunk to a line, it passes at the diagonal of 10."""
    assert rectangle_margin(100.0, 1.0, 6.0, 8.0) == pytest.approx(-90.0, abs=1e-6)
    assert rectangle_passes(10.0, 0.0, 6.0, 8.0)


def test_round_holes_take_the_diagonal() -> None:
    assert rectangle_through_round_hole_margin(3.0, 4.0, 5.0) == 0.0
    assert rectangle_through_round_hole_margin(16.0, 8.0, 16.0) < 0
    assert circle_through_round_hole_margin(5.5, 6.0) == 0.5


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: rectangle_margin(-1.0, 1.0, 2.0, 2.0), "p is -1.0"),
        (lambda: rectangle_margin(1.0, 1.0, 0.0, 2.0), "a of the opening"),
        (lambda: rectangle_margin(1.0, 1.0, 2.0, 2.0, clearance=float("nan")), "clearance"),
        (lambda: rectangle_through_round_hole_margin(1.0, 1.0, -2.0), "hole of the opening"),
        (lambda: circle_through_rectangle_margin(float("inf"), 1.0, 1.0), "diameter is inf"),
    ],
)
def test_a_malformed_question_says_which_size(ask: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        ask()  # type: ignore[operator]

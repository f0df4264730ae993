"""What stands between box and deck, and the curve of a deck under a box."""

import math

import pytest

from fitdb.formulas.box_fixing import (
    between_box_and_deck,
    curve_under_a_box,
    pressed_thickness,
    screw_in_the_insert,
)


def test_a_gasket_pressed_by_half_is_half_as_thick() -> None:
    assert pressed_thickness(4.0, 50.0) == 2.0


def test_gaskets_frames_and_their_gaskets_add_up() -> None:
    assert between_box_and_deck((3.0, 5.0), (40.0, 20.0), (5.0,), (1.8,)) == pytest.approx(1.8 + 4.0 + 5.0 + 1.8)
    assert between_box_and_deck((), (), (), ()) == 0.0


def test_what_the_rim_takes_is_not_in_the_insert() -> None:
    assert screw_in_the_insert(12.0, 0.8, 3.0, 1.8) == pytest.approx(6.4)


@pytest.mark.parametrize("size", [40.0, 120.0, 180.0])
def test_the_curve_under_a_box_is_the_sagitta_of_the_same_arc(size: float) -> None:
    """Plane geometry: a chord c of a circle of radius r has the sagitta r − √(r² − c²/4)."""
    whole, curve = 240.0, 8.0
    radius = (whole * whole / 4.0 + curve * curve) / (2.0 * curve)
    true = radius - math.sqrt(radius * radius - size * size / 4.0)
    assert curve_under_a_box(curve, size, whole) == pytest.approx(true, abs=0.03)


def test_a_box_wider_than_the_deck_meets_the_whole_curve() -> None:
    assert curve_under_a_box(8.0, 300.0, 240.0) == 8.0

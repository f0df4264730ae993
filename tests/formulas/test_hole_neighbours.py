"""The quick refusal never refuses what the full search lays together."""

import math
import random

import pytest

from fitdb.formulas.hole_misfit import pattern_misfit
from fitdb.formulas.hole_neighbours import RESOLUTION, misfit_by_neighbours

Drawn = tuple[float, float, float, float, float]


def grid(length: float, width: float, slot: float = 0.0) -> list[Drawn]:
    return [(sx * length / 2, sy * width / 2, 4.5, slot, 0.0) for sx in (-1, 1) for sy in (-1, 1)]


def test_equal_patterns_are_not_refused_wherever_they_lie() -> None:
    turned = [(-y + 40.0, x - 7.0, 4.5, 0.0, 0.0) for x, y, *_ in grid(300.0, 150.0)]
    assert misfit_by_neighbours(grid(300.0, 150.0), turned) == 0.0


def test_two_holes_are_refused_by_half_the_difference_of_their_distances() -> None:
    """Two rods of 100 and 110 mm laid middle on middle miss by 5 mm at either end."""
    short, long = (
        [(0.0, 0.0, 4.5, 0.0, 0.0), (100.0, 0.0, 4.5, 0.0, 0.0)],
        [(0.0, 0.0, 4.5, 0.0, 0.0), (0.0, 110.0, 4.5, 0.0, 0.0)],
    )
    assert misfit_by_neighbours(short, long) == pytest.approx(5.0, abs=RESOLUTION)


def test_slots_take_up_their_length() -> None:
    assert misfit_by_neighbours(grid(300.0, 150.0, 8.0), grid(306.0, 150.0)) == 0.0


def test_one_hole_is_never_refused() -> None:
    assert misfit_by_neighbours(grid(300.0, 150.0)[:1], grid(10.0, 10.0)) == 0.0


def test_the_bound_never_exceeds_the_misfit_that_a_motion_reaches() -> None:
    dice = random.Random(39)
    for _ in range(40):
        drawn = [(dice.uniform(-80, 80), dice.uniform(-40, 40), 4.5, 0.0, 0.0) for _ in range(dice.randint(2, 5))]
        turn, shake = dice.uniform(0.0, math.tau), dice.choice((0.0, 1.0, 10.0))
        other = [
            (
                x * math.cos(turn) - y * math.sin(turn) + dice.uniform(-shake, shake),
                x * math.sin(turn) + y * math.cos(turn) + dice.uniform(-shake, shake),
                4.5,
                0.0,
                0.0,
            )
            for x, y, *_ in drawn
        ]
        assert misfit_by_neighbours(drawn, other) <= pattern_misfit(drawn, other, bolts=80)[1] + 1e-6

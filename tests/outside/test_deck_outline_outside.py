"""Drawn decks against shapely, an independent geometry library, and drawn hole patterns against plane geometry."""

import itertools
import random

import pytest
from shapely import LineString, Polygon, box

from fitdb.formulas.deck_outline import half_widths
from fitdb.formulas.hole_misfit import pattern_misfit

Ring = tuple[tuple[float, float], ...]


def read_off(points: tuple[tuple[float, float], ...], x: float) -> float:
    """Half width at x between the points; behind the last one there is no wood."""
    for (x1, y1), (x2, y2) in itertools.pairwise(points):
        if x1 <= x <= x2 and x2 > x1:
            return y1 + (y2 - y1) * (x - x1) / (x2 - x1)
    return 0.0


def widest(shape: Polygon, x: float) -> float:
    """The greatest |y| of the shape at x and at −x, asked of shapely."""
    cuts = [shape.intersection(LineString([(at, -1e3), (at, 1e3)])) for at in (x, -x)]
    return max((max(abs(cut.bounds[1]), abs(cut.bounds[3])) for cut in cuts if not cut.is_empty), default=0.0)


def a_deck(dice: random.Random) -> Ring:
    """A whole plan with cut-outs, wider ahead of the axle than behind it."""
    narrow, wide, behind = dice.uniform(60, 90), dice.uniform(95, 130), dice.uniform(80, 110)
    reach, slope, end = dice.uniform(40, 75), dice.uniform(0.5, 25), dice.uniform(150, 400)
    upper = [(-90.0, behind), (-reach, behind), (-reach, narrow), (reach, narrow), (reach + slope, wide), (end, wide)]
    return tuple(upper + [(x, -y) for x, y in reversed(upper)])


@pytest.mark.parametrize("seed", range(12))
def test_half_widths_are_those_of_the_drawn_shape(seed: int) -> None:
    dice = random.Random(seed)
    ring = a_deck(dice)
    shape, points = Polygon(ring), half_widths((ring,))
    for _ in range(40):
        x = dice.uniform(0.1, 420)
        assert read_off(points, x) == pytest.approx(widest(shape, x), abs=1e-6)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("outward", [0.5, 1.5, -0.5, -1.5])
def test_moved_edges_are_those_of_the_shape_swept_by_a_square(seed: int, outward: float) -> None:
    """More wood: the shape swept by a square. Less: what is left when the air beyond the edge is swept by it."""
    dice = random.Random(seed)
    ring = a_deck(dice)
    points, plain = half_widths((ring,), outward), half_widths((ring,))
    by = abs(outward)
    for _ in range(40):
        x = dice.uniform(2.0, 410)
        window = box(x - by, -1e3, x + by, 1e3)
        if outward > 0:
            cuts = [Polygon(ring).intersection(piece) for piece in (window, box(-x - by, -1e3, -x + by, 1e3))]
            most = max((max(abs(cut.bounds[1]), abs(cut.bounds[3])) for cut in cuts if not cut.is_empty), default=0.0)
            expected = most + by if most else 0.0
        else:
            ends = [x - by, x + by, *(at for at, _ in plain if x - by <= at <= x + by)]
            near = [read_off(plain, at) for at in (*ends, *(at - 1e-9 for at in ends), *(at + 1e-9 for at in ends))]
            expected = max(0.0, min(near) - by)
        assert read_off(points, x) == pytest.approx(expected, abs=1e-5)


def test_nothing_drawn_is_refused() -> None:
    with pytest.raises(ValueError, match="no ring"):
        half_widths(())


def four(length: float, width: float = 41.275) -> list[tuple[float, float, float, float, float]]:
    return [(sx * length / 2, sy * width / 2, 5.4, 0.0, 0.0) for sx in (-1, 1) for sy in (-1, 1)]


def test_two_grids_about_one_middle_miss_each_other_by_half_their_difference() -> None:
    # 63.5 and 53.975 mm, equal widths: every corner is 9.525 / 2 off, and no turn or shift does better.
    least, reached = pattern_misfit(four(63.5), four(53.975))
    assert least == reached == pytest.approx(9.525 / 2, abs=2e-3)


def test_six_holes_take_both_grids() -> None:
    six = [*four(63.5), (22.225, 20.6375, 5.4, 0.0, 0.0), (22.225, -20.6375, 5.4, 0.0, 0.0)]
    for length in (63.5, 53.975):
        assert pattern_misfit(six, four(length))[1] == pytest.approx(0.0, abs=2e-3)


def test_a_slot_as_long_as_the_difference_takes_both_grids() -> None:
    slotted = [(sx * 58.7375 / 2, sy * 20.6375, 5.4, 4.7625, 0.0) for sx in (-1, 1) for sy in (-1, 1)]
    for length in (63.5, 53.975):
        assert pattern_misfit(slotted, four(length))[0] == pytest.approx(0.0, abs=2e-3)

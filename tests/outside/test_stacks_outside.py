"""One-dimensional stacks against an independent tolerance library and a worked example."""

import math
import random

import dimstack
import pytest

from fitdb.formulas.stacks import stack_range

# Shaft, retaining rings, bearings, sleeves and a housing: the worked example of dimstack 0.9.0 (MIT), whose printed
# answers are: gap 0.25 +0.233/-0.533, worst case 0.1 ± 0.383, root sum square 0.1 ± 0.17825 mm.
SHAFT_IN_HOUSING = [
    (207.964, 208.0, 208.036, 1),
    (1.75, 1.75, 1.81, -1),
    (23.0, 23.0, 23.12, -1),
    (19.974, 20.0, 20.026, 1),
    (199.855, 200.0, 200.145, -1),
    (19.974, 20.0, 20.026, 1),
    (23.0, 23.0, 23.12, -1),
]


def test_the_printed_answers_of_the_shaft_in_its_housing() -> None:
    result = stack_range(SHAFT_IN_HOUSING)
    assert result.nominal == pytest.approx(0.25)
    assert (result.low, result.high) == pytest.approx((-0.283, 0.483))
    assert (result.statistical_low, result.statistical_high) == pytest.approx((0.1 - 0.17825, 0.1 + 0.17825), abs=6e-6)


def test_random_stacks_agree_with_the_library_and_with_a_plain_sum() -> None:
    chance = random.Random(7)
    for _ in range(50):
        rows = []
        for _ in range(chance.randint(3, 9)):
            nominal = chance.uniform(0.5, 60.0)
            low, high = nominal - chance.uniform(0.0, 0.4), nominal + chance.uniform(0.0, 0.4)
            rows.append((low, nominal, high, chance.choice((1, -1))))
        result = stack_range(rows)
        library = dimstack.Stack(
            [
                dimstack.Dim(sign * nominal, dimstack.tol.Bilateral(high - nominal, low - nominal))
                for low, nominal, high, sign in rows
            ],
        )
        worst, squares = dimstack.calc.WC(library), dimstack.calc.RSS(library)
        middle, half = worst.dir * worst.nominal, worst.tolerance.T / 2.0
        assert (result.low, result.high) == pytest.approx((middle - half, middle + half), abs=1e-9)
        middle, half = squares.dir * squares.nominal, squares.tolerance.T / 2.0
        assert (result.statistical_low, result.statistical_high) == pytest.approx(
            (middle - half, middle + half), abs=1e-9
        )
        assert result.nominal == pytest.approx(sum(sign * nominal for _, nominal, _, sign in rows), abs=1e-9)
        assert result.low == pytest.approx(sum(low if sign > 0 else -high for low, _, high, sign in rows), abs=1e-9)


def test_the_idle_wheel_on_its_axle() -> None:
    # Ring 1, bearing 7 (ISO 492 width 0/-0.12), spacer 10 ± 0.05, bearing 7, ring 1: 26 mm, 0.34 short to 0.10 over,
    # with the rings ± 0.025 (common practice, no source). Root sum square by hand: 2 x 0.06^2 + 0.05^2 + 2 x 0.025^2.
    ring, bearing, spacer = (0.975, 1.0, 1.025, 1), (6.88, 7.0, 7.0, 1), (9.95, 10.0, 10.05, 1)
    result = stack_range([ring, bearing, spacer, bearing, ring])
    assert result.nominal == pytest.approx(26.0)
    assert (result.low, result.high) == pytest.approx((25.66, 26.10))
    half = math.sqrt(0.0072 + 0.0025 + 0.00125)
    assert (result.statistical_low, result.statistical_high) == pytest.approx((25.88 - half, 25.88 + half))


def test_a_bearing_in_a_retained_pocket() -> None:
    # Worked by hand, smallest pocket less widest ring and the reverse:
    # pocket 7.10 ± 0.05 less ring width 7 0/-0.12 leaves 0.05 at the least and 0.27 at the most.
    result = stack_range([(7.05, 7.10, 7.15, 1), (6.88, 7.0, 7.0, -1)])
    assert (result.low, result.nominal, result.high) == pytest.approx((0.05, 0.10, 0.27))

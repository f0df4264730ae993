"""A rectangular plug through a rectangular slot against the literature and against turning it by brute force.

The criterion is Carver's (1957), discussed by Wetzel, "Rectangles in rectangles", Math. Magazine 73 (2000) 204-211.
"""

from __future__ import annotations

import random

import numpy as np
import pytest

from fitdb.formulas.plug_through_slot import rectangle_margin, rectangle_passes

ANGLES = np.linspace(0.0, np.pi / 2, 20_001)
COSINES, SINES = np.cos(ANGLES), np.sin(ANGLES)


def margin_by_turning(p: float, q: float, a: float, b: float) -> float:
    """At each angle the plug p + t by q + t spans (p + t) cos + (q + t) sin by (p + t) sin + (q + t) cos."""
    along = a - p * COSINES - q * SINES
    across = b - p * SINES - q * COSINES
    return float((np.minimum(along, across) / (COSINES + SINES)).max())


def test_wetzels_example_passes_every_easy_test_and_still_does_not_fit() -> None:
    """9 x 4 and 8 x 6: smaller area, diagonal, perimeter and thickness; but a slot of 8 would have to be 9.788 wide."""
    assert not rectangle_passes(9.0, 4.0, 8.0, 6.0)
    assert rectangle_margin(9.0, 4.0, 8.0, 6.0) < 0


def test_a_square_of_ten_does_not_pass_through_a_square_of_eight() -> None:
    """The formula copied without the clause q <= b returns exactly 8 here and lets it through."""
    assert not rectangle_passes(10.0, 10.0, 8.0, 8.0)
    assert rectangle_margin(10.0, 10.0, 8.0, 8.0) == -2.0


@pytest.mark.parametrize(("p", "q", "a", "b"), [(10.2, 0.5, 10.0, 3.0393), (12.0, 1.0, 10.0, 8.2708)])
def test_thin_plugs_longer_than_the_slot_pass_on_the_slant(p: float, q: float, a: float, b: float) -> None:
    """Worked from the published criterion."""
    assert rectangle_passes(p, q, a, b + 1e-4)
    assert not rectangle_passes(p, q, a, b - 1e-4)
    assert rectangle_margin(p, q, a, b) == pytest.approx(0.0, abs=1e-4)


def test_3000_random_plugs_agree_with_turning_them() -> None:
    dice = random.Random(57)
    turned = 0
    for _ in range(3000):
        a, b = dice.uniform(5, 20), dice.uniform(5, 20)
        p, q = dice.uniform(1, 25), dice.uniform(0.2, 12)
        expected = margin_by_turning(p, q, a, b)
        if min(p, q) + expected <= 0:
            continue
        margin = rectangle_margin(p, q, a, b)
        assert margin == pytest.approx(expected, abs=2e-3), (p, q, a, b)
        assert margin >= expected - 1e-8
        if abs(expected) > 2e-3:
            assert rectangle_passes(p, q, a, b) == (expected > 0)
        turned += margin > min(max(a, b) - max(p, q), min(a, b) - min(p, q)) + 1e-6
    assert turned > 300  # the slanted case is well represented

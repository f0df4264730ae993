"""The leaned deck in three dimensions: points of a rotated plank against points of a steered wheel.

Source: vector rotation (scipy.spatial.transform.Rotation); the oracle uses none of our own geometry.
"""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from fitdb.formulas.wheel_bite import bite_clearance, projected_bite_clearance


def sampled_gap(
    height: float, radius: float, y_in: float, y_out: float, lean: float, steer: float, half: float
) -> float:
    """Least vertical distance from the wheel's sampled top to a straight plank leaned about its middle.

    The plank's middle line is at `height`; the wheel's points are turned about the vertical. A wheel point counts when
    it lies under the rotated plank.
    """
    turn = Rotation.from_euler("z", steer, degrees=True)
    plank = Rotation.from_euler("x", -lean, degrees=True)  # the low side is +y
    angles, faces = np.radians(np.linspace(0, 180, 721)), np.linspace(y_in, y_out, 161)
    angle, y = np.meshgrid(angles, faces)
    points = np.stack([radius * np.cos(angle), y, radius * np.sin(angle)], axis=-1).reshape(-1, 3)
    points = turn.apply(points)
    normal, edge = plank.apply([0.0, 0.0, 1.0]), plank.apply([0.0, half, 0.0])
    under = np.abs(points[:, 1]) <= edge[1]
    if not under.any():
        return height
    # The plane through (0, 0, height) with that normal: its height over (x, y).
    plane = height - (normal[0] * points[:, 0] + normal[1] * points[:, 1]) / normal[2]
    return float((plane - points[:, 2])[under].min())


def test_never_above_the_sampled_plank_on_200_random_boards() -> None:
    dice = random.Random(11)
    for _ in range(200):
        radius, y_in = dice.uniform(35, 60), dice.uniform(70, 105)
        y_out, lean = y_in + dice.uniform(40, 60), dice.uniform(2, 30)
        steer = math.degrees(math.atan(math.tan(math.radians(dice.uniform(20, 50))) * math.sin(math.radians(lean))))
        height, half = dice.uniform(45, 90), dice.uniform(70, 170)
        ours = projected_bite_clearance(height, radius, y_in, y_out, lean, steer, ((0.0, half),))
        sampled = sampled_gap(height, radius, y_in, y_out, lean, steer, half)
        assert ours <= sampled + 1e-6, (height, radius, y_in, y_out, lean, steer, half)


def test_it_is_the_trade_s_form_where_the_edge_stands_over_the_wheel() -> None:
    trade = bite_clearance(74, 45, 92, 144, 13, 0, ((0.0, 112.0),))
    assert trade == pytest.approx(74 - 45 - 112 * math.sin(math.radians(13)))
    assert projected_bite_clearance(74, 45, 92, 144, 13, 0, ((0.0, 112.0),)) == pytest.approx(trade)


def test_under_an_overhang_it_says_less_than_the_trade_s_form() -> None:
    wide = ((0.0, 160.0),)
    ours = projected_bite_clearance(90, 40, 80, 130, 25, 0, wide)
    assert ours == pytest.approx(90 - 40 - 130 * math.tan(math.radians(25)))
    assert ours < bite_clearance(90, 40, 80, 130, 25, 0, wide) - 5

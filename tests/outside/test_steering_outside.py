"""Steering against vector rotation in three dimensions and against published forms of the kinematics.

tan δ = tan λ · sin φ: Hubbard, J. Appl. Mech. 46 (1979) 931 (from memory). The table was worked from that equation
outside this project, to three decimals, and is re-derived here by turning vectors with scipy's Rotation.
"""

from math import atan2, cos, degrees, hypot, radians, sin

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from fitdb.formulas import steering

TABLE = {
    35: {5: 3.492, 10: 6.933, 15: 10.272, 20: 13.468, 25: 16.485},
    44: {5: 4.811, 10: 9.519, 15: 14.033, 20: 18.278, 25: 22.201},
    50: {5: 5.930, 10: 11.692, 15: 17.142, 20: 22.176, 25: 26.732},
    63: {5: 9.707, 10: 18.819, 15: 26.929, 20: 33.872, 25: 39.674},
}
CELLS = [(axis, lean, steer) for axis, row in TABLE.items() for lean, steer in row.items()]


def axis_in_deck(angle_deg):
    """Front steering axis in the deck's frame: x toward the nose, z up; rises toward the nose."""
    return np.array([cos(radians(angle_deg)), 0.0, sin(radians(angle_deg))])


def axle_after(axes_deg, shares, lean_deg):
    """Direction of the axle in the ground frame once the kingpins have turned until the axle is level.

    Deck leaned about the long axis; hanger turned about each axis in turn, the turns in proportion to ``shares``.
    """
    shares = np.asarray(shares) / sum(shares)
    lean = Rotation.from_rotvec(np.array([radians(lean_deg), 0.0, 0.0]))

    def axle(turn):
        turned = np.array([0.0, 1.0, 0.0])
        for axis_deg, share in reversed(list(zip(axes_deg, shares, strict=True))):
            turned = Rotation.from_rotvec(axis_in_deck(axis_deg) * turn * share).apply(turned)
        return lean.apply(turned)

    return axle(brentq(lambda turn: axle(turn)[2], -1.5, 1.5, xtol=1e-15))


def steer_of(axle):
    return abs(degrees(atan2(axle[0], axle[1])))


@pytest.mark.parametrize(("axis", "lean", "steer"), CELLS)
def test_the_table_is_met_to_its_printed_decimals(axis, lean, steer):
    assert steering.steer_deg(axis, lean) == pytest.approx(steer, abs=0.0005)


@pytest.mark.parametrize(("axis", "lean", "steer"), CELLS)
def test_turning_the_hanger_about_its_axis_until_the_axle_is_level_gives_the_same_steer(axis, lean, steer):
    axle = axle_after([axis], [1.0], lean)
    assert axle[2] == pytest.approx(0.0, abs=1e-12)
    assert steering.steer_deg(axis, lean) == pytest.approx(steer_of(axle), abs=1e-9)


def test_two_cells_to_six_decimals():
    assert steering.steer_deg(50, 10) == pytest.approx(11.692077, abs=5e-7)
    assert steering.steer_deg(44, 20) == pytest.approx(18.277615, abs=5e-7)


@pytest.mark.parametrize(
    ("axis", "lean", "radius"),
    # Worked by hand from R = W / (tan δf + tan δr), W = 0.7 m, both axes alike.
    [(50, 10, 1.691), (50, 20, 0.859), (44, 20, 1.060), (50, 15, 1.13), (40, 15, 1.61), (30, 15, 2.34)],
)
def test_turn_radius_of_a_700_mm_wheelbase(axis, lean, radius):
    steer = steering.steer_deg(axis, lean)
    places = 0.0005 if radius in (1.691, 0.859, 1.060) else 0.005
    assert steering.turn_radius(0.7, steer, steer) == pytest.approx(radius, abs=places)


@pytest.mark.parametrize(("front", "rear"), [(11.7, 11.7), (18.3, 9.5), (22.2, 0.0), (5.0, 26.7)])
def test_the_two_axle_lines_meet_at_the_turn_radius(front, rear):
    # Axle lines through (±W/2, 0); solved as two linear equations, distance to the long axis.
    directions = np.array([[-sin(radians(front)), cos(radians(front))], [sin(radians(rear)), cos(radians(rear))]])
    starts = np.array([[350.0, 0.0], [-350.0, 0.0]])
    lengths = np.linalg.solve(np.column_stack([directions[0], -directions[1]]), starts[1] - starts[0])
    centre = starts[0] + lengths[0] * directions[0]
    assert steering.turn_radius(700.0, front, rear) == pytest.approx(abs(centre[1]), rel=1e-12)


@pytest.mark.parametrize("lean", [0.5, 1.0, 2.0])
@pytest.mark.parametrize("axes", [(50, 50), (55, 35), (40, 20)])
def test_two_kingpins_agree_with_a_chain_of_rotations_at_small_lean(axes, lean):
    # Each kingpin's share of the lean is its turn times the cosine of its axis angle (first order).
    first_lean, second_lean = 0.6 * lean, 0.4 * lean
    turns = [first_lean / cos(radians(axes[0])), second_lean / cos(radians(axes[1]))]
    exact = steer_of(axle_after(axes, turns, lean))
    assert steering.two_kingpin_steer_deg(axes[0], first_lean, axes[1], second_lean) == pytest.approx(exact, rel=0.005)


def test_two_kingpins_at_full_lean_are_stated_high_by_the_sum():
    # Parallel axes turn as one axis with the whole lean, so the chain of rotations is known without the sum.
    exact = steer_of(axle_after((50, 50), (1.0, 1.0), 26.0))
    assert exact == pytest.approx(steering.steer_deg(50, 26.0), abs=1e-9)
    assert exact == pytest.approx(27.6, abs=0.05)
    assert steering.two_kingpin_steer_deg(50, 13.0, 50, 13.0) == pytest.approx(31.0, abs=0.05)


@pytest.mark.parametrize("tilt", [-3.0, 1.0, 4.0])
def test_signs_of_tilt_wedge_and_sag_by_turning_the_axes_as_vectors(tilt):
    # x toward the nose, z up. A turn about +y by +t degrees tips the nose down.
    def turned(vector, nose_down):
        return Rotation.from_euler("y", nose_down, degrees=True).apply(vector)

    def above_level(vector):
        return degrees(atan2(vector[2], hypot(vector[0], vector[1])))

    front = axis_in_deck(48.0)
    rear = front * np.array([-1.0, 1.0, 1.0])
    assert steering.front_axis_angle_deg(48.0, 0.0, 0.0, tilt) == pytest.approx(above_level(turned(front, tilt)))
    assert steering.rear_axis_angle_deg(48.0, 0.0, 0.0, tilt) == pytest.approx(above_level(turned(rear, tilt)))
    # A sagging deck drops its middle: the front end slopes nose up, the rear end nose down.
    assert steering.front_axis_angle_deg(48.0, 0.0, 3.0, 0.0) == pytest.approx(above_level(turned(front, -3.0)))
    assert steering.rear_axis_angle_deg(48.0, 0.0, 3.0, 0.0) == pytest.approx(above_level(turned(rear, 3.0)))
    # A wedge with its thick end toward the board's end pushes that end of the plate down.
    thick_out = steering.wedge_axis_change_deg(6.0, thick_end_toward_middle=False)
    assert steering.front_axis_angle_deg(48.0, thick_out, 0.0, 0.0) == pytest.approx(above_level(turned(front, 6.0)))
    assert steering.rear_axis_angle_deg(48.0, thick_out, 0.0, 0.0) == pytest.approx(above_level(turned(rear, -6.0)))

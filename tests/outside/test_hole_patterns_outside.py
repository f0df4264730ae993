"""Hole patterns against graph congruence, handedness by rotation fitting, least enclosing circles and ASME Y14.5."""

import itertools
import math
import random

import networkx
import numpy
import pytest
import shapely
from scipy.optimize import minimize_scalar
from scipy.spatial.transform import Rotation

from fitdb.formulas.hole_patterns import Hole, bolts_pass, grid_holes

HOLE, BOLT = 5.5, 5.0  # ISO 273 medium hole for M5


def laid(points, angle, dx, dy, mirrored=False):
    turn = numpy.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    return (points * (1.0, -1.0 if mirrored else 1.0)) @ turn.T + (dx, dy)


def holes(points, diameter=HOLE):
    return tuple(Hole(float(x), float(y), diameter) for x, y in points)


def distances_as_graph(points):
    graph = networkx.complete_graph(len(points))
    for i, j in graph.edges:
        graph.edges[i, j]["apart"] = float(numpy.linalg.norm(points[i] - points[j]))
    return graph


def congruence(points_a, points_b, tolerance):
    """(congruent by distances, congruent without mirroring): by networkx, and by scipy's rotation fit."""
    matcher = networkx.isomorphism.GraphMatcher(
        distances_as_graph(points_a),
        distances_as_graph(points_b),
        edge_match=lambda a, b: abs(a["apart"] - b["apart"]) <= tolerance,
    )
    by_distance = proper = False
    for mapping in matcher.isomorphisms_iter():
        by_distance = True
        other = points_b[[mapping[i] for i in range(len(points_a))]]
        flat_a, flat_b = points_a - points_a.mean(axis=0), other - other.mean(axis=0)
        # The part stays face up: a z vector with a heavy weight forbids the half-turn in space that would mirror it.
        solid_a = numpy.vstack([numpy.column_stack([flat_a, numpy.zeros(len(flat_a))]), [[0.0, 0.0, 100.0]]])
        solid_b = numpy.vstack([numpy.column_stack([flat_b, numpy.zeros(len(flat_b))]), [[0.0, 0.0, 100.0]]])
        weights = [1.0] * len(flat_a) + [1e6]
        rotation, _ = Rotation.align_vectors(solid_a, solid_b, weights=weights)
        left_over = numpy.linalg.norm(rotation.apply(solid_b) - solid_a, axis=1)[:-1].max()
        proper = proper or left_over <= tolerance
        if proper:
            break
    return by_distance, proper


@pytest.mark.parametrize("seed", range(120))
def test_congruence_and_handedness_as_graph_and_rotation_fit_see_them(seed) -> None:
    rng = random.Random(seed)
    count = rng.randint(3, 8)
    kind = ("moved", "mirrored", "one hole off", "unrelated")[seed % 4]
    a = numpy.array([(rng.uniform(-40, 40), rng.uniform(-40, 40)) for _ in range(count)])
    b = laid(a, rng.uniform(-3, 3), rng.uniform(-50, 50), rng.uniform(-50, 50), mirrored=kind == "mirrored")
    if kind == "one hole off":
        b[rng.randrange(count)] += (9.525, 0.0)
    if kind == "unrelated":
        b = numpy.array([(rng.uniform(-40, 40), rng.uniform(-40, 40)) for _ in range(count)])
    rng.shuffle(rows := list(range(count)))
    b = b[rows]
    by_distance, proper = congruence(a, b, 1e-6)
    assert (by_distance, proper) == {
        "moved": (True, True),
        "mirrored": (True, False),
        "one hole off": (False, False),
        "unrelated": (False, False),
    }[kind]
    # Holes a hundredth of a millimetre over the bolt: bolts pass exactly when the patterns are congruent.
    plain = bolts_pass(holes(a, 5.01), holes(b, 5.01), BOLT)
    turned_over = bolts_pass(holes(a, 5.01), holes(b, 5.01), BOLT, may_flip=True)
    assert (plain.margin_mm >= 0.0, plain.bound_mm >= 0.0) == (proper, proper)
    assert (turned_over.margin_mm >= 0.0, turned_over.bound_mm >= 0.0) == (by_distance, by_distance)


def test_a_mirrored_scalene_is_told_apart_though_its_distances_agree() -> None:
    a = numpy.array([(0.0, 0.0), (40.0, 0.0), (12.0, 25.0)])
    b = laid(a, 0.9, 7.0, -2.0, mirrored=True)
    assert congruence(a, b, 1e-6) == (True, False)
    assert bolts_pass(holes(a), holes(b), BOLT).bound_mm < 0.0
    assert bolts_pass(holes(a), holes(b), BOLT, may_flip=True).margin_mm == pytest.approx(0.5, abs=1e-9)


def test_the_rotation_of_a_three_four_five_triangle_is_found() -> None:
    # A turn of atan2(4, 3) = 53.1301 degrees, recovered by the rotation fit and by the pattern match alike.
    a = numpy.array([(0.0, 0.0), (40.0, 0.0), (12.0, 25.0)])
    b = laid(a, -math.atan2(4.0, 3.0), 0.0, 0.0)
    fit, error = Rotation.align_vectors(numpy.column_stack([a, [0.0] * 3]), numpy.column_stack([b, [0.0] * 3]))
    assert error == pytest.approx(0.0, abs=1e-6)
    assert math.degrees(fit.magnitude()) == pytest.approx(53.1301, abs=1e-4)
    assert bolts_pass(holes(a), holes(b), BOLT).rotation_deg == pytest.approx(53.1301, abs=1e-4)


def enclosing_circle_margin(points_a, points_b, allowed):
    """The margin by another road: at each rotation and pairing the offsets a − R b need a common shift, and the best
    one is the middle of their least enclosing circle (shapely); every pairing, every degree, then a line search."""
    best = -math.inf
    for order in itertools.permutations(range(len(points_b))):
        other = points_b[list(order)]

        def radius(angle, other=other):
            return shapely.minimum_bounding_radius(shapely.MultiPoint(points_a - laid(other, angle, 0.0, 0.0)))

        angles = numpy.radians(numpy.arange(0.0, 360.0, 1.0))
        coarse = min(angles, key=radius)
        fine = minimize_scalar(radius, bounds=(coarse - 0.02, coarse + 0.02), method="bounded", options={"xatol": 1e-9})
        best = max(best, allowed - min(float(fine.fun), radius(coarse)))
    return best


@pytest.mark.parametrize("seed", range(24))
def test_the_margin_is_the_one_that_least_enclosing_circles_give(seed) -> None:
    rng = random.Random(1000 + seed)
    count = 3 if seed % 3 else 4
    a = numpy.array([(rng.uniform(-40, 40), rng.uniform(-40, 40)) for _ in range(count)])
    if seed % 3 == 0:  # a square, so that several pairings are nearly as good and the best has to be picked
        a = numpy.array([(20.0, 20.0), (-20.0, 20.0), (-20.0, -20.0), (20.0, -20.0)])
    scatter = (1.0, 0.5, 3.0)[seed % 3]
    b = laid(a + numpy.array([[rng.uniform(-scatter, scatter) for _ in range(2)] for _ in range(count)]), 2.0, 9.0, 4.0)
    match = bolts_pass(holes(a), holes(b), BOLT)
    reference = enclosing_circle_margin(a, b, HOLE - BOLT)
    assert match.margin_mm == pytest.approx(reference, abs=2e-3 + 0.002 * abs(min(0.0, reference)))
    assert match.margin_mm <= reference + 1e-4
    assert match.bound_mm >= reference - 1e-4


# ASME Y14.5-2009 Appendix B: floating H = F + T, fixed T1 + T2 = H − F. Each pattern at its worst allowed place:
# spacing T over in one part (each hole T/2 out), T under in the other.
@pytest.mark.parametrize(
    ("hole", "bolt", "tolerance", "threaded"),
    [
        (5.5, 5.0, 0.5, "neither"),  # M5, ISO 273 medium, both parts: diameter 0.5 each
        (5.5, 5.0, 0.25, "b"),  # M5 into tapped holes: diameter 0.25 each
        (5.5, 4.826, 0.674, "neither"),  # #10 (0.190 in) in 5.5 mm
    ],
)
@pytest.mark.parametrize("kind", ["two holes", "four holes"])
def test_y14_5_tolerances_are_exactly_used_up(hole, bolt, tolerance, threaded, kind) -> None:
    def at_worst(sign):
        if kind == "two holes":
            return holes([(-20.0 - sign * tolerance / 2, 0.0), (20.0 + sign * tolerance / 2, 0.0)], hole)
        diagonal = math.hypot(60.0, 40.0)
        return grid_holes(60.0 * (1 + sign * tolerance / diagonal), 40.0 * (1 + sign * tolerance / diagonal), hole)

    match = bolts_pass(at_worst(1), at_worst(-1), bolt, threaded=threaded)
    assert match.margin_mm == pytest.approx(0.0, abs=1e-6)
    assert match.bound_mm == pytest.approx(0.0, abs=1e-3)


def test_both_grids_of_the_trade_by_graph_and_by_bolts() -> None:
    # 2 1/2 x 1 5/8 in and 2 1/8 x 1 5/8 in: common practice, no source. 3/16 in drill and #10 bolt: 4.7625 < 4.826 mm.
    long, short = grid_holes(63.5, 41.275, 5.4), grid_holes(53.975, 41.275, 5.4)
    points = [numpy.array([(h.x, h.y) for h in pattern]) for pattern in (long, short)]
    assert congruence(points[0], laid(points[0], 1.0, 5.0, 5.0), 1e-6) == (True, True)
    assert congruence(points[0], points[1], 1.2) == (False, False)
    assert bolts_pass(long, short, 4.826, may_flip=True).bound_mm < -4.0
    assert bolts_pass(grid_holes(63.5, 41.275, 4.7625), grid_holes(63.5, 41.275, 4.7625), 4.826).bound_mm < 0.0

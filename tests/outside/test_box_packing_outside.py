"""Box packing against puzzles with published answers, against cavities cut up by hand, and against a second method.

Every arrangement the program claims is checked by the small checker below, which shares no code with it; every
refusal is checked against a published impossibility, a volume anyone can add up, or an independent exhaustive search.
"""

from __future__ import annotations

import random
from itertools import permutations, product

import pytest

from fitdb.formulas.box_packing import Box, Cavity, KeepOut, Packing, pack


def assert_lies_free(cavity: Cavity, boxes: list[Box], packing: Packing) -> None:
    """Every box once, in its own sizes, inside the cavity, off the keep-outs and off every other box."""
    assert [placement.name for placement in packing.placements] == [box.name for box in boxes]
    taken = [((k.x, k.y, k.z), (k.x + k.length, k.y + k.width, k.z + k.height)) for k in cavity.keep_outs]
    for box, placement in zip(boxes, packing.placements, strict=True):
        assert sorted(placement.size) == sorted((box.length, box.width, box.height))
        low = placement.block_corner
        high = tuple(at + long for at, long in zip(low, placement.block_size, strict=True))
        assert all(at >= 0 for at in low)
        assert high[0] <= cavity.length and high[1] <= cavity.width and high[2] <= cavity.height
        for other_low, other_high in taken:
            apart = [high[a] <= other_low[a] or other_high[a] <= low[a] for a in range(3)]
            assert any(apart), f"{box.name} overlaps something"
        taken.append((low, (high[0], high[1], high[2])))


def alike(count: int, length: int, width: int, height: int) -> list[Box]:
    return [Box(f"{length}x{width}x{height} no {n + 1}", length, width, height) for n in range(count)]


# --- published puzzles -----------------------------------------------------------------------------------------


def test_slothouber_graatsma_goes_with_its_three_unit_cubes() -> None:
    """Six 1x2x2 and three 1x1x1 fill a 3x3x3 cube (Slothouber and Graatsma; Knuth, TAOCP 7.2.2.1)."""
    boxes = alike(6, 1, 2, 2) + alike(3, 1, 1, 1)
    cavity = Cavity(3, 3, 3)
    packing = pack(cavity, boxes, seconds=4)
    assert packing.answer == "goes"
    assert_lies_free(cavity, boxes, packing)
    # the three unit cubes lie on a diagonal of the cube: in different layers whichever way one looks
    units = [placement.corner for placement in packing.placements[6:]]
    assert all(sorted(corner[axis] for corner in units) == [0, 1, 2] for axis in range(3))


def test_seven_1x2x2_do_not_go_into_a_3x3x3_cube() -> None:
    """7 x 4 = 28 > 27: the volume settles it."""
    packing = pack(Cavity(3, 3, 3), alike(7, 1, 2, 2))
    assert (packing.answer, packing.code) == ("cannot", "volume")


def test_27_of_1x2x4_do_not_go_into_a_6x6x6_cube_though_the_volumes_are_equal() -> None:
    """de Bruijn, "Filling boxes with bricks", American Mathematical Monthly 76 (1969) 37-40 (from memory)."""
    packing = pack(Cavity(6, 6, 6), alike(27, 1, 2, 4), seconds=5)
    assert (packing.answer, packing.code) == ("cannot", "no_arrangement")


def test_26_of_1x2x4_go_into_a_6x6x6_cube() -> None:
    boxes = alike(26, 1, 2, 4)
    packing = pack(Cavity(6, 6, 6), boxes, seconds=5)
    assert packing.answer == "goes"
    assert_lies_free(Cavity(6, 6, 6), boxes, packing)


def test_31_of_1x1x4_go_into_a_5x5x5_cube() -> None:
    """Published as a packing puzzle; 31 x 4 = 124 of 125 cells."""
    boxes = alike(31, 1, 1, 4)
    packing = pack(Cavity(5, 5, 5), boxes, seconds=5)
    assert packing.answer == "goes"
    assert_lies_free(Cavity(5, 5, 5), boxes, packing)


# --- cavities cut up by hand -----------------------------------------------------------------------------------


def guillotine_cuts(size: tuple[int, int, int], pieces: int, dice: random.Random) -> list[tuple[int, int, int]]:
    """Cut the largest piece straight through, again and again: what comes out goes back in, filling it."""
    parts = [list(size)]
    while len(parts) < pieces:
        parts.sort(key=lambda part: part[0] * part[1] * part[2])
        part = parts.pop()
        axis = max(range(3), key=lambda a: part[a] * dice.uniform(0.5, 1.0))
        at = round(part[axis] * dice.uniform(0.3, 0.7))
        for long in (at, part[axis] - at):
            parts.append([long if a == axis else part[a] for a in range(3)])
    return [(part[0], part[1], part[2]) for part in parts]


@pytest.mark.parametrize("number", range(10))
def test_a_cavity_cut_into_pieces_takes_the_pieces_back_and_not_a_tenth_more(number: int) -> None:
    dice = random.Random(number)
    cavity = Cavity(3100, 1470, 610)
    parts = [tuple(dice.sample(part, 3)) for part in guillotine_cuts((3100, 1470, 610), 4 + number % 4, dice)]
    boxes = [Box(f"piece {n}", *part) for n, part in enumerate(parts)]
    dice.shuffle(boxes)
    packing = pack(cavity, boxes, seconds=4)
    assert packing.answer == "goes"
    assert_lies_free(cavity, boxes, packing)

    grown = dice.randrange(len(boxes))
    sizes = [boxes[grown].length, boxes[grown].width, boxes[grown].height]
    sizes[dice.randrange(3)] += 1
    boxes[grown] = Box(boxes[grown].name, *sizes)
    assert pack(cavity, boxes, seconds=4).answer == "cannot"


# --- a second method: every pushed-home position tried, for two to four boxes --------------------------------------


def goes_by_trying_everything(cavity: Cavity, boxes: list[Box]) -> bool:
    """Plain exhaustive search over whole-tenth positions; usable for cavities of a few tenths only."""
    cells = {
        (x, y, z)
        for k in cavity.keep_outs
        for x, y, z in product(range(k.x, k.x + k.length), range(k.y, k.y + k.width), range(k.z, k.z + k.height))
    }

    def place(rest: list[Box], taken: set[tuple[int, int, int]]) -> bool:
        if not rest:
            return True
        box = rest[0]
        for dx, dy, dz in set(permutations((box.length, box.width, box.height))):
            for x, y, z in product(
                range(cavity.length - dx + 1), range(cavity.width - dy + 1), range(cavity.height - dz + 1)
            ):
                block = set(product(range(x, x + dx), range(y, y + dy), range(z, z + dz)))
                if not block & taken and place(rest[1:], taken | block):
                    return True
        return False

    return place(boxes, cells)


@pytest.mark.parametrize("number", range(60))
def test_small_cavities_agree_with_trying_everything(number: int) -> None:
    dice = random.Random(1000 + number)
    cavity = Cavity(dice.randint(3, 5), dice.randint(3, 4), dice.randint(2, 3))
    if number % 3 == 0:
        cavity = Cavity(
            cavity.length, cavity.width, cavity.height, keep_outs=(KeepOut("boss", dice.randint(0, 2), 1, 0, 1, 1, 2),)
        )
    boxes = [Box(f"box {n}", *(dice.randint(1, 3) for _ in range(3))) for n in range(2 + number % 3)]
    packing = pack(cavity, boxes, seconds=2)
    assert packing.answer == ("goes" if goes_by_trying_everything(cavity, boxes) else "cannot")
    if packing.answer == "goes":
        assert_lies_free(cavity, boxes, packing)


# --- plans that are not rectangles -----------------------------------------------------------------------------

U_PLAN = ((0, 0), (1000, 0), (1000, 1000), (700, 1000), (700, 200), (300, 200), (300, 1000), (0, 1000))


def test_a_box_within_the_bounds_of_a_u_shaped_plan_does_not_go_across_its_gap() -> None:
    """The U is 1000 wide with legs of 300 and a floor of 200: a square of 500 is inside its bounds only. By hand."""
    cavity = Cavity(1000, 1000, 100, plan_outline=U_PLAN)
    assert pack(cavity, [Box("square", 500, 500, 100)]).answer == "cannot"
    assert pack(Cavity(1000, 1000, 100), [Box("square", 500, 500, 100)]).answer == "goes"


def test_a_u_shaped_plan_takes_three_bars_that_fill_it_and_not_a_tenth_more() -> None:
    cavity = Cavity(1000, 1000, 100, plan_outline=U_PLAN)
    bars = [Box("left", 300, 800, 100), Box("right", 800, 300, 100), Box("floor", 200, 1000, 100)]
    packing = pack(cavity, bars, seconds=2)
    assert packing.answer == "goes"
    assert {placement.block_corner for placement in packing.placements} == {(0, 200, 0), (700, 200, 0), (0, 0, 0)}
    bars[0] = Box("left", 300, 801, 100)
    assert pack(cavity, bars, seconds=2).answer == "cannot"


def test_a_trapezium_plan_takes_what_fits_between_its_slanted_sides() -> None:
    """Bottom 1000, top 600, height 500: at height h the plan is 1000 - 0.8 h wide. By hand."""
    cavity = Cavity(1000, 500, 100, plan_outline=((0, 0), (1000, 0), (800, 500), (200, 500)))
    for width, height, answer in ((800, 250, "goes"), (600, 500, "goes"), (803, 250, "cannot"), (603, 500, "cannot")):
        box = Box("box", width, height, 100, turns=("fixed",))
        assert pack(cavity, [box], seconds=2).answer == answer, (width, height)


def test_a_triangle_takes_its_largest_square_and_little_more() -> None:
    """The square on the base b of a triangle of height h has the side b h / (b + h): 1000 and 1000 give 500."""
    cavity = Cavity(1000, 1000, 10, plan_outline=((0, 0), (1000, 0), (500, 1000)))
    assert pack(cavity, [Box("square", 500, 500, 10)], seconds=2).answer == "goes"
    assert pack(cavity, [Box("square", 503, 503, 10)], seconds=2).answer == "cannot"


@pytest.mark.parametrize("number", range(25))
def test_a_box_in_a_slanted_plan_agrees_with_linear_programming(number: int) -> None:
    """Four corners inside every side of a convex plan is a linear programme in the corner's place; scipy solves it
    in real numbers, once with the box a little larger and once a little smaller than asked."""
    from scipy.optimize import linprog
    from scipy.spatial import ConvexHull

    dice = random.Random(number)
    points = [(dice.randint(0, 600), dice.randint(0, 400)) for _ in range(7)]
    hull = ConvexHull(points)
    outline = tuple(points[n] for n in hull.vertices)
    cavity = Cavity(600, 400, 50, plan_outline=outline)
    length, width = dice.randint(80, 330), dice.randint(60, 220)

    def goes(dx: float, dy: float) -> bool:
        sides, limits = [], []
        for a, b, c in hull.equations:  # a x + b y + c <= 0 inside
            sides.append([a, b])
            limits.append(-c - max(a * dx, 0.0) - max(b * dy, 0.0))
        return bool(linprog([0, 0], A_ub=sides, b_ub=limits, bounds=(None, None)).status == 0)

    answer = pack(cavity, [Box("box", length, width, 50, turns=("fixed",))], seconds=2).answer
    if goes(length + 3, width + 3):
        assert answer == "goes"
    elif not goes(length - 3, width - 3):
        assert answer == "cannot"
    else:
        assert answer in ("undecided", "goes" if goes(length, width) else "cannot")


def test_a_box_that_fits_only_between_two_tenths_is_not_refused() -> None:
    """A square of 1000 across its corners takes any box with length + width <= 1000, in the middle: 501 x 499 lies at
    249.5, which is no whole tenth, and yet it fits. By hand."""
    cavity = Cavity(1000, 1000, 10, plan_outline=((500, 0), (1000, 500), (500, 1000), (0, 500)))

    def answer(length: int, width: int) -> str:
        return pack(cavity, [Box("box", length, width, 10, turns=("fixed",))], seconds=2).answer

    assert answer(500, 500) == "goes"
    assert answer(501, 499) != "cannot"
    assert answer(504, 502) == "cannot"


def test_a_triangle_on_its_point_is_not_refused_what_fits_only_between_two_tenths() -> None:
    """1000 wide at the top, 1000 deep: at depth w from the point it is w wide. 501 x 499 lies at 249.5. By hand."""
    cavity = Cavity(1000, 1000, 10, plan_outline=((0, 1000), (500, 0), (1000, 1000)))

    def answer(length: int, width: int) -> str:
        return pack(cavity, [Box("box", length, width, 10, turns=("fixed",))], seconds=2).answer

    assert answer(500, 500) == "goes"
    assert answer(501, 499) != "cannot"
    assert answer(505, 499) == "cannot"

"""Do these boxes go into this cavity together, and where does each one lie?

Everything inside is a whole number of tenths of a millimetre: sizes that must go in are rounded up
(``size_in_tenths``), openings are rounded down (``opening_in_tenths``), so rounding never lets a box in that
does not go. Boxes lie square to the cavity; tilting a box is not considered.

What is counted as a box is its *block*: the body, the clearance on every side and the room kept free for leads
at one face. A block belongs to one box alone: neighbours do not share clearance, and nothing else may lie where
the leads bend. Wall draft, corner fillets (model them as keep-outs), cables and the order in which things are put
in are not part of the question.

Three answers. ``goes`` comes with placements that anybody can check. ``cannot`` is a proof: a counting argument,
a complete case list or a finished exhaustive search. Everything else, time running out above all, is
``undecided``. The search is bounded by counted work, not by the clock, so the same question gets the same answer
on a slow machine; the clock is a safety stop only, and the code word ``clock_ran_out`` says when it was used.

Sources: extreme points, Crainic, Perboli, Tadei, INFORMS J. Computing 20 (2008) 368-384; the counting arguments are
the simplest dual feasible functions of Fekete and Schepers, Math. Methods Oper. Res. 60 (2004) 311-329; positions
pushed to the walls ("normal patterns"), Herz 1972, Christofides and Whitlock 1977. All from memory.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations, pairwise, product
from typing import Any, Literal

Answer = Literal["goes", "cannot", "undecided"]
Point = tuple[int, int, int]
Size = tuple[int, int, int]

AXES = ("length", "width", "height")

# Which of the box's own sizes (0 length, 1 width, 2 height) lies along the length, width, height of the cavity.
ORIENTATIONS: dict[str, tuple[tuple[int, int, int], ...]] = {
    "any": ((0, 1, 2), (0, 2, 1), (1, 0, 2), (1, 2, 0), (2, 0, 1), (2, 1, 0)),
    "upright": ((0, 1, 2), (1, 0, 2)),
    "fixed": ((0, 1, 2),),
    "length_width_height": ((0, 1, 2),),
    "length_height_width": ((0, 2, 1),),
    "width_length_height": ((1, 0, 2),),
    "width_height_length": ((1, 2, 0),),
    "height_length_width": ((2, 0, 1),),
    "height_width_length": ((2, 1, 0),),
}

LEAD_FACES = ("length+", "length-", "width+", "width-", "height+", "height-")


@dataclass(frozen=True)
class Lead:
    """Room kept free at one face of a box, for leads to leave and bend. ``face`` is the box's own axis and the
    end of it ("length+" is the far end of the length); ``room`` in tenths of a millimetre."""

    face: str
    room: int

    def __post_init__(self) -> None:
        if self.face not in LEAD_FACES:
            raise ValueError(f"Lead.face is {self.face!r}; it must be one of {', '.join(LEAD_FACES)}.")
        _check_whole("Lead.room", self.room, least=0)


@dataclass(frozen=True)
class Box:
    """A box to be put in. Sizes and clearance in tenths of a millimetre, clearance per side.

    ``turns`` lists the ways it may lie: "any", "upright" (may turn in plan only), "fixed" (as given), or single
    ways such as "width_length_height": the own sizes that lie along the cavity's length, width and height.
    """

    name: str
    length: int
    width: int
    height: int
    turns: tuple[str, ...] = ("any",)
    clearance: int = 0
    lead: Lead | None = None

    def __post_init__(self) -> None:
        for axis in AXES:
            _check_whole(f"{axis} of box {self.name!r}", getattr(self, axis), least=1)
        _check_whole(f"clearance of box {self.name!r}", self.clearance, least=0)
        unknown = [turn for turn in self.turns if turn not in ORIENTATIONS]
        if unknown or not self.turns:
            raise ValueError(
                f"turns of box {self.name!r} is {self.turns!r}; give a tuple of one or more of "
                f"{', '.join(ORIENTATIONS)}."
            )


@dataclass(frozen=True)
class KeepOut:
    """A part of the cavity where nothing may lie: a boss, a rib, a fillet's square. Corner nearest the cavity's
    origin and size, in tenths of a millimetre; what sticks out of the cavity is cut off."""

    name: str
    x: int
    y: int
    z: int
    length: int
    width: int
    height: int

    def __post_init__(self) -> None:
        for axis in ("x", "y", "z"):
            _check_whole(f"{axis} of keep-out {self.name!r}", getattr(self, axis), least=None)
        for axis in AXES:
            _check_whole(f"{axis} of keep-out {self.name!r}", getattr(self, axis), least=1)


@dataclass(frozen=True)
class Cavity:
    """The room inside, in tenths of a millimetre. ``plan_outline`` is the corner list of the plan, in order,
    when the plan is not a rectangle; it must lie within 0..length and 0..width and may have notches."""

    length: int
    width: int
    height: int
    keep_outs: tuple[KeepOut, ...] = ()
    plan_outline: tuple[tuple[int, int], ...] | None = None

    def __post_init__(self) -> None:
        for axis in AXES:
            _check_whole(f"{axis} of the cavity", getattr(self, axis), least=1)
        if self.plan_outline is not None:
            _check_outline(self.plan_outline, self.length, self.width)


@dataclass(frozen=True)
class Placement:
    """Where one box lies: ``corner`` and ``size`` of the body, ``block_corner`` and ``block_size`` of the body
    with its clearance and lead room, all along the cavity's axes in tenths of a millimetre. ``lies`` names the
    box's own sizes along the cavity's length, width and height."""

    name: str
    lies: str
    corner: Point
    size: Size
    block_corner: Point
    block_size: Size


@dataclass(frozen=True)
class Packing:
    """The answer. ``code`` is a stable word, ``why`` one plain sentence with the numbers, ``method`` names what
    settled it. ``seconds`` is the time it took and takes no part in comparison."""

    answer: Answer
    placements: tuple[Placement, ...]
    code: str
    why: str
    method: str
    seconds: float = field(compare=False)


def size_in_tenths(millimetres: float) -> int:
    """A size that must go in, in tenths of a millimetre, rounded up (noise below 1e-7 mm is dropped)."""
    return math.ceil(_tenths(millimetres) - 1e-6)


def opening_in_tenths(millimetres: float) -> int:
    """An opening, in tenths of a millimetre, rounded down (noise below 1e-7 mm is dropped)."""
    return math.floor(_tenths(millimetres) + 1e-6)


def pack(cavity: Cavity, boxes: Sequence[Box], seconds: float = 1.0, seed: int = 0) -> Packing:
    """Can all ``boxes`` lie in ``cavity`` at once?

    seconds: the budget, > 0. It is turned into a count of work (about this many seconds on one core of an
             ordinary machine); the clock only stops a run at four times the budget.
    seed:    of the restarts and of the search; same question and seed, same answer.

    Raises ValueError for a budget that is not positive or two boxes of the same name.
    """
    started = time.perf_counter()
    if not (math.isfinite(seconds) and seconds > 0):
        raise ValueError(f"pack: seconds is {seconds!r}; the budget must be a number above 0.")
    if len({box.name for box in boxes}) != len(boxes):
        raise ValueError("pack: two boxes have the same name; name every box differently, the placements need it.")
    blocks = tuple(_block(box) for box in boxes)
    outcome = _decide(cavity, blocks, seconds, seed, started)
    return Packing(
        answer=outcome.answer,
        placements=tuple(_placement(block, *spot) for block, spot in zip(blocks, outcome.spots, strict=False)),
        code=outcome.code,
        why=outcome.why,
        method=outcome.method,
        seconds=time.perf_counter() - started,
    )


# --- inside: blocks, obstacles, outcomes -----------------------------------------------------------------------


@dataclass(frozen=True)
class _Block:
    """A box grown by clearance and lead room; ``shapes`` are its distinct sizes along the cavity's axes and
    ``ways`` the orientation that gives each."""

    box: Box
    shapes: tuple[Size, ...]
    ways: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True)
class _Line:
    """The straight line through two corners of the outline, x1 < x2."""

    x1: int
    y1: int
    x2: int
    y2: int

    def at(self, x: int) -> Fraction:
        return self.y1 + Fraction((x - self.x1) * (self.y2 - self.y1), self.x2 - self.x1)


@dataclass(frozen=True)
class _Wedge:
    """A part of the bounding rectangle outside a slanted outline, as high as the cavity: between x1 and x2,
    above ``below`` and under ``above`` (both lines; the walls y = 0 and y = width are lines too)."""

    x1: int
    x2: int
    below: _Line
    above: _Line

    def lowest(self) -> Fraction:
        return min(self.below.at(self.x1), self.below.at(self.x2))

    def highest(self) -> Fraction:
        return max(self.above.at(self.x1), self.above.at(self.x2))


@dataclass(frozen=True)
class _Room:
    """The cavity as the search sees it: its size, solid boxes in it (corner, size) and wedges outside a slanted
    outline."""

    size: Size
    solids: tuple[tuple[Point, Size], ...]
    wedges: tuple[_Wedge, ...]

    @property
    def bare(self) -> bool:
        return not self.solids and not self.wedges


# Per block: which shape it takes and where its corner is.
_Spot = tuple[int, Point]


@dataclass(frozen=True)
class _Outcome:
    answer: Answer
    code: str
    why: str
    method: str
    spots: tuple[_Spot, ...] = ()


def _decide(cavity: Cavity, blocks: tuple[_Block, ...], seconds: float, seed: int, started: float) -> _Outcome:
    room = _room(cavity)
    blocks_in, refusal = _shapes_that_enter(room, blocks)
    if refusal is None and blocks:
        refusal = _refused_by_counting(room, blocks_in)
    if refusal is not None:
        return refusal
    spots: tuple[_Spot, ...] | None
    if not blocks:
        return _goes(room, blocks_in, (), "nothing to place")
    if room.bare and len(blocks) <= 3:
        spots = _complete_cases(room, blocks_in)
        if spots is None:
            return _cannot_by_search(room, blocks_in, "complete case list")
        return _goes(room, blocks_in, _translate(blocks, blocks_in, spots), "complete case list")
    if len(blocks) == 1 and not room.wedges and len(room.solids) <= 6:
        spots = _first_fit(room, blocks_in, seed, budget=20_000, corners=True)
        if spots is None:
            return _cannot_by_search(room, blocks_in, "complete corner list")
        return _goes(room, blocks_in, _translate(blocks, blocks_in, spots), "complete corner list")
    spots = _first_fit(room, blocks_in, seed, budget=int(FIRST_FIT_SHARE * CHECKS_PER_SECOND * seconds))
    if spots is not None:
        return _goes(room, blocks_in, _translate(blocks, blocks_in, spots), "extreme points")
    outcome = _search(room, blocks_in, seconds, seed, started)
    if outcome.answer == "goes":
        return _goes(room, blocks_in, _translate(blocks, blocks_in, outcome.spots), outcome.method)
    return outcome


def _goes(room: _Room, blocks: tuple[_Block, ...], spots: tuple[_Spot, ...], method: str) -> _Outcome:
    free = 100 * (1 - sum(math.prod(block.shapes[0]) for block in blocks) / _free_volume(room))
    return _Outcome(
        "goes",
        "found_arrangement",
        f"{_how_many(len(blocks))} found a place in the cavity of {_mm_size(room.size)}, clearance and lead room "
        f"counted; {free:.0f} % of its room stays empty.",
        method,
        spots,
    )


def _cannot_by_search(room: _Room, blocks: tuple[_Block, ...], method: str) -> _Outcome:
    filled = 100 * sum(math.prod(block.shapes[0]) for block in blocks) / _free_volume(room)
    return _Outcome(
        "cannot",
        "no_arrangement",
        f"{_how_many(len(blocks))} would fill {filled:.0f} % of the cavity of {_mm_size(room.size)}, but every "
        "arrangement in the allowed ways of lying has been ruled out.",
        method,
    )


def _block(box: Box) -> _Block:
    grown = [box.length, box.width, box.height]
    grown = [size + 2 * box.clearance for size in grown]
    if box.lead is not None:
        grown[LEAD_FACES.index(box.lead.face) // 2] += box.lead.room
    found: dict[Size, tuple[int, int, int]] = {}
    for turn in box.turns:
        for way in ORIENTATIONS[turn]:
            found.setdefault((grown[way[0]], grown[way[1]], grown[way[2]]), way)
    return _Block(box, tuple(found), tuple(found.values()))


def _placement(block: _Block, shape: int, corner: Point) -> Placement:
    box, way, size = block.box, block.ways[shape], block.shapes[shape]
    own = (box.length, box.width, box.height)
    body_corner = [at + box.clearance for at in corner]
    if box.lead is not None and box.lead.face.endswith("-"):
        body_corner[way.index(LEAD_FACES.index(box.lead.face) // 2)] += box.lead.room
    return Placement(
        name=box.name,
        lies="_".join(AXES[axis] for axis in way),
        corner=(body_corner[0], body_corner[1], body_corner[2]),
        size=(own[way[0]], own[way[1]], own[way[2]]),
        block_corner=corner,
        block_size=size,
    )


def _translate(
    blocks: tuple[_Block, ...], blocks_in: tuple[_Block, ...], spots: tuple[_Spot, ...]
) -> tuple[_Spot, ...]:
    """Shape numbers among the shapes that enter, turned into shape numbers among all shapes."""
    return tuple(
        (block.shapes.index(entering.shapes[shape]), corner)
        for block, entering, (shape, corner) in zip(blocks, blocks_in, spots, strict=True)
    )


# --- inside: the room ------------------------------------------------------------------------------------------


def _room(cavity: Cavity) -> _Room:
    size = (cavity.length, cavity.width, cavity.height)
    solids = []
    for keep_out in cavity.keep_outs:
        low = (keep_out.x, keep_out.y, keep_out.z)
        extent = (keep_out.length, keep_out.width, keep_out.height)
        solids.append(_clipped(low, extent, size))
    wedges = []
    for piece in _outside_of(cavity.plan_outline, size) if cavity.plan_outline is not None else ():
        level = piece.below.y1 == piece.below.y2 and piece.above.y1 == piece.above.y2
        if level:
            low = (piece.x1, piece.below.y1, 0)
            solids.append((low, (piece.x2 - piece.x1, piece.above.y1 - piece.below.y1, size[2])))
        else:
            wedges.append(piece)
    return _Room(size, tuple(solid for solid in solids if solid is not None), tuple(wedges))


def _clipped(low: Point, extent: Size, size: Size) -> tuple[Point, Size] | None:
    start = [max(0, at) for at in low]
    end = [min(limit, at + long) for limit, at, long in zip(size, low, extent, strict=True)]
    if any(stop <= begin for begin, stop in zip(start, end, strict=True)):
        return None
    return (start[0], start[1], start[2]), (end[0] - start[0], end[1] - start[1], end[2] - start[2])


def _outside_of(outline: tuple[tuple[int, int], ...], size: Size) -> Iterator[_Wedge]:
    """The bounding rectangle less the outline, cut into strips at every corner of the outline: in each strip the
    outline's edges do not cross, so what lies between every second pair of them is outside."""
    edges = [
        _Line(*min(first, second), *max(first, second))
        for first, second in zip(outline, outline[1:] + outline[:1], strict=True)
        if first[0] != second[0]
    ]
    floor, ceiling = _Line(0, 0, size[0], 0), _Line(0, size[1], size[0], size[1])
    cuts = sorted({0, size[0]} | {x for x, _ in outline})
    for x1, x2 in pairwise(cuts):
        crossing = [edge for edge in edges if edge.x1 <= x1 and edge.x2 >= x2]
        crossing.sort(key=lambda edge: edge.at(x1) + edge.at(x2))
        walls = [floor, *crossing, ceiling]
        for below, above in zip(walls[::2], walls[1::2], strict=True):
            if below.at(x1) < above.at(x1) or below.at(x2) < above.at(x2):
                yield _Wedge(x1, x2, below, above)


def _slices(wedge: _Wedge, step: int) -> Iterator[tuple[Point, Size]]:
    """Rectangles in plan that together cover a wedge (a little more than it, never less)."""
    for x1 in range(wedge.x1, wedge.x2, step):
        x2 = min(x1 + step, wedge.x2)
        low = math.floor(min(wedge.below.at(x1), wedge.below.at(x2)))
        high = math.ceil(max(wedge.above.at(x1), wedge.above.at(x2)))
        yield (x1, low, 0), (x2 - x1, high - low, 0)


def _free_volume(room: _Room) -> float:
    return max(float(_free_volume_exactly(room)), 1.0)


def _free_volume_exactly(room: _Room) -> Fraction:
    """The cavity's volume less its wedges and its solids. Solids that overlap one another count once; where a
    solid overlaps a wedge the wedge is not counted, so the result is never too small."""
    cuts = [
        sorted(
            {0, room.size[axis]}
            | {end for corner, size in room.solids for end in (corner[axis], corner[axis] + size[axis])}
        )
        for axis in range(3)
    ]
    taken = 0
    if room.solids:
        for low_high in product(*(pairwise(cut) for cut in cuts)):
            if any(
                all(corner[a] <= low_high[a][0] and low_high[a][1] <= corner[a] + size[a] for a in range(3))
                for corner, size in room.solids
            ):
                taken += math.prod(high - low for low, high in low_high)
    free = Fraction(math.prod(room.size) - taken)
    for wedge in room.wedges:
        bounds = (wedge.x1, math.floor(wedge.lowest()), 0)
        extent = (wedge.x2 - wedge.x1, math.ceil(wedge.highest()) - bounds[1], room.size[2])
        if not any(_overlap(bounds, extent, corner, size) for corner, size in room.solids):
            left = wedge.above.at(wedge.x1) - wedge.below.at(wedge.x1)
            right = wedge.above.at(wedge.x2) - wedge.below.at(wedge.x2)
            free -= Fraction(wedge.x2 - wedge.x1, 2) * (left + right) * room.size[2]
    return free


def _overlap(corner: Sequence[int], size: Sequence[int], other: Sequence[int], other_size: Sequence[int]) -> bool:
    return (
        corner[0] < other[0] + other_size[0]
        and other[0] < corner[0] + size[0]
        and corner[1] < other[1] + other_size[1]
        and other[1] < corner[1] + size[1]
        and corner[2] < other[2] + other_size[2]
        and other[2] < corner[2] + size[2]
    )


# --- inside: refusals that need no search ----------------------------------------------------------------------


def _shapes_that_enter(room: _Room, blocks: tuple[_Block, ...]) -> tuple[tuple[_Block, ...], _Outcome | None]:
    entering = []
    for block in blocks:
        kept = [
            number
            for number, shape in enumerate(block.shapes)
            if all(long <= limit for long, limit in zip(shape, room.size, strict=True))
        ]
        if not kept:
            return (), _too_large(room, block)
        entering.append(_Block(block.box, tuple(block.shapes[n] for n in kept), tuple(block.ways[n] for n in kept)))
    return tuple(entering), None


def _too_large(room: _Room, block: _Block) -> _Outcome:
    closest = min(
        block.shapes,
        key=lambda shape: max(long - limit for long, limit in zip(shape, room.size, strict=True)),
    )
    over, axis = max((long - limit, n) for n, (long, limit) in enumerate(zip(closest, room.size, strict=True)))
    return _Outcome(
        "cannot",
        "too_large_every_way",
        f"{block.box.name} needs {_mm_size(closest)} with clearance and lead room, and the cavity is "
        f"{_mm_size(room.size)}: {_mm(over)} mm too much along its {AXES[axis]} in the least bad of the "
        f"{len(block.shapes)} allowed way(s) of lying.",
        "single boxes",
    )


def _refused_by_counting(room: _Room, blocks: tuple[_Block, ...]) -> _Outcome | None:
    """Volume first; then every two boxes, which must pass each other along some axis; then, for every set of axes, the
    boxes longer than half the cavity along all of them, however they lie: no two of those can pass each other along
    these axes, so what they need across the remaining axes adds up."""
    free = _free_volume_exactly(room)
    needed = sum(math.prod(block.shapes[0]) for block in blocks)
    if needed > free:
        return _Outcome(
            "cannot",
            "volume",
            f"{_how_many(len(blocks))} need {needed / 1e6:.3f} cm³ with clearance and lead room, and the cavity "
            f"has {float(free) / 1e6:.3f}.",
            "volume",
        )
    least_along = [tuple(min(shape[axis] for shape in block.shapes) for axis in range(3)) for block in blocks]
    for (n, first), (m, second) in combinations(enumerate(least_along), 2):
        lacking, axis = min((first[a] + second[a] - room.size[a], a) for a in range(3))
        if lacking > 0:
            return _Outcome(
                "cannot",
                "two_pass_nowhere",
                f"{blocks[n].box.name} and {blocks[m].box.name} fit one beside the other along no axis of the cavity "
                f"of {_mm_size(room.size)}, clearance and lead room counted: the least bad is its {AXES[axis]}, where "
                f"{_mm(lacking)} mm are missing.",
                "counting",
            )
    for long_axes in (axes for count in (1, 2) for axes in combinations(range(3), count)):
        across = [axis for axis in range(3) if axis not in long_axes]
        limit = math.prod(room.size[axis] for axis in across)
        total, names = 0, []
        for block in blocks:
            least = min(
                math.prod(shape[axis] for axis in across)
                if all(2 * shape[axis] > room.size[axis] for axis in long_axes)
                else 0
                for shape in block.shapes
            )
            if least:
                total += least
                names.append(block.box.name)
        if total > limit:
            return _crowded(room, long_axes, across, total, limit, names)
    return None


def _crowded(
    room: _Room, long_axes: tuple[int, ...], across: list[int], total: int, limit: int, names: list[str]
) -> _Outcome:
    along = " and ".join(AXES[axis] for axis in long_axes)
    who = f"{', '.join(names)} are each longer than half the cavity's {along}, however they lie"
    if len(across) == 2:
        code = "cross_section"
        need = f"side by side they need {total / 100:.1f} mm², and {limit / 100:.1f} mm² are there"
    else:
        code = "stack_length"
        need = f"stacked along its {AXES[across[0]]} they need {_mm(total)} mm, and {_mm(limit)} mm are there"
    return _Outcome("cannot", code, f"{who}; {need}.", "counting")


# --- inside: up to three boxes in a bare cavity, completely ----------------------------------------------------


def _complete_cases(room: _Room, blocks: tuple[_Block, ...]) -> tuple[_Spot, ...] | None:
    """One, two or three boxes in a cavity without obstacles: all cases, so None is a proof.

    Two boxes that do not overlap are one behind the other along some axis. An axis serves a pair if their two
    sizes together are within the cavity. For three boxes any choice of one serving axis per pair can be laid out
    (an axis chosen by two pairs puts the box they share on one side of both others), except that an axis
    chosen by all three pairs needs all three sizes in a row.
    """
    for shapes in product(*(range(len(block.shapes)) for block in blocks)):
        sizes = [block.shapes[n] for block, n in zip(blocks, shapes, strict=True)]
        corners = _lay_out(room.size, sizes)
        if corners is not None:
            return tuple(zip(shapes, corners, strict=True))
    return None


def _lay_out(limit: Size, sizes: list[Size]) -> list[Point] | None:
    if len(sizes) == 1:
        return [(0, 0, 0)]
    serving = []
    for first, second in combinations(sizes, 2):
        axes = [axis for axis in range(3) if first[axis] + second[axis] <= limit[axis]]
        if not axes:
            return None
        serving.append(axes)
    for choice in product(*serving):
        if len(sizes) == 3 and choice[0] == choice[1] == choice[2]:
            axis = choice[0]
            if sizes[0][axis] + sizes[1][axis] + sizes[2][axis] > limit[axis]:
                continue
        return _corners_for(choice, sizes)
    return None


def _corners_for(choice: tuple[int, ...], sizes: list[Size]) -> list[Point]:
    corners = [[0, 0, 0] for _ in sizes]
    pairs = list(combinations(range(len(sizes)), 2))
    for axis in range(3):
        chosen = [pair for pair, picked in zip(pairs, choice, strict=True) if picked == axis]
        if len(chosen) == 3:
            corners[1][axis] = sizes[0][axis]
            corners[2][axis] = sizes[0][axis] + sizes[1][axis]
        elif len(chosen) == 2:
            shared = (set(chosen[0]) & set(chosen[1])).pop()
            for other in (set(chosen[0]) | set(chosen[1])) - {shared}:
                corners[other][axis] = sizes[shared][axis]
        elif len(chosen) == 1:
            corners[chosen[0][1]][axis] = sizes[chosen[0][0]][axis]
    return [(x, y, z) for x, y, z in corners]


# --- inside: extreme-point first fit ---------------------------------------------------------------------------

# Overlap checks per second of budget: measured at about 3 million a second on an ordinary core; half of that.
CHECKS_PER_SECOND = 1_500_000
# The rest of the budget belongs to the exhaustive search, which often needs less than shuffling on does.
FIRST_FIT_SHARE = 0.1


def _first_fit(
    room: _Room, blocks: tuple[_Block, ...], seed: int, budget: int, corners: bool = False
) -> tuple[_Spot, ...] | None:
    """Put the boxes in one by one, each at the first free extreme point, largest first; then again with the order
    and the ways of lying shuffled, until the budget of overlap checks is spent. With ``corners`` all combinations
    of wall and obstacle coordinates are tried, which is complete for a single box among solids."""
    dice = random.Random(seed)
    step = max(1, -(-room.size[0] // 32))
    obstacles = list(room.solids)
    for wedge in room.wedges:
        obstacles += [(at, (dx, dy, room.size[2])) for at, (dx, dy, _) in _slices(wedge, step)]
    largest_first = sorted(
        range(len(blocks)), key=lambda n: (-math.prod(blocks[n].shapes[0]), -max(blocks[n].shapes[0]), n)
    )
    axis_orders = [(2, 1, 0), (2, 0, 1), (1, 2, 0), (1, 0, 2), (0, 2, 1), (0, 1, 2)]
    attempt = 0
    while budget > 0:
        if attempt < len(axis_orders):
            order, axes = largest_first, axis_orders[attempt]
        elif corners:
            return None
        else:
            order, axes = _shuffled(largest_first, blocks, dice), dice.choice(axis_orders)
        spots, used = _fill(room, blocks, order, obstacles, axes, dice if attempt >= 6 else None, corners)
        if spots is not None:
            return spots
        if corners:
            return None
        budget -= used
        attempt += 1
    return None


def _shuffled(order: list[int], blocks: tuple[_Block, ...], dice: random.Random) -> list[int]:
    """Still largest first, but sizes are blurred by up to a factor of three."""
    blurred = {n: math.prod(blocks[n].shapes[0]) * dice.uniform(0.6, 1.8) for n in order}
    return sorted(order, key=lambda n: -blurred[n])


def _fill(
    room: _Room,
    blocks: tuple[_Block, ...],
    order: list[int],
    obstacles: list[tuple[Point, Size]],
    axes: tuple[int, int, int],
    dice: random.Random | None,
    corners: bool,
) -> tuple[tuple[_Spot, ...] | None, int]:
    placed = list(obstacles)
    points: set[Point] = {(0, 0, 0)}
    if corners:
        xs, ys, zs = ({0} | {at[a] + size[a] for at, size in obstacles} for a in range(3))
        points = set(product(xs, ys, zs))
    else:
        for at, size in obstacles:
            points |= _extreme_points(at, size, placed)
    spots: dict[int, _Spot] = {}
    used = 1
    first, second, third = axes
    for n in order:
        shapes = list(range(len(blocks[n].shapes)))
        if dice is not None:
            dice.shuffle(shapes)
        else:
            # lying flat along the axis that is filled first leaves the most room beyond
            shapes.sort(key=lambda s: tuple(blocks[n].shapes[s][axis] for axis in axes))
        found: _Spot | None = None
        for point in sorted(points, key=lambda p: (p[first], p[second], p[third])):
            for shape in shapes:
                size = blocks[n].shapes[shape]
                if any(at + long > limit for at, long, limit in zip(point, size, room.size, strict=True)):
                    continue
                used += 1 + len(placed)
                if not any(_overlap(point, size, at, other) for at, other in placed):
                    found = (shape, point)
                    break
            if found is not None:
                break
        if found is None:
            return None, used
        spots[n] = found
        size = blocks[n].shapes[found[0]]
        points.discard(found[1])
        points |= _extreme_points(found[1], size, placed)
        used += 6 * len(placed)
        placed.append((found[1], size))
    return tuple(spots[n] for n in range(len(blocks))), used


def _extreme_points(corner: Point, size: Size, placed: list[tuple[Point, Size]]) -> set[Point]:
    """From the far end along each axis, slide back along each of the other two until something stops it."""
    found = set()
    for along in range(3):
        for back in range(3):
            if back == along:
                continue
            other = 3 - along - back
            at = corner[along] + size[along]
            stop = 0
            for place, extent in placed:
                end = place[back] + extent[back]
                if (
                    stop < end <= corner[back]
                    and place[along] <= at < place[along] + extent[along]
                    and place[other] <= corner[other] < place[other] + extent[other]
                ):
                    stop = end
            point = [0, 0, 0]
            point[along], point[back], point[other] = at, stop, corner[other]
            found.add((point[0], point[1], point[2]))
    return found


# --- inside: exhaustive search ---------------------------------------------------------------------------------


def _search(room: _Room, blocks: tuple[_Block, ...], seconds: float, seed: int, started: float) -> _Outcome:
    """Exhaustive search, in tries of growing cost. Proof or placements from any of them settles it."""
    stop_at = started + 4 * seconds
    tries: list[tuple[str, float, dict[str, bool]]] = [
        ("separations", 0.4, {}),
        ("separations and loads", 0.6, {"loads": True}),
    ]
    if _grid_is_small(room, blocks):
        tries.insert(0, ("grid", 0.5, {"grid": True}))
    loose_open = False
    for method, share, how in tries:
        answer, spots = _solve(room, blocks, share * seconds, seed, stop_at, strict=True, **how)
        if answer == "goes":
            return _Outcome("goes", "", "", method, spots)
        if answer == "cannot" and room.wedges:
            # the strict reading allows whole tenths only; beside a slanted wall a box may lie between two tenths
            answer, _ = _solve(room, blocks, share * seconds, seed, stop_at, strict=False, **how)
            loose_open = answer == "goes"
        if answer == "cannot":
            return _cannot_by_search(room, blocks, method)
        if loose_open:
            return _Outcome(
                "undecided",
                "finer_than_a_tenth",
                f"{_how_many(len(blocks))} go or do not go by less than about 0.2 mm beside the slanted walls; "
                "that is finer than this search looks.",
                method,
            )
    clock = time.perf_counter() >= stop_at
    return _Outcome(
        "undecided",
        "clock_ran_out" if clock else "budget_used",
        f"No arrangement of {_how_many(len(blocks))} was found and none of the proofs was finished within the "
        f"budget of {seconds:g} s; ask again with a larger budget, or try the boxes in the cavity.",
        "exhaustive search",
    )


def _reachable(blocks: Iterable[_Block], axis: int, limit: int) -> int:
    """The sums of sizes along ``axis`` that some of the blocks can make, as a bit set (bit s = sum s)."""
    sums = 1
    mask = (1 << (limit + 1)) - 1
    for block in blocks:
        grown = sums
        for long in {shape[axis] for shape in block.shapes}:
            grown |= sums << long
        sums = grown & mask
    return sums


def _positions(room: _Room, blocks: tuple[_Block, ...], axis: int) -> list[int]:
    """Where a corner can be along ``axis`` when every box is pushed against a wall, a solid or another box."""
    starts = {0} | {at[axis] + size[axis] for at, size in room.solids}
    limit = room.size[axis]
    sums = _reachable(blocks, axis, limit)
    bits = 0
    for start in starts:
        bits |= sums << start
    return [at for at in range(limit) if bits >> at & 1]


def _tightened(room: _Room, blocks: tuple[_Block, ...]) -> _Room:
    """A bare cavity no longer than the longest row its boxes can make: nothing is lost, proofs get shorter."""
    if not room.bare:
        return room
    length, width, height = (_reachable(blocks, axis, room.size[axis]).bit_length() - 1 for axis in range(3))
    return _Room((length, width, height), (), ())


def _kinds(blocks: tuple[_Block, ...]) -> dict[tuple[Size, ...], list[int]]:
    kinds: dict[tuple[Size, ...], list[int]] = {}
    for n, block in enumerate(blocks):
        kinds.setdefault(tuple(sorted(block.shapes)), []).append(n)
    return kinds


def _solve(
    room: _Room,
    blocks: tuple[_Block, ...],
    seconds: float,
    seed: int,
    stop_at: float,
    strict: bool,
    loads: bool = False,
    grid: bool = False,
) -> tuple[Answer, tuple[_Spot, ...]]:
    from ortools.sat.python import cp_model

    remaining = stop_at - time.perf_counter()
    if remaining <= 0:
        return "undecided", ()
    tight = _tightened(room, blocks)
    needed = sum(math.prod(block.shapes[0]) for block in blocks)
    if tight.bare and needed > math.prod(tight.size):
        return "cannot", ()
    model = cp_model.CpModel()
    read = _grid_model(model, tight, blocks) if grid else _separation_model(model, tight, blocks, strict, loads)
    solver = cp_model.CpSolver()
    # one worker: the only setting whose search does not depend on the machine's load
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.max_deterministic_time = seconds * DETERMINISTIC_UNITS_PER_SECOND
    solver.parameters.max_time_in_seconds = remaining
    status = solver.solve(model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return "goes", read(solver)
    if status == cp_model.INFEASIBLE:
        return "cannot", ()
    if status == cp_model.MODEL_INVALID:
        raise RuntimeError(f"box packing built a model the solver rejects: {model.validate()}")
    return "undecided", ()


# Units of the solver's own work count per second, measured on an ordinary core.
DETERMINISTIC_UNITS_PER_SECOND = 1.0


def _separation_model(model: Any, room: _Room, blocks: tuple[_Block, ...], strict: bool, loads: bool) -> Any:
    """Every box has a corner and exactly one shape; every two boxes, and every box and obstacle, are apart along
    some direction. ``loads`` adds, per axis, that cross-sections met at any place fit the cavity's section."""
    lies = [[model.new_bool_var("") for _ in block.shapes] for block in blocks]
    corner, size = [], []
    spots = _spot_domains(room, blocks)
    for block, way in zip(blocks, lies, strict=True):
        model.add_exactly_one(way)
        at = [model.new_int_var_from_domain(spots[axis], "") for axis in range(3)]
        long = [sum(s[axis] * lit for s, lit in zip(block.shapes, way, strict=True)) for axis in range(3)]
        for axis in range(3):
            model.add(at[axis] + long[axis] <= room.size[axis])
        corner.append(at)
        size.append(long)
    for i, j in combinations(range(len(blocks)), 2):
        apart = []
        for axis in range(3):
            for first, second in ((i, j), (j, i)):
                literal = model.new_bool_var("")
                model.add(corner[first][axis] + size[first][axis] <= corner[second][axis]).only_enforce_if(literal)
                apart.append(literal)
        model.add_bool_or(apart)
    for i in range(len(blocks)):
        for place, extent in room.solids:
            _keep_off_solid(model, corner[i], size[i], place, extent)
        for wedge in room.wedges:
            _keep_off_wedge(model, corner[i], size[i], wedge, strict)
    _break_symmetry(model, room, blocks, corner, size)
    if loads:
        _add_loads(model, room, blocks, lies, corner)

    def read(solver: Any) -> tuple[_Spot, ...]:
        found = []
        for way, at in zip(lies, corner, strict=True):
            shape = next(n for n, lit in enumerate(way) if solver.boolean_value(lit))
            found.append((shape, (solver.value(at[0]), solver.value(at[1]), solver.value(at[2]))))
        return tuple(found)

    return read


def _spot_domains(room: _Room, blocks: tuple[_Block, ...]) -> list[Any]:
    from ortools.sat.python import cp_model

    domains = []
    for axis in range(3):
        # beside a slanted wall a box pushed home does not end on a sum of sizes
        positions = None if room.wedges else _positions(room, blocks, axis)
        domains.append(
            cp_model.Domain(0, room.size[axis])
            if positions is None or len(positions) > 400
            else cp_model.Domain.from_values(positions)
        )
    return domains


def _keep_off_solid(model: Any, corner: list[Any], size: list[Any], place: Point, extent: Size) -> None:
    apart = []
    for axis in range(3):
        before, after = model.new_bool_var(""), model.new_bool_var("")
        model.add(corner[axis] + size[axis] <= place[axis]).only_enforce_if(before)
        model.add(corner[axis] >= place[axis] + extent[axis]).only_enforce_if(after)
        apart += [before, after]
    model.add_bool_or(apart)


def _keep_off_wedge(model: Any, corner: list[Any], size: list[Any], wedge: _Wedge, strict: bool) -> None:
    """A rectangle and a convex wedge do not overlap if and only if one of the wedge's or the rectangle's own side
    directions parts them. Not strict: each condition is loosened by what rounding a corner down to a whole tenth
    can cost, so that no arrangement of real-valued corners is lost."""
    x, y = corner[0], corner[1]
    apart = []

    def way(condition: Any) -> None:
        literal = model.new_bool_var("")
        model.add(condition).only_enforce_if(literal)
        apart.append(literal)

    way(x + size[0] <= wedge.x1)
    way(x >= wedge.x2)
    way(y + size[1] <= math.floor(wedge.lowest()))
    way(y >= (math.ceil(wedge.highest()) if strict else math.floor(wedge.highest())))
    for line, over in ((wedge.above, True), (wedge.below, False)):
        if line.y1 == line.y2:
            continue
        run, rise = line.x2 - line.x1, line.y2 - line.y1
        # height over the line times run, at the rectangle's corner that comes nearest to it
        if over:
            near = x + size[0] if rise > 0 else x
            slack = 0 if strict else run + max(-rise, 0)
            way((y - line.y1) * run - (near - line.x1) * rise >= -slack)
        else:
            near = x if rise > 0 else x + size[0]
            slack = 0 if strict else max(rise, 0)
            way((near - line.x1) * rise - (y + size[1] - line.y1) * run >= -slack)
    model.add_bool_or(apart)


def _break_symmetry(model: Any, room: _Room, blocks: tuple[_Block, ...], corner: list[Any], size: list[Any]) -> None:
    kinds = _kinds(blocks)
    for members in kinds.values():
        for first, second in pairwise(members):
            model.add(corner[first][0] <= corner[second][0])
    single = [members[0] for members in kinds.values() if len(members) == 1]
    if room.bare and single:
        # mirrored packings are packings: keep the largest box of its own kind in the near half on every axis
        largest = max(single, key=lambda n: math.prod(blocks[n].shapes[0]))
        for axis in range(3):
            model.add(2 * corner[largest][axis] + size[largest][axis] <= room.size[axis])


def _add_loads(model: Any, room: _Room, blocks: tuple[_Block, ...], lies: list[Any], corner: list[Any]) -> None:
    for axis in range(3):
        across = [other for other in range(3) if other != axis]
        intervals, loads = [], []
        for n, block in enumerate(blocks):
            for shape, lit in zip(block.shapes, lies[n], strict=True):
                intervals.append(model.new_optional_fixed_size_interval_var(corner[n][axis], shape[axis], lit, ""))
                loads.append(shape[across[0]] * shape[across[1]])
        kept: list[tuple[Point, Size]] = []
        for place, extent in room.solids:
            if not any(_overlap(place, extent, *other) for other in kept):
                kept.append((place, extent))
                intervals.append(model.new_fixed_size_interval_var(place[axis], extent[axis], ""))
                loads.append(extent[across[0]] * extent[across[1]])
        model.add_cumulative(intervals, loads, room.size[across[0]] * room.size[across[1]])


# --- inside: the grid model, for many alike boxes whose sizes make few positions -------------------------------

GRID_PLACES = 4_000


def _grid_is_small(room: _Room, blocks: tuple[_Block, ...]) -> bool:
    if room.wedges or len(blocks) < 6:
        return False
    tight = _tightened(room, blocks)
    places = math.prod(len(_positions(tight, blocks, axis)) for axis in range(3))
    return places * sum(len(shapes) for shapes in _kinds(blocks)) <= GRID_PLACES


def _grid_model(model: Any, room: _Room, blocks: tuple[_Block, ...]) -> Any:
    """One literal per kind of box, shape and pushed-home place; a kind's literals add up to its number; no cell
    between neighbouring coordinates is taken twice."""
    positions = [_positions(room, blocks, axis) for axis in range(3)]
    longs = [{shape[axis] for block in blocks for shape in block.shapes} for axis in range(3)]
    edges = [
        sorted(set(positions[axis]) | {at + long for at in positions[axis] for long in longs[axis]})
        for axis in range(3)
    ]
    cell_of = [{edge: n for n, edge in enumerate(edges[axis])} for axis in range(3)]
    cells: dict[Point, list[Any]] = {}
    picks: list[tuple[list[int], Size, Point, Any]] = []
    for members in _kinds(blocks).values():
        literals = []
        for shape in blocks[members[0]].shapes:
            for place in product(positions[0], positions[1], positions[2]):
                if any(place[a] + shape[a] > room.size[a] for a in range(3)):
                    continue
                if any(_overlap(place, shape, *solid) for solid in room.solids):
                    continue
                literal = model.new_bool_var("")
                literals.append(literal)
                picks.append((members, shape, place, literal))
                spans = [range(cell_of[a][place[a]], cell_of[a][place[a] + shape[a]]) for a in range(3)]
                for cell in product(*spans):
                    cells.setdefault((cell[0], cell[1], cell[2]), []).append(literal)
        model.add(sum(literals) == len(members))
    for rivals in cells.values():
        model.add_at_most_one(rivals)

    def read(solver: Any) -> tuple[_Spot, ...]:
        found: dict[int, _Spot] = {}
        for members, shape, place, literal in picks:
            if solver.boolean_value(literal):
                member = next(n for n in members if n not in found)
                found[member] = (blocks[member].shapes.index(shape), place)
        return tuple(found[n] for n in range(len(blocks)))

    return read


# --- inside: words and checks ----------------------------------------------------------------------------------


def _how_many(count: int) -> str:
    return "1 box" if count == 1 else f"{count} boxes"


def _mm(tenths: int) -> str:
    return f"{tenths / 10:.1f}"


def _mm_size(size: Size) -> str:
    return " × ".join(_mm(long) for long in size) + " mm"


def _tenths(millimetres: float) -> float:
    if not math.isfinite(millimetres):
        raise ValueError(f"a size of {millimetres!r} mm cannot be packed; give a finite number of millimetres.")
    return millimetres * 10


def _check_whole(what: str, value: object, least: int | None) -> None:
    if not isinstance(value, int) or isinstance(value, bool):
        raise ValueError(
            f"{what} is {value!r}; give a whole number of tenths of a millimetre (size_in_tenths rounds up, "
            "opening_in_tenths rounds down)."
        )
    if least is not None and value < least:
        raise ValueError(f"{what} is {value}; it must be at least {least} tenths of a millimetre.")


def _check_outline(outline: tuple[tuple[int, int], ...], length: int, width: int) -> None:
    if len(outline) < 3:
        raise ValueError(f"plan_outline has {len(outline)} corners; an outline needs three or more.")
    for x, y in outline:
        _check_whole("x of a plan_outline corner", x, least=0)
        _check_whole("y of a plan_outline corner", y, least=0)
        if x > length or y > width:
            raise ValueError(
                f"plan_outline corner ({x}, {y}) lies outside the cavity's {length} × {width} tenths of a millimetre; "
                "make the cavity's length and width the bounding size of its outline."
            )
    sides = list(zip(outline, outline[1:] + outline[:1], strict=True))
    for (n, first), (m, second) in combinations(enumerate(sides), 2):
        neighbours = m == n + 1 or (n == 0 and m == len(sides) - 1)
        if not neighbours and _sides_meet(*first, *second):
            raise ValueError(
                f"plan_outline crosses or touches itself: side {first[0]}-{first[1]} meets side "
                f"{second[0]}-{second[1]}; list the corners in order around the plan."
            )


def _sides_meet(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int], d: tuple[int, int]) -> bool:
    def turn(p: tuple[int, int], q: tuple[int, int], r: tuple[int, int]) -> int:
        cross = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
        return (cross > 0) - (cross < 0)

    def within(p: tuple[int, int], q: tuple[int, int], r: tuple[int, int]) -> bool:
        return min(p[0], q[0]) <= r[0] <= max(p[0], q[0]) and min(p[1], q[1]) <= r[1] <= max(p[1], q[1])

    if turn(a, b, c) != turn(a, b, d) and turn(c, d, a) != turn(c, d, b):
        return True
    on_line = ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    return any(turn(p, q, r) == 0 and within(p, q, r) for p, q, r in on_line)

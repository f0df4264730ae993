"""By how much all contents of a box may grow while they still go in together (J44). Lengths in mm.

Every content lies flat, turned in plan as one likes, or any way at all where it may stand. It keeps packing on every
side and, at the end where its leads leave, room for them to bend.
"""

from __future__ import annotations

import functools
import math
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitdb.formulas.box_packing import Box, Cavity, Lead, opening_in_tenths, pack, size_in_tenths
from fitdb.formulas.lead_openings import largest_growth

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_STEPS = (50, 30, 20, 15, 10, 7, 5, 3, 2, 1.5, 1, 0.7, 0.4, 0.2, 0.1)
GROWTHS = (*[-step for step in _STEPS], 0.0, *reversed(_STEPS))
"""Growths of the contents that are tried: 15 below nothing and 15 above, so that four more questions settle one."""
SECONDS_FIRST, SECONDS_AFTER = 0.2, 0.03
MOST_PROOFS = 2000  # of one kind and number of contents
ROUNDING = 0.1
"""mm; more than a corner moves when it is put on the tenth of a millimetre, 0.05·√2."""

Ring = tuple[tuple[float, float], ...]
TenthsRing = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Room:
    """The room inside a box, mm: ``length``, ``width``, ``height``; ``corner_radius`` of the upright corners.

    ``ring`` is the drawn plan, which then counts instead of length, width and corner radius, its walls moved by
    ``offset`` outwards (inwards if negative).
    """

    length: float
    width: float
    height: float
    corner_radius: float = 0.0
    ring: Ring | None = None
    offset: float = 0.0


def packing_growth(
    room: Room,
    lengths: Sequence[float],
    widths: Sequence[float],
    heights: Sequence[float],
    may_stand: Sequence[str],
    packing: float,
    lead_room: float,
) -> float | None:
    """The largest growth of every content, one of GROWTHS in mm, with which all still go in; never below its first.

    ``lengths`` are the sizes along which the leads leave; ``packing`` mm on every side; ``lead_room`` mm at one end of
    the length; ``may_stand`` yes or no. None where neither an arrangement nor a proof against one was found for the
    contents as they are. Sizes are rounded up and openings down to tenths of a millimetre. Source: box_packing.
    """
    shapes = _shapes(room, packing)
    height, foam, bend = opening_in_tenths(room.height), size_in_tenths(packing), size_in_tenths(lead_room)
    sizes = [[size_in_tenths(size) for size in body] for body in zip(lengths, widths, heights, strict=True)]
    boxes = tuple(
        sorted(
            # What cannot stand under this lid anyway is the same question as what may not.
            (long, wide, tall, stands == "yes" and min(long + bend, wide) + 2 * foam <= height)
            for (long, wide, tall), stands in zip(sizes, may_stand, strict=True)
        )
    )
    if not boxes:
        return GROWTHS[-1]
    if height < 1 or shapes is None:
        return GROWTHS[0]
    return _growth(shapes, height, boxes, foam, bend)


@dataclass(frozen=True, slots=True)
class _Plan:
    """A plan in tenths of a millimetre: a rectangle, its corners ``cut``, or a drawn ``ring`` moved by ``offset``."""

    length: int
    width: int
    outline: TenthsRing | None
    cut: int = 0
    ring: Ring | None = None
    offset: float = 0.0

    def covers(self, other: _Plan) -> bool:
        """Whether the other plan surely lies inside this one. Drawn corners were moved by less than ROUNDING each."""
        if self.ring is None and other.ring is None:
            return self.length >= other.length and self.width >= other.width and self.cut <= other.cut
        return self == other or (self.ring == other.ring and self.offset >= other.offset + 2.0 * ROUNDING)


_Boxes = tuple[tuple[int, int, int, bool], ...]


@dataclass(frozen=True, slots=True)
class _Asked:
    """One question to the packing program: these boxes, with packing and lead room, under this lid on this plan."""

    plan: _Plan
    height: int
    boxes: _Boxes
    packing: int
    lead: int

    def hardness(self) -> tuple[int, ...]:
        """Numbers of which each larger one makes it harder to go in: beside the plan all that is asked."""
        stands = [-may_stand for *_, may_stand in self.boxes]
        return (self.packing, self.lead, -self.height, *stands, *(size for *sizes, _ in self.boxes for size in sizes))


class _Proofs:
    """Proofs of the last questions, never an answer that was left undecided.

    A reading that swings a little asks nearly the same again, and what goes with larger contents, or cannot even with
    smaller ones, needs no second proof.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._kept: dict[tuple[str, int], tuple[NDArray[np.int64], list[_Plan]]] = {}  # by answer and count of numbers

    def of(self, asked: _Asked) -> str | None:
        """What follows from a proof; None where nothing does."""
        import numpy as np

        mine = np.array(asked.hardness())
        for answer in ("goes", "cannot"):
            numbers, plans = self._kept.get((answer, len(mine)), (None, []))
            if numbers is None:
                continue
            count = len(plans)  # rows are written before their plan is put down
            beyond = numbers[:count] >= mine if answer == "goes" else numbers[:count] <= mine
            for at in np.flatnonzero(beyond.all(axis=1)):
                larger, smaller = (asked.plan, plans[at]) if answer == "goes" else (plans[at], asked.plan)
                if larger.covers(smaller):
                    return answer
        return None

    def put(self, asked: _Asked, answer: str) -> None:
        import numpy as np

        mine = asked.hardness()
        with self._lock:
            numbers, plans = self._kept.get((answer, len(mine)), (None, []))
            if numbers is None or len(plans) == MOST_PROOFS:
                numbers, plans = np.zeros((MOST_PROOFS, len(mine)), dtype=np.int64), []
                self._kept[answer, len(mine)] = (numbers, plans)
            numbers[len(plans)] = mine
            plans.append(asked.plan)


_PROVED = _Proofs()


def _answer(asked: _Asked, seconds: float) -> str:
    known = _PROVED.of(asked)
    if known is not None:
        return known
    contents = [
        Box(
            f"content {number}",
            long,
            wide,
            tall,
            turns=("any",) if stands else ("upright",),
            clearance=asked.packing,
            lead=Lead("length+", asked.lead),
        )
        for number, (long, wide, tall, stands) in enumerate(asked.boxes)
    ]
    cavity = Cavity(asked.plan.length, asked.plan.width, asked.height, (), asked.plan.outline)
    found = pack(cavity, contents, seconds).answer
    if found != "undecided":
        _PROVED.put(asked, found)
    return found


@functools.lru_cache(maxsize=4096)
def _growth(shapes: tuple[_Plan, _Plan], height: int, boxes: _Boxes, packing: int, lead: int) -> float | None:
    inner, outer = shapes

    def answer(growth: float, first: bool) -> str:
        grown = round(growth * 10.0)
        sizes = tuple(
            (max(long + grown, 1), max(wide + grown, 1), max(tall + grown, 1), stands)
            for long, wide, tall, stands in boxes
        )
        seconds = SECONDS_FIRST if first else SECONDS_AFTER
        found = _answer(_Asked(inner, height, sizes, packing, lead), seconds)
        if found == "cannot" and first and outer != inner:
            # The inner plan leaves a little of the room out: only the outer one can prove that they do not go.
            outside = _answer(_Asked(outer, height, sizes, packing, lead), seconds)
            return "cannot" if outside == "cannot" else "undecided"
        return found

    return largest_growth(GROWTHS, answer)


def _shapes(room: Room, packing: float) -> tuple[_Plan, _Plan] | None:
    """A plan that lies inside the true one and a plan that holds it; the same one where they agree. None: no room."""
    if room.ring is not None:
        return _drawn(room.ring, room.offset)
    length, width = opening_in_tenths(room.length), opening_in_tenths(room.width)
    if length < 1 or width < 1:
        return None
    chord, tangent = _corner_cut(min(room.corner_radius, room.length / 2.0, room.width / 2.0), packing)
    chord = min(math.ceil(chord * 10.0), (min(length, width) - 1) // 2)
    return _with_corners_cut(length, width, chord), _with_corners_cut(length, width, math.floor(tangent * 10.0))


def _corner_cut(radius: float, packing: float) -> tuple[float, float]:
    """How far a rounded corner keeps packed contents away, as a straight cut that is too large and one too small.

    The packing gives way at a corner, the body does not: with a = r − packing its corner stays within the arc where
    (a − x)² + (a − y)² <= r². The chord of that arc cuts a − √(r² − a²) off either wall, its tangent 2·(a − r/√2).
    """
    reach = radius - packing
    if radius <= 0.0 or reach <= radius / math.sqrt(2.0):
        return 0.0, 0.0
    return reach - math.sqrt(max(radius * radius - reach * reach, 0.0)), 2.0 * (reach - radius / math.sqrt(2.0))


def _with_corners_cut(length: int, width: int, cut: int) -> _Plan:
    if cut < 1:
        return _Plan(length, width, None)
    ring = (
        (cut, 0),
        (length - cut, 0),
        (length, cut),
        (length, width - cut),
        (length - cut, width),
        (cut, width),
        (0, width - cut),
        (0, cut),
    )
    return _Plan(length, width, ring, cut)


@functools.lru_cache(maxsize=256)
def _drawn(ring: Ring, offset: float) -> tuple[_Plan, _Plan] | None:
    from shapely import Polygon

    drawn = Polygon(ring)
    if offset == 0.0 and all(abs(10.0 * value - round(10.0 * value)) < 1e-6 for point in ring for value in point):
        plan = _plan(drawn, ring, offset)
        return None if plan is None else (plan, plan)
    inner = _plan(drawn.buffer(offset - ROUNDING, join_style="mitre"), ring, offset - ROUNDING)
    outer = _plan(drawn.buffer(offset + ROUNDING, join_style="mitre"), ring, offset + ROUNDING)
    return None if inner is None or outer is None else (inner, outer)


def _plan(polygon: object, ring: Ring, offset: float) -> _Plan | None:
    """The plan in tenths from its own corner, or None if it has shrunk to nothing or fallen apart."""
    from shapely import Polygon

    if not isinstance(polygon, Polygon) or polygon.is_empty:
        return None
    points = [(round(10.0 * x), round(10.0 * y)) for x, y in polygon.exterior.coords[:-1]]
    left, low = min(x for x, _ in points), min(y for _, y in points)
    moved = [(x - left, y - low) for x, y in points]
    corners = tuple(point for n, point in enumerate(moved) if point != moved[n - 1])
    if len(corners) < 3:
        return None
    return _Plan(max(x for x, _ in corners), max(y for _, y in corners), corners, 0, ring, offset)

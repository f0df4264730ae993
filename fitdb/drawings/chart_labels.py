"""Where the words of a chart stand: at the end of their line, in a column beside the plot, or beside their point.

The places follow from the chart alone, so the same chart always looks the same.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitdb.drawings.lettering import LINE_HEIGHT, Box, spread, text_width

LETTER = 14.0
"""Letter size: on a sheet of 480 printed 80 mm wide these letters are 2.3 mm, as in small print."""

NEAR_THE_EDGE = 0.12
"""A line that ends within this share of the plot's width from its right edge gets its words in the column."""

MOVED_FAR = 20.0
"""Words that the crowd in the column pushes farther than this from their line's height look for a place in the plot."""

NEAR, FAR = (6.0, 12.0, 20.0), (8.0, 16.0, 28.0, 44.0, 64.0, 88.0)
GAP, MARK, CELL = 4.0, 7.0, 3.0

Points = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class End:
    """Where a line ends on the sheet, or a point lies, and the words for it, in lines."""

    lines: tuple[str, ...]
    x: float
    y: float
    point: bool

    @property
    def width(self) -> float:
        return max(text_width(line, LETTER) for line in self.lines)

    @property
    def height(self) -> float:
        return len(self.lines) * LETTER * LINE_HEIGHT


@dataclass(frozen=True, slots=True)
class Placed:
    """Words in their place: the anchor's x, the base of the first line, and a line that leads to what they name."""

    lines: tuple[str, ...]
    x: float
    first_line: float
    anchor: str
    box: Box
    leader: tuple[tuple[float, float], ...] = ()


class Sheet:
    """What is taken already: boxes of words, and the cells that lines and leaders run through."""

    def __init__(self, room: Box, paths: Sequence[Points], boxes: Sequence[Box]) -> None:
        self.room, self.boxes = room, list(boxes)
        self.cells = {_cell(*mark) for path in paths for mark in _dense(path)}

    def take(self, box: Box, leader: Points) -> None:
        self.boxes.append(box)
        self.cells |= {_cell(*mark) for mark in _dense(leader)}

    def cost(self, box: Box, leader: Points) -> int | None:
        """How many lines a leader crosses; None where the words would cover a line, other words, or leave the plot."""
        if not box.within(self.room) or any(box.overlaps(other, 1.0) for other in self.boxes):
            return None
        left, top = _cell(box.left, box.top)
        right, bottom = _cell(box.right, box.bottom)
        if any((x, y) in self.cells for x in range(left, right + 1) for y in range(top, bottom + 1)):
            return None
        run = [mark for mark in _dense(leader) if math.dist(mark, leader[0]) > MARK]
        if any(Box(x, y, x, y).overlaps(other) for x, y in run for other in self.boxes):
            return None
        return sum(_cell(*mark) in self.cells for mark in run)


def place_labels(ends: Sequence[End], paths: Sequence[Points], room: Box) -> tuple[Placed, ...]:
    """A place for every label, in the order given. No label overlaps another.

    Inside the plot a label stands only where it covers no line; the rest stand in a column right of the plot, in the
    order of their heights, each with a leader.
    """
    points = [Box(end.x - MARK, end.y - MARK, end.x + MARK, end.y + MARK) for end in ends if end.point]
    sheet = Sheet(room, paths, points)
    found: dict[int, Placed] = {}
    edge = room.right - NEAR_THE_EDGE * (room.right - room.left)
    inside = [n for n, end in enumerate(ends) if end.point or end.x < edge]
    for number in sorted(inside, key=lambda n: (not ends[n].point, n)):
        _try_in_plot(number, ends[number], sheet, found)
    stay: set[int] = set()
    while True:
        column = sorted((n for n in range(len(ends)) if n not in found), key=lambda n: (ends[n].y, n))
        heights = [ends[n].height + GAP for n in column]
        middles = spread([ends[n].y for n in column], heights, room.top - LETTER / 2, room.bottom + LETTER / 2)
        moved = {n: abs(middle - ends[n].y) for n, middle in zip(column, middles, strict=True) if n not in stay}
        if not moved or max(moved.values()) <= MOVED_FAR:
            break
        number = max(moved, key=moved.__getitem__)
        stay.add(number)
        _try_in_plot(number, ends[number], sheet, found)
    for number, middle in zip(column, middles, strict=True):
        found[number] = _in_column(ends[number], middle, room)
    return tuple(found[number] for number in range(len(ends)))


def _try_in_plot(number: int, end: End, sheet: Sheet, found: dict[int, Placed]) -> None:
    """The first of the cheapest places beside an end, if there is one that covers nothing.

    The words of a point may stand farther off, and their leader may cross lines; those of a line stand close by.
    """
    best: tuple[int, Placed] | None = None
    for box in _beside(end, FAR if end.point else NEAR):
        near = min(max(end.x, box.left), box.right), min(max(end.y, box.top), box.bottom)
        leader = ((end.x, end.y), near)
        cost = sheet.cost(box, leader)
        if cost is not None and (end.point or cost == 0) and (best is None or cost < best[0]):
            shown = leader if math.dist(*leader) > 12.0 else ()
            best = cost, Placed(end.lines, box.left, box.top + LETTER, "start", box, shown)
            if cost == 0:
                break
    if best is not None:
        found[number] = best[1]
        sheet.take(best[1].box, best[1].leader)


def _beside(end: End, reach: Sequence[float]) -> list[Box]:
    """Places beside an end, the nearest first: to the right, above and below, then to the left."""
    wide, high = end.width, end.height
    boxes = []
    for away in reach:
        for x, y in (
            (away, -high / 2),
            (away, -high - away / 2),
            (away, away / 2),
            (-wide / 2, -high - away),
            (-wide / 2, away),
            (-wide - away, -high - away / 2),
            (-wide - away, away / 2),
            (-wide - away, -high / 2),
            (-wide, -high - away),
            (-wide, away),
        ):
            boxes.append(Box(end.x + x, end.y + y, end.x + x + wide, end.y + y + high))
    return boxes


def _in_column(end: End, middle: float, room: Box) -> Placed:
    left = room.right + 16
    box = Box(left, middle - end.height / 2, left + end.width, middle + end.height / 2)
    leader = ((end.x, end.y), (room.right + 4, middle), (left - 3, middle))
    return Placed(end.lines, left, box.top + LETTER, "start", box, leader)


def _cell(x: float, y: float) -> tuple[int, int]:
    return math.floor(x / CELL), math.floor(y / CELL)


def _dense(path: Points) -> list[tuple[float, float]]:
    """Points along a line, none farther from the next than a cell is wide."""
    marks = list(path[:1])
    for (x1, y1), (x2, y2) in itertools.pairwise(path):
        steps = max(1, math.ceil(math.dist((x1, y1), (x2, y2)) / CELL))
        marks += [(x1 + (x2 - x1) * n / steps, y1 + (y2 - y1) * n / steps) for n in range(1, steps + 1)]
    return marks

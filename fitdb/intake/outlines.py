"""Drawn shapes as somebody types them: rings of corners, round holes and slots, all in mm.

`ring: 0,0 40,0 40,20 0,20; ring: 5,5 10,5 10,10; holes: 8,8,5.2 30,8,5.2,12,90 +-0.2`
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import NamedTuple

from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.problems import Problem

MOST_POINTS = 1000

Point = tuple[float, float]
Ring = tuple[Point, ...]
Hole = tuple[float, float, float, float, float]

NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
SPREAD = re.compile(r"±\s*([0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)\s*(?:mm)?\s*$")
SYNTAX = "Write `ring: 0,0 40,0 40,20 0,20; holes: 8,10,5.2 +-0.2`: corners and hole centres x,y in mm."


class Shape(NamedTuple):
    """What was typed: rings, holes, and the half width that was stated (None if none was)."""

    rings: tuple[Ring, ...]
    holes: tuple[Hole, ...]
    spread: float | None


class Edge(NamedTuple):
    """One side of a ring, both counted from 1."""

    ring: int
    number: int
    start: Point
    end: Point

    def named(self, rings: int) -> str:
        place = f"edge {self.number} ({_point(self.start)} to {_point(self.end)})"
        return f"{place} of ring {self.ring}" if rings > 1 else place


def shape_from_text(text: str) -> tuple[Shape | None, tuple[Problem, ...]]:
    """The shape that `text` describes (± already written as one sign), and everything that is wrong with it."""
    spread = None
    stated = SPREAD.search(text)
    if stated:
        spread = float(stated.group(1).replace(",", "."))
        text = text[: stated.start()]
    text = text.strip().removesuffix("mm")
    rings: list[list[Point]] = []
    holes: list[Hole] = []
    problems: list[Problem] = []
    for section in filter(None, (piece.strip() for piece in text.split(";"))):
        heading, colon, body = section.partition(":")
        name = heading.strip().casefold()
        if not colon or name not in ("ring", "rings", "hole", "holes"):
            what = f"`{shortened(heading)}` starts no part of an outline."
            problems.append(Problem("outline_not_understood", what, hint=SYNTAX))
            continue
        rows = [_numbers(entry) for entry in body.split()]
        if name.startswith("ring"):
            if any(len(row) != 2 for row in rows):
                bad = next(entry for entry, row in zip(body.split(), rows, strict=True) if len(row) != 2)
                problems.append(_not_numbers(bad, "a corner is x,y"))
            else:
                rings.append([(row[0], row[1]) for row in rows])
            continue
        for entry, row in zip(body.split(), rows, strict=True):
            if 3 <= len(row) <= 5:
                holes.append((row[0], row[1], row[2], row[3] if len(row) > 3 else 0.0, row[4] if len(row) > 4 else 0.0))
            else:
                problems.append(_not_numbers(entry, "a hole is x,y,diameter or x,y,diameter,slot_length,slot_angle"))
    if problems:
        return None, tuple(problems)
    return checked_shape(rings, holes, spread)


def checked_shape(
    rings: list[list[Point]], holes: list[Hole], spread: float | None
) -> tuple[Shape | None, tuple[Problem, ...]]:
    """The shape without its repeated corners, and everything that makes it impossible: too few corners, crossings."""
    problems: list[Problem] = []
    corners = [point for ring in rings for point in ring]
    if not all(math.isfinite(value) for row in (*corners, *holes, (spread or 0.0,)) for value in row):
        return None, (Problem("not_finite", "A coordinate of the outline is not a finite number.", hint=SYNTAX),)
    if not rings and not holes:
        return None, (Problem("outline_not_understood", "There is neither a ring nor a hole.", hint=SYNTAX),)
    if sum(map(len, rings)) + len(holes) > MOST_POINTS:
        what = f"The outline has more than {MOST_POINTS} corners and holes."
        hint = "Leave out corners nearer to each other than can be read."
        return None, (Problem("too_many_points", what, hint=hint),)
    cleaned = [_without_repeats(ring) for ring in rings]
    for number, ring in enumerate(cleaned, 1):
        if len(ring) < 3:
            what = f"Ring {number} has {len(ring)} different corners in a row, and a closed shape needs at least 3."
            problems.append(Problem("too_few_points", what, hint=SYNTAX))
    for x, y, diameter, slot, _ in holes:
        if diameter <= 0 or slot < 0:
            what = f"The hole at {_point((x, y))} has the diameter {diameter:g} and the slot length {slot:g} mm."
            problems.append(Problem("impossible_value", what, hint="A diameter is above 0, a slot length at least 0."))
    if spread is not None and spread < 0:
        problems.append(Problem("impossible_value", f"The spread {spread:g} mm is below 0.", hint="Write +-0.2."))
    if not problems:
        crossing = first_crossing(cleaned)
        if crossing:
            first, second = (edge.named(len(cleaned)) for edge in crossing)
            what = f"The outline crosses or touches itself: {first} meets {second}."
            hint = "Name the corners in the order in which a pencil would pass them."
            problems.append(Problem("outline_crosses_itself", what, hint=hint))
    if problems:
        return None, tuple(problems)
    return Shape(tuple(tuple(ring) for ring in cleaned), tuple(holes), spread), ()


def first_crossing(rings: list[list[Point]]) -> tuple[Edge, Edge] | None:
    """Two edges that meet anywhere but at the corner they share; None for simple rings apart from each other.

    Edges are swept from left to right, so only those whose x ranges overlap are compared.
    """
    edges = sorted(_edges(rings), key=lambda edge: min(edge.start[0], edge.end[0]))
    open_edges: list[Edge] = []
    for edge in edges:
        left = min(edge.start[0], edge.end[0])
        open_edges = [other for other in open_edges if max(other.start[0], other.end[0]) >= left]
        for other in open_edges:
            if _meet(edge, other):
                return (other, edge) if (other.ring, other.number) < (edge.ring, edge.number) else (edge, other)
        open_edges.append(edge)
    return None


def _edges(rings: list[list[Point]]) -> Iterator[Edge]:
    for number, ring in enumerate(rings, 1):
        for index, start in enumerate(ring):
            yield Edge(number, index + 1, start, ring[(index + 1) % len(ring)])


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _between(a: Point, b: Point, c: Point) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _meet(first: Edge, second: Edge) -> bool:
    if first.ring == second.ring and (first.end == second.start or second.end == first.start):
        one, two = (first, second) if first.end == second.start else (second, first)
        # Neighbours share a corner; they overlap only if the pencil turns back on itself there.
        ahead = (one.end[0] - one.start[0]) * (two.end[0] - two.start[0])
        ahead += (one.end[1] - one.start[1]) * (two.end[1] - two.start[1])
        return _turn(one.start, one.end, two.end) == 0 and ahead < 0
    a, b, c, d = first.start, first.end, second.start, second.end
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    side_c, side_d, side_a, side_b = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if (side_c > 0) != (side_d > 0) and (side_a > 0) != (side_b > 0) and 0 not in (side_a, side_b, side_c, side_d):
        return True
    touches = ((side_c, a, b, c), (side_d, a, b, d), (side_a, c, d, a), (side_b, c, d, b))
    return any(side == 0 and _between(start, end, point) for side, start, end, point in touches)


def _without_repeats(ring: list[Point]) -> list[Point]:
    kept = [point for index, point in enumerate(ring) if index == 0 or point != ring[index - 1]]
    while len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    return kept


def _numbers(entry: str) -> list[float]:
    pieces = entry.split(",")
    return [float(piece) for piece in pieces] if all(NUMBER.fullmatch(piece) for piece in pieces) else []


def _not_numbers(entry: str, wanted: str) -> Problem:
    hint = did_you_mean(entry, ("ring", "holes")) or SYNTAX
    return Problem("outline_not_understood", f"`{shortened(entry)}` is not understood: {wanted}.", hint=hint)


def _point(point: Point) -> str:
    return f"{point[0]:g},{point[1]:g}"

"""Dimension lines on a drawing in mm, with words that keep clear of each other; a scale bar, and notes below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitdb.drawings.lettering import LINE_HEIGHT, spread, text_width, wrapped
from fitdb.drawings.shapes import Circle, Label, Line

LETTER = 16.0
"""Letter size on the drawing, in mm of the board: a board 1 m long on a page 170 mm wide has letters of 2.3 mm."""

ROW = LETTER * LINE_HEIGHT
TICK = 5.0

Shapes = list[Line | Circle | Label]


@dataclass(frozen=True, slots=True)
class Callout:
    """A height over the ground at x: a line from the ground to z, and words for it."""

    x: float
    z: float
    words: tuple[str, ...]
    clash: bool = False


def across(x1: float, x2: float, y: float, words: str, kind: str = "dimension") -> Shapes:
    """A level dimension line with its words above the middle."""
    return [*_span((x1, y), (x2, y), kind), Label((x1 + x2) / 2, y + 6, words, "middle", True)]


def upright(x: float, y1: float, y2: float, words: Sequence[str], side: str, kind: str = "dimension") -> Shapes:
    """An upright dimension line with its words beside it, `left` or `right`."""
    shapes = _span((x, y1), (x, y2), kind)
    at, anchor = (x - 9, "end") if side == "left" else (x + 9, "start")
    middle = (y1 + y2) / 2 + (len(words) * ROW) / 2 - LETTER * 0.9
    return [*shapes, *(Label(at, middle - row * ROW, line, anchor, True) for row, line in enumerate(words))]


def chain(spans: Sequence[tuple[float, float, str]], y: float) -> Shapes:
    """Level dimension lines in one row; their words stand above, moved aside where they would meet."""
    ordered = sorted(spans)
    widths = [text_width(words, LETTER) + LETTER for _, _, words in ordered]
    middles = [(x1 + x2) / 2 for x1, x2, _ in ordered]
    low = min(middles, default=0.0) - sum(widths)
    places = spread(middles, widths, low, low + 3 * sum(widths))
    shapes: Shapes = []
    for (x1, x2, words), place in zip(ordered, places, strict=True):
        shapes += [*_span((x1, y), (x2, y), "dimension"), Label(place, y + 6, words, "middle", True)]
    return shapes


def over_the_ground(callouts: Sequence[Callout], row: float) -> Shapes:
    """Heights over the ground, z = 0; the words stand in one row whose top is at `row`, each with a leader."""
    ordered = sorted(callouts, key=lambda one: (one.x, one.words))
    widths = [max(text_width(line, LETTER) for line in one.words) + LETTER for one in ordered]
    wanted = [one.x for one in ordered]
    low = min(wanted, default=0.0) - sum(widths)
    places = spread(wanted, widths, low, low + 3 * sum(widths))
    shapes: Shapes = []
    for one, place in zip(ordered, places, strict=True):
        shapes += _span((one.x, 0.0), (one.x, one.z), "clash" if one.clash else "dimension")
        shapes.append(Line(((one.x, min(0.0, one.z)), (place, row + 3)), "note"))
        shapes += [
            Label(place, row - LETTER - number * ROW, line, "middle", True) for number, line in enumerate(one.words)
        ]
    return shapes


def scale_bar(x: float, y: float, length: float = 100.0) -> Shapes:
    """A bar of known length with its words to the right."""
    return [*_span((x, y), (x + length, y), "ground"), Label(x + length + 10, y - 5, f"{length:g} mm")]


def notes_below(notes: Sequence[str], x: float, y: float, width: float) -> Shapes:
    """Sentences under the drawing, in lines no wider than `width`."""
    lines = [line for note in notes for line in wrapped(note, LETTER, width)]
    return [Label(x, y - row * ROW, line) for row, line in enumerate(lines)]


def extent(shapes: Sequence[Line | Circle | Label]) -> tuple[float, float, float, float]:
    """Left, low, right and high edge of shapes, the estimated room of their words included."""
    edges = [_edges(shape) for shape in shapes]
    return (
        min(edge[0] for edge in edges),
        min(edge[1] for edge in edges),
        max(edge[2] for edge in edges),
        max(edge[3] for edge in edges),
    )


def _edges(shape: Line | Circle | Label) -> tuple[float, float, float, float]:
    if isinstance(shape, Circle):
        return shape.x - shape.radius, shape.y - shape.radius, shape.x + shape.radius, shape.y + shape.radius
    if isinstance(shape, Line):
        xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
        return min(xs), min(ys), max(xs), max(ys)
    width = text_width(shape.text, LETTER)
    left = shape.x - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor]
    return left, shape.y - LETTER * 0.25, left + width, shape.y + LETTER * 0.8


def _span(start: tuple[float, float], end: tuple[float, float], kind: str) -> Shapes:
    """A line with a short slanting stroke through each end, as on a workshop drawing."""
    half = TICK / 2
    strokes: Shapes = [Line(((x - half, y - half), (x + half, y + half)), kind) for x, y in (start, end)]
    return [Line((start, end), kind), *strokes]

"""Charts of what a board will do, as SVG: curves over one axis, with their ranges, for screen and for paper.

Boards are told apart by their dashes and by the words at the end of every line, never by colour alone. Letters are so
large that a print 80 mm wide can be read. Everything that is drawn is also said in the description.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from fitdb.drawings.chart_axes import Axis, axis_for, number_words, unit_sign
from fitdb.drawings.chart_labels import LETTER, End, Placed, place_labels
from fitdb.drawings.lettering import Box, printable, text_width, wrapped
from fitdb.drawings.svg import STROKES
from fitdb.model.outlook import BOARDS, Chart, Series
from fitdb.model.problems import OurFault

WIDTH = 480.0
EDGE = 10.0
LABEL_WIDTH = 118.0
PLOT_HEIGHT = 240.0
MOST_POINTS = 400
"""More points than these on one line are thinned to the highest and the lowest of each stretch."""

ROLES = ("main", "resistance", "limit", "point")
BOARD_WORDS = {"before": "before", "as_asked": "as asked", "built": "as built"}
BOARD_KINDS = {"before": "second", "as_asked": "first", "built": "gap"}
DASHES = {"before": "7 4", "as_asked": "", "built": "12 3 2 3"}
ROLE_KINDS = {"resistance": "note", "limit": "limit"}
NOTHING = "There is nothing to draw: nobody has read enough for this chart."

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """A series of a chart that has points, with all boards that it is the same for, and the words at its end."""

    series: Series
    boards: tuple[str, ...]
    words: str

    @property
    def board(self) -> str:
        """The board whose form and colour it has: the latest of those that it stands for."""
        return self.boards[-1]

    @property
    def dashes(self) -> str:
        """The dashes of its board; none where it stands for several."""
        return DASHES[self.board] if len(self.boards) == 1 else ""


@dataclass(frozen=True, slots=True)
class Plot:
    """The room for curves on the sheet, and the axes that map values into it."""

    room: Box
    across: Axis
    up: Axis

    def at(self, x: float, y: float) -> tuple[float, float]:
        return (
            self.room.left + self.across.share(x) * (self.room.right - self.room.left),
            self.room.bottom - self.up.share(y) * (self.room.bottom - self.room.top),
        )


def chart_svg(chart: Chart) -> str:
    """A self-contained SVG document of one chart. Raises OurFault for a chart that breaks its contract.

    Without a line, or with a reason why there is none, the document is a box with that sentence.
    """
    _check(chart)
    curves = _curves(chart)
    if chart.missing or not curves:
        return _sentence(chart, chart.missing or NOTHING)
    title = wrapped(printable(chart.title), LETTER, WIDTH - 2 * EDGE)
    across = axis_for([x for curve in curves for x in curve.series.x], 8, ends_on_ticks=False)
    up = axis_for([y for curve in curves for y in _heights(curve.series)], 7)
    left = EDGE + max(text_width(up.tick_words(tick), LETTER) for tick in up.ticks) + 8
    top = EDGE + 18 * len(title) + 32
    labels = {curve.words: wrapped(_held_together(curve.words), LETTER, LABEL_WIDTH) for curve in curves}
    column = max(text_width(line, LETTER) for lines in labels.values() for line in lines)
    least = sum(len(lines) for lines in labels.values()) * LETTER * 1.2 + 4 * len(labels)
    room = Box(left, top, WIDTH - EDGE - column - 18, top + max(PLOT_HEIGHT, least))
    plot = Plot(room, across, up)
    height = room.bottom + 48 + EDGE
    drawn = [(curve, _thinned(curve.series.x, curve.series.y)) for curve in curves]
    paths = [tuple(plot.at(x, y) for x, y in points) for _, points in drawn]
    ends = [
        End(labels[curve.words], *path[-1], curve.series.role == "point")
        for curve, path in zip(curves, paths, strict=True)
    ]
    placed = place_labels(ends, [p for c, p in zip(curves, paths, strict=True) if c.series.role != "point"], room)
    return "\n".join(
        [
            *_head(chart, height, _told(chart, curves)),
            *(_text(EDGE, EDGE + 12 + 18 * row, line, bold=True) for row, line in enumerate(title)),
            *_axes(chart, plot, EDGE + 18 * len(title) + 16),
            *(_band(curve, plot) for curve in curves if curve.series.low and curve.series.role != "point"),
            *(_curve(curve, path, plot) for curve, path in zip(curves, paths, strict=True)),
            *(line for curve, label in zip(curves, placed, strict=True) for line in _label(curve, label)),
            "</svg>",
            "",
        ]
    )


def _check(chart: Chart) -> None:
    for series in chart.series:
        where = f"chart {chart.id}, series {series.name}"
        if series.board not in BOARDS or series.role not in ROLES:
            raise OurFault(f"{where}: board {series.board!r} or role {series.role!r} is not known")
        many = len(series.x)
        if len(series.y) != many or not {len(series.low), len(series.high)} <= {0, many}:
            raise OurFault(f"{where}: x, y and the edges of the range have different lengths")
        if len(series.low) != len(series.high):
            raise OurFault(f"{where}: a range has two edges or none")
        if not all(math.isfinite(number) for number in (*series.x, *series.y, *series.low, *series.high)):
            raise OurFault(f"{where}: holds what is not a finite number")


def _curves(chart: Chart) -> tuple[Curve, ...]:
    """Series with points; those that are the same for several boards once, with all boards named."""
    boards: dict[tuple[object, ...], list[Series]] = {}
    for series in chart.series:
        if series.x:
            key = (series.name, series.role, series.x, series.y, series.low, series.high)
            boards.setdefault(key, []).append(series)
    everywhere = {series.board for same in boards.values() for series in same}
    curves = []
    for same in boards.values():
        here = tuple(board for board in BOARDS if any(series.board == board for series in same))
        told = ", ".join(BOARD_WORDS[board] for board in here)
        name = printable(same[0].name).strip()
        alike = len(here) == len(everywhere)  # what is the same on all boards that are drawn needs no board's name
        words = name if alike and name else f"{name}, {told}".removeprefix(", ")
        curves.append(Curve(same[0], here, words))
    return tuple(curves)


def _held_together(words: str) -> str:
    """No line breaks within the name of a board."""
    for told in BOARD_WORDS.values():
        words = words.replace(f", {told}", f", {told.replace(' ', chr(0xA0))}")
    return words


def _heights(series: Series) -> tuple[float, ...]:
    return (*series.y, *series.low, *series.high)


def _thinned(xs: Sequence[float], ys: Sequence[float], most: int = MOST_POINTS) -> Points:
    """The points of a line; of more than `most` the ends, and the highest and lowest of every stretch between."""
    points = tuple(zip(xs, ys, strict=True))
    if len(points) <= most:
        return points
    stretches = most // 2 - 1
    kept = {0, len(points) - 1}
    for number in range(stretches):
        here = range(len(points) * number // stretches, len(points) * (number + 1) // stretches)
        kept |= {min(here, key=ys.__getitem__), max(here, key=ys.__getitem__)}
    return tuple(points[index] for index in sorted(kept))


def _head(chart: Chart, height: float, told: str) -> list[str]:
    return [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:.0f}" width="{WIDTH:g}" '
        f'height="{height:.0f}" role="img" font-family="sans-serif" font-size="{LETTER:g}">',
        f"<title>{escape(printable(chart.title))}</title>",
        f"<desc>{escape(printable(told))}</desc>",
        f'<rect width="{WIDTH:g}" height="{height:.0f}" fill="#ffffff"/>',
    ]


def _sentence(chart: Chart, sentence: str) -> str:
    title = wrapped(printable(chart.title), LETTER, WIDTH - 2 * EDGE)
    lines = wrapped(printable(sentence), LETTER, WIDTH - 2 * EDGE - 32)
    top = EDGE + 18 * len(title) + 10
    bottom = top + 18 * len(lines) + 28
    return "\n".join(
        [
            *_head(chart, bottom + EDGE, f"{chart.description} {sentence}".strip()),
            *(_text(EDGE, EDGE + 12 + 18 * row, line, bold=True) for row, line in enumerate(title)),
            f'<rect x="{EDGE:g}" y="{top:.0f}" width="{WIDTH - 2 * EDGE:g}" height="{bottom - top:.0f}" '
            'fill="#f4f4f4" stroke="#555555" stroke-width="1"/>',
            *(_text(EDGE + 16, top + 26 + 18 * row, line) for row, line in enumerate(lines)),
            "</svg>",
            "",
        ]
    )


def _axes(chart: Chart, plot: Plot, unit_line: float) -> list[str]:
    room, lines = plot.room, []
    for tick in plot.up.ticks:
        y = room.bottom - (tick - plot.up.low) / (plot.up.high - plot.up.low) * (room.bottom - room.top)
        lines.append(_rule(room.left, y, room.right, y, "#e0e0e0", 1))
        lines.append(_text(room.left - 6, y + 5, plot.up.tick_words(tick), "end"))
    wide = max(text_width(plot.across.tick_words(tick), LETTER) for tick in plot.across.ticks) + 6
    places = [
        room.left + (tick - plot.across.low) / (plot.across.high - plot.across.low) * (room.right - room.left)
        for tick in plot.across.ticks
    ]
    apart = (places[-1] - places[0]) / max(len(places) - 1, 1)
    every = math.ceil(wide / apart) if apart else 1  # long numbers are written at every other tick
    for number, (x, tick) in enumerate(zip(places, plot.across.ticks, strict=True)):
        lines.append(_rule(x, room.bottom, x, room.bottom + 5, "#333333", 1))
        if number % every == 0:
            lines.append(_text(x, room.bottom + 20, plot.across.tick_words(tick), "middle"))
    lines.append(_rule(room.left, room.top, room.left, room.bottom, "#333333", 1))
    floor = room.bottom - plot.up.share(0.0) * (room.bottom - room.top) if plot.up.low < 0 < plot.up.high else None
    lines.append(_rule(room.left, room.bottom, room.right, room.bottom, "#333333", 1))
    if floor is not None:
        lines.append(_rule(room.left, floor, room.right, floor, "#333333", 1))
    lines.append(_text(EDGE, unit_line, _axis_title(chart.y_title, plot.up.unit_words(chart.y_unit))))
    below = _axis_title(chart.x_title, plot.across.unit_words(chart.x_unit))
    right = max(room.right, EDGE + text_width(below, LETTER))
    lines.append(_text(right, room.bottom + 42, below, "end"))
    return lines


def _axis_title(title: str, unit: str) -> str:
    """One line, cut where it would leave the sheet; the whole title stands in the description."""
    words = printable(f"{title} {unit}".strip())
    lines = wrapped(words, LETTER, WIDTH - 2 * EDGE)
    return words if len(lines) == 1 else f"{wrapped(words, LETTER, WIDTH - 3 * EDGE - LETTER)[0]}…"


def _band(curve: Curve, plot: Plot) -> str:
    series = curve.series
    upper, lower = _thinned(series.x, series.high), _thinned(series.x, series.low)
    _, fill, _ = STROKES[_kind(curve)]
    shade = fill if fill != "none" else STROKES[BOARD_KINDS[curve.board]][0]
    opacity = "0.7" if fill != "none" else "0.15"
    edge = _points([plot.at(x, y) for x, y in (*upper, *reversed(lower))])
    return f'<polygon points="{edge}" fill="{shade}" fill-opacity="{opacity}" stroke="none"/>'


def _curve(curve: Curve, path: Points, plot: Plot) -> str:
    role = curve.series.role
    stroke, _, _ = STROKES[_kind(curve)]
    title = f"<title>{escape(curve.words)}</title>"
    if role == "point" or len(path) == 1:
        return f"<g>{title}{''.join(_whiskers(curve, plot, stroke))}{''.join(_mark(curve, *at) for at in path)}</g>"
    dash = f' stroke-dasharray="{curve.dashes}"' if curve.dashes else ""
    width = "2.4" if role == "main" else "1.2"
    return (
        f'<g>{title}<polyline points="{_points(path)}" fill="none" stroke="{stroke}" stroke-width="{width}"{dash} '
        'stroke-linejoin="round"/></g>'
    )


def _whiskers(curve: Curve, plot: Plot, stroke: str) -> list[str]:
    series = curve.series
    if not series.low:
        return []
    bars = []
    for x, low, high in zip(series.x, series.low, series.high, strict=True):
        (at, bottom), (_, top) = plot.at(x, low), plot.at(x, high)
        bars.append(_rule(at, top, at, bottom, stroke, 1.2))
        bars += [_rule(at - 4, y, at + 4, y, stroke, 1.2) for y in (top, bottom)]
    return bars


def _mark(curve: Curve, x: float, y: float) -> str:
    """A ring before, a disc as asked, a lozenge as built: forms that differ in grey."""
    stroke, _, _ = STROKES[_kind(curve)]
    if curve.board == "built":
        corners = _points(((x, y - 6), (x + 6, y), (x, y + 6), (x - 6, y)))
        return f'<polygon points="{corners}" fill="{stroke}" stroke="#ffffff" stroke-width="1"/>'
    fill = "#ffffff" if curve.board == "before" else stroke
    return f'<circle cx="{x:.2f}" cy="{y:.2f}" r="4.5" fill="{fill}" stroke="{stroke}" stroke-width="2"/>'


def _label(curve: Curve, label: Placed) -> list[str]:
    stroke, _, _ = STROKES[_kind(curve)]
    lines = []
    if label.leader:
        lines.append(
            f'<polyline points="{_points(label.leader)}" fill="none" stroke="{stroke}" stroke-width="0.8" '
            'stroke-dasharray="1 2"/>'
        )
    return lines + [
        _text(label.x, label.first_line + row * LETTER * 1.2, line, label.anchor, stroke)
        for row, line in enumerate(label.lines)
    ]


def _kind(curve: Curve) -> str:
    return ROLE_KINDS.get(curve.series.role, BOARD_KINDS[curve.board])


def _told(chart: Chart, curves: Sequence[Curve]) -> str:
    x_unit, y_unit = unit_sign(chart.x_unit), unit_sign(chart.y_unit)
    lines = [chart.description, f"Across: {chart.x_title}, {x_unit}. Up: {chart.y_title}, {y_unit}."]
    for curve in curves:
        points = list(zip(curve.series.x, curve.series.y, strict=True))
        told = [points[0], points[-1]] if len(points) > 1 else points
        words = " to ".join(f"{_measure(y, y_unit)} at {_measure(x, x_unit)}" for x, y in told)
        if len(points) > 2:
            top, bottom = max(curve.series.y), min(curve.series.y)
            words += f", between {_measure(bottom, y_unit)} and {_measure(top, y_unit)}"
        if curve.series.low:
            low, high = min(curve.series.low), max(curve.series.high)
            words += f"; with its range {_measure(low, y_unit)} to {_measure(high, y_unit)}"
        lines.append(f"{curve.words}: {words}.")
    return " ".join(line for line in lines if line)


def _measure(value: float, unit: str) -> str:
    return f"{number_words(value)} {unit}".strip()


def _points(points: Sequence[tuple[float, float]]) -> str:
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in points)


def _rule(x1: float, y1: float, x2: float, y2: float, stroke: str, width: float) -> str:
    return f'<line x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" stroke="{stroke}" stroke-width="{width:g}"/>'


def _text(x: float, y: float, words: str, anchor: str = "start", fill: str = "#000000", bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{fill}"{weight}>{escape(words)}</text>'

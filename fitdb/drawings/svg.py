"""Shapes as SVG. Colours are presentation attributes, never style attributes, so a strict page policy shows them."""

from __future__ import annotations

import math
from collections.abc import Callable
from xml.sax.saxutils import escape, quoteattr

from fitdb.drawings.dimensions import LETTER, extent
from fitdb.drawings.lettering import printable, text_width
from fitdb.drawings.shapes import Circle, Drawing, Label, Line

WIDTH, HEIGHT, EDGE, CAPTION = 640.0, 420.0, 36.0, 44.0
MARGIN, HEAD = 14.0, 48.0
SEEN_FROM = {"xy": "from above", "xz": "from the right side", "yz": "from the front", "face": "face on"}
# First and second part, then what lies between them; dash patterns tell them apart without colour.
STROKES = {
    "first": ("#1b4f72", "#d6e6f2", ""),
    "second": ("#7a3e00", "#f6e3cf", "6 3"),
    "gap": ("#2e6b34", "none", "2 2"),
    "clash": ("#a11a1a", "#f7d4d4", ""),
    "limit": ("#a11a1a", "none", ""),
    "range": ("#1b4f72", "none", ""),
    "note": ("#555555", "none", "1 3"),
    # Of whole boards:
    "ground": ("#333333", "none", ""),
    "dimension": ("#333333", "none", ""),
    "wheel": ("#333333", "#e4e4e4", ""),
    "metal": ("#555555", "#cfcfcf", ""),
    "box": ("#2e6b34", "#d5e8d7", ""),
    "below": ("#2e6b34", "none", "8 4"),
    "motor": ("#7a3e00", "#f6e3cf", ""),
    "pulley": ("#7a3e00", "none", ""),
    "belt": ("#222222", "none", ""),
}


def svg(drawing: Drawing) -> str:
    """A self-contained SVG document, scaled to fit, y up as in the frame."""
    points = [point for shape in drawing.shapes for point in _extent(shape)]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    across, up = max(right - left, 1e-6), max(high - low, 1e-6)
    flat = drawing.plane == "scale"  # the second axis of a scale means nothing and may be stretched
    scale = min((WIDTH - 2 * EDGE) / across, (HEIGHT - 2 * EDGE) / up)
    scale_x, scale_y = ((WIDTH - 2 * EDGE) / across, 60.0) if flat else (scale, scale)
    height = up * scale_y + 2 * EDGE + CAPTION
    margin = (WIDTH - across * scale_x) / 2

    def at(x: float, y: float) -> tuple[float, float]:
        return margin + (x - left) * scale_x, CAPTION + EDGE + (high - y) * scale_y

    body = [_draw(shape, at, scale_x) for shape in drawing.shapes]
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:.0f}" width="{WIDTH:g}" '
            f'height="{height:.0f}" role="img" font-family="sans-serif" font-size="13">',
            f"<title>{escape(drawing.title)}</title>",
            f"<desc>{escape(drawing.description)}</desc>",
            f'<rect width="{WIDTH:g}" height="{height:.0f}" fill="#ffffff"/>',
            *_caption(drawing),
            *body,
            "</svg>",
            "",
        ]
    )


def svg_to_scale(drawing: Drawing) -> str:
    """A self-contained SVG document in which one unit is one mm, however large the drawing is; y up as in the frame."""
    left, low, right, high = extent(drawing.shapes)
    caption = text_width(_seen_from(drawing), LETTER)
    width = math.ceil(max(right - left, caption) + 2 * MARGIN)
    height = math.ceil(high - low + 2 * MARGIN + HEAD)

    def at(x: float, y: float) -> tuple[float, float]:
        return MARGIN + x - left, HEAD + MARGIN + high - y

    title, seen = escape(printable(drawing.title)), escape(printable(_seen_from(drawing)))
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" '
            f'height="{height}" role="img" font-family="sans-serif" font-size="{LETTER:g}">',
            f"<title>{title}</title>",
            f"<desc>{escape(printable(drawing.description))}</desc>",
            f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
            f'<text x="{MARGIN:g}" y="{MARGIN + 12:g}" font-weight="bold">{title}</text>',
            f'<text x="{MARGIN:g}" y="{MARGIN + 34:g}" fill="#555555">{seen}</text>',
            *[_draw(shape, at, 1.0) for shape in drawing.shapes if not isinstance(shape, Label)],
            *[_back(shape, at) for shape in drawing.shapes if isinstance(shape, Label) and shape.backed],
            *[_draw(shape, at, 1.0) for shape in drawing.shapes if isinstance(shape, Label)],
            "</svg>",
            "",
        ]
    )


def _back(label: Label, place: Callable[[float, float], tuple[float, float]]) -> str:
    left, low, right, high = extent([label])
    x, y = place(left, high)
    return (
        f'<rect x="{x:.1f}" y="{y:.1f}" width="{right - left:.1f}" height="{high - low:.1f}" fill="#ffffff" '
        'fill-opacity="0.9"/>'
    )


def _seen_from(drawing: Drawing) -> str:
    return f"{SEEN_FROM[drawing.plane]}, to scale, sizes in {drawing.unit}"


def _caption(drawing: Drawing) -> list[str]:
    lines = [f'<text x="12" y="20" font-weight="bold">{escape(drawing.title)}</text>']
    if drawing.plane not in ("scale",):
        seen = f"{SEEN_FROM[drawing.plane]}, sizes in {escape(drawing.unit)}"
        lines.append(f'<text x="12" y="38" fill="#555555">{seen}</text>')
    return lines


def _draw(shape: Line | Circle | Label, place: Callable[[float, float], tuple[float, float]], scale: float) -> str:
    if isinstance(shape, Label):
        x, y = place(shape.x, shape.y)
        return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor={quoteattr(shape.anchor)}>{escape(shape.text)}</text>'
    stroke, fill, dash = STROKES[shape.kind]
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    paint = f'stroke="{stroke}" stroke-width="1.4"{dashed} fill-opacity="0.6"'
    if isinstance(shape, Circle):
        x, y = place(shape.x, shape.y)
        return f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{shape.radius * scale:.2f}" fill="{fill}" {paint}/>'
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in (place(*point) for point in shape.points))
    if shape.closed:
        return f'<polygon points="{points}" fill="{fill}" {paint}/>'
    return f'<polyline points="{points}" fill="none" {paint}/>'


def _extent(shape: Line | Circle | Label) -> tuple[tuple[float, float], ...]:
    if isinstance(shape, Line):
        return shape.points
    if isinstance(shape, Circle):
        return (shape.x - shape.radius, shape.y - shape.radius), (shape.x + shape.radius, shape.y + shape.radius)
    return ((shape.x, shape.y),)

"""What a drawing is made of: shapes in mm in the board's frame, x to the nose, y to the left, z up.

A drawing shows one plane: `xy` from above, `xz` from the right side, `yz` from the front. Parts that meet on a face
of their own (a core and its lugs, a hole pattern) are drawn face on, in x and y of that face.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

PLANES = {"xy": ("x", "y"), "xz": ("x", "z"), "yz": ("y", "z"), "face": ("x", "y"), "scale": ("value", "")}
KINDS = ("first", "second", "gap", "clash", "limit", "range", "note")
BOARD_KINDS = ("ground", "dimension", "wheel", "metal", "box", "below", "motor", "pulley", "belt")


@dataclass(frozen=True, slots=True)
class Line:
    """Points joined by straight lines; `kind` (KINDS, on whole boards BOARD_KINDS too) says what it stands for."""

    points: tuple[tuple[float, float], ...]
    kind: str
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    x: float
    y: float
    radius: float
    kind: str


@dataclass(frozen=True, slots=True)
class Label:
    """Words at a point of the drawing; anchor start, middle or end. backed: on white, over lines that run there."""

    x: float
    y: float
    text: str
    anchor: str = "start"
    backed: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes of one plane, with a title and a description in words for whoever cannot see it."""

    title: str
    description: str
    plane: str
    shapes: tuple[Line | Circle | Label, ...]
    unit: str = "mm"

    def document(self) -> dict[str, Any]:
        """The geometry as plain data, in the documented frame."""
        axes = PLANES[self.plane]
        return {
            "title": self.title,
            "description": self.description,
            "plane": self.plane,
            "axes": [axis for axis in axes if axis],
            "unit": self.unit,
            "shapes": [_shape(shape) for shape in self.shapes],
        }


def _shape(shape: Line | Circle | Label) -> dict[str, Any]:
    if isinstance(shape, Line):
        points = [[round(x, 4), round(y, 4)] for x, y in shape.points]
        return {"shape": "line", "kind": shape.kind, "closed": shape.closed, "points": points}
    if isinstance(shape, Circle):
        centre = [round(shape.x, 4), round(shape.y, 4)]
        return {"shape": "circle", "kind": shape.kind, "centre": centre, "radius": round(shape.radius, 4)}
    return {"shape": "label", "text": shape.text, "at": [round(shape.x, 4), round(shape.y, 4)]}

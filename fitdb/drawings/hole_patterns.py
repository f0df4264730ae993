"""Two hole patterns face on, laid on one another about a common middle."""

from __future__ import annotations

from collections.abc import Callable

from fitdb.drawings.readings import count_of, outline_of, size_of
from fitdb.drawings.shapes import Circle, Drawing, Label, Line
from fitdb.model.joint import Joint

Hole = tuple[float, float, float]


def pattern_drawing(first: str, second: str, title: str) -> Callable[[Joint], Drawing | None]:
    """A drawing of the patterns of two roles; None where neither side is known well enough to draw."""

    def draw(joint: Joint) -> Drawing | None:
        sides = [_holes(joint, first), _holes(joint, second)]
        if not any(sides):
            return None
        shapes: list[Line | Circle | Label] = []
        for holes, kind in zip(sides, ("first", "second"), strict=True):
            shapes += [Circle(x, y, diameter / 2, kind) for x, y, diameter in holes]
        reach = max(max(abs(x), abs(y)) + diameter for side in sides for x, y, diameter in side)
        shapes += [Line(((-reach, 0), (reach, 0)), "note"), Line(((0, -reach), (0, reach)), "note")]
        shapes.append(Label(-reach, reach, f"{_spoken(first)} (solid), {_spoken(second)} (dashed)"))
        counts = f"{len(sides[0])} holes of the {_spoken(first)}, {len(sides[1])} of the {_spoken(second)}"
        told = f"{counts}, laid about one middle."
        return Drawing(title, told, "face", tuple(shapes))

    return draw


def _holes(joint: Joint, role: str) -> list[Hole]:
    drawn = outline_of(joint, role, "outline")
    if drawn is not None and drawn.holes:
        middle_x = sum(hole[0] for hole in drawn.holes) / len(drawn.holes)
        middle_y = sum(hole[1] for hole in drawn.holes) / len(drawn.holes)
        return [(x - middle_x, y - middle_y, diameter) for x, y, diameter, *_ in drawn.holes]
    length, width = size_of(joint, role, "grid_length"), size_of(joint, role, "grid_width")
    diameter = size_of(joint, role, "hole_diameter")
    if length is None or width is None or diameter is None or count_of(joint, role, "hole_count") not in (None, 4):
        return []
    return [(sx * length / 2, sy * width / 2, diameter) for sx in (-1, 1) for sy in (-1, 1)]


def _spoken(role: str) -> str:
    return role.replace("_", " ")

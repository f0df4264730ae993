"""A whole board to scale, from its side and from above, with its clearances; what nobody has read is named below."""

from __future__ import annotations

from collections.abc import Mapping

from fitdb.drawings.board_plan import plan_drawing
from fitdb.drawings.board_readings import BoardReadings
from fitdb.drawings.board_side import side_drawing
from fitdb.drawings.shapes import Drawing
from fitdb.drawings.svg import svg_to_scale
from fitdb.model.finding import Range
from fitdb.model.joint import Piece


def side_view(seated: Mapping[str, Piece], sizes: Mapping[str, Range]) -> Drawing | None:
    """The board from its right side, nose to the right, in x and z; z = 0 is the ground.

    `seated` holds the pieces by seat, `sizes` worked-out sizes in mm (angles in degrees) by name; both may lack
    anything. None where the wheelbase is not known, or how high any axle stands. Raises OurFault for a size that is
    not a finite number.
    """
    return side_drawing(BoardReadings(seated, sizes))


def plan_view(seated: Mapping[str, Piece], sizes: Mapping[str, Range]) -> Drawing | None:
    """The board from above, nose to the right, in x and y. None where the wheelbase is not known."""
    return plan_drawing(BoardReadings(seated, sizes))


def board_svg(drawing: Drawing) -> str:
    """A view as an SVG document in which one unit is one millimetre of the board."""
    return svg_to_scale(drawing)

"""What goes into the box, from above: cavity and contents side by side, in the order they are named."""

from __future__ import annotations

from fitdb.drawings.readings import outline_of, size_of, sizes_of
from fitdb.drawings.shapes import Circle, Drawing, Label, Line
from fitdb.model.joint import Joint


def box_contents_drawing(joint: Joint) -> Drawing | None:
    """None while the cavity or a content is unread. Contents are laid out in a row: a look at sizes, not a packing."""
    length, width = size_of(joint, "enclosure", "cavity_length"), size_of(joint, "enclosure", "cavity_width")
    lengths, widths = sizes_of(joint, "content", "body_length"), sizes_of(joint, "content", "body_width")
    if not length or not width or not lengths or len(lengths) != len(widths):
        return None
    drawn = outline_of(joint, "enclosure", "outline")
    rings = drawn.rings if drawn and drawn.rings else (((0.0, 0.0), (length, 0.0), (length, width), (0.0, width)),)
    shapes: list[Line | Circle | Label] = [Line(ring, "first", True) for ring in rings]
    at = 0.0
    for long, wide in zip(lengths, widths, strict=True):
        kind = "clash" if at + long > length or wide > width else "second"
        shapes.append(Line(((at, 0), (at + long, 0), (at + long, wide), (at, wide)), kind, True))
        at += long
    shapes.append(Label(0, width + 8, "cavity (solid), contents in a row (dashed)"))
    told = f"Cavity {length:.0f} by {width:.0f} mm; contents in a row take {at:.0f} mm of its length."
    return Drawing("Contents and cavity", told, "xy", tuple(shapes))

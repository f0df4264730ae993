"""Wheel and leaned deck from the front: axle level, the deck's edge coming down over the wheel at full lean."""

from __future__ import annotations

import math

from fitdb.drawings.readings import size_of, sizes_of, word_of
from fitdb.drawings.shapes import Circle, Drawing, Label, Line
from fitdb.model.joint import Joint


def wheel_bite_drawing(joint: Joint) -> Drawing | None:
    """None while height, wheel, deck width or lean is not known. Drawn at nominal sizes, steer left out."""
    diameter = size_of(joint, "wheel", "outer_diameter")
    width = size_of(joint, "wheel", "width") or 50.0
    half = size_of(joint, "deck", "half_width_at_wheel")
    thickness = size_of(joint, "deck", "thickness") or 11.0
    lean = size_of(joint, "truck", "max_lean") or size_of(joint, "rider", "max_lean")
    face = size_of(joint, "truck", "axle_to_deck_face")
    hanger = size_of(joint, "truck", "hanger_width")
    if None in (diameter, half, lean, face, hanger):
        return None
    assert diameter and half and lean and face and hanger
    risers = sum(sizes_of(joint, "riser", "thickness"))
    height = face + risers
    if word_of(joint, "deck", "mount_style") == "drop_through":
        height = face - (size_of(joint, "truck", "plate_thickness") or 6.0) - thickness - risers
    radius, tilt = diameter / 2, math.radians(lean)
    inner, outer = hanger / 2, hanger / 2 + width

    def leaned(y: float, z: float) -> tuple[float, float]:
        return y, height + z - y * math.sin(tilt)

    deck = (leaned(-half, 0), leaned(half, 0), leaned(half, thickness), leaned(-half, thickness))
    wheel = ((inner, -radius), (outer, -radius), (outer, radius), (inner, radius))
    other = tuple((-y, z) for y, z in wheel)
    contact = min(half, outer)
    gap = height - radius - contact * math.sin(tilt)
    shapes: tuple[Line | Circle | Label, ...] = (
        Line(deck, "first", True),
        Line(wheel, "second", True),
        Line(other, "second", True),
        Line(((-outer, 0.0), (outer, 0.0)), "note"),
        Line(((contact, radius), (contact, height - contact * math.sin(tilt))), "clash" if gap < 0 else "gap"),
        Label(-half, height + half * math.sin(tilt) + 2 * thickness, f"deck leaned {lean:.0f} deg"),
        Label(contact, -radius - 10, f"gap {gap:.1f} mm", "middle"),
    )
    told = f"Deck leaned {lean:.0f} degrees over a {diameter:.0f} mm wheel, steer left out: {gap:.1f} mm between them."
    return Drawing("Wheel and deck at full lean", told, "yz", shapes)

"""The belt round its two pulleys, from the side, with the travel of the motor slot."""

from __future__ import annotations

import math

from fitdb.drawings.readings import count_of, size_of
from fitdb.drawings.shapes import Circle, Drawing, Label, Line
from fitdb.formulas.belts import centre_distance_for_length, pitch_diameter
from fitdb.model.joint import Joint


def belt_drawing(joint: Joint) -> Drawing | None:
    """None while teeth, pitch or belt length is unread, or where the belt does not go round both pulleys."""
    driven, drive = count_of(joint, "driven_pulley", "teeth"), count_of(joint, "drive_pulley", "teeth")
    pitch = size_of(joint, "belt", "tooth_pitch") or size_of(joint, "drive_pulley", "tooth_pitch")
    length = size_of(joint, "belt", "length")
    if driven is None or drive is None or pitch is None or length is None:
        return None
    centre = centre_distance_for_length(driven, drive, pitch, length)
    if not math.isfinite(centre):
        return None
    large, small = pitch_diameter(driven, pitch) / 2, pitch_diameter(drive, pitch) / 2
    lean = math.asin(max(-1.0, min(1.0, (large - small) / centre)))
    upper = (
        (large * math.sin(lean), large * math.cos(lean)),
        (centre + small * math.sin(lean), small * math.cos(lean)),
    )
    lower = tuple((x, -y) for x, y in upper)
    shapes: list[Line | Circle | Label] = [
        Circle(0, 0, large, "first"),
        Circle(centre, 0, small, "first"),
        Line(upper, "second"),
        Line(lower, "second"),
        Line(((0, 0), (centre, 0)), "note"),
        Label(centre / 2, 2, f"centres {centre:.1f} mm", "middle"),
        Label(0, -large - 8, f"{driven} teeth", "middle"),
        Label(centre, -large - 8, f"{drive} teeth", "middle"),
    ]
    least, most = size_of(joint, "motor_mount", "centre_min"), size_of(joint, "motor_mount", "centre_max")
    if least is not None and most is not None:
        shapes += [Line(((x, -small - 4), (x, small + 4)), "limit") for x in (least, most)]
        shapes.append(Label((least + most) / 2, small + 8, f"slot {least:.0f} to {most:.0f}", "middle"))
    told = (
        f"{driven} and {drive} teeth at {pitch:g} mm on a {length:g} mm belt: the centres stand {centre:.2f} mm apart."
    )
    return Drawing("Belt and pulleys", told, "xz", tuple(shapes))

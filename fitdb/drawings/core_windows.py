"""Lugs in core windows, face on: the core's windows and the pulley's lugs at the turn that leaves most room."""

from __future__ import annotations

import math

from fitdb.drawings.readings import count_of, outline_of, size_of
from fitdb.drawings.shapes import Circle, Drawing, Label, Line
from fitdb.formulas.core_windows import lug_outlines, lugs_clearance, window_outlines
from fitdb.model.joint import Joint

Rings = tuple[tuple[tuple[float, float], ...], ...]


def core_windows_drawing(joint: Joint) -> Drawing | None:
    """None where neither side has enough sizes to draw."""
    windows, lugs = _windows(joint), _lugs(joint)
    if not windows and not lugs:
        return None
    turn = 0.0
    told = "Windows of the wheel's core in blue; nobody has read the lugs."
    if windows and lugs:
        best = lugs_clearance(windows, lugs)
        turn = best.rotation_deg
        told = f"Lugs in the windows at the best turn, {turn:.1f} degrees: the least gap is {best.clearance_mm:.2f} mm."
        lugs = tuple(_turned(lug, turn) for lug in lugs)
    radius = size_of(joint, "wheel", "window_circle_radius") or size_of(joint, "pulley", "lug_circle_radius") or 0.0
    reach = max(math.hypot(x, y) for ring in (*windows, *lugs) for x, y in ring)
    shapes: list[Line | Circle | Label] = [Circle(0, 0, reach * 1.15, "note"), Circle(0, 0, max(radius, 0.1), "note")]
    shapes += [Line(ring, "first", True) for ring in windows]
    shapes += [Line(ring, "second", True) for ring in lugs]
    shapes.append(Label(-reach * 1.1, reach * 1.05, "windows (solid), lugs (dashed)"))
    return Drawing("Pulley lugs in the core's windows", told, "face", tuple(shapes))


def _windows(joint: Joint) -> Rings:
    drawn = outline_of(joint, "wheel", "outline")
    if drawn is not None and drawn.rings:
        return drawn.rings
    count = count_of(joint, "wheel", "window_count")
    radius, width = size_of(joint, "wheel", "window_circle_radius"), size_of(joint, "wheel", "window_width")
    height = size_of(joint, "wheel", "window_radial_height") or width
    if not count or radius is None or width is None or height is None:
        return ()
    return tuple(tuple(ring) for ring in window_outlines(count, radius, width, height))


def _lugs(joint: Joint) -> Rings:
    drawn = outline_of(joint, "pulley", "outline")
    if drawn is not None and drawn.rings:
        return drawn.rings
    count = count_of(joint, "pulley", "lug_count")
    radius, width = size_of(joint, "pulley", "lug_circle_radius"), size_of(joint, "pulley", "lug_width")
    height = size_of(joint, "pulley", "lug_radial_height") or width
    if not count or radius is None or width is None or height is None:
        return ()
    return tuple(tuple(ring) for ring in lug_outlines(count, radius, width, height))


def _turned(ring: tuple[tuple[float, float], ...], degrees: float) -> tuple[tuple[float, float], ...]:
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in ring)

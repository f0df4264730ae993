"""Wires and leads round corners: the least bend radius, and the length of a path of straights and bends.

All lengths in millimetres. The bend radius is taken at the inside of the bend, where cable makers state it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence


def least_bend_radius_mm(outside_diameter_mm: float, factor: float) -> float:
    """Least inside bend radius, mm: ``factor`` × outside diameter.

    Common practice, no source: a factor of 4 for a silicone lead that stays put and 8 for one that keeps moving;
    a maker's data sheet overrides both. Raises ValueError unless both are finite and above 0.
    """
    _check_positive("least_bend_radius_mm: outside_diameter_mm", outside_diameter_mm)
    _check_positive("least_bend_radius_mm: factor", factor)
    return factor * outside_diameter_mm


def bend_radius_ratio(inside_radius_mm: float, outside_diameter_mm: float) -> float:
    """Inside bend radius over outside diameter: what is compared with the factor. A sharp edge has the radius 0."""
    if not (math.isfinite(inside_radius_mm) and inside_radius_mm >= 0):
        raise ValueError(
            f"bend_radius_ratio: inside_radius_mm is {inside_radius_mm!r}; it must be a finite number, 0 or more."
        )
    _check_positive("bend_radius_ratio: outside_diameter_mm", outside_diameter_mm)
    return inside_radius_mm / outside_diameter_mm


def bend_room_mm(outside_diameter_mm: float, factor: float) -> float:
    """Room, mm, in front of the face a lead leaves at a right angle, until it runs along that face: inside radius plus
    the lead itself, (factor + 1) × diameter. Plane geometry; a straight piece at the plug comes on top."""
    return least_bend_radius_mm(outside_diameter_mm, factor) + outside_diameter_mm


def arc_length_mm(inside_radius_mm: float, angle_deg: float, outside_diameter_mm: float = 0.0) -> float:
    """Length of a bend along the lead's middle line, mm: (inside radius + d/2) × angle in radians, angle >= 0."""
    for name, value in (
        ("inside_radius_mm", inside_radius_mm),
        ("angle_deg", angle_deg),
        ("outside_diameter_mm", outside_diameter_mm),
    ):
        if not (math.isfinite(value) and value >= 0):
            raise ValueError(f"arc_length_mm: {name} is {value!r}; it must be a finite number, 0 or more.")
    return (inside_radius_mm + outside_diameter_mm / 2) * math.radians(angle_deg)


def path_length_mm(
    straights_mm: Sequence[float], bends: Sequence[tuple[float, float]], outside_diameter_mm: float = 0.0
) -> float:
    """Length of a lead, mm: its straight pieces and its ``bends``, each an (inside radius mm, angle degrees)."""
    for number, straight in enumerate(straights_mm):
        if not (math.isfinite(straight) and straight >= 0):
            raise ValueError(
                f"path_length_mm: straight piece {number + 1} is {straight!r} mm; it must be finite, 0 or more."
            )
    arcs = (arc_length_mm(radius, angle, outside_diameter_mm) for radius, angle in bends)
    return math.fsum(straights_mm) + math.fsum(arcs)


def _check_positive(what: str, value: float) -> None:
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{what} is {value!r}; it must be a finite number above 0.")

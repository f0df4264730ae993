"""How much of a deck bolt is left once it holds its stack (J03). Lengths in mm, angles in degrees."""

from collections.abc import Sequence
from math import radians, tan


def held_stack(
    deck: float,
    grips: Sequence[float],
    grips_under_heads: Sequence[str],
    risers: Sequence[float],
    plate: float,
    adapters: Sequence[float],
) -> float:
    """Sum of what lies between the head and the nut: deck + grip under the head + Σ risers + plate.

    ``grips_under_heads`` yes or no per sheet of grip. An adapter plate takes bolts of its own: the deck's bolts then
    end in the adapter (``adapters``, its thickness) and no longer in the truck's plate. Source: plane geometry.
    """
    under = sum(thick for thick, under_head in zip(grips, grips_under_heads, strict=True) if under_head == "yes")
    return deck + under + sum(risers) + (sum(adapters) if adapters else plate)


def wedge_rise(grid_length: float, angles: Sequence[float]) -> float:
    """What wedges add at the thick pair of bolts and take away at the thin pair: (g/2)·Σ tan α.

    ``grid_length`` g, distance of the two pairs along the slope. Source: plane geometry.
    """
    return 0.5 * grid_length * sum(tan(radians(angle)) for angle in angles)

"""What stands between a box and its deck, and how a rim follows the curve of the deck. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence


def pressed_thickness(thickness: float, compression: float) -> float:
    """Thickness of a gasket that is pressed by ``compression`` percent of its free ``thickness``: t·(1 − c/100)."""
    return thickness * (1.0 - compression / 100.0)


def between_box_and_deck(
    gaskets: Sequence[float], compressions: Sequence[float], frames: Sequence[float], more_gaskets: Sequence[float]
) -> float:
    """Height of everything between rim and deck: pressed gaskets, frames and the frames' own pressed gaskets.

    ``gaskets`` free thicknesses with their ``compressions`` in percent; ``frames`` thicknesses; ``more_gaskets``
    pressed. Source: plane geometry.
    """
    pressed = sum(pressed_thickness(free, share) for free, share in zip(gaskets, compressions, strict=True))
    return pressed + sum(frames) + sum(more_gaskets)


def screw_in_the_insert(length: float, washers: float, flange: float, between: float) -> float:
    """Length of screw inside the insert: what is left once washers, flange and all in between are passed."""
    return length - washers - flange - between


def curve_under_a_box(curve: float, size: float, whole: float) -> float:
    """Depth of a deck's curve under a box that covers only its middle: c·(ℓ/L)².

    ``curve`` c of the whole deck, over ``whole`` L (its width for a concave, truck to truck for a camber); ``size`` ℓ
    of the box, never counted beyond L. A deck's curve is taken for an arc, on which the sagitta goes with the square
    of the chord. Source: plane geometry, shallow arcs.
    """
    return curve * min(size / whole, 1.0) ** 2


RIM_GIVE = {"rigid": 1.5, "soft_pad": 3.0, "floating": 8.0}
"""How far a rim follows a bending deck by the way it is fixed, mm. Common practice, no source."""

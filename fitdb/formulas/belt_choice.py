"""Which stocked belt suits a slot, and finite figures for drives that cannot exist (J21, J22).

Lengths in millimetres. `fitdb.formulas.belts` answers `nan` where no drive exists; a rule needs a number there that is
plainly on the failing side, and these functions give it.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from fitdb.formulas.belts import (
    centre_distance_for_length,
    neighbouring_stock_lengths,
    open_belt_length,
    pitch_diameter,
    whole_teeth_in_mesh,
)


def centre_distance_or_shortfall(teeth_a: float, teeth_b: float, pitch: float, belt_length: float) -> float:
    """Centre distance C at which the belt is just taut; where there is none, how much belt is missing, negative, in mm.

    The missing length is z_big·p − L: the belt does not even reach round the larger pulley. So the figure is positive
    for a drive and never positive for none, and it grows with the length throughout. ``teeth_a``, ``teeth_b`` in
    either order, ``pitch`` p and ``belt_length`` L in mm. Raises ValueError only for a malformed number.
    Source: Shigley eq. 17-1, solved in ``belts``.
    """
    centre = centre_distance_for_length(teeth_a, teeth_b, pitch, belt_length)
    return belt_length - max(teeth_a, teeth_b) * pitch if math.isnan(centre) else centre


def whole_teeth_in_mesh_or_none(teeth_a: float, teeth_b: float, pitch: float, centre: float) -> float:
    """Whole teeth in mesh on the smaller pulley, 0 where the drive does not exist.

    ``centre`` C in mm may be the negative shortfall of ``centre_distance_or_shortfall``. Other arguments and errors as
    ``belts.whole_teeth_in_mesh``.
    """
    if centre <= 0.0:
        return 0.0
    mesh = whole_teeth_in_mesh(teeth_a, teeth_b, pitch, centre)
    return 0.0 if math.isnan(mesh) else mesh


@dataclass(frozen=True)
class BeltChoice:
    """One stocked belt in a slot: its ``length``, the ``centre`` at which it is taut (negative: none, see above), the
    room ``to_slip_on`` below it and ``to_tension`` above it; mm. Both rooms at or above zero: it suits."""

    length: float
    centre: float
    to_slip_on: float
    to_tension: float

    @property
    def suits(self) -> bool:
        return self.to_slip_on >= 0.0 and self.to_tension >= 0.0


def belts_for_slot(
    teeth_a: float,
    teeth_b: float,
    pitch: float,
    centre_min: float,
    centre_max: float,
    stock_lengths: Iterable[float],
    slip_on: float = 2.0,
    tension: float = 1.0,
    count: int = 3,
) -> tuple[BeltChoice, ...]:
    """The ``count`` stocked belts nearest to the middle of the slot's window, in rising order of length.

    The window runs from ``centre_min`` + ``slip_on`` to ``centre_max`` − ``tension``. Neighbours that miss it are
    listed too: half a millimetre in the reading of a slot moves the choice by a tooth, and who buys two neighbouring
    lengths orders once. Raises ValueError for a malformed number, or a slot whose ends are the wrong way round.
    Source: exact length after Shigley eq. 17-1; rooms of 2 and 1 mm: common practice, no source.
    """
    if not 0.0 < centre_min <= centre_max < math.inf:
        raise ValueError(
            f"the slot runs from {centre_min!r} to {centre_max!r} mm; give its least centre distance first, both "
            "above zero"
        )
    middle = 0.5 * (centre_min + slip_on + centre_max - tension)
    wanted = open_belt_length(pitch_diameter(teeth_a, pitch), pitch_diameter(teeth_b, pitch), middle)
    if math.isnan(wanted):
        return ()
    chosen = []
    for length in neighbouring_stock_lengths(wanted, stock_lengths, count):
        centre = centre_distance_or_shortfall(teeth_a, teeth_b, pitch, length)
        chosen.append(BeltChoice(length, centre, centre - centre_min - slip_on, centre_max - tension - centre))
    return tuple(chosen)

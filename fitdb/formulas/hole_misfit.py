"""How far two drawn hole patterns miss each other when laid on one another as well as they can be (J01, J39)."""

from __future__ import annotations

import functools
from collections.abc import Sequence

from fitdb.formulas.hole_patterns import PATTERN_TOLERANCE_MM, Hole, bolts_pass

DrawnHole = tuple[float, float, float, float, float]
_PROBE_MM = 10.0


def pattern_misfit(
    holes_a: Sequence[DrawnHole], holes_b: Sequence[DrawnHole], may_flip: bool = False, bolts: int = 4
) -> tuple[float, float]:
    """(least misfit that no motion undercuts, misfit that a motion reaches), mm, the first never above the second.

    The misfit is the greatest distance between the middles of two holes that share a bolt, over the best rigid motion
    and pairing. Straight bolts of diameter F pass two patterns of holes of one diameter each where
    misfit <= (Ha − F)/2 + (Hb − F)/2. Holes are (x, y, diameter, slot length, slot angle); their diameters are not
    read. `bolts` have to line up, or every hole of the pattern that has fewer. Raises ValueError for an empty pattern.
    Source: as fitdb.formulas.hole_patterns, ASME Y14.5-2009 appendix B.
    """
    return _misfit(tuple(map(_placed, holes_a)), tuple(map(_placed, holes_b)), may_flip, bolts)


def _placed(hole: DrawnHole) -> DrawnHole:
    return (hole[0], hole[1], _PROBE_MM, hole[3], hole[4])


@functools.lru_cache(maxsize=512)
def _misfit(
    holes_a: tuple[DrawnHole, ...], holes_b: tuple[DrawnHole, ...], may_flip: bool, bolts: int
) -> tuple[float, float]:
    # Holes of the bolt's own size leave no clearance, so the margin is the misfit with its sign turned.
    needed = min(bolts, len(holes_a), len(holes_b))
    match = bolts_pass(
        [Hole(*hole) for hole in holes_a], [Hole(*hole) for hole in holes_b], _PROBE_MM, may_flip, needed
    )
    least, reached = max(0.0, -match.bound_mm), max(0.0, -match.margin_mm)
    return (reached, reached) if reached - least <= PATTERN_TOLERANCE_MM else (least, reached)

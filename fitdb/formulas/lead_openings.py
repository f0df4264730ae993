"""Plugs and bundles of leads in openings of every form (J46). Lengths in mm; margins are signed growths."""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Sequence

from fitdb.formulas.circle_packing import bundle_in_hole, bundle_in_window
from fitdb.formulas.plug_through_slot import (
    circle_through_rectangle_margin,
    circle_through_round_hole_margin,
    rectangle_margin,
    rectangle_through_round_hole_margin,
)

BISECTION = 1e-9
GROWTHS = tuple(0.1 * step for step in (*range(-31, 32),))
"""Growths of a bundle's leads that are tried, mm: 31 below nothing and 31 above, so that five more questions do."""


def rectangle_through_round_ended_slot_margin(p: float, q: float, length: float, width: float) -> float:
    """The growth t, mm, with which a plug (p + t) × (q + t) just passes a slot with half-round ends.

    ``length`` over all and ``width`` of the slot. The plug passes if its corners lie within half a width of the
    slot's middle line: thin side <= w and long side <= L − w + √(w² − thin²). Turning it never helps: a corner's
    distance from that line grows with its angle, and turning brings one of two corners to a larger one.
    Source: plane geometry. A slot shorter than wide is taken for the longer one laid across.
    """
    length, width = max(length, width), min(length, width)
    long, thin = max(p, q), min(p, q)

    def passes(t: float) -> bool:
        low, tall = max(thin + t, 0.0), max(long + t, 0.0)
        return low <= width and tall <= length - width + math.sqrt(width * width - low * low)

    low, high = -long, width - thin
    if passes(high):
        return high
    while high - low > BISECTION and low < (middle := (low + high) / 2.0) < high:
        low, high = (middle, high) if passes(middle) else (low, middle)
    return low


def plug_margin(form: str, section: str, length: float, width: float, a: float, b: float) -> float:
    """How much a plug's section may grow before it stops passing the opening, mm.

    ``form`` rectangle, round_ended_slot or round_hole (``width`` is then its diameter); ``section`` rectangle a × b,
    or round of diameter a.
    """
    if form == "round_hole":
        if section == "round":
            return circle_through_round_hole_margin(a, width)
        return rectangle_through_round_hole_margin(a, b, width)
    if section == "round":
        return circle_through_rectangle_margin(a, length, width)
    if form == "round_ended_slot":
        return rectangle_through_round_ended_slot_margin(a, b, length, width)
    return rectangle_margin(a, b, length, width)


def bundle_growth(form: str, length: float, width: float, diameters: Sequence[float]) -> float | None:
    """By how much every lead may grow while all still lie in the opening together: one of GROWTHS, mm.

    ``form``, ``length`` and ``width`` as for ``plug_margin``. None where neither an arrangement nor a proof against
    one was found for the leads as they are. Without leads the whole opening is left. The sign is settled by the
    leads as they are; the size of the growth is a lower bound.
    """
    if not diameters:
        return width
    return _bundle_growth(form, round(length, 3), round(width, 3), tuple(sorted(round(d, 3) for d in diameters)))


@functools.lru_cache(maxsize=2048)
def _bundle_growth(form: str, length: float, width: float, diameters: tuple[float, ...]) -> float | None:
    def lie(growth: float, starts: int) -> str:
        # A round-off of the last digit must not turn away what just fits.
        grown = [max(d + growth - 1e-9, 0.01) for d in diameters]
        if form == "round_hole":
            return bundle_in_hole(grown, width, starts).answer
        return bundle_in_window(grown, length, width, form == "round_ended_slot", starts).answer

    return largest_growth(GROWTHS, lambda growth, first: lie(growth, 12 if first else 4))


def largest_growth(growths: Sequence[float], answer: Callable[[float, bool], str]) -> float | None:
    """The largest of the rising ``growths`` at which ``answer`` is goes; the least of them if it goes at none.

    ``answer(growth, first)`` says goes, cannot or undecided; it is asked without growth first, and None comes back if
    that is undecided. After that undecided counts as not going.
    """
    still = growths.index(0.0)
    first = answer(0.0, True)
    if first == "undecided":
        return None
    low, high = (still, len(growths)) if first == "goes" else (0, still)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if answer(growths[middle], False) == "goes" else (low, middle)
    return growths[low]

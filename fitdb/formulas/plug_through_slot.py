"""Does a plug pass through an opening, pushed straight and turned in the opening's plane as one likes?

All sizes in millimetres. Every function returns a signed margin: how much the plug's section may grow before it
stops passing; negative, how much it must lose; 0, it just passes. Tilting the plug out of its line is not considered.
A ``clearance`` is what the section is grown by, in all, before the question is asked.
"""

from __future__ import annotations

import math


def rectangle_passes(p: float, q: float, a: float, b: float) -> bool:
    """Does a rectangle p × q lie inside a rectangle a × b, turned by any angle?

    With p >= q and a >= b: p <= a and q <= b; or p > a, q <= b and
    b >= [2 p q a + (p² - q²) sqrt(p² + q² - a²)] / (p² + q²). The clause q <= b belongs to the second case too: without
    it a square of 10 would pass through a square of 8. Source: Carver 1957; Wetzel, Math. Magazine 73 (2000) 204-211.
    Touching passes. Raises ValueError for an opening that is not positive or a plug size below 0.
    """
    p, q, a, b = _in_order(p, q, a, b)
    return _passes(p, q, a, b)


def rectangle_margin(p: float, q: float, a: float, b: float, clearance: float = 0.0) -> float:
    """The growth t, mm, with which a plug (p + t) × (q + t) just passes through a × b; see ``rectangle_passes``.

    p, q: sides of the plug's section; a, b: sides of the opening; in any order. clearance: growth already spoken for.
    Never falls when the opening grows and never rises when the plug does. A thinner side that has shrunk to nothing
    stays there while the longer goes on shrinking. Exact where the plug passes unturned at the limit, otherwise
    bisected to 1e-9 mm.
    Raises ValueError as ``rectangle_passes`` does, or for a clearance that is not a finite number.
    """
    p, q, a, b = _in_order(p, q, a, b)
    _check("clearance", clearance, least=None)
    unturned = min(a - p, b - q)
    most = b - q  # however it is turned, the thinner side must pass the narrower one
    if unturned == most:
        return unturned - clearance
    low, high = unturned, most
    while high - low > BISECTION and low < (middle := (low + high) / 2) < high:
        if _passes(p + middle, max(q + middle, 0.0), a, b):
            low = middle
        else:
            high = middle
    return low - clearance


def rectangle_through_round_hole_margin(p: float, q: float, hole: float, clearance: float = 0.0) -> float:
    """Hole diameter less the diagonal of the plug p × q with ``clearance`` on each of its sides' lengths, mm."""
    _check("p", p, least=0.0)
    _check("q", q, least=0.0)
    _check_opening("hole", hole)
    _check("clearance", clearance, least=None)
    return hole - math.hypot(max(p + clearance, 0.0), max(q + clearance, 0.0))


def circle_through_rectangle_margin(diameter: float, a: float, b: float, clearance: float = 0.0) -> float:
    """The narrower side of the opening a × b less the plug's ``diameter`` and ``clearance``, mm."""
    _check("diameter", diameter, least=0.0)
    _check_opening("a", a)
    _check_opening("b", b)
    _check("clearance", clearance, least=None)
    return min(a, b) - diameter - clearance


def circle_through_round_hole_margin(diameter: float, hole: float, clearance: float = 0.0) -> float:
    """Hole diameter less the plug's ``diameter`` and ``clearance``, mm."""
    _check("diameter", diameter, least=0.0)
    _check_opening("hole", hole)
    _check("clearance", clearance, least=None)
    return hole - diameter - clearance


BISECTION = 1e-9


def _passes(p: float, q: float, a: float, b: float) -> bool:
    p, q = max(p, q), min(p, q)
    if q > b:
        return False
    if p <= a:
        return True
    square = p * p + q * q
    return b * square >= 2 * p * q * a + (p * p - q * q) * math.sqrt(square - a * a)


def _in_order(p: float, q: float, a: float, b: float) -> tuple[float, float, float, float]:
    _check("p", p, least=0.0)
    _check("q", q, least=0.0)
    _check_opening("a", a)
    _check_opening("b", b)
    return max(p, q), min(p, q), max(a, b), min(a, b)


def _check_opening(name: str, value: float) -> None:
    if not (math.isfinite(value) and value > 0):
        raise ValueError(f"{name} of the opening is {value!r}; it must be a finite number of millimetres above 0.")


def _check(name: str, value: float, least: float | None) -> None:
    if not math.isfinite(value) or (least is not None and value < least):
        raise ValueError(f"{name} is {value!r}; it must be a finite number of millimetres, at least {least or 0:g}.")

"""Axes with round ticks, and numbers as they are written on them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

ROUND_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
FLAT = 1e-6  # a span of less than this share of its numbers is a flat line, and noise of their last digits
FROM_ZERO = 0.4  # numbers that come nearer to zero than this share of the largest are drawn from zero


@dataclass(frozen=True, slots=True)
class Axis:
    """One axis: from `low` to `high`, with round ticks; all in units of 10**exponent of the quantity."""

    low: float
    high: float
    ticks: tuple[float, ...]
    decimals: int
    exponent: int = 0

    def share(self, value: float) -> float:
        """How far along the axis a value of the quantity lies: 0 at its low end, 1 at its high end."""
        return (scaled(value, self.exponent) - self.low) / (self.high - self.low)

    def tick_words(self, tick: float) -> str:
        return f"{tick:.{self.decimals}f}".replace("-", "−") if round(tick, self.decimals) else "0"

    def unit_words(self, unit: str) -> str:
        """The unit in brackets, with the power of ten that the ticks leave out; empty if there is neither."""
        power = f"10{str(self.exponent).translate(SUPERSCRIPTS)}" if self.exponent else ""
        words = f"{power} {unit_sign(unit)}".strip()
        return f"[{words}]" if words else ""


def axis_for(values: Sequence[float], most_steps: int, ends_on_ticks: bool = True) -> Axis:
    """An axis that holds all values, in about `most_steps` steps or fewer.

    Raises ValueError without a value, or for one that is not a finite number. Where the values come near
    to zero it begins there. It ends on ticks, or else where the values end.
    Source of the steps: common practice, 1, 2, 2.5 and 5 times a power of ten.
    """
    if not values or not all(math.isfinite(value) for value in values):
        raise ValueError("axis_for: an axis needs at least one value, and finite ones")
    largest = max(abs(value) for value in values)
    exponent = _exponent(largest)
    low, high = scaled(min(values), exponent), scaled(max(values), exponent)
    reach = max(abs(low), abs(high))
    if high - low <= reach * FLAT:
        half = reach * 0.5 if reach > 1e-12 else 1.0
        low, high = (0.0, high + half) if low >= 0 and reach > 1e-12 else (low - half, max(high + half, 0.0))
    elif 0.0 < low <= FROM_ZERO * high:
        low = 0.0
    elif FROM_ZERO * low <= high < 0.0:
        high = 0.0
    step = _step((high - low) / most_steps)
    if ends_on_ticks:
        first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
        low, high = first * step, last * step
    else:
        first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    ticks = tuple(number * step for number in range(first, last + 1))
    return Axis(low, high, ticks, _decimals(step), exponent)


def scaled(value: float, exponent: int) -> float:
    """The value in units of 10**exponent, without running over or under on the way."""
    return value / 10.0**exponent if exponent else value


def unit_sign(unit: str) -> str:
    """A unit as it is written on a drawing: `N_m` is N·m, `percent` is %."""
    return {"percent": "%", "deg": "°", "m/s2": "m/s²", "mm2": "mm²", "mohm": "mΩ", "ohm": "Ω"}.get(
        unit, unit.replace("_", "·")
    )


def number_words(value: float) -> str:
    """A number to four figures, as it is read aloud."""
    return f"{value:.4g}".replace("-", "−")


def _exponent(largest: float) -> int:
    """A multiple of three that keeps the ticks short; 0 for numbers that can be written as they are."""
    if largest == 0.0 or 0.01 <= largest < 100_000.0:
        return 0
    return min(max(3 * math.floor(math.log10(largest) / 3), -300), 300)


def _step(least: float) -> float:
    """The round step next above `least`."""
    power = 10.0 ** math.floor(math.log10(least))
    return next((share * power for share in ROUND_STEPS if share * power >= least * (1 - 1e-9)), 10.0 * power)


def _decimals(step: float) -> int:
    """How many decimals tell two neighbouring ticks apart, 2.5 included."""
    return next((places for places in range(12) if abs(round(step, places) - step) <= step * 1e-6), 12)

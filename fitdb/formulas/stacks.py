"""Sums of lengths with tolerances along one line: bolt stacks, axle stacks, spacer gaps (J03, J12, J13)."""

import math
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class StackRange:
    """What a one-dimensional stack comes to, in the unit of its members.

    ``nominal`` sum of the nominals; ``low``, ``high`` worst case; ``statistical_low``, ``statistical_high`` the root
    sum square range about the middle of the worst case (unequal tolerances are first made equal-sided).
    """

    nominal: float
    low: float
    high: float
    statistical_low: float
    statistical_high: float


def stack_range(members: Iterable[tuple[float, float, float, int]]) -> StackRange:
    """Worst case and root sum square range of a stack of lengths.

    ``members`` are (low, nominal, high, sign): the limits and nominal of one length, and +1 or −1 for the direction
    in which it counts. Worst case: Σ of the limits that make the sum least, and greatest. Root sum square:
    mid ± √Σ((high − low)/2)². The second assumes independent members whose limits lie equally many standard
    deviations out, and says nothing about two or three members; a verdict that can hurt someone takes the worst case.
    Raises ValueError for an empty stack, a limit that is not finite, limits out of order or another sign.
    Source: Dimensioning and Tolerancing Handbook (Drake), chapter 9.
    """
    nominal_sum = low_sum = high_sum = squares = 0.0
    count = 0
    for low, nominal, high, sign in members:
        if not -math.inf < low <= nominal <= high < math.inf:
            raise ValueError(
                f"member {count} of the stack needs finite limits low <= nominal <= high, got {low!r}, {nominal!r}, "
                f"{high!r}; an unread length must be given its plausible range first"
            )
        if sign == 1:
            low_sum += low
            high_sum += high
            nominal_sum += nominal
        elif sign == -1:
            low_sum -= high
            high_sum -= low
            nominal_sum -= nominal
        else:
            raise ValueError(f"member {count} of the stack needs the sign 1 or -1, got {sign!r}")
        half = 0.5 * (high - low)
        squares += half * half
        count += 1
    if count == 0:
        raise ValueError("the stack has no members; a sum of nothing is not a length")
    middle = 0.5 * (low_sum + high_sum)
    spread = math.sqrt(squares)
    return StackRange(nominal_sum, low_sum, high_sum, middle - spread, middle + spread)

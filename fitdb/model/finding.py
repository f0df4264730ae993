"""What one rule said at one joint."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.reading import Reading
from fitdb.model.rule import Limit, NumberLimit, Rule

STATES = ("holds", "fails", "undecided", "not_asked", "excused")


@dataclass(frozen=True, slots=True)
class Range:
    """A middle value with its range, in `unit`."""

    low: float
    nominal: float
    high: float
    unit: str


@dataclass(frozen=True, slots=True)
class Input:
    """One reading as a rule saw it, and what it does to the doubt.

    share: its part of the width of the range, 0..1. settles_within: the half width to which it must be read
    before the finding leaves the limit, all else as it is; None if it cannot settle it alone. flips_at: the
    value at which the finding turns between holding and failing, all else nominal, on a straight line.
    """

    need: str
    seat: str
    part: str
    attribute: str
    reading: Reading | None
    unit: str
    used_low: float | None
    used_high: float | None
    share: float = 0.0
    settles_within: float | None = None
    flips_at: float | None = None
    how: str = ""
    tool: str = ""
    widened: bool = False


@dataclass(frozen=True, slots=True)
class Finding:
    """What one rule said: holds, fails, undecided, not_asked (a role is absent) or excused.

    `value` is the quantity's range, `margin` the value against the hard limit, at least 0 when it passes.
    unread: needs nobody read and no plausible range stands in for. wanted: role and classes, when not asked.
    words: what was compared, for word rules. code is stable for translation. `hard` and `comfort` are the limits
    that were used, own ones included; loosened: an own limit gave way on a rule that guards against injury or fire.
    """

    rule: Rule
    joint: str
    state: str
    code: str
    value: Range | None = None
    margin: Range | None = None
    comfort_missed: bool = False
    inputs: tuple[Input, ...] = ()
    unread: tuple[str, ...] = ()
    wanted: tuple[tuple[str, tuple[str, ...]], ...] = ()
    words: tuple[str, ...] = ()
    note: str = ""
    overridden: tuple[str, ...] = ()
    at_assembly: bool = False
    hard: Limit | None = None
    comfort: NumberLimit | None = None
    loosened: bool = False

    def settling(self) -> tuple[Input, ...]:
        """Inputs that hold the doubt, the one that settles most first."""
        doubtful = [item for item in self.inputs if item.share > 0 or item.reading is None]
        return tuple(sorted(doubtful, key=lambda item: (item.reading is not None, not item.widened, -item.share)))

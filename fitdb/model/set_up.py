"""What to set in the controllers of a board: lines with the link that sets each, and all the others."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.finding import Range

AT_MOST, AT_LEAST, AS_TOLD = "at_most", "at_least", "as_told"
GROUPS = ("pack", "brake", "motor", "volts", "speed", "heat", "sensors", "together", "first_ride")


@dataclass(frozen=True, slots=True)
class SettingLink:
    """One part, or one habit of the trade, that bounds a setting: its own number, and how that was worked out.

    id is stable (`cells`, `fuse`, `belt` ...); seat and part are empty where no part is behind it. assumed: a reading
    behind it was not taken, and what may be stands in. bound: it is the link's own rating that was not taken; the value
    is the most that any such part leaves, so that it sets nothing where no other link is known.
    """

    id: str
    name: str
    seat: str
    part: str
    value: Range
    worked: str
    source: str
    assumed: bool = False
    bound: bool = False


@dataclass(frozen=True, slots=True)
class MissingReading:
    """A reading that nobody took and that may change a line. attribute is empty where no part is named at the seat."""

    seat: str
    part: str
    attribute: str
    title: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class SetNow:
    """What a controller is set to, as the plan says; several controllers together where seats are several."""

    seats: tuple[str, ...]
    value: float | None
    word: str = ""
    beyond: bool = False


@dataclass(frozen=True, slots=True)
class SettingLine:
    """One thing to set, or to do while setting up.

    side: `at_most`, `at_least`, or `as_told` (a value or a word to take as it is). value: what the links leave, its
    careful end first to be believed; printed: that end rounded to the careful side, as it is typed; both None where no
    link is known, or where the line is a `word` or something to do (`task`). set_by: the link that sets it; others:
    every other one, nearest first. missing: readings that may still move it, always to the careful side: with any of
    them the value is only a bound. seats: the motors that the line is for, empty for all alike.
    """

    id: str
    group: str
    title: str
    unit: str
    side: str
    source: str
    value: Range | None = None
    printed: float | None = None
    word: str = ""
    task: str = ""
    set_by: SettingLink | None = None
    others: tuple[SettingLink, ...] = ()
    now: tuple[SetNow, ...] = ()
    missing: tuple[MissingReading, ...] = ()
    notes: tuple[str, ...] = ()
    caution: str = ""
    seats: tuple[str, ...] = ()

    @property
    def is_bound(self) -> bool:
        """Whether a reading is missing, so that the value is not the last word."""
        return bool(self.missing)


@dataclass(frozen=True, slots=True)
class SettingsSheet:
    """The lines in their order, the motors that are driven, how many channels drive them, and what is to be known."""

    lines: tuple[SettingLine, ...]
    motors: tuple[str, ...]
    channels: int
    idle_channels: int
    notes: tuple[str, ...] = ()

    def line(self, line_id: str) -> SettingLine:
        """The line of that id. KeyError where there is none."""
        for line in self.lines:
            if line.id == line_id:
                return line
        raise KeyError(line_id)

    def of(self, kind: str) -> tuple[SettingLine, ...]:
        """The lines of one kind: one where all motors are alike, else one for each kind of motor."""
        return tuple(line for line in self.lines if line.id.partition("@")[0] == kind)


@dataclass(frozen=True, slots=True)
class Standing:
    """Whether a sheet may be used as it stands.

    state: `ready`; `changes` (for the board with `changes` made); `readings` (preliminary: readings decide); `blocked`
    (a joint that can hurt someone is undecided) or `clash` (the board clashes and nothing allowed mends it). until: the
    readings to take, or the joints that clash. settings: what the verdict would set otherwise, and the sheet tells in
    its own lines. stood: joints that clash as they stood, and that the plan leaves as they are.
    """

    state: str
    changes: tuple[str, ...] = ()
    until: tuple[str, ...] = ()
    settings: tuple[str, ...] = ()
    stood: tuple[str, ...] = ()

    @property
    def usable(self) -> bool:
        return self.state in ("ready", "changes")

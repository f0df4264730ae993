"""What the pieces of a board say, as the settings sheet has to see it: what was read, what it may be, what is missing.

A reading that stands in for one that nobody took counts as unread here: a setting is typed once and then believed.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from fitdb.intake.readings import assumed
from fitdb.intake.units import show
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.rule import AtLeast, AtMost, Limit, Rule, SurveyLine
from fitdb.model.set_up import MissingReading, SettingLink

MOTOR_SEATS = ("hub_motor", "direct_drive", "motor")
CONTROLLERS = ("controller", "controller_2")
PACKS = (("pack", "bms", "fuse"), ("pack_2", "bms_2", "fuse_2"))
ENCLOSURES = ("second_box", "box", "pocket")
TRADE = "common practice, no source"

Values = tuple[float, ...]
"""The values that a reading may have: one, or low, nominal, high, or every count that is still possible."""


@dataclass(frozen=True)
class Board:
    """The pieces by seat, own limits by key, and the seats that the layout has (empty: not known).

    What was found unread, or is not named, is noted while it is asked, line by line.
    """

    table: AttributeTable
    seated: Mapping[str, Piece]
    limits: Mapping[str, float] = field(default_factory=dict)
    layout: frozenset[str] = frozenset()
    noted: dict[tuple[str, str], MissingReading] = field(default_factory=dict)

    def most(self, limit: Limit | None) -> float:
        """The upper bound of a rule's limit; an own limit counts where it is the stricter one."""
        assert isinstance(limit, AtMost)
        return min(limit.high.value, self.limits.get(limit.high.key, limit.high.value))

    def least(self, limit: Limit | None) -> float:
        """The lower bound of a rule's limit; an own limit counts where it is the stricter one."""
        assert isinstance(limit, AtLeast)
        return max(limit.low.value, self.limits.get(limit.low.key, limit.low.value))

    def has(self, seat: str) -> bool:
        """Whether somebody named a piece there."""
        piece = self.seated.get(seat)
        return piece is not None and not piece.by_default

    def part(self, seat: str) -> str:
        return self.seated[seat].part.id if seat in self.seated else ""

    def reading(self, seat: str, attribute: str, port: str = "") -> Reading | None:
        """What somebody read. What the role's own port is meant to tell is never taken from another port."""
        if not self.has(seat):
            return None
        part = self.seated[seat].part
        kind = self.table.ports_of(part.part_class).get(port, "")
        if (kind, attribute) in self.table.attributes:
            interface = part.ports.get(port)
            found = interface.readings.get(attribute) if interface else None
        else:
            found = part.offers(attribute, port)[1]
        return None if found is None or found.value_assumed else found

    def values(self, seat: str, attribute: str, port: str = "") -> Values | None:
        """What a size may be, the nominal value in the middle; None, and noted as missing, where nobody read it."""
        found = self.reading(seat, attribute, port)
        if isinstance(found, Count):
            return tuple(float(one) for one in (*found.values, found.nominal))
        if isinstance(found, Number | Designation):
            return (found.low, found.high, found.nominal)
        self.miss(seat, attribute, port)
        return None

    def at_its_widest(self, seat: str, attribute: str, port: str = "") -> tuple[Values, bool] | None:
        """The same, with the widest plausible range where nobody read it, and whether that stands in."""
        found = self.values(seat, attribute, port)
        if found is not None or not self.has(seat):
            return None if found is None else (found, False)
        described = self.table.attribute_of(self.seated[seat].part.part_class, attribute, port)
        stand_in = assumed(described, widest=True) if described else None
        if isinstance(stand_in, Number | Designation | Count):
            return (stand_in.low, stand_in.high, float(stand_in.nominal)), True
        return None

    def words(self, seat: str, attribute: str, port: str = "") -> frozenset[str]:
        """The words still possible; the whole vocabulary, and noted as missing, where nobody said."""
        found = self.reading(seat, attribute, port)
        if isinstance(found, Word) and found.possible:
            if len(found.possible) > 1:
                self.miss(seat, attribute, port)
            return found.possible
        self.miss(seat, attribute, port)
        piece = self.seated.get(seat)
        described = self.table.attribute_of(piece.part.part_class, attribute, port) if piece else None
        return frozenset(described.vocabulary) if described else frozenset()

    def miss(self, seat: str, attribute: str, port: str = "") -> None:
        """Note that a reading is missing; an attribute that such a part cannot have is not."""
        piece = self.seated.get(seat)
        described = self.table.attribute_of(piece.part.part_class, attribute, port) if piece else None
        if piece is not None and described is not None:
            title, how = described.title, described.how
            self.noted[seat, attribute] = MissingReading(seat, piece.part.id, attribute, title, how)

    def absent(self, seat: str, what: str) -> None:
        """Note that nobody named a part that such a board has; a seat that its layout lacks is not missed."""
        if self.layout and seat not in self.layout:
            return
        how = f"Name it in the plan at {seat}, or see that there is none."
        self.noted[seat, ""] = MissingReading(seat, "", "", what, how)

    def taken(self) -> tuple[MissingReading, ...]:
        """What was noted since the last call, in the order in which it was asked for."""
        found = tuple(self.noted.values())
        self.noted.clear()
        return found

    def motors(self) -> tuple[str, ...]:
        """Seats of what drives the board, in their order."""
        return tuple(
            seat
            for seat, piece in self.seated.items()
            if self.has(seat)
            and "motor" in self.table.line_of(piece.part.part_class)
            and any(seat == kind or seat.endswith(f"_{kind}") for kind in MOTOR_SEATS)
        )

    def controllers(self) -> tuple[str, ...]:
        return tuple(seat for seat in CONTROLLERS if self.has(seat))

    def packs(self) -> tuple[tuple[str, str, str], ...]:
        """Seats of pack, its BMS and its fuse, for every pack that is there."""
        return tuple(seats for seats in PACKS if self.has(seats[0]))


@dataclass(frozen=True, slots=True)
class Channels:
    """Channels that drive a motor: how many on the board, the most of them behind one controller, how many are idle.

    unnamed: no motor is named, so that every channel counts.
    """

    used: int
    behind: Mapping[str, int]
    idle: int
    unnamed: bool


def channels_of(board: Board) -> Channels:
    """How many channels drive a motor. One that drives none does not count; an unread count is the most it may be."""
    motors = len(board.motors())
    counts: dict[str, tuple[int, bool]] = {}
    for seat in board.controllers():
        read = board.reading(seat, "channels")
        if isinstance(read, Count):
            counts[seat] = (max(read.values), True)
        else:
            board.miss(seat, "channels")
            described = board.table.attribute_of(board.seated[seat].part.part_class, "channels")
            most = round(described.plausible[1]) if described and described.plausible else 4
            counts[seat] = (motors or most, False)
    there = sum(count for count, _ in counts.values())
    used = min(there, motors) if motors else there
    idle = max(0, there - used) if all(read for _, read in counts.values()) else 0
    behind = {seat: min(count, used) for seat, (count, _) in counts.items()}
    return Channels(used, behind, idle, motors == 0)


def linked(
    board: Board,
    link: str,
    name: str,
    seat: str,
    value: Range,
    worked: str,
    *,
    doubt: bool = False,
    unread: bool = False,
) -> SettingLink:
    """A link of a part. unread: its own rating was not taken, and the most that any such part leaves is told."""
    if unread:
        value = Range(value.high, value.high, value.high, value.unit)
        worked = f"nobody read it, and no such part leaves more than {show(value.high, value.unit)}"
    return SettingLink(link, name, seat, board.part(seat), value, worked, TRADE, doubt or unread, unread)


def over_box(unit: str, formula: Callable[..., float], *columns: Values) -> Range:
    """The range of a formula over every combination of what its readings may be; the last of each is the nominal."""
    found = [formula(*chosen) for chosen in itertools.product(*(dict.fromkeys(one) for one in columns))]
    return Range(min(found), formula(*[one[-1] for one in columns]), max(found), unit)


def span(shown: Range) -> Values:
    """A range as the values of a reading."""
    return (shown.low, shown.high, shown.nominal)


def beside(motor_seat: str, what: str) -> str:
    """The seat of that name at the place of a motor: `rear_left_belt` for `rear_left_motor`."""
    kind = next(kind for kind in MOTOR_SEATS if motor_seat == kind or motor_seat.endswith(f"_{kind}"))
    return f"{motor_seat.removesuffix(kind)}{what}"


def constant(owner: Rule | SurveyLine, name: str) -> float:
    """A constant of a rule or a survey line by its name."""
    value = next(one.value for one in owner.constants if one.name == name)
    assert isinstance(value, float)
    return value


def seat_words(seats: Sequence[str]) -> str:
    """Seats as they are said: `rear left motor and rear right motor`."""
    names = [seat.replace("_", " ") for seat in seats]
    return ", ".join(names[:-1]) + f" and {names[-1]}" if len(names) > 1 else "".join(names)

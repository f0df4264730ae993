"""The order of work: steps and what must come before them as the catalogue tells it, and the card made from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

ROW_PHASES = ("isolate", "undo", "rebuild", "test")
PHASES = ("measure", "isolate", "undo", "check", "alter", "rebuild", "test")
PER = ("place", "end", "board")
WHERE = ("", "driven", "idle")
LOCKS = ("none", "medium")
CONDITIONS: Mapping[str, str] = {
    "always": "always",
    "motor_leaves": "the motor at this place leaves the board",
    "truck_leaves_wired": "the truck leaves the board and leads run to a motor on it",
    "plug_does_not_pass": "a plug does not pass the opening of its leads",
    "belt_held_in": "no pulley lets the belt walk off sideways",
    "ring_clamp": "the clamp has to be slid over the end of the hanger",
    "bolts_under_grip": "the deck bolts lie under the grip sheet",
}
"""Words that a need may be bound to; each is decided from the plan. What nobody has told counts as yes."""


@dataclass(frozen=True, slots=True)
class Span:
    """The least, usual and greatest of something that is never known exactly; minutes, or mu for money."""

    low: float = 0.0
    usual: float = 0.0
    high: float = 0.0

    def __add__(self, other: Span) -> Span:
        return Span(self.low + other.low, self.usual + other.usual, self.high + other.high)

    def times(self, factor: float) -> Span:
        return Span(self.low * factor, self.usual * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One kind of step, as the tables tell it.

    seats: the names of seats whose pieces it takes off (undo), puts on (rebuild) or is a test of. opens: seats that it
    lays open without taking anything from them. present: it is on the card only where one of these seats is filled
    (empty: one of `seats` and `opens`; `*`: always). after: a step of rebuild or test follows these (`*`: any).
    per: whether it is done at each place, each end, or once for the board. where: only at places with a drive
    (`driven`) or without one (`idle`). gate: no electrical step may come before it. wait_hours: how long nothing may be
    done after it.
    """

    id: str
    phase: str
    title: str
    does: str
    seats: tuple[str, ...]
    opens: tuple[str, ...]
    present: tuple[str, ...]
    after: tuple[str, ...]
    per: str
    where: str
    tool: str
    minutes: Span
    wait_hours: float
    electrical: bool
    gate: bool
    reversible: bool
    photograph: str
    note: str
    cautions: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Need:
    """`step` comes after `needs`, if the condition holds. unknown: what is told where nobody can say whether."""

    step: str
    needs: str
    condition: str
    unknown: str
    source: str


@dataclass(frozen=True, slots=True)
class LaidBare:
    """A size that can be read once a step is done: the name of a seat and an attribute of what sits there."""

    step: str
    seat: str
    attribute: str
    source: str


@dataclass(frozen=True, slots=True)
class PlaceOfChange:
    """Where on the card an alteration or setting is done: after `undo` (or nothing), at `step` (or by itself)."""

    seat: str
    attribute: str
    undo: str
    step: str
    source: str


@dataclass(frozen=True, slots=True)
class Torque:
    """Torque of one fastening with one thread, N m."""

    thread: str
    low: float
    high: float
    source: str


@dataclass(frozen=True, slots=True)
class Fastening:
    """What is tightened at a step of the rebuild, wherever `seat` is filled.

    part_class: only where a part of that class, or one like it, sits there; empty: whatever sits there.
    thread, length: where they are read, `seat.attribute` or `seat.port.attribute`; empty where no part tells. counts:
    a number, or places whose least count is that of the fasteners. torques: by thread. lock: thread lock, never on the
    words of `not_on` read at `material`. manner: how it is tightened, in words. recheck_km: when it is looked at again.
    """

    id: str
    step: str
    title: str
    seat: str
    part_class: str
    thread: str
    length: str
    counts: tuple[str, ...]
    torques: tuple[Torque, ...]
    lock: str
    material: str
    not_on: tuple[str, ...]
    manner: str
    recheck_km: tuple[int, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Trial:
    """What a test has to show, and the joints to go back to when it does not. step: the step of the test."""

    step: str
    passes: str
    back_to: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Work:
    """What the catalogue knows of the order of work. carriers: what a seat's piece sits on, nearest first."""

    steps: Mapping[str, WorkStep]
    needs: tuple[Need, ...]
    carriers: Mapping[str, tuple[str, ...]]
    laid_bare: tuple[LaidBare, ...]
    changes: tuple[PlaceOfChange, ...]
    fastenings: tuple[Fastening, ...]
    tests: Mapping[str, Trial]
    cautions: Mapping[str, str]


# --- the card ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Fasteners:
    """The fasteners of one kind at one step. count, thread and length are empty (None) where nobody knows them.

    each: how many at each place; None where it is unknown. torques: all that may apply where the thread is unknown.
    lock: `none`, `medium`, or `metal_only` where the material is not known.
    """

    fastening: Fastening
    places: tuple[str, ...]
    each: int | None
    thread: str
    length: tuple[float, float] | None
    torques: tuple[Torque, ...]
    lock: str

    @property
    def count(self) -> int | None:
        return None if self.each is None else self.each * max(len(self.places), 1)


@dataclass(frozen=True, slots=True)
class CardReading:
    """A reading to take: which piece, what decides on it, and whether it was seen to hold a doubt of the verdict.

    at_hand: the part lies on the table, nothing has to be undone for it.
    """

    seats: tuple[str, ...]
    part: str
    title: str
    attribute: str
    unit: str
    settles_within: float | None
    tool: str
    how: str
    doubt: bool
    at_hand: bool


@dataclass(frozen=True, slots=True)
class CardStep:
    """One line of the card. places: where it is done, of as many places as it has; empty for once.

    kind: `work`, `reading`, `gate`, `alteration` or `test`. parts: titles of what is taken off or put on, each with its
    count; new: those of them that the board did not have. needs: the steps of the card that have to be done before, by
    `key`. look_first: what to look for where nobody could say whether something before it has to be undone.
    """

    key: str
    kind: str
    phase: str
    title: str
    does: str
    places: tuple[str, ...] = ()
    parts: tuple[tuple[str, int], ...] = ()
    new: tuple[tuple[str, int], ...] = ()
    tool: str = ""
    minutes: Span = Span()
    wait_hours: float = 0.0
    electrical: bool = False
    reversible: bool = True
    photograph: str = ""
    note: str = ""
    look_first: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    fasteners: tuple[Fasteners, ...] = ()
    reading: CardReading | None = None
    test: Trial | None = None
    changes: tuple[str, ...] = ()
    gives_up: str = ""
    needs: tuple[str, ...] = ()
    source: str = ""


@dataclass(frozen=True, slots=True)
class Way:
    """One of several ways, by what it takes to take the board apart for it."""

    title: str
    steps: tuple[str, ...]
    minutes: Span
    irreversible: int
    clashing: int | None
    undecided: int | None


@dataclass(frozen=True, slots=True)
class JobCard:
    """The order of work for one plan.

    withheld: why there is nothing to do, as a code: `clash`, `nothing_changes`, or empty. measuring_only: an injury or
    fire joint is undecided. promises: changes that are no work, such as what is not ridden. ways: side by side.
    """

    verdict: str
    withheld: str
    measuring_only: bool
    steps: tuple[CardStep, ...]
    promises: tuple[str, ...]
    ways: tuple[Way, ...]

    @property
    def minutes(self) -> Span:
        total = Span()
        for step in self.steps:
            total = total + step.minutes
        return total

"""Verdicts of a joint and of a whole question."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.finding import Finding
from fitdb.model.joint import Joint, NotAsked, Piece
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.remedy import Cure, Move, Remedy

VERDICTS = ("fits", "fits_with", "measure", "clash")
EXIT_CODES = {"fits": 0, "clash": 1, "measure": 2, "fits_with": 3, "not_asked": 2}


@dataclass(frozen=True, slots=True)
class JointVerdict:
    """A joint takes the worst of its findings."""

    joint: Joint
    verdict: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Bridge:
    """An adapter that cures failing joints of a pair, judged: what it cures, adds and leaves open."""

    remedy: Remedy
    part: str
    title: str
    verdict: str
    cured: tuple[str, ...]
    breaks: tuple[str, ...]
    adds: tuple[str, ...]
    joints: tuple[JointVerdict, ...]


@dataclass(frozen=True, slots=True)
class Verdict:
    """The answer to a fit question. `as_asked` is fits, measure or clash; `best_allowed` adds fits_with.

    Both are not_asked where nothing meets; `offers` then says per part what it has to meet another with.
    """

    as_asked: str
    best_allowed: str
    joints: tuple[JointVerdict, ...]
    not_asked: tuple[NotAsked, ...]
    bridges: tuple[Bridge, ...]
    offers: tuple[tuple[str, tuple[str, ...]], ...]
    revision: str
    stamp: str


@dataclass(frozen=True, slots=True)
class CuredPlan:
    """The plan with remedies, judged: `closing` are the moves that also close a doubt over the whole range.

    joints are those that the whole plan touches. unsettled: joint line and rule of findings that stay undecided.
    """

    cure: Cure
    closing: tuple[Move, ...]
    verdict: str
    joints: tuple[JointVerdict, ...]

    @property
    def moves(self) -> tuple[Move, ...]:
        return (*self.cure.moves, *self.closing)


@dataclass(frozen=True, slots=True)
class PassedOver:
    """A remedy that cures a finding and is not in the answer: what ruled it out, or why it was not tried."""

    title: str
    what: str
    cures: str
    ruled_out_by: Finding | None
    why: str


@dataclass(frozen=True, slots=True)
class Freeing:
    """One change that would end a conflict: a size at which the rule would hold, or a part of the stock.

    breaks: what fails then and did not before; empty when nothing does.
    """

    seat: str
    part: str
    attribute: str
    value: float | None
    unit: str
    at_least: bool
    other: str
    breaks: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Conflict:
    """Pieces that cannot stand together: no part of them alone does what `findings` say."""

    pieces: tuple[tuple[str, Part], ...]
    findings: tuple[Finding, ...]
    titles: tuple[str, ...]
    frees: tuple[Freeing, ...]
    refused: bool


@dataclass(frozen=True, slots=True)
class Wanted:
    """A part whose exchange would be another plan, and what another of its class would have to be.

    sizes: (attribute, whether at least or at most, value, unit); with all of them nothing fails.
    """

    seat: str
    part: str
    title: str
    part_class: str
    sizes: tuple[tuple[str, bool, float, str], ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What comes of one value of a reading: the value or range told, and the verdict of the whole plan then."""

    low: float | None
    high: float | None
    word: str
    verdict: str


@dataclass(frozen=True, slots=True)
class ToMeasure:
    """A reading that holds the doubt: its share of all of it, how finely it must be read, and what comes of it."""

    seats: tuple[str, ...]
    part: str
    title: str
    attribute: str
    unit: str
    share: float
    settles_within: float | None
    tool: str
    how: str
    decides: tuple[Finding, ...]
    outcomes: tuple[Outcome, ...]


@dataclass(frozen=True, slots=True)
class CutLine:
    """A unit that could be moved from a donor: the joints between it and the rest, and the minutes to take it off.

    clashing: titles of the joints that clash then. minutes are a rough figure of common practice.
    """

    unit: str
    title: str
    donor: str
    end: str
    seats: tuple[str, ...]
    joints: int
    clashing: tuple[str, ...]
    undecided: int
    minutes: float
    source: str


@dataclass(frozen=True, slots=True)
class SwapVerdict:
    """The answer to a swap plan.

    as_asked is fits, measure or clash; best_allowed adds fits_with; both are not_asked when the plan touches nothing.
    clashed: titles of the joints that clashed before. joints are those that the plan touches, `untouched` stand as they
    stood. waiting: of the lines that were not asked those that a part which is put on has a role in.
    cures: the best first, then others.
    instead: plans that exchange a part; wanted: what such a part would have to be, whether or not there is one.
    complete: False when the budget ended the search. proven: the best cure is the cheapest there is, or there is none.
    blocked: an injury or fire joint is undecided, so only measuring steps may be taken.
    """

    plan: SwapPlan
    as_asked: str
    best_allowed: str
    before: str
    clashed: tuple[str, ...]
    joints: tuple[JointVerdict, ...]
    untouched: tuple[JointVerdict, ...]
    not_asked: tuple[NotAsked, ...]
    waiting: tuple[NotAsked, ...]
    cures: tuple[CuredPlan, ...]
    instead: tuple[CuredPlan, ...]
    wanted: tuple[Wanted, ...]
    passed_over: tuple[PassedOver, ...]
    conflicts: tuple[Conflict, ...]
    to_measure: tuple[ToMeasure, ...]
    beside_measure: tuple[Move, ...]
    cut_lines: tuple[CutLine, ...]
    complete: bool
    proven: bool
    blocked: bool
    nodes: int
    rules_judged: int
    revision: str
    stamp: str

    @property
    def built(self) -> tuple[Piece, ...]:
        """The board as it would be built: as asked, with the changes of the best cure; in the order of the plan."""
        moved = {piece.seat: piece for cured in self.cures[:1] for move in cured.moves for piece in move.pieces}
        kept = [moved.pop(piece.seat, piece) for piece in self.plan.after]
        return (*kept, *moved.values())


@dataclass(frozen=True, slots=True)
class BillLine:
    """A part to get: how many, at what money (mu, for all of them), where it lies, and neighbouring stocked sizes."""

    part: str
    title: str
    count: int
    money: float
    where: str
    neighbours_of: str
    neighbours: tuple[float, ...]
    unit: str

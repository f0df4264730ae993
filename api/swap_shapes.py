"""The shapes of the answers to a swap, to its conflicts alone, and of boards from a shelf."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field
from pydantic.json_schema import SkipJsonSchema

from api.fit_shapes import (
    FindingShape,
    JointShape,
    LineNotAsked,
    VerdictWord,
)
from api.jobcard_shapes import JobcardAnswer
from api.plan_shapes import PlanHead
from api.ride_shapes import RideAnswer
from api.settings_shapes import SettingsAnswer
from api.shapes import Revision, Shape, Stamp, Words

Severity = Literal["info", "nuisance", "damage", "injury", "fire"]


def _without_default(schema: dict[str, Any]) -> None:
    """What was not asked for is absent, not null."""
    schema.pop("default", None)


class PieceInSeat(Shape):
    seat: str
    part: str
    title: str


class FreeingShape(Shape):
    seat: str
    part: str
    attribute: str
    bound: Literal["at_least", "at_most"]
    value: float = Field(description="In `unit`: from here on the rule would hold.")
    unit: str
    such_as: str = Field(description="A part of the stock with such a size; empty where there is none.")
    breaks: Words = Field(description="Rules that would fail then and do not now.")
    sentence: str


class ConflictShape(Shape):
    pieces: list[PieceInSeat] = Field(description="They cannot stand together; no part of them alone fails the rule.")
    where: Words = Field(description="Titles of the joints at which they meet.")
    sentence: str
    findings: list[FindingShape]
    frees: list[FreeingShape] = Field(description="One change each that would end it.")
    refused: bool = Field(description="No adapter and no setting may cure this, only another part.")


class MoveShape(Shape):
    remedy: str
    title: str
    move: Literal["insert", "substitute", "alter", "set"]
    sentence: str
    what: str = Field(description="The part, size or setting, in words.")
    seats: Words
    part: str = Field(description="What is put in; empty where something is altered or set.")
    where: str = Field(description="Where the part lies: catalogue, stock, shelf or the name of a donor.")
    reversible: bool
    gives_up: str
    tool: str = Field(description="What it takes beyond hex keys and sockets; may be empty.")
    minutes: float
    money_mu: float = Field(description="Rough money units: common practice, for comparison only.")
    source: str


class ChosenMove(MoveShape):
    chosen_for: str = Field(description="The joint line and rule that it was chosen for.")


class CostShape(Shape):
    new_undecided: int = Field(description="Findings that became undecided.")
    shortfall: float = Field(description="How far the wishes are missed, as a share of their targets.")
    thin: int = Field(description="Findings that hold now without their comfort.")
    exchanges: int
    irreversible: int
    gives_up: int = Field(description="Remedies that give something up.")
    count: int = Field(description="How many remedies.")
    minutes: float
    money_mu: float


class NeighbourShape(Shape):
    attribute: str
    value: float = Field(description="In `unit`.")
    unit: str


class BillLineShape(Shape):
    part: str
    title: str
    count: int
    money_mu: float = Field(description="For all of them.")
    where: str
    neighbours: list[NeighbourShape] = Field(description="Stocked sizes beside it that are worth buying with it.")
    sentence: str


class CureShape(Shape):
    verdict: VerdictWord
    sentence: str
    moves: list[ChosenMove]
    cost: CostShape
    bill: list[BillLineShape]
    leaves_undecided: list[FindingShape]
    joints: list[JointShape] = Field(description="Every joint that the plan with these remedies touches.")


class PassedOverShape(Shape):
    title: str
    what: str
    cures: str = Field(description="The joint line and rule that it would cure; empty where it was not tried.")
    ruled_out_by: FindingShape | None
    sentence: str


class OutcomeShape(Shape):
    low: float | None = Field(description="In `unit`; null for a word.")
    high: float | None = Field(description="In `unit`; null for a word.")
    word: str
    unit: str
    verdict: VerdictWord = Field(description="The verdict on the whole plan then.")


class ToMeasureShape(Shape):
    part: str
    title: str
    seats: Words
    attribute: str
    unit: str
    share: float = Field(description="Its part of the doubt, 0 to 1.")
    settles_within: float | None = Field(description="Half width to which it must be read, in `unit`.")
    tool: str
    how: str
    decides: Words
    severity: Severity
    outcomes: list[OutcomeShape]
    sentence: str


class CutLineShape(Shape):
    unit: str
    title: str
    donor: str
    end: str
    seats: Words
    joints: int = Field(description="Joints between this unit and the rest of the board.")
    clashing: Words
    undecided: int
    minutes: float = Field(description="To take it off: a rough figure.")
    source: str
    sentence: str


class StoodShape(Shape):
    joint: str
    number: str
    title: str
    verdict: VerdictWord
    findings: list[FindingShape] = Field(description="Only those that fail or are undecided.")


class WishShape(Shape):
    quantity: str
    unit: str
    floor: float
    target: float | None
    as_asked: float | None = Field(description="What is reached as asked; null where it could not be worked out.")
    with_remedies: float | None
    sentence: str


class SwapAnswer(Shape):
    plan: PlanHead
    verdict: VerdictWord = Field(description="The same as best_allowed.")
    as_asked: VerdictWord
    best_allowed: VerdictWord = Field(description="With the remedies that are named.")
    before: VerdictWord = Field(description="The same joints as the board stands; not_asked for a new board.")
    sentence: str
    lead: Words = Field(description="Before and after in a few sentences.")
    wishes: list[WishShape] = Field(description="What the rider wishes, and what comes of it.")
    conflicts: list[ConflictShape] = Field(description="Which parts cannot stand together, most severe first.")
    remedies: list[CureShape] = Field(description="The best plan of remedies; empty where none is needed or found.")
    other_remedies: list[CureShape]
    passed_over: list[PassedOverShape] = Field(description="Remedies that are in no answer, and what ruled them out.")
    instead: list[CureShape] = Field(description="Other plans: a deck, truck, motor, pack ... is another.")
    measure_first: list[ToMeasureShape] = Field(description="The readings that decide, most decisive first.")
    beside_measure: list[MoveShape] = Field(description="Remedies that hold whatever the readings turn out to be.")
    cut_lines: list[CutLineShape] = Field(description="Which unit of a donor to move, the best cut first.")
    measuring_only: bool = Field(description="true: do not buy, drill, cut or solder before measuring.")
    claim: str = Field(description="What exactly is claimed for the remedies.")
    complete: bool = Field(description="false: the search was cut short; there may be a cheaper plan, or one at all.")
    proven: bool = Field(description="true: the best plan of remedies is the cheapest there is, or there is none.")
    plans_judged: int
    rules_judged: int
    joints: list[JointShape] = Field(description="What the plan touches.")
    as_it_stood: list[StoodShape] = Field(description="Joints that the plan does not touch.")
    not_asked: list[LineNotAsked]
    waiting: list[LineNotAsked] = Field(description="Those of not_asked that a part which is put on has a role in.")
    cautions: Words = Field(description="Stand beside the verdict; show them with it.")
    catalogue_revision: Revision
    rulebook_stamp: Stamp
    date: str
    ride: RideAnswer | SkipJsonSchema[None] = Field(
        None, description="Only with `include=ride`.", json_schema_extra=_without_default
    )
    settings: SettingsAnswer | SkipJsonSchema[None] = Field(
        None, description="Only with `include=settings`.", json_schema_extra=_without_default
    )
    jobcard: JobcardAnswer | SkipJsonSchema[None] = Field(
        None, description="Only with `include=jobcard`.", json_schema_extra=_without_default
    )


class ComparedRow(Shape):
    what: str
    this: str | float | Words
    other: str | float | Words


class Comparison(Shape):
    this: SwapAnswer
    other: SwapAnswer
    rows: list[ComparedRow] = Field(description="The same question of both.")


class ConflictsAnswer(Shape):
    plan: PlanHead
    verdict: VerdictWord = Field(description="The same as as_asked: nothing is mended here.")
    as_asked: VerdictWord
    before: VerdictWord
    sentence: str
    conflicts: list[ConflictShape]
    measuring_only: bool
    cautions: Words = Field(description="Stand beside the verdict; show them with it.")
    catalogue_revision: Revision
    rulebook_stamp: Stamp
    date: str


class BuildShape(Shape):
    verdict: Literal["fits", "measure", "clash"]
    sentence: str
    fails: int
    undecided: int
    parts: dict[str, str] = Field(description="Seat to part.")
    empty: Words = Field(description="Seats for which nothing is left of what is owned, in words; adapters apart.")


class BuildsAnswer(Shape):
    layout: str
    owned: Words
    boards: list[BuildShape] = Field(description="Best first: the best that were found, not a proof.")
    best: str = Field(description="The verdict on the first; empty where there is none.")
    complete: bool = Field(description="false: time ran out, and fewer boards were carried on.")
    sentence: str
    catalogue_revision: Revision
    rulebook_stamp: Stamp

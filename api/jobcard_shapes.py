"""The shapes of the job card: the order of work, with what is tightened, read and tried, minutes and a quote."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api.fit_shapes import VerdictWord
from api.plan_shapes import PlanHead
from api.shapes import Revision, Shape, Stamp, Words

PhaseWord = Literal["measure", "isolate", "undo", "check", "alter", "rebuild", "test"]


class MinutesShape(Shape):
    low: float
    usual: float
    high: float
    unit: Literal["min"]
    text: str
    short: str = Field(description="The range alone.")


class MoneyShape(Shape):
    low: float
    usual: float
    high: float
    unit: Literal["mu"] = Field(description="Rough money units: one is about one euro or dollar.")
    text: str


class CountedPart(Shape):
    title: str
    count: int


class LengthShape(Shape):
    low: float
    high: float
    unit: Literal["mm"]
    text: str = Field(description="In the units asked for.")


class TorqueShape(Shape):
    thread: str
    low_n_m: float = Field(description="N m.")
    high_n_m: float = Field(description="N m.")
    low_lbf_in: float = Field(description="lbf in.")
    high_lbf_in: float = Field(description="lbf in.")
    source: str
    text: str


class FastenersShape(Shape):
    id: str
    title: str
    places: Words
    count: int | None = Field(description="All of them; null where nobody knows.")
    each: int | None = Field(description="At each place; null where nobody knows.")
    thread: str = Field(description="Empty where nobody knows.")
    length: LengthShape | None
    torques: list[TorqueShape] = Field(description="All that may apply where the thread is unknown; may be empty.")
    thread_lock: Literal["none", "medium", "metal_only"]
    manner: str = Field(description="How it is tightened, in words; may be empty.")
    recheck_km: list[int] = Field(description="km after which it is looked at again.")
    source: str
    sentence: str


class CardReadingShape(Shape):
    name: str = Field(description="The name under which a plan takes the reading.")
    seats: Words
    part: str
    title: str
    attribute: str
    unit: str
    settles_within: float | None = Field(description="Half width to which it must be read, in `unit`.")
    tool: str
    how: str
    decides: bool = Field(description="A doubt of the verdict hangs on it; else it only lies bare now.")
    at_hand: bool = Field(description="The part lies on the table: nothing has to be undone for it.")
    sentence: str


class BackTo(Shape):
    joint: str
    title: str


class TrialShape(Shape):
    passes: str
    back_to: list[BackTo] = Field(description="Joints to look at again when it does not pass.")
    sentence: str


class StepShape(Shape):
    number: int
    key: str = Field(description="The name by which `needs` of later steps call it.")
    kind: Literal["work", "reading", "gate", "alteration", "test"]
    phase: PhaseWord
    title: str
    does: str
    places: Words = Field(description="Where it is done; empty for once.")
    where: str = Field(description="The places in words.")
    parts: list[CountedPart] = Field(description="What comes off or goes on.")
    new: list[CountedPart] = Field(description="Of these, what was not on the board before.")
    tool: str
    minutes: MinutesShape
    wait_hours: float = Field(description="h in which nothing may be loaded or ridden afterwards.")
    electrical: bool
    reversible: bool
    photograph: str = Field(description="What to take a picture of before; may be empty.")
    note: str
    look_first: Words
    cautions: Words = Field(description="Stand beside the step; show them with it.")
    fasteners: list[FastenersShape]
    reading: CardReadingShape | None
    test: TrialShape | None
    changes: Words
    gives_up: str
    needs: Words = Field(description="Keys of the steps that come before it.")
    source: str
    sentence: str


class PhaseShape(Shape):
    phase: PhaseWord
    title: str
    steps: list[int] = Field(description="Numbers of its steps.")
    minutes: MinutesShape
    sentence: str


class RecheckShape(Shape):
    km: int
    what: Words
    sentence: str


class PromiseShape(Shape):
    what: str
    sentence: str


class PartToGet(Shape):
    part: str
    title: str
    count: int
    in_sets: bool = Field(description="One of them is a set: all the screws of one place.")
    money_mu: float = Field(description="For all of them.")
    sentence: str


class QuoteLine(Shape):
    kind: Literal["labour", "part"]
    what: str
    minutes: MinutesShape | None = Field(description="null for a part.")
    count: int | None = Field(description="null for labour.")
    money_mu: MoneyShape
    sentence: str


class QuoteShape(Shape):
    rate_mu_per_hour: float
    lines: list[QuoteLine]
    total: MoneyShape
    unpriced: Words = Field(description="New parts whose price nobody told; they are not in the total.")
    sentence: str


class WayShape(Shape):
    title: str
    steps: Words = Field(description="Titles of what has to be undone for it.")
    minutes: MinutesShape
    irreversible: int = Field(description="Steps that cannot be undone.")
    clashing: int | None = Field(description="Joints that clash then; null where the way is not judged by itself.")
    undecided: int | None = Field(description="Joints that cannot be told yet; null as above.")
    sentence: str


class JobcardAnswer(Shape):
    plan: PlanHead
    verdict: VerdictWord
    as_asked: VerdictWord
    sentence: str
    withheld: Literal["", "clash", "nothing_changes"] = Field(description="Why there is nothing to do; else empty.")
    why: Words = Field(description="Why there is no card, or only one for measuring, in sentences.")
    measuring_only: bool = Field(description="true: do not buy, drill, cut or solder before measuring.")
    minutes: MinutesShape
    wait_hours: float
    first_time: str
    steps: list[StepShape]
    phases: list[PhaseShape]
    rechecks: list[RecheckShape]
    promises: list[PromiseShape] = Field(description="Changes that are no work, such as what is not ridden.")
    parts_to_get: list[PartToGet]
    quote: QuoteShape | None = Field(description="null where no rate was told, or where there is nothing to do.")
    ways: list[WayShape] = Field(description="Several ways beside each other, by what they take.")
    cautions: Words = Field(description="Stand beside the card; show them with it.")
    catalogue_revision: Revision
    rulebook_stamp: Stamp
    date: str

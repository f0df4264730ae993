"""The shapes of a question about the options for a seat, which are enforced, and of its answer."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from api.fit_shapes import FindingShape
from api.plan_shapes import PlanHead, PlanQuestion
from api.shapes import Revision, Shape, Stamp, Words

OptionWord = Literal["fits", "fits_with", "measure", "checking", "clash"]
BUDGET: dict[str, Any] = {"minimum": 0, "maximum": 60000}


class WhyQuestion(PlanQuestion):
    """A plan, a seat of its layout, and the part that is asked about there."""

    seat: str = Field(min_length=1, max_length=80, description="A seat of the layout by any of its names.")
    part: str = Field(min_length=1, max_length=80, description="The id of a part for this seat.")
    budget_ms: float = Field(
        2000.0, description="How long may be worked on it, ms; what was found is kept.", json_schema_extra=BUDGET
    )


class OptionsQuestion(PlanQuestion):
    """A plan with the parts chosen so far, and the seat for which parts are looked for."""

    seat: str = Field(min_length=1, max_length=80, description="A seat of the layout by any of its names.")
    limit: int = Field(
        20, description="Options on a page; 0 for the counts alone.", json_schema_extra={"minimum": 0, "maximum": 200}
    )
    after: str = Field("", max_length=600, description="`next` of the page before, the rest of the question the same.")
    sort: Literal["best", "price", "mass", "margin", "difference", "id"] = Field(
        "best", description="Always within each verdict; what is unknown comes last."
    )
    where: dict[str, str] = Field(
        default_factory=dict,
        max_length=20,
        description="Only parts with such readings, written as for GET /v1/parts.",
        examples=[{"width": "12mm..16mm"}],
    )
    facets: list[str] | None = Field(
        None, max_length=40, description="Count by these readings; an empty list: by all in which the parts differ."
    )
    all_seats: bool = Field(False, description="Also tell every other open seat, after this one.")
    why: str = Field("", max_length=80, description="The id of a part that should be explained in the same answer.")
    alike_to: str = Field(
        "",
        max_length=80,
        description="The id of a part: a page of all parts that are as this one in everything, one by one.",
    )
    remedies: bool = Field(
        True, description="Look for remedies for what clashes on the page, in the time that is left."
    )
    budget_ms: float = Field(
        2000.0, description="How long may be worked on it, ms; what was found is kept.", json_schema_extra=BUDGET
    )
    most_price_mu: float | None = Field(
        None,
        description="The whole board must not cost more, mu. Without it prices are shown and rule nothing out.",
        json_schema_extra={"minimum": 0},
    )


class ToRead(Shape):
    part: str
    seat: str
    attribute: str
    how: str
    tool: str
    finer: bool = Field(description="It was read, but not finely enough to decide.")


class Doubt(Shape):
    rule: str
    sentence: str


class RemedyMove(Shape):
    remedy: str
    move: Literal["insert", "substitute", "alter", "set"]
    sentence: str
    seats: Words
    part: str = Field(description="What is put in; empty where something is altered or set.")
    reversible: bool
    gives_up: str
    minutes: float
    money_mu: float


class OptionRemedies(Shape):
    verdict: Literal["fits_with", "measure"]
    sentence: str
    moves: list[RemedyMove]
    minutes: float
    money_mu: float


class OptionPrice(Shape):
    from_mu: float = Field(description="No whole board with this part costs less beyond what is owned.")
    cheapest_seen_mu: float | None = Field(description="The cheapest whole board seen; null where none was.")
    unpriced: int = Field(description="Pieces without a known price: they stand in neither sum.")
    sentence: str


class OptionMass(Shape):
    low: float
    nominal: float
    high: float
    unit: str
    pieces: int = Field(description="The mass is of so many pieces together.")
    assumed: bool
    source: str


class OptionMargin(Shape):
    share: float = Field(description="The least to spare where the part meets others on its board, over the limit.")
    rule: str
    sentence: str


class DifferingReading(Shape):
    reading: str
    now: str
    then: str


class OptionDifference(Shape):
    amount: float = Field(description="Relative differences of sizes, and 1 for each word that differs, summed.")
    readings: list[DifferingReading]


class AlikeParts(Shape):
    count: int = Field(
        description="So many other parts of the catalogue say the same in everything; `part` itself is not counted."
    )
    parts: list[str] = Field(description="The first of them; ask with `alike_to` for all.")


class OptionLine(Shape):
    part: str = Field(description="Of parts that are alike the one that is chosen, owned or priced, else the first.")
    title: str
    alike: AlikeParts
    verdict: OptionWord
    sentence: str
    possible: bool = Field(description="A whole board with it stands: `witness`.")
    owned: bool
    current: bool = Field(description="It stands there now.")
    witness: dict[str, Any] | None = Field(description="One whole board as a plan: POST it to /v1/swaps as it is.")
    to_read: list[ToRead] = Field(description="Readings to take with the part in hand, that decide its board.")
    undecided: list[Doubt]
    fits_with: OptionRemedies | None = Field(description="What cures its clash with what is chosen.")
    remedies_asked: bool = Field(description="Whether remedies were looked for to the end; only for what clashes.")
    price: OptionPrice | None = Field(description="null where the plan tells no prices.")
    mass: OptionMass | None = Field(description="null where nobody has read it.")
    margin: OptionMargin | None
    difference: OptionDifference | None = Field(description="From the part that stands there now.")


class OptionCounts(Shape):
    """Of parts; those that are alike are counted each."""

    fits: int
    measure: int
    checking: int = Field(description="The time was up; never told as a clash.")
    clash: int = Field(description="Without remedies; these are looked for on the page that is shown.")


class OptionFacetEntry(Shape):
    value: str
    low: float | None
    high: float | None
    parts: int
    counts: dict[OptionWord, int]


class OptionFacet(Shape):
    of: str
    unit: str
    entries: list[OptionFacetEntry]
    unread: int


class RuledOutBy(Shape):
    joint: str
    rule: str


class ReasonShape(Shape):
    sentence: str
    choices: dict[str, str] = Field(description="By seat the parts to blame; empty where no choice is.")
    rules: list[RuledOutBy]
    finding: FindingShape | None
    examples: list[FindingShape]
    smallest: bool = Field(description="Whether no smaller set of choices rules it out.")


class ChangeShape(Shape):
    sentence: str
    given_up: Words = Field(description="Seats whose choice is given up.")
    instead: dict[str, str] = Field(description="By seat the part that stands there on the board shown.")
    witness: dict[str, str]
    smallest: bool


class BrokenShape(Shape):
    why: ReasonShape | None
    change: ChangeShape | None


class AlreadyClashing(Shape):
    rule: str
    seats: Words
    sentence: str


class WhyShape(Shape):
    part: str
    verdict: OptionWord
    sentence: str
    reason: ReasonShape | None = Field(description="The smallest reason; null where it was not found in time.")
    change: ChangeShape | None = Field(description="The smallest change that would let it in.")
    findings: list[FindingShape] = Field(description="What fails with it on the board as it is chosen.")
    known: bool = Field(description="Whether the smallest reason was found in time.")


class OtherSeat(Shape):
    seat: str
    seats: Words
    may_be_empty: bool
    sentence: str
    counts: OptionCounts
    parts: dict[OptionWord, Words]
    complete: bool


class OptionsAnswer(Shape):
    plan: PlanHead
    seat: str
    seats: Words = Field(description="The seats that take the part together.")
    now: str | None = Field(description="The part that stands there now.")
    sentence: str
    counts: OptionCounts
    total: int = Field(description="Parts in the list.")
    different: int = Field(description="Lines in the list, on all pages: parts that are alike in everything share one.")
    options: list[OptionLine]
    next: str | None = Field(description="Send it as `after` for the next page; null on the last.")
    same_list: bool = Field(description="Whether this page is cut from the list of the page before.")
    moved_from: str | None = Field(description="The revision of the page before, where the catalogue has moved since.")
    facets: list[OptionFacet] | None
    left_empty: Words = Field(description="Seats of a whole board for which there is no part.")
    already_clashing: list[AlreadyClashing] = Field(description="Among what is chosen for other seats.")
    broken: BrokenShape | None = Field(description="Where what is chosen clashes already; options are those after.")
    why: WhyShape | None
    other_seats: list[OtherSeat] | None
    complete: bool = Field(description="Nothing is left to check.")
    catalogue_revision: Revision
    newer_revision: str | None = Field(description="The catalogue's revision where it has moved on: ask again soon.")
    rulebook_stamp: Stamp


class WhyAnswer(WhyShape):
    plan: PlanHead
    seat: str
    seats: Words
    now: str | None
    already_clashing: list[AlreadyClashing]
    broken: BrokenShape | None
    catalogue_revision: Revision
    newer_revision: str | None
    rulebook_stamp: Stamp

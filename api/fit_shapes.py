"""The shapes of a fit question, which are enforced, and of its answer, which document it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

from api.shapes import AnyReading, LimitShape, ProblemShape, PublishedShape, Revision, Shape, Stamp, Words

ID = r"^[a-z0-9][a-z0-9._-]{0,79}$"
ROLE = r"^[a-z0-9][a-z0-9_-]{0,79}$|^$"
NAMED, OWN = "named part", "part of one's own"  # how validation tells the two apart; never shown
VerdictWord = Literal["fits", "fits_with", "measure", "clash", "not_asked"]


class Asked(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class NamedPart(Asked):
    """A part of the catalogue."""

    id: str = Field(pattern=ID, examples=["wheel-90-six-window"])
    role: str = Field(
        "", pattern=ROLE, description="Seat or row of seats; needed where the part could stand in several."
    )


class OwnPart(Asked):
    """A part of one's own, written like an entry of a part file (/v1/schemas/part-file)."""

    part: Any
    role: str = Field("", pattern=ROLE)


def _kind_of(part: Any) -> str:
    return OWN if isinstance(part, dict) and "part" in part else NAMED


AskedPart = Annotated[Annotated[NamedPart, Tag(NAMED)] | Annotated[OwnPart, Tag(OWN)], Discriminator(_kind_of)]
Key = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9_.-]{0,159}$")]
Finite = Annotated[float, Field(allow_inf_nan=False, ge=-1e9, le=1e9)]


class Question(Asked):
    """Do these parts fit each other?"""

    parts: list[AskedPart] = Field(min_length=1, max_length=60, description="Two or more parts to be held together.")
    readings: dict[Key, Any] = Field(
        default_factory=dict,
        max_length=200,
        description="Your own readings by role.attribute: a number in the attribute's unit, or text with a unit.",
        examples=[{"wheel.window_width": "9.0 +-0.1 mm"}],
    )
    limits: dict[Key, Finite] = Field(
        default_factory=dict, max_length=200, description="Limits of your own by key, each in its rule's unit."
    )
    units: Literal["mm", "inch", "fraction"] = Field("mm", description="How lengths stand in sentences.")
    include: list[Literal["drawings"]] = Field(
        default_factory=list, max_length=4, description="drawings: an SVG beside every finding."
    )


class Batch(Asked):
    """Up to 50 questions at once; each answer, or problem, stands at the place of its question."""

    questions: list[Any] = Field(min_length=1, max_length=50)


class RangeShape(Shape):
    low: float = Field(description="In `unit`.")
    nominal: float = Field(description="In `unit`.")
    high: float = Field(description="In `unit`.")
    unit: str
    text: str = Field(description="In the units asked for.")


class InputShape(Shape):
    need: str = Field(description="What the rule asked for, as role.attribute.")
    seat: str
    part: str
    attribute: str
    unit: str
    reading: AnyReading | None = Field(description="null: nobody has read it.")
    share: float = Field(description="Its part of the width of the range, 0 to 1.")
    settles_within: float | None = Field(description="Half width to which it must be read to decide alone, in `unit`.")
    flips_at: float | None = Field(description="Where a finding that holds would start to fail, in `unit`.")
    tool: str
    how: str


class WantedShape(Shape):
    role: str
    classes: Words


class LineOfDrawing(Shape):
    shape: Literal["line"]
    kind: str
    closed: bool
    points: list[list[float]] = Field(description="[x, y] in the drawing's unit.")


class CircleOfDrawing(Shape):
    shape: Literal["circle"]
    kind: str
    centre: list[float]
    radius: float


class LabelOfDrawing(Shape):
    shape: Literal["label"]
    text: str
    at: list[float]


class GeometryShape(Shape):
    title: str
    description: str = Field(description="The drawing in words.")
    plane: Literal["xy", "xz", "yz", "face", "scale"] = Field(description="x to the nose, y to the left, z up.")
    axes: Words
    unit: str
    shapes: list[Annotated[LineOfDrawing | CircleOfDrawing | LabelOfDrawing, Field(discriminator="shape")]]


class FindingShape(Shape):
    rule: str
    joint: str
    question: str
    state: Literal["holds", "fails", "undecided", "not_asked", "excused"]
    code: str = Field(description="Why, as a stable word. See /v1/words.")
    sentence: str
    severity: Literal["info", "nuisance", "damage", "injury", "fire"]
    measures: str
    formula: str
    value: RangeShape | None
    margin: RangeShape | None = Field(description="The value against the limit: 0 or more passes.")
    limit: LimitShape
    comfort: LimitShape | None
    comfort_missed: bool
    published: list[PublishedShape]
    overridden: Words = Field(description="Limits of your own that were used, in words.")
    inputs: list[InputShape]
    settled_by: Words = Field(description="part.attribute, the one that settles most first.")
    at_assembly: bool = Field(description="No tool reads finely enough: settle it with the parts in hand.")
    wanted: list[WantedShape]
    would_help: str = Field(description="What mends a finding that fails or is undecided, in words; maybe empty.")
    caution: str
    geometry: GeometryShape | None = Field(default=None, description="Absent within bridges.")
    drawing: str = Field(default="", description="SVG; only with include: [drawings].")


class PieceShape(Shape):
    role: str
    seat: str
    part: str
    title: str


class JointShape(Shape):
    joint: str
    kind: str
    number: str
    title: str
    verdict: VerdictWord
    pieces: list[PieceShape]
    findings: list[FindingShape]


class LineNotAsked(Shape):
    kind: str
    number: str
    title: str
    wanted: list[WantedShape]


class Offer(Shape):
    part: str
    offers: Words


class BridgeShape(Shape):
    remedy: str
    title: str
    part: str
    part_title: str
    verdict: VerdictWord
    cures: Words
    breaks: Words
    adds: Words
    gives_up: str
    reversible: bool
    minutes: float
    money_mu: float = Field(description="Rough money units: common practice, for comparison only.")
    source: str
    joints: list[JointShape]


class MeasureFirst(Shape):
    part: str
    attribute: str
    sentence: str
    settles_within: float | None = Field(description="Half width, in `unit`.")
    unit: str
    tool: str
    how: str
    decides: Words


class Answer(Shape):
    verdict: VerdictWord = Field(description="The same as best_allowed.")
    as_asked: VerdictWord
    best_allowed: VerdictWord = Field(description="With the remedies named under bridges.")
    sentence: str
    meets: bool = Field(description="false: nothing that one offers is wanted by another.")
    joints: list[JointShape]
    not_asked: list[LineNotAsked] = Field(description="Joint lines that need one more part.")
    offers: list[Offer]
    bridges: list[BridgeShape] = Field(description="Adapters, each judged with everything it touches; best first.")
    measure_first: list[MeasureFirst] = Field(description="The readings that hold the doubt, most decisive first.")
    cautions: Words = Field(description="Stand beside the verdict; show them with it.")
    catalogue_revision: Revision
    rulebook_stamp: Stamp


class Answers(Shape):
    answers: list[Answer | ProblemShape] = Field(description="In the order of the questions.")

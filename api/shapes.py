"""The shapes of what the API tells about the catalogue and the rulebook, for the OpenAPI document.

Answers are not built through these models: the tests hold real answers against the schemas made from them.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Revision = Annotated[str, Field(description="Moves with every change of the catalogue.", examples=["r7-1a2b3c4d"])]
Stamp = Annotated[str, Field(description="Moves with every change of a rule or formula.")]
Next = Annotated[str | None, Field(description="The address of the next page; null on the last. Also a Link header.")]
Words = list[str]


class Shape(BaseModel):
    model_config = ConfigDict(extra="forbid")


class SourceShape(Shape):
    id: str
    kind: str = Field(description="How it was read: decides the spread of a bare value. See /v1/words.")
    title: str
    standing: str = Field(description="How far to trust it. See /v1/words.")


class ReadingShape(Shape):
    entered: str = Field(description="As it was typed.")
    source: SourceShape
    value_assumed: bool = Field(description="Nobody read it: a default stands in.")
    spread_assumed: bool = Field(description="The value was read; its spread comes from the table of sources.")


class SpanShape(ReadingShape):
    low: float = Field(description="In `unit`.")
    nominal: float = Field(description="In `unit`.")
    high: float = Field(description="In `unit`.")
    unit: str = Field(description="The attribute's canonical unit, such as mm, deg, N, A; empty for a bare number.")


class NumberShape(SpanShape):
    kind: Literal["number"]


class DesignationShape(SpanShape):
    kind: Literal["designation"]
    fit: str = Field(description="The fit table that gives the one-sided span.")


class CountShape(ReadingShape):
    kind: Literal["count"]
    values: list[int] = Field(description="Every count still possible.")
    nominal: int


class WordShape(ReadingShape):
    kind: Literal["word"]
    possible: Words = Field(description="Every word still possible.")


class OutlineShape(ReadingShape):
    kind: Literal["outline"]
    rings: list[list[list[float]]] = Field(description="Closed polygons of [x, y], mm.")
    holes: list[list[float]] = Field(description="[x, y, diameter, slot length, slot angle], mm and degrees.")
    spread: float = Field(description="Half width by which every edge may be off, mm.")
    unit: Literal["mm"]


AnyReading = Annotated[
    NumberShape | DesignationShape | CountShape | WordShape | OutlineShape, Field(discriminator="kind")
]


class LowHigh(Shape):
    low: float = Field(description="In the attribute's unit.")
    high: float = Field(description="In the attribute's unit.")


class DefaultShape(Shape):
    value: float | str = Field(description="What stands in when nobody read it: a number in `unit`, or a word.")
    minus: float = Field(description="Spread downwards, in `unit`.")
    plus: float = Field(description="Spread upwards, in `unit`.")
    unit: str


class AttributeShape(Shape):
    owner: str = Field(description="The part class or interface kind that has it.")
    name: str
    title: str
    reading: Literal["number", "count", "word", "designation", "outline"]
    unit: str = Field(description="Canonical unit of every value here; empty where there is none.")
    vocabulary: Words = Field(description="The words it may take.")
    open_vocabulary: bool = Field(description="Words outside the list exist.")
    physical: LowHigh | None = Field(description="Outside of this a value is impossible.")
    plausible: LowHigh | None = Field(description="The widest range met on real parts.")
    default: DefaultShape | None
    fit: str = Field(description="The fit table of a designation.")
    spread_family: str = Field(description="Which spread a bare value gets from its kind of source.")
    tool: str = Field(description="What to read it with.")
    how: str = Field(description="How to read it.")
    source: SourceShape


class ClassLine(Shape):
    id: str
    title: str
    like: Words = Field(description="Classes whose ports, attributes and seats it also has, nearest first.")
    another_plan: bool = Field(description="Exchanging such a part is another plan, never a remedy.")
    ports: dict[str, str] = Field(description="Port to interface kind, those of the classes it is like included.")


class ClassList(Shape):
    classes: list[ClassLine]
    catalogue_revision: Revision


class PortShape(Shape):
    port: str
    kind: str = Field(description="Interface kind.")
    title: str
    attributes: list[AttributeShape]


class ClassShape(ClassLine):
    line: Words = Field(description="The class and all it is like, nearest first.")
    source: SourceShape
    attributes: list[AttributeShape] = Field(description="Its own and those of the classes it is like.")
    offers: list[PortShape] = Field(description="What can be read at each port.")
    catalogue_revision: Revision


class AttributeList(Shape):
    attributes: list[AttributeShape]
    catalogue_revision: Revision


class PartLine(Shape):
    id: str
    class_: str = Field(alias="class")
    title: str
    ports: dict[str, str] = Field(description="Port to interface id.")
    source: SourceShape


class KnownReading(Shape):
    attribute: str
    title: str
    text: str = Field(description="The reading in words, in the units asked for.")
    note: str
    reading: AnyReading


class ReadingGroup(Shape):
    port: str = Field(description="Empty for the part's own sizes.")
    interface: str | None
    title: str
    readings: list[KnownReading]


class Unread(Shape):
    port: str
    attribute: str
    title: str
    tool: str
    how: str


class PartShape(Shape):
    id: str
    class_: str = Field(alias="class")
    class_title: str
    title: str
    source: SourceShape
    version: int
    ports: dict[str, str]
    groups: list[ReadingGroup]
    unread: list[Unread] = Field(description="What nobody has read yet, and how to.")
    catalogue_revision: Revision


class InterfaceLine(Shape):
    id: str
    kind: str
    title: str


class InterfaceList(Shape):
    interfaces: list[InterfaceLine]
    next: Next
    catalogue_revision: Revision


class OfferedBy(Shape):
    class_: str = Field(alias="class")
    port: str


class InterfaceShape(Shape):
    id: str
    kind: str
    kind_title: str
    title: str
    signature: str = Field(description="Equal signatures mean the same interface.")
    version: int
    readings: list[KnownReading]
    unread: list[Unread]
    offered_by: list[OfferedBy] = Field(description="Classes with a port of this kind.")
    catalogue_revision: Revision


class Fitting(Shape):
    part: str
    title: str
    class_: str = Field(alias="class")
    verdict: Literal["fits", "measure", "clash"]
    rule: str = Field(description="The rule that decides.")
    sentence: str


class StandIn(Shape):
    class_: str = Field(alias="class", description="The class that the interface was tried as.")
    seat: str
    note: str


class FittingList(Shape):
    class_: str = Field(alias="class")
    fits: Words
    judged: int = Field(description="How many parts of the class were judged.")
    matching: int = Field(description="How many of them stand in the whole list.")
    found: list[Fitting] = Field(description="Best first: fits, measure, then clash where asked for; by id within.")
    stand_in: StandIn | None = Field(default=None, description="Only for an interface; null where nothing meets it.")
    sentence: str
    next: Next
    catalogue_revision: Revision
    rulebook_stamp: Stamp


class PatternLine(Shape):
    id: str
    title: str
    seats: int
    lines: int


class PatternList(Shape):
    patterns: list[PatternLine]
    catalogue_revision: Revision


class SeatShape(Shape):
    seat: str
    row: str = Field(description="Seats of one row are filled in `order`.")
    order: int
    classes: Words = Field(description="Part classes that it takes, and all that are like them.")
    title: str


class RoleShape(Shape):
    role: str
    seats: Words
    how: Literal["single", "list", "if_present"]
    port: str


class LineShape(Shape):
    line: str
    kind: str = Field(description="Kind of joint: the folder of its rules.")
    number: str = Field(description="Its number in the list of joints, such as J15.")
    title: str
    expansion: Literal["one", "chain", "each", "over"]
    chain_seats: Words
    constants: list[dict[str, float]]
    roles: list[RoleShape]


class PatternShape(Shape):
    id: str
    title: str
    seats: list[SeatShape]
    lines: list[LineShape]
    catalogue_revision: Revision


class SourceList(Shape):
    sources: list[SourceShape]
    catalogue_revision: Revision


class BoundShape(Shape):
    key: str = Field(description="Name it under `limits` to set another value.")
    value: float = Field(description="In `unit`.")
    unit: str
    source: str


class LimitShape(Shape):
    kind: Literal["at_least", "at_most", "between", "same", "one_of"]
    low: BoundShape | None
    high: BoundShape | None
    words: Words
    text: str
    source: str = Field(default="", description="Of a limit on words.")


class PublishedShape(Shape):
    text: str
    source: str


class ExampleShape(Shape):
    title: str
    says: str
    margin: float | None = Field(description="In the rule's unit.")
    two_numbers: str = Field(description="What comparing two nominal numbers would have said, where it disagrees.")


class RuleShape(Shape):
    id: str
    kind: str
    number: str
    title: str
    question: str
    why: str
    measures: str
    formula: str
    unit: str
    needs: Words
    limit: LimitShape
    comfort: LimitShape | None
    published: list[PublishedShape]
    severity: Literal["info", "nuisance", "damage", "injury", "fire"]
    caution: str
    excused_by: str
    examples: list[ExampleShape]


class RuleList(Shape):
    rules: list[RuleShape]
    rulebook_stamp: Stamp


class WordLine(Shape):
    word: str
    sentence: str


class WordList(Shape):
    words: dict[str, list[WordLine]] = Field(description="Every closed list of words, by its name.")


class Resource(Shape):
    method: str
    path: str
    does: str


class Index(Shape):
    name: str
    version: str
    resources: list[Resource]
    catalogue_revision: Revision
    rulebook_stamp: Stamp


class Fault(Shape):
    code: str = Field(description="Stable, for translation.")
    pointer: str = Field(description="JSON pointer into the body; /path/... and /query/... name a parameter.")
    detail: str
    hint: str = Field(description="What to do about it; may be empty.")


class ProblemShape(Shape):
    type: str = Field(description="A URN, stable per kind of failure.")
    title: str
    status: int
    detail: str
    errors: list[Fault] = Field(description="Every fault that was found, not only the first.")
    instance: str = Field(default="", description="Only for faults of ours: the number under which the log has it.")

"""The shape of GET /v1/parts: a page of parts, what was understood of the question, counts where asked for."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api.shapes import Next, PartLine, Revision, Shape, Words


class SortedBy(Shape):
    of: str = Field(description="The attribute that the list is sorted by.")
    nominal: float | None = Field(description="Its nominal reading in `unit`; null where nobody has read it.")
    unit: str


class ListedPart(PartLine):
    by: SortedBy | None = Field(default=None, description="Only in a list that is sorted by a size.")
    verdict: Literal["fits", "measure", "clash"] | None = Field(
        default=None, description="Only where `fits`, `board` or `plan` is asked: what the judge says of this part."
    )
    rule: str | None = Field(default=None, description="The rule that decides.")
    sentence: str | None = Field(default=None, description="What it says, in words.")


class Condition(Shape):
    of: str = Field(description="The attribute, or port.attribute.")
    low: float | None = Field(description="In `unit`; null where open.")
    high: float | None = Field(description="In `unit`; null where open.")
    unit: str
    words: Words = Field(description="Every word still possible must be one of these.")


class FacetEntry(Shape):
    value: str = Field(description="A word, an interface, a class, or the size or range of sizes in words.")
    low: float | None = Field(description="For sizes: from here on, in the facet's unit.")
    high: float | None = Field(description="For sizes: up to here; below it where another entry begins there.")
    parts: int


class Facet(Shape):
    of: str
    kind: Literal["words", "sizes", "interfaces", "classes"]
    unit: str
    entries: list[FacetEntry]
    unread: int = Field(description="Parts of which nobody has read it, or named the port.")


class PartCount(Shape):
    parts: int
    exact: bool = Field(description="False for what fits: then it is how many are not ruled out before being judged.")


class RuledOut(Shape):
    class_: str = Field(alias="class")
    rule: str
    sentence: str


class PartPage(Shape):
    parts: list[ListedPart]
    next: Next
    complete: bool = Field(description="False where judging took too long for a full page: `next` goes on from there.")
    ruled_out: list[RuledOut] = Field(
        description="Classes of which nothing fits, whatever the part: the rule looks at what stands alone."
    )
    moved_from: str | None = Field(
        description="The revision that the page before was told under, where the catalogue has moved since: parts that "
        "were added before this place are not shown, parts that were taken away may be missing."
    )
    asked: list[Condition] = Field(description="The conditions as they were understood.")
    count: PartCount | None = Field(description="Only on request.")
    facets: list[Facet] = Field(description="Only on request.")
    catalogue_revision: Revision

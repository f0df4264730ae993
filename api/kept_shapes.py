"""The shapes of what people keep: boards, plans, and readings on their parts."""

from __future__ import annotations

from typing import Any

from pydantic import Field

from api.shapes import AnyReading, Next, Revision, Shape


class KeptLine(Shape):
    id: str
    title: str
    layout: str
    version: int = Field(description="Counts its changes; its ETag is this number in quotes.")
    saved_at: str = Field(description="Date and time, UTC (ISO 8601).")


class BoardList(Shape):
    boards: list[KeptLine]
    next: Next


class PlanList(Shape):
    plans: list[KeptLine]
    next: Next


class KeptShape(KeptLine):
    document: dict[str, Any] = Field(description="As it was sent: a plan document (/v1/schemas/plan-file).")


class KeptReading(Shape):
    attribute: str
    port: str = Field(description="Where on the part; empty for the part's own sizes.")
    text: str = Field(description="The reading in words; empty where it was taken away.")
    reading: AnyReading | None = Field(description="null: it was taken away, and nobody has read it now.")


class KeptReadings(Shape):
    part: str
    title: str
    version: int = Field(description="Of the part, now.")
    kept: list[KeptReading]
    catalogue_revision: Revision

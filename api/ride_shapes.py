"""The shapes of what a finished board will do: figures before and after, charts, and a ridden track."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api.fit_shapes import RangeShape, VerdictWord
from api.plan_shapes import BoardWord, PlanHead
from api.shapes import Revision, Shape, Stamp, Words

LIMITED_BY = Field(description="What ends it, in words; empty where nothing does.")


class FigureValue(RangeShape):
    limited_by: str = LIMITED_BY


class FigureDifference(Shape):
    low: float = Field(description="In `unit`.")
    nominal: float = Field(description="In `unit`.")
    high: float = Field(description="In `unit`.")
    unit: Literal["percent", "mm", "deg"]
    same: bool = Field(description="So little that nobody would notice.")
    text: str


class FigureMover(Shape):
    seat: str = Field(description="Empty where it belongs to no part, such as a share that the trade counts with.")
    part: str
    attribute: str
    title: str
    share: float = Field(description="Its part of how far the figure spreads, 0 to 1.")
    assumed: bool = Field(description="Nobody read it: what usually is stands in.")


class TrackFigure(Shape):
    id: str
    title: str
    unit: str = Field(description="Of its values; empty for a bare number.")
    before: FigureValue | None = Field(description="The board as it stands; null where it is unknown, or a new board.")
    as_asked: FigureValue | None = Field(description="The board as the plan asks; null where it is unknown.")
    built: FigureValue | None = Field(description="With the changes of the answer; null where it changes nothing.")
    difference: FigureDifference | None = Field(
        description="The last board against the first, draw by draw; null for one board, or where either is unknown."
    )
    limited_by: str = LIMITED_BY
    moved_by: list[FigureMover] = Field(description="The readings that move it most, first.")
    sentence: str


GroupOfFigures = Literal["speed", "pull", "hill", "range", "pack", "brake", "body"]


class FigureGroup(Shape):
    id: GroupOfFigures
    title: str


class RideFigure(TrackFigure):
    group: GroupOfFigures
    note: str = Field(description="What else has to be known of this number; may be empty.")
    unknown: str = Field(description="Why it is unknown on the last board, and what to read; else empty.")
    source: str = Field(description="Of the formula.")


class ChartAxis(Shape):
    title: str
    unit: str


class ChartSeries(Shape):
    name: str
    board: BoardWord
    role: Literal["main", "resistance", "limit", "point"]
    x: list[float] = Field(description="In the unit of the chart's `x`.")
    y: list[float] = Field(description="In the unit of the chart's `y`, as many as `x`.")
    low: list[float] = Field(description="Lower edge of the range of `y`: as many, or none.")
    high: list[float] = Field(description="Upper edge of the range of `y`: as many, or none.")


class ChartShape(Shape):
    id: str = Field(description="With `?chart=` and `accept: image/svg+xml` it comes as a drawing.")
    title: str
    description: str
    x: ChartAxis
    y: ChartAxis
    series: list[ChartSeries] = Field(description="Of the first board and of the last.")
    missing: str = Field(description="Why there is no line; else empty.")


class TrackShape(Shape):
    title: str
    source: str = Field(description="The kind of file, in words.")
    length_m: float
    ascent_m: float | None = Field(description="Climbed metres; null where the file does not tell heights.")
    figures: list[TrackFigure]
    notes: Words = Field(description="How the file was counted: smoothing, gaps, what it does not tell.")
    spots: Words = Field(description="Places where the board falls short of the way, or its brake does.")
    charts: list[ChartShape]


class RideChange(Shape):
    figure: str = Field(description="Id of the figure that it moves.")
    percent: float = Field(description="By how much, in per cent of the figure.")
    remedy: str
    what: str
    seats: Words
    minutes: float
    money_mu: float
    reversible: bool
    sentence: str


class StabilityShape(Shape):
    points: int = Field(description="Points of common practice: a hint, never a promise.")
    word: Literal["calm", "care", "warning"]
    reasons: Words
    source: str


class RideAnswer(Shape):
    plan: PlanHead
    verdict: VerdictWord = Field(description="Of the swap. These numbers do not say that the board can be built.")
    as_asked: VerdictWord
    sentence: str = Field(description="The first of `lead`, or that too little is known.")
    boards: list[BoardWord] = Field(
        min_length=1, description="Those that are told, in order; `built` only where the answer changes something."
    )
    lead: Words = Field(description="What matters most, in a few sentences: differences first.")
    groups: list[FigureGroup] = Field(description="Of the figures, in their order, with their titles.")
    figures: list[RideFigure]
    track: TrackShape | None = Field(description="null where none was sent, or where no board can be ridden.")
    changes: list[RideChange] = Field(description="What would move a figure of the last board.")
    choices: Words = Field(description="What one would choose differently, in sentences.")
    stability: dict[BoardWord, StabilityShape] = Field(description="By board.")
    charts: list[ChartShape]
    cautions: Words = Field(description="Stand beside the figures; show them with it.")
    ranges: str = Field(description="What a range means here.")
    catalogue_revision: Revision
    rulebook_stamp: Stamp
    date: str

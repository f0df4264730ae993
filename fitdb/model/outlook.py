"""What a finished board will do: figures with their ranges, curves, and what is said of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitdb.model.finding import Range

BOARDS = ("before", "as_asked", "built")
"""As it stands, as the plan asks, and as it would be built: as asked with the changes of the best cure."""


@dataclass(frozen=True, slots=True)
class Mover:
    """A reading that moves a figure: its share, 0..1, of how far the figure spreads. assumed: nobody read it."""

    seat: str
    part: str
    attribute: str
    title: str
    share: float
    assumed: bool


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of a board. `value` is None where it is unknown, and `unknown` then says why and what to read.

    limited_by: what ends it, in words; empty where nothing does. movers: the readings that move it most, first.
    note: what else a reader has to know of this number, in one sentence. source: of the formula.
    """

    id: str
    title: str
    unit: str
    group: str
    value: Range | None
    limited_by: str = ""
    movers: tuple[Mover, ...] = ()
    unknown: str = ""
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Series:
    """A line of a chart. board: one of BOARDS. role: `main`, `resistance`, `limit` or `point`.

    x and y have the same length; low and high are the edges of y's range, of that length too, or empty.
    """

    name: str
    board: str
    role: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Chart:
    """Curves over one axis, for a plot or for whoever draws it. missing: why a chart has no line, else empty."""

    id: str
    title: str
    description: str
    x_title: str
    x_unit: str
    y_title: str
    y_unit: str
    series: tuple[Series, ...]
    missing: str = ""


@dataclass(frozen=True, slots=True)
class Stability:
    """How much care the steering asks for: points of common practice, the word for them, and every reason."""

    points: int
    word: str
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Outlook:
    """All figures of one board by id, its curves, and how it steers. sizes: nominal mm for drawings, by name."""

    board: str
    figures: Mapping[str, Figure]
    charts: tuple[Chart, ...]
    stability: Stability
    sizes: Mapping[str, Range]

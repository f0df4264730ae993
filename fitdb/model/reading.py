"""Readings: a number or a word that a piece carries, with its source. Unknown is a value, never 0 and never False."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.source import Source


@dataclass(frozen=True, slots=True)
class Number:
    """A measured or stated size: low <= nominal <= high in the canonical `unit`; `entered` is as it was typed.

    value_assumed: nobody read it, a default stands in. spread_assumed: somebody read the value, its spread
    comes from the source table.
    """

    low: float
    nominal: float
    high: float
    unit: str
    source: Source
    entered: str = ""
    value_assumed: bool = False
    spread_assumed: bool = False


@dataclass(frozen=True, slots=True)
class Designation:
    """A name that stands for a size ("8 mm bore", "608"): its span comes one-sided from the fit table `fit`."""

    low: float
    nominal: float
    high: float
    unit: str
    source: Source
    fit: str
    entered: str = ""
    value_assumed: bool = False
    spread_assumed: bool = False


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number without width: the set of values still possible (one, once somebody has counted)."""

    values: tuple[int, ...]
    nominal: int
    source: Source
    entered: str = ""
    value_assumed: bool = False
    unit: str = ""

    @property
    def low(self) -> float:
        return float(self.values[0])

    @property
    def high(self) -> float:
        return float(self.values[-1])


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a vocabulary: the set of values still possible; unknown = the whole vocabulary.

    open_vocabulary: values outside the list exist, so an unread word decides nothing.
    """

    possible: frozenset[str]
    source: Source
    entered: str = ""
    value_assumed: bool = False
    open_vocabulary: bool = False


@dataclass(frozen=True, slots=True)
class Outline:
    """A drawn shape in mm: `rings` are closed polygons (x, y); `holes` (x, y, diameter, slot length, slot angle deg).

    `spread` is the half width in mm by which every edge may be off.
    """

    rings: tuple[tuple[tuple[float, float], ...], ...]
    holes: tuple[tuple[float, float, float, float, float], ...]
    spread: float
    source: Source
    entered: str = ""
    value_assumed: bool = False


Sized = Number | Designation | Count
Reading = Number | Designation | Count | Word | Outline

"""Where a number comes from."""

from __future__ import annotations

from dataclasses import dataclass

SOURCE_KINDS = (
    "standard",
    "data_sheet",
    "caliper",
    "ruler",
    "meter",
    "level",
    "counted",
    "photo",
    "guess",
    "default",
)
STANDINGS = (
    "published",
    "derived",
    "from memory",
    "common practice, no source",
    "invented for the demo",
    "own reading",
)


@dataclass(frozen=True, slots=True)
class Source:
    """A named origin of readings or limits.

    `kind` decides the spread that a bare value gets (SOURCE_KINDS); `standing` says how far to trust it
    (STANDINGS).
    """

    id: str
    kind: str
    title: str
    standing: str


@dataclass(frozen=True, slots=True)
class Spread:
    """The spread that a source kind gives to a bare value of one spread family, in the family's unit or in percent."""

    source_kind: str
    family: str
    minus: float
    plus: float
    percent: bool
    source: str

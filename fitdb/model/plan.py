"""A question: which parts, in which seats, with which readings of one's own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitdb.model.part import Part


@dataclass(frozen=True, slots=True)
class OwnReading:
    """A reading taken by the person asking: `typed` says what of `role.attribute`; `path` where it was typed."""

    role: str
    attribute: str
    typed: object
    path: str


@dataclass(frozen=True, slots=True)
class FitQuestion:
    """Does this fit that? `parts` are (seat, seat row or empty; part) in the order named; `limits` overrides bounds."""

    parts: tuple[tuple[str, Part], ...]
    readings: tuple[OwnReading, ...] = ()
    limits: Mapping[str, float] = field(default_factory=dict)

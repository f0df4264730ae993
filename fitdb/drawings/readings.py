"""Nominal sizes of the pieces of a joint, for drawing; None where nobody has read them."""

from __future__ import annotations

from fitdb.model.joint import Joint
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word


def size_of(joint: Joint, role: str, attribute: str) -> float | None:
    reading = _reading(joint, role, attribute)
    return reading.nominal if isinstance(reading, Number | Designation) else None


def count_of(joint: Joint, role: str, attribute: str) -> int | None:
    reading = _reading(joint, role, attribute)
    return reading.nominal if isinstance(reading, Count) else None


def word_of(joint: Joint, role: str, attribute: str) -> str | None:
    """The word, if only one is still possible."""
    reading = _reading(joint, role, attribute)
    return next(iter(reading.possible)) if isinstance(reading, Word) and len(reading.possible) == 1 else None


def outline_of(joint: Joint, role: str, attribute: str) -> Outline | None:
    reading = _reading(joint, role, attribute)
    return reading if isinstance(reading, Outline) else None


def sizes_of(joint: Joint, role: str, attribute: str) -> tuple[float, ...]:
    """One size per piece of a list role; pieces that lack it are left out."""
    described = joint.line.role(role)
    port = described.port if described else ""
    found = [piece.part.offers(attribute, port)[1] for piece in joint.pieces.get(role, ())]
    return tuple(reading.nominal for reading in found if isinstance(reading, Number | Designation))


def _reading(joint: Joint, role: str, attribute: str) -> Reading | None:
    described = joint.line.role(role)
    pieces = joint.pieces.get(role, ())
    return pieces[0].part.offers(attribute, described.port if described else "")[1] if pieces else None

"""Pieces in seats, and the joints where they meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitdb.model.part import Part
from fitdb.model.pattern import Line


@dataclass(frozen=True, slots=True)
class Piece:
    """One physical thing on a board: a part in a seat. by_default: nobody named it, so it opens no joint."""

    seat: str
    part: Part
    by_default: bool = False


@dataclass(frozen=True, slots=True)
class Joint:
    """Where pieces meet. `pieces` maps each role of the line to the pieces that fill it, in order; maybe none."""

    id: str
    line: Line
    pieces: Mapping[str, tuple[Piece, ...]]
    constants: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class NotAsked:
    """A line that made no joint because a role is empty, and the classes that would fill it."""

    line: Line
    wanted: tuple[tuple[str, tuple[str, ...]], ...]

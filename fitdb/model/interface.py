"""What a part offers at one place: a bore, an axle, a core shape, a hole pattern, a cavity, a plug, a rail."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitdb.model.reading import Reading


@dataclass(frozen=True, slots=True)
class InterfaceKind:
    """A kind of meeting place, such as `wheel_core`; its attributes are rows of a table."""

    id: str
    title: str


@dataclass(frozen=True, slots=True)
class Interface:
    """One shape shared by many parts. Equal `signature` means the same interface."""

    id: str
    kind: str
    title: str
    readings: Mapping[str, Reading]
    signature: str
    version: int = 1

"""What is asked: parts that should fit each other, or a swap on a whole board."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitdb.model.joint import Piece
from fitdb.model.part import Part


@dataclass(frozen=True, slots=True)
class OwnReading:
    """A reading taken by the person asking: `typed` says what of `role.attribute`; `path` where it was typed.

    port: where on the part, for ROLE.PORT.ATTRIBUTE; empty when only the attribute was named.
    """

    role: str
    attribute: str
    typed: object
    path: str
    port: str = ""


@dataclass(frozen=True, slots=True)
class FitQuestion:
    """Does this fit that? `parts` are (seat, seat row or empty; part) in the order named; `limits` overrides bounds."""

    parts: tuple[tuple[str, Part], ...]
    readings: tuple[OwnReading, ...] = ()
    limits: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class StockItem:
    """A part that a remedy may draw on: `where` it lies (shelf, stock, donor ..., catalogue) and what it costs.

    money: mu, about one euro or dollar; 0 for what is owned, None where only the remedy's rough figure is known.
    """

    part: Part
    where: str
    money: float | None = None

    @property
    def owned(self) -> bool:
        return self.where not in ("catalogue", "stock")


@dataclass(frozen=True, slots=True)
class Unit:
    """What is moved from board to board in one piece: the names of its seats, and the minutes to take it off."""

    id: str
    title: str
    seats: tuple[str, ...]
    minutes: float
    source: str


@dataclass(frozen=True, slots=True)
class SwapPlan:
    """A board as it stands and as it is wanted, and what may be done to make it fit.

    before: the pieces of the board as it stands; empty when it is to be built. after: as asked. A kept piece is the
    same piece in both. untouchable: seats whose parts must be neither altered nor exchanged. tools: those owned, None
    when nothing was said. buys: whether the catalogue may be drawn on beside the plan's own stock. most_moves: how many
    remedies one answer may combine.
    """

    id: str
    title: str
    pattern: str
    before: tuple[Piece, ...]
    after: tuple[Piece, ...]
    stock: tuple[StockItem, ...] = ()
    buys: bool = True
    untouchable: frozenset[str] = frozenset()
    tools: frozenset[str] | None = None
    readings: tuple[OwnReading, ...] = ()
    limits: Mapping[str, float] = field(default_factory=dict)
    most_moves: int = 9
    donors: Mapping[str, tuple[Piece, ...]] = field(default_factory=dict)

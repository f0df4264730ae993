"""A remedy is data: one move and its stock. What it cures and breaks is found by judging, never declared."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.joint import Piece

MOVES = ("insert", "substitute", "alter", "set")
WHOLE = "*"
TOGETHER = ("end", "board", "alone")


@dataclass(frozen=True, slots=True)
class Remedy:
    """insert into a seat · substitute at a seat · alter an attribute · set an attribute.

    `stock` is the part class (insert, substitute) that fills `seat`; `attribute` is what alter and set change.
    gives_up says in words what is lost; minutes and money (mu) are rough figures of common practice.
    together: like seats that move with it: those of the same `end`, of the whole `board`, or none (`alone`).
    tool: what it takes beyond hex keys and sockets, or empty. only: the words that set and alter may choose (empty: any
    other), `up` or `down` where a size can only be made larger (bored) or smaller (filed), or for an insert the seats
    beside it that have to be filled first.
    """

    id: str
    title: str
    move: str
    seat: str
    stock: str
    attribute: str
    reversible: bool
    gives_up: str
    minutes: float
    money: float
    source: str
    together: str = "end"
    tool: str = ""
    only: tuple[str, ...] = ()


@dataclass(frozen=True, order=True, slots=True)
class Cost:
    """What a plan of remedies costs, in the order in which it counts.

    new_undecided: findings that became undecided. shortfall: how far the wishes are missed, as a share of their
    targets. thin: findings that now hold without their comfort. exchanges: parts whose exchange makes it another
    plan; none among remedies. gives_up: remedies that give something up.
    minutes and money (mu) are rough figures.
    """

    new_undecided: int = 0
    shortfall: float = 0.0
    thin: int = 0
    exchanges: int = 0
    irreversible: int = 0
    gives_up: int = 0
    count: int = 0
    minutes: float = 0.0
    money: float = 0.0


@dataclass(frozen=True, slots=True)
class Move:
    """One remedy as it would be done here: which pieces stand where afterwards.

    what: the size or setting, with its unit ("280 mm belt", "pack current 30 A to 20 A"). where: shelf, stock,
    catalogue; empty where nothing is put in. another_plan: it exchanges a part that makes it another plan.
    replaces_wanted: it takes away a part that was asked for.
    """

    remedy: Remedy
    pieces: tuple[Piece, ...]
    what: str
    where: str = ""
    minutes: float = 0.0
    money: float = 0.0
    replaces_wanted: bool = False
    another_plan: bool = False
    step: float = 0.0

    @property
    def seats(self) -> tuple[str, ...]:
        return tuple(piece.seat for piece in self.pieces)

    @property
    def marks(self) -> frozenset[tuple[str, str]]:
        """What it changes, (seat, attribute): one attribute where something is altered or set, else the whole seat."""
        changed = self.remedy.attribute if self.remedy.move in ("alter", "set") else WHOLE
        return frozenset((seat, changed) for seat in self.seats)

    @property
    def gives_up(self) -> str:
        return "; ".join(
            text
            for text in (
                self.remedy.gives_up,
                "not the part that was asked for" if self.replaces_wanted else "",
            )
            if text
        )

    def cost(self) -> Cost:
        """What this move adds to the cost of a plan."""
        return Cost(
            exchanges=int(self.another_plan),
            irreversible=int(not self.remedy.reversible),
            gives_up=int(bool(self.remedy.gives_up)) + int(self.replaces_wanted),
            count=1,
            minutes=self.minutes,
            money=self.money,
        )


@dataclass(frozen=True, slots=True)
class Cure:
    """A plan of remedies that leaves nothing failing: its moves, each with the finding it was chosen for."""

    moves: tuple[Move, ...]
    chosen_for: tuple[str, ...]
    cost: Cost

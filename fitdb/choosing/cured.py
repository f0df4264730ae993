"""Whether a part that clashes with what is chosen fits with remedies: the search for them, once per part of a page."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from fitdb.board import touched
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.remedy import Move
from fitdb.model.rule import Rulebook
from fitdb.offers import StockOf
from fitdb.steps.explain.swap_words import move_told
from fitdb.steps.mend import mend
from fitdb.swap import judge_of, verdict_of
from fitdb.workshop import BoardWorkshop

MOST_PLANS = 40

Late = Callable[[], bool]


@dataclass(frozen=True, slots=True)
class Cured:
    """What was found for one part. asked: something that is chosen clashes with it, so that a remedy could be asked.

    verdict: `fits` or `measure` of what the exchange touches, with the remedies; empty where none was found.
    """

    asked: bool
    verdict: str = ""
    moves: tuple[Move, ...] = ()
    seated: Mapping[str, Part] | None = None


class Remedies:
    """Remedies for parts in the seats asked about, on the board as it is chosen."""

    def __init__(self, plan: SwapPlan, seats: tuple[str, ...], book: Book, rules: Rulebook, stock_of: StockOf) -> None:
        self.plan = replace(plan, before=plan.after)
        self.seats, self.stock_of = seats, stock_of
        self.judge = judge_of(self.plan, book, rules)
        self.stood = self.judge.judge(self.plan.before) if self.plan.before else None

    def of(self, part: Part, late: Late) -> Cured:
        """What cures the clash of this part, if anything does before the time is up."""
        others = [piece for piece in self.plan.before if piece.seat not in self.seats]
        after = (*others, *(Piece(seat, part) for seat in self.seats))
        asked = self.judge.judge(after)
        if verdict_of(touched(asked, self.stood)) != "clash":
            return Cured(False)
        plan = replace(self.plan, after=after)
        shop = BoardWorkshop(self.judge, plan, asked, self.stood, self.stock_of, expired=late)
        found = mend(asked, shop.shop(), most_moves=plan.most_moves, most_nodes=MOST_PLANS, expired=late, prove_nodes=0)
        for cure, board in found.cures:
            seated = {seat: piece.part for seat, piece in board.seated.items()}
            if cure.moves and all(seated[seat].id == part.id for seat in self.seats):
                return Cured(True, verdict_of(touched(board, self.stood)), cure.moves, seated)
        return Cured(found.complete)


def cured_document(cured: Cured) -> dict[str, Any]:
    """The remedies as plain data, with what they cost."""
    does = "It fits" if cured.verdict == "fits" else "Readings are left to take, but nothing clashes,"
    return {
        "verdict": "fits_with" if cured.verdict == "fits" else "measure",
        "sentence": f"{does} with: {' '.join(move_told(move) for move in cured.moves)}",
        "moves": [
            {
                "remedy": move.remedy.id,
                "move": move.remedy.move,
                "sentence": move_told(move),
                "seats": list(move.seats),
                "part": _part_of(move),
                "reversible": move.remedy.reversible,
                "gives_up": move.remedy.gives_up,
                "minutes": move.minutes,
                "money_mu": move.money,
            }
            for move in cured.moves
        ],
        "minutes": sum(move.minutes for move in cured.moves),
        "money_mu": sum(move.money for move in cured.moves),
    }


def _part_of(move: Move) -> str:
    """The part that is put in; empty where something is altered or set."""
    return move.pieces[0].part.id if move.remedy.move in ("insert", "substitute") and move.pieces else ""

"""A whole board as a plan document that can be opened, judged and changed like any other.

The board is told as a new one: everything stands under `on`, so that every joint of it is asked. What somebody wrote
out or measured on a part of their own stays as it was written.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from fitdb.intake.seat_names import seats_named
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.remedy import Move

KEPT = ("rider", "route", "wish", "shelf", "stock", "buy", "tools", "limits", "readings", "most_moves")


def entered(
    document: Mapping[str, Any],
    pattern: Pattern,
    chosen: Mapping[str, Part],
    board: Mapping[str, str],
    own: str,
    moves: Iterable[Move] = (),
) -> dict[str, Any]:
    """The plan of a board.

    document: the plan that was asked about. chosen: its parts by seat. board: part ids by seat, those of the chosen
    seats included. own: the part it is for. moves: remedies whose alterations stand under `readings`.
    """
    kept = {key: document[key] for key in KEPT if document.get(key) is not None}
    stated = {key for key in ("rider", "route", "wish") if key in kept}
    written = dict(_written_out(document, pattern, chosen, board))
    told = {seat for name in written for seat in seats_named(name, pattern)}
    on: dict[str, Any] = dict(written)
    on.update((seat, part) for seat, part in board.items() if seat not in told and seat not in stated)
    plan = {"plan": f"with-{own}"[:80], "title": f"A whole board with {own}", "layout": pattern.id, "on": on, **kept}
    readings = _readings(plan.get("readings"), pattern, board, moves)
    if readings:
        plan["readings"] = readings
    else:
        plan.pop("readings", None)
    return plan


def _written_out(
    document: Mapping[str, Any], pattern: Pattern, chosen: Mapping[str, Part], board: Mapping[str, str]
) -> Iterable[tuple[str, Any]]:
    """Entries whose part is described in place and still stands there; where it stands in some of the seats alone, one
    entry for each of these. What has an id of its own is written once and named elsewhere."""
    named: set[str] = set()
    for section in ("board", "on"):
        entries = document.get(section)
        for name, value in entries.items() if isinstance(entries, dict) else ():
            seats = seats_named(str(name), pattern)
            several = value if isinstance(value, list) else [value] * len(seats)
            if not any(isinstance(one, dict) for one in several):
                continue
            stands = [seat for seat in seats if seat in chosen and board.get(seat) == chosen[seat].id]
            if stands and set(stands) == set(seats) & set(board):
                yield str(name), value
                continue
            for seat, one in zip(seats, several, strict=False):
                if seat in stands and isinstance(one, dict) and str(one.get("id")) not in named:
                    yield seat, one
                    named |= {str(one["id"])} if "id" in one else set()


def _readings(typed: object, pattern: Pattern, board: Mapping[str, str], moves: Iterable[Move]) -> dict[str, Any]:
    """The plan's own readings whose seats are filled still, and what the remedies alter or set."""
    found: dict[str, Any] = {}
    for name, value in typed.items() if isinstance(typed, dict) else ():
        seats = seats_named(str(name).partition(".")[0], pattern)
        if not seats or set(seats) & set(board):
            found[str(name)] = value
    for move in moves:
        if move.remedy.move in ("alter", "set"):
            for piece in move.pieces:
                reading = piece.part.offers(move.remedy.attribute)[1]
                if reading is not None:
                    found[f"{piece.seat}.{move.remedy.attribute}"] = reading.entered
    return found

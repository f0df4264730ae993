"""Where to cut between two boards: which unit to move, with the joints it makes and the minutes to take it off.

For every unit (whole truck, hanger with its drive, wheels alone) of a donor that holds what the plan takes from it: the
board with that unit in place of its own, judged. Joints between the unit and the rest are those that the move
makes; fewer, and none that clash, is the better cut.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitdb.board import BoardJudge, Judged, with_moved
from fitdb.model.joint import Piece
from fitdb.model.plan import SwapPlan, Unit
from fitdb.model.verdict import CutLine, JointVerdict

ENDS = ("front", "rear")


def cut_lines(judge: BoardJudge, plan: SwapPlan, stood: Judged | None) -> tuple[CutLine, ...]:
    """The units that could be moved instead of what was asked, best first; none where nothing comes from a donor."""
    if stood is None:
        return ()
    found = []
    for donor, pieces in plan.donors.items():
        given = {piece.seat: piece for piece in pieces}
        own = {piece.seat: piece.part.id for piece in plan.before}
        taken = {
            piece.seat
            for piece in plan.after
            if _same(piece, given.get(piece.seat)) and own.get(piece.seat) != piece.part.id
        }
        for end in ENDS:
            asked = {seat for seat in taken if seat.startswith(f"{end}_")}
            for unit in judge.book.units if asked else ():
                seats = _seats_of(unit, end, judge)
                if asked <= seats:
                    found.append(_cut(judge, unit, donor, end, seats, given, stood))
    found.sort(key=lambda cut: (len(cut.clashing), cut.undecided, cut.joints, cut.minutes))
    return tuple(found)


def _cut(
    judge: BoardJudge,
    unit: Unit,
    donor: str,
    end: str,
    seats: set[str],
    given: Mapping[str, Piece],
    stood: Judged,
) -> CutLine:
    """The board as it stood with the unit of the donor in place of its own."""
    moved = {seat: given.get(seat) for seat in seats}
    whole = judge.judge(with_moved(stood.seated, moved).values())
    crossing = [joint for joint in whole.joints if joint.verdict != "not_asked" and _crosses(joint, seats)]
    return CutLine(
        unit=unit.id,
        title=unit.title,
        donor=donor,
        end=end,
        seats=tuple(seat for seat in seats if given.get(seat) is not None),
        joints=len(crossing),
        clashing=tuple(joint.joint.line.title for joint in crossing if joint.verdict == "clash"),
        undecided=sum(joint.verdict == "measure" for joint in crossing),
        minutes=unit.minutes,
        source=unit.source,
    )


def _crosses(joint: JointVerdict, seats: set[str]) -> bool:
    inside = {piece.seat in seats for pieces in joint.joint.pieces.values() for piece in pieces}
    return len(inside) == 2


def _seats_of(unit: Unit, end: str, judge: BoardJudge) -> set[str]:
    return {
        seat.id
        for seat in judge.pattern.seats.values()
        if seat.id.startswith(f"{end}_") and seat.names and seat.names[0] in unit.seats
    }


def _same(piece: Piece, other: Piece | None) -> bool:
    return other is not None and piece.part is other.part

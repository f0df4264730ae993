"""Front door: which boards of a layout could be built from what is owned, judged and ranked.

Every row of seats takes one of the owned parts that fit it. What stands on a board or a donor is there as often as it
stands there; what lies on the shelf lies there as a set, for as many seats as take it. What nobody owns stays empty
and is named. Boards grow row by row, and only the best so far are carried on, so the list is the best that were
found, not a proof.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from fitdb.board import BoardJudge, Judged
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Seat
from fitdb.model.plan import SwapPlan
from fitdb.model.rule import Rulebook
from fitdb.rules import rulebook
from fitdb.steps.explain import Display, sentence

Clock = Callable[[], float]
CARRIED_ON = 24
TOLD = 5


def ask_shelf(url: str | None, file: Path, display: Display) -> dict[str, Any]:
    """The boards that the shelf and donors of a plan in a file give."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, file)
    finally:
        engine.dispose()
    return shelf_builds(plan, book, rulebook(), display)


def shelf_builds(
    plan: SwapPlan, book: Book, rules: Rulebook, display: Display, seconds: float = 8.0, clock: Clock = time.monotonic
) -> dict[str, Any]:
    """Boards of the plan's layout from what is owned, best first, as one document.

    When `seconds` are over only the best board so far is carried on, and the document says `complete: false`.
    """
    ends, in_time = clock() + seconds, True
    pattern = book.patterns[plan.pattern]
    judge = BoardJudge(pattern, book, rules, {**book.limits, **plan.limits})
    owned = _owned(plan)
    boards = [judge.judge(piece for piece in plan.after if piece.seat in ("rider", "route", "wish"))]
    stands, left = _stands(plan, judge), _how_many(plan)
    asked: list[str] = []
    for base, seats in _rows(judge, {base for bases in stands.values() for base in bases}):
        parts = [
            part
            for part in owned
            if (base in stands[part.id] if part.id in stands else _fits_seat(judge, seats[0], part))
        ]
        asked += seats
        if not parts:
            continue
        if clock() > ends:
            boards, in_time = boards[:1], False
        grown = [
            judge.again(board, {seat: Piece(seat, part) for seat in seats[: left.get(part.id, len(seats))]})
            for board in boards
            for part in parts
        ]
        boards = sorted(grown, key=_rank)[:CARRIED_ON]
    told = [_board(judge, board, asked, display) for board in sorted(boards, key=_rank)[:TOLD] if len(board.seated) > 1]
    best = told[0]["verdict"] if told else ""
    found = f"{len(told)} boards of {pattern.title} from {len(owned)} owned parts, best first."
    none = f"Nothing that is owned goes onto {pattern.title}."
    return {
        "layout": plan.pattern,
        "owned": [part.id for part in owned],
        "boards": told,
        "best": best,
        "complete": in_time,
        "sentence": found if told else none,
        "catalogue_revision": book.revision,
        "rulebook_stamp": rules.stamp,
    }


def _owned(plan: SwapPlan) -> tuple[Part, ...]:
    """What lies on the shelf and stands on donors and on the board itself, each part once."""
    parts = [piece.part for piece in plan.before] + [item.part for item in plan.stock if item.owned]
    return tuple({part.id: part for part in parts}.values())


def _stands(plan: SwapPlan, judge: BoardJudge) -> dict[str, set[str]]:
    """The seats, without their place, in which an owned part stands on a board now; what lies on the shelf has none."""
    found: dict[str, set[str]] = {}
    for piece in (*plan.before, *(one for pieces in plan.donors.values() for one in pieces)):
        seat = judge.pattern.seats[piece.seat]
        found.setdefault(piece.part.id, set()).add(seat.names[0] if seat.names else seat.id)
    return found


def _how_many(plan: SwapPlan) -> dict[str, int]:
    """How often a part stands on the board and its donors; what also lies on the shelf is there for every seat."""
    standing = [piece.part.id for piece in plan.before]
    standing += [piece.part.id for pieces in plan.donors.values() for piece in pieces]
    on_the_shelf = {item.part.id for item in plan.stock if item.where == "shelf"}
    return {own: count for own, count in Counter(standing).items() if own not in on_the_shelf}


def _rows(judge: BoardJudge, stood_in: set[str]) -> list[tuple[str, tuple[str, ...]]]:
    """Seats that take one part together: all wheels, all belts. Of a row's several seats at a place only the first,
    and none that a remedy would fill, unless an owned part stands in it on some board."""
    adapters = {remedy.seat for remedy in judge.book.remedies if remedy.move == "insert"}
    found: dict[str, list[Seat]] = {}
    for seat in judge.pattern.seats.values():
        found.setdefault(seat.names[0] if seat.names else seat.id, []).append(seat)
    first: dict[str, tuple[int, str]] = {}
    for base, seats in found.items():
        order = (min(seat.order for seat in seats), base)
        row = seats[0].row
        first[row] = min(order, first.get(row, order))
    return [
        (base, tuple(seat.id for seat in seats))
        for base, seats in found.items()
        if base in stood_in or (base not in adapters and first[seats[0].row][1] == base)
    ]


def _fits_seat(judge: BoardJudge, seat: str, part: Part) -> bool:
    """Whether the seat is of the part's own kind: a truck, which is like a hanger, is not put in a hanger's seat."""
    line = judge.book.table.line_of(part.part_class)

    def distance(classes: tuple[str, ...]) -> int:
        return min((line.index(own) for own in classes if own in line), default=len(line))

    here = distance(judge.pattern.seats[seat].classes)
    return here < len(line) and here == min(distance(other.classes) for other in judge.pattern.seats.values())


def _findings(board: Judged, state: str) -> list[Finding]:
    return [finding for joint in board.joints for finding in joint.findings if finding.state == state]


def _rank(board: Judged) -> tuple[float, ...]:
    fails, undecided = _findings(board, "fails"), _findings(board, "undecided")
    worst = sum(finding.rule.severity for finding in fails)
    return (worst, len(fails), len(undecided), -len(board.seated))


def _board(judge: BoardJudge, board: Judged, asked: Sequence[str], display: Display) -> dict[str, Any]:
    fails, undecided = _findings(board, "fails"), _findings(board, "undecided")
    verdict = "clash" if fails else "measure" if undecided else "fits"
    empty = [judge.pattern.seats[seat].title for seat in asked if seat not in board.seated]
    deciding = max(fails or undecided, key=lambda finding: finding.rule.severity, default=None)
    told = sentence(deciding, display) if deciding else "These numbers do not clash."
    return {
        "verdict": verdict,
        "sentence": told,
        "fails": len(fails),
        "undecided": len(undecided),
        "parts": {seat: piece.part.id for seat, piece in board.seated.items()},
        "empty": empty,
    }

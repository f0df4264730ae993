"""Place: put the named parts into the seats of a pattern."""

from __future__ import annotations

from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern, Seat
from fitdb.model.problems import Malformed, Problem


def place(named: tuple[tuple[str, Part], ...], pattern: Pattern, table: AttributeTable) -> tuple[Piece, ...]:
    """One piece per named part. `named` pairs are (seat, seat row or empty; part), in the order the person gave.

    Raises Malformed with every fault: an unknown seat, a class that the seat does not take, a seat named twice, a
    part that could go into several seats.
    """
    pieces: dict[str, Piece] = {}
    problems: list[Problem] = []
    waiting = []
    for index, (wish, part) in enumerate(named):
        path = f"/parts/{index}"
        if not wish:
            waiting.append((path, part))
        elif wish in pattern.seats:
            seat = pattern.seats[wish]
            if _distance(seat, part, table) is None:
                problems.append(_wrong_class(seat, part, path))
            elif wish in pieces:
                problems.append(Problem("seat_taken", f"two parts are named for the seat {wish}.", path))
            else:
                pieces[wish] = Piece(wish, part)
        else:
            seats = [seat for seat in pattern.seats.values() if seat.row == wish]
            if seats:
                waiting.append((path, part))
            else:
                known = ", ".join(sorted({seat.row for seat in pattern.seats.values()} | set(pattern.seats)))
                problems.append(Problem("unknown_role", f"there is no role {wish!r}.", path, hint=f"Roles: {known}."))
    for path, part in waiting:
        seat_or_problem = _free_seat(part, pattern, table, pieces, path)
        if isinstance(seat_or_problem, Problem):
            problems.append(seat_or_problem)
        else:
            pieces[seat_or_problem.id] = Piece(seat_or_problem.id, part)
    if problems:
        raise Malformed(problems)
    return tuple(pieces[seat] for seat in pattern.seats if seat in pieces)


def _free_seat(
    part: Part, pattern: Pattern, table: AttributeTable, pieces: dict[str, Piece], path: str
) -> Seat | Problem:
    reach = {seat.id: _distance(seat, part, table) for seat in pattern.seats.values()}
    near = min((distance for distance in reach.values() if distance is not None), default=None)
    if near is None:
        return Problem(
            "no_seat",
            f"no seat takes a {part.part_class} ({part.id}).",
            path,
            hint="Name its role, or add a seat for the class.",
        )
    seats = [pattern.seats[seat] for seat, distance in reach.items() if distance == near]
    rows = {seat.row for seat in seats}
    if len(rows) > 1:
        names = ", ".join(sorted(seat.id for seat in seats))
        return Problem(
            "which_role",
            f"{part.id} could stand in several roles.",
            path,
            hint=f"Write ROLE={part.id}; roles: {names}.",
        )
    free = [seat for seat in sorted(seats, key=lambda seat: seat.order) if seat.id not in pieces]
    if not free:
        return Problem("seat_taken", f"there is no seat left for {part.id}: {rows.pop()} is full.", path)
    return free[0]


def _distance(seat: Seat, part: Part, table: AttributeTable) -> int | None:
    """How far up the part's line of likeness the seat's class stands; None if the seat does not take it."""
    line = table.line_of(part.part_class)
    steps = [line.index(name) for name in seat.classes if name in line]
    return min(steps, default=None)


def _wrong_class(seat: Seat, part: Part, path: str) -> Problem:
    takes = ", ".join(seat.classes)
    return Problem("wrong_class", f"{part.id} is a {part.part_class}; the seat {seat.id} takes: {takes}.", path)

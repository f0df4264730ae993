"""Join: find where the placed pieces meet, line by line of the pattern."""

from __future__ import annotations

import itertools
from collections.abc import Mapping

from fitdb.model.joint import Joint, NotAsked, Piece
from fitdb.model.pattern import Line, LineRole, Pattern


def join(pieces: tuple[Piece, ...], pattern: Pattern) -> tuple[tuple[Joint, ...], tuple[NotAsked, ...]]:
    """The joints of a pattern, and the lines that made none because a single role is empty.

    A line none of whose roles is filled is left out: it has nothing to do with these pieces. A joint all of whose
    pieces are defaults is not opened.
    """
    seated = {piece.seat: piece for piece in pieces}
    joints: list[Joint] = []
    not_asked: list[NotAsked] = []
    for line in pattern.lines:
        made, left = joints_of(line, seated, pattern)
        joints += made
        not_asked += [left] if left is not None else []
    return tuple(joints), tuple(not_asked)


def joints_of(line: Line, seated: Mapping[str, Piece], pattern: Pattern) -> tuple[tuple[Joint, ...], NotAsked | None]:
    """The joints of one line, or why it made none; neither where it has nothing to do with these pieces."""
    made, empty = _joints_of(line, seated)
    opened = tuple(joint for joint in made if any(not one.by_default for some in joint.pieces.values() for one in some))
    if made or not empty:
        return opened, None
    return (), NotAsked(line, tuple((role.role, _classes(role, pattern)) for role in empty))


def _joints_of(line: Line, seated: Mapping[str, Piece]) -> tuple[list[Joint], list[LineRole]]:
    filled = {role.role: _fill(role, seated) for role in line.roles}
    if line.expansion == "chain":
        return _chain(line, seated, filled)
    empty = [role for role in line.roles if role.how == "single" and not filled[role.role]]
    if empty:
        meets = any(filled[role.role] for role in line.roles if role.how == "single")
        return [], empty if meets else []
    if line.expansion == "each":
        first = line.roles[0].role
        here = [seated[seat] for seat in line.roles[0].seats if seat in seated]
        return [Joint(f"{line.id}@{piece.seat}", line, {**filled, first: (piece,)}, {}) for piece in here], []
    if line.expansion == "over":
        return [Joint(f"{line.id}#{n}", line, filled, one) for n, one in enumerate(line.constants)], []
    return [Joint(line.id, line, filled, {})], []


def _chain(
    line: Line, seated: Mapping[str, Piece], filled: dict[str, tuple[Piece, ...]]
) -> tuple[list[Joint], list[LineRole]]:
    """One joint per neighbouring pair of occupied seats; an inserted adapter splits a pair in two."""
    near, far = line.roles[0], line.roles[1]
    order = [seat for seat in line.chain_seats if seat in seated]
    rest = [role for role in line.roles[2:] if role.how == "single" and not filled[role.role]]
    if len(order) < 2 or rest:
        ends = [role for role in (near, far) if not filled[role.role]]
        return [], ends + rest if order and len(ends) < 2 else []
    made = []
    for first, second in itertools.pairwise(order):
        pieces = {**filled, near.role: (seated[first],), far.role: (seated[second],)}
        name = line.id if len(order) == 2 else f"{line.id}@{first}-{second}"
        made.append(Joint(name, line, pieces, {}))
    return made, []


def _fill(role: LineRole, seated: Mapping[str, Piece]) -> tuple[Piece, ...]:
    pieces = tuple(seated[seat] for seat in role.seats if seat in seated)
    return pieces if role.how == "list" else pieces[:1]


def _classes(role: LineRole, pattern: Pattern) -> tuple[str, ...]:
    seats = [pattern.seats[seat.removeprefix("before:")] for seat in role.seats]
    return tuple(dict.fromkeys(name for seat in seats for name in seat.classes))

"""Join: find where the placed pieces meet, line by line of the pattern."""

from __future__ import annotations

import itertools

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
        made, empty = _joints_of(line, seated)
        for joint in made:
            if any(not piece.by_default for filled in joint.pieces.values() for piece in filled):
                joints.append(joint)
        if not made and empty:
            wanted = tuple((role.role, _classes(role, pattern)) for role in empty)
            not_asked.append(NotAsked(line, wanted))
    return tuple(joints), tuple(not_asked)


def _joints_of(line: Line, seated: dict[str, Piece]) -> tuple[list[Joint], list[LineRole]]:
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
    line: Line, seated: dict[str, Piece], filled: dict[str, tuple[Piece, ...]]
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


def _fill(role: LineRole, seated: dict[str, Piece]) -> tuple[Piece, ...]:
    pieces = tuple(seated[seat] for seat in role.seats if seat in seated)
    return pieces if role.how == "list" else pieces[:1]


def _classes(role: LineRole, pattern: Pattern) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for seat in role.seats for name in pattern.seats[seat].classes))

"""A board layout as data: its seats and its joint lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Seat:
    """A place on the board for pieces of the listed classes. Seats of one `row` are filled in `order`.

    names: all that a person may call it: `wheel`, `rear_wheel` and `left_wheel` besides `rear_left_wheel`.
    """

    id: str
    row: str
    order: int
    classes: tuple[str, ...]
    title: str
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LineRole:
    """A role of a joint line: the seat (or ordered seats) that fill it and the port it looks at.

    how: `single` (an empty one makes no joint), `list` (0..n pieces, read as `role*`), or `if_present`
    (drawn on by some rules; an empty one leaves those rules not asked).
    """

    role: str
    seats: tuple[str, ...]
    how: str
    port: str


@dataclass(frozen=True, slots=True)
class Line:
    """A joint line: which kind of joint, its number in the trade's list, and its roles.

    expansion: `` (one joint), `chain` (one joint per neighbouring pair of occupied seats of `chain_seats`, the
    pair taking the first two roles), `each` (one joint per occupied seat of the first role) or `over` (one per
    entry of `constants`).
    """

    id: str
    kind: str
    joint: str
    title: str
    roles: tuple[LineRole, ...]
    expansion: str = ""
    chain_seats: tuple[str, ...] = ()
    constants: tuple[Mapping[str, float], ...] = ()

    def role(self, name: str) -> LineRole | None:
        return next((role for role in self.roles if role.role == name), None)


@dataclass(frozen=True, slots=True)
class Pattern:
    """Seats and lines of one board layout. `loose` is parts on the table, no board yet."""

    id: str
    title: str
    seats: Mapping[str, Seat]
    lines: tuple[Line, ...]

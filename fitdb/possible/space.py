"""All whole boards of a layout over some parts: groups of seats, parts as signatures, and the tables they meet in.

A signature is all that any rule of the layout can see of a part in a seat. Parts of one signature have the same answer,
so the search works on signatures and the parts are told at the end.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fitdb.board import BEFORE
from fitdb.model.part import Part
from fitdb.model.pattern import Line
from fitdb.model.rule import Rule
from fitdb.possible.questions import Scope
from fitdb.possible.snapshot import Snapshot
from fitdb.possible.tables import Classes, Table
from fitdb.possible.whole import Group

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Meeting:
    """A table and the groups that fill its positions. title: of the joint line, for what is told."""

    table: Table
    groups: tuple[int, ...]
    line: Line
    rule: Rule


class Space:
    """The whole boards over `groups`, each with the parts that may stand in it. A board is one signature per group."""

    def __init__(self, snapshot: Snapshot, groups: Sequence[Group], parts: Sequence[Sequence[Part]]) -> None:
        import numpy as np

        self.snapshot, self.groups = snapshot, tuple(groups)
        self.of_seat = {seat: at for at, group in enumerate(groups) for seat in group.seats}
        choices: list[list[Part | None]] = [
            [*([None] if group.may_be_empty or not some else []), *some]
            for group, some in zip(groups, parts, strict=True)
        ]
        self.meetings = tuple(self._meetings(choices))
        self.signatures: list[list[tuple[Part | None, ...]]] = []
        self.columns: list[dict[int, NDArray[np.intp]]] = [
            {} for _ in groups
        ]  # by group, by meeting: class per signature
        touching: list[list[tuple[int, int]]] = [[] for _ in groups]
        for number, meeting in enumerate(self.meetings):
            for at, group in enumerate(meeting.groups):
                touching[group].append((number, at))
        self.touching = tuple(tuple(dict.fromkeys(number for number, _ in some)) for some in touching)
        for group, some in enumerate(choices):
            columns = self._columns(some, [self.meetings[number].table.classes[at] for number, at in touching[group]])
            found: dict[tuple[int, ...], list[Part | None]] = {}
            for part, seen in zip(some, zip(*columns, strict=True) if columns else [()] * len(some), strict=True):
                found.setdefault(seen, []).append(part)
            self.signatures.append([tuple(alike) for alike in found.values()])
            by_class = np.array(list(found), dtype=np.intp).reshape(len(found), len(touching[group]))
            for column, (number, _) in enumerate(touching[group]):
                self.columns[group][number] = by_class[:, column]
        # By group and meeting every class that there is, and which of them a signature has.
        self.every_class: list[dict[int, tuple[NDArray[np.intp], NDArray[np.intp]]]] = [
            {number: np.unique(column, return_inverse=True) for number, column in some.items()} for some in self.columns
        ]
        self._classes = [
            [(group, self.columns[group][number].tolist()) for group in meeting.groups]
            for number, meeting in enumerate(self.meetings)
        ]
        self.signature_of = [
            {id(part): at for at, alike in enumerate(some) for part in alike} for some in self.signatures
        ]

    # --- boards --------------------------------------------------------------------------------------------

    def seated(self, board: Sequence[int], keep: Mapping[int, Part | None] | None = None) -> dict[str, Part]:
        """The parts of a board by seat; of a signature its first part, or the one that `keep` names for the group."""
        found: dict[str, Part] = {}
        for at, (group, signature) in enumerate(zip(self.groups, board, strict=True)):
            part = self.signatures[at][signature][0]
            if keep is not None and at in keep:
                part = keep[at]
            if part is not None:
                found.update(dict.fromkeys(group.seats, part))
        return found

    def board(self, seated: Mapping[str, Part]) -> tuple[int, ...] | None:
        """The board with these parts by seat; None where they make none of this space."""
        found = []
        for at, group in enumerate(self.groups):
            parts = {id(seated.get(seat)): seated.get(seat) for seat in group.seats}
            signature = self.signature_of[at].get(next(iter(parts))) if len(parts) == 1 else None
            if signature is None:
                return None
            found.append(signature)
        return tuple(found)

    def cell(self, number: int, board: Sequence[int]) -> tuple[int, ...]:
        """The cell of a meeting's table at which a board stands."""
        return tuple([own[board[group]] for group, own in self._classes[number]])

    def known(self, number: int, boards: NDArray[np.intp]) -> NDArray[np.int8]:
        """What is known of one meeting on each board, without asking."""
        import numpy as np

        meeting = self.meetings[number]
        found = meeting.table.known.of_many([self.columns[own][number][boards[:, own]] for own in meeting.groups])
        return found if meeting.groups else np.full(len(boards), found, dtype=np.int8)

    def _columns(self, parts: Sequence[Part | None], positions: Sequence[Classes]) -> list[list[int]]:
        """By position of a table the class of each part; each part is looked at once for all of them."""
        looks = tuple(dict.fromkeys(look for own in positions for look in own.looks))
        place = {look: at for at, look in enumerate(looks)}
        sight = self.snapshot.sight
        rows = [() if part is None else sight.row(part, looks) for part in parts]
        columns = []
        for own in positions:
            at = [place[look] for look in own.looks]
            known: dict[Any, int] = {}
            column = []
            for part, row in zip(parts, rows, strict=True):
                key = None if part is None else tuple([row[one] for one in at])
                found = known.get(key)
                if found is None:
                    seen = None if key is None else tuple([sight.numbered[one] for one in key])
                    found = known[key] = own.of(part, seen)
                column.append(found)
            columns.append(column)
        return columns

    # --- how meetings are made -----------------------------------------------------------------------------

    def _meetings(self, choices: Sequence[Sequence[Part | None]]) -> Iterable[Meeting]:
        made: dict[Any, Meeting] = {}
        always = [all(part is not None for part in some) for some in choices]
        never = [all(part is None for part in some) for some in choices]
        for line in self.snapshot.pattern.lines:
            for rule in self.snapshot.rules.by_kind.get(line.kind, ()):
                meeting = self._meeting(line, rule, choices, always, never)
                if meeting is not None:
                    made.setdefault((id(meeting.table), meeting.groups), meeting)
        return made.values()

    def _meeting(
        self,
        line: Line,
        rule: Rule,
        choices: Sequence[Sequence[Part | None]],
        always: Sequence[bool],
        never: Sequence[bool],
    ) -> Meeting | None:
        """The table of one rule at one line; None where the seats that are filled never make a joint of it.

        always, never: by group, whether its seats are surely filled, or surely empty.
        """
        follows = self.snapshot.reach(rule, line)
        looks: dict[int, dict[tuple[str, str], None]] = {}
        used: dict[int, None] = {}

        def filling(seats: Iterable[str]) -> list[int]:
            found = [self.of_seat[seat] for seat in seats if not seat.startswith(BEFORE) and seat in self.of_seat]
            return [group for group in found if not never[group]]

        if line.expansion == "chain" and len(filling(line.chain_seats)) < 2:
            return None
        for at, role in enumerate(line.roles):
            groups = filling(role.seats)
            in_chain = line.expansion == "chain" and at < 2
            if in_chain:
                groups = list(dict.fromkeys([*groups, *filling(line.chain_seats)]))
            decides = role.how == "single" or in_chain or (line.expansion == "each" and at == 0)
            if not groups and decides and (role.how == "single" or line.expansion == "each"):
                return None
            for group in groups:
                if role.role in follows:
                    looks.setdefault(group, {}).update(
                        dict.fromkeys((attribute, role.port) for attribute in follows[role.role])
                    )
                elif decides:
                    used[group] = None
        present = [group for group in used if group not in looks and always[group]]
        for group in used:
            if group not in looks and group not in present:
                looks[group] = {}
        return self._placed(line, rule, looks, present, choices)

    def _placed(
        self,
        line: Line,
        rule: Rule,
        looks: Mapping[int, Mapping[tuple[str, str], None]],
        present: Sequence[int],
        choices: Sequence[Sequence[Part | None]],
    ) -> Meeting:
        groups = tuple(sorted(looks))
        position = {group: at for at, group in enumerate(groups)}
        inside = {
            seat: self.of_seat[seat]
            for seat in dict.fromkeys((*(seat for role in line.roles for seat in role.seats), *line.chain_seats))
            if seat in self.of_seat
        }

        def mark(seat: str) -> int:
            group = inside.get(seat)
            if group is None or (group not in position and group not in present):
                return -1
            return position.get(group, -2)

        form = (
            rule.id,
            line.expansion,
            tuple(tuple(sorted(one.items())) for one in line.constants),
            tuple((role.role, role.how, role.port, tuple(map(mark, role.seats))) for role in line.roles),
            tuple(map(mark, line.chain_seats)),
            tuple(tuple(sorted(looks[group])) for group in groups),
        )

        def scope() -> Scope:
            return Scope(
                line,
                rule,
                tuple(tuple(sorted(looks[group])) for group in groups),
                tuple(tuple(seat for seat, own in inside.items() if own == group) for group in groups),
                tuple(
                    (seat, next(part for part in choices[own] if part is not None))
                    for seat, own in inside.items()
                    if own in present
                ),
            )

        table = self.snapshot.table(form, scope)
        return Meeting(table, groups, line, rule)

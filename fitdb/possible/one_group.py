"""What can stand in one group with some choices: known boards first, then the judge, then the solver.

First come boards that are known to stand with the choices, with one part exchanged; then boards of other choices,
mended towards these. Both ask nothing. Then the judge is asked about the boards of which least is unknown, and what is
left is put to the solver, until a board is known for every signature or it is proved that there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fitdb.possible.exchanged import exchanged, repaired
from fitdb.possible.pool import Board, as_board
from fitdb.possible.questions import FAILS, HOLDS, UNDECIDED, UNKNOWN
from fitdb.possible.ruled_out import TooHard

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from fitdb.possible.search import Search

EXCHANGED = (4, 24)  # boards of the pool in which one part is exchanged: first so many, then so many more
REPAIRED = 24  # boards of the pool that are made ones of the present choices
ROUNDS = 2  # of that
TRIES = 2  # boards that are asked about for one signature before the solver is

Late = Callable[[], bool]


@dataclass
class Found:
    """What is known of the signatures of one group under some choices.

    boards: a board on which nothing fails, by signature; sure: one on which nothing is undecided either. never: proved
    that there is no board; doubtful: proved that every board leaves something undecided.
    """

    boards: dict[int, Board] = field(default_factory=dict)
    sure: dict[int, Board] = field(default_factory=dict)
    never: set[int] = field(default_factory=set)
    doubtful: set[int] = field(default_factory=set)


@dataclass
class OneGroup:
    """One group asked about, under some choices; `found` is filled."""

    search: Search
    group: int
    fixed: Mapping[int, int]
    found: Found
    late: Late

    def __post_init__(self) -> None:
        self.space, self.pool, self.ruled_out = self.search.space, self.search.pool, self.search.ruled_out
        self._said_elsewhere: dict[Board, int] = {}

    def left(self, strict: bool) -> list[int]:
        """The signatures of which it is not known yet."""
        found = self.found
        if strict:
            return sorted(one for one in found.boards if one not in found.sure and one not in found.doubtful)
        every = range(len(self.space.signatures[self.group]))
        return [one for one in every if one not in found.boards and one not in found.never]

    def from_what_is_known(self, strict: bool) -> None:
        """Boards of the pool with one part exchanged, then such as stood with other choices, made ones of these."""
        worst = HOLDS if strict else UNDECIDED
        self._exchange(self.pool.with_parts(self.fixed, worst), strict)
        self._rule_out_by_choices(strict)
        for round_ in range(ROUNDS):
            left = self.left(strict)
            if not left:
                return
            rows = self._repaired(left, round_, strict)
            if not len(rows):
                return
            self._exchange(rows, strict)

    def until_settled(self, strict: bool) -> None:
        """Asks for every signature that is left until a board is found with it or it is proved that there is none."""
        known, never = (self.found.sure, self.found.doubtful) if strict else (self.found.boards, self.found.never)
        if self.left(strict):
            worst = HOLDS if strict else UNDECIDED
            self._exchange_asking(self.pool.with_parts(self.fixed, worst)[-sum(EXCHANGED) :], strict)
        while left := self.left(strict):
            guard = self.ruled_out.wanted(self.group, left)
            assumed = [*self.search.assumed(self.fixed), guard]
            near = self.search.near(self.fixed, self.group, strict)
            try:
                proposal = self.search.next(assumed, near, strict, self.late)
            except TooHard:
                return
            finally:
                self.ruled_out.released(guard)
            if proposal is None:
                never.update(left)
                return
            self.search.take_up(proposal, self.group, self.found)
            assert proposal[self.group] in known
            self._exchange_asking(_numbers([proposal]), strict)

    def _exchange(self, rows: NDArray[np.intp], strict: bool) -> None:
        """Every board in which the one part is exchanged for one that is left, where nothing is to be asked for it."""
        bad_from, end = UNDECIDED if strict else FAILS, len(rows)
        for count in EXCHANGED:
            left = self.left(strict)
            some = rows[max(end - count, 0) : end]
            end -= len(some)
            if not left or not len(some):
                return
            told = exchanged(self.space, some, self.group, _numbers(left))
            stands = ~((told >= bad_from) | (told == UNKNOWN)).any(axis=0)
            worst = told.max(axis=0, initial=HOLDS)
            for column, own in enumerate(left):
                for row in range(len(some) - 1, -1, -1):
                    if stands[row, column]:
                        self._keep(some[row], own, int(worst[row, column]))
                        break

    def _exchange_asking(self, rows: NDArray[np.intp], strict: bool) -> None:
        """The same where something is to be asked: for each signature of the boards of which least is."""
        import numpy as np

        bad_from, left = UNDECIDED if strict else FAILS, self.left(strict)
        if not left or not len(rows):
            return
        told = exchanged(self.space, rows, self.group, _numbers(left))
        touching = set(self.space.touching[self.group])
        among = [number for number in self.search.cheapest_first if number in touching]
        bad, open_yet = (told >= bad_from).any(axis=0), (told == UNKNOWN).sum(axis=0)
        to_ask = np.where(bad, len(told) + 1, open_yet)[::-1]
        for column, own in enumerate(left):
            fewest = np.argsort(to_ask[:, column], kind="stable")[:TRIES]
            for row in [len(rows) - 1 - int(one) for one in fewest if to_ask[one, column] <= len(told)]:
                if self.late():
                    return
                board = _exchanged(rows[row], self.group, own)
                if self.search.stands(board, strict, among, self._elsewhere(as_board(rows[row]))):
                    self.search.take_up(board, self.group, self.found)
                    break

    def _rule_out_by_choices(self, strict: bool) -> None:
        """Of what is left, what clashes with the choices alone by what is known stands on no board."""
        bad_from, left = UNDECIDED if strict else FAILS, _numbers(self.left(strict))
        never, settled = self.found.doubtful if strict else self.found.never, {*self.fixed, self.group}
        for number in self.space.touching[self.group]:
            meeting = self.space.meetings[number]
            if settled.issuperset(meeting.groups):
                cells = [
                    self.space.columns[own][number][left if own == self.group else [self.fixed[own]]]
                    for own in meeting.groups
                ]
                never.update(left[meeting.table.known.of_many(cells) >= bad_from].tolist())

    def _repaired(self, left: Sequence[int], round_: int, strict: bool) -> NDArray[np.intp]:
        """Boards of other choices, made ones of these with a part that is left, as far as that needs no asking."""
        bad_from = UNDECIDED if strict else FAILS
        rows = self.pool.nearest(self.fixed, UNDECIDED, REPAIRED)
        if not len(rows):
            return rows
        for own, signature in self.fixed.items():
            rows[:, own] = signature
        wanted = [left[(at + round_ * len(rows)) % len(left)] for at in range(len(rows))]
        rows[:, self.group] = wanted
        rows, told = repaired(self.space, rows, {*self.fixed, self.group}, bad_from)
        known = ~(told == UNKNOWN).any(axis=0)
        for row, worst in zip(rows[known], told[:, known].max(axis=0, initial=HOLDS), strict=True):
            board = as_board(row)
            self.pool.keep(board, int(worst))
            self.search.take_up(board, self.group, self.found)
        certain: NDArray[np.intp] = rows[known]
        return certain

    def _keep(self, row: NDArray[np.intp], own: int, touched: int) -> None:
        """Keeps a board of the pool with one signature exchanged. touched: the worst of what is said where that is."""
        board = _exchanged(row, self.group, own)
        self.pool.keep(board, max(touched, self._elsewhere(as_board(row))))
        self.search.take_up(board, self.group, self.found)

    def _elsewhere(self, board: Board) -> int:
        """The worst of what is said of a known board away from the group."""
        if self.pool.worst(board) == HOLDS:
            return HOLDS
        found = self._said_elsewhere.get(board)
        if found is None:
            touching = set(self.space.touching[self.group])
            cells = (
                (meeting.table, self.space.cell(number, board))
                for number, meeting in enumerate(self.space.meetings)
                if number not in touching
            )
            found = self._said_elsewhere[board] = max((table.state(cell) for table, cell in cells), default=HOLDS)
        return found


def _exchanged(row: NDArray[np.intp], group: int, own: int) -> Board:
    board: list[int] = row.tolist()
    return (*board[:group], own, *board[group + 1 :])


def _numbers(some: Sequence[int] | Sequence[Board]) -> NDArray[np.intp]:
    import numpy as np

    return np.array(some, dtype=np.intp)

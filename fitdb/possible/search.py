"""Which parts of one group can stand on a whole board: known boards first, then the solver, until nothing is open.

A part is possible when a board with it is known on which nothing fails, and impossible when the solver proves that what
the judge said leaves no board. What neither is known of when the time is up stays open, and is never told as a clash.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fitdb.possible.questions import FAILS, HOLDS, UNDECIDED
from fitdb.possible.ruled_out import Board, RuledOut, TooHard
from fitdb.possible.space import Space

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MOST_FILLED = 500  # cells of a table that is asked through before the search begins
MOST_REASONS = 12  # taken from one proposal
MOST_KEPT = 3000  # boards of the pool
MOST_REMEMBERED = 500  # questions whose answers are kept
SWAPPED = 24  # boards of the pool in which the one part is exchanged

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


class Search:
    """Searches one space, and keeps the boards and the reasons that it has found."""

    def __init__(self, space: Space) -> None:
        import numpy as np

        self.space = space
        self.ruled_out = RuledOut(space)
        self.filled = False
        self._found_before: dict[tuple[int, tuple[tuple[int, int], ...]], Found] = {}
        self.pool: dict[Board, int] = {}  # board -> worst state over all meetings
        sizes = []
        for number, meeting in enumerate(space.meetings):
            cells = math.prod(len(np.unique(space.columns[group][number])) for group in meeting.groups)
            sizes.append((meeting.table.dear, cells, number))
        self.cheapest_first = [number for _, _, number in sorted(sizes)]
        self.small = [number for dear, cells, number in sorted(sizes) if not dear and cells <= MOST_FILLED]

    def fill(self, late: Late) -> bool:
        """Asks the small tables through, once; False when the time was up before the end."""
        while self.small and not self.filled:
            if late():
                return False
            self.ruled_out.fill([self.small[0]], lambda: False)
            self.small.pop(0)
        self.filled = True
        return True

    # --- one group -----------------------------------------------------------------------------------------

    def options(self, group: int, fixed: Mapping[int, int], late: Late, strictly: bool = True) -> Found:
        """What can stand in the group with the other groups' signatures fixed as named."""
        self._forget()
        fixed = {own: signature for own, signature in fixed.items() if own != group}
        key = (group, tuple(sorted(fixed.items())))
        if key not in self._found_before and len(self._found_before) >= MOST_REMEMBERED:
            self._found_before.clear()
        found = self._found_before.setdefault(key, Found())  # what was proved stays proved
        every = range(len(self.space.signatures[group]))
        self._from_pool(group, fixed, found)
        if not self.fill(late):
            return found
        self._until_settled(group, fixed, found, every, False, late)
        if strictly:
            self._until_settled(group, fixed, found, sorted(found.boards), True, late)
        return found

    def board(self, fixed: Mapping[int, int], late: Late, strict: bool = False) -> Board | None:
        """Any board with these signatures on which nothing fails; None where it is proved that there is none.

        Raises TooHard when neither was found in time.
        """
        self._forget()
        wanted = HOLDS if strict else UNDECIDED
        for board, state in self.pool.items():
            if state <= wanted and all(board[group] == own for group, own in fixed.items()):
                return board
        if not self.fill(late):
            raise TooHard
        return self._next(self.assumed(fixed), self._near(fixed, -1, strict), strict, late)

    def assumed(self, fixed: Mapping[int, int]) -> list[int]:
        return [self.ruled_out.literal[group][signature] for group, signature in sorted(fixed.items())]

    def _until_settled(
        self, group: int, fixed: Mapping[int, int], found: Found, every: Iterable[int], strict: bool, late: Late
    ) -> None:
        known, never = (found.sure, found.doubtful) if strict else (found.boards, found.never)
        left = [one for one in every if one not in known and one not in never]
        while left:
            guard = self.ruled_out.wanted(group, left)
            assumed = [*self.assumed(fixed), guard]
            try:
                proposal = self._next(assumed, self._near(fixed, group, strict), strict, late)
            except TooHard:
                return
            finally:
                self.ruled_out.released(guard)
            if proposal is None:
                never.update(left)
                return
            self._found(proposal, group, found)
            self._swapped([proposal], group, found)
            left = [one for one in left if one not in known]

    def _next(self, assumed: Sequence[int], near: Sequence[int], strict: bool, late: Late) -> Board | None:
        """The next board that stands, under these assumptions; None where there is none. Raises TooHard when late.

        near: the parts of a board that stands. Proposals keep to them, but for those that the solver names as being in
        the way: so little is asked that was not asked before.
        """
        near = list(near)
        while True:
            if late():
                raise TooHard
            proposal = self.ruled_out.proposal([*assumed, *near], strict)
            if proposal is not None:
                if self._judged(proposal, strict):
                    return proposal
                continue
            in_the_way = set(self.ruled_out.core) & set(near)
            if not in_the_way:
                return None
            near = [literal for literal in near if literal not in in_the_way]

    def _near(self, fixed: Mapping[int, int], group: int, strict: bool) -> list[int]:
        """The literals of the pool's board that has most of what is fixed, but for the group that is asked for."""
        best: tuple[tuple[int, int], Board] | None = None
        for board, state in self.pool.items():
            rank = (sum(board[own] == signature for own, signature in fixed.items()), -state)
            if best is None or rank >= best[0]:
                best = (rank, board)
        if best is None:
            return []
        return [
            self.ruled_out.literal[own][signature]
            for own, signature in enumerate(best[1])
            if own != group and own not in fixed
        ]

    def _judged(self, board: Board, strict: bool) -> bool:
        """Whether the board stands; if not, what speaks against it is ruled out. Dear questions are asked last."""
        import numpy as np

        row = np.array([board])
        worst, against, dear = HOLDS, 0, False
        for number in self.cheapest_first:
            if against and (self.space.meetings[number].table.dear and not dear):
                break
            dear = self.space.meetings[number].table.dear
            state = int(self.space.states(number, row)[0])
            worst = max(worst, state)
            if state == FAILS or (strict and state == UNDECIDED):
                self.ruled_out.rule_out(number, board)
                against += 1
                if against >= MOST_REASONS or dear:
                    break
        if not against:
            self._keep(board, worst)
        return not against

    def doubted(self, board: Board) -> None:
        """Asks every cell of a board by itself again, because the judge of whole boards said otherwise."""
        self.pool.pop(board, None)
        for number in self.cheapest_first:
            self.space.meetings[number].table.ask_again(self.space.cell(number, board))

    def _keep(self, board: Board, state: int) -> None:
        self.pool[board] = state

    def _forget(self) -> None:
        """The oldest boards beyond the most that are kept. Only between questions: one works on the boards it knows."""
        while len(self.pool) > MOST_KEPT:
            self.pool.pop(next(iter(self.pool)))

    # --- what is known already -----------------------------------------------------------------------------

    def _found(self, board: Board, group: int, found: Found) -> None:
        found.boards.setdefault(board[group], board)
        if self.pool.get(board) == HOLDS:
            found.sure.setdefault(board[group], board)

    def _from_pool(self, group: int, fixed: Mapping[int, int], found: Found) -> None:
        """Boards of the pool that have what is fixed, and those that one exchange makes of them."""
        fit = [board for board in self.pool if all(board[own] == signature for own, signature in fixed.items())]
        for board in fit:
            self._found(board, group, found)
        self._swapped(fit[-SWAPPED:], group, found)

    def _swapped(self, boards: Sequence[Board], group: int, found: Found) -> None:
        """Every board in which one part of a known board is exchanged for one that is still open."""
        import numpy as np

        count = len(self.space.signatures[group])
        for board in boards:
            state = self.pool[board]
            open_yet = [one for one in range(count) if one not in found.boards and one not in found.never]
            doubted = [one for one in found.boards if one not in found.sure and one not in found.doubtful]
            left = sorted(open_yet + doubted) if state == HOLDS else open_yet
            if not left:
                continue
            rows = np.tile(np.array(board), (len(left), 1))
            rows[:, group] = left
            worst = self._worst_touched(rows, group)
            for row, own in zip(rows, worst, strict=True):
                if own != FAILS:
                    swapped = tuple(row.tolist())
                    self._keep(swapped, max(int(own), self._elsewhere(board, group)))
                    self._found(swapped, group, found)

    def _elsewhere(self, board: Board, group: int) -> int:
        """The worst of what is said away from a group."""
        import numpy as np

        if self.pool[board] == HOLDS:
            return HOLDS
        touching = set(self.space.touching[group])
        row = np.array([board])
        return max(
            (int(self.space.states(number, row)[0]) for number in self.cheapest_first if number not in touching),
            default=HOLDS,
        )

    def _worst_touched(self, rows: NDArray[np.intp], group: int) -> NDArray[np.int8]:
        """The worst that is said where the group is touched; a board that fails is asked no further."""
        import numpy as np

        touching = set(self.space.touching[group])
        worst = np.full(len(rows), HOLDS, dtype=np.int8)
        for number in self.cheapest_first:
            if number in touching:
                left = np.flatnonzero(worst != FAILS)
                if not len(left):
                    break
                worst[left] = np.maximum(worst[left], self.space.states(number, rows[left]))
        return worst

"""Whole boards of one space: which are known to stand, what rules the others out, and what is still to be asked.

A part is possible when a board with it is known on which nothing fails, and impossible when the solver proves that what
the judge said leaves no board. What neither is known of when the time is up stays open, and is never told as a clash.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from fitdb.possible.one_group import Found, Late, OneGroup
from fitdb.possible.pool import Board, Pool, as_board
from fitdb.possible.questions import FAILS, HOLDS, UNDECIDED, UNKNOWN
from fitdb.possible.ruled_out import RuledOut, TooHard
from fitdb.possible.space import Space

MOST_FILLED = 500  # cells of a table that is asked through before the search begins
MOST_REASONS = 12  # taken from one proposal
MOST_KEPT = 3000  # boards of the pool
MOST_REMEMBERED = 500  # questions whose answers are kept


class Search:
    """Searches one space, and keeps the boards and the reasons that it has found."""

    def __init__(self, space: Space) -> None:
        import numpy as np

        self.space = space
        self.ruled_out = RuledOut(space)
        self.filled = False
        self._found_before: dict[tuple[int, tuple[tuple[int, int], ...]], Found] = {}
        self.pool = Pool(len(space.groups))
        sizes = []
        for number, meeting in enumerate(space.meetings):
            cells = math.prod(len(np.unique(space.columns[group][number])) for group in meeting.groups)
            sizes.append((meeting.table.dear, cells, number))
        self.cheapest_first = [number for _, _, number in sorted(sizes)]
        self.sampled = [number for number in self.cheapest_first if space.meetings[number].table.sampled]
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
        self.pool.forget(MOST_KEPT)
        fixed = {own: signature for own, signature in fixed.items() if own != group}
        key = (group, tuple(sorted(fixed.items())))
        if key not in self._found_before and len(self._found_before) >= MOST_REMEMBERED:
            self._found_before.clear()
        found = self._found_before.setdefault(key, Found())  # what was proved stays proved
        self._take_up(fixed, group, found)
        one = OneGroup(self, group, fixed, found, late)
        one.from_what_is_known(False)
        if not self.fill(late):
            return found
        one.until_settled(False)
        if strictly:
            one.from_what_is_known(True)
            one.until_settled(True)
        return found

    def board(self, fixed: Mapping[int, int], late: Late, strict: bool = False) -> Board | None:
        """Any board with these signatures on which nothing fails; None where it is proved that there is none.

        Raises TooHard when neither was found in time.
        """
        self.pool.forget(MOST_KEPT)
        known = self.pool.with_parts(fixed, HOLDS if strict else UNDECIDED)
        if len(known):
            return as_board(known[-1])
        if not self.fill(late):
            raise TooHard
        return self.next(self.assumed(fixed), self.near(fixed, -1, strict), strict, late)

    def assumed(self, fixed: Mapping[int, int]) -> list[int]:
        return [self.ruled_out.literal[group][signature] for group, signature in sorted(fixed.items())]

    def next(self, assumed: Sequence[int], near: Sequence[int], strict: bool, late: Late) -> Board | None:
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
                if self.stands(proposal, strict):
                    return proposal
                continue
            in_the_way = set(self.ruled_out.core) & set(near)
            if not in_the_way:
                return None
            near = [literal for literal in near if literal not in in_the_way]

    def near(self, fixed: Mapping[int, int], group: int, strict: bool) -> list[int]:
        """The literals of the pool's board that has most of what is fixed, but for the group that is asked for."""
        best = self.pool.nearest(fixed, UNDECIDED, 1)
        return [
            self.ruled_out.literal[own][signature]
            for row in best
            for own, signature in enumerate(row.tolist())
            if own != group and own not in fixed
        ]

    def stands(self, board: Board, strict: bool, among: Sequence[int] | None = None, elsewhere: int = HOLDS) -> bool:
        """Whether the board stands; if not, what speaks against it is ruled out.

        What is known is looked at first, and then the judge is asked, of what is dear last. among: the meetings to look
        at, the cheapest first, where the worst that is said elsewhere is known; None for all.
        """
        bad_from = UNDECIDED if strict else FAILS
        numbers = self.cheapest_first if among is None else among
        cells = [(number, self.space.meetings[number].table, self.space.cell(number, board)) for number in numbers]
        known = [(number, table, cell, table.known.of(cell)) for number, table, cell in cells]
        against = [number for number, _, _, state in known if state >= bad_from]
        worst = max((state for _, _, _, state in known), default=HOLDS)
        if not against:
            for number, table, cell, state in known:
                if state == UNKNOWN:
                    if against and table.dear:
                        break
                    told = table.state(cell)
                    worst = max(worst, told)
                    if told >= bad_from:
                        against.append(number)
        for number in against[:MOST_REASONS]:
            self.ruled_out.rule_out(number, board, strict)
        if not against:
            self.pool.keep(board, max(worst, elsewhere))
        return not against

    def by_itself(self, board: Board) -> int:
        """The worst that is said of a board, with no box of a sampled rule believed: only that is not proved of it.

        A board that does not stand after all is known no longer.
        """
        state = self.pool.worst(board)
        before = self._worst(board) if state is None else state
        cells = ((self.space.meetings[number].table, self.space.cell(number, board)) for number in self.sampled)
        now = max((table.itself(cell) for table, cell in cells), default=HOLDS)
        if now > before:
            self._known_otherwise(board, now)
        return max(now, before)

    def doubted(self, board: Board) -> None:
        """Asks every cell of a board by itself again, because the judge of whole boards said otherwise."""
        for number in self.cheapest_first:
            self.space.meetings[number].table.ask_again(self.space.cell(number, board))
        self._known_otherwise(board, self._worst(board))

    def _worst(self, board: Board) -> int:
        """The worst that is said of a board, over all meetings."""
        cells = ((meeting.table, self.space.cell(number, board)) for number, meeting in enumerate(self.space.meetings))
        return max((table.state(cell) for table, cell in cells), default=HOLDS)

    def _known_otherwise(self, board: Board, state: int) -> None:
        """A board of which something else was found is taken out of all answers in which it stands no more."""
        self.pool.drop(board)
        if state != FAILS:
            self.pool.keep(board, state)
        for found in self._found_before.values():
            for known, worst in ((found.boards, UNDECIDED), (found.sure, HOLDS)):
                for signature in [one for one, own in known.items() if own == board and state > worst]:
                    del known[signature]

    def _take_up(self, fixed: Mapping[int, int], group: int, found: Found) -> None:
        """The newest known board for each signature in the group that these choices are known to stand with."""
        import numpy as np

        for worst, known in ((UNDECIDED, found.boards), (HOLDS, found.sure)):
            rows = self.pool.with_parts(fixed, worst)[::-1]
            for signature, at in zip(*np.unique(rows[:, group], return_index=True), strict=True):
                known.setdefault(int(signature), as_board(rows[at]))

    def take_up(self, board: Board, group: int, found: Found) -> None:
        found.boards.setdefault(board[group], board)
        if self.pool.worst(board) == HOLDS:
            found.sure.setdefault(board[group], board)

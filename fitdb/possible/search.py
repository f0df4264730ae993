"""Which parts of one group can stand on a whole board: known boards first, then the solver, until nothing is open.

A part is possible when a board with it is known on which nothing fails, and impossible when the solver proves that what
the judge said leaves no board. What neither is known of when the time is up stays open, and is never told as a clash.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fitdb.possible.exchanged import exchanged, repaired
from fitdb.possible.pool import Board, Pool
from fitdb.possible.questions import FAILS, HOLDS, UNDECIDED, UNKNOWN
from fitdb.possible.ruled_out import RuledOut, TooHard
from fitdb.possible.space import Space

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MOST_FILLED = 500  # cells of a table that is asked through before the search begins
MOST_REASONS = 12  # taken from one proposal
MOST_KEPT = 3000  # boards of the pool
MOST_REMEMBERED = 500  # questions whose answers are kept
EXCHANGED = (
    4,
    24,
)  # boards of the pool in which one part is exchanged: so many first, so many more where it takes them
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
        self._take_up(self.pool.with_parts(fixed, UNDECIDED), group, found)
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
            return _board(known[-1])
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

    def _take_up(self, rows: NDArray[np.intp], group: int, found: Found) -> None:
        """Known boards, put down for the signatures that they have in the group."""
        for board in map(_board, rows[::-1]):
            self.take_up(board, group, found)

    def take_up(self, board: Board, group: int, found: Found) -> None:
        found.boards.setdefault(board[group], board)
        if self.pool.worst(board) == HOLDS:
            found.sure.setdefault(board[group], board)


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
            self._exchange_asking(_rows([proposal]), strict)

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
                if self.search.stands(board, strict, among, self._elsewhere(_board(rows[row]))):
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
            board = _board(row)
            self.pool.keep(board, int(worst))
            self.search.take_up(board, self.group, self.found)
        certain: NDArray[np.intp] = rows[known]
        return certain

    def _keep(self, row: NDArray[np.intp], own: int, touched: int) -> None:
        """Keeps a board of the pool with one signature exchanged. touched: the worst of what is said where that is."""
        board = _exchanged(row, self.group, own)
        self.pool.keep(board, max(touched, self._elsewhere(_board(row))))
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


def _board(row: NDArray[np.intp]) -> Board:
    return tuple(row.tolist())


def _exchanged(row: NDArray[np.intp], group: int, own: int) -> Board:
    board: list[int] = row.tolist()
    return (*board[:group], own, *board[group + 1 :])


def _rows(boards: Sequence[Board]) -> NDArray[np.intp]:
    import numpy as np

    return np.array(boards, dtype=np.intp)


def _numbers(some: Sequence[int]) -> NDArray[np.intp]:
    import numpy as np

    return np.array(some, dtype=np.intp)

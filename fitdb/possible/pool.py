"""The boards of a space that are known to stand, each with the worst that is said of it, as rows of one array."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Board = tuple[int, ...]


class Pool:
    """Boards, the newest last. groups: how many signatures a board has."""

    def __init__(self, groups: int) -> None:
        import numpy as np

        self._at: dict[Board, int] = {}
        self._rows = np.zeros((64, groups), dtype=np.intp)
        self._states = np.zeros(64, dtype=np.int8)  # -1 where a board was taken out
        self._used = 0

    def __len__(self) -> int:
        return len(self._at)

    def worst(self, board: Board) -> int | None:
        """The worst that is said of a board; None where it is not among them."""
        at = self._at.get(board)
        return int(self._states[at]) if at is not None else None

    def keep(self, board: Board, state: int) -> None:
        import numpy as np

        at = self._at.get(board)
        if at is None:
            if self._used == len(self._rows):
                self._rows = np.concatenate([self._rows, np.zeros_like(self._rows)])
                self._states = np.concatenate([self._states, np.zeros_like(self._states)])
            at = self._at[board] = self._used
            self._rows[at] = board
            self._used += 1
        self._states[at] = state

    def drop(self, board: Board) -> None:
        at = self._at.pop(board, None)
        if at is not None:
            self._states[at] = -1

    def forget(self, most: int) -> None:
        """The oldest boards beyond the most that are kept."""
        if self._used <= most:
            return
        newest = [(board, int(self._states[at])) for board, at in list(self._at.items())[-most // 2 :]]
        self._at.clear()
        self._used = 0
        for board, state in newest:
            self.keep(board, state)

    def with_parts(self, fixed: Mapping[int, int], worst: int) -> NDArray[np.intp]:
        """The boards that have these signatures and of which nothing worse is said, as rows, the newest last."""
        rows = self._rows[: self._used]
        fit = self._standing(worst)
        for group, signature in fixed.items():
            fit &= rows[:, group] == signature
        found: NDArray[np.intp] = rows[fit]
        return found

    def nearest(self, fixed: Mapping[int, int], worst: int, most: int) -> NDArray[np.intp]:
        """The boards that have most of these signatures, the best first, of equals the newest."""
        import numpy as np

        rows = self._rows[: self._used]
        alike = np.zeros(self._used, dtype=np.intp)
        for group, signature in fixed.items():
            alike += rows[:, group] == signature
        alike[~self._standing(worst)] = -1
        order = np.argsort(-alike[::-1], kind="stable")
        best = (self._used - 1 - order)[:most]
        found: NDArray[np.intp] = rows[best[alike[best] >= 0]]
        return found

    def _standing(self, worst: int) -> NDArray[np.bool_]:
        states = self._states[: self._used]
        found: NDArray[np.bool_] = (states >= 0) & (states <= worst)
        return found


def as_board(row: NDArray[np.intp]) -> Board:
    """A row as a board."""
    return tuple(row.tolist())

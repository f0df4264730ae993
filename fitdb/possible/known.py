"""What is known of the cells of a table, for one cell and for very many at once.

A cell is one class of parts per position. Small tables are arrays. Wide ones keep the cells that were asked, and boxes
of cells as bits: which boxes a cell lies in is one `and` over its positions.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from fitdb.possible.questions import FAILS, HOLDS, UNDECIDED, UNKNOWN

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

MOST_DENSE = 1 << 16  # cells of an array
LONGEST_CODE = 63  # bits of a cell written as one number
MOST_FRESH = 300  # cells beside the ones in order

STATES = (HOLDS, UNDECIDED, FAILS)

Cell = tuple[int, ...]
Box = tuple[tuple[int, ...], ...]


class Boxes:
    """Boxes of cells, each with the state that was said of all of it."""

    def __init__(self, positions: int) -> None:
        self.kept: dict[int, list[Box]] = {state: [] for state in STATES}
        self._size: dict[int, list[int]] = {state: [] for state in STATES}
        self._inside: dict[int, list[dict[int, int]]] = {
            state: [{} for _ in range(positions)] for state in STATES
        }  # by position and class the boxes, as bits
        self._bits: list[NDArray[np.uint64]] | None = None
        self._words: list[tuple[int, int, int]] = []  # state, and which words of the bits are its boxes

    def add(self, box: Sequence[Sequence[int]], state: int) -> None:
        bit = 1 << len(self.kept[state])
        self.kept[state].append(tuple(tuple(sorted(some)) for some in box))
        self._size[state].append(math.prod(map(len, box)))
        for own, some in zip(self._inside[state], box, strict=True):
            for one in some:
                own[one] = own.get(one, 0) | bit
        self._bits = None

    def largest(self, cell: Cell, state: int) -> Box | None:
        """The largest box of a state that the cell lies in; None where there is none."""
        inside, sizes, best = self._with(cell, state), self._size[state], -1
        while inside:
            lowest = inside & -inside
            at = lowest.bit_length() - 1
            if best < 0 or sizes[at] > sizes[best]:
                best = at
            inside ^= lowest
        return self.kept[state][best] if best >= 0 else None

    def of(self, cell: Cell) -> int:
        """What a box says that the cell lies in; UNKNOWN where there is none."""
        return next((state for state in STATES if self.kept[state] and self._with(cell, state)), UNKNOWN)

    def of_many(self, columns: Sequence[NDArray[np.intp]], counts: Sequence[int]) -> NDArray[np.int8]:
        """The same of many cells, given as one array of classes per position; the arrays are spread over each other."""
        import numpy as np

        inside: NDArray[np.uint64] | None = None
        for bits, column in sorted(zip(self._as_bits(counts), columns, strict=True), key=lambda one: one[1].size):
            here = bits[column]
            inside = here if inside is None else inside & here
        assert inside is not None
        found = np.zeros(inside.shape[:-1], dtype=np.int8)
        for state, first, end in reversed(self._words):  # the first state has the last word
            found[inside[..., first:end].any(axis=-1)] = state
        return found

    def _with(self, cell: Cell, state: int) -> int:
        inside = -1
        for own, at in zip(self._inside[state], cell, strict=True):
            inside &= own.get(at, 0)
            if not inside:
                break
        return inside

    def _as_bits(self, counts: Sequence[int]) -> list[NDArray[np.uint64]]:
        import numpy as np

        if self._bits is None or any(len(one) < count for one, count in zip(self._bits, counts, strict=True)):
            words = {state: (len(some) + 63) // 64 for state, some in self.kept.items() if some}
            ends = dict(zip(words, itertools.accumulate(words.values()), strict=True))
            self._words = [(state, ends[state] - many, ends[state]) for state, many in words.items()]
            self._bits = []
            for at, count in enumerate(counts):
                places = [(self._inside[state][at], 8 * many) for state, many in words.items()]
                written = b"".join([own.get(one, 0).to_bytes(m, "little") for one in range(count) for own, m in places])
                self._bits.append(np.frombuffer(written, dtype="<u8").reshape(count, sum(words.values())))
        return self._bits


class Known:
    """What is known of one table's cells. counts: how many classes each position has now; they only become more."""

    def __init__(self, positions: int, counts: Callable[[], tuple[int, ...]]) -> None:
        self.cells: dict[Cell, int] = {}
        self.boxes = Boxes(positions)
        self._counts = counts
        self._dense: NDArray[np.int8] | None = None
        self._bits: tuple[int, ...] = (0,) * positions  # of a code, by position
        self._coded: tuple[NDArray[np.int64], NDArray[np.int8]] | None = None  # sorted
        self._fresh: dict[int, int] = {}  # by code, said since
        self._fresh_coded: tuple[NDArray[np.int64], NDArray[np.int8]] | None = None

    def say(self, cell: Cell, state: int) -> None:
        """What is said of a cell by itself stands over every box."""
        self.cells[cell] = state
        if self._coded is not None:
            code = self._code(cell)
            if code is None:
                self._coded = None
            else:
                self._fresh[code], self._fresh_coded = state, None
        array = self._array()
        if array is not None:
            array[cell] = state

    def say_box(self, box: Sequence[Sequence[int]], state: int) -> None:
        self.boxes.add(box, state)
        array = self._array()
        if array is not None:
            import numpy as np

            part = np.ix_(*box)
            array[part] = np.where(array[part] == UNKNOWN, state, array[part])

    def of(self, cell: Cell) -> int:
        """HOLDS, UNDECIDED, FAILS or UNKNOWN."""
        found = self.cells.get(cell)
        if found is not None:
            return found
        return self.boxes.of(cell)

    def of_many(self, columns: Sequence[NDArray[np.intp]]) -> NDArray[np.int8]:
        """The same of many cells, given as one array of classes per position; the arrays are spread over each other."""
        import numpy as np

        array = self._array()
        if array is not None:
            dense: NDArray[np.int8] = array[tuple(columns)]
            return dense
        counts = self._counts()
        if any(self.boxes.kept.values()):
            found = self.boxes.of_many(columns, counts)
        else:
            found = np.zeros(np.broadcast_shapes(*(one.shape for one in columns)), dtype=np.int8)
        self._over(found, columns)
        return found

    def _over(self, found: NDArray[np.int8], columns: Sequence[NDArray[np.intp]]) -> None:
        """What is said of cells by themselves, put over what boxes say of them."""
        import numpy as np

        if not self.cells:
            return
        in_order = self._in_order()
        if in_order is None:
            spread = [one.ravel().tolist() for one in np.broadcast_arrays(*columns)]
            flat = found.reshape(-1)
            for at, cell in enumerate(zip(*spread, strict=True)):
                flat[at] = self.cells.get(cell, flat[at])
            return
        sought = np.zeros((), dtype=np.int64)
        for bits, column in zip(self._bits, columns, strict=True):
            sought = (sought << bits) + column
        if self._fresh_coded is None:
            self._fresh_coded = _in_order(self._fresh)
        for codes, states in (in_order, self._fresh_coded):
            if len(codes):
                place = np.minimum(np.searchsorted(codes, sought), len(codes) - 1)
                met = codes[place] == sought
                found[met] = states[place[met]]

    def _in_order(self) -> tuple[NDArray[np.int64], NDArray[np.int8]] | None:
        """The cells as sorted numbers with their states, but for the fresh ones; None where they would be too long."""
        bits = tuple([max(count - 1, 1).bit_length() for count in self._counts()])
        if self._coded is None or any(now > before for now, before in zip(bits, self._bits, strict=True)):
            self._bits = tuple(max(pair) for pair in zip(bits, self._bits, strict=True))
            if sum(self._bits) > LONGEST_CODE:
                self._coded = None
                return None
            self._fresh, self._fresh_coded = {}, None
            self._coded = _in_order({self._number(cell): own for cell, own in self.cells.items()})
        if len(self._fresh) > MOST_FRESH:
            codes, states = self._coded
            together = dict(zip(codes.tolist(), states.tolist(), strict=True)) | self._fresh
            self._coded, self._fresh, self._fresh_coded = _in_order(together), {}, None
        return self._coded

    def _code(self, cell: Cell) -> int | None:
        """The cell as one number; None where a class has none yet."""
        fits = all(at >> bits == 0 for at, bits in zip(cell, self._bits, strict=True))
        return self._number(cell) if fits else None

    def _number(self, cell: Cell) -> int:
        code = 0
        for at, bits in zip(cell, self._bits, strict=True):
            code = (code << bits) + at
        return code

    def _array(self) -> NDArray[np.int8] | None:
        """The array of all cells, unknown ones 0; None where it would be too large."""
        import numpy as np

        shape = self._counts()
        if self._dense is not None and self._dense.shape == shape:
            return self._dense
        if math.prod(shape) > MOST_DENSE:
            self._dense = None
            return None
        grown = np.zeros(shape, dtype=np.int8)
        if self._dense is not None:
            grown[tuple(slice(0, size) for size in self._dense.shape)] = self._dense
        self._dense = grown
        return grown


def _in_order(coded: dict[int, int]) -> tuple[NDArray[np.int64], NDArray[np.int8]]:
    """Codes in order, and the state of each."""
    import numpy as np

    codes = np.fromiter(coded.keys(), np.int64, len(coded))
    order = np.argsort(codes)
    return codes[order], np.fromiter(coded.values(), np.int8, len(coded))[order]

"""Draws: every reading of a board as rows of numbers, the first row what was read, the rest drawn from its range.

The same reading of the same part in the same seat gives the same rows on two boards, so that what they have in common
falls out of their difference. A reading is drawn from a triangle over its range; one that nobody has read from what
stands in for it, and the answer names it. Nothing here is random twice: the rows follow from the seed and the name.
"""

from __future__ import annotations

import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitdb.intake.readings import assumed
from fitdb.model.joint import Piece
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.trace import Trace

Array = NDArray[np.float64]
SEED = 20260101
DRAWS = 256
MOST_RANKED = 6
MIDDLE = (5.0, 95.0)  # per cent of the draws between which a figure's range is told


@dataclass(frozen=True, slots=True)
class Drawn:
    """A reading as it is counted with: `rows` has the nominal value first, then the draws."""

    seat: str
    part: str
    attribute: str
    title: str
    unit: str
    rows: Array
    assumed: bool
    source: str

    @property
    def moves(self) -> bool:
        return bool(self.rows[1] != self.rows[2] or np.ptp(self.rows) > 0.0)


@dataclass
class Memory:
    """What several boards of one answer have in common: rows of readings, and sizes worked out from them."""

    drawn: dict[tuple[object, ...], Drawn | None] = field(default_factory=dict)
    worked_out: dict[tuple[object, ...], Array | None] = field(default_factory=dict)


@dataclass
class Draws:
    """The readings of one board, drawn. `table` describes what nobody has read; `memory` is shared between boards.

    A reading is known by its part, its place on it and its name: pieces of one part were read once, so that what is
    wrong with that reading is wrong on both sides of a board.
    """

    table: AttributeTable
    memory: Memory = field(default_factory=Memory)
    count: int = DRAWS
    seed: int = SEED
    used: dict[tuple[object, ...], Drawn] = field(default_factory=dict)

    @property
    def rows(self) -> int:
        return self.count + 1

    def size(self, piece: Piece, attribute: str, port: str = "") -> Array | None:
        """The rows of a number or count in its canonical unit; None where nothing is known of it at all."""
        drawn = self.drawn(piece, attribute, port)
        return None if drawn is None else drawn.rows

    def read(self, piece: Piece, attribute: str, port: str = "") -> Array | None:
        """The same, but None where nobody has read it, whatever could stand in for it."""
        drawn = self.drawn(piece, attribute, port)
        return None if drawn is None or drawn.assumed else drawn.rows

    def word(self, piece: Piece, attribute: str) -> tuple[str, ...]:
        """The words still possible, in order; empty where nothing is known of it."""
        reading = self._reading(piece, attribute, "")[1]
        return tuple(sorted(reading.possible)) if isinstance(reading, Word) else ()

    def drawn(self, piece: Piece, attribute: str, port: str = "") -> Drawn | None:
        place, reading = self._reading(piece, attribute, port)
        described = self.table.attribute_of(piece.part.part_class, attribute, place or port)
        return self._of(piece.seat, piece.part.id, place, attribute, reading, _called(described, attribute))

    def of_trace(self, trace: Trace) -> Array | None:
        """What a rule measures, row by row, through every size that is worked out on the way.

        None where a part is missing or nothing at all is known of a reading; a word still open takes turns.
        """
        if trace.wanted or trace.lacking or not trace.variables:
            return None
        columns: list[list[object]] = []
        keys: list[object] = [trace.rule.id, trace.rule.needs]
        for one in trace.variables:
            reading = one.reading
            if reading is None and one.described is not None:
                reading = assumed(one.described, widest=False)
            if isinstance(reading, Word):
                keys.append((one.part, one.attribute, reading.possible))
                columns.append(self._words(one.part, one.attribute, reading))
                continue
            called = _called(one.described, one.attribute)
            drawn = self._of(one.seat, one.part, one.place, one.attribute, reading, called)
            if drawn is None:
                return None
            keys.append(id(drawn.rows))
            columns.append(drawn.rows.tolist())
        key = tuple(keys)
        if key not in self.memory.worked_out:
            told = [trace.quantity(row) for row in zip(*columns, strict=True)]
            sized = all(isinstance(value, int | float) for value in told)
            self.memory.worked_out[key] = np.array(told, dtype=float) if sized else None
        return self.memory.worked_out[key]

    def assumption(self, name: str, title: str, unit: str, spread: tuple[float, float, float], source: str) -> Array:
        """A number that no part carries, such as the efficiency of a belt: low, usual, high, with its source."""
        key = ("", "", name, spread)
        if key not in self.memory.drawn:
            rows = self._rows(name, *spread)
            self.memory.drawn[key] = Drawn("", "", name, title, unit, rows, True, source)
        drawn = self.memory.drawn[key]
        assert drawn is not None
        self.used[key] = drawn
        return drawn.rows

    def chosen(self, name: str, options: int) -> NDArray[np.int64]:
        """One of several possibilities per row, the first in the nominal row."""
        picked = np.floor(self._uniform(name) * options).astype(np.int64)
        return np.concatenate([[0], np.minimum(picked, options - 1)])

    def movers(self, figure: Array) -> list[tuple[Drawn, float]]:
        """The readings that move a figure, with their share of its variance, the largest first. `figure` may have fewer
        rows than there are draws.

        One after the other, each the reading that explains most of what those before it leave, on a straight line. What
        explains less than a hundredth, or no more than chance alone does in so many draws, is left out.
        """
        rows = figure[1:]
        if not np.all(np.isfinite(rows)) or np.ptp(rows) <= 1e-9 * max(1.0, float(np.abs(rows).max())):
            return []
        found = [one for one in self.used.values() if one.moves]
        if not found:
            return []
        columns = np.stack([one.rows[1 : len(figure)] for one in found])
        columns = columns - columns.mean(axis=1, keepdims=True)
        lengths = np.maximum(np.sum(columns**2, axis=1), 1e-300)
        left = rows - rows.mean()
        whole = float(np.sum(left**2))
        ranked: list[tuple[Drawn, float]] = []
        for _ in range(MOST_RANKED):
            along = columns @ left
            gained = along**2 / lengths
            best = int(np.argmax(gained))
            if gained[best] < 0.01 * whole or gained[best] < 9.0 / len(rows) * float(np.sum(left**2)):
                break
            ranked.append((found[best], float(gained[best]) / whole))
            left = left - columns[best] * (along[best] / lengths[best])
        return ranked

    def _reading(self, piece: Piece, attribute: str, port: str) -> tuple[str, Reading | None]:
        place, reading = piece.part.offers(attribute, port)
        if reading is None:
            described = self.table.attribute_of(piece.part.part_class, attribute, port)
            reading = assumed(described, widest=False) if described is not None else None
        return place, reading

    def _of(
        self, seat: str, part: str, place: str, attribute: str, reading: Reading | None, title: str
    ) -> Drawn | None:
        if not isinstance(reading, Number | Designation | Count):
            return None
        key = (part, place, attribute, reading.low, reading.nominal, reading.high)
        if key not in self.memory.drawn:
            name = f"{part}|{place}|{attribute}"
            rows = self._counts(name, reading) if isinstance(reading, Count) else None
            if rows is None:
                rows = self._rows(name, reading.low, reading.nominal, reading.high)
            assumed_too, source = reading.value_assumed, reading.source.title
            self.memory.drawn[key] = Drawn(seat, part, attribute, title, reading.unit, rows, assumed_too, source)
        drawn = self.memory.drawn[key]
        if drawn is not None:
            self.used[key] = drawn
        return drawn

    def _rows(self, name: str, low: float, nominal: float, high: float) -> Array:
        if high - low <= 0.0:
            return np.full(self.rows, nominal)
        part = self._uniform(name)
        turn = (nominal - low) / (high - low)
        rising = low + np.sqrt(part * (high - low) * (nominal - low))
        falling = high - np.sqrt((1.0 - part) * (high - low) * (high - nominal))
        return np.concatenate([[nominal], np.where(part < turn, rising, falling)])

    def _counts(self, name: str, reading: Count) -> Array:
        if len(reading.values) == 1:
            return np.full(self.rows, float(reading.values[0]))
        picked = np.floor(self._uniform(name) * len(reading.values)).astype(int)
        values = [reading.values[min(index, len(reading.values) - 1)] for index in picked]
        return np.array([reading.nominal, *values], dtype=float)

    def _words(self, part: str, attribute: str, reading: Word) -> list[object]:
        words = sorted(reading.possible)
        if len(words) == 1:
            return [words[0]] * self.rows
        return [words[index] for index in self.chosen(f"{part} {attribute}", len(words))]

    def _uniform(self, name: str) -> Array:
        # One draw from each of as many equal parts of 0 to 1, shuffled: the edges of a range then hardly waver.
        chance = np.random.default_rng([self.seed, zlib.crc32(name.encode())])
        return np.asarray((chance.permutation(self.count) + chance.random(self.count)) / max(self.count, 1))


def _called(described: Attribute | None, attribute: str) -> str:
    """What a reading is called in a sentence: its title where that is short, else its name."""
    short = described is not None and len(described.title.split()) <= 4 and "," not in described.title
    return described.title if described is not None and short else attribute.replace("_", " ")


def by_seat(pieces: Mapping[str, Piece], *seats: str) -> list[Piece]:
    """The pieces in these seats, those that are filled."""
    return [pieces[seat] for seat in seats if seat in pieces]

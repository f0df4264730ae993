"""A ridden way: how high it lies and how fast it was ridden, along its length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


class Gap(NamedTuple):
    """A stretch without points: where on the way it lies, the seconds and the straight metres between its two ends.

    `from_m` equals `to_m` where the metres are not counted as way: nothing says that they were ridden on the board.
    `seconds` is None where the file does not tell them.
    """

    from_m: float
    to_m: float
    seconds: float | None
    metres: float


@dataclass(frozen=True, slots=True)
class Track:
    """Points along a ridden way. The tuples that are not None have the same length, two points at least.

    distance_m: way from the first point in m, from 0. It rises from point to point, but stands still from the last
    point before a gap whose metres are not counted to the first point behind it.
    elevation_m: height in m after smoothing; None where the file does not tell it, which does not mean flat.
    speed_kmh: speed while riding in km/h, smoothed, stops left out; None where neither speed nor time is known.
    notes: what a reader has to know of these numbers, one sentence each. points_read: points in the file, used or not.
    source: the file and its kind, in words.
    ascent_m and descent_m: climbed and descended metres of `elevation_m`. raw_ascent_m and raw_descent_m: the same
    of the heights as they stand in the file, noise included. All four are None where the heights are unknown.
    """

    title: str
    distance_m: tuple[float, ...]
    elevation_m: tuple[float, ...] | None
    speed_kmh: tuple[float, ...] | None
    notes: tuple[str, ...]
    gaps: tuple[Gap, ...]
    points_read: int
    source: str
    ascent_m: float | None = None
    descent_m: float | None = None
    raw_ascent_m: float | None = None
    raw_descent_m: float | None = None

    @property
    def elevation_known(self) -> bool:
        """Whether the heights are known. If not, nothing may be said of hills, and flat is not to be assumed."""
        return self.elevation_m is not None

    @property
    def length_m(self) -> float:
        """Way from the first point to the last in m."""
        return self.distance_m[-1]

"""The points of a way while they are read: thinned on the way in, strays left out, gaps noted.

Places within 5 m of the last kept point are not kept, so that standing still, the trembling of positions and a
point ten times a second neither lengthen the way nor fill the memory.
"""

from __future__ import annotations

import math
from array import array
from dataclasses import dataclass, field

from fitdb.formulas.tracks import EarthPoint, ground_distance_m
from fitdb.model.problems import Problem
from fitdb.model.track import Gap

MOST_POINTS = 1_000_000
MOST_FAULTS = 20
MOST_BREAKS = 1000
KEPT_APART_M = 5.0
FASTEST_M_S = 150.0 / 3.6
"""Nothing that is ridden on a board goes 150 km/h: a point so far away is an error of the recorder, or a train."""
CLOCK_STEP_S = 1.0
"""Recorders write whole seconds, so that two times may be a second further apart than they say."""
FAR_APART_M = 250.0
"""From here on two neighbouring points of a recording have a gap between them. Our choice."""
MOST_JOINED_M = 100.0
"""Two parts of a recording that end and begin this near were ridden on; farther, nothing says so. Our choice."""
LOWEST_M, HIGHEST_M = -500.0, 9000.0
"""Roads lie between the shore of the lowest sea, −430 m, and the highest peak, 8849 m. Source: any atlas."""
UNKNOWN = math.nan


class Stop(Exception):
    """Reading ends here: one fault, after which nothing can be told of the rest."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(str(problem))


class Faults:
    """The first twenty faults of a file, and how many more there are."""

    def __init__(self, file_name: str) -> None:
        self.file_name = file_name
        self.found: list[Problem] = []
        self.more = 0

    def add(self, code: str, message: str, row: int | None = None, column: str = "", hint: str = "") -> None:
        """Notes one fault at its row and column."""
        if len(self.found) < MOST_FAULTS:
            self.found.append(self.problem(code, message, row, column, hint))
        else:
            self.more += 1

    @property
    def count(self) -> int:
        """How many faults there are, those that are not kept included."""
        return len(self.found) + self.more

    def problem(self, code: str, message: str, row: int | None = None, column: str = "", hint: str = "") -> Problem:
        """One fault of this file, not noted."""
        return Problem(code, message, file=self.file_name, row=row, column=column, hint=hint)

    def all(self) -> tuple[Problem, ...]:
        """What was noted; behind the twentieth one that says how many more there are."""
        if not self.more:
            return tuple(self.found)
        what = f"And {self.more} more."
        return (*self.found, self.problem("more_faults", what, hint="They are told when these are mended."))


@dataclass(slots=True)
class Fix:
    """One point as it stands in a file; `seconds` counts from any moment. None is unknown.

    place: on the earth; None where the file tells the way itself, `way` in m.
    """

    place: EarthPoint | None
    way: float
    elevation: float | None = None
    seconds: float | None = None
    speed: float | None = None


@dataclass(slots=True)
class Counts:
    """What was met on the way, and how often."""

    repeated: int = 0
    clock_went_back: int = 0
    strays: int = 0
    jumps: int = 0
    joined: int = 0
    parted: int = 0
    far_apart: int = 0
    odd_elevations: int = 0
    odd_times: int = 0


@dataclass(slots=True)
class Draft:
    """A way while it is read. All four arrays have one length; what is unknown in them is not a number.

    distance m; elevation m as read; seconds of the leg that ends at the point; speed km/h as the file tells it.
    recorded: whether the points were recorded on the way, so that a wide space between two is a gap.
    """

    faults: Faults
    recorded: bool = True
    distance: array[float] = field(default_factory=lambda: array("d"))
    elevation: array[float] = field(default_factory=lambda: array("d"))
    seconds: array[float] = field(default_factory=lambda: array("d"))
    speed: array[float] = field(default_factory=lambda: array("d"))
    gaps: list[Gap] = field(default_factory=list)
    counts: Counts = field(default_factory=Counts)
    points: int = 0
    raw_ascent: float = 0.0
    raw_descent: float = 0.0
    _kept: Fix | None = None
    _last: Fix | None = None
    _suspect: Fix | None = None
    _height: float | None = None
    _broken: bool = False
    _piece_points: int = 0

    def break_here(self) -> None:
        """The recording was interrupted: the next point begins another part."""
        self._leave_suspect_out()
        self._broken = self._kept is not None

    def add(self, fix: Fix) -> None:
        """The next point of the way."""
        self.points += 1
        if self._kept is None or self._last is None:
            self._begin_piece(fix, 0.0)
        elif self._broken:
            self._join(fix, self._kept, self._last)
        elif not self._is_absurd(self._last, fix):
            self._leave_suspect_out()
            self._go_on(fix, self._kept, self._last)
        elif self._suspect is None or self._is_absurd(self._suspect, fix):
            self._leave_suspect_out()
            self._suspect = fix
        else:
            # Two points in a row agree that the way goes on elsewhere.
            first, self._suspect = self._suspect, None
            self.counts.jumps += 1
            self._part(first, self._last)
            self._go_on(fix, first, first)

    def finish(self) -> None:
        """After the last point: the way ends there, not at the last point that was kept."""
        self._leave_suspect_out()
        last, kept = self._last, self._kept
        if last is None or kept is None or last is kept or self._piece_points < 2:
            return
        waited = _seconds(kept, last)
        self.distance[-1] += _metres(kept, last)
        self.seconds[-1] += waited if waited is not None and waited >= 0.0 else UNKNOWN
        if last.elevation is not None:
            self.elevation[-1] = last.elevation
        if last.speed is not None:
            self.speed[-1] = last.speed
        self._kept = last

    def _is_absurd(self, before: Fix, fix: Fix) -> bool:
        if fix.place is None:
            return False
        waited = _seconds(before, fix)
        return waited is not None and waited >= 0.0 and _metres(before, fix) > FASTEST_M_S * (waited + CLOCK_STEP_S)

    def _leave_suspect_out(self) -> None:
        self.counts.strays += self._suspect is not None
        self._suspect = None

    def _join(self, fix: Fix, kept: Fix, last: Fix) -> None:
        """The first point of another part: on from the last one if it is near, else at the same place of the way."""
        self._broken = False
        apart, step, start = _metres(last, fix), _metres(kept, fix), self.distance[-1]
        if apart > MOST_JOINED_M:
            self.counts.parted += 1
            self._part(fix, last)
            return
        self.counts.joined += 1
        is_kept = step >= KEPT_APART_M
        self._note_gap(start, start + step if is_kept else start, _seconds(last, fix), apart)
        self._last, self._height = fix, fix.elevation
        if is_kept:
            self._keep(fix, step, UNKNOWN)

    def _part(self, fix: Fix, last: Fix) -> None:
        """Another piece of the way begins at `fix`; what lies between is not counted."""
        start = self.distance[-1]
        self._note_gap(start, start, _seconds(last, fix), _metres(last, fix))
        self._begin_piece(fix, start)

    def _note_gap(self, start: float, end: float, waited: float | None, metres: float) -> None:
        known = waited if waited is not None and waited >= 0.0 else None
        self.gaps.append(Gap(start, end, known, metres))
        if self.counts.jumps + self.counts.joined + self.counts.parted > MOST_BREAKS:
            what = f"The way is broken more than {MOST_BREAKS} times: it jumps, or is in that many parts."
            hint = "This is no recording of one ride: export it again, or split the file into its rides."
            raise Stop(self.faults.problem("too_many_gaps", what, hint=hint))

    def _begin_piece(self, fix: Fix, distance: float) -> None:
        self._piece_points = 0
        self.distance.append(distance)
        self._fill(fix, UNKNOWN)
        self._last, self._height = fix, fix.elevation

    def _go_on(self, fix: Fix, kept: Fix, last: Fix) -> None:
        waited, step = _seconds(last, fix), _metres(kept, fix)
        self.counts.clock_went_back += waited is not None and waited < 0.0
        self.counts.repeated += waited in (0.0, None) and fix.place == last.place and fix.way == last.way
        if fix.elevation is not None:
            rise = 0.0 if self._height is None else fix.elevation - self._height
            self.raw_ascent += max(0.0, rise)
            self.raw_descent += max(0.0, -rise)
            self._height = fix.elevation
        self._last = fix
        if step < KEPT_APART_M:
            return
        taken = _seconds(kept, fix)
        if self.recorded and step > FAR_APART_M:
            self.counts.far_apart += 1
            self._note_gap(self.distance[-1], self.distance[-1] + step, taken, step)
        self._keep(fix, step, taken if taken is not None and taken >= 0.0 else UNKNOWN)

    def _keep(self, fix: Fix, step: float, taken: float) -> None:
        self.distance.append(self.distance[-1] + step)
        self._fill(fix, taken)

    def _fill(self, fix: Fix, taken: float) -> None:
        self.elevation.append(UNKNOWN if fix.elevation is None else fix.elevation)
        self.seconds.append(taken)
        self.speed.append(UNKNOWN if fix.speed is None else fix.speed)
        self._kept = fix
        self._piece_points += 1


def _metres(before: Fix, after: Fix) -> float:
    if before.place is None or after.place is None:
        return after.way - before.way
    return ground_distance_m(before.place, after.place)


def _seconds(before: Fix, after: Fix) -> float | None:
    if before.seconds is None or after.seconds is None:
        return None
    return after.seconds - before.seconds

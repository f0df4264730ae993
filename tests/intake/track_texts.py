"""Files of rides for the tests of tracks, and what must be true of whatever is read from one."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

import pytest

from fitdb.formulas import tracks as formulas
from fitdb.intake.tracks import read_track
from fitdb.model.problems import Problem
from fitdb.model.track import Track

METRES_PER_DEGREE = 110_574.0  # of latitude at the equator
HEAD = '<?xml version="1.0"?><gpx version="1.1" creator="us" xmlns="http://www.topografix.com/GPX/1/1">'


def track(text: str | bytes) -> Track:
    found, problems = read_track(text, file_name="ride.x")
    assert problems == ()
    assert found is not None
    return found


def faults(text: str | bytes) -> tuple[Problem, ...]:
    found, problems = read_track(text, file_name="ride.x")
    assert found is None
    assert all(problem.message and problem.file == "ride.x" for problem in problems)
    return problems


def codes(text: str | bytes) -> list[str]:
    return [problem.code for problem in faults(text)]


def point(metres: float, seconds: float | None = None, height: float | None = None, name: str = "trkpt") -> str:
    """A point so many metres north of the equator."""
    inner = "" if height is None else f"<ele>{height}</ele>"
    if seconds is not None:
        clock = f"{int(seconds) // 3600:02}:{int(seconds) // 60 % 60:02}:{seconds % 60:06.3f}"
        inner += f"<time>2026-05-01T{clock}Z</time>"
    return f'<{name} lat="{metres / METRES_PER_DEGREE:.9f}" lon="0">{inner}</{name}>'


def gpx(*segments: Iterable[str]) -> str:
    return HEAD + "<trk>" + "".join(f"<trkseg>{''.join(one)}</trkseg>" for one in segments) + "</trk></gpx>"


def ride(start: int, end: int, begins: float = 0.0) -> list[str]:
    """5 m/s, a point a second."""
    return [point(5.0 * second, begins + second, 100.0) for second in range(start, end)]


def noted(found: Track, words: str) -> bool:
    return any(words in note for note in found.notes)


def assert_sound(found: Track) -> None:
    way = found.distance_m
    assert way[0] == 0.0 and len(way) >= 2
    stands = {gap.from_m for gap in found.gaps if gap.from_m == gap.to_m}
    assert all(b > a or (b == a and a in stands) for a, b in pairwise(way))
    for values in (found.elevation_m, found.speed_kmh):
        assert values is None or (len(values) == len(way) and all(map(math.isfinite, values)))
    assert found.speed_kmh is None or (min(found.speed_kmh) > 0.0 and max(found.speed_kmh) <= 120.0 + 1e-6)
    assert all(0.0 <= gap.from_m <= gap.to_m <= way[-1] + 1e-6 and gap.metres >= 0.0 for gap in found.gaps)
    cut = formulas.stretches(found)
    assert sum(cut.length_m) == pytest.approx(found.length_m)
    assert max(cut.length_m) <= 25.0 + 1e-9
    assert cut.slope is None or all(map(math.isfinite, cut.slope))

"""From the points that were kept to a Track: speeds and heights smoothed, and said in words what was met."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from fitdb.formulas.tracks import (
    SPEED_WINDOW_M,
    ascent_and_descent_m,
    elevation_noise_m,
    pieces,
    riding_speeds_kmh,
    smoothed_elevation,
    window_mean,
)
from fitdb.intake.track_drafts import (
    FAR_APART_M,
    HIGHEST_M,
    KEPT_APART_M,
    LOWEST_M,
    MOST_JOINED_M,
    UNKNOWN,
    Draft,
    Faults,
)
from fitdb.model.track import Gap, Track

LONGEST_M = 1_000_000.0
FASTEST_KMH = 120.0
"""Above this nobody rides a board on a way; told records, downhill on closed roads, lie below 150 km/h. From memory."""
SLOWEST_KMH = 2.0
"""Slower than a stroll: between two such points somebody stood. Our choice."""
MOST_TOO_FAST_M = 250.0
MOST_BRIDGED = 0.1
"""Share of the way over which missing heights or speeds are drawn straight between known ones. Our choice."""
STEEP = 0.9
"""Rise over length from which a slope is told: steeper than any road."""


def finished(draft: Draft, *, title: str, source: str, notes: Sequence[str], faults: Faults) -> Track | None:
    """The Track of a draft; None, and the reason among `faults`, where there is no way to ride.

    `notes` were made by whoever read the file; those of the way are put behind them.
    """
    draft.finish()
    distance = tuple(draft.distance)
    if not _is_a_way(draft, faults):
        return None
    told = [*notes, *_met(draft)]
    ends = pieces(distance)
    speed = _speeds(draft, ends, told, faults)
    if faults.found:
        return None
    read = _bridged_elevation(draft, ends, told)
    elevation: tuple[float, ...] | None = None
    ascent: tuple[float | None, ...] = (None, None, None, None)
    if read is not None:
        _tell_steep(distance, read, ends, told)
        elevation, ascent = _smoothed(draft, read, ends, told)
    return Track(
        title=title,
        distance_m=distance,
        elevation_m=elevation,
        speed_kmh=speed,
        notes=tuple(told),
        gaps=tuple(sorted(draft.gaps, key=_place_of)),
        points_read=draft.points,
        source=source,
        ascent_m=ascent[0],
        descent_m=ascent[1],
        raw_ascent_m=ascent[2],
        raw_descent_m=ascent[3],
    )


def _place_of(gap: Gap) -> float:
    return gap.from_m


def _is_a_way(draft: Draft, faults: Faults) -> bool:
    if draft.points == 0:
        faults.add("no_points", "The file holds no points.", hint="Export the ride with its points, or add rows.")
    elif draft.points == 1:
        faults.add("one_point", "The file holds one point; a way has two at least.", hint="Export the whole ride.")
    elif draft.distance[-1] < KEPT_APART_M:
        what = f"The {draft.points} points are no way: from the first to the last it is less than {KEPT_APART_M:g} m."
        faults.add("no_length", what, hint="Look whether the recorder had its position, or export another ride.")
    elif draft.distance[-1] > LONGEST_M:
        what = f"The way is {draft.distance[-1] / 1000.0:,.0f} km long; {LONGEST_M / 1000.0:,.0f} km are the most."
        faults.add("too_long", what, hint="Look at the unit of the distance, or split the file into its rides.")
    else:
        return True
    return False


def _met(draft: Draft) -> Iterator[str]:
    """What was met on the way, one sentence each."""
    counts = draft.counts
    uncounted = sum(gap.metres for gap in draft.gaps if gap.from_m == gap.to_m and gap.metres >= KEPT_APART_M)
    if counts.joined:
        yield (
            f"The recording was interrupted {_times(counts.joined)} and went on within {MOST_JOINED_M:g} m: the "
            "straight line between counts as way."
        )
    if counts.parted or counts.jumps:
        broken = counts.parted + counts.jumps
        yield (
            f"The way breaks off {_times(broken)} and goes on elsewhere, {uncounted:,.0f} m away in all: those "
            f"metres are not counted, because nothing says that they were ridden ({counts.jumps} of these are jumps "
            "faster than 150 km/h)."
        )
    if counts.far_apart:
        yield (
            f"{_places(counts.far_apart)} on the way have no points for more than {FAR_APART_M:g} m: the straight line "
            "counts as way, but bends and hills in between are not in the file."
        )
    if counts.strays:
        yield f"{_points(counts.strays)} left out: no board gets there and back that fast (150 km/h and more)."
    if counts.clock_went_back:
        yield f"The clock goes back {_times(counts.clock_went_back)}: no speed is taken from there."
    if counts.repeated:
        yield f"{_points(counts.repeated)} repeated and counted once."
    if counts.odd_times:
        yield f"Times that are no date and time after ISO 8601 were left out: {counts.odd_times}."
    if counts.odd_elevations:
        outside = f"Heights outside {LOWEST_M:g} to {HIGHEST_M:g} m, where no road is, were left out"
        yield f"{outside}: {counts.odd_elevations}."


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _points(count: int) -> str:
    return "1 point is" if count == 1 else f"{count} points are"


def _places(count: int) -> str:
    return "1 place" if count == 1 else f"{count} places"


def _speeds(draft: Draft, ends: Sequence[tuple[int, int]], told: list[str], faults: Faults) -> tuple[float, ...] | None:
    """Riding speed at each point, or None. Stops are left out; more than a moment above 120 km/h is a fault."""
    way = draft.distance
    by_file, by_times = _legs_of_speeds(draft.speed), _legs_of_times(way, draft.seconds)
    from_file = _missing_share(way, by_file) <= _missing_share(way, by_times)
    legs = by_file if from_file else by_times
    missing = _missing_share(way, legs)
    _refuse_too_fast(way, legs, told, faults)
    ridden = [_if_ridden(speed) for speed in legs]
    if missing > MOST_BRIDGED or not any(map(math.isfinite, ridden)):
        why = f"the file tells nothing of it on {100.0 * missing:.0f} % of the way"
        why = why if missing > MOST_BRIDGED else f"nowhere is it from {SLOWEST_KMH:g} to {FASTEST_KMH:g} km/h"
        told.append(f"How fast it was ridden is unknown: {why}.")
        return None
    if missing > 0.0:
        told.append(
            f"On {100.0 * missing:.1f} % of the way the speed is drawn straight between those before and behind."
        )
    stops = [index for index, speed in enumerate(legs) if speed < SLOWEST_KMH]
    if stops:
        waited = sum(draft.seconds[index] for index in stops if math.isfinite(draft.seconds[index]))
        minutes = f" ({waited / 60.0:.1f} min)" if waited > 0.0 else ""
        told.append(f"Stops{minutes} are not in the speeds: legs below {SLOWEST_KMH:g} km/h are left out.")
    told.append(f"Speeds are means over {SPEED_WINDOW_M:g} m of way, or from point to point if that is more.")
    if from_file:
        known = _bridged(way, [_if_ridden(speed) for speed in draft.speed])
        return tuple(speed for i, j in ends for speed in window_mean(way[i:j], known[i:j], SPEED_WINDOW_M))
    seconds = [one if math.isfinite(leg) else UNKNOWN for one, leg in zip(draft.seconds, ridden, strict=True)]
    speeds: list[float] = []
    for i, j in ends:
        known_here = any(map(math.isfinite, seconds[i + 1 : j]))
        speeds += riding_speeds_kmh(way[i:j], seconds[i:j]) if known_here else [UNKNOWN] * (j - i)
    return tuple(_bridged(way, speeds))


def _if_ridden(speed: float) -> float:
    return speed if SLOWEST_KMH <= speed <= FASTEST_KMH else UNKNOWN


def _legs_of_speeds(speed: Sequence[float]) -> list[float]:
    """Mean speed of the leg that ends at each point, not a number where that is unknown."""
    return [UNKNOWN, *(0.5 * (before + after) for before, after in pairwise(speed))]


def _legs_of_times(way: Sequence[float], seconds: Sequence[float]) -> list[float]:
    legs = [UNKNOWN]
    for index in range(1, len(way)):
        step, taken = way[index] - way[index - 1], seconds[index]
        # Points that share a second are no measure of a speed, but they lie within one second of each other.
        legs.append(3.6 * step / taken if taken > 0.0 else UNKNOWN)
    return legs


def _missing_share(way: Sequence[float], legs: Sequence[float]) -> float:
    """Share of the way, 0..1, whose legs have no number."""
    missing = sum(way[i] - way[i - 1] for i in range(1, len(way)) if not math.isfinite(legs[i]))
    return missing / way[-1]


def _refuse_too_fast(way: Sequence[float], legs: Sequence[float], told: list[str], faults: Faults) -> None:
    start: float | None = None
    moments = 0
    for index in range(1, len(way) + 1):
        fast = index < len(way) and legs[index] > FASTEST_KMH
        if fast and start is None:
            start = way[index - 1]
        elif not fast and start is not None:
            end, begun, start = way[index - 1], start, None
            if end - begun <= MOST_TOO_FAST_M:
                moments += 1
                continue
            what = f"From {_km(begun)} to {_km(end)} the way goes faster than {FASTEST_KMH:g} km/h: nobody rides that."
            hint = "Cut a drive by car or train out of the file; in a table, look at the unit of speed or time."
            faults.add("too_fast", what, hint=hint)
    if moments:
        told.append(
            f"In {_places(moments)} the speed is above {FASTEST_KMH:g} km/h for at most {MOST_TOO_FAST_M:g} m: an "
            "error of position or clock; the speed is drawn straight from the speeds before and behind."
        )


def _bridged(way: Sequence[float], values: Sequence[float]) -> list[float]:
    """Values with those that are not a number drawn straight between their neighbours; level at the ends."""
    import numpy as np

    place, read = np.asarray(way, dtype=float), np.asarray(values, dtype=float)
    known = np.isfinite(read)
    filled: list[float] = np.where(known, read, np.interp(place, place[known], read[known])).tolist()
    return filled


def _bridged_elevation(draft: Draft, ends: Sequence[tuple[int, int]], told: list[str]) -> list[float] | None:
    way, read = draft.distance, draft.elevation
    missing = _missing_share(way, [UNKNOWN, *(before + after for before, after in pairwise(read))])
    if missing > MOST_BRIDGED or not any(map(math.isfinite, read)):
        told.append(
            f"Heights are unknown: the file tells none on {100.0 * missing:.0f} % of the way. That does not mean "
            "flat: nothing can be said of climbs and descents."
        )
        return None
    if missing > 0.0:
        told.append(
            f"On {100.0 * missing:.1f} % of the way the height is drawn straight between those before and behind, "
            "level at the ends."
        )
    if all(map(math.isfinite, read)):
        return list(read)
    heights: list[float] = []
    for i, j in ends:
        heights += _bridged(way[i:j], read[i:j]) if any(map(math.isfinite, read[i:j])) else [UNKNOWN] * (j - i)
    return _bridged(way, heights)


def _tell_steep(
    way: Sequence[float], elevation: Sequence[float], ends: Sequence[tuple[int, int]], told: list[str]
) -> None:
    steep = [
        way[index - 1]
        for first, last in ends
        for index in range(first + 1, last)
        if abs(elevation[index] - elevation[index - 1]) >= STEEP * (way[index] - way[index - 1])
    ]
    if steep:
        told.append(
            f"Between kept points the slope is {100.0 * STEEP:.0f} % or more in {_places(len(steep))}, first at "
            f"{_km(steep[0])}: no road is that steep, so look at the heights there. Nothing was clipped."
        )


def _smoothed(
    draft: Draft, elevation: Sequence[float], ends: Sequence[tuple[int, int]], told: list[str]
) -> tuple[tuple[float, ...], tuple[float, float, float, float]]:
    way = draft.distance
    i, j = max(ends, key=lambda ends_of_piece: ends_of_piece[1] - ends_of_piece[0])
    noise = elevation_noise_m(way[i:j], elevation[i:j])
    longest = smoothed_elevation(way[i:j], elevation[i:j], noise)
    heights: list[float] = []
    up = down = 0.0
    for first, last in ends:
        smooth = (
            longest if (first, last) == (i, j) else smoothed_elevation(way[first:last], elevation[first:last], noise)
        )
        rise, fall = ascent_and_descent_m(smooth.elevation)
        heights += smooth.elevation
        up, down = up + rise, down + fall
    trembling = "hardly any noise is in them"
    if noise >= 0.05:
        trembling = f"they tremble by {noise:.1f} m (one standard deviation)"
    mean = f"each is a mean over {longest.window_m:.0f} m of way and " if longest.window_m else ""
    told.append(
        f"Heights are smoothed: {trembling}, so {mean}ups and downs below {longest.turn_m:.1f} m do not count. "
        f"That leaves {up:.0f} m of climbing and {down:.0f} m of descent; as they stand in the file it would be "
        f"{draft.raw_ascent:.0f} m and {draft.raw_descent:.0f} m."
    )
    return tuple(heights), (up, down, draft.raw_ascent, draft.raw_descent)


def _km(metres: float) -> str:
    return f"{metres / 1000.0:.2f} km"

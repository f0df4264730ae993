"""Distance, height and slope along a recorded way.

Angles are in degrees, lengths and heights in m, speeds in km/h; a slope is rise over length, 0.08 being 8 %.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import asin, ceil, cos, dist, isfinite, radians, sin, sqrt
from typing import TYPE_CHECKING, NamedTuple

from fitdb.model.track import Track

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

    Floats = NDArray[numpy.float64]

EQUATOR_RADIUS_M = 6_378_137.0
"""Larger half axis of the WGS84 ellipsoid."""
FLATTENING = 1.0 / 298.257223563
"""Of the WGS84 ellipsoid. Source of both: NGA.STND.0036, World Geodetic System 1984, from memory."""
SQUARED_ECCENTRICITY = FLATTENING * (2.0 - FLATTENING)
MEAN_RADIUS_M = 6_371_008.8
"""Mean radius (2a + b)/3 of that ellipsoid. Source: IUGG, from memory."""

LONGEST_STRETCH_M = 25.0
SHORTEST_M = 1e-3  # shorter than any way that is told apart
LEFT_NOISE_M = 0.2
"""Noise that the window mean aims at leaving in a height. Our choice."""
NARROW_WINDOW_M = 40.0
WIDER_PER_NOISE = 20.0
WIDEST_WINDOW_M = 100.0
"""The mean is no wider than 40 m and 20 m for each metre of noise, and never than 100 m: it cuts the tops of hills, by
1.5 m at a width of 60 m where 10 % up meets 10 % down, which is less than the noise it takes away. Our choice."""
LEAST_TURN_M = 1.5
MOST_TURN_M = 10.0
TURN_IN_NOISES = 5.0
"""A rise or fall counts from five standard deviations of what noise is left, but from 1.5 m at least and 10 m at most:
common practice, no source, is 2 to 10 m."""
SPEED_WINDOW_M = 30.0

EarthPoint = tuple[float, float, float]


def earth_point(latitude: float, longitude: float) -> EarthPoint:
    """Place on the WGS84 ellipsoid in m, from the middle of the earth.

    x = N cos φ cos λ, y = N cos φ sin λ, z = N (1 − e²) sin φ with N = a/√(1 − e² sin² φ); latitude φ and longitude λ.
    Source: NGA.STND.0036, from memory.
    """
    phi, lamda = radians(latitude), radians(longitude)
    sine = sin(phi)
    radius = EQUATOR_RADIUS_M / sqrt(1.0 - SQUARED_ECCENTRICITY * sine * sine)
    across = radius * cos(phi)
    return across * cos(lamda), across * sin(lamda), radius * (1.0 - SQUARED_ECCENTRICITY) * sine


def ground_distance_m(start: EarthPoint, end: EarthPoint) -> float:
    """Length in m of the way over the ellipsoid between two of its points: s = 2R·asin(c/2R), straight chord c.

    R is the mean radius; it only bends the chord, so a short distance has the local radius of the ellipsoid: within
    0.001 % up to 500 km, 0.03 % up to 5000 km and 0.2 % up to 10 000 km; not meant for the other side of the earth. (A
    great circle of the mean sphere is up to 0.56 % off at any length.) Source: chord and arc of a circle; geometry.
    """
    chord = dist(start, end)
    return 2.0 * MEAN_RADIUS_M * asin(min(1.0, chord / (2.0 * MEAN_RADIUS_M)))


def elevation_noise_m(distance: Sequence[float], elevation: Sequence[float]) -> float:
    """Standard deviation of the noise in heights, in m; 0 for fewer than five points.

    r₁ = e₁ − (1 − w)·e₀ − w·e₂ is the height of a point off the line through its neighbours, q the same of r. Each q is
    a sum of five heights with weights c; where the ground bends evenly it is noise alone, of the standard deviation
    σ·√Σc². So σ is the median of |q|/√Σc² over 0.6745 (normal noise). Ground that bends to and fro within three points
    counts as noise; an error that drifts slowly over many points does not.
    Source: median absolute deviation, Hampel, The Influence Curve, J. Am. Stat. Assoc. 69 (1974), from memory.
    """
    import numpy as np

    if len(distance) < 5:
        return 0.0
    way, height = np.asarray(distance, dtype=float), np.asarray(elevation, dtype=float)
    ahead = (way[1:-1] - way[:-2]) / np.maximum(way[2:] - way[:-2], SHORTEST_M)
    behind = 1.0 - ahead
    off = height[1:-1] - behind * height[:-2] - ahead * height[2:]
    twice = off[1:-1] - behind[1:-1] * off[:-2] - ahead[1:-1] * off[2:]
    middle = 1.0 + behind[1:-1] * ahead[:-2] + ahead[1:-1] * behind[2:]
    near = 4.0 * (behind[1:-1] ** 2 + ahead[1:-1] ** 2)
    far = (behind[1:-1] * behind[:-2]) ** 2 + (ahead[1:-1] * ahead[2:]) ** 2
    return float(np.median(np.abs(twice) / np.sqrt(middle**2 + near + far))) / 0.6745


def window_mean(distance: Sequence[float], values: Sequence[float], width: float) -> tuple[float, ...]:
    """Mean over `width` metres of way about each point, of the straight lines between the points.

    Within half of it from an end: the straight line of least squares through the points within `width` of that end. So
    an even slope stays as it is. Values as they are for a width of 0 or a way shorter than the width.
    Source: a moving mean; the integral of straight lines.
    """
    import numpy as np

    way, read = np.asarray(distance, dtype=float), np.asarray(values, dtype=float)
    if width <= 0.0 or len(way) < 3 or way[-1] - way[0] < width:
        return tuple(read.tolist())
    area = np.concatenate(([0.0], np.cumsum(0.5 * (read[1:] + read[:-1]) * np.diff(way))))

    def area_up_to(place: Floats) -> Floats:
        left = np.clip(np.searchsorted(way, place, side="right") - 1, 0, len(way) - 2)
        on = place - way[left]
        rate = (read[left + 1] - read[left]) / np.maximum(way[left + 1] - way[left], SHORTEST_M)
        told: Floats = area[left] + on * (read[left] + 0.5 * rate * on)
        return told

    half = 0.5 * width
    mean: Floats = (area_up_to(way + half) - area_up_to(way - half)) / width
    for end in (way[0], way[-1]):
        near, at_end = np.abs(way - end) <= width, np.abs(way - end) < half
        if np.count_nonzero(near) >= 2:
            slope, height = np.polyfit(way[near] - end, read[near], 1)
            mean[at_end] = height + slope * (way[at_end] - end)
        else:
            mean[at_end] = read[at_end]
    return tuple(mean.tolist())


def turning_points(elevation: Sequence[float], threshold: float) -> tuple[int, ...]:
    """Indices of the first point, of the tops and bottoms between which the way turns, and of the last point.

    A top or bottom counts when the way goes on from it by more than `threshold` metres of height before it comes back.
    Source: hysteresis, common practice, no source.
    """
    low = high = extreme = 0
    rising: bool | None = None
    turns = [0]
    for index, height in enumerate(elevation):
        if rising is None:
            low = index if height < elevation[low] else low
            high = index if height > elevation[high] else high
            if height - elevation[low] > threshold or elevation[high] - height > threshold:
                rising = height - elevation[low] > threshold
                turns.append(low if rising else high)
                extreme = index
        elif height == elevation[extreme] or (height > elevation[extreme]) == rising:
            extreme = index
        elif abs(height - elevation[extreme]) > threshold:
            turns.append(extreme)
            rising, extreme = not rising, index
    turns += [extreme, len(elevation) - 1]
    return tuple(sorted(set(turns)))


def never_turning(elevation: Sequence[float]) -> tuple[float, ...]:
    """The heights nearest to the given ones (least squares) that only rise, or only fall if the last is the lower.

    Source: pool adjacent violators, Ayer et al., Annals of Mathematical Statistics 26 (1955) 641, from memory.
    """
    sign = 1.0 if elevation[-1] >= elevation[0] else -1.0
    totals: list[float] = []
    counts: list[int] = []
    for height in elevation:
        total, count = sign * height, 1
        while totals and totals[-1] * count > total * counts[-1]:
            total, count = total + totals.pop(), count + counts.pop()
        totals.append(total)
        counts.append(count)
    return tuple(sign * total / count for total, count in zip(totals, counts, strict=True) for _ in range(count))


class SmoothedElevation(NamedTuple):
    """Heights in m after smoothing; the noise found in them, width of the mean and least turn that counts, all in m."""

    elevation: tuple[float, ...]
    noise_m: float
    window_m: float
    turn_m: float


def smoothed_elevation(
    distance: Sequence[float], elevation: Sequence[float], noise: float | None = None
) -> SmoothedElevation:
    """Heights without the noise that would add climbing that nobody climbs. At least one point.

    1. A window mean, wide enough to leave 0.2 m of the noise σ found (n points leave σ/√n), at most 40 m + 20 σ and
       100 m: heights without noise stay as they are.
    2. Tops and bottoms count from 5 standard deviations of what noise is left, 1.5 m at least and 10 m at most.
    3. Between them the way only rises or only falls.

    `noise` σ in m is found from the heights themselves if it is not given. What the method cannot tell from ground: an
    error that drifts over hundreds of metres. What it takes away from ground: humps and dips below the least turn.
    Source: our choice of common methods, each named at its function.
    """
    noise = elevation_noise_m(distance, elevation) if noise is None else noise
    spacing = _median_spacing(distance)
    widest = min(WIDEST_WINDOW_M, NARROW_WINDOW_M + WIDER_PER_NOISE * noise)
    window = min(widest, (noise / LEFT_NOISE_M) ** 2 * spacing)
    window = window if window > spacing > 0.0 else 0.0
    mean = window_mean(distance, elevation, window)
    left = noise / sqrt(window / spacing) if window else noise
    turn = min(MOST_TURN_M, max(LEAST_TURN_M, TURN_IN_NOISES * left))
    smooth = list(mean)
    for start, end in pairwise(turning_points(mean, turn)):
        smooth[start : end + 1] = never_turning(mean[start : end + 1])
    return SmoothedElevation(tuple(smooth), noise, window, turn)


def _median_spacing(distance: Sequence[float]) -> float:
    steps = sorted(right - left for left, right in pairwise(distance))
    return steps[len(steps) // 2] if steps else 0.0


def ascent_and_descent_m(elevation: Sequence[float]) -> tuple[float, float]:
    """Climbed and descended metres, both not negative: the sums of all rises and of all falls. Source: arithmetic."""
    steps = [after - before for before, after in pairwise(elevation)]
    return sum(step for step in steps if step > 0.0), -sum(step for step in steps if step < 0.0)


def riding_speeds_kmh(
    distance: Sequence[float], seconds: Sequence[float], width: float = SPEED_WINDOW_M
) -> tuple[float, ...]:
    """Speed in km/h at each point: way over time of the legs within `width` metres of way about it.

    seconds: time of the leg that ends at each point, not a number where it is unknown or was not ridden; the first is
    not used. Where no leg in reach is known: straight between the nearest known speeds. Raises ValueError when
    no leg is known at all. Source: mean speed is way over time.
    """
    import numpy as np

    way, time = np.asarray(distance, dtype=float), np.asarray(seconds, dtype=float)[1:]
    legs = np.diff(way)
    known = np.isfinite(time) & (time > 0.0) & (legs > 0.0)
    if not known.any():
        raise ValueError("no leg of the way has a known time")
    ridden = np.concatenate(([0.0], np.cumsum(np.where(known, legs, 0.0))))
    taken = np.concatenate(([0.0], np.cumsum(np.where(known, time, 0.0))))
    # Whole legs: the one before and the one behind a point always count.
    places = np.arange(len(way))
    first = np.minimum(np.searchsorted(way, way - 0.5 * width), np.maximum(places - 1, 0))
    last = np.maximum(np.searchsorted(way, way + 0.5 * width, side="right") - 1, np.minimum(places + 1, len(way) - 1))
    metres, time_taken = ridden[last] - ridden[first], taken[last] - taken[first]
    told = time_taken > 0.0
    speed = np.interp(way, way[told], 3.6 * metres[told] / time_taken[told])
    return tuple(speed.tolist())


def pieces(distance: Sequence[float]) -> tuple[tuple[int, int], ...]:
    """First and one past the last index of each piece of way; a piece ends where the distance stands still."""
    breaks = [index for index in range(1, len(distance)) if distance[index] <= distance[index - 1]]
    return tuple(pairwise((0, *breaks, len(distance))))


class Stretches(NamedTuple):
    """A way in short stretches for reckoning a ride, tuples of one length; the gaps that are not way are left out.

    length_m of each; slope over it (rise over length), None where heights are unknown, which does not mean flat;
    speed_kmh in its middle, None where unknown; start_m, where it starts on the way.
    """

    length_m: tuple[float, ...]
    slope: tuple[float, ...] | None
    speed_kmh: tuple[float, ...] | None
    start_m: tuple[float, ...]


def stretches(track: Track, longest_m: float = LONGEST_STRETCH_M) -> Stretches:
    """The track in even stretches of at most `longest_m` metres, piece by piece between the gaps.

    Heights and speeds are straight between the points; the lengths add up to the length of the track. A slope is not
    clipped. Raises ValueError for a length not above zero. Source: linear interpolation.
    """
    import numpy as np

    if not (longest_m > 0.0 and isfinite(longest_m)):
        raise ValueError(f"a stretch must be a finite number of metres above zero, got {longest_m!r}")
    lengths: list[float] = []
    starts: list[float] = []
    slopes: list[float] = []
    speeds: list[float] = []
    for first, last in pieces(track.distance_m):
        way = track.distance_m[first:last]
        if way[-1] <= way[0]:
            continue
        edges = np.linspace(way[0], way[-1], ceil((way[-1] - way[0]) / longest_m) + 1)
        length = np.diff(edges)
        lengths += length.tolist()
        starts += edges[:-1].tolist()
        if track.elevation_m is not None:
            heights = np.interp(edges, way, track.elevation_m[first:last])
            slopes += (np.diff(heights) / length).tolist()
        if track.speed_kmh is not None:
            speeds += np.interp(edges[:-1] + 0.5 * length, way, track.speed_kmh[first:last]).tolist()
    return Stretches(
        tuple(lengths),
        tuple(slopes) if track.elevation_m is not None else None,
        tuple(speeds) if track.speed_kmh is not None else None,
        tuple(starts),
    )

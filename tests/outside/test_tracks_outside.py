"""Tracks against published geodesics, other methods of the same sums, and documents after the open GPX schemas."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import isotonic_regression

from fitdb.formulas import tracks
from fitdb.intake.tracks import read_track
from fitdb.model.track import Track


def degrees(whole: int, minutes: int, seconds: float) -> float:
    return math.copysign(abs(whole) + minutes / 60.0 + seconds / 3600.0, whole)


def distance(latitude: float, longitude: float, other_latitude: float, other_longitude: float) -> float:
    start, end = tracks.earth_point(latitude, longitude), tracks.earth_point(other_latitude, other_longitude)
    return tracks.ground_distance_m(start, end)


def vincenty(latitude: float, longitude: float, other_latitude: float, other_longitude: float) -> float:
    """Geodesic on the ellipsoid in m: Vincenty, Survey Review 23 (1975) 88, inverse formula, from memory."""
    a, f = 6_378_137.0, 1.0 / 298.257223563
    b = a * (1.0 - f)
    u1, u2 = (math.atan((1.0 - f) * math.tan(math.radians(one))) for one in (latitude, other_latitude))
    apart = math.radians(other_longitude - longitude)
    lamda = apart
    for _ in range(200):
        across = math.cos(u2) * math.sin(lamda)
        along = math.cos(u1) * math.sin(u2) - math.sin(u1) * math.cos(u2) * math.cos(lamda)
        sine, cosine = (
            math.hypot(across, along),
            math.sin(u1) * math.sin(u2) + math.cos(u1) * math.cos(u2) * math.cos(lamda),
        )
        if sine == 0.0:
            return 0.0
        sigma = math.atan2(sine, cosine)
        alpha = math.cos(u1) * math.cos(u2) * math.sin(lamda) / sine
        squared = 1.0 - alpha * alpha
        middle = cosine - 2.0 * math.sin(u1) * math.sin(u2) / squared if squared > 1e-15 else 0.0
        c = f / 16.0 * squared * (4.0 + f * (4.0 - 3.0 * squared))
        bent = sigma + c * sine * (middle + c * cosine * (2.0 * middle * middle - 1.0))
        before, lamda = lamda, apart + (1.0 - c) * f * alpha * bent
        if abs(lamda - before) < 1e-13:
            break
    u = squared * (a * a - b * b) / (b * b)
    big_a = 1.0 + u / 16384.0 * (4096.0 + u * (-768.0 + u * (320.0 - 175.0 * u)))
    big_b = u / 1024.0 * (256.0 + u * (-128.0 + u * (74.0 - 47.0 * u)))
    inner = big_b / 6.0 * middle * (4.0 * sine * sine - 3.0) * (4.0 * middle * middle - 3.0)
    less = big_b * sine * (middle + big_b / 4.0 * (cosine * (2.0 * middle * middle - 1.0) - inner))
    return b * big_a * (sigma - less)


def test_the_surveyed_line_of_the_australian_datum_manual() -> None:
    """Flinders Peak to Buninyong, 54 972.271 m on GRS80 (the same as WGS84 to a millimetre here): Geocentric Datum of
    Australia Technical Manual, worked example of Vincenty's formula; from memory."""
    flinders_peak = -degrees(37, 57, 3.72030), degrees(144, 25, 29.52440)
    buninyong = -degrees(37, 39, 10.15610), degrees(143, 55, 35.38390)
    assert vincenty(*flinders_peak, *buninyong) == pytest.approx(54_972.271, abs=0.002)
    assert distance(*flinders_peak, *buninyong) == pytest.approx(54_972.271, rel=2e-5)


def test_across_the_atlantic() -> None:
    """40.6 N 73.8 W to 51.6 N 0.5 W: 5 551 759.400 m, an example of Karney's geodesic tools; from memory."""
    assert distance(40.6, -73.8, 51.6, -0.5) == pytest.approx(5_551_759.4, rel=2e-3)


def test_the_worked_great_circle_of_two_airports() -> None:
    """36.12 N 86.67 W to 33.94 N 118.40 W: 2887.26 km on a sphere of 6372.8 km, a common worked example of the
    haversine; from memory. A sphere is up to 0.6 % off the ellipsoid."""
    assert distance(36.12, -86.67, 33.94, -118.40) == pytest.approx(2_887_260.0, rel=6e-3)


def test_the_quarter_meridian() -> None:
    """10 001.966 km on WGS84: NGA.STND.0036, from memory; and the sum of its parts, by quadrature of the meridian."""
    assert distance(0.0, 8.0, 90.0, 8.0) == pytest.approx(10_001_966.0, rel=2e-3)
    in_steps = sum(distance(0.1 * i, 8.0, 0.1 * (i + 1), 8.0) for i in range(900))
    assert in_steps == pytest.approx(10_001_966.0, abs=2.0)

    def radius(phi: float) -> float:
        squared = 0.00669437999014  # first eccentricity squared of WGS84, from memory
        return 6_378_137.0 * (1.0 - squared) / (1.0 - squared * math.sin(phi) ** 2) ** 1.5

    assert quad(radius, 0.0, math.pi / 2.0)[0] == pytest.approx(10_001_966.0, abs=1.0)


def test_one_degree_on_the_mean_sphere() -> None:
    """111.2 km: the mean radius of 6371.0088 km, IUGG, from memory."""
    assert math.radians(1.0) * tracks.MEAN_RADIUS_M == pytest.approx(111_195.0, abs=1.0)


@pytest.mark.parametrize(
    ("latitude", "north_km", "east_km"),
    [
        (0.0, 110.574, 111.320),
        (15.0, 110.649, 107.551),
        (30.0, 110.852, 96.486),
        (45.0, 111.132, 78.847),
        (60.0, 111.412, 55.800),
        (75.0, 111.618, 28.902),
    ],
)
def test_lengths_of_a_degree_by_latitude(latitude: float, north_km: float, east_km: float) -> None:
    """The usual table of the lengths of a degree on WGS84, from memory; here by hundredths of a degree."""
    north = 0.1 * distance(latitude - 0.005, 20.0, latitude + 0.005, 20.0)
    east = 0.1 * distance(latitude, 20.0, latitude, 20.01)
    assert (north, east) == pytest.approx((north_km, east_km), abs=0.0006)


@given(
    st.floats(-89.0, 89.0),
    st.floats(-180.0, 180.0),
    st.floats(-0.5, 0.5),
    st.floats(-0.5, 0.5),
)
def test_short_ways_agree_with_vincenty(latitude: float, longitude: float, north: float, east: float) -> None:
    reference = vincenty(latitude, longitude, latitude + north, longitude + east)
    assert distance(latitude, longitude, latitude + north, longitude + east) == pytest.approx(
        reference, rel=1e-5, abs=1e-3
    )


def test_the_date_line_and_the_poles_are_places_like_others() -> None:
    assert distance(50.0, 179.9999, 50.0, -179.9999) == pytest.approx(distance(50.0, 10.0, 50.0, 10.0002), rel=1e-6)
    assert distance(89.9999, 0.0, 89.9999, 180.0) == pytest.approx(2.0 * distance(90.0, 0.0, 89.9999, 0.0), rel=1e-6)


@given(st.lists(st.integers(-50, 50), min_size=2, max_size=40))
def test_heights_that_never_turn_are_the_isotonic_regression(heights: list[int]) -> None:
    """scipy.optimize.isotonic_regression is the reference."""
    rising = heights[-1] >= heights[0]
    reference = isotonic_regression(np.asarray(heights, dtype=float), increasing=rising).x
    assert tracks.never_turning([float(height) for height in heights]) == pytest.approx(reference.tolist(), abs=1e-9)


@pytest.mark.parametrize("sigma", [0.2, 1.0, 3.0])
@pytest.mark.parametrize("uneven", [False, True])
def test_the_standard_deviation_of_known_noise_is_found(sigma: float, uneven: bool) -> None:
    """Noise of a known standard deviation on rolling ground; the median is good to some percent of 4000 points."""
    dice = random.Random(5)
    way = [0.0]
    for _ in range(4000):
        way.append(way[-1] + (dice.uniform(5.0, 15.0) if uneven else 8.0))
    heights = [20.0 * math.sin(place / 200.0) + 0.04 * place + dice.gauss(0.0, sigma) for place in way]
    assert tracks.elevation_noise_m(way, heights) == pytest.approx(sigma, rel=0.07)


def test_the_window_mean_is_the_integral_over_the_window() -> None:
    """Against a fine sum over the straight lines between the points."""
    dice = random.Random(2)
    way = [0.0]
    for _ in range(80):
        way.append(way[-1] + dice.uniform(5.0, 30.0))
    heights = [dice.uniform(0.0, 10.0) for _ in way]
    mean = tracks.window_mean(way, heights, 60.0)
    for place, told in zip(way, mean, strict=True):
        if 30.0 <= place <= way[-1] - 30.0:
            # Middles of 20 000 slices.
            slices = place - 30.0 + 60.0 * (np.arange(20_000) + 0.5) / 20_000
            assert told == pytest.approx(float(np.interp(slices, way, heights).mean()), abs=1e-4)


@given(st.floats(-0.3, 0.3), st.floats(1.0, 120.0))
def test_an_even_slope_stays_as_it_is(slope: float, width: float) -> None:
    way = [7.0 * i for i in range(60)]
    heights = [slope * place for place in way]
    assert tracks.window_mean(way, heights, width) == pytest.approx(heights, abs=1e-6)
    assert tracks.smoothed_elevation(way, heights, 3.0).elevation == pytest.approx(heights, abs=1e-6)


def test_turning_points_of_a_profile_worked_by_hand() -> None:
    """Up 5, down 1 (too little to count), up 3, down 4, up 2: with 1.5 m the tops and bottoms are at 0, 3, 4 and 5."""
    heights = (0.0, 5.0, 4.0, 7.0, 3.0, 5.0)
    assert tracks.turning_points(heights, 1.5) == (0, 3, 4, 5)
    assert tracks.turning_points(heights, 0.5) == (0, 1, 2, 3, 4, 5)
    assert tracks.turning_points(heights, 10.0) == (0, 5)


def test_speed_is_way_over_time_of_the_legs_around() -> None:
    """Legs of 10 m in 1, 2 and 4 s by hand, a window shorter than a leg: 36; 20/3·3.6; 20/6·3.6; 9 km/h."""
    speeds = tracks.riding_speeds_kmh((0.0, 10.0, 20.0, 30.0), (math.nan, 1.0, 2.0, 4.0), 5.0)
    assert speeds == pytest.approx((36.0, 24.0, 12.0, 9.0))
    with pytest.raises(ValueError, match="no leg"):
        tracks.riding_speeds_kmh((0.0, 10.0), (math.nan, math.nan))


def test_stretches_of_a_way_worked_by_hand() -> None:
    """60 m rising 6 m, then a gap, then 20 m that fall 1 m: three stretches of 20 m at 10 %, one of 20 m at −5 %."""
    way = Track("x", (0.0, 60.0, 60.0, 80.0), (0.0, 6.0, 50.0, 49.0), (10.0, 16.0, 20.0, 30.0), (), (), 4, "")
    cut = tracks.stretches(way)
    assert cut.length_m == pytest.approx((20.0, 20.0, 20.0, 20.0))
    assert cut.start_m == pytest.approx((0.0, 20.0, 40.0, 60.0))
    assert cut.slope == pytest.approx((0.1, 0.1, 0.1, -0.05))
    assert cut.speed_kmh == pytest.approx((11.0, 13.0, 15.0, 25.0))
    with pytest.raises(ValueError, match="above zero"):
        tracks.stretches(way, 0.0)


# Documents written by hand after the open schemas of GPX 1.0 and 1.1 (topografix.com/GPX/1/0 and /1/1), from memory.

ALL_OF_1_1 = """<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
 xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">
 <metadata><name>document</name><desc>d</desc><author><name>nobody</name><email id="a" domain="example.org"/></author>
  <copyright author="nobody"><year>2026</year></copyright><link href="http://example.org"><text>t</text></link>
  <time>2026-01-01T00:00:00Z</time><keywords>k</keywords><bounds minlat="0" minlon="0" maxlat="1" maxlon="1"/>
  <extensions><own xmlns="http://example.org/own"/></extensions></metadata>
 <wpt lat="10" lon="10"><ele>5</ele><name>bench</name></wpt>
 <rte><name>route</name><rtept lat="11" lon="10"/><rtept lat="12" lon="10"/></rte>
 <trk><name><![CDATA[Along the weir & back]]></name><cmt>c</cmt><src>s</src><number>1</number><type>ride</type>
  <trkseg>
   <trkpt lat="0.0000" lon="0"><ele> +100. </ele><time>2026-05-01T10:00:00Z</time><magvar>1.0</magvar>
    <geoidheight>40</geoidheight><fix>3d</fix><sat>9</sat><hdop>1.2</hdop><vdop>1.3</vdop><pdop>1.4</pdop></trkpt>
   <trkpt lat="+.0010" lon="0.0"><ele>100.5</ele><time>2026-05-01T12:00:20.000+02:00</time></trkpt>
   <trkpt lat="0.002" lon="-0"><!-- remark --><ele>101</ele><time>2026-05-01T10:00:40.0Z</time></trkpt>
  </trkseg>
 </trk>
 <extensions><own xmlns="http://example.org/own">x</own></extensions>
</gpx>"""

ALL_OF_1_0 = """<?xml version="1.0"?>
<gpx version="1.0" creator="hand" xmlns="http://www.topografix.com/GPX/1/0"><name>old</name><time>2002-01-01T00:00:00Z</time>
 <trk><trkseg>
  <trkpt lat="0" lon="0"><ele>1</ele><course>0</course><speed>5</speed></trkpt>
  <trkpt lat="0" lon="0.001"><ele>1</ele><course>0</course><speed>5</speed></trkpt>
 </trkseg></trk></gpx>"""


def read(text: str | bytes) -> Track:
    found, problems = read_track(text, file_name="ride.gpx")
    assert problems == () and found is not None
    return found


def assert_is_the_weir(found: Track) -> None:
    assert found.title == "Along the weir & back"
    assert found.distance_m == pytest.approx((0.0, 110.574, 221.149), abs=0.002)
    assert found.elevation_m == pytest.approx((100.0, 100.5, 101.0))
    assert found.speed_kmh == pytest.approx([110.574 / 20.0 * 3.6] * 3, rel=1e-4)


def test_a_document_with_everything_that_gpx_1_1_has() -> None:
    assert_is_the_weir(read(ALL_OF_1_1))


def test_namespace_prefixes_and_encodings_change_nothing() -> None:
    prefixed = ALL_OF_1_1.replace('xmlns="http://www.topografix', 'xmlns:g="http://www.topografix')
    for name in ("gpx", "metadata", "trk", "trkseg", "trkpt", "ele", "time", "name", "rte", "rtept", "wpt"):
        prefixed = prefixed.replace(f"<{name} ", f"<g:{name} ").replace(f"<{name}>", f"<g:{name}>")
        prefixed = prefixed.replace(f"</{name}>", f"</g:{name}>")
    assert_is_the_weir(read(prefixed))
    assert_is_the_weir(read(ALL_OF_1_1.encode()))
    assert_is_the_weir(read(ALL_OF_1_1.replace("UTF-8", "UTF-16").encode("utf-16")))
    assert_is_the_weir(read(ALL_OF_1_1.replace("UTF-8", "ISO-8859-1").encode("latin-1")))


def test_gpx_1_0_tells_speeds_in_metres_per_second() -> None:
    found = read(ALL_OF_1_0)
    assert found.title == "old" and found.source == "ride.gpx: GPX 1.0, track points"
    assert found.speed_kmh == pytest.approx((18.0, 18.0))
    assert found.length_m == pytest.approx(111.320, abs=0.001)

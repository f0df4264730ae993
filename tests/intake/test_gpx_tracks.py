"""Tracks from GPX: what is joined, what is left out, and what is told."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest
from intake.track_texts import HEAD, faults, gpx, noted, point, ride, track

from fitdb.formulas import tracks as formulas
from fitdb.intake import gpx_tracks


def test_gpx_gives_way_heights_and_speeds() -> None:
    text = gpx(ride(0, 201)).replace("<trk>", "<metadata><name>all</name></metadata><trk><name> River\n path </name>")
    found = track(text)
    assert found.length_m == pytest.approx(1000.0, rel=1e-4)
    assert found.speed_kmh == pytest.approx([18.0] * len(found.distance_m), rel=1e-3)
    assert found.elevation_m == pytest.approx([100.0] * len(found.distance_m))
    assert (found.title, found.points_read, found.gaps) == ("River path", 201, ())
    assert found.source == "ride.x: GPX 1.1, track points"


def test_points_are_thinned_to_one_in_five_metres() -> None:
    found = track(gpx(point(0.5 * i, 0.1 * i, 100.0) for i in range(2001)))
    assert found.points_read == 2001
    assert min(b - a for a, b in pairwise(found.distance_m)) >= 5.0
    assert found.length_m == pytest.approx(1000.0, rel=1e-4)


def test_two_parts_near_each_other_are_joined_with_a_gap() -> None:
    found = track(gpx(ride(0, 101), [point(530.0 + 5 * i, 400.0 + i, 100.0) for i in range(100)]))
    (gap,) = found.gaps
    assert (gap.from_m, gap.to_m) == pytest.approx((500.0, 530.0), rel=1e-3)
    assert (gap.seconds, gap.metres) == pytest.approx((300.0, 30.0), rel=1e-3)
    assert found.speed_kmh == pytest.approx([18.0] * len(found.distance_m), rel=1e-3)
    assert noted(found, "interrupted once")


def test_metres_between_far_parts_are_not_way_and_their_step_is_no_slope() -> None:
    first = [point(5.0 * i, i, 100.0) for i in range(101)]
    found = track(gpx(first, [point(5000.0 + 5 * i, 900.0 + i, 180.0) for i in range(101)]))
    assert found.length_m == pytest.approx(1000.0, rel=1e-3)
    (gap,) = found.gaps
    assert gap.from_m == gap.to_m == pytest.approx(500.0, rel=1e-3)
    assert gap.metres == pytest.approx(4500.0, rel=1e-3)
    assert (found.ascent_m, found.raw_ascent_m) == (0.0, 0.0)
    cut = formulas.stretches(found)
    assert sum(cut.length_m) == pytest.approx(found.length_m)
    assert cut.slope is not None and max(map(abs, cut.slope)) < 1e-9
    assert max(cut.length_m) <= 25.0


def test_a_stretch_without_points_is_a_gap_that_counts() -> None:
    found = track(gpx([*ride(0, 101), *[point(1000.0 + 5 * i, 200.0 + i, 100.0) for i in range(101)]]))
    (gap,) = found.gaps
    assert (gap.from_m, gap.to_m) == pytest.approx((500.0, 1000.0), rel=1e-3)
    assert (gap.seconds, gap.metres) == pytest.approx((100.0, 500.0), rel=1e-3)
    assert found.length_m == pytest.approx(1500.0, rel=1e-3)


def test_a_stray_point_is_left_out() -> None:
    points = ride(0, 201)
    points[100] = point(9000.0, 100, 100.0)
    found = track(gpx(points))
    assert found.length_m == pytest.approx(1000.0, rel=1e-3)
    assert noted(found, "1 point is left out")


def test_a_jump_faster_than_150_kmh_is_a_gap_that_does_not_count() -> None:
    found = track(gpx([*ride(0, 101), *[point(8000.0 + 5 * i, 101.0 + i, 100.0) for i in range(101)]]))
    assert found.length_m == pytest.approx(1000.0, rel=1e-3)
    (gap,) = found.gaps
    assert gap.from_m == gap.to_m and gap.metres == pytest.approx(7500.0, rel=1e-3)
    assert noted(found, "faster than 150 km/h")


def test_a_drive_by_car_is_a_fault_with_its_place() -> None:
    fast = [point(500.0 + 38.0 * i, 100.0 + i, 100.0) for i in range(1, 61)]  # 137 km/h
    (problem,) = faults(gpx([*ride(0, 101), *fast]))
    assert problem.code == "too_fast" and "120 km/h" in problem.message and "0.50 km" in problem.message


def test_standing_still_adds_no_way_and_does_not_slow_the_ride() -> None:
    dice = random.Random(3)
    wait = [point(500.0 + dice.gauss(0, 1), 100.0 + i, 100.0 + dice.gauss(0, 1)) for i in range(600)]
    found = track(gpx([*ride(0, 101), *wait, *[point(500.0 + 5 * i, 700.0 + i, 100.0) for i in range(1, 101)]]))
    assert found.length_m == pytest.approx(1000.0, rel=0.02)
    assert found.speed_kmh is not None and min(found.speed_kmh) > 12.0
    assert noted(found, "Stops (10.")


def test_a_clock_that_goes_back_and_repeated_points_are_told() -> None:
    points = [*ride(0, 101), ride(100, 101)[0], *[point(5.0 * i, i - 50.0, 100.0) for i in range(101, 201)]]
    found = track(gpx(points))
    assert found.speed_kmh == pytest.approx([18.0] * len(found.distance_m), rel=1e-3)
    assert noted(found, "clock goes back once") and noted(found, "1 point is repeated")


def test_points_without_times_or_heights_are_a_way_all_the_same() -> None:
    found = track(gpx(point(5.0 * i) for i in range(50)))
    assert found.speed_kmh is None and found.elevation_m is None
    assert noted(found, "How fast it was ridden is unknown") and noted(found, "Heights are unknown")


def test_odd_heights_and_times_are_left_out_and_told() -> None:
    points = [point(5.0 * i, i, 100.0) for i in range(100)]
    points[50] = point(250.0, 50, -32768.0)
    points[60] = points[60].replace("2026-05-01", "yesterday ")
    points[70] = points[70].replace("<ele>100.0</ele>", "<ele>NaN</ele>")
    found = track(gpx(points))
    assert found.elevation_m == pytest.approx([100.0] * len(found.distance_m))
    assert noted(found, "where no road is, were left out: 1.") and noted(found, "ISO 8601 were left out: 1.")


def test_a_route_serves_where_there_is_no_track_and_places_where_there_is_no_route() -> None:
    places = "".join(point(1000.0 * i, name="wpt") for i in range(3))
    route = "<rte><name>there</name>" + "".join(point(500.0 * i, name="rtept") for i in range(4)) + "</rte>"
    by_route = track(HEAD + places + route + "</gpx>")
    assert (by_route.title, by_route.points_read, by_route.gaps) == ("there", 4, ())
    assert by_route.length_m == pytest.approx(1500.0, rel=1e-3) and noted(by_route, "no track")
    by_places = track(HEAD + places + "</gpx>")
    assert by_places.points_read == 3 and noted(by_places, "in the order of the file")
    by_track = track(HEAD + places + route + f"<trk><trkseg>{''.join(ride(0, 50))}</trkseg></trk></gpx>")
    assert by_track.points_read == 50


def test_extensions_are_passed_over() -> None:
    text = gpx(ride(0, 50)).replace(
        "</trkpt>", '<extensions><a xmlns="b"><ele>7</ele><trkpt lat="x"/></a><ele>9</ele></extensions></trkpt>'
    )
    assert set(track(text).elevation_m or ()) == {100.0}


def test_positions_that_are_none_are_faults_at_their_row_and_column() -> None:
    text = gpx(
        ["\n<trkpt lat='91' lon='0'/>", "\n<trkpt lon='x'/>", "\n<trkpt lat='1' lon='2'><ele>high</ele></trkpt>"]
    )
    told = [(problem.code, problem.row, problem.column) for problem in faults(text)]
    assert told == [
        ("impossible_value", 2, "lat"),
        ("missing_value", 3, "lat"),
        ("impossible_value", 3, "lon"),
        ("not_a_number", 4, "ele"),
    ]


def test_a_time_is_read_as_iso_8601_and_without_a_zone_as_universal_time() -> None:
    """1970-01-01T00:00:00Z is second 0 (POSIX)."""
    assert gpx_tracks.seconds_of("1970-01-01T00:01:00Z") == 60.0
    assert gpx_tracks.seconds_of(" 1970-01-01T01:00:00+01:00 ") == 0.0
    assert gpx_tracks.seconds_of("1970-01-01T00:00:01.5") == 1.5
    assert gpx_tracks.seconds_of("soon") is None

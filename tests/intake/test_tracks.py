"""Tracks: what is read from tables, what is refused of any file, and what noise is left in the heights."""

from __future__ import annotations

import math
import random
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from intake.track_texts import HEAD, METRES_PER_DEGREE, assert_sound, codes, faults, gpx, noted, point, ride, track

from fitdb.formulas import tracks as formulas
from fitdb.intake import track_drafts
from fitdb.intake.tracks import read_track, track_of_file
from fitdb.model.problems import Malformed
from fitdb.model.track import Track

EXAMPLE = Path(__file__).parents[2] / "seed_parts" / "plans" / "river-path-ride.csv"

# Tables


def test_a_table_gives_way_heights_and_speeds() -> None:
    found = track("distance [m],elevation [m],speed [km/h]\n0,100,20\n50,101,20\n100,104,20\n")
    assert found.distance_m == (0.0, 50.0, 100.0)
    assert found.elevation_m == (100.0, 101.0, 104.0)
    assert found.speed_kmh == pytest.approx((20.0, 20.0, 20.0))
    assert (found.ascent_m, found.descent_m, found.raw_ascent_m, found.raw_descent_m) == (4.0, 0.0, 4.0, 0.0)
    assert (found.points_read, found.gaps, found.title, found.source) == (3, (), "ride", "ride.x: table")


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_the_separator_and_the_ends_of_lines_are_found_out(separator: str, end: str) -> None:
    rows = [["distance [km]", "elevation [ft]", "speed [mph]"], ["0", "100", "10"], ["1", "200", "10"]]
    found = track(end.join(separator.join(row) for row in rows))
    assert found.distance_m == (0.0, 1000.0)
    assert found.elevation_m == pytest.approx((30.48, 60.96))  # a foot is 0.3048 m by definition
    assert found.speed_kmh == pytest.approx((16.09344, 16.09344))  # a mile is 1.609344 km by definition


def test_a_decimal_comma_is_read_where_the_comma_parts_no_cells() -> None:
    found = track("distance [m];elevation [m]\n0,5;10,25\n100,5;11\n")
    assert found.distance_m == (0.0, 100.0)
    assert found.elevation_m == (10.25, 11.0)
    assert noted(found, "first row stands at 0.5 m")


def test_a_decimal_comma_among_commas_is_a_fault_that_names_the_semicolon() -> None:
    (problem,) = faults('distance [m],elevation [m]\n0,1\n10,"1,5"\n')
    assert (problem.code, problem.row, problem.column) == ("not_a_number", 3, "elevation [m]")
    assert "semicolon" in problem.hint


def test_remarks_empty_rows_and_a_byte_order_mark_are_passed_over_and_rows_stay_counted() -> None:
    text = "\N{ZERO WIDTH NO-BREAK SPACE}# invented\n\ndistance [m],speed [m/s]\n# here\n0,5\n\n100,5\n"
    assert track(text.encode()).speed_kmh == pytest.approx((18.0, 18.0))
    assert track(text[1:].encode("utf-16")).distance_m == (0.0, 100.0)
    assert faults(text + "x,5\n")[0].row == 8


def test_all_faults_of_a_table_come_at_once_with_row_and_column() -> None:
    rows = ("0,x,10", ",1,10", "20,1,130", "10,1,10", "30,99999,-1", "40,1,1,1", "50,nan,1e999")
    text = "distance [m],elevation [m],speed [km/h]\n" + "\n".join(rows)
    told = [(problem.code, problem.row, problem.column) for problem in faults(text)]
    assert told == [
        ("not_a_number", 2, "elevation [m]"),
        ("missing_value", 3, "distance [m]"),
        ("impossible_value", 4, "speed [km/h]"),
        ("impossible_value", 6, "elevation [m]"),
        ("impossible_value", 6, "speed [km/h]"),
        ("too_many_cells", 7, ""),
        ("not_a_number", 8, "elevation [m]"),
        ("impossible_value", 8, "speed [km/h]"),
    ]


def test_a_distance_that_goes_back_is_a_fault() -> None:
    (problem,) = faults("distance [m]\n0\n20\n10\n30\n")
    assert (problem.code, problem.row) == ("goes_back", 4)


def test_after_twenty_faults_the_rest_is_counted() -> None:
    problems = faults("distance [m]\n" + "x\n" * 500)
    assert len(problems) == 21
    assert (problems[-1].code, problems[-1].message) == ("more_faults", "And 480 more.")


@pytest.mark.parametrize(
    ("heading", "code", "column"),
    [
        ("distance,elevation [m]", "missing_unit", "distance"),
        ("distance [furlong]", "unknown_unit", "distance [furlong]"),
        ("distance [kg]", "other_dimension", "distance [kg]"),
        ("distance [m],way [km]", "repeated_heading", "way [km]"),
        ("lat [deg],elevation [m]", "missing_heading", ""),
        ("elevation [m]", "missing_heading", ""),
        ('"distance [m', "not_csv", ""),
    ],
)
def test_a_heading_is_refused_with_its_reason(heading: str, code: str, column: str) -> None:
    (problem,) = faults(heading + "\n0,1\n10,2\n")
    assert (problem.code, problem.row, problem.column) == (code, 1, column)
    assert problem.hint


def test_a_column_that_is_not_used_is_named_and_the_nearest_one_told() -> None:
    found = track("distance [m],elevaton [m]\n0,1\n10,2\n")
    assert noted(found, "`elevaton [m]` is not used. Did you mean `elevation`?")
    assert not found.elevation_known


def test_positions_in_a_table_are_as_good_as_distances() -> None:
    rows = "\n".join(f"{5 * i / METRES_PER_DEGREE:.9f};0;{i}" for i in range(200))
    found = track(f"lat [°];lon [deg];time [s]\n{rows}\n")
    assert found.length_m == pytest.approx(995.0, rel=1e-4)
    assert found.speed_kmh == pytest.approx([18.0] * len(found.distance_m), rel=1e-3)


def test_the_invented_example_is_a_ride_of_twelve_kilometres_over_two_ramps() -> None:
    found = track_of_file(EXAMPLE)
    assert found.length_m == 12_000.0 and found.gaps == () and found.elevation_known
    assert found.ascent_m is not None and 12.0 < found.ascent_m < 16.0
    assert noted(found, "demo_invention")
    assert max(formulas.stretches(found).slope or ()) == pytest.approx(0.096, abs=0.005)


# Heights


def test_unknown_heights_are_not_flat() -> None:
    found = track("distance [m],speed [km/h]\n0,10\n100,10\n")
    assert found.elevation_m is None and not found.elevation_known
    assert (found.ascent_m, found.raw_ascent_m) == (None, None)
    assert formulas.stretches(found).slope is None
    assert noted(found, "does not mean flat")


def test_a_few_missing_heights_are_bridged_and_many_leave_all_unknown() -> None:
    def with_holes(holes: range) -> Track:
        return track(
            "distance [m],elevation [m]\n" + "".join(f"{10 * i},{'' if i in holes else i}\n" for i in range(101))
        )

    few = with_holes(range(40, 43))
    assert few.elevation_m == pytest.approx([float(i) for i in range(101)])
    assert noted(few, "height is drawn straight")
    many = with_holes(range(40, 60))
    assert many.elevation_m is None and noted(many, "tells none on 21 % of the way")


@pytest.mark.parametrize("spread", ["even", "normal"])
@pytest.mark.parametrize("apart", [1.0, 5.0, 7.0, 20.0])
def test_noise_on_the_flat_leaves_less_than_a_tenth_of_its_climbing(spread: str, apart: float) -> None:
    """White noise of ±3 m, as an even spread and as a standard deviation."""
    dice = random.Random(7)
    noise: Callable[[], float] = (lambda: dice.uniform(-3, 3)) if spread == "even" else (lambda: dice.gauss(0, 3))
    rows = "".join(f"{i * apart:g},{100 + noise():.2f}\n" for i in range(int(12_000 / apart)))
    found = track("distance [m],elevation [m]\n" + rows)
    assert found.ascent_m is not None and found.raw_ascent_m is not None
    assert found.raw_ascent_m > 500.0
    assert found.ascent_m < 0.1 * found.raw_ascent_m


@pytest.mark.parametrize("half", [250.0, 500.0, 2000.0])
@pytest.mark.parametrize("noise", [0.0, 0.3, 1.0])
def test_a_hill_of_fifty_metres_keeps_its_ascent_within_five_percent(half: float, noise: float) -> None:
    """A hill with a rounded top, read without noise and with that of a barometer, on average of six rides."""
    told = []
    for seed in range(6):
        dice = random.Random(seed)
        rows = []
        for i in range(int((2.0 * half + 1000.0) / 5.0)):
            share = min(1.0, max(0.0, (5.0 * i - 500.0) / (2.0 * half)))
            rows.append(f"{5 * i},{25.0 * (1.0 - math.cos(2.0 * math.pi * share)) + dice.gauss(0, noise):.3f}\n")
        found = track("distance [m],elevation [m]\n" + "".join(rows))
        assert found.ascent_m is not None
        told.append(found.ascent_m)
    assert sum(told) / len(told) == pytest.approx(50.0, rel=0.05)


def test_a_staircase_of_whole_metres_climbs_no_more_than_the_ramp_it_stands_for() -> None:
    rows = "".join(f"{5 * i},{round(0.05 * 5 * i)}\n" for i in range(201))
    assert track("distance [m],elevation [m]\n" + rows).ascent_m == pytest.approx(50.0, abs=1.0)  # one step


def test_a_wall_is_told_and_not_clipped() -> None:
    found = track("distance [m],elevation [m]\n0,0\n10,0\n20,9\n30,9\n")
    assert noted(found, "slope is 90 % or more in 1 place, first at 0.01 km")
    assert found.elevation_m is not None and found.elevation_m[2] - found.elevation_m[1] == 9.0


# Any file


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "empty"),
        ("\n\n# nothing\n", "empty"),
        (b"PK\x03\x04abc", "packed_file"),
        (b"\x1f\x8babc", "packed_file"),
        ("distance [m]\nh\xf6he".encode("latin-1"), "not_utf_8"),
        ("distance [m]\n" + "1" * 20_000, "line_too_long"),
        ("distance [m]\n", "no_points"),
        ("distance [m]\n5\n", "one_point"),
        ("distance [m]\n5\n5\n6\n", "no_length"),
        ("distance [km]\n0\n5000\n", "too_long"),
        (gpx([]), "no_points"),
        (gpx([point(0.0)]), "one_point"),
        (gpx([point(0.0), point(1.0), point(2.0)]), "no_length"),
        ("<html/>", "not_gpx"),
        ('<gpx xmlns="http://example.org/own"/>', "unknown_version"),
        ("<gpx>", "not_xml"),
        (gpx(ride(0, 50))[:-30], "not_xml"),
        ('<!DOCTYPE gpx [<!ENTITY a "b">]><gpx>&a;</gpx>', "doctype_refused"),
        ('<!DOCTYPE gpx SYSTEM "file:///etc/passwd"><gpx/>', "doctype_refused"),
        (b'<?xml version="1.0" encoding="nothing"?><gpx/>', "unknown_encoding"),
        ("<gpx>" + "<a>" * 100, "too_deep"),
        ("<gpx><!--" + " " * 2_000_000 + "--></gpx>", "too_large"),
    ],
)
def test_what_is_no_track_is_refused_with_its_reason(text: str | bytes, code: str) -> None:
    assert codes(text) == [code]


# Bounds


def test_more_bytes_than_allowed_are_refused() -> None:
    found, (problem,) = read_track(gpx(ride(0, 5000)), file_name="ride.x", most_bytes=100_000)
    assert found is None and problem.code == "too_large" and "0.1 MB" in problem.message


@pytest.mark.parametrize("kind", ["gpx", "table"])
def test_more_points_than_allowed_end_the_reading(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert track_drafts.MOST_POINTS == 1_000_000
    for module in ("gpx_tracks", "csv_tracks"):
        monkeypatch.setattr(f"fitdb.intake.{module}.MOST_POINTS", 100)
    text = gpx(ride(0, 101)) if kind == "gpx" else "distance [m]\n" + "".join(f"{i}\n" for i in range(101))
    assert codes(text) == ["too_many_points"]


def test_a_way_in_a_thousand_parts_is_refused() -> None:
    assert codes(gpx(*([point(300.0 * i)] for i in range(1500)))) == ["too_many_gaps"]


def test_many_points_are_read_in_bounded_time() -> None:
    """A million points at this rate take some ten seconds; ten times that would still be no minutes lost."""
    text = gpx(point(2.0 * i, 0.5 * i, 100.0) for i in range(40_000))
    start = time.thread_time()
    assert track(text).points_read == 40_000
    assert 40_000 / (time.thread_time() - start) > 10_000


def test_a_file_that_is_not_there_is_malformed(tmp_path: Path) -> None:
    with pytest.raises(Malformed) as raised:
        track_of_file(tmp_path / "none.gpx")
    assert [problem.code for problem in raised.value.problems] == ["unreadable_file"]


# Any text

CELLS = st.sampled_from(["0", "5", "10", "1e3", "-1", "", "x", "1,5", '"', "nan", "20", "99999", "1e999", "\x00"])
PARTS = ("<trk>", "</trk>", "<trkseg>", "</trkseg>", "<rte>", "</rte>", "<name>", "&lt;", "</gpx>")
POINTS = ('<trkpt lat="1" lon="1">', '<trkpt lat="1.001" lon="1">', "</trkpt>", "<ele>", "</ele>", "<time>", "</time>")
TAGS = st.sampled_from((*PARTS, *POINTS, "5", "2026-05-01T00:00:00Z"))


@settings(max_examples=300, deadline=None)
@given(
    st.one_of(
        st.text(),
        st.binary(),
        st.text().map(lambda text: "<gpx>" + text),
        st.binary().map(lambda data: b"<" + data),
        st.text().map(lambda text: "distance [m],elevation [m]\n" + text),
        st.lists(TAGS).map(lambda tags: HEAD + "".join(tags)),
        st.lists(st.lists(CELLS, max_size=4).map(";".join)).map(
            lambda rows: "\n".join(["distance [m];elevation [m];speed [km/h];time [s]", *rows])
        ),
    )
)
def test_any_text_is_a_track_or_faults_and_never_an_exception(text: str | bytes) -> None:
    found, problems = read_track(text, file_name="any")
    assert (found is None) == bool(problems)
    if found is not None:
        assert_sound(found)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.one_of(st.floats(-90, 90), st.floats(0, 0.01)),
            st.one_of(st.floats(-180, 180), st.floats(0, 0.01)),
            st.one_of(st.none(), st.integers(0, 86_000)),
            st.one_of(st.none(), st.floats(-600, 9100)),
            st.booleans(),
        ),
        max_size=30,
    )
)
def test_any_points_are_a_sound_track_or_faults(
    points: list[tuple[float, float, int | None, float | None, bool]],
) -> None:
    parts: list[list[str]] = [[]]
    for latitude, longitude, seconds, height, breaks in points:
        if breaks:
            parts.append([])
        one = point(0.0, seconds, height).replace(
            'lat="0.000000000" lon="0"', f'lat="{latitude!r}" lon="{longitude!r}"'
        )
        parts[-1].append(one)
    found, problems = read_track(gpx(*parts), file_name="any")
    assert (found is None) == bool(problems)
    if found is not None:
        assert_sound(found)

"""Charts as SVG: well formed, readable, true to their numbers, the same every time."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from svg_reading import SVG, forbidden_in, outside_the_view, overlapping, points_of, root_of, view_of, words_of

from fitdb.drawings.chart_axes import axis_for
from fitdb.drawings.charts import MOST_POINTS, chart_svg
from fitdb.model.outlook import Chart, Series
from fitdb.model.problems import OurFault


def series(name: str, board: str, role: str, x: list[float], y: list[float], share: float = 0.0) -> Series:
    low = tuple(value - abs(value) * share for value in y) if share else ()
    high = tuple(value + abs(value) * share for value in y) if share else ()
    return Series(name, board, role, tuple(x), tuple(y), low, high)


def chart(*some: Series, title: str = "Force against speed", missing: str = "") -> Chart:
    told = "What the drive pulls at full throttle."
    return Chart("force", title, told, "speed", "km/h", "force at the road", "N", some, missing)


SPEEDS = [0.5 * step for step in range(81)]
TENTHS = [0.1 * step for step in range(181)]


def force_chart() -> Chart:
    """Pull of two boards over rolling and air resistance, on the flat and on a slope, with the grip of the wheels."""
    some = []
    for board, top, most in (("before", 37.0, 260.0), ("built", 33.0, 330.0)):
        there = [speed for speed in SPEEDS if speed <= top]
        pull = [min(most, most * (top - speed) / 15.0) for speed in there]
        some.append(series("pull of the drive", board, "main", there, pull, 0.07))
        for name, slope in (("resistance on the flat", 0.0), ("resistance at 8 % slope", 0.08)):
            force = [91 * 9.81 * (0.015 + slope) + 0.3 * (speed / 3.6) ** 2 for speed in SPEEDS]
            some.append(series(name, board, "resistance", SPEEDS, force))
        grip = 420.0 if board == "before" else 405.0
        some.append(series("grip of the rear wheels", board, "limit", [0.0, 40.0], [grip, grip]))
    return chart(*some)


def range_chart() -> Chart:
    speeds = [10.0 + step for step in range(26)]
    some = []
    for board, share in (("before", 1.0), ("as_asked", 0.96), ("built", 0.93)):
        some.append(series("range", board, "main", speeds, [share * 200 / (9 + 0.011 * v**2) for v in speeds], 0.15))
        ridden = 20.0 + 2 * share
        some.append(series("speed ridden", board, "point", [ridden], [share * 200 / (9 + 0.011 * ridden**2)], 0.1))
    return chart(*some, title="Range against speed")


def stopping_chart() -> Chart:
    speeds = [10.0 + step for step in range(26)]
    some = []
    for board, slowing in (("before", 3.0), ("built", 3.6)):
        for name, role, share in (("dry", "main", 1.0), ("wet", "main", 0.6), ("pack full", "limit", 0.45)):
            way = [v / 3.6 * 0.8 + (v / 3.6) ** 2 / (2 * slowing * share) for v in speeds]
            some.append(series(name, board, role, speeds, way))
    return chart(*some, title="Stopping distance against speed")


def turn_chart() -> Chart:
    leans = [3.0 + step for step in range(23)]
    some = []
    for board, angle in (("before", 48.0), ("as_asked", 50.0), ("built", 44.0)):
        turn = [0.34 / (math.tan(math.radians(angle)) * math.sin(math.radians(lean))) for lean in leans]
        some.append(series("turn radius", board, "main", leans, turn, 0.1))
        some.append(series("full lean", board, "point", [leans[15]], [turn[15]]))
    return chart(*some, title="Turn radius against lean")


CHARTS = {
    "force": force_chart(),
    "range": range_chart(),
    "stopping": stopping_chart(),
    "turn": turn_chart(),
    "volts": chart(
        series("pack under load", "before", "main", TENTHS, [41.5 - 0.4 * x for x in TENTHS], 0.02),
        series("pack under load", "built", "main", TENTHS[:150], [41.2 - 0.5 * x for x in TENTHS[:150]], 0.02),
        series("cut-off", "before", "limit", [0, 18], [32, 32]),
        series("cut-off", "built", "limit", [0, 18], [31, 31]),
    ),
    "one point": chart(series("single", "before", "point", [3.0], [7.0])),
    "one point of a line": chart(series("single", "before", "main", [3.0], [7.0])),
    "flat line": chart(series("flat", "built", "main", [0.0, 10.0], [5.0, 5.0])),
    "flat at zero": chart(series("flat", "built", "main", [0.0, 10.0], [0.0, 0.0])),
    "negative": chart(series("braking", "built", "main", [0.0, 10.0], [-5.0, -250.0], 0.2)),
    "both signs": chart(series("net", "built", "main", [0.0, 10.0], [90.0, -25.0], 0.2)),
    "huge": chart(series("huge", "built", "main", [0.0, 1e9], [1e300, -1.7e308])),
    "small": chart(series("small", "built", "main", [0.0, 1e-9], [5e-324, 3e-7])),
    "long words": chart(
        series("the longest name that anybody would give to a line of a chart " * 2, "built", "main", [0, 1], [0, 1]),
        series("Einzelwortdasniemandtrennenkann" * 2, "before", "main", [0, 1], [0, 1]),
        title="A title that is longer than the sheet is wide and goes on for a while " * 3,
    ),
    "missing": chart(missing="Nobody has read the speed constant of the motors."),
    "no series": chart(),
    "no points": chart(series("empty", "built", "main", [], [])),
}  # fmt: skip


@pytest.mark.parametrize("name", CHARTS)
def test_every_chart_is_a_well_formed_document_that_holds_its_words(name: str) -> None:
    root = root_of(chart_svg(CHARTS[name]))
    assert root.tag == f"{SVG}svg"
    assert outside_the_view(root) == []
    assert overlapping(root) == []
    assert forbidden_in(root) == []
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]


def test_letters_are_read_on_a_print_80_mm_wide() -> None:
    root = root_of(chart_svg(CHARTS["force"]))
    _, _, width, _ = view_of(root)
    # Newspapers print no running text below about 6 point, 2.1 mm (common practice, no source).
    assert float(root.attrib["font-size"]) * 80.0 / width >= 2.1


def test_boards_are_told_apart_by_dashes_and_by_words() -> None:
    root = root_of(chart_svg(CHARTS["range"]))
    dashes = {
        line.get("stroke-dasharray", "") for line in root.iter(f"{SVG}polyline") if line.get("stroke-width") == "2.4"
    }
    assert len(dashes) == 3
    words = " ".join(one.text for one in words_of(root))
    for board in ("before", "as asked", "as built"):
        assert words.count(board) >= 1, words
    marks = [e for group in root.iter(f"{SVG}g") for e in group if e.tag in (f"{SVG}circle", f"{SVG}polygon")]
    assert {(mark.tag, mark.get("fill") == "#ffffff") for mark in marks} == {
        (f"{SVG}circle", True), (f"{SVG}circle", False), (f"{SVG}polygon", False),
    }  # fmt: skip


def test_what_is_the_same_on_both_boards_is_drawn_once() -> None:
    root = root_of(chart_svg(CHARTS["force"]))
    assert sum("slope" in (title.text or "") for group in root.iter(f"{SVG}g") for title in group) == 1
    assert sum("grip" in (title.text or "") for group in root.iter(f"{SVG}g") for title in group) == 2


def test_a_reader_who_hears_the_chart_gets_its_numbers() -> None:
    told = root_of(chart_svg(CHARTS["force"])).findtext(f"{SVG}desc") or ""
    assert "What the drive pulls at full throttle." in told
    assert "pull of the drive, before: 260 N at 0 km/h to 0 N at 37 km/h" in told
    assert "grip of the rear wheels, as built: 405 N" in told


def test_the_lines_lie_where_the_ticks_say() -> None:
    root = root_of(chart_svg(chart(series("line", "built", "main", [0.0, 12.5, 30.0], [0.0, 110.0, 300.0]))))
    path = points_of(next(line for line in root.iter(f"{SVG}polyline") if line.get("stroke-width") == "2.4"))
    ticks = {float(one.text): one for one in words_of(root) if one.text.replace(".", "").isdigit()}
    zero, top = (0.0, path[0][1]), (300.0, path[2][1])
    # 110 of 300 lies that share of the way up, and 12.5 of 30 that share across.
    assert (path[1][1] - zero[1]) / (top[1] - zero[1]) == pytest.approx(110 / 300, abs=1e-3)
    assert (path[1][0] - path[0][0]) / (path[2][0] - path[0][0]) == pytest.approx(12.5 / 30, abs=1e-3)
    middle = (ticks[300.0].top + ticks[300.0].bottom) / 2
    assert middle == pytest.approx(path[2][1], abs=3.0)


@settings(deadline=None, max_examples=200)
@given(st.lists(st.floats(-1e12, 1e12), min_size=1, max_size=20))
def test_an_axis_is_monotone_and_holds_its_values(values: list[float]) -> None:
    for ends_on_ticks in (True, False):
        axis = axis_for(values, 7, ends_on_ticks)
        shares = [axis.share(value) for value in sorted(values)]
        assert shares == sorted(shares)
        assert shares[0] >= -1e-6 and shares[-1] <= 1 + 1e-6
        assert 2 <= len(axis.ticks) <= 16
        assert list(axis.ticks) == sorted(set(axis.ticks))
        assert len({axis.tick_words(tick) for tick in axis.ticks}) == len(axis.ticks)


def test_ticks_are_round() -> None:
    # The steps 1, 2 and 5 (and 2.5) times a power of ten: common practice of engineering drawing, no source.
    assert axis_for([0.0, 37.0], 8).ticks == (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0)
    assert axis_for([33.1, 41.9], 7).ticks == (32.0, 34.0, 36.0, 38.0, 40.0, 42.0)
    axis = axis_for([0.0, 4.2e7], 7)
    assert axis.unit_words("N") == "[10⁶ N]"
    assert axis.tick_words(axis.ticks[-1]) == "50"


def test_a_line_of_ten_thousand_points_is_thinned_and_keeps_its_peaks() -> None:
    xs = [float(number) for number in range(10_000)]
    ys = [100.0 + math.sin(x / 300.0) for x in xs]
    ys[6543] = 250.0
    ys[1234] = -50.0
    root = root_of(chart_svg(chart(series("noisy", "built", "main", xs, ys, 0.05))))
    path = points_of(next(line for line in root.iter(f"{SVG}polyline") if line.get("stroke-width") == "2.4"))
    assert len(path) <= MOST_POINTS
    assert [x for x, _ in path] == sorted(x for x, _ in path)
    full = root_of(
        chart_svg(
            chart(series("few", "built", "main", [0.0, 1234.0, 6543.0, 9999.0], [100.0, -50.0, 250.0, 100.0], 0.05))
        )
    )
    few = points_of(next(line for line in full.iter(f"{SVG}polyline") if line.get("stroke-width") == "2.4"))
    # The band of the noisy line reaches 5 % beyond the peak; axes end on round ticks, here the same ones.
    assert min(y for _, y in path) == pytest.approx(min(y for _, y in few), abs=0.01)
    assert max(y for _, y in path) == pytest.approx(max(y for _, y in few), abs=0.01)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_what_is_not_a_number_is_our_fault(bad: float) -> None:
    fine = series("pull", "built", "main", [0.0, 1.0], [1.0, 2.0], 0.1)
    for field in ("x", "y", "low", "high"):
        with pytest.raises(OurFault, match="pull"):
            chart_svg(chart(dataclasses.replace(fine, **{field: (0.0, bad)})))


def test_a_chart_that_breaks_its_contract_is_our_fault() -> None:
    fine = series("pull", "built", "main", [0.0, 1.0], [1.0, 2.0], 0.1)
    for broken in (
        dataclasses.replace(fine, y=(1.0,)),
        dataclasses.replace(fine, low=(1.0,)),
        dataclasses.replace(fine, low=()),
        dataclasses.replace(fine, board="tomorrow"),
        dataclasses.replace(fine, role="decoration"),
    ):
        with pytest.raises(OurFault):
            chart_svg(chart(broken))


def test_a_chart_without_a_line_says_why() -> None:
    for name, sentence in (("missing", "Nobody has read the speed constant"), ("no series", "nobody has read enough")):
        root = root_of(chart_svg(CHARTS[name]))
        assert sentence in " ".join(one.text for one in words_of(root))
        assert sentence in (root.findtext(f"{SVG}desc") or "")


def test_marks_of_the_markup_in_names_are_only_letters() -> None:
    root = root_of(
        chart_svg(chart(series('a < b & "c" > d', "built", "main", [0, 1], [0, 1]), title='x < y & "z"\x00'))
    )
    assert (root.findtext(f"{SVG}title") or "").startswith('x < y & "z"')
    assert 'a < b & "c" > d' in " ".join(one.text for one in words_of(root))


def test_the_same_chart_is_always_drawn_the_same() -> None:
    assert chart_svg(force_chart()) == chart_svg(force_chart())


@settings(deadline=None, max_examples=60)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(["main", "resistance", "limit", "point"]),
            st.sampled_from(["before", "as_asked", "built"]),
            st.lists(st.tuples(st.floats(0, 50), st.floats(-500, 500)), min_size=1, max_size=6),
        ),
        min_size=1,
        max_size=12,
    )
)
def test_labels_keep_clear_of_each_other_whatever_is_drawn(
    lines: list[tuple[str, str, list[tuple[float, float]]]],
) -> None:
    some = [
        series(f"line {number}", board, role, [x for x, _ in points], [y for _, y in points])
        for number, (role, board, points) in enumerate(lines)
    ]
    root = root_of(chart_svg(chart(*some)))
    assert overlapping(root) == []
    assert outside_the_view(root) == []

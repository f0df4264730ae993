"""What a board will do: draws and ranges, what moves a figure, what is unknown, and what must hold of any board."""

from __future__ import annotations

import dataclasses
import random
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from random_boards import fill
from sqlalchemy import Engine

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_document
from fitdb.intake.readings import own_source
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.problems import Malformed
from fitdb.model.reading import Designation, Number, Word
from fitdb.moves import with_reading
from fitdb.steps.foresee import foresee, top_of
from fitdb.steps.foresee.board_drive import Unknown, body_of
from fitdb.steps.foresee.draws import Draws, Memory
from fitdb.steps.foresee.ride_figures import grips
from fitdb.steps.foresee.told import Rows

PLANS = Path(__file__).parents[2] / "seed_parts" / "plans"
Catalogue = tuple[Engine, read.Book, Mapping[str, list[Part]]]
Board = dict[str, Piece]
READ = own_source("caliper")
G = 9.80665


@pytest.fixture(scope="module")
def book(sqlite_catalogue: Catalogue) -> read.Book:
    return sqlite_catalogue[1]


@pytest.fixture(scope="module")
def river(sqlite_catalogue: Catalogue) -> Board:
    """The river board with controllers that no speed ceiling holds back, by seat."""
    engine, known, _ = sqlite_catalogue
    document = yaml.safe_load((PLANS / "river-path.yaml").read_text(encoding="utf-8"))
    document = {key: document[key] for key in ("plan", "layout", "board", "rider", "route")}
    document["board"]["controller"] = "controller-double-75v-set-hard"
    with engine.connect() as connection:
        plan = plan_of_document(connection, known, {**document, "on": {"wheel": "wheel-90-six-window"}})
    return {piece.seat: piece for piece in plan.before}


def changed(board: Board, seats: str, **sizes: Any) -> Board:
    """The board with readings of the pieces whose seat ends so: a number, low-nominal-high, a word; None: unread."""
    now = dict(board)
    for seat, piece in board.items():
        if not seat.endswith(seats):
            continue
        part = piece.part
        for name, value in sizes.items():
            readings = dict(part.readings)
            if value is None:
                readings.pop(name, None)
                part = dataclasses.replace(part, readings=readings)
            elif isinstance(value, str):
                part = with_reading(part, "", name, Word(frozenset((value,)), READ, value))
            else:
                low, nominal, high = value if isinstance(value, tuple) else (value, value, value)
                old = part.readings.get(name)
                unit = old.unit if isinstance(old, Number | Designation) else ""
                part = with_reading(part, "", name, Number(low, nominal, high, unit, READ, str(nominal)))
        now[seat] = Piece(seat, part)
    return now


def rows_of(board: Board, book: read.Book, **how: Any) -> dict[str, Rows]:
    return dict(foresee("before", board, {}, book.table, charts=False, **how)[1])


def told(board: Board, book: read.Book, own: str) -> np.ndarray[Any, Any]:
    rows = rows_of(board, book)[own].rows
    assert rows is not None, own
    return rows


# --- draws -----------------------------------------------------------------------------------------------------------


def test_the_same_board_asked_twice_has_the_same_numbers_to_the_last_digit(river: Board, book: read.Book) -> None:
    first, second = rows_of(river, book), rows_of(river, book)
    for own, one in first.items():
        assert one.figure == second[own].figure
        if one.rows is not None:
            assert np.array_equal(one.rows, second[own].rows, equal_nan=True), own


def test_a_reading_that_two_boards_share_falls_out_of_their_ratio(river: Board, book: read.Book) -> None:
    """With all else the same, pull goes with one over the diameter: the ratio has no spread at all."""
    memory = Memory()
    small = rows_of(changed(river, "_wheel", outer_diameter=90.0), book, memory=memory)["pull"].rows
    large = rows_of(changed(river, "_wheel", outer_diameter=100.0), book, memory=memory)["pull"].rows
    assert small is not None and large is not None
    assert np.ptp(small) > 0.05 * small[0]
    assert np.allclose(large / small, 0.9, rtol=1e-6)


def test_the_nominal_row_is_the_board_without_spreads(river: Board, book: read.Book) -> None:
    exact = dict(river)
    for seat, piece in river.items():
        part = piece.part
        for name, one in part.readings.items():
            if isinstance(one, Number):
                part = with_reading(part, "", name, dataclasses.replace(one, low=one.nominal, high=one.nominal))
        exact[seat] = Piece(seat, part)
    spread, sharp = rows_of(river, book), rows_of(exact, book)
    for own, one in spread.items():
        if one.rows is not None and one.figure.value is not None:
            assert sharp[own].rows is not None
            assert one.rows[0] == pytest.approx(sharp[own].rows[0], rel=1e-9), own
    assert spread["top_speed_half"].rows is not None
    assert top_of(river, book.table) == pytest.approx(spread["top_speed_half"].rows[0] / 3.6, rel=1e-9)


def test_the_told_range_is_that_of_a_large_draw_of_its_own(river: Board, book: read.Book) -> None:
    """Unloaded speed = K_v·V·m/i·π·D: two hundred thousand triangular draws of the random module of numpy."""
    board = changed(river, "_motor", velocity_constant=(150.0, 170.0, 190.0))
    board = changed(board, "_wheel", outer_diameter=(85.0, 90.0, 93.0))
    value = rows_of(board, book)["unloaded_speed"].figure.value
    assert value is not None
    chance = np.random.default_rng(11)
    kv, wide = chance.triangular(150, 170, 190, 200_000), chance.triangular(85, 90, 93, 200_000)
    share = chance.triangular(0.93, 0.95, 0.97, 200_000)
    speed = kv * 42.0 * share / 2.4 * np.pi * wide * 60.0 / 1e6
    low, high = np.percentile(speed, (5.0, 95.0))
    assert value.low == pytest.approx(low, rel=0.012)
    assert value.high == pytest.approx(high, rel=0.012)


@pytest.mark.parametrize(
    ("seats", "planted", "figure", "found"),
    [
        ("_motor", {"velocity_constant": (120.0, 170.0, 220.0)}, "top_speed_half", "velocity_constant"),
        ("rider", {"mass": (50.0, 80.0, 110.0)}, "grade_start", "mass"),
        ("pack", {"cell_resistance": (5.0, 40.0, 90.0)}, "pack_sag", "cell_resistance"),
        ("rider", {"reaction_time": (0.2, 1.5, 4.0)}, "stopping_distance", "reaction_time"),
    ],
)
def test_a_reading_that_is_hardly_known_is_found_as_what_moves_the_figure(
    seats: str, planted: dict[str, Any], figure: str, found: str, river: Board, book: read.Book
) -> None:
    movers = rows_of(changed(river, seats, **planted), book)[figure].figure.movers
    assert movers[0].attribute == found
    assert movers[0].share > 0.6
    assert sum(mover.share for mover in movers) <= 1.0 + 1e-9


def test_nothing_moves_a_figure_that_does_not_depend_on_it(river: Board, book: read.Book) -> None:
    """Of the sag of the pack neither drag nor mass nor reaction time can be a mover: chance alone must not make one."""
    for own in ("pack_sag", "unloaded_speed", "pull"):
        for mover in rows_of(river, book)[own].figure.movers:
            assert mover.attribute not in ("drag_area", "mass", "reaction_time", "stops_per_km", "mean_climb"), own


# --- what must hold of any board ---------------------------------------------------------------------------------


def test_larger_wheels_are_faster_and_weaker(river: Board, book: read.Book) -> None:
    speed, pull = [], []
    for diameter in (80.0, 90.0, 100.0, 110.0):
        board = changed(river, "_wheel", outer_diameter=diameter)
        speed.append(told(board, book, "top_speed_half"))
        pull.append(told(board, book, "pull"))
    assert np.all(np.diff(speed, axis=0) > 0.0)
    assert np.all(np.diff(pull, axis=0) < 0.0)


def test_more_motor_current_never_lowers_the_pull_or_the_hill(river: Board, book: read.Book) -> None:
    for own in ("pull", "pull_at_speed", "grade_start"):
        rows = [told(changed(river, "controller", motor_current=amps), book, own) for amps in (10.0, 30.0, 60.0, 200.0)]
        assert np.all(np.diff(rows, axis=0) >= -1e-6), own


def test_more_cells_in_parallel_never_lengthen_the_stop_or_shorten_the_range(river: Board, book: read.Book) -> None:
    """Where nobody has read a setting, the charge that braking may put in grows with the cells. A charge that is set
    arrives at fewer volts in a pack of less resistance: that alone may lengthen the stop, by I·R of some forty volts.
    """
    for limit in (None, 8.0):
        stop, full, reach = [], [], []
        for parallel in (1, 2, 4):
            board = changed(river, "controller", braking_charge_limit=limit)
            pack = board["pack"].part
            cells = pack.readings["parallel"]
            cells = dataclasses.replace(cells, values=(parallel,), nominal=parallel)  # type: ignore[call-arg]
            board["pack"] = Piece("pack", with_reading(pack, "", "parallel", cells))
            board = changed(board, "pack", capacity_ah=4.0 * parallel)
            rows = foresee("before", board, {}, book.table, charts=False, tops=(9.0,))[1]
            for kept, own in ((stop, "stopping_distance"), (full, "stopping_distance_full"), (reach, "range")):
                one = rows[own].rows
                assert one is not None
                kept.append(one)
        assert np.all(np.diff(stop, axis=0) <= (1e-6 if limit is None else 0.05 * stop[0]))
        assert np.all(np.diff(full, axis=0) <= 1e-6)
        assert np.all(np.diff(reach, axis=0) >= -1e-6)


def test_a_heavier_rider_never_climbs_steeper_or_starts_faster(river: Board, book: read.Book) -> None:
    for own in ("grade_start", "grade_all_day", "acceleration", "hill_speed"):
        rows = [told(changed(river, "rider", mass=mass), book, own) for mass in (40.0, 80.0, 120.0, 200.0)]
        assert np.all(np.diff(rows, axis=0) <= 1e-6), own


def test_a_fuller_pack_is_never_slower_and_never_brakes_harder(river: Board, book: read.Book) -> None:
    full, half, low = (told(river, book, f"top_speed_{name}") for name in ("full", "half", "low"))
    assert np.all(full >= half) and np.all(half >= low)
    assert np.all(told(river, book, "stopping_distance_full") >= told(river, book, "stopping_distance") - 1e-9)
    assert np.all(told(river, book, "stopping_distance_wet") >= told(river, book, "stopping_distance") - 1e-9)


def test_the_ride_takes_no_more_out_than_the_pack_holds(river: Board, book: read.Book) -> None:
    """12 Ah of ten cells whose open volts are 3.76 on average: 451 Wh, whatever the draw."""
    assert np.all(told(river, book, "usable_energy") <= 12.0 * 37.6)


# --- what is unknown ---


def without(board: Board, *endings: str) -> Board:
    return {seat: piece for seat, piece in board.items() if not seat.endswith(endings)}


@pytest.mark.parametrize(
    ("take", "says"),
    [
        (lambda b: without(b, "pack"), "names no pack"),
        (lambda b: without(b, "_motor"), "no motor"),
        (lambda b: without(b, "rear_left_wheel"), "wheel"),
        (lambda b: without(b, "rear_left_drive_pulley"), "pulleys"),
        (lambda b: changed(b, "pack", chemistry=None), "chemistry"),
        (lambda b: without(b, "_wheel"), "wheel"),
    ],
)
def test_what_is_missing_is_said_and_never_counted_as_nothing(
    take: Callable[[Board], Board], says: str, river: Board, book: read.Book
) -> None:
    figures = rows_of(take(river), book)
    unknown = [one.figure for one in figures.values() if one.figure.value is None]
    assert any(says in figure.unknown for figure in unknown), [figure.unknown for figure in unknown]
    assert all(figure.unknown for figure in unknown)
    for own in ("range", "stopping_distance", "top_speed_half"):
        assert own not in figures or figures[own].figure.value is None


@pytest.mark.parametrize(
    ("seats", "reading", "figure"),
    [
        ("_motor", "line_resistance", "top_speed_half"),
        ("pack", "cell_resistance", "pack_sag"),
        ("controller", "pack_current", "pull_at_speed"),
        ("controller", "braking_charge_limit", "stopping_distance"),
        ("rider", "mass", "grade_start"),
        ("route", "slope", "hill_speed"),
    ],
)
def test_a_reading_that_nobody_took_widens_the_range_or_leaves_no_number(
    seats: str, reading: str, figure: str, river: Board, book: read.Book
) -> None:
    sharp = rows_of(river, book)[figure].figure.value
    unread = rows_of(changed(river, seats, **{reading: None}), book)[figure].figure
    assert sharp is not None
    if unread.value is None:
        assert unread.unknown
        return
    assert (unread.value.high - unread.value.low) > (sharp.high - sharp.low)
    assert any(mover.assumed for mover in unread.movers)


@pytest.mark.parametrize(
    ("seats", "setting", "figure"),
    [
        ("controller", "motor_current", "pull"),
        ("controller", "pack_current", "pull_at_speed"),
        ("controller", "braking_charge_limit", "brake_deceleration"),
        ("controller", "braking_motor_current", "brake_deceleration"),
    ],
)
def test_an_end_that_nobody_has_read_is_told_as_assumed(
    seats: str, setting: str, figure: str, river: Board, book: read.Book
) -> None:
    """Each setting so low that it ends the figure; then unread, with the others high enough to leave it the end."""
    low = {"motor_current": 20.0, "pack_current": 5.0, "braking_charge_limit": 2.0, "braking_motor_current": 5.0}
    # What nobody has read for braking follows from the motor current.
    motors = 20.0 if setting == "braking_motor_current" else 90.0
    high = {
        "motor_current": motors,
        "pack_current": 200.0,
        "braking_charge_limit": 200.0,
        "braking_motor_current": 90.0,
    }
    grip = changed(river, "route", grip=(2.0, 2.0, 2.0))
    read_ = rows_of(changed(grip, seats, **{**high, setting: low[setting]}), book)[figure].figure.limited_by
    unread = rows_of(changed(grip, seats, **{**high, setting: None}), book)[figure].figure.limited_by
    assert "assumed" not in read_ and " A " in read_, read_
    assert unread.endswith("assumed: nobody has read the setting)"), unread
    alone = rows_of(without(grip, seats), book)[figure].figure.limited_by
    assert " set" not in alone and "nobody has read the setting" not in alone, alone


def test_readings_that_move_a_figure_come_by_their_share(river: Board, book: read.Book) -> None:
    for rows in rows_of(river, book).values():
        shares = [mover.share for mover in rows.figure.movers]
        assert shares == sorted(shares, reverse=True), rows.figure.id


def test_nobody_on_the_board_is_somebody_of_whom_nothing_was_read(river: Board, book: read.Book) -> None:
    """A plan without rider and route still has numbers, each with the wide range of what stands in for them."""
    figures = rows_of(without(river, "rider", "route"), book)
    named = rows_of(river, book)["grade_start"].figure.value
    anybody = figures["grade_start"].figure
    assert anybody.value is not None and named is not None
    assert anybody.value.high - anybody.value.low > 2.0 * (named.high - named.low)
    assert any(mover.attribute == "mass" and mover.assumed for mover in anybody.movers)


def test_boards_that_never_get_there_are_counted_beside_the_range(river: Board, book: read.Book) -> None:
    """Some drawn from a wide speed constant do not reach 20 km/h: their share is told, and not left out in silence."""
    figure = rows_of(changed(river, "_motor", velocity_constant=(60.0, 100.0, 160.0)), book)["time_to_20"]
    assert figure.rows is not None
    never = float(np.mean(~np.isfinite(figure.rows)))
    assert 0.0 < never < 1.0
    assert f"Of 100 boards drawn {100 * never:.0f} never get there" in figure.figure.note


# --- grip ------------------------------------------------------------------------------------------------------------


def test_one_driven_wheel_holds_half_of_its_axle_and_two_ends_hold_by_their_wheels(
    river: Board, book: read.Book
) -> None:
    draws = Draws(book.table)
    body = body_of(river, river["rider"], river["route"], draws)
    assert not isinstance(body, Unknown)
    both = grips(body, ("rear_left", "rear_right"), braking=True)
    assert np.allclose(grips(body, ("rear_left",), braking=True), both / 2.0)
    weight = body.friction * body.road.mass * G
    four = ("rear_left", "rear_right", "front_left", "front_right")
    assert np.allclose(grips(body, four, braking=True), weight)
    assert np.allclose(grips(body, ("rear_left", "front_right"), braking=False), weight / 2.0)
    for places in (("rear_left", "rear_right"), ("front_left", "front_right")):
        for braking in (True, False):
            assert np.all(grips(body, places, braking=braking) <= weight * (1.0 + 1e-12))
    # Braking loads the front axle: wheels there hold more than the same weight at rest would give them.
    resting = weight * (1.0 - body.rear_share)
    assert np.all(grips(body, ("front_left", "front_right"), braking=True) > resting)
    assert np.all(grips(body, ("front_left", "front_right"), braking=False) < resting)


# --- bad input ---


@pytest.mark.parametrize(
    ("section", "reading", "value"),
    [("rider", "mass", "0 kg"), ("rider", "mass", "900 kg"), ("route", "slope", "90 %"), ("route", "mean_speed", "0")],
)
def test_a_rider_or_a_slope_that_cannot_be_is_refused_with_its_place(
    section: str, reading: str, value: str, sqlite_catalogue: Catalogue
) -> None:
    engine, known, _ = sqlite_catalogue
    document = {"plan": "odd", "layout": "unpowered", "board": {}, "on": {}, section: {reading: value}}
    with engine.connect() as connection, pytest.raises(Malformed) as caught:
        plan_of_document(connection, known, document)
    assert any(reading in problem.path and problem.hint for problem in caught.value.problems)


@pytest.mark.parametrize(
    ("seats", "sizes"),
    [
        ("route", {"slope": 60.0}),
        ("route", {"slope": 95.0}),
        ("rider", {"mass": 250.0}),
        ("pack", {"capacity_ah": 0.1}),
        ("pack", {"cell_resistance": 1000.0}),
        ("controller", {"motor_current": 1.0, "pack_current": 1.0}),
        ("controller", {"speed_ceiling": 1.0}),
        ("controller", {"soft_cutoff_end": 60.0, "soft_cutoff_start": 60.0}),
        ("route", {"mean_speed": 100.0, "stops_per_km": 50.0, "mean_climb": 20.0}),
        ("_motor", {"line_resistance": 2000.0}),
        ("_motor", {"velocity_constant": 5000.0}),
    ],
)
def test_the_ends_of_what_can_be_read_give_numbers_or_reasons(
    seats: str, sizes: dict[str, Any], river: Board, book: read.Book
) -> None:
    outlook, rows, _, _ = foresee("before", changed(river, seats, **sizes), {}, book.table)
    finite(outlook, rows)


def finite(outlook: Any, rows: Mapping[str, Rows]) -> None:
    for own, one in rows.items():
        value = one.figure.value
        if value is None:
            assert one.figure.unknown, own
            continue
        assert np.all(np.isfinite([value.low, value.nominal, value.high])), own
        assert value.low <= value.nominal <= value.high, own
        for words in (one.figure.limited_by, one.figure.note, one.figure.title):
            assert "nan" not in words.split() and " inf" not in words, (own, words)
    for chart in outlook.charts:
        assert chart.series or chart.missing, chart.id
        for line in chart.series:
            for values in (line.x, line.y, line.low, line.high):
                assert np.all(np.isfinite(values)), (chart.id, line.name)


@pytest.mark.parametrize("seed", range(4))
def test_every_layout_filled_at_random_gives_numbers_or_reasons(seed: int, sqlite_catalogue: Catalogue) -> None:
    _, known, by_class = sqlite_catalogue
    layouts = [pattern for own, pattern in known.patterns.items() if own not in ("loose", "board")]
    assert len(layouts) >= 13
    for pattern in layouts:
        chance = random.Random(seed)
        board: Board = {}
        for seat in pattern.seats:
            if seat not in board and chance.random() < 0.97:
                fill(chance, board, seat, pattern, by_class, known.table)
        outlook, rows, _, _ = foresee("before", board, {}, known.table)
        finite(outlook, rows)

"""A whole board to scale: as large as its sizes say, every layout, nothing invented where nobody has read."""

from __future__ import annotations

import dataclasses
import json
import math
import random
import xml.etree.ElementTree as ElementTree
from collections.abc import Mapping

import pytest
from random_boards import fill
from svg_reading import SVG, forbidden_in, outside_the_view, overlapping, points_of, root_of, words_of
from worked_out import worked_out

from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.read import Book
from fitdb.drawings.board_readings import measure
from fitdb.drawings.board_side import Underside
from fitdb.drawings.board_views import board_svg, plan_view, side_view
from fitdb.drawings.shapes import BOARD_KINDS, KINDS, Circle, Drawing, Label, Line
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.problems import OurFault
from fitdb.model.reading import Number
from fitdb.model.source import Source

Catalogue = tuple[object, Book, dict[str, list[Part]]]
Seated = dict[str, Piece]
MADE_UP = Source("made_up", "default", "made up for a test", "")
BOARDS_OF = (
    "two_wheel_belt", "two_wheel_belt_two_boxes", "two_wheel_belt_pocket", "single_belt", "four_wheel_belt",
    "gear_drive", "four_wheel_gear", "hub_motors", "single_hub_motor", "four_hub_motors", "direct_drive",
    "belt_with_hub_front", "unpowered",
)  # fmt: skip


def number(middle: float, spread: float = 1.0) -> Number:
    return Number(middle - spread, middle, middle + spread, "mm", MADE_UP)


def with_reading(piece: Piece, **sizes: float) -> Piece:
    """The piece with some of its own sizes read otherwise."""
    readings = {**piece.part.readings, **{name: number(size) for name, size in sizes.items()}}
    return dataclasses.replace(piece, part=dataclasses.replace(piece.part, readings=readings))


def without_reading(piece: Piece, *names: str) -> Piece:
    kept = {name: reading for name, reading in piece.part.readings.items() if name not in names}
    return dataclasses.replace(piece, part=dataclasses.replace(piece.part, readings=kept))


@pytest.fixture(scope="module")
def river(sqlite_catalogue: Catalogue) -> Seated:
    """The board of the shipped plan for the river path, as it stands."""
    engine, book, _ = sqlite_catalogue
    with engine.connect() as connection:  # type: ignore[attr-defined]
        plan = plan_of_file(connection, book, SEED / "plans" / "river-path.yaml")
    return {piece.seat: piece for piece in plan.before}


def on(layout: str, river: Seated, catalogue: Catalogue, **named: str) -> Seated:
    """The river board in another layout, with parts named by seat name; motors in front as at the rear."""
    _, book, by_class = catalogue
    parts = {part.id: part for some in by_class.values() for part in some}
    pattern = book.patterns[layout]
    seated = {seat: piece for seat, piece in river.items() if seat in pattern.seats}
    for seat in pattern.seats.values():
        for name, part_id in named.items():
            if name in (seat.id, *seat.names):
                seated[seat.id] = Piece(seat.id, parts[part_id])
        rear = seat.id.replace("front_", "rear_", 1)
        if seat.id not in seated and rear in seated:
            seated[seat.id] = Piece(seat.id, seated[rear].part)
    return seated


@pytest.fixture(scope="module")
def layouts(river: Seated, sqlite_catalogue: Catalogue) -> dict[str, Seated]:
    """One realistic board of every layout, and of every way to mount a deck."""
    boards = {
        layout: on(
            layout, river, sqlite_catalogue, gear_drive="gear-drive-3-0-round", motor="motor-63x50-170",
            hub_motor="hub-motor-80-12", hub_sleeve="hub-sleeve-80-12", direct_drive="direct-drive-78-six",
            pocket="pocket-380-lid",
        )
        for layout in BOARDS_OF
    }  # fmt: skip
    two = on("two_wheel_belt_two_boxes", river, sqlite_catalogue, box="box-short-hard", second_box="box-short-hard")
    two["box"] = with_reading(two["box"], position_from_middle=130.0)
    two["second_box"] = with_reading(two["second_box"], position_from_middle=-130.0)
    boards["two_wheel_belt_two_boxes"] = two
    boards["flush"] = on("two_wheel_belt", river, sqlite_catalogue, deck="deck-flush-maple-940")
    boards["drop_through"] = on("two_wheel_belt", river, sqlite_catalogue, deck="deck-drop-bamboo-1000")
    dropped = on(
        "two_wheel_belt", river, sqlite_catalogue, deck="deck-dropped-1020", wheel="tyre-150-five-bolt",
        box_skid_plate="skid-plastic-3", box_spacer_frame="frame-5",
    )  # fmt: skip
    dropped["deck"] = with_reading(dropped["deck"], platform_drop=30.0)
    boards["dropped"] = dropped
    return boards


def both(seated: Mapping[str, Piece], sizes: Mapping[str, Range]) -> list[Drawing]:
    return [drawing for drawing in (side_view(seated, sizes), plan_view(seated, sizes)) if drawing is not None]


def circles(drawing: Drawing, kind: str) -> list[Circle]:
    return [shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.kind == kind]


def labels(drawing: Drawing) -> str:
    return " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Label))


def boxes(drawing: Drawing, kind: str) -> list[tuple[float, float, float, float]]:
    """Left, low, right and high of every closed line of a kind."""
    found = []
    for shape in drawing.shapes:
        if isinstance(shape, Line) and shape.kind == kind and shape.closed:
            xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
            found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def seen(drawing: Drawing) -> ElementTree.Element:
    """The document, held against what every document must be."""
    root = root_of(board_svg(drawing))
    assert outside_the_view(root) == []
    assert overlapping(root) == []
    assert forbidden_in(root) == []
    assert {shape.kind for shape in drawing.shapes if not isinstance(shape, Label)} <= {*KINDS, *BOARD_KINDS}
    json.dumps(drawing.document(), allow_nan=False)
    return root


def test_a_board_of_every_layout_is_drawn(layouts: dict[str, Seated], sqlite_catalogue: Catalogue) -> None:
    shipped = {own for own in sqlite_catalogue[1].patterns if own not in ("loose", "board")}
    assert shipped == set(BOARDS_OF), "a layout that this test does not know"
    for name, seated in layouts.items():
        drawn = both(seated, worked_out(seated))
        assert len(drawn) == 2, name
        for drawing in drawn:
            seen(drawing)


def test_each_layout_shows_what_it_has(layouts: dict[str, Seated]) -> None:
    def motors(name: str) -> int:
        drawing = side_view(layouts[name], worked_out(layouts[name]))
        assert drawing is not None
        return len(circles(drawing, "motor"))

    assert motors("two_wheel_belt") == 1, "left and right are alike and drawn once"
    assert motors("four_wheel_belt") == 2
    assert motors("four_hub_motors") == 2
    assert motors("direct_drive") == 1
    assert motors("belt_with_hub_front") == 2
    assert motors("unpowered") == 0
    plans = {name: plan_view(seated, worked_out(seated)) for name, seated in layouts.items()}
    words = {name: labels(plan) for name, plan in plans.items() if plan is not None}
    assert words["single_belt"].count("motor") == 1
    assert words["two_wheel_belt"].count("motor") == 2
    assert words["four_wheel_belt"].count("motor") == 4
    assert words["four_hub_motors"].count("hub") == 4
    assert words["single_hub_motor"].count("hub") == 1
    assert "second box" in words["two_wheel_belt_two_boxes"]
    assert "lid of the pocket" in words["two_wheel_belt_pocket"]


def test_the_side_view_is_true_to_scale(river: Seated) -> None:
    sizes = worked_out(river)
    drawing = side_view(river, sizes)
    assert drawing is not None
    root = seen(drawing)
    rings = [
        (float(ring.attrib["cx"]), float(ring.attrib["cy"]), float(ring.attrib["r"]), ring.attrib["fill"])
        for ring in root.iter(f"{SVG}circle")
    ]
    rear, front = sorted(ring for ring in rings if ring[3] == "#e4e4e4")
    # One unit of the document is one millimetre of the board: every size is measured back on the document.
    assert front[0] - rear[0] == pytest.approx(800.0, abs=0.5), "the wheelbase of the deck's row in the catalogue"
    assert rear[2] == pytest.approx(45.0, abs=0.5), "half of a 90 mm wheel"
    ground = rear[1] + rear[2]
    (motor,) = (ring for ring in rings if ring[3] == "#f6e3cf")
    assert motor[2] == pytest.approx(63.0 / 2, abs=0.5), "half of a 63 mm can"
    assert math.dist(motor[:2], rear[:2]) == pytest.approx(sizes["rear_left_motor.centre_distance"].nominal, abs=0.5)
    assert motor[0] > rear[0], "an inboard motor stands toward the middle"
    assert ground - (motor[1] + motor[2]) == pytest.approx(sizes["rear_left_motor.ground_gap"].nominal, abs=0.5)
    pitch = max(ring[2] for ring in rings if ring[3] == "none" and ring[2] > 20 and ring[0] == rear[0] and ring[2] < 33)
    assert pitch == pytest.approx(36 * 5 / math.pi / 2 + 3.0, abs=0.5), "36 teeth of 5 mm, and 3 mm of flange"
    (box,) = (points_of(shape) for shape in root.iter(f"{SVG}polygon") if shape.attrib["fill"] == "#d5e8d7")
    depth = river["box"].part.readings["depth"]
    assert isinstance(depth, Number)
    assert max(y for _, y in box) - min(y for _, y in box) == pytest.approx(depth.nominal, abs=0.5)
    assert ground - max(y for _, y in box) == pytest.approx(sizes["box.ground_gap"].nominal, abs=0.5)


def test_every_dimension_line_is_as_long_as_its_words_say(layouts: dict[str, Seated]) -> None:
    for name, seated in layouts.items():
        sizes = worked_out(seated)
        for drawing in both(seated, sizes):
            lines = [
                shape for shape in drawing.shapes if isinstance(shape, Line) and shape.kind in ("dimension", "clash")
            ]
            lengths = [math.dist(*line.points) for line in lines if len(line.points) == 2]
            wanted = [
                sizes[one].nominal
                for one in sizes
                if one.endswith("ground_gap") and measure(sizes[one]) in labels(drawing)
            ]
            wanted += [sizes["wheelbase"].nominal]
            if drawing.plane == "xz":
                wanted += [sizes[one].nominal for one in ("front.deck_height", "rear.deck_height", "deck.mid_height")]
            for size in wanted:
                assert min(abs(length - abs(size)) for length in lengths) < 0.5, (name, drawing.title, size)


def test_the_plan_is_true_to_scale(river: Seated) -> None:
    sizes = worked_out(river)
    drawing = plan_view(river, sizes)
    assert drawing is not None
    (deck,) = boxes(drawing, "first")
    length, width = (river["deck"].part.readings[name] for name in ("length", "width"))
    assert isinstance(length, Number) and isinstance(width, Number)
    assert deck[2] - deck[0] == pytest.approx(length.nominal, abs=0.5)
    assert deck[3] - deck[1] == pytest.approx(width.nominal, abs=0.5)
    wheels = boxes(drawing, "wheel")
    assert len(wheels) == 4
    left_rear = next(wheel for wheel in wheels if wheel[0] < 0 < wheel[1])
    assert left_rear[1] == pytest.approx(sizes["rear_left.inner_face"].nominal)
    assert left_rear[3] == pytest.approx(sizes["rear_left.outer_face"].nominal)
    (box,) = boxes(drawing, "below")
    assert box[0] - -400.0 == pytest.approx(sizes["rear.box_distance"].nominal, abs=0.5)
    assert 400.0 - box[2] == pytest.approx(sizes["front.box_distance"].nominal, abs=0.5)


def test_the_distance_from_axle_to_box_follows_from_readings_where_it_is_not_worked_out(river: Seated) -> None:
    box = with_reading(river["box"], position_from_middle=20.0, length=380.0)
    seated = {**river, "box": box, "deck": with_reading(river["deck"], wheelbase=700.0)}
    drawing = plan_view(seated, {})
    assert drawing is not None
    # Half of 700 less half of 380 is 160 mm, 20 less behind and 20 more ahead; every reading is 1 mm wide either way.
    assert "rear axle to box 140 mm (138 to 142)" in labels(drawing)
    assert "front axle to box 180 mm (178 to 182)" in labels(drawing)
    (drawn,) = boxes(drawing, "below")
    assert drawn[0] - -350.0 == pytest.approx(140.0, abs=0.5)


def test_ranges_stand_beside_the_clearances(river: Seated) -> None:
    sizes = {**worked_out(river), "box.ground_gap": Range(61.0, 66.0, 71.0, "mm")}
    drawing = side_view(river, sizes)
    assert drawing is not None
    assert "box over ground 66 mm (61 to 71)" in labels(drawing)
    assert "box over ground 66 mm (61 to 71)" in drawing.description
    assert measure(Range(12.96, 13.36, 13.76, "mm")) == "13.4 mm (13 to 13.8)"
    assert measure(Range(-3.0, -2.0, -1.0, "mm")) == "−2 mm (−3 to −1)"
    assert measure(Range(8.0, 8.0, 8.0, "mm")) == "8 mm"


def test_a_drop_through_plate_lies_on_the_deck_and_a_top_mount_under_it(layouts: dict[str, Seated]) -> None:
    for name, above in (("drop_through", True), ("two_wheel_belt", False)):
        drawing = side_view(layouts[name], worked_out(layouts[name]))
        assert drawing is not None
        (deck,) = (shape for shape in drawing.shapes if isinstance(shape, Line) and shape.kind == "first")
        plates = [
            plate for plate in boxes(drawing, "metal") if 0 < plate[3] - plate[1] < 12 and plate[2] - plate[0] > 60
        ]
        assert len(plates) == 2
        under, over = min(z for _, z in deck.points), max(z for _, z in deck.points)
        assert all((plate[1] >= under + 5) if above else (plate[3] <= over - 5) for plate in plates), name
        assert (labels(drawing).find("deck over axle")) >= 0


def test_a_dropped_platform_lies_lower_than_its_ends(layouts: dict[str, Seated]) -> None:
    seated = layouts["dropped"]
    sizes = worked_out(seated)
    drawing = side_view(seated, sizes)
    assert drawing is not None
    (deck,) = (shape for shape in drawing.shapes if isinstance(shape, Line) and shape.kind == "first")
    at_mid = min(z for x, z in deck.points if abs(x) < 1e-6)
    assert at_mid == pytest.approx(sizes["deck.mid_height"].nominal, abs=0.5)
    axle = sizes["rear.wheel_radius"].nominal + sizes["rear.deck_height"].nominal
    near_axle = min(z for x, z in deck.points if abs(x + sizes["wheelbase"].nominal / 2) < 15)
    assert near_axle == pytest.approx(axle, abs=1.0)


def test_the_underside_runs_through_its_three_heights_and_straight_on() -> None:
    # A beam on two supports is straight beyond them (Gere, Mechanics of Materials); a parabola stands in between.
    deck = Underside(120.0, 126.0, 110.0, 800.0)
    assert deck.at(-400.0) == pytest.approx(120.0)
    assert deck.at(400.0) == pytest.approx(126.0)
    assert deck.at(0.0) == pytest.approx(110.0)
    assert deck.at(500.0) - deck.at(450.0) == pytest.approx(deck.at(450.0) - deck.at(400.0))


@pytest.mark.parametrize(
    ("seat", "reading", "told"),
    [
        ("box", "depth", "box (depth)"),
        ("box", "length", "box (length)"),
        ("rear_left_motor", "can_diameter", "rear left motor (diameter)"),
        ("deck", "thickness", "upper side of the deck (thickness)"),
        ("deck", "length", "nose and tail (length of the deck)"),
        ("rear_truck", "plate_length", "rear truck (length of the plate)"),
    ],
)
def test_what_nobody_has_read_is_named_and_not_drawn(river: Seated, seat: str, reading: str, told: str) -> None:
    fewer = {**river, seat: without_reading(river[seat], reading)}
    sizes = {name: size for name, size in worked_out(river).items() if (reading, name) != ("depth", "box.ground_gap")}
    drawing = side_view(fewer, sizes)
    assert drawing is not None
    assert told in labels(drawing)
    assert told in drawing.description
    assert "nobody has read it" in labels(drawing)
    seen(drawing)
    if seat == "box":
        assert boxes(drawing, "box") == []


def test_sizes_that_are_not_worked_out_are_left_out(river: Seated) -> None:
    sizes = worked_out(river)
    for name in sizes:
        fewer = {one: size for one, size in sizes.items() if one != name}
        for drawing in both(river, fewer):
            seen(drawing)
    no_motor = {one: size for one, size in sizes.items() if "motor" not in one}
    for drawing in both(river, no_motor):
        assert "rear left motor" in labels(drawing) and "distance from the axle" in labels(drawing)
    no_mid = {one: size for one, size in sizes.items() if one not in ("deck.mid_height", "box.ground_gap")}
    drawing = side_view(river, no_mid)
    assert drawing is not None
    assert "bend of the deck (height at mid under the rider)" in labels(drawing)
    assert "box over ground" in labels(drawing)


def test_without_wheelbase_or_height_there_is_no_drawing(river: Seated) -> None:
    sizes = worked_out(river)
    flat = {one: size for one, size in sizes.items() if not one.endswith("wheel_radius")}
    assert side_view(river, flat) is None
    bare = {**river, "deck": without_reading(river["deck"], "wheelbase")}
    assert side_view(bare, {one: size for one, size in sizes.items() if one != "wheelbase"}) is None
    assert plan_view(bare, {one: size for one, size in sizes.items() if one != "wheelbase"}) is None
    assert side_view({}, {}) is None
    assert plan_view({}, {}) is None


def test_what_stands_below_the_ground_is_marked(river: Seated) -> None:
    sizes = {**worked_out(river), "rear_left_driven_pulley.ground_gap": Range(-4.0, -3.0, -2.0, "mm")}
    drawing = side_view(river, sizes)
    assert drawing is not None
    assert any(isinstance(shape, Line) and shape.kind == "clash" for shape in drawing.shapes)
    assert "left pulley over ground −3 mm (−4 to −2)" in labels(drawing)
    assert "right pulley over ground" in labels(drawing), "the two sides differ and are told apart"
    seen(drawing)


def test_a_size_that_is_no_number_is_our_fault(river: Seated) -> None:
    for bad in (math.nan, math.inf):
        with pytest.raises(OurFault, match="wheelbase"):
            side_view(river, {"wheelbase": Range(700.0, bad, 900.0, "mm")})


def test_the_same_board_is_always_drawn_the_same(river: Seated) -> None:
    sizes = worked_out(river)
    again = dict(reversed(list(sizes.items())))
    other = dict(reversed(list(river.items())))
    assert [board_svg(one) for one in both(river, sizes)] == [board_svg(one) for one in both(other, again)]


@pytest.mark.parametrize("layout", BOARDS_OF)
def test_the_fullest_boards_are_drawn(layout: str, sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    pattern = book.patterns[layout]
    drawn = 0
    for number_of in range(6):
        chance = random.Random(f"{layout}/{number_of}")
        seated: Seated = {}
        for seat in pattern.seats:
            if seat not in seated:
                fill(chance, seated, seat, pattern, by_class, book.table)
        for drawing in both(seated, worked_out(seated)):
            root = seen(drawing)
            assert "nose this way" in " ".join(one.text for one in words_of(root))
            drawn += 1
    assert drawn >= 6

"""Growth of the contents of a box: cases worked by hand, and what larger rooms and smaller bodies may never do."""

import random

import pytest

from fitdb.formulas.box_contents import GROWTHS, Room, packing_growth

PACKING, LEAD = 1.5, 5.0


def growth(room: Room, *bodies: tuple[float, float, float, str]) -> float | None:
    lengths, widths, heights, stand = zip(*bodies, strict=True)
    return packing_growth(room, lengths, widths, heights, stand, PACKING, LEAD)


def test_one_content_that_just_fits_has_no_growth_left() -> None:
    assert growth(Room(208.0, 103.0, 43.0), (200.0, 100.0, 40.0, "no")) == 0.0


def test_a_tenth_too_short_is_told() -> None:
    assert growth(Room(207.9, 103.0, 43.0), (200.0, 100.0, 40.0, "no")) == pytest.approx(-0.1)


def test_a_content_may_be_turned_in_plan() -> None:
    assert growth(Room(103.0, 208.0, 43.0), (200.0, 100.0, 40.0, "no")) == 0.0


def test_only_what_may_stand_is_stood_up() -> None:
    room = Room(103.0, 43.0, 208.0)
    assert growth(room, (200.0, 100.0, 40.0, "yes")) == 0.0
    lying = growth(room, (200.0, 100.0, 40.0, "no"))
    assert lying is not None and lying < 0.0


def test_two_contents_share_the_length() -> None:
    """416 + 73 of 500 mm: 11 mm for two, so 5 mm each of the steps that are tried."""
    assert growth(Room(500.0, 170.0, 45.0), (408.0, 150.0, 27.0, "no"), (122.0, 70.0, 22.0, "no")) == 5.0


def test_an_empty_box_has_all_growth_left() -> None:
    assert packing_growth(Room(500.0, 170.0, 45.0), (), (), (), (), PACKING, LEAD) == GROWTHS[-1]


def test_packing_gives_way_in_a_small_corner_and_the_body_does_not_in_a_large_one() -> None:
    """The body's corner stands 1.5 mm from both walls: inside an arc of radius r while (r − 1.5)·√2 <= r, r <= 5.12."""
    body = (200.0, 100.0, 40.0, "no")
    assert growth(Room(208.0, 103.0, 43.0, corner_radius=5.0), body) == 0.0
    large = growth(Room(203.0, 103.0, 43.0, corner_radius=20.0), (195.0, 100.0, 40.0, "no"))
    assert large is None or large < 0.0


def test_a_drawn_plan_counts_instead_of_length_and_width() -> None:
    notched = ((0.0, 0.0), (450.0, 0.0), (450.0, 130.0), (390.0, 130.0), (390.0, 170.0), (0.0, 170.0))
    pack = (408.0, 150.0, 27.0, "no")
    open_box = growth(Room(450.0, 170.0, 45.0), pack)
    assert open_box is not None and open_box > 0.0
    drawn = growth(Room(450.0, 170.0, 45.0, ring=notched), pack)
    assert drawn is not None and -30.0 <= drawn <= -23.0


def test_moving_the_walls_of_a_drawn_plan_out_never_harms() -> None:
    ring = ((0.0, 0.0), (320.0, 0.0), (380.0, 30.0), (380.0, 130.0), (320.0, 160.0), (0.0, 160.0))
    bodies = ((276.0, 150.0, 27.0, "no"), (70.0, 45.0, 18.0, "no"))
    told = [growth(Room(1.0, 1.0, 40.0, ring=ring, offset=offset), *bodies) for offset in (-2.0, -0.5, 0.0, 0.5, 2.0)]
    known = [value for value in told if value is not None]
    assert known == sorted(known) and known[0] < known[-1]


def test_larger_rooms_and_smaller_bodies_never_turn_goes_into_cannot() -> None:
    dice = random.Random(44)
    for _ in range(25):
        bodies = [(dice.randint(30, 150), dice.randint(20, 90), dice.randint(8, 30), "no") for _ in range(3)]
        room = Room(dice.randint(150, 320), dice.randint(90, 160), dice.randint(20, 60), dice.choice((0.0, 8.0)))
        before = growth(room, *bodies)
        wider = Room(room.length + 3, room.width + 3, room.height + 3, room.corner_radius)
        after = growth(wider, *[(a - 1, b - 1, c - 1, stand) for a, b, c, stand in bodies])
        if before is not None and before >= 0.0:
            assert after is None or after >= 0.0


def test_a_room_without_height_takes_nothing() -> None:
    assert growth(Room(200.0, 100.0, 0.0), (20.0, 10.0, 5.0, "no")) == GROWTHS[0]

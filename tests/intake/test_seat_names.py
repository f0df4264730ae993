"""Seats by name: what one word means on a board with four wheels, two ends and stacks of risers."""

from __future__ import annotations

import pytest
from small_board import LAYOUTS, TABLE

from fitdb.intake.seat_names import nearest_seat, rows_named, seats_bearing, seats_named, takes

BOARD = LAYOUTS["two_wheel_belt"]


@pytest.mark.parametrize(
    ("name", "seats"),
    [
        ("deck", "deck"),
        ("wheel", "front_left_wheel front_right_wheel rear_left_wheel rear_right_wheel"),
        ("rear_wheel", "rear_left_wheel rear_right_wheel"),
        ("left_wheel", "front_left_wheel rear_left_wheel"),
        ("rear_left_wheel", "rear_left_wheel"),
        ("belt", "rear_left_belt rear_right_belt"),  # this layout has no belts in front
        ("riser", "front_riser front_riser_2 rear_riser rear_riser_2"),
        ("riser_2", "front_riser_2 rear_riser_2"),
        ("rear_riser", "rear_riser"),  # an id means that seat alone
        ("lead", "lead"),
        ("front_belt", ""),
        ("Wheel", ""),
        ("", ""),
    ],
)
def test_what_a_name_means(name: str, seats: str) -> None:
    assert seats_named(name, BOARD) == tuple(seats.split())


def test_one_part_fills_the_first_riser_of_each_end_and_a_list_the_row() -> None:
    assert seats_bearing("riser", BOARD) == ("front_riser", "rear_riser")
    assert rows_named("riser", BOARD) == (("front_riser", "front_riser_2"), ("rear_riser", "rear_riser_2"))
    assert rows_named("rear_riser", BOARD) == (("rear_riser", "rear_riser_2"),)
    assert rows_named("lead", BOARD) == (("lead", "lead_2"),)
    assert rows_named("wing", BOARD) == ()


def test_every_name_of_every_seat_means_that_seat_too() -> None:
    for layout in LAYOUTS.values():
        for seat in layout.seats.values():
            assert seats_named(seat.id, layout) == (seat.id,)
            for name in seat.names:
                assert seat.id in seats_named(name, layout) or name in layout.seats


def test_likeness_and_the_nearest_name() -> None:
    wheel = BOARD.seats["rear_left_wheel"]
    assert takes(wheel, "tyre_wheel", TABLE) and not takes(wheel, "deck", TABLE)
    assert nearest_seat("rear_whel", BOARD) == "Did you mean `rear_wheel`?"
    assert "fitdb new two_wheel_belt" in nearest_seat("qqqqqq", BOARD)

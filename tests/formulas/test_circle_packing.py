"""Wires through openings: what is asked, what is answered, what is malformed. Published packings: tests/outside."""

from __future__ import annotations

import math
import random

import pytest

from fitdb.formulas.circle_packing import (
    bundle_in_hole,
    bundle_in_window,
    hole_needed,
    hole_proved,
    one_by_one_margin,
    zigzag_length,
)

PHASE_AND_SENSOR_LEADS = [5.5, 5.5, 5.5, 3.0, 3.0, 2.0, 2.0, 2.0]


def test_a_bundle_that_goes_comes_with_places_for_every_wire() -> None:
    packed = bundle_in_hole(PHASE_AND_SENSOR_LEADS, 13.2)
    assert (packed.answer, packed.code) == ("goes", "found_arrangement")
    circles = list(zip(PHASE_AND_SENSOR_LEADS, packed.centres, strict=True))
    for n, (d, c) in enumerate(circles):
        assert math.hypot(*c) <= 13.2 / 2 - d / 2 + 1e-9
        assert all(math.dist(c, other) >= (d + e) / 2 - 1e-9 for e, other in circles[:n])


def test_what_no_bound_refuses_and_no_search_finds_is_undecided() -> None:
    packed = bundle_in_hole(PHASE_AND_SENSOR_LEADS, 12.0)
    assert (packed.answer, packed.code) == ("undecided", "nothing_found")
    assert "11.85 mm" in packed.why  # three leads of 5.5 alone need 5.5 (1 + 2/sqrt(3)) = 11.851
    assert bundle_in_hole(PHASE_AND_SENSOR_LEADS, 11.84).code == "three_largest"


def test_without_a_search_the_roomiest_hole_is_still_answered_by_the_table() -> None:
    assert bundle_in_hole([2.0, 2.0, 2.0, 1.0], 2 * (1 + math.sqrt(2)), starts=0).code == "published_table"
    assert bundle_in_hole([2.0, 2.0, 2.0, 1.0], 4.6, starts=0).answer == "undecided"


def test_each_bound_refuses_where_it_is_the_strongest() -> None:
    assert bundle_in_hole([5.0], 4.9).code == "largest_wire"
    assert bundle_in_hole([5.0, 1.0], 5.9).code == "two_largest"
    assert bundle_in_hole([5.0, 5.0, 5.0], 10.7).code == "three_largest"
    assert bundle_in_hole([5.0] * 9, 18.0).code == "equal_wires"
    assert bundle_in_hole([5.0] + [4.0] * 12, 13.5).code == "equal_wires"


def test_the_order_of_the_wires_changes_nothing_but_the_places() -> None:
    dice = random.Random(2)
    shuffled = PHASE_AND_SENSOR_LEADS[:]
    dice.shuffle(shuffled)
    for hole in (11.8, 13.2, 20.0):
        assert bundle_in_hole(shuffled, hole).answer == bundle_in_hole(PHASE_AND_SENSOR_LEADS, hole).answer


def test_the_same_question_gets_the_same_places() -> None:
    assert bundle_in_hole(PHASE_AND_SENSOR_LEADS, 13.2) == bundle_in_hole(PHASE_AND_SENSOR_LEADS, 13.2)


def test_places_in_a_window_given_width_first_are_turned_with_it() -> None:
    packed = bundle_in_window([2.0, 2.0, 2.0, 1.5, 1.5], 3.6, 5.4)
    assert packed.code == "found_arrangement"
    assert all(abs(x) <= 1.8 - 0.75 + 1e-9 and abs(y) <= 2.7 - 0.75 + 1e-9 for x, y in packed.centres)


def test_windows_are_refused_for_a_reason_with_numbers() -> None:
    assert bundle_in_window([5.0], 20.0, 4.9).code == "largest_wire"
    assert bundle_in_window([5.0, 5.0], 8.0, 5.5).code == "two_largest"
    assert bundle_in_window([5.0] * 4, 19.0, 5.2).code == "zigzag"
    assert bundle_in_window([1.0] * 40, 5.0, 6.0).code == "area"
    refusal = bundle_in_window([5.0] * 4, 19.0, 5.2)
    assert f"{zigzag_length(4, 5.0, 5.2):.2f} mm" in refusal.why


def test_one_row_fits_a_slot_with_round_ends_exactly() -> None:
    assert bundle_in_window([5.0, 3.0, 4.0], 12.0, 5.0, round_ends=True).code == "in_a_row"
    assert bundle_in_window([5.0, 5.0, 5.0], 14.9, 5.0, round_ends=True).answer == "cannot"


def test_one_by_one_only_the_largest_counts() -> None:
    assert one_by_one_margin([5.5, 3.0, 5.5], 6.0) == pytest.approx(0.5)
    assert one_by_one_margin([5.5, 3.0], 5.0) == pytest.approx(-0.5)


def test_more_wires_never_need_a_smaller_hole() -> None:
    needed = [hole_needed(n, 1.0) for n in range(1, 21)]
    proved = [hole_proved(n, 1.0) for n in range(1, 60)]
    assert needed == sorted(needed) and proved == sorted(proved)


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: hole_needed(21, 1.0), "bundle_in_hole"),
        (lambda: hole_needed(0, 1.0), "from 1 to 20"),
        (lambda: hole_proved(0, 1.0), "1 or more"),
        (lambda: bundle_in_hole([], 5.0), "at least one wire"),
        (lambda: bundle_in_hole([1.0, math.nan], 5.0), "diameter 2"),
        (lambda: bundle_in_hole([1.0], 0.0), "above 0"),
        (lambda: bundle_in_hole([2.0] * 8, 6.8, starts=-1), "0 or more"),
        (lambda: zigzag_length(3, 1.0, 2.0), "zigzag holds from"),
    ],
)
def test_a_malformed_question_says_what_to_do(ask: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        ask()  # type: ignore[operator]

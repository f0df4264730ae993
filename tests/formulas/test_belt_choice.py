"""Choice of a belt for a slot, held against the exact drives of an independent table.

The table `tests/outside/data/belt_reference.csv` was made without this project: the length of each row is the perimeter
of the convex hull of two circles.
"""

from __future__ import annotations

import pytest

from fitdb.formulas.belt_choice import belts_for_slot, centre_distance_or_shortfall, whole_teeth_in_mesh_or_none


@pytest.mark.parametrize(
    ("teeth", "pitch", "length", "centre"),
    [((15, 36), 5, 265, 66.6436), ((14, 44), 5, 300, 73.5927), ((20, 72), 5, 400, 72.9054), ((16, 16), 5, 300, 110.0)],
)
def test_a_drive_that_exists_has_its_exact_centre(
    teeth: tuple[int, int], pitch: float, length: float, centre: float
) -> None:
    assert centre_distance_or_shortfall(*teeth, pitch, length) == pytest.approx(centre, abs=1e-4)


def test_a_belt_that_does_not_reach_round_the_pulley_says_how_much_is_missing() -> None:
    assert centre_distance_or_shortfall(60, 15, 5.0, 265.0) == -35.0
    assert centre_distance_or_shortfall(16, 16, 5.0, 80.0) == 0.0


def test_a_longer_belt_never_brings_the_centres_closer() -> None:
    found = [centre_distance_or_shortfall(15, 40, 5.0, length) for length in range(150, 400, 5)]
    assert found == sorted(found)


def test_teeth_in_mesh_are_whole_and_none_where_there_is_no_drive() -> None:
    assert whole_teeth_in_mesh_or_none(14, 44, 5.0, 73.5927) == 5.0
    assert whole_teeth_in_mesh_or_none(15, 60, 5.0, -35.0) == 0.0
    assert whole_teeth_in_mesh_or_none(15, 60, 5.0, 10.0) == 0.0


def test_neighbours_of_the_best_belt_are_listed_too() -> None:
    stock = (250, 255, 260, 265, 270, 275, 280, 285, 290)
    chosen = belts_for_slot(15, 40, 5.0, 62.0, 72.0, stock)
    # Exact centres by bisection of the length formula: 265 → 60.45, 275 → 65.71, 280 → 68.33 mm.
    assert [choice.length for choice in chosen] == [275, 280, 285]
    assert chosen[0].centre == pytest.approx(65.71, abs=0.01)
    assert chosen[0].to_slip_on == pytest.approx(1.71, abs=0.01)
    assert chosen[1].to_tension == pytest.approx(2.67, abs=0.01)
    assert [choice.suits for choice in chosen] == [True, True, True]


def test_a_short_slot_may_lie_between_two_belts() -> None:
    chosen = belts_for_slot(15, 40, 5.0, 64.5, 68.5, (275, 280))
    assert [choice.suits for choice in chosen] == [False, False]


def test_a_slot_with_its_ends_swapped_is_refused() -> None:
    with pytest.raises(ValueError, match="least centre distance first"):
        belts_for_slot(15, 40, 5.0, 72.0, 62.0, (275,))

"""Sides of an antenna behind what conducts, counted by hand on a box and on a pocket."""

import pytest

from fitdb.formulas.radio_shade import SIDES, shaded_sides


@pytest.mark.parametrize(
    ("box", "deck", "deck_sides", "counted"),
    # Counted on paper: a box has floor and four walls, the deck is its lid; a pocket is the other way round.
    [
        ("no", "no", 1, 0),
        ("yes", "no", 1, 5),
        ("no", "yes", 1, 1),
        ("yes", "yes", 1, 6),
        ("no", "yes", 5, 5),
        ("yes", "no", 5, 1),
    ],
)
def test_sides_counted_on_paper(box: str, deck: str, deck_sides: int, counted: int) -> None:
    assert shaded_sides("inside", box, deck, deck_sides) == counted


def test_led_out_nothing_shades_it() -> None:
    assert shaded_sides("on_a_lead", "yes", "yes", 1) == 0


def test_never_more_than_there_are() -> None:
    assert max(shaded_sides("inside", "yes", "yes", n) for n in range(SIDES + 1)) == SIDES

"""Plugs and bundles in openings: hand-worked cases, and turning searched by brute force."""

import math
import random

import pytest

from fitdb.formulas.lead_openings import (
    GROWTHS,
    bundle_growth,
    largest_growth,
    plug_margin,
    rectangle_through_round_ended_slot_margin,
)


def _inside_slot(p: float, q: float, length: float, width: float, turn: float) -> bool:
    reach = (length - width) / 2.0
    for x, y in ((p / 2, q / 2), (p / 2, -q / 2)):
        u, v = x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)
        if math.hypot(max(abs(u) - reach, 0.0), v) > width / 2.0 + 1e-9:
            return False
    return True


def test_turning_a_rectangle_never_helps_it_through_a_round_ended_slot() -> None:
    dice = random.Random(46)
    for _ in range(300):
        width = dice.uniform(5.0, 15.0)
        length = dice.uniform(width, 40.0)
        p, q = dice.uniform(1.0, 40.0), dice.uniform(1.0, 15.0)
        margin = rectangle_through_round_ended_slot_margin(p, q, length, width)
        turned = any(_inside_slot(p, q, length, width, math.pi * n / 360.0) for n in range(360))
        assert turned == (margin >= 0.0), (p, q, length, width, margin)


def test_a_slot_as_long_as_wide_is_a_hole() -> None:
    """A square of side s has the diagonal s·√2."""
    assert rectangle_through_round_ended_slot_margin(5.0, 5.0, 10.0, 10.0) == pytest.approx(10.0 / math.sqrt(2.0) - 5.0)


def test_a_block_of_16_by_8_in_a_slot_of_17_by_9_with_round_ends() -> None:
    """Worked by hand: 14.364 = 17 − 9 + √(81 − 6.364²), so the block has to lose 1.636 mm."""
    assert rectangle_through_round_ended_slot_margin(16.0, 8.0, 17.0, 9.0) == pytest.approx(-1.636, abs=0.001)


@pytest.mark.parametrize(
    ("form", "section", "margin"),
    [
        ("rectangle", "rectangle", 1.0),
        ("rectangle", "round", -7.0),
        ("round_hole", "round", -7.0),
        ("round_hole", "rectangle", 9.0 - math.hypot(16.0, 8.0)),
        ("round_ended_slot", "round", -7.0),
    ],
)
def test_each_form_of_opening_meets_each_section(form: str, section: str, margin: float) -> None:
    assert plug_margin(form, section, 30.0, 9.0, 16.0, 8.0) == pytest.approx(margin)


def test_three_equal_leads_need_2_1547_of_their_diameter() -> None:
    """Descartes' circle theorem: three equal circles in a ring, 1 + 2/√3."""
    needed = 5.0 * (1.0 + 2.0 / math.sqrt(3.0))
    assert bundle_growth("round_hole", needed, needed + 0.001, (5.0,) * 3) == 0.0
    short = bundle_growth("round_hole", needed, needed - 0.01, (5.0,) * 3)
    assert short is not None and short < 0.0


def test_leads_in_a_row_fill_the_slot() -> None:
    assert bundle_growth("rectangle", 15.0, 5.0, (5.0, 5.0, 5.0)) == 0.0
    assert bundle_growth("rectangle", 15.0, 4.9, (5.0, 5.0, 5.0)) == pytest.approx(-0.1)


def test_without_leads_the_whole_opening_is_left() -> None:
    assert bundle_growth("round_hole", 12.0, 12.0, ()) == 12.0


def test_the_largest_growth_is_found_with_five_more_questions() -> None:
    asked: list[float] = []

    def answer(growth: float, first: bool) -> str:
        asked.append(growth)
        return "goes" if growth <= 1.25 else "cannot"

    assert largest_growth(GROWTHS, answer) == pytest.approx(1.2)
    assert asked[0] == 0.0 and len(asked) <= 6


def test_an_open_first_question_leaves_the_growth_open() -> None:
    assert largest_growth(GROWTHS, lambda growth, first: "undecided") is None

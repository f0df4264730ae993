"""What a box packing question means, checked by hand; published puzzles are in tests/outside."""

from __future__ import annotations

import random
import time

import pytest

from fitdb.formulas import box_packing
from fitdb.formulas.box_packing import (
    Box,
    Cavity,
    KeepOut,
    Lead,
    Packing,
    opening_in_tenths,
    pack,
    size_in_tenths,
)


def answer(packing: Packing) -> tuple[str, str]:
    return packing.answer, packing.code


# --- rounding --------------------------------------------------------------------------------------------------


def test_sizes_round_up_and_openings_round_down() -> None:
    assert size_in_tenths(12.31) == 124
    assert opening_in_tenths(12.39) == 123


def test_a_whole_tenth_stays_what_it_is_in_spite_of_binary_fractions() -> None:
    for tenths in range(1, 5000):
        assert size_in_tenths(tenths / 10) == tenths
        assert opening_in_tenths(tenths / 10) == tenths
    assert size_in_tenths(0.1 + 0.2) == 3


def test_a_size_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="finite"):
        size_in_tenths(float("nan"))


# --- one box ---------------------------------------------------------------------------------------------------


def test_a_box_on_the_limit_goes_and_a_tenth_more_does_not() -> None:
    cavity = Cavity(3000, 1200, 600)
    assert pack(cavity, [Box("pack", 3000, 1200, 600, turns=("fixed",))]).answer == "goes"
    refusal = pack(cavity, [Box("pack", 3001, 1200, 600, turns=("fixed",))])
    assert answer(refusal) == ("cannot", "too_large_every_way")
    assert "0.1 mm too much along its length" in refusal.why


def test_the_allowed_ways_of_lying_are_kept() -> None:
    cavity = Cavity(100, 50, 20)
    assert pack(cavity, [Box("any", 20, 100, 50)]).placements[0].lies == "width_height_length"
    assert pack(cavity, [Box("upright", 50, 100, 20, turns=("upright",))]).placements[0].lies == "width_length_height"
    assert pack(cavity, [Box("upright", 20, 100, 50, turns=("upright",))]).answer == "cannot"
    assert pack(cavity, [Box("fixed", 50, 100, 20, turns=("fixed",))]).answer == "cannot"
    assert pack(cavity, [Box("one way", 20, 50, 100, turns=("height_width_length",))]).answer == "goes"


def test_clearance_is_kept_on_every_side() -> None:
    box = Box("pack", 2970, 1170, 570, turns=("fixed",), clearance=15)
    packing = pack(Cavity(3000, 1200, 600), [box])
    assert packing.answer == "goes"
    assert packing.placements[0].corner == (15, 15, 15)
    assert pack(Cavity(2999, 1200, 600), [box]).answer == "cannot"


def test_neighbours_do_not_share_their_clearance() -> None:
    boxes = [Box(name, 100, 100, 100, clearance=15) for name in ("one", "two")]
    assert pack(Cavity(260, 130, 130), boxes).answer == "goes"
    assert pack(Cavity(245, 130, 130), boxes).answer == "cannot"


@pytest.mark.parametrize(("face", "corner"), [("width+", (0, 0, 0)), ("width-", (50, 0, 0))])
def test_lead_room_lies_at_the_named_face_and_turns_with_the_box(face: str, corner: tuple[int, int, int]) -> None:
    box = Box("controller", 400, 900, 300, turns=("width_length_height",), lead=Lead(face, 50))
    packing = pack(Cavity(950, 400, 300), [box])
    assert packing.placements[0].corner == corner
    assert packing.placements[0].size == (900, 400, 300)
    assert packing.placements[0].block_size == (950, 400, 300)
    assert pack(Cavity(949, 400, 300), [box]).answer == "cannot"


def test_a_single_box_finds_the_way_round_its_keep_outs() -> None:
    bosses = (KeepOut("near boss", 0, 0, 0, 10, 10, 60), KeepOut("far boss", 90, 40, 0, 10, 10, 60))
    cavity = Cavity(100, 50, 60, keep_outs=bosses)
    assert pack(cavity, [Box("slab", 100, 30, 60, turns=("fixed",))]).placements[0].corner == (0, 10, 0)
    refusal = pack(cavity, [Box("slab", 100, 31, 60, turns=("fixed",))])
    assert answer(refusal) == ("cannot", "no_arrangement")


def test_a_keep_out_counts_only_as_far_as_it_reaches_into_the_cavity() -> None:
    cavity = Cavity(100, 50, 60, keep_outs=(KeepOut("wall boss", -20, 0, 0, 30, 50, 60),))
    assert pack(cavity, [Box("block", 90, 50, 60, turns=("fixed",))]).answer == "goes"
    assert pack(cavity, [Box("block", 91, 50, 60, turns=("fixed",))]).answer == "cannot"


def test_nothing_goes_anywhere() -> None:
    assert pack(Cavity(10, 10, 10), []).answer == "goes"


# --- reasons ---------------------------------------------------------------------------------------------------


def test_too_much_volume_is_said_in_cubic_centimetres() -> None:
    refusal = pack(Cavity(1000, 1000, 1000), [Box(f"box {n}", 500, 500, 500) for n in range(9)])
    assert answer(refusal) == ("cannot", "volume")
    assert "1125.000 cm³" in refusal.why and "1000.000" in refusal.why


def test_a_keep_out_takes_its_volume_away_once_however_many_name_it() -> None:
    keep_outs = (KeepOut("rib", 0, 0, 0, 100, 10, 50), KeepOut("rib again", 0, 0, 0, 100, 10, 50))
    cavity = Cavity(100, 100, 50, keep_outs=keep_outs)
    boxes = [Box(f"bar {n}", 100, 30, 50, turns=("fixed",)) for n in range(3)]
    assert pack(cavity, boxes).answer == "goes"
    assert pack(cavity, [*boxes, Box("chip", 1, 1, 1)]).code == "volume"


def test_two_boxes_that_pass_each_other_nowhere_are_named_with_what_is_missing() -> None:
    refusal = pack(Cavity(300, 300, 300), [Box("pack", 160, 170, 180), Box("controller", 150, 150, 150)])
    assert answer(refusal) == ("cannot", "two_pass_nowhere")
    assert "pack and controller" in refusal.why and "1.0 mm" in refusal.why


def test_long_boxes_need_the_cross_section() -> None:
    """Three bars of 60 x 60 in a section of 110 x 110: two by two pass, and 3 x 3600 < 12100 is no refusal; four
    of them are 14400. Each is longer than half the cavity, so none lies behind another."""
    bars = [Box(f"bar {n}", 1200, 60, 60, turns=("fixed",)) for n in range(4)]
    refusal = pack(Cavity(2000, 110, 120), bars)
    assert answer(refusal) == ("cannot", "cross_section")
    assert "bar 3" in refusal.why and "144.0 mm²" in refusal.why


def test_wide_long_boxes_are_stacked_along_the_axis_that_is_left() -> None:
    slabs = [Box(f"slab {n}", 600, 600, height, turns=("upright",)) for n, height in enumerate((40, 40, 30))]
    refusal = pack(Cavity(1000, 1000, 105), slabs)
    assert answer(refusal) == ("cannot", "stack_length")
    assert "11.0 mm" in refusal.why and "10.5 mm" in refusal.why


# --- the search ------------------------------------------------------------------------------------------------


def corkscrew(extra: int) -> list[Box]:
    """Three bars, each 2 x 1 x 1 in units of 100, that fill a cube of 200 corkscrew fashion."""
    return [
        Box("along the length", 200, 100, 100 + extra, turns=("fixed",)),
        Box("along the width", 100, 200, 100, turns=("fixed",)),
        Box("along the height", 100, 100, 200, turns=("fixed",)),
    ]


def test_three_boxes_may_need_to_be_laid_corkscrew_fashion() -> None:
    assert pack(Cavity(200, 200, 200), corkscrew(0)).answer == "goes"
    assert pack(Cavity(200, 200, 200), corkscrew(1)).answer == "cannot"


@pytest.mark.parametrize("number", range(12))
def test_the_exhaustive_search_and_the_first_fit_never_contradict_each_other(
    number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    dice = random.Random(number)
    cavity = Cavity(200, 150, 100, keep_outs=(KeepOut("boss", 90, 0, 0, 20, 20, 100),) if number % 2 else ())
    boxes = [Box(f"box {n}", *(dice.randint(35, 90) for _ in range(3))) for n in range(6)]
    quick = pack(cavity, boxes, seconds=1)
    monkeypatch.setattr(box_packing, "FIRST_FIT_SHARE", 0.0)
    for grid in (True, False):
        if not grid:
            monkeypatch.setattr(box_packing, "_grid_is_small", lambda room, blocks: False)
        searched = pack(cavity, boxes, seconds=1)
        assert {quick.answer, searched.answer} != {"goes", "cannot"}
        assert searched.method != "extreme points"


@pytest.mark.parametrize("loads", [False, True])
def test_both_models_of_the_search_find_a_full_cavity(loads: bool) -> None:
    boxes = [
        Box(f"box {n}", *size) for n, size in enumerate([(90, 70, 50), (90, 30, 50), (60, 100, 20), (60, 100, 30)])
    ]
    room = box_packing._room(Cavity(150, 100, 50))
    blocks = tuple(box_packing._block(box) for box in boxes)
    found, spots = box_packing._solve(room, blocks, 2.0, 0, time.perf_counter() + 8, strict=True, loads=loads)
    assert found == "goes"
    assert len(spots) == 4
    tighter = box_packing._room(Cavity(150, 100, 49))
    assert box_packing._solve(tighter, blocks, 2.0, 0, time.perf_counter() + 8, strict=True, loads=loads)[0] == "cannot"


def test_boxes_alike_may_lie_one_above_another() -> None:
    boxes = [Box(f"cell block {n}", 50, 40, 30, turns=("fixed",)) for n in range(8)]
    room = box_packing._room(Cavity(100, 80, 60))
    blocks = tuple(box_packing._block(box) for box in boxes)
    assert box_packing._solve(room, blocks, 2.0, 0, time.perf_counter() + 8, strict=True)[0] == "goes"


def test_running_out_of_budget_is_undecided_and_never_a_refusal() -> None:
    """27 bricks of 1 x 2 x 4 do not fill a cube of 6, but a thousandth of a second does not prove it."""
    bricks = [Box(f"brick {n}", 1, 2, 4) for n in range(27)]
    packing = pack(Cavity(6, 6, 6), bricks, seconds=0.001)
    assert packing.answer == "undecided"
    assert packing.code in ("budget_used", "clock_ran_out")
    assert packing.placements == ()


def test_the_same_question_gets_the_same_answer() -> None:
    dice = random.Random(5)
    boxes = [Box(f"box {n}", *(dice.randint(30, 90) for _ in range(3))) for n in range(7)]
    cavity = Cavity(210, 150, 100)
    assert pack(cavity, boxes, seconds=2, seed=3) == pack(cavity, boxes, seconds=2, seed=3)


def test_three_boxes_take_well_under_a_millisecond() -> None:
    cavity = Cavity(3000, 2000, 1000)
    boxes = [Box("pack", 1600, 900, 600), Box("controller", 900, 700, 400), Box("charger", 1201, 700, 300)]
    fastest = min(pack(cavity, boxes).seconds for _ in range(50))
    assert fastest < 0.001


# --- malformed questions ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("build", "says"),
    [
        (lambda: Box("pack", 12.5, 10, 10), "whole number of tenths"),  # type: ignore[arg-type]
        (lambda: Box("pack", 0, 10, 10), "at least 1"),
        (lambda: Box("pack", 10, 10, 10, clearance=-1), "at least 0"),
        (lambda: Box("pack", 10, 10, 10, turns=("sideways",)), "turns of box 'pack'"),
        (lambda: Box("pack", 10, 10, 10, turns=()), "one or more"),
        (lambda: Lead("front", 10), "Lead.face"),
        (lambda: Cavity(10, 10, 10, plan_outline=((0, 0), (10, 0))), "three or more"),
        (lambda: Cavity(10, 10, 10, plan_outline=((0, 0), (11, 0), (5, 5))), "lies outside"),
        (lambda: Cavity(10, 10, 10, plan_outline=((0, 0), (10, 10), (10, 0), (0, 10))), "crosses"),
        (lambda: pack(Cavity(10, 10, 10), [Box("a", 1, 1, 1), Box("a", 1, 1, 1)]), "same name"),
        (lambda: pack(Cavity(10, 10, 10), [Box("a", 1, 1, 1)], seconds=0), "budget"),
    ],
)
def test_a_malformed_question_says_what_to_do(build: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        build()  # type: ignore[operator]

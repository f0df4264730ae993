"""A doubt is settled by the reading that it names: a clamp on a cast hanger, read more finely to either side."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping

import pytest
from sqlalchemy import Engine
from stories.whole_swap import Bench, on_the_bench, stories

from fitdb.catalogue import read
from fitdb.intake.own_readings import plan_with_own_readings
from fitdb.model.part import Part
from fitdb.model.plan import OwnReading
from fitdb.model.verdict import SwapVerdict
from fitdb.rules import rulebook
from fitdb.swap import swap

Catalogue = tuple[Engine, read.Book, Mapping[str, list[Part]]]


@pytest.fixture(scope="module")
def clamp(sqlite_catalogue: Catalogue) -> Bench:
    """31.8 ± 0.05 mm of clamp that closes by 0.6 mm, on a barrel of 31.5 ± 0.1 mm with a draft of 0.5 ± 0.2°."""
    _, book, shipped = sqlite_catalogue
    (story,) = (one for one in stories() if one.id == "T04")
    return on_the_bench(story, book, rulebook(), shipped)


def with_barrel(clamp: Bench, *typed: str) -> SwapVerdict:
    """The same plan with the barrel's size (and the draft) read again."""
    own = tuple(
        OwnReading("hanger", attribute, value, "/reading")
        for attribute, value in zip(("size_a", "draft"), typed, strict=False)
    )
    pattern = clamp.judge.pattern
    plan = dataclasses.replace(clamp.plan, readings=own)
    again = plan_with_own_readings(plan, pattern, clamp.book.table, clamp.book.fits)
    return swap(again, clamp.book, clamp.rules, lambda part_class: ())


def test_as_told_it_cannot_be_said_and_the_barrel_is_named_first(clamp: Bench) -> None:
    assert clamp.verdict.as_asked == "measure"
    named = [one.attribute for one in clamp.verdict.to_measure]
    assert named[0] == "size_a"
    assert "draft" in named


def test_a_barrel_read_to_31_60_fits(clamp: Bench) -> None:
    # Gap 31.8 - 31.6 = 0.2 ± 0.08, and the taper over 20 mm of clamp 0.10 to 0.24: at most 0.52 of 0.60 mm.
    assert with_barrel(clamp, "31.60 +-0.03 mm").as_asked == "fits"


def test_a_barrel_read_to_31_10_clashes(clamp: Bench) -> None:
    # Gap 0.7 ± 0.08, before any taper more than the 0.60 mm by which the clamp closes.
    assert with_barrel(clamp, "31.10 +-0.03 mm").as_asked == "clash"


def test_both_readings_settle_what_one_leaves_open(clamp: Bench) -> None:
    # Barrel 31.48 ± 0.02: gap 0.25 to 0.39, taper 0.10 to 0.24: up to 0.63, still open. With a draft of 0.5 ± 0.05° the
    # taper is 0.16 to 0.19, at most 0.58: closed.
    assert with_barrel(clamp, "31.48 +-0.02 mm").as_asked == "measure"
    assert with_barrel(clamp, "31.48 +-0.02 mm", "0.5 +-0.05 deg").as_asked == "fits"


def test_what_comes_of_either_side_is_told_beforehand(clamp: Bench) -> None:
    # With the clamp 31.85 wide, 20.1 mm long on 0.7 degrees of draft it closes from 31.85 + 20.1·tan 0.7° - 0.6 on.
    barrel = clamp.verdict.to_measure[0]
    turn = pytest.approx(31.85 + 20.1 * math.tan(math.radians(0.7)) - 0.6, abs=3e-4)
    assert [(one.low, one.high, one.verdict) for one in barrel.outcomes] == [
        (pytest.approx(31.4), turn, "measure"),
        (turn, pytest.approx(31.6), "fits"),
    ]
    assert barrel.tool == "caliper"

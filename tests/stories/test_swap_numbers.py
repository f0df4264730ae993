"""What the whole swaps do, in numbers, and the cautions beside them: swap_numbers.yaml against the engine.

Every number is a test of its own. It is worked out again from the formula beside it, apart from the engine, and has to
agree within the tolerance that is told. No number and no caution is listed in disagreements.md: one that the engine
does not say stands in swap_numbers.yaml as not told, with the reason.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml
from sqlalchemy import Engine
from stories.number_places import PLACES, Counting
from stories.swap_formulas import worked_out
from stories.whole_swap import on_the_bench, stories

from fitdb.catalogue import read
from fitdb.model.part import Part
from fitdb.ride import answer as ride_answer
from fitdb.rules import rulebook
from fitdb.steps.explain.rides import ride_document
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swaps import swap_document

HERE = Path(__file__).parent
TELLS: Mapping[str, Mapping[str, Any]] = yaml.safe_load((HERE / "swap_numbers.yaml").read_text(encoding="utf-8"))
MILLIMETRES = Display("mm")


@dataclass(frozen=True)
class Check:
    """A number or a caution of one story: its name, and what is told of it."""

    name: str
    story: str
    told: Mapping[str, Any]


def _board(told: Mapping[str, Any]) -> str:
    """The board that is meant, as the name of a test says it."""
    words = ["before"] if told.get("before") else []
    words += [f"{word} {own}" for word in ("with", "without") for own in told.get(word, ())]
    words += [
        f"{own} {name} {value}" for own, sizes in told.get("changed", {}).items() for name, value in sizes.items()
    ]
    return "".join(f" {word}" for word in words)


NUMBERS = [
    Check(f"{own} {told['number']}{_board(told)}", own, told)
    for own, tells in TELLS.items()
    for told in tells.get("numbers", ())
]
CAUTIONS = [
    Check(f"{own} caution: {told['means']}", own, told)
    for own, tells in TELLS.items()
    for told in tells.get("cautions", ())
]
NAMES = [check.name for check in (*NUMBERS, *CAUTIONS)]


def _param(check: Check) -> Any:
    return pytest.param(check, id=check.name)


@pytest.fixture(scope="module")
def countings(sqlite_catalogue: tuple[Engine, read.Book, Mapping[str, list[Part]]]) -> Mapping[str, Counting]:
    _, book, shipped = sqlite_catalogue
    return {story.id: Counting(on_the_bench(story, book, rulebook(), shipped), book) for story in stories()}


@pytest.mark.parametrize("check", [_param(check) for check in NUMBERS])
def test_number(check: Check, countings: Mapping[str, Counting]) -> None:
    told = check.told
    got, unit = countings[check.story].number(told)
    assert unit == told["unit"]
    if "left_of" in told:
        got = worked_out(str(told["left_of"])) - got
    got *= float(told.get("times", 1))
    assert got == pytest.approx(worked_out(told["is"]), rel=1e-9, abs=max(float(told["tol"]), 1e-9)), told["is"]


@pytest.mark.parametrize("check", [_param(check) for check in CAUTIONS])
def test_caution(check: Check, countings: Mapping[str, Counting]) -> None:
    counting = countings[check.story]
    bench = counting.bench
    swapped = swap_document(bench.verdict, [()] * len(bench.verdict.cures), MILLIMETRES, "")
    ridden = ride_answer(bench.verdict, bench.book, bench.rules, lambda part_class: (), MILLIMETRES)
    sentences = [*swapped["cautions"], *ridden["cautions"]]
    groups = [re.compile(words, re.IGNORECASE) for words in check.told["words"]]
    assert any(all(group.search(sentence) for group in groups) for sentence in sentences), sentences


def test_no_time_is_told_for_a_charger_made_for_another_pack(countings: Mapping[str, Counting]) -> None:
    """12S charger, 10S pack: how long it takes is no answer (common practice, no source)."""
    counting = countings["N02"]
    figure = counting.outlook(counting.bench.board({})).figures["charge_time"]
    assert figure.value is None
    assert "do not join" in figure.unknown


def test_a_figure_whose_parts_are_gone_is_unknown_after(countings: Mapping[str, Counting]) -> None:
    counting = countings["E06"]
    boards = {
        "before": counting.bench.board({"before": True}),
        "as_asked": counting.bench.board({"without": ["charger-new"]}),
    }
    outlooks = {name: counting.outlook(board) for name, board in boards.items()}
    rows: dict[str, Any] = {name: {} for name in boards}
    document = ride_document(counting.bench.verdict, outlooks, rows, (), (), {}, MILLIMETRES, "")
    figure = next(one for one in document["figures"] if one["id"] == "charge_time")
    assert figure["before"]["nominal"] == pytest.approx(worked_out("10/2*1.15"))
    assert figure["as_asked"] is None
    assert "unknown; the board no longer has" in figure["sentence"]


def test_the_energy_of_a_pack_is_what_an_airline_counts(countings: Mapping[str, Counting]) -> None:
    """Rated capacity times nominal volts: 10S4P of 5 Ah is 36 V × 20 Ah = 720 Wh, above the 160 Wh that a passenger may
    take (IATA guidance on lithium batteries for passengers; UN Manual of Tests and Criteria 38.3, from memory)."""
    counting = countings["E05"]
    board = counting.bench.board({"changed": {"pack-new": {"parallel": "4"}}})
    value = counting.outlook(board).figures["pack_energy"].value
    assert value is not None
    assert value.nominal == pytest.approx(36.0 * 20.0)


def test_names_are_unlike() -> None:
    assert len(NAMES) == len(set(NAMES))


def test_every_swap_is_asked_for_its_numbers_and_every_place_is_used() -> None:
    assert list(TELLS) == [story.id for story in stories()]
    assert {check.told["number"] for check in NUMBERS} == set(PLACES)
    untold = [one for tells in TELLS.values() for one in tells.get("not_told", ())]
    assert all(one["why"] and worked_out(one["is"]) is not None for one in untold)
    assert len(untold) * 4 < len(NUMBERS)


def test_the_places_name_no_story() -> None:
    words = " ".join(map(str, PLACES.items()))
    ids = {story.id for story in stories()}
    ids |= {part["id"] for story in stories() for part in story.text["parts"] if re.search(r"[-\d]", part["id"])}
    assert not [own for own in ids if re.search(rf"\b{re.escape(own)}\b", words)]

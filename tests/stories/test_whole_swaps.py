"""Twenty-two whole swaps, from the parts told to the verdict, its margins and its remedies.

Every expectation of whole_swaps.yaml is a test of its own. Margins are worked out again from the formula beside them,
apart from the engine, and have to agree within 0.1 of their unit or half a per cent. Where the engine and a story do
not agree, the arithmetic stands in disagreements.md under the name of the test: that test has to fail, and one that
passes although it is listed fails.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine
from stories.swap_formulas import worked_out
from stories.translation import CLASSES, SIZES, USUAL
from stories.whole_swap import Bench, Story, on_the_bench, stories

from fitdb.catalogue import read
from fitdb.model.part import Part
from fitdb.rules import rulebook

HERE = Path(__file__).parent
LISTED = re.compile(r"^- `([^`]+)`: \S", re.MULTILINE)
DISAGREEMENTS: tuple[str, ...] = tuple(LISTED.findall((HERE / "disagreements.md").read_text(encoding="utf-8")))


@dataclass(frozen=True)
class Check:
    """One expectation: its name in disagreements.md, its story, what is asked (`kind`) and of what."""

    name: str
    story: Story
    kind: str
    of: Mapping[str, Any]


def _checks() -> list[Check]:
    found = []
    for story in stories():
        for word in ("as_asked", "best_allowed"):
            found.append(Check(f"{story.id} {word}", story, word, {}))
        for finding in story.text["findings"]:
            found.append(Check(f"{story.id} {finding['joint']}{_board(finding)}", story, "finding", finding))
        for remedy in story.text["remedies"]:
            meant = remedy.get("part", remedy.get("attribute", ""))
            what = f"{story.id} {remedy['does']} {remedy['at']} {meant}".strip()
            if "preferred" in remedy or "rejected" in remedy:
                found.append(Check(f"{what} preferred", story, "preferred", remedy))
            if "fixes" in remedy:
                found.append(Check(f"{what} found", story, "found", remedy))
    return found


def _board(finding: Mapping[str, Any]) -> str:
    """The board that is meant, as the name of a test says it."""
    told = [f" with {own}" for own in finding.get("with", ())]
    told += [f" without {own}" for own in finding.get("without", ())]
    told += [
        f" {own} {name} {value}" for own, sizes in finding.get("changed", {}).items() for name, value in sizes.items()
    ]
    tests = finding.get("test", "").split()
    return "".join(told) + (f" {tests[0].split('.')[1]}" if tests else "")


CHECKS = _checks()


def _param(check: Check) -> Any:
    listed = pytest.mark.xfail(strict=True, raises=AssertionError, reason="see disagreements.md")
    return pytest.param(check, id=check.name, marks=[listed] if check.name in DISAGREEMENTS else [])


@pytest.fixture(scope="module")
def benches(sqlite_catalogue: tuple[Engine, read.Book, Mapping[str, list[Part]]]) -> Mapping[str, Bench]:
    _, book, shipped = sqlite_catalogue
    return {story.id: on_the_bench(story, book, rulebook(), shipped) for story in stories()}


@pytest.mark.parametrize("check", [_param(check) for check in CHECKS])
def test_whole_swap(check: Check, benches: Mapping[str, Bench]) -> None:
    bench = benches[check.story.id]
    if check.kind == "as_asked":
        assert bench.verdict.as_asked == check.story.text["as_asked"]
    elif check.kind == "best_allowed":
        assert bench.verdict.complete
        assert bench.verdict.best_allowed == check.story.text["best_allowed"]
    elif check.kind == "finding":
        _finding_agrees(bench, check.of)
    elif check.kind == "preferred":
        best = bench.verdict.cures[0].moves if bench.verdict.cures else ()
        is_in_best = any(bench.is_meant(move, check.of) for move in best)
        assert is_in_best == bool(check.of.get("preferred", False))
    else:
        _remedy_is_told(bench, check.of)


def _finding_agrees(bench: Bench, finding: Mapping[str, Any]) -> None:
    assert bench.state(finding) == finding["expect"]
    findings = bench.findings(finding, str(finding.get("of", "")))
    times = float(finding.get("times", 1))
    margins = [one.margin for one in findings if one.margin is not None]
    assert margins or "measured" in finding or "of" not in finding
    if "margin" in finding:
        _agrees(min(margin.nominal for margin in margins) * times, finding["margin"])
    if "least" in finding:
        _agrees(min(margin.low for margin in margins), finding["least"])
        _agrees(min(margin.high for margin in margins), finding["most"])
    if "measured" in finding:
        values = [one.value.nominal for one in findings if one.value is not None]
        assert values
        _agrees(min(values), finding["measured"])
    if "comfort_missed" in finding:
        assert any(one.comfort_missed for one in findings) == finding["comfort_missed"]


def _agrees(got: float, formula: str) -> None:
    expected = worked_out(formula)
    assert got == pytest.approx(expected, rel=0.005, abs=0.1), formula


def _remedy_is_told(bench: Bench, remedy: Mapping[str, Any]) -> None:
    """A remedy is among the cures or beside what is to be measured; one that breaks another joint is at least named
    with the finding that ruled it out."""
    if any(bench.is_meant(move, remedy) for move in bench.moves_found()):
        return
    assert remedy.get("preferred") is False, "the remedy is neither a cure nor told beside what is to be measured"
    reasons = [one.ruled_out_by for one in bench.passed_over(remedy) if one.ruled_out_by is not None]
    broken = {bench.rules.kinds[finding.rule.kind].joint for finding in reasons}
    assert broken & set(remedy["breaks"]), "the remedy is not named as passed over for what it breaks"


def test_every_disagreement_names_a_test() -> None:
    assert not set(DISAGREEMENTS) - {check.name for check in CHECKS}
    assert len(DISAGREEMENTS) == len(set(DISAGREEMENTS))


def test_names_are_unlike() -> None:
    assert len(CHECKS) == len({check.name for check in CHECKS})


def test_there_are_twenty_two_swaps_and_half_of_their_margins_are_recomputed() -> None:
    findings = [finding for story in stories() for finding in story.text["findings"]]
    assert len(stories()) == 22
    assert sum("of" in finding for finding in findings) * 2 > len(findings)


def test_the_translation_knows_kinds_alone() -> None:
    """Every row is used, none names a story or one of its parts, and every kind and size that is told has a row."""
    told = {(part["class"], name) for story in stories() for part in story.text["parts"] for name in part["attrs"]}
    assert {kind for kind, _ in told} == set(CLASSES) == {kind for kind, _ in SIZES}
    assert told - {("controller", "count"), ("motor", "count")} == set(SIZES)
    words = " ".join(map(str, (*CLASSES.items(), *SIZES.items(), *USUAL.items())))
    ids = {story.id for story in stories()}
    ids |= {part["id"] for story in stories() for part in story.text["parts"] if re.search(r"[-\d]", part["id"])}
    assert not [own for own in ids if re.search(rf"\b{re.escape(own)}\b", words)]

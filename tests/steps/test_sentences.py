"""What a finding says where the trade knows no limit, only a caution, and where a person has set one."""

from __future__ import annotations

import dataclasses

import pytest
from rules.example_traces import trace_of

from fitdb.model.rule import AtLeast, AtMost, Between, Bound, Example, Rule
from fitdb.rules import rulebook
from fitdb.sheets.rulebook import rule_text
from fitdb.steps.explain import Display, finding_document, limit_document, limit_text, sentence
from fitdb.steps.judge import judge

MM = Display()
PRACTICE = "common practice, no source"
WITHOUT_LIMIT = {
    "local_rules.speed_is_checked_locally",
    "steering_at_speed.two_kingpins_ride_slowly",
    "steering_under_load.loaded_axis_is_not_steep",
    "steering_under_load.sag_tips_the_axes_little",
}
CASES = [
    (rule, example) for name, rule in rulebook().rules.items() if name in WITHOUT_LIMIT for example in rule.examples
]


def bounds(rule: Rule) -> list[Bound]:
    hard = rule.hard
    low = [hard.low] if isinstance(hard, AtLeast | Between) else []
    return low + ([hard.high] if isinstance(hard, AtMost | Between) else [])


def test_the_rules_without_a_limit_are_these() -> None:
    told = {name for name, rule in rulebook().rules.items() if any(one.key.endswith(".none") for one in bounds(rule))}
    assert told == WITHOUT_LIMIT
    for name in WITHOUT_LIMIT:
        rule = rulebook().rules[name]
        assert rule.comfort is not None and rule.caution, "without a limit the caution is all that there is"


@pytest.mark.parametrize(("rule", "example"), CASES, ids=[f"{rule.id}: {example.title}" for rule, example in CASES])
def test_where_there_is_no_limit_none_is_told(rule: Rule, example: Example) -> None:
    finding = judge(trace_of(rule, example))
    told = sentence(finding, MM)
    assert "wanted" not in told and "to spare" not in told and "would fail" not in told
    (bound,) = bounds(rule)
    limit = finding_document(finding, MM)["limit"]
    assert limit["text"] == "no limit here, a caution only"
    assert set(limit) == set(limit_document(AtMost(Bound("made.up.most", 5.0, PRACTICE)), "mm", MM))
    assert (limit["kind"], limit["high"]["value"]) == ("at_most", bound.value)
    assert f"most {bound.value:g}" not in told
    if finding.value is not None and finding.state == "holds":
        assert told.endswith("; no limit here, a caution only.")


@pytest.mark.parametrize("name", sorted(WITHOUT_LIMIT))
def test_the_rulebook_page_tells_no_limit_either(name: str) -> None:
    page = rule_text(rulebook().rules[name])
    assert "- Wanted: no limit here, a caution only" in page
    assert "- Comfortable: at most" in page


def test_a_limit_that_somebody_set_is_told_as_a_limit() -> None:
    rule = rulebook().rules["local_rules.speed_is_checked_locally"]
    fast = dataclasses.replace(rule.examples[0], given={"drive.fastest_speed": 38.0})
    finding = judge(trace_of(rule, fast), limits={"local_rules.speed_is_checked_locally.none": 25.0})
    assert finding.state == "fails"
    assert "wanted: at most 25 km/h" in sentence(finding, MM).replace("25.0", "25")


def test_a_limit_is_told_with_its_unit() -> None:
    assert limit_text(AtMost(Bound("made.up.most", 8.0, PRACTICE)), "mm", MM) == "at most 8.00 mm"
    assert limit_text(AtLeast(Bound("made.up.least", 0.0, PRACTICE)), "mm", MM) == "at least 0 mm"

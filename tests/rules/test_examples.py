"""Every worked example of every rule says what the rulebook page prints beside it."""

from __future__ import annotations

import pytest
from rules.example_traces import trace_of

from fitdb.model.rule import AtLeast, AtMost, Between, Example, Rule
from fitdb.rules import rulebook
from fitdb.steps.judge import judge

CASES = [(rule, example) for rule in rulebook().rules.values() for example in rule.examples]


@pytest.mark.parametrize(("rule", "example"), CASES, ids=[f"{rule.id}: {example.title}" for rule, example in CASES])
def test_the_example_is_judged_as_printed(rule: Rule, example: Example) -> None:
    finding = judge(trace_of(rule, example))
    assert finding.state == example.expect, f"{finding.code} {finding.value} {finding.margin} {finding.unread}"
    if example.margin is not None:
        assert finding.margin is not None
        assert finding.margin.nominal == pytest.approx(example.margin, abs=0.006)


@pytest.mark.parametrize("rule", rulebook().rules.values(), ids=lambda rule: rule.id)
def test_a_rule_shows_one_that_holds_one_that_fails_one_on_the_limit_and_one_unread(rule: Rule) -> None:
    states = [example.expect for example in rule.examples]
    assert "holds" in states and "fails" in states, states
    findings = [judge(trace_of(rule, example)) for example in rule.examples]
    assert any(finding.unread for finding in findings), "no example leaves a reading out"
    if isinstance(rule.hard, AtLeast | AtMost | Between):
        on_limit = [f for f in findings if f.state == "holds" and f.margin is not None and f.margin.low == 0]
        assert on_limit, "no example stands exactly on the limit"


@pytest.mark.parametrize("kind", rulebook().kinds.values(), ids=lambda kind: kind.id)
def test_a_joint_disagrees_with_the_two_number_test_or_says_why_two_numbers_suffice(kind: object) -> None:
    rules = rulebook().by_kind[kind.id]  # type: ignore[attr-defined]
    assert rules, f"{kind} has no rule"
    disagrees = any(example.two_numbers for rule in rules for example in rule.examples)
    assert disagrees or all(rule.two_numbers_suffice for rule in rules)

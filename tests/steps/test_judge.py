"""The laws of the verdict, on small rules made up for the purpose."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Number, Reading, Word
from fitdb.model.rule import (
    NOTHING_TO_GUARD,
    AtLeast,
    AtMost,
    Between,
    Bound,
    OneOf,
    Rule,
    Same,
    Severity,
    Shape,
    Unsettled,
)
from fitdb.model.source import Source, Spread
from fitdb.model.trace import Trace, Variable
from fitdb.steps.judge import excuse, judge, worst

OWN = Source("own", "caliper", "own reading", "own reading")
PRACTICE = Source("bench_practice", "default", "common practice", "common practice, no source")


def number(low: float, nominal: float, high: float, assumed: bool = False) -> Number:
    return Number(low, nominal, high, "mm", OWN, value_assumed=assumed)


def described(name: str, plausible: tuple[float, float] | None, default: float | None = None) -> Attribute:
    return Attribute(
        "thing", name, "number", "mm", name, (0, 1000), plausible, default, (0.1, 0.1), (), False, "", "hard_edge",
        "caliper", "Across the faces.", PRACTICE,
    )  # fmt: skip


def rule_of(quantity: Any, needs: tuple[str, ...], hard: Any, **more: Any) -> Rule:
    settled = {"severity": Severity.DAMAGE, "shape": Shape.MONOTONE, **more}
    return Rule("Does it?", needs, quantity, "gap", "a − b", "mm", hard, id="made_up.rule", kind="made_up", **settled)


def trace_of(rule: Rule, readings: list[Reading | None], attributes: list[Attribute | None] | None = None) -> Trace:
    attributes = attributes or [None] * len(readings)
    variables = tuple(
        Variable("seat", "part", "", need.split(".")[1], attribute, reading, need)
        for need, reading, attribute in zip(rule.needs, readings, attributes, strict=True)
    )
    needs = tuple((lambda values, at=i: values[at]) for i in range(len(readings)))
    return Trace(rule, "joint", variables, needs, {})


def at_least(value: float) -> AtLeast:
    return AtLeast(Bound("made_up.rule.least", value, "common practice, no source"))


def difference(a: float, b: float) -> float:
    return a - b


GAP = rule_of(difference, ("a.hole", "b.pin"), at_least(0.1))


def test_holds_only_if_it_holds_over_the_whole_box() -> None:
    finding = judge(trace_of(GAP, [number(9.9, 10, 10.1), number(9.7, 9.75, 9.8)]))
    assert (finding.state, finding.margin.low, finding.margin.high) == ("holds", 0.0, pytest.approx(0.3))


def test_fails_only_if_it_fails_over_the_whole_box() -> None:
    assert judge(trace_of(GAP, [number(9.9, 10, 10.1), number(10.1, 10.15, 10.2)])).state == "fails"
    assert judge(trace_of(GAP, [number(9.9, 10, 10.1), number(9.9, 10.05, 10.2)])).state == "undecided"


def test_an_undecided_finding_names_the_reading_that_settles_most_and_how_finely() -> None:
    finding = judge(trace_of(GAP, [number(9.5, 10, 10.5), number(9.68, 9.7, 9.72)]))
    first = finding.settling()[0]
    assert first.attribute == "hole" and first.share == pytest.approx(1.0 / 1.04)
    # 0.2 nominal margin, the pin takes 0.02 of it: the hole must be read to 0.18.
    assert first.settles_within == pytest.approx(0.18)


def test_a_reading_that_cannot_settle_alone_says_so() -> None:
    finding = judge(trace_of(GAP, [number(9.5, 10, 10.5), number(9.3, 9.8, 10.3)]))
    assert all(item.settles_within is None for item in finding.settling())


def test_a_reading_that_enters_twice_is_one_variable() -> None:
    rule = rule_of(lambda a: a - 0.9 * a, ("a.size",), at_least(0.5))
    finding = judge(trace_of(rule, [number(5, 10, 15)]))
    assert (finding.value.low, finding.value.high) == (pytest.approx(0.5), pytest.approx(1.5))
    assert finding.state == "holds"


def test_between_is_two_one_sided_margins_not_one_that_peaks_inside_the_box() -> None:
    window = Between(
        Bound("k.low", 0.0, "common practice, no source"), Bound("k.high", 1.0, "common practice, no source")
    )
    rule = rule_of(lambda a: a, ("a.size",), window)
    assert judge(trace_of(rule, [number(0.1, 0.5, 0.9)])).state == "holds"
    # Both ends stick out on different sides: undecided, though no side fails everywhere.
    assert judge(trace_of(rule, [number(-0.5, 0.5, 1.5)])).state == "undecided"
    assert judge(trace_of(rule, [number(1.2, 1.5, 1.8)])).state == "fails"


def test_exactly_on_the_limit_holds() -> None:
    finding = judge(trace_of(GAP, [number(10.3, 10.3, 10.3), number(10.2, 10.2, 10.2)]))
    assert (finding.state, finding.margin.nominal) == ("holds", 0.0)


def test_unread_with_nothing_known_is_undecided_and_never_zero() -> None:
    finding = judge(trace_of(GAP, [number(9.9, 10, 10.1), None]))
    assert (finding.state, finding.code, finding.unread) == ("undecided", "unread", ("part.pin",))


def test_unread_enters_at_its_plausible_range_and_is_named_first() -> None:
    attributes = [described("hole", None), described("pin", (5, 20))]
    finding = judge(trace_of(GAP, [number(9.0, 10, 11), None], attributes))
    assert finding.state == "undecided"
    assert finding.settling()[0].attribute == "pin" and finding.settling()[0].widened


def test_a_default_serves_where_only_damage_threatens_and_widens_where_injury_does() -> None:
    attributes = [None, described("pin", (8, 12), default=9.5)]
    mild = judge(trace_of(GAP, [number(10, 10, 10), None], attributes))
    assert mild.state == "holds"
    harmful = dataclasses.replace(GAP, severity=Severity.INJURY)
    grave = judge(trace_of(harmful, [number(10, 10, 10), None], attributes))
    assert grave.state == "undecided" and grave.value.high == pytest.approx(2.0)


def test_an_assumed_reading_of_a_part_widens_as_well() -> None:
    harmful = dataclasses.replace(GAP, severity=Severity.FIRE)
    attributes = [None, described("pin", (8, 12), default=9.5)]
    finding = judge(trace_of(harmful, [number(10, 10, 10), number(9.4, 9.5, 9.6, assumed=True)], attributes))
    assert finding.state == "undecided"


def test_danger_that_holds_or_fails_over_the_whole_plausible_range_is_decided() -> None:
    harmful = dataclasses.replace(GAP, severity=Severity.FIRE)
    attributes = [None, described("pin", (8, 12), default=9.5)]
    assert judge(trace_of(harmful, [number(13, 13, 13), None], attributes)).state == "holds"
    assert judge(trace_of(harmful, [number(7, 7, 7), None], attributes)).state == "fails"


def test_words_hold_if_every_value_still_possible_passes_and_fail_if_none_does() -> None:
    same = rule_of(lambda a, b: (a, b), ("a.form", "b.form"), Same("k", "common practice, no source"))

    def word(*values: str) -> Word:
        return Word(frozenset(values), OWN)

    assert judge(trace_of(same, [word("round"), word("round")])).state == "holds"
    assert judge(trace_of(same, [word("round"), word("hexagon")])).state == "fails"
    assert judge(trace_of(same, [word("round"), word("round", "hexagon")])).state == "undecided"
    assert judge(trace_of(same, [word("round"), word("oval", "hexagon")])).state == "fails"
    one = rule_of(lambda a: a, ("a.form",), OneOf("k", ("round", "oval"), "common practice, no source"))
    assert judge(trace_of(one, [word("round", "oval")])).state == "holds"
    assert judge(trace_of(one, [None])).state == "undecided"


def test_an_open_vocabulary_decides_nothing_while_unread() -> None:
    one = rule_of(lambda a: a, ("a.form",), OneOf("k", ("round", "oval"), "common practice, no source"))
    assert judge(trace_of(one, [Word(frozenset({"round", "oval"}), OWN, open_vocabulary=True)])).code == "unread"


def test_a_word_inside_a_number_rule_is_tried_in_every_value() -> None:
    rule = rule_of(lambda a, style: a if style == "top" else -a, ("a.size", "b.style"), at_least(0))
    style = Word(frozenset({"top", "drop_through"}), OWN)
    finding = judge(trace_of(rule, [number(1, 2, 3), style]))
    assert (finding.state, finding.value.low, finding.value.high) == ("undecided", -3.0, 3.0)
    assert finding.settling()[0].attribute == "style"


def test_a_count_is_tried_at_every_value_it_may_still_have() -> None:
    rule = rule_of(
        lambda n, m: float(n % m), ("a.windows", "b.lugs"), AtMost(Bound("k", 0, "from memory")), shape=Shape.STEPPED
    )
    lugs = Count((6,), 6, OWN)
    assert judge(trace_of(rule, [Count((6, 12), 6, OWN), lugs])).state == "holds"
    assert judge(trace_of(rule, [Count((5, 7), 5, OWN), lugs])).state == "fails"
    assert judge(trace_of(rule, [Count((5, 6), 6, OWN), lugs])).state == "undecided"


def test_a_corner_that_needs_two_readings_together_is_found() -> None:
    def both(a: float, b: float, c: float, d: float, e: float) -> float:
        return 1.0 if a > 0.5 and b > 0.5 else 0.0 * (c + d + e)

    rule = rule_of(
        both, ("x.a", "x.b", "x.c", "x.d", "x.e"), AtMost(Bound("k", 0.5, "from memory")), shape=Shape.STEPPED
    )
    finding = judge(trace_of(rule, [number(0, 0.2, 1)] * 5))
    assert finding.state == "undecided", "the corner a = b = 1 fails"


def test_a_sampled_rule_is_looked_at_inside_the_box() -> None:
    rule = rule_of(lambda a: (a - 3.0) ** 2, ("x.a",), at_least(0.5), shape=Shape.SAMPLED)
    assert judge(trace_of(rule, [number(0, 5, 6)])).state == "undecided"


def test_a_solver_that_gives_up_is_undecided_and_never_fails() -> None:
    def packs(gap: float) -> float | Unsettled:
        return Unsettled("time ran out") if gap < 2 else gap

    rule = rule_of(packs, ("x.gap",), at_least(1), shape=Shape.ASKED, directions=(1,))
    assert judge(trace_of(rule, [number(1.5, 1.7, 1.9)])).code == "solver_undecided"
    assert judge(trace_of(rule, [number(2.5, 2.7, 2.9)])).state == "holds"
    assert judge(trace_of(rule, [number(1.5, 2.2, 2.9)])).state == "undecided"


def test_words_that_leave_nothing_to_guard_excuse_the_rule_and_others_are_judged() -> None:
    rule = rule_of(lambda a, lock: a if lock == "key" else NOTHING_TO_GUARD, ("x.torque", "x.lock"), at_least(0))
    flat, either = Word(frozenset({"flat"}), OWN), Word(frozenset({"flat", "key"}), OWN)
    assert judge(trace_of(rule, [number(-2, -1, -1), flat])).code == "does_not_apply"
    assert judge(trace_of(rule, [number(-2, -1, -1), either])).state == "fails"


def test_an_excuse_needs_the_other_rule_to_hold_over_its_whole_box() -> None:
    bite = judge(
        trace_of(dataclasses.replace(GAP, id="bite", excused_by="outside"), [number(1, 1, 1), number(2, 2, 2)])
    )
    outside = judge(trace_of(dataclasses.replace(GAP, id="outside"), [number(5, 5, 5), number(1, 1, 1)]))
    doubtful = judge(trace_of(dataclasses.replace(GAP, id="outside"), [number(5, 5, 5), number(1, 1, 9)]))
    assert [finding.state for finding in excuse((bite, outside))] == ["excused", "holds"]
    in_doubt = excuse((bite, doubtful))
    assert [finding.state for finding in in_doubt] == ["undecided", "undecided"]
    assert in_doubt[0].code == "excuse_undecided", "what may yet be excused is not a clash"
    unread = dataclasses.replace(doubtful, inputs=tuple(dataclasses.replace(i, widened=True) for i in doubtful.inputs))
    assert excuse((bite, unread))[0].state == "undecided", "what nobody read may yet excuse it: that is to be measured"
    nothing = dataclasses.replace(doubtful, code="unread")
    assert excuse((bite, nothing))[0].state == "fails", "where nothing is known, nothing speaks for it"
    kept = excuse((bite, dataclasses.replace(doubtful, state="fails")))
    assert kept[0].state == "fails"
    assert worst(excuse((bite, outside))) == "fits"


def test_an_own_limit_is_named_and_loosening_a_dangerous_one_is_marked() -> None:
    harmful = dataclasses.replace(GAP, severity=Severity.INJURY)
    readings: list[Reading | None] = [number(10, 10, 10), number(9.95, 9.95, 9.95)]
    finding = judge(trace_of(harmful, readings), limits={"made_up.rule.least": 0.02})
    assert finding.state == "holds" and "on your own account" in finding.overridden[0]
    tightened = judge(trace_of(harmful, readings), limits={"made_up.rule.least": 0.2})
    assert "on your own account" not in tightened.overridden[0]


def test_comfort_only_adds_a_caution() -> None:
    rule = dataclasses.replace(GAP, comfort=at_least(1.0))
    finding = judge(trace_of(rule, [number(10, 10, 10), number(9.5, 9.5, 9.5)]))
    assert finding.state == "holds" and finding.comfort_missed


def test_a_thin_margin_tells_the_value_that_would_flip_it() -> None:
    finding = judge(trace_of(GAP, [number(9.95, 10, 10.05), number(9.8, 9.8, 9.8)]))
    hole = next(item for item in finding.inputs if item.attribute == "hole")
    assert hole.flips_at == pytest.approx(9.9)


def test_a_quantity_that_is_not_finite_is_our_fault() -> None:
    rule = rule_of(lambda a: float("nan"), ("x.a",), at_least(0))
    with pytest.raises(OurFault):
        judge(trace_of(rule, [number(1, 2, 3)]))


def test_a_precision_finer_than_any_tool_is_settled_at_assembly() -> None:
    spreads = {("caliper", "hard_edge"): Spread("caliper", "hard_edge", 0.05, 0.05, False, "bench_practice")}
    table = AttributeTable({}, {}, {}, spreads, {})
    attributes = [described("hole", None), described("pin", None)]
    fine = judge(trace_of(GAP, [number(9.95, 10, 10.05), number(9.88, 9.88, 9.88)], attributes), table)
    assert fine.state == "undecided" and fine.at_assembly
    coarse = judge(trace_of(GAP, [number(9.5, 10, 10.5), number(9.7, 9.7, 9.7)], attributes), table)
    assert coarse.state == "undecided" and not coarse.at_assembly

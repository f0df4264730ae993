"""Judge: push the box of readings through a rule and hold the result against its limit. Only here are limits applied.

The quantity is ranged first (`ranging` does the arithmetic of corners), then compared: margin low >= 0 holds,
margin high < 0 fails, anything else is undecided, with each reading's share of the doubt.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from fitdb.model.finding import Finding, Input, Range
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.rule import AtLeast, AtMost, Between, NumberLimit, OneOf, Same, Severity
from fitdb.model.trace import Trace, Variable
from fitdb.steps.judge.box import (
    combinations_of_words,
    is_unread,
    margin_of,
    merged,
    outcome,
    overlaid,
    range_of,
    state_excused,
    used,
    words_compared,
    words_pass,
)
from fitdb.steps.judge.ranging import Ranged, Swing

MEASURING_TOOLS = ("caliper", "ruler", "meter", "level")


def judge(trace: Trace, table: AttributeTable | None = None, limits: Mapping[str, float] | None = None) -> Finding:
    """What the rule says at its joint.

    `table` gives the spreads of tools, to say when no tool reads finely enough; `limits` replaces bounds by key, and
    every replacement is named in the finding. Raises OurFault if the quantity is not finite inside the box.
    """
    rule = trace.rule
    if trace.wanted or trace.lacking:
        note = "; ".join(trace.lacking)
        code = "role_absent" if trace.wanted else "attribute_absent"
        return Finding(rule, trace.joint, "not_asked", code, wanted=trace.wanted, note=note)
    seen = tuple(used(variable.reading, variable.described, rule.severity) for variable in trace.variables)
    unread = tuple(
        f"{variable.part}.{variable.attribute}"
        for variable, reading in zip(trace.variables, seen, strict=True)
        if is_unread(reading)
    )
    inputs = tuple(_input(variable, reading) for variable, reading in zip(trace.variables, seen, strict=True))
    if unread:
        return Finding(rule, trace.joint, "undecided", "unread", inputs=inputs, unread=unread)
    readings = tuple(reading for reading in seen if reading is not None)
    if isinstance(rule.hard, Same | OneOf):
        return _judge_words(trace, readings, inputs)
    hard, hard_overridden = overlaid(rule.hard, limits or {})
    comfort, _ = overlaid(rule.comfort, limits or {}) if rule.comfort else (None, ())
    overridden = tuple(_name_override(line, rule.severity, loosened) for line, loosened in hard_overridden)
    combinations = combinations_of_words(readings)
    if combinations is None:
        return Finding(rule, trace.joint, "undecided", "too_many_words", inputs=inputs, overridden=overridden)
    ranges = [range_of(trace, readings, words) for words in combinations]
    results = [result for result in ranges if result is not None]
    if not results:
        return Finding(rule, trace.joint, "excused", "does_not_apply", inputs=inputs, overridden=overridden)
    unsettled = next((result.unsettled for result in results if result.unsettled), "")
    value = merged(results, rule.unit)
    margin = margin_of(hard, value, rule.unit)
    state, code = outcome(hard, value, margin, results)
    comfort_missed = comfort is not None and state == "holds" and margin_of(comfort, value, rule.unit).nominal < 0
    swings = _merged_swings(results, len(readings))
    inputs = _weighed(inputs, readings, swings, results, hard, margin, state)
    finding = Finding(
        rule,
        trace.joint,
        state,
        code,
        value,
        margin,
        comfort_missed,
        inputs,
        note=unsettled,
        overridden=overridden,
        hard=hard,
        comfort=comfort,
        loosened=rule.severity >= Severity.INJURY and any(loosened for _, loosened in hard_overridden),
    )
    if state == "undecided" and table is not None and not unsettled:
        finding = dataclasses.replace(finding, at_assembly=_finer_than_any_tool(finding, trace, table))
    return finding


def excuse(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Findings of one joint with those excused that another rule, holding over its whole box, speaks free."""
    states = {finding.rule.id: finding for finding in findings}
    return tuple(_excused(finding, states.get(finding.rule.excused_by)) for finding in findings)


def _excused(finding: Finding, other: Finding | None) -> Finding:
    """The finding in the light of the rule that may speak it free."""
    if other is None:
        return finding
    state = state_excused(finding.state, other.state, other.code)
    if state == finding.state:
        return finding
    if state == "excused":
        return dataclasses.replace(finding, state=state, code="excused", note=f"excused by {other.rule.id}")
    note = f"unless {other.rule.id}"
    return dataclasses.replace(finding, state=state, code="excuse_undecided", inputs=other.inputs, note=note)


def worst(findings: tuple[Finding, ...]) -> str:
    """The verdict of a joint: clash, measure or fits; `not_asked` if no rule could be asked."""
    states = {finding.state for finding in findings}
    if "fails" in states:
        return "clash"
    if "undecided" in states:
        return "measure"
    return "fits" if states & {"holds", "excused"} else "not_asked"


def _input(variable: Variable, reading: Reading | None) -> Input:
    sized = reading is not None and not isinstance(reading, Word | Outline)
    described = variable.described
    return Input(
        need=variable.needed_as,
        seat=variable.seat,
        part=variable.part,
        attribute=variable.attribute,
        reading=reading,
        unit=described.unit if described else getattr(reading, "unit", ""),
        used_low=reading.low if sized else None,  # type: ignore[union-attr]
        used_high=reading.high if sized else None,  # type: ignore[union-attr]
        how=described.how if described else "",
        tool=described.tool if described else "",
        widened=reading is not None and reading.value_assumed,
    )


def _judge_words(trace: Trace, readings: tuple[Reading, ...], inputs: tuple[Input, ...]) -> Finding:
    rule = trace.rule
    combinations = combinations_of_words(readings)
    if combinations is None:
        return Finding(rule, trace.joint, "undecided", "too_many_words", inputs=inputs)
    every = [words_compared(trace, readings, words) for words in combinations]
    passes = [words_pass(rule.hard, compared) for compared in every]
    state = "holds" if all(passes) else "fails" if not any(passes) else "undecided"
    code = {"holds": "holds", "fails": "words_differ", "undecided": "word_unknown"}[state]
    if state == "undecided":
        open_words = [
            i for i, reading in enumerate(readings) if isinstance(reading, Word) and len(reading.possible) > 1
        ]
        inputs = tuple(
            dataclasses.replace(item, share=1 / len(open_words)) if i in open_words else item
            for i, item in enumerate(inputs)
        )
    return Finding(rule, trace.joint, state, code, inputs=inputs, words=every[-1] if len(passes) == 1 else ())


def _name_override(line: str, severity: Severity, loosened: bool) -> str:
    if loosened and severity >= Severity.INJURY:
        return f"{line} (loosened on your own account: this limit guards against {severity.word})"
    return f"{line} (your own limit)"


def _merged_swings(results: list[Ranged], count: int) -> list[Swing | None]:
    """Per reading the widest swing over all combinations of words."""
    merged: list[Swing | None] = [None] * count
    for result in results:
        for i, swing in enumerate(result.swings):
            best = merged[i]
            if swing is not None and (best is None or swing.width > best.width):
                merged[i] = swing
    return merged


def _weighed(
    inputs: tuple[Input, ...],
    readings: tuple[Reading, ...],
    swings: list[Swing | None],
    results: list[Ranged],
    hard: NumberLimit,
    margin: Range,
    state: str,
) -> tuple[Input, ...]:
    """Inputs with their share of the width, the precision at which each settles, and where each would flip."""
    words_matter = len(results) > 1 and max(r.nominal for r in results) - min(r.nominal for r in results)
    widths = [swing.width if swing else 0.0 for swing in swings]
    for i, reading in enumerate(readings):
        if words_matter and isinstance(reading, Word) and len(reading.possible) > 1:
            widths[i] = float(words_matter)
    # A drawn outline has a spread and no swing: what the swings leave unexplained stays when one reading is settled.
    total = max(sum(widths), margin.high - margin.low)
    weighed = []
    for i, (item, swing) in enumerate(zip(inputs, swings, strict=True)):
        share = widths[i] / total if total > 0 else 0.0
        settles = flips = None
        if swing is not None and swing.width > 0 and item.used_low is not None and item.used_high is not None:
            slope = swing.width / (item.used_high - item.used_low)
            if state == "undecided":
                within = (abs(margin.nominal) - (total - widths[i]) / 2) / slope
                settles = within if 0 < within < (item.used_high - item.used_low) / 2 else None
            if state in ("holds", "undecided"):
                flips = _flip(swing, item, hard, results[0].nominal)
        weighed.append(dataclasses.replace(item, share=share, settles_within=settles, flips_at=flips))
    return tuple(weighed)


def _flip(swing: Swing, item: Input, hard: NumberLimit, nominal: float) -> float | None:
    """The value of this reading at which the quantity meets its limit, all else nominal, on a straight line."""
    assert item.used_low is not None and item.used_high is not None
    signed = (swing.at_high - swing.at_low) / (item.used_high - item.used_low)
    reading = item.reading
    if signed == 0 or reading is None or isinstance(reading, Word | Outline):
        return None
    candidates = []
    if isinstance(hard, AtLeast | Between):
        candidates.append(reading.nominal + (hard.low.value - nominal) / signed)
    if isinstance(hard, AtMost | Between):
        candidates.append(reading.nominal + (hard.high.value - nominal) / signed)
    return min(candidates, key=lambda value: abs(value - reading.nominal))


def _finer_than_any_tool(finding: Finding, trace: Trace, table: AttributeTable) -> bool:
    """Whether the doubt would stay if every reading were taken with the finest tool of the source table."""
    assert finding.value is not None and finding.margin is not None
    described = {(one.seat, one.attribute): one.described for one in trace.variables}
    half = (finding.value.high - finding.value.low) / 2
    stays = half * max(0.0, 1 - sum(item.share for item in finding.inputs))  # drawn outlines, which no tool re-reads
    for item in finding.inputs:
        if item.share <= 0:
            continue
        # What nobody took yet may land anywhere in its range, and a word or a count is settled by looking.
        if item.widened or isinstance(item.reading, Word | Count):
            return False
        attribute = described[item.seat, item.attribute]
        finest = _finest_spread(attribute, item.reading, table)
        reach = ((item.used_high or 0.0) - (item.used_low or 0.0)) / 2
        finer = min(1.0, finest / reach) if finest is not None and reach > 0 else 1.0
        stays += half * item.share * finer
    return abs(finding.margin.nominal) <= stays


def _finest_spread(attribute: Attribute | None, reading: Reading | None, table: AttributeTable) -> float | None:
    """The half width that the finest measuring tool gives to a reading of this kind; None if no tool takes it."""
    if attribute is None or reading is None or isinstance(reading, Word | Outline):
        return None
    spreads = [
        max(spread.minus, spread.plus) * (abs(reading.nominal) / 100 if spread.percent else 1.0)
        for (kind, family), spread in table.spreads.items()
        if family == attribute.family and kind in MEASURING_TOOLS
    ]
    return min(spreads, default=None)

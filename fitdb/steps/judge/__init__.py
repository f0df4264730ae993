"""Judge: push the box of readings through a rule and hold the result against its limit. Only here are limits applied.

The quantity is ranged first (`ranging` does the arithmetic of corners), then compared: margin low >= 0 holds,
margin high < 0 fails, anything else is undecided, with each reading's share of the doubt.
"""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Mapping, Sequence
from typing import Any

from fitdb.intake.readings import assumed
from fitdb.model.finding import Finding, Input, Range
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.rule import AtLeast, AtMost, Between, Bound, NothingToGuard, NumberLimit, OneOf, Same, Severity, Shape
from fitdb.model.trace import Trace, Variable
from fitdb.steps.judge.ranging import Ranged, Swing, ranged, ranged_at_corners

WORD_COMBINATIONS = 512
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
    used = tuple(_used(variable, rule.severity) for variable in trace.variables)
    unread = tuple(
        f"{variable.part}.{variable.attribute}"
        for variable, reading in zip(trace.variables, used, strict=True)
        if reading is None or (isinstance(reading, Word) and reading.open_vocabulary and len(reading.possible) != 1)
    )
    inputs = tuple(_input(variable, reading) for variable, reading in zip(trace.variables, used, strict=True))
    if unread:
        return Finding(rule, trace.joint, "undecided", "unread", inputs=inputs, unread=unread)
    readings = tuple(reading for reading in used if reading is not None)
    if isinstance(rule.hard, Same | OneOf):
        return _judge_words(trace, readings, inputs)
    hard, hard_overridden = _overlay(rule.hard, limits or {})
    comfort, _ = _overlay(rule.comfort, limits or {}) if rule.comfort else (None, ())
    overridden = tuple(_name_override(line, rule.severity, loosened) for line, loosened in hard_overridden)
    combinations = _word_combinations(readings)
    if combinations is None:
        return Finding(rule, trace.joint, "undecided", "too_many_words", inputs=inputs, overridden=overridden)
    ranges = [_range(trace, readings, words) for words in combinations]
    results = [result for result in ranges if result is not None]
    if not results:
        return Finding(rule, trace.joint, "excused", "does_not_apply", inputs=inputs, overridden=overridden)
    unsettled = next((result.unsettled for result in results if result.unsettled), "")
    value = Range(
        min(result.low for result in results),
        sorted(result.nominal for result in results)[len(results) // 2],  # a value at a point, not a mean of words
        max(result.high for result in results),
        rule.unit,
    )
    margin = _margin(hard, value, rule.unit)
    state = "holds" if margin.low >= 0 and not unsettled else "fails" if _surely_fails(hard, value) else "undecided"
    if unsettled and state == "fails" and any(result.unsettled and result.high_open for result in results):
        state = "undecided"
    code = {"holds": "holds", "fails": "fails", "undecided": "solver_undecided" if unsettled else "straddles"}[state]
    comfort_missed = comfort is not None and state == "holds" and _margin(comfort, value, rule.unit).nominal < 0
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
    """The finding in the light of the rule that may speak it free.

    Where that rule's readings were taken and straddle its limit, this one is in doubt as well; where nobody took them,
    nothing speaks for it.
    """
    if other is None or finding.state not in ("fails", "undecided"):
        return finding
    if other.state == "holds":
        return dataclasses.replace(finding, state="excused", code="excused", note=f"excused by {other.rule.id}")
    read = other.code != "unread" and not any(item.widened for item in other.inputs)
    if other.state == "undecided" and read and finding.state == "fails":
        return dataclasses.replace(
            finding, state="undecided", code="excuse_undecided", inputs=other.inputs, note=f"unless {other.rule.id}"
        )
    return finding


def worst(findings: tuple[Finding, ...]) -> str:
    """The verdict of a joint: clash, measure or fits; `not_asked` if no rule could be asked."""
    states = {finding.state for finding in findings}
    if "fails" in states:
        return "clash"
    if "undecided" in states:
        return "measure"
    return "fits" if states & {"holds", "excused"} else "not_asked"


def _used(variable: Variable, severity: Severity) -> Reading | None:
    """The reading as this rule must see it: danger is never assumed away, so an assumed value widens."""
    reading, described = variable.reading, variable.described
    if reading is not None and not reading.value_assumed:
        return reading
    if described is None:
        return reading
    stand_in = assumed(described, widest=severity >= Severity.INJURY)
    return stand_in if reading is None or severity >= Severity.INJURY else reading


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
    combinations = _word_combinations(readings)
    if combinations is None:
        return Finding(rule, trace.joint, "undecided", "too_many_words", inputs=inputs)
    passes = []
    compared: tuple[str, ...] = ()
    for words in combinations:
        result = trace.quantity(_values(readings, words))
        compared = (result,) if isinstance(result, str) else tuple(str(word) for word in result)
        if isinstance(rule.hard, Same):
            passes.append(len(set(compared)) <= 1)
        elif isinstance(rule.hard, OneOf):
            passes.append(all(word in rule.hard.words for word in compared))
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
    return Finding(rule, trace.joint, state, code, inputs=inputs, words=compared if len(passes) == 1 else ())


def _word_combinations(readings: tuple[Reading, ...]) -> list[tuple[str, ...]] | None:
    """Every combination of words still possible; None if there are too many to go through."""
    choices = [sorted(reading.possible) for reading in readings if isinstance(reading, Word)]
    count = 1
    for choice in choices:
        count *= max(len(choice), 1)
    return list(itertools.product(*choices)) if count <= WORD_COMBINATIONS else None


def _values(readings: tuple[Reading, ...], words: tuple[str, ...]) -> list[Any]:
    """Nominal values, with one word per Word reading taken from `words` in order."""
    left = iter(words)
    return [_nominal(reading) if not isinstance(reading, Word) else next(left) for reading in readings]


def _nominal(reading: Reading) -> Any:
    if isinstance(reading, Outline):
        return dataclasses.replace(reading, spread=0.0)
    if isinstance(reading, Count):
        return reading.nominal
    return float(reading.nominal) if not isinstance(reading, Word) else None


def _range(trace: Trace, readings: tuple[Reading, ...], words: tuple[str, ...]) -> Ranged | None:
    """The range of the quantity for one combination of words; None where these words leave nothing to guard."""
    nominal = _values(readings, words)
    sides: list[tuple[Any, ...]] = []
    for reading in readings:
        if isinstance(reading, Word | Outline):
            sides.append(())
        elif isinstance(reading, Count):
            sides.append(reading.values if len(reading.values) > 1 else ())
        else:
            sides.append((float(reading.low), float(reading.high)) if reading.high > reading.low else ())
    try:
        middle = trace.quantity(nominal)
        if isinstance(middle, NothingToGuard):
            return None
        if trace.rule.shape is Shape.ASKED:
            return ranged_at_corners(trace, nominal, sides, readings)

        def quantity(values: Sequence[Any]) -> Any:
            found = trace.quantity(values)
            return middle if isinstance(found, NothingToGuard) else found  # nothing to guard there: nothing worse

        return ranged(quantity, nominal, sides, trace.rule.shape)
    except (ArithmeticError, ValueError, TypeError) as fault:
        raise OurFault(f"the rule {trace.rule.id} could not be worked out at {trace.joint}: {fault}") from fault


def _margin(limit: NumberLimit, value: Range, unit: str) -> Range:
    """The value against the limit; Between is two one-sided margins, the smaller told."""
    sides = []
    if isinstance(limit, AtLeast | Between):
        bound = limit.low.value
        sides.append((value.low - bound, value.nominal - bound, value.high - bound))
    if isinstance(limit, AtMost | Between):
        bound = limit.high.value
        sides.append((bound - value.high, bound - value.nominal, bound - value.low))
    low, nominal, high = (min(side[i] for side in sides) + 0.0 for i in range(3))
    return Range(_clean(low), _clean(nominal), _clean(high), unit)


def _clean(number: float) -> float:
    """Exactly on the limit is exactly on the limit, whatever the last bit of a binary fraction says."""
    return 0.0 if abs(number) < 1e-9 else number


def _surely_fails(limit: NumberLimit, value: Range) -> bool:
    below = isinstance(limit, AtLeast | Between) and _clean(value.high - limit.low.value) < 0
    above = isinstance(limit, AtMost | Between) and _clean(limit.high.value - value.low) < 0
    return below or above


def _overlay(limit: Any, limits: Mapping[str, float]) -> tuple[Any, tuple[tuple[str, bool], ...]]:
    """The limit with bounds replaced by key, and per replacement what was done and whether it loosened the rule."""
    done: list[tuple[str, bool]] = []

    def replaced(bound: Bound, looser: int) -> Bound:
        if bound.key not in limits or limits[bound.key] == bound.value:
            return bound
        value = limits[bound.key]
        done.append((f"{bound.key}: {value:g} instead of {bound.value:g}", (value - bound.value) * looser > 0))
        return Bound(bound.key, value, "own limit")

    if isinstance(limit, AtLeast):
        limit = AtLeast(replaced(limit.low, -1))
    elif isinstance(limit, AtMost):
        limit = AtMost(replaced(limit.high, +1))
    elif isinstance(limit, Between):
        limit = Between(replaced(limit.low, -1), replaced(limit.high, +1))
    return limit, tuple(done)


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

"""Findings and verdicts as plain sentences, made from the numbers beside them."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from fitdb.intake.units import show
from fitdb.model.finding import Finding, Input, Range
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.rule import AtLeast, AtMost, Between, Bound, Limit, OneOf, Same
from fitdb.model.verdict import Verdict

HEADLINES = {
    "fits": "These numbers do not clash.",
    "fits_with": "As asked it clashes; with the remedy named below these numbers do not clash.",
    "measure": "Cannot tell yet: one or more readings decide it.",
    "clash": "These parts clash.",
    "not_asked": "No rule could be asked.",
}


NOTHING_MEETS = (
    "These do not meet: no rule here takes one of them with the other. That is no permission: "
    "what the rulebook does not know (volts and currents above all) it cannot refuse."
)

THOUSANDTH_MM = 0.0254  # of an inch
NO_LIMIT = "no limit here, a caution only"


@dataclass(frozen=True, slots=True)
class Display:
    """How lengths are written: `system` mm or inch, inch as decimals or fractions."""

    system: str = "mm"
    fractions: bool = False

    def size(self, value: float, unit: str) -> str:
        if value == 0:
            return f"0 {show(1.0, unit, self.system).partition(' ')[2]}".strip() if unit != "deg" else "0°"
        return show(value, unit, self.system, self.fractions)

    def finely(self, value: float, unit: str) -> str:
        """How finely something has to be read, rounded down to two digits, or to whole thousandths of an inch: read so,
        it is fine enough. Inches are decimal here, for no caliper has fractions that fine."""
        inches = self.system == "inch" and unit == "mm" and value >= THOUSANDTH_MM
        digit = THOUSANDTH_MM if inches else 10.0 ** (math.floor(math.log10(value)) - 1)
        return show(math.floor(value / digit + 1e-6) * digit, unit, "inch" if inches else "mm")

    def range(self, shown: Range) -> str:
        """The middle value, and the range where it has any width."""
        middle = self.size(shown.nominal, shown.unit)
        if abs(shown.high - shown.low) < 1e-9:
            return middle
        return f"{middle} ({self.size(shown.low, shown.unit)} to {self.size(shown.high, shown.unit)})"


def sentence(finding: Finding, display: Display) -> str:
    """What the finding says, in one or two sentences with its numbers."""
    rule = finding.rule
    if finding.state == "not_asked":
        if finding.wanted:
            parts = tuple(_either(classes) or role.replace("_", " ") for role, classes in finding.wanted)
            return f"Not asked: it also needs {_list(parts)}."
        return f"Not asked: {finding.note}."
    if finding.state == "excused":
        if finding.code == "does_not_apply":
            return "Excused: there is nothing of this kind here."
        other = finding.note.removeprefix("excused by ")
        return f"Excused: it does not matter here, because {other} holds over the whole range."
    if finding.code == "unread":
        return f"Cannot tell: nobody has read {_list(finding.unread)}."
    if finding.code == "too_many_words":
        return "Cannot tell: too many words are still open; name some of them."
    if isinstance(rule.hard, Same | OneOf):
        return _word_sentence(finding)
    assert finding.value is not None and finding.margin is not None
    wanted = limit_text(finding.hard or rule.hard, rule.unit, display)
    unlimited = cautions_only(finding.hard or rule.hard)
    told = f"{_subject(rule.measures)} is {display.range(finding.value)}; {'' if unlimited else 'wanted: '}{wanted}."
    if unlimited and finding.state == "holds":
        return f"Holds: {told}"  # what is to spare, and where it would turn, mean nothing without a limit
    if unlimited and finding.state == "fails":
        return f"Fails: {told} No board gets there: read it again."
    if finding.state == "holds":
        text = f"Holds: {told} {_spare(finding.margin, display)}"
        return f"{text} {_flip(finding, display)}".strip()
    if finding.code == "excuse_undecided":
        other = finding.note.removeprefix("unless ")
        return f"Cannot tell: {told} It fails, unless {other} holds. {settle_sentence(finding, display)}".strip()
    if finding.state == "fails":
        return f"Fails: {told} {display.size(-finding.margin.nominal, rule.unit)} beyond the limit."
    if finding.code == "solver_undecided":
        return f"Cannot tell: {finding.note}"
    return f"Cannot tell: {told} {settle_sentence(finding, display)}".strip()


def settle_sentence(finding: Finding, display: Display) -> str:
    """Which reading settles an undecided finding, how finely, and how to take it."""
    ranked = finding.settling()
    if not ranked:
        return ""
    first = ranked[0]
    name = f"{first.part or first.seat}.{first.attribute}"
    how = f" {first.how}" if first.how else ""
    if finding.at_assembly:
        return f"No tool reads {name} finely enough: settle it at assembly, with this kit in hand.{how}"
    if first.reading is None or first.widened:
        turns = _turning_point(first, display)
        return f"Nobody has read {name}: read it first{turns}.{how}"
    if first.settles_within is not None:
        within = display.finely(first.settles_within, first.unit)
        return f"Read {name} to ±{within} or better.{how}"
    others = f" together with {ranked[1].part}.{ranked[1].attribute}" if len(ranked) > 1 else ""
    return f"Read {name} more finely{others}.{how}"


def cautions_only(limit: Limit) -> bool:
    """Whether the trade knows no limit here, only a caution: the key of every bound ends in `.none`.

    A person who sets a limit of their own under that key has one.
    """
    bounds: tuple[Bound, ...] = ()
    if isinstance(limit, AtLeast | Between):
        bounds += (limit.low,)
    if isinstance(limit, AtMost | Between):
        bounds += (limit.high,)
    return bool(bounds) and all(bound.key.endswith(".none") and bound.source != "own limit" for bound in bounds)


def limit_text(limit: Limit, unit: str, display: Display) -> str:
    """A limit in words, with its unit."""
    if cautions_only(limit):
        return NO_LIMIT
    if isinstance(limit, AtLeast):
        return f"at least {display.size(limit.low.value, unit)}"
    if isinstance(limit, AtMost):
        return f"at most {display.size(limit.high.value, unit)}"
    if isinstance(limit, Between):
        return f"{display.size(limit.low.value, unit)} to {display.size(limit.high.value, unit)}"
    if isinstance(limit, Same):
        return "the same on both sides"
    return "one of " + ", ".join(limit.words).replace("_", " ")


def headline(verdict: Verdict) -> str:
    """The first sentence of an answer; a limit loosened by the person is never passed over in silence."""
    if verdict.as_asked == "not_asked":
        return NOTHING_MEETS
    loosened = [f for joint in verdict.joints for f in joint.findings if f.loosened and f.state == "holds"]
    text = HEADLINES[verdict.best_allowed]
    if verdict.as_asked == "clash" and verdict.best_allowed == "measure":
        text = "As asked it clashes; whether the adapter named below mends it, a reading decides."
    if not loosened:
        return text
    names = ", ".join(dict.fromkeys(finding.rule.id for finding in loosened))
    return f"{text} That rests on a limit you loosened yourself, which guards against harm: {names}."


def reading_text(reading: Reading, display: Display) -> str:
    """A reading in words: middle value, range where it has one, unit."""
    if isinstance(reading, Number | Designation):
        return display.range(Range(reading.low, reading.nominal, reading.high, reading.unit))
    if isinstance(reading, Count):
        return " or ".join(str(value) for value in reading.values)
    if isinstance(reading, Word):
        return " or ".join(sorted(reading.possible)).replace("_", " ")
    points = sum(len(ring) for ring in reading.rings)
    return f"drawn: {len(reading.holes)} holes" if reading.holes else f"drawn: {points} points"


def _turning_point(item: Input, display: Display) -> str:
    """Where an unread size would turn the finding, if that lies within its plausible range."""
    if item.flips_at is None or item.used_low is None or item.used_high is None:
        return ""
    if not item.used_low < item.flips_at < item.used_high:
        return ""
    return f"; it turns at about {display.size(item.flips_at, item.unit)}"


def _word_sentence(finding: Finding) -> str:
    wanted = limit_text(finding.rule.hard, "", Display())
    told = " and ".join(dict.fromkeys(finding.words)).replace("_", " ")
    if finding.state == "holds":
        return f"Holds: {told or 'every word still possible'}; wanted: {wanted}."
    if finding.state == "fails":
        return f"Fails: {told or 'no word still possible passes'}; wanted: {wanted}."
    return f"Cannot tell: {settle_sentence(finding, Display())}"


def _subject(measures: str) -> str:
    """What a rule measures without the explanation behind a colon or semicolon: the subject of a sentence."""
    return re.split(r"[:;]", measures)[0].strip()


def _spare(margin: Range, display: Display) -> str:
    if margin.low == margin.high == 0:
        return "Exactly on the limit."
    return f"{display.range(margin)} to spare."


def _flip(finding: Finding, display: Display) -> str:
    """For a thin margin, the value that would turn it: the reading with the largest share."""
    told = [item for item in finding.inputs if item.flips_at is not None and item.share > 0]
    if not told:
        return ""
    item = max(told, key=lambda one: one.share)
    assert item.flips_at is not None
    reading = item.reading
    if reading is None or isinstance(reading, Word | Outline) or item.used_low is None or item.used_high is None:
        return ""
    reach = 3 * (item.used_high - item.used_low)
    if abs(item.flips_at - reading.nominal) > reach:
        return ""
    name = f"{item.part or item.seat}.{item.attribute}"
    have, turn = display.size(reading.nominal, item.unit), display.size(item.flips_at, item.unit)
    if have == turn:
        return ""
    stands = f"{have} is assumed" if reading.value_assumed else f"you have {have}"
    return f"It would fail at {name} {turn}; {stands}."


def _either(classes: tuple[str, ...]) -> str:
    return " or ".join(name.replace("_", " ") for name in classes)


def _list(names: tuple[str, ...]) -> str:
    return ", ".join(names[:-1]) + " and " + names[-1] if len(names) > 1 else "".join(names)

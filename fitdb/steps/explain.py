"""Explain: findings and verdicts as plain sentences, and as one document that a front end can read.

Evidence first, sentences second: every sentence stands beside a stable code and the numbers it was made from.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fitdb.intake.units import show
from fitdb.model.finding import Finding, Input, Range
from fitdb.model.joint import NotAsked
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.rule import AtLeast, AtMost, Between, Bound, Limit, OneOf, Rule, Same
from fitdb.model.source import Source
from fitdb.model.verdict import Bridge, JointVerdict, Verdict

ALWAYS = (
    "This is a comparison of numbers you entered. It cannot see wear, cracks or bad workmanship. If you are not sure, "
    "have a qualified person look at it. Your local electrical, product and road rules come first."
)
MEASURE_FIRST = "Do not buy or drill yet."
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


@dataclass(frozen=True, slots=True)
class Display:
    """How lengths are written: `system` mm or inch, inch as decimals or fractions."""

    system: str = "mm"
    fractions: bool = False

    def size(self, value: float, unit: str) -> str:
        if value == 0:
            return f"0 {show(1.0, unit, self.system).partition(' ')[2]}".strip() if unit != "deg" else "0°"
        return show(value, unit, self.system, self.fractions)

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
            roles = "; ".join(f"{role}: {_either(classes)}" for role, classes in finding.wanted)
            return f"Not asked: it needs one more part ({roles})."
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
    told = f"{_subject(rule.measures)} is {display.range(finding.value)}; wanted: {wanted}."
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
        within = display.size(first.settles_within, first.unit)
        return f"Read {name} to ±{within} or better.{how}"
    others = f" together with {ranked[1].part}.{ranked[1].attribute}" if len(ranked) > 1 else ""
    return f"Read {name} more finely{others}.{how}"


def _turning_point(item: Input, display: Display) -> str:
    """Where an unread size would turn the finding, if that lies within its plausible range."""
    if item.flips_at is None or item.used_low is None or item.used_high is None:
        return ""
    if not item.used_low < item.flips_at < item.used_high:
        return ""
    return f"; it turns at about {display.size(item.flips_at, item.unit)}"


def limit_text(limit: Limit, unit: str, display: Display) -> str:
    """A limit in words, with its unit."""
    if isinstance(limit, AtLeast):
        return f"at least {display.size(limit.low.value, unit)}"
    if isinstance(limit, AtMost):
        return f"at most {display.size(limit.high.value, unit)}"
    if isinstance(limit, Between):
        return f"{display.size(limit.low.value, unit)} to {display.size(limit.high.value, unit)}"
    if isinstance(limit, Same):
        return "the same on both sides"
    return "one of " + ", ".join(limit.words).replace("_", " ")


def document(verdict: Verdict, display: Display, always: str = ALWAYS) -> dict[str, Any]:
    """The whole answer as plain data, keys stable, every sentence beside its code."""
    cautions = list(dict.fromkeys(caution for joint in verdict.joints for caution in _cautions(joint)))
    return {
        "verdict": verdict.best_allowed,
        "as_asked": verdict.as_asked,
        "best_allowed": verdict.best_allowed,
        "sentence": _headline(verdict),
        "meets": verdict.as_asked != "not_asked",
        "joints": [_joint(joint, display) for joint in verdict.joints],
        "not_asked": [_line_not_asked(item) for item in verdict.not_asked],
        "offers": [{"part": part, "offers": list(offers)} for part, offers in verdict.offers],
        "bridges": [_bridge(bridge, display) for bridge in verdict.bridges],
        "measure_first": measure_first(verdict, display),
        "cautions": [always, *cautions],
        "catalogue_revision": verdict.revision,
        "rulebook_stamp": verdict.stamp,
    }


def _headline(verdict: Verdict) -> str:
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


def measure_first(verdict: Verdict, display: Display) -> list[dict[str, Any]]:
    """The readings that hold the doubt, most decisive first, one entry per reading.

    Nothing where the parts clash anyway: no reading undoes a rule that fails over its whole range. Where an adapter
    ends the clash but leaves a doubt, the readings of that doubt.
    """
    joints = verdict.joints
    if verdict.as_asked == "clash":
        opened = [bridge for bridge in verdict.bridges if bridge.verdict == "measure"]
        joints = opened[0].joints if verdict.best_allowed == "measure" and opened else ()
    found: dict[tuple[str, str], dict[str, Any]] = {}
    undecided = [f for joint in joints for f in joint.findings if f.state == "undecided"]
    for finding in sorted(undecided, key=lambda finding: -finding.rule.severity):
        for item in finding.settling()[:1]:
            entry = found.setdefault(
                (item.part, item.attribute),
                {
                    "part": item.part,
                    "attribute": item.attribute,
                    "sentence": settle_sentence(finding, display),
                    "settles_within": item.settles_within,
                    "unit": item.unit,
                    "tool": item.tool,
                    "how": item.how,
                    "decides": [],
                },
            )
            entry["decides"].append(finding.rule.id)
    return list(found.values())


def finding_document(finding: Finding, display: Display) -> dict[str, Any]:
    """One finding as plain data."""
    rule = finding.rule
    return {
        "rule": rule.id,
        "joint": finding.joint,
        "question": rule.question,
        "state": finding.state,
        "code": finding.code,
        "sentence": sentence(finding, display),
        "severity": rule.severity.word,
        "measures": rule.measures,
        "formula": rule.formula,
        "value": _range(finding.value, display),
        "margin": _range(finding.margin, display),
        "limit": limit_document(finding.hard or rule.hard, rule.unit, display),
        "comfort": _comfort_document(finding, display),
        "comfort_missed": finding.comfort_missed,
        "published": [{"text": item.text, "source": item.source} for item in rule.published],
        "overridden": list(finding.overridden),
        "inputs": [_input(item) for item in finding.inputs],
        "settled_by": [f"{item.part}.{item.attribute}" for item in finding.settling()]
        if finding.state == "undecided"
        else [],
        "at_assembly": finding.at_assembly,
        "wanted": [{"role": role, "classes": list(classes)} for role, classes in finding.wanted],
        "would_help": rule.remedy_hint if finding.state in ("fails", "undecided") else "",
        "caution": rule.caution if _triggers_caution(finding) else "",
    }


def _comfort_document(finding: Finding, display: Display) -> dict[str, Any] | None:
    comfort = finding.comfort or finding.rule.comfort
    return limit_document(comfort, finding.rule.unit, display) if comfort else None


def limit_document(limit: Limit, unit: str, display: Display) -> dict[str, Any]:
    """A limit as plain data: kind, its bounds with unit and source, and the sentence."""

    def bound(one: Bound) -> dict[str, Any]:
        return {"key": one.key, "value": one.value, "unit": unit, "source": one.source}

    text = limit_text(limit, unit, display)
    if isinstance(limit, AtLeast):
        return {"kind": "at_least", "low": bound(limit.low), "high": None, "words": [], "text": text}
    if isinstance(limit, AtMost):
        return {"kind": "at_most", "low": None, "high": bound(limit.high), "words": [], "text": text}
    if isinstance(limit, Between):
        return {"kind": "between", "low": bound(limit.low), "high": bound(limit.high), "words": [], "text": text}
    words = list(limit.words) if isinstance(limit, OneOf) else []
    kind = "one_of" if isinstance(limit, OneOf) else "same"
    return {"kind": kind, "low": None, "high": None, "words": words, "text": text, "source": limit.source}


def reading_document(reading: Reading | None) -> dict[str, Any] | None:
    """A reading as plain data, with its source and both flags; None if nobody read it."""
    if reading is None:
        return None
    shared = {
        "entered": reading.entered,
        "source": source_document(reading.source),
        "value_assumed": reading.value_assumed,
        "spread_assumed": getattr(reading, "spread_assumed", False),
    }
    if isinstance(reading, Number | Designation):
        kind = "designation" if isinstance(reading, Designation) else "number"
        sizes = {"low": reading.low, "nominal": reading.nominal, "high": reading.high, "unit": reading.unit}
        fit = {"fit": reading.fit} if isinstance(reading, Designation) else {}
        return {"kind": kind, **sizes, **fit, **shared}
    if isinstance(reading, Count):
        return {"kind": "count", "values": list(reading.values), "nominal": reading.nominal, **shared}
    if isinstance(reading, Word):
        return {"kind": "word", "possible": sorted(reading.possible), **shared}
    assert isinstance(reading, Outline)
    return {
        "kind": "outline",
        "rings": [[list(point) for point in ring] for ring in reading.rings],
        "holes": [list(hole) for hole in reading.holes],
        "spread": reading.spread,
        "unit": "mm",
        **shared,
    }


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


def source_document(source: Source) -> dict[str, str]:
    return {"id": source.id, "kind": source.kind, "title": source.title, "standing": source.standing}


def _joint(judged: JointVerdict, display: Display) -> dict[str, Any]:
    line = judged.joint.line
    return {
        "joint": judged.joint.id,
        "kind": line.kind,
        "number": line.joint,
        "title": line.title,
        "verdict": judged.verdict,
        "pieces": [
            {"role": role, "seat": piece.seat, "part": piece.part.id, "title": piece.part.title}
            for role, pieces in judged.joint.pieces.items()
            for piece in pieces
        ],
        "findings": [finding_document(finding, display) for finding in judged.findings],
    }


def _line_not_asked(item: NotAsked) -> dict[str, Any]:
    wanted = [{"role": role, "classes": list(classes)} for role, classes in item.wanted]
    return {"kind": item.line.kind, "number": item.line.joint, "title": item.line.title, "wanted": wanted}


def _bridge(bridge: Bridge, display: Display) -> dict[str, Any]:
    return {
        "remedy": bridge.remedy.id,
        "title": bridge.remedy.title,
        "part": bridge.part,
        "part_title": bridge.title,
        "verdict": bridge.verdict,
        "cures": list(bridge.cured),
        "breaks": list(bridge.breaks),
        "adds": list(bridge.adds),
        "gives_up": bridge.remedy.gives_up,
        "reversible": bridge.remedy.reversible,
        "minutes": bridge.remedy.minutes,
        "money_mu": bridge.remedy.money,
        "source": bridge.remedy.source,
        "joints": [_joint(joint, display) for joint in bridge.joints],
    }


def _input(item: Input) -> dict[str, Any]:
    return {
        "need": item.need,
        "seat": item.seat,
        "part": item.part,
        "attribute": item.attribute,
        "unit": item.unit,
        "reading": reading_document(item.reading),
        "share": round(item.share, 4),
        "settles_within": item.settles_within,
        "flips_at": item.flips_at,
        "tool": item.tool,
        "how": item.how,
    }


def _range(shown: Range | None, display: Display) -> dict[str, Any] | None:
    if shown is None:
        return None
    return {
        "low": shown.low,
        "nominal": shown.nominal,
        "high": shown.high,
        "unit": shown.unit,
        "text": display.range(shown),
    }


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


def _cautions(joint: JointVerdict) -> list[str]:
    return [finding.rule.caution for finding in joint.findings if finding.rule.caution and _triggers_caution(finding)]


def _triggers_caution(finding: Finding) -> bool:
    """A caution stands beside the verdict that triggers it: anything but a rule that was not asked."""
    return finding.state in ("fails", "undecided") or finding.comfort_missed or _always_told(finding.rule, finding)


def _always_told(rule: Rule, finding: Finding) -> bool:
    return bool(rule.caution) and rule.severity.word in ("injury", "fire") and finding.state == "holds"


def _either(classes: tuple[str, ...]) -> str:
    return " or ".join(name.replace("_", " ") for name in classes)


def _list(names: tuple[str, ...]) -> str:
    return ", ".join(names[:-1]) + " and " + names[-1] if len(names) > 1 else "".join(names)


def cautions_by_finding(verdict: Verdict) -> Mapping[str, str]:
    """Rule id to caution, for every finding that triggers one."""
    return {
        f.rule.id: f.rule.caution
        for joint in verdict.joints
        for f in joint.findings
        if f.rule.caution and _triggers_caution(f)
    }

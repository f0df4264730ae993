"""Explain: findings and verdicts as one document that a front end can read, with plain sentences.

Evidence first, sentences second (`sentences`): every sentence stands beside a stable code and the numbers it was made
from.
"""

from __future__ import annotations

from typing import Any

from fitdb.model.finding import Finding, Input, Range
from fitdb.model.joint import NotAsked
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.rule import AtLeast, AtMost, Between, Bound, Limit, OneOf, Rule
from fitdb.model.source import Source
from fitdb.model.verdict import Bridge, JointVerdict, Verdict
from fitdb.steps.explain.sentences import Display, headline, limit_text, reading_text, sentence, settle_sentence

__all__ = [
    "ALWAYS",
    "Display",
    "document",
    "finding_document",
    "joint_document",
    "limit_document",
    "limit_text",
    "line_not_asked_document",
    "measure_first",
    "reading_document",
    "reading_text",
    "sentence",
    "settle_sentence",
    "source_document",
]

ALWAYS = (
    "This is a comparison of numbers you entered. It cannot see wear, cracks or bad workmanship. If you are not sure, "
    "have a qualified person look at it. Your local electrical, product and road rules come first."
)


def document(verdict: Verdict, display: Display, always: str = ALWAYS) -> dict[str, Any]:
    """The whole answer as plain data, keys stable, every sentence beside its code."""
    cautions = list(dict.fromkeys(caution for joint in verdict.joints for caution in _cautions(joint)))
    return {
        "verdict": verdict.best_allowed,
        "as_asked": verdict.as_asked,
        "best_allowed": verdict.best_allowed,
        "sentence": headline(verdict),
        "meets": verdict.as_asked != "not_asked",
        "joints": [joint_document(joint, display) for joint in verdict.joints],
        "not_asked": [line_not_asked_document(item) for item in verdict.not_asked],
        "offers": [{"part": part, "offers": list(offers)} for part, offers in verdict.offers],
        "bridges": [_bridge(bridge, display) for bridge in verdict.bridges],
        "measure_first": measure_first(verdict, display),
        "cautions": [always, *cautions],
        "catalogue_revision": verdict.revision,
        "rulebook_stamp": verdict.stamp,
    }


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


def source_document(source: Source) -> dict[str, str]:
    return {"id": source.id, "kind": source.kind, "title": source.title, "standing": source.standing}


def joint_document(judged: JointVerdict, display: Display) -> dict[str, Any]:
    """A joint with its pieces and findings as plain data."""
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


def line_not_asked_document(item: NotAsked) -> dict[str, Any]:
    """A joint line that made no joint, and what would fill its roles."""
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
        "joints": [joint_document(joint, display) for joint in bridge.joints],
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


def _cautions(joint: JointVerdict) -> list[str]:
    return [finding.rule.caution for finding in joint.findings if finding.rule.caution and _triggers_caution(finding)]


def _triggers_caution(finding: Finding) -> bool:
    """A caution stands beside the verdict that triggers it: anything but a rule that was not asked."""
    return finding.state in ("fails", "undecided") or finding.comfort_missed or _always_told(finding.rule, finding)


def _always_told(rule: Rule, finding: Finding) -> bool:
    return bool(rule.caution) and rule.severity.word in ("injury", "fire") and finding.state == "holds"

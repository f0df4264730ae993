"""The rulebook page: written from the rules, so that page and rule cannot disagree.

`fitdb rules --write` writes fitdb/rules/RULES.md; the ordinary test run fails when the page is stale.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from fitdb.model.reading import Outline
from fitdb.model.rule import AtLeast, AtMost, Between, Bound, Example, Limit, OneOf, Rule, Rulebook, Same, SurveyLine

PAGE = Path(__file__).parent.parent / "rules" / "RULES.md"
NOTICE = "<!-- Written from the rule files by `fitdb rules --write`. Do not edit: edit the rule. -->"
OPENING = """# The rulebook

What must hold where parts meet, joint by joint. Each rule asks one question, measures one thing and holds it against
a limit. A reading is never a bare number: it has a low, a middle and a high value, and a rule holds only if it holds
over all of them, fails only if it fails over all of them, and otherwise names the reading to take.

A working limit decides the verdict. A comfort limit only adds a word of caution. A published limit is printed beside
them and is never used as comfort when it is looser. Lengths are in mm and angles in degrees unless a unit is written.
"These numbers do not clash" is the most that a rule ever says: it cannot see wear, cracks or bad workmanship.
"""


def rulebook_page(book: Rulebook) -> str:
    """The whole page as Markdown."""
    lines = [NOTICE, "", OPENING]
    lines += ["| joint | rules |", "| --- | --- |"]
    for kind, rules in book.by_kind.items():
        names = ", ".join(f"[{_spoken(rule)}](#{_anchor(rule.id)})" for rule in rules)
        lines.append(f"| **{book.kinds[kind].joint}** {book.kinds[kind].title} | {names} |")
    for kind, rules in book.by_kind.items():
        lines += ["", f"## {book.kinds[kind].joint} {book.kinds[kind].title}"]
        for rule in rules:
            lines += ["", rule_text(rule)]
    lines += [
        "",
        "## Sizes worked out on the way",
        "",
        "A rule may ask for a size that nobody reads directly. It is worked out here, once.",
    ]
    for line in book.survey.values():
        lines += ["", _survey_text(line)]
    return "\n".join(lines).rstrip() + "\n"


def rules_report(answer: dict[str, Any], book: Rulebook) -> str:
    """Rules for a terminal: one in full, several as one line each under their joint."""
    chosen = [book.rules[item["id"]] for item in answer["rules"]]
    if len(chosen) == 1:
        return rule_text(chosen[0])
    lines: list[str] = []
    for rule in chosen:
        heading = f"{book.kinds[rule.kind].joint} {book.kinds[rule.kind].title}"
        if heading not in lines:
            lines += ["", heading]
        lines.append(f"  {rule.id:44} {rule.question}")
    return "\n".join(lines).strip()


def rule_text(rule: Rule) -> str:
    """One rule as a page of a handbook: question, why, formula, limits with both sources, worked examples."""
    lines = [
        f"### {rule.id}",
        "",
        f"**{rule.question}** {rule.why}",
        "",
        f"- Measures: {rule.measures}" + (f", in {rule.unit}" if rule.unit else ""),
        f"- Formula: `{rule.formula}`",
        f"- Reads: {', '.join(f'`{need}`' for need in rule.needs)}",
        f"- Wanted: {_limit(rule.hard, rule.unit)}",
    ]
    if rule.comfort:
        lines.append(f"- Comfortable: {_limit(rule.comfort, rule.unit)}")
    lines += [f"- Published: {item.text} ({item.source})" for item in rule.published]
    lines += [
        f"- Taken as given: {item.name} = {_plain(item.value)} {item.unit} ({item.source})".replace("  ", " ")
        for item in rule.constants
    ]
    lines.append(f"- If it fails: {rule.severity.word}")
    if rule.excused_by:
        lines.append(f"- Does not matter where `{rule.excused_by}` holds")
    if rule.two_numbers_suffice:
        lines.append(f"- Two numbers suffice: {rule.two_numbers_suffice}")
    if rule.caution:
        lines += ["", f"> {rule.caution}"]
    lines += ["", "| worked example | given | says | margin |", "| --- | --- | --- | --- |"]
    lines += [_example_row(example, rule) for example in rule.examples]
    return "\n".join(lines)


def _survey_text(line: SurveyLine) -> str:
    lines = [
        f"### {line.target}",
        "",
        line.why,
        "",
        f"- Measures: {line.measures}, in {line.unit}",
        f"- Formula: `{line.formula}`",
        f"- Reads: {', '.join(f'`{need}`' for need in line.needs)}",
        f"- Source: {line.source}",
    ]
    for given, expected in line.examples:
        told = "; ".join(f"{need} {_plain(value)}" for need, value in given.items())
        lines.append(f"- Example: {told} gives {expected:g} {line.unit}")
    return "\n".join(lines)


def _example_row(example: Example, rule: Rule) -> str:
    given = "; ".join(f"{need} {_plain(value)}" for need, value in example.given.items()) or "nothing"
    margin = "" if example.margin is None else f"{example.margin:g} {rule.unit}".strip()
    says = example.expect + (f" ({example.two_numbers})" if example.two_numbers else "")
    return f"| {example.title} | {given} | {says} | {margin} |".replace("\n", " ")


def _limit(limit: Limit, unit: str) -> str:
    def told(bound: Bound) -> str:
        return f"{bound.value:g} {unit}".strip()

    if isinstance(limit, AtMost) and limit.high.key.endswith(".none"):
        return f"no limit here, a caution only ({limit.high.source}; `{limit.high.key}`)"
    if isinstance(limit, AtLeast):
        return f"at least {told(limit.low)} ({limit.low.source}; `{limit.low.key}`)"
    if isinstance(limit, AtMost):
        return f"at most {told(limit.high)} ({limit.high.source}; `{limit.high.key}`)"
    if isinstance(limit, Between):
        return (
            f"from {told(limit.low)} to {told(limit.high)} ({limit.low.source}; `{limit.low.key}`, `{limit.high.key}`)"
        )
    if isinstance(limit, Same):
        return f"the same on both sides ({limit.source})"
    assert isinstance(limit, OneOf)
    return f"one of {', '.join(limit.words)} ({limit.source})"


def _plain(value: Any) -> str:
    if isinstance(value, Outline):
        holes = f"{len(value.holes)} holes" if value.holes else ""
        rings = f"outline of {sum(len(ring) for ring in value.rings)} points" if value.rings else ""
        return " and ".join(part for part in (holes, rings) if part)
    if isinstance(value, tuple) and len(value) == 3 and all(isinstance(item, int | float) for item in value):
        return f"{value[1]:g} ({value[0]:g} to {value[2]:g})"
    if isinstance(value, tuple | list):
        return "[" + ", ".join(_plain(item) for item in value) + "]"
    if isinstance(value, float | int):
        return f"{value:g}"
    return str(value).replace("|", " or ")


def _spoken(rule: Rule) -> str:
    return rule.id.split(".", 1)[1].replace("_", " ")


def _anchor(rule_id: str) -> str:
    return rule_id.replace(".", "")

"""The rulebook: one folder per kind of joint, one file per rule; `survey` holds sizes worked out from readings.

`rulebook()` walks the folders and returns one frozen value. The path is the id: `core_windows/lugs_index.py` is
`core_windows.lugs_index`.
"""

from __future__ import annotations

import dataclasses
import functools
import hashlib
import importlib
import inspect
import re
from collections.abc import Callable
from pathlib import Path

from fitdb.model.problems import OurFault
from fitdb.model.rule import JointKind, Rule, Rulebook, SurveyLine

HERE = Path(__file__).parent


@functools.cache
def rulebook() -> Rulebook:
    """All rules, survey lines and joint kinds; OurFault if a file lacks its value or a target is claimed twice."""
    rules: dict[str, Rule] = {}
    kinds: dict[str, JointKind] = {}
    survey: dict[str, SurveyLine] = {}
    digest = hashlib.sha256()
    for folder in sorted(path for path in HERE.iterdir() if (path / "__init__.py").is_file()):
        for file in sorted(folder.glob("*.py")):
            digest.update(file.name.encode() + file.read_bytes())
        if folder.name == "survey":
            survey = _survey_lines(folder)
            continue
        package = importlib.import_module(f"{__name__}.{folder.name}")
        kind = getattr(package, "KIND", None)
        if not isinstance(kind, JointKind) or kind.id != folder.name:
            raise OurFault(f"rules/{folder.name}/__init__.py must define KIND with id {folder.name!r}")
        kinds[kind.id] = kind
        for file in sorted(folder.glob("*.py")):
            if file.stem == "__init__":
                continue
            module = importlib.import_module(f"{__name__}.{folder.name}.{file.stem}")
            rule = getattr(module, "RULE", None)
            if not isinstance(rule, Rule):
                raise OurFault(f"rules/{folder.name}/{file.name} must define RULE")
            rule_id = f"{folder.name}.{file.stem}"
            rules[rule_id] = dataclasses.replace(rule, id=rule_id, kind=kind.id, why=_prose(module.__doc__))
    for file in sorted((HERE.parent / "formulas").glob("*.py")):
        digest.update(file.name.encode() + file.read_bytes())
    by_kind = {
        kind: tuple(rule for rule in rules.values() if rule.kind == kind)
        for kind in sorted(kinds, key=joint_order(kinds))
    }
    return Rulebook(rules, survey, kinds, digest.hexdigest()[:12], by_kind)


def limit_keys(rules: Rulebook) -> tuple[str, ...]:
    """The keys of every bound, hard and comfort: what a person's own limits may name."""
    return tuple(
        bound.key
        for rule in rules.rules.values()
        for limit in (rule.hard, rule.comfort)
        for bound in (getattr(limit, "low", None), getattr(limit, "high", None))
        if bound is not None
    )


def rule_source(rule: Rule | SurveyLine) -> str:
    """The text of the quantity as it stands in the file, for the manual."""
    return inspect.getsource(rule.quantity)


def joint_order(kinds: dict[str, JointKind]) -> Callable[[str], tuple[int, str]]:
    """A sort key over kind ids that follows the trade's numbering: J9 before J10, J14 before J14b."""

    def key(kind: str) -> tuple[int, str]:
        match = re.fullmatch(r"J(\d+)(\w*)", kinds[kind].joint)
        return (int(match.group(1)), match.group(2)) if match else (999, kind)

    return key


def _survey_lines(folder: Path) -> dict[str, SurveyLine]:
    lines: dict[str, SurveyLine] = {}
    for file in sorted(folder.glob("*.py")):
        if file.stem == "__init__":
            continue
        module = importlib.import_module(f"{__name__}.survey.{file.stem}")
        line = getattr(module, "LINE", None)
        if not isinstance(line, SurveyLine):
            raise OurFault(f"rules/survey/{file.name} must define LINE")
        if line.target in lines:
            raise OurFault(f"two survey lines work out {line.target}; one of them is rules/survey/{file.name}")
        if file.stem != line.target.replace(".", "_"):
            raise OurFault(f"rules/survey/{file.name} works out {line.target}; name it after its target")
        lines[line.target] = dataclasses.replace(line, why=_prose(module.__doc__))
    _refuse_circles(lines)
    return lines


def _refuse_circles(lines: dict[str, SurveyLine]) -> None:
    def visit(target: str, above: tuple[str, ...]) -> None:
        if target in above:
            raise OurFault("survey lines go round in a circle: " + " → ".join([*above, target]))
        for need in lines[target].needs:
            if need.replace("*", "") in lines:
                visit(need.replace("*", ""), (*above, target))

    for target in lines:
        visit(target, ())


def _prose(text: str | None) -> str:
    return re.sub(r"\s+", " ", text or "").strip()

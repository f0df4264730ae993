"""What is typed as `left=right` on a command line: readings, parts in roles, and limits."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from fitdb.intake.nearest import shortened
from fitdb.intake.part_files import WELL_FORMED_ID
from fitdb.model.problems import Problem

ROLE = re.compile(r"[a-z0-9][a-z0-9_-]{0,79}")
KEY = re.compile(r"[a-z0-9][a-z0-9_.-]{0,159}")
NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?")
LONGEST = 10_000
HOW_TO_NAME_A_PART = "Write `ROLE=PART`, like `spacer=spacer-10`."


@dataclass(frozen=True, slots=True)
class ReadingAssignment:
    """`ROLE.ATTRIBUTE=VALUE` or `ROLE.PORT.ATTRIBUTE=VALUE`; the value is still as typed."""

    role: str
    port: str
    attribute: str
    value: str


@dataclass(frozen=True, slots=True)
class PartAssignment:
    """`ROLE=PART`: a part id for a role or seat."""

    role: str
    part: str


def parse_readings(texts: Iterable[str]) -> tuple[tuple[ReadingAssignment, ...], tuple[Problem, ...]]:
    """Every `ROLE.ATTRIBUTE=VALUE`, and every fault; paths are `/reading/0`, `/reading/1` …"""
    found: list[ReadingAssignment] = []
    problems: list[Problem] = []
    for index, text in enumerate(texts):
        path = f"/reading/{index}"
        left, right, problem = _split(text, path, "ROLE.ATTRIBUTE=VALUE", "wheel.window_width=9.0 mm")
        if problem is not None:
            problems.append(problem)
            continue
        names = left.split(".")
        if len(names) not in (2, 3) or not all(ROLE.fullmatch(name) for name in names):
            what = f"`{shortened(left)}` does not name a role and an attribute."
            hint = "Write `ROLE.ATTRIBUTE=VALUE`, like `wheel.window_width=9.0 mm`."
            problems.append(Problem("bad_assignment", what, path=path, hint=hint))
            continue
        one = ReadingAssignment(names[0], names[1] if len(names) == 3 else "", names[-1], right)
        if any((one.role, one.port, one.attribute) == (old.role, old.port, old.attribute) for old in found):
            what = f"`{left}` is given twice."
            problems.append(Problem("assigned_twice", what, path=path, hint="Keep one of the two."))
            continue
        found.append(one)
    return tuple(found), tuple(problems)


def parse_parts(texts: Iterable[str]) -> tuple[tuple[PartAssignment, ...], tuple[Problem, ...]]:
    """Every `ROLE=PART`, and every fault; paths are `/with/0`, `/with/1` … One role may take several parts."""
    found: list[PartAssignment] = []
    problems: list[Problem] = []
    for index, text in enumerate(texts):
        path = f"/with/{index}"
        left, right, problem = _split(text, path, "ROLE=PART", "spacer=spacer-10")
        if problem is not None:
            problems.append(problem)
        elif not ROLE.fullmatch(left):
            what = f"`{shortened(left)}` is not the name of a role or seat."
            problems.append(Problem("bad_assignment", what, path=path, hint=HOW_TO_NAME_A_PART))
        elif not WELL_FORMED_ID.fullmatch(right):
            what = f"`{shortened(right)}` is not a part id: those have up to 80 of a-z 0-9 . _ -."
            problems.append(Problem("bad_id", what, path=path, hint=HOW_TO_NAME_A_PART))
        else:
            found.append(PartAssignment(left, right))
    return tuple(found), tuple(problems)


def parse_limits(texts: Iterable[str]) -> tuple[dict[str, float], tuple[Problem, ...]]:
    """Every `KEY=NUMBER`, and every fault; paths are `/limit/0`, `/limit/1` … The number has its rule's own unit."""
    found: dict[str, float] = {}
    problems: list[Problem] = []
    for index, text in enumerate(texts):
        path = f"/limit/{index}"
        left, right, problem = _split(text, path, "KEY=NUMBER", "core_windows.side_clearance.low=0.2")
        if problem is not None:
            problems.append(problem)
            continue
        if not KEY.fullmatch(left):
            problems.append(Problem("bad_assignment", f"`{shortened(left)}` is not the key of a limit.", path=path))
        elif not NUMBER.fullmatch(right):
            what = f"`{shortened(right)}` is not a number."
            problems.append(Problem("not_a_number", what, path=path, hint="Write the bare number, without a unit."))
        elif not math.isfinite(float(right.replace(",", "."))):
            problems.append(Problem("not_finite", f"The limit `{left}` is not a finite number.", path=path))
        elif left in found:
            what = f"`{left}` is given twice."
            problems.append(Problem("assigned_twice", what, path=path, hint="Keep one of the two."))
        else:
            found[left] = float(right.replace(",", "."))
    return found, tuple(problems)


def _split(text: str, path: str, form: str, example: str) -> tuple[str, str, Problem | None]:
    hint = f"Write `{form}`, like `{example}`."
    if len(text) > LONGEST:
        return "", "", Problem("too_long", f"More than {LONGEST} characters stand here.", path=path, hint=hint)
    left, equals, right = text.partition("=")
    left, right = left.strip(), right.strip()
    if not equals:
        what = f"`{shortened(text)}` has no `=`."
        return left, right, Problem("bad_assignment", what, path=path, hint=hint)
    if not left or not right:
        side = "before" if not left else "after"
        what = f"Nothing stands {side} the `=` of `{shortened(text)}`."
        return left, right, Problem("bad_assignment", what, path=path, hint=hint)
    return left, right, None

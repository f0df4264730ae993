"""Interfaces that cannot stand beside given parts, whatever else is known of the part that offers them.

The table of pairs knows what two interfaces say of each other. Where the parts that stand are given, their own sizes
are known as well: every rule that reads of the part looked for nothing but one interface then says the same of all
parts that offer it. Asked for one question, and stored nowhere.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from fitdb.fit_table import NOBODY, REFUSES, FitTable
from fitdb.model.finding import Finding
from fitdb.model.interface import Interface
from fitdb.model.joint import Joint, Piece
from fitdb.model.part import Part
from fitdb.model.pattern import LineRole, Pattern
from fitdb.model.rule import Rule, Shape
from fitdb.steps.join import joints_of
from fitdb.steps.judge import excuse, judge
from fitdb.steps.survey import trace

BEFORE = "before:"


def refused_beside(
    connection: Any,
    table: FitTable,
    pattern: Pattern,
    seated: Mapping[str, Piece],
    seat: str,
    part_class: str,
    limits: Mapping[str, float],
    expired: Callable[[], bool],
) -> dict[str, frozenset[str]]:
    """By port of a part of the class in `seat` the interfaces that some rule fails for, beside what is seated.

    limits: all that hold, the question's own with them. Once `expired`, nothing more is refused.
    """
    seats_take = {one.id: one.classes for one in pattern.seats.values()}
    refused: dict[str, set[str]] = {}
    for joint, role, rules in _one_sided(table, pattern, seated, seat, part_class):
        kind = table.book.table.ports_of(part_class)[role.port]
        here = refused.setdefault(role.port, set())
        for interface in table.interfaces(connection, kind).values():
            if interface.id in here:
                continue
            if expired():
                break
            beside = _with(joint, role, seat, part_class, interface)
            findings = tuple(
                judge(trace(beside, rule, table.rules, table.book.table, seats_take), None, limits) for rule in rules
            )
            if any(finding.state == REFUSES for finding in excuse(findings)):
                here.add(interface.id)
    return {port: frozenset(some) for port, some in refused.items() if some}


def fails_with_any(
    table: FitTable,
    pattern: Pattern,
    seated: Mapping[str, Piece],
    seat: str,
    part_class: str,
    limits: Mapping[str, float],
) -> Finding | None:
    """A rule that fails at a joint with any part of the class in `seat`, since it reads nothing of that part.

    None where there is no such rule. Rules that another may excuse are left to the judge.
    """
    seats_take = {one.id: one.classes for one in pattern.seats.values()}
    stub = Piece(seat, Part("-", part_class, "", {}, {}, NOBODY))
    for line in pattern.lines:
        if any(own.startswith(BEFORE) for role in line.roles for own in role.seats):
            continue
        for joint in joints_of(line, {**seated, seat: stub}, pattern)[0]:
            if not any(stub in some for some in joint.pieces.values()):
                continue
            for rule in table.rules.by_kind.get(line.kind, ()):
                if not rule.excused_by and rule.shape is not Shape.ASKED and _reads_nothing(table, rule, joint, stub):
                    finding = judge(trace(joint, rule, table.rules, table.book.table, seats_take), None, limits)
                    if finding.state == REFUSES:
                        return finding
    return None


def _reads_nothing(table: FitTable, rule: Rule, joint: Joint, stub: Piece) -> bool:
    needs = _closure(table, rule)
    return not any(stub in joint.pieces.get(need.split(".", 1)[0].removesuffix("*"), ()) for need in needs)


def _closure(table: FitTable, rule: Rule) -> set[str]:
    """Every need of the rule, those of all sizes that may be worked out on the way with them."""
    waiting, seen = list(rule.needs), set()
    while waiting:
        need = waiting.pop()
        if need not in seen:
            seen.add(need)
            worked_out = table.rules.survey.get(need)
            waiting += worked_out.needs if worked_out is not None else ()
    return seen


def _one_sided(
    table: FitTable, pattern: Pattern, seated: Mapping[str, Piece], seat: str, part_class: str
) -> Iterator[tuple[Joint, LineRole, tuple[Rule, ...]]]:
    """The joints that a part of the class would make, with the rules that read of it one interface and nothing else."""
    stub = Piece(seat, Part("-", part_class, "", {}, {}, NOBODY))
    pieces = {**seated, seat: stub}
    ports = table.book.table.ports_of(part_class)
    for line in pattern.lines:
        if any(own.startswith(BEFORE) for role in line.roles for own in role.seats):
            continue
        for joint in joints_of(line, pieces, pattern)[0]:
            for role in line.roles:
                if role.how == "list" or joint.pieces.get(role.role) != (stub,) or role.port not in ports:
                    continue
                rules = tuple(
                    rule
                    for rule in table.rules.by_kind.get(line.kind, ())
                    if rule.shape is not Shape.ASKED and _reads_only(table, rule, joint, role, stub)
                )
                ids = {rule.id for rule in rules}
                settled = tuple(rule for rule in rules if not rule.excused_by or rule.excused_by in ids)
                if settled:
                    yield joint, role, settled


def _reads_only(table: FitTable, rule: Rule, joint: Joint, role: LineRole, stub: Piece) -> bool:
    """Whether all that the rule may read of the part looked for stands at this role's port."""
    attributes, part_class = table.book.table, stub.part.part_class
    kind = attributes.ports_of(part_class)[role.port]
    reads = False
    for need in _closure(table, rule):
        name, attribute = need.split(".", 1)
        base = name.removesuffix("*")
        worked_out = table.rules.survey.get(need)
        if base == role.role:
            there = (kind, attribute) in attributes.attributes
            elsewhere = attributes.attribute_of(part_class, attribute, role.port) is not None
            if name != base or (not there and (elsewhere or worked_out is None)):
                return False
            reads = reads or there
        elif stub in joint.pieces.get(base, ()):
            return False
    return reads


def _with(joint: Joint, role: LineRole, seat: str, part_class: str, interface: Interface) -> Joint:
    """The joint with a stand-in that offers nothing but this interface."""
    part = Part("-", part_class, "", {}, {role.port: interface}, NOBODY)
    return dataclasses.replace(joint, pieces={**joint.pieces, role.role: (Piece(seat, part),)})

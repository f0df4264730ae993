"""What of a part a rule can see: the readings that its needs may lead to, through every size worked out on the way.

Two parts that are the same in all of these give the same finding, so the judge is asked once for both. The reach is
worked out from the needs alone, without any part: it may be wider than what one board follows, never narrower.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from typing import Any

from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Line
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.rule import Rule, Rulebook
from fitdb.steps import survey

Seen = tuple[Any, ...]
Look = tuple[str, str]  # attribute, port


def reach(rule: Rule, line: Line, rules: Rulebook) -> dict[str, tuple[str, ...]]:
    """Per role of the line the attributes that the rule, or the rule that may excuse it, can follow, in order."""
    found = survey.reach([need for one in with_excuse(rule, rules) for need in one.needs], rules)
    return {role.role: found[role.role] for role in line.roles if role.role in found}


def with_excuse(rule: Rule, rules: Rulebook) -> tuple[Rule, ...]:
    """The rule, and the one that may excuse it."""
    return (rule, rules.rules[rule.excused_by]) if rule.excused_by else (rule,)


class Sight:
    """What parts look like to rules; every part and port is looked at once."""

    def __init__(self, table: AttributeTable) -> None:
        self.table = table
        self._ports: dict[str, Mapping[str, str]] = {}
        self._described: dict[tuple[str, str, str], str] = {}
        self._kept: dict[int, Part] = {}  # what is remembered by identity has to stay alive
        self._contents: dict[int, Seen] = {}
        self._read: dict[int, Reading] = {}
        self._numbers: dict[Seen, int] = {}
        self.numbered: list[Seen] = []  # what each number of a row stands for
        self._rows: dict[tuple[int, tuple[Look, ...]], tuple[int, ...]] = {}

    def of(self, part: Part, looks: Iterable[Look]) -> Seen:
        """The part as (attribute, port) looks see it: equal for two parts that no rule with these looks tells apart."""
        self._kept.setdefault(id(part), part)
        return tuple(self._look(part, attribute, port) for attribute, port in looks)

    def row(self, part: Part, looks: tuple[Look, ...]) -> tuple[int, ...]:
        """A number for each look: the same for two parts that look the same there."""
        key = (id(part), looks)
        found = self._rows.get(key)
        if found is None:
            self._kept.setdefault(id(part), part)
            found = self._rows[key] = tuple([self._number(self._look(part, *look)) for look in looks])
        return found

    def _number(self, seen: Seen) -> int:
        found = self._numbers.get(seen)
        if found is None:
            found = self._numbers[seen] = len(self.numbered)
            self.numbered.append(seen)
        return found

    def _look(self, part: Part, attribute: str, port: str) -> Seen:
        place, reading = self._offered(part, attribute, port)
        at_port = self._description(part.part_class, attribute, port)
        there = self._description(part.part_class, attribute, place or port)
        return (place, self._content(reading), at_port, there)

    def _offered(self, part: Part, attribute: str, port: str) -> tuple[str, Reading | None]:
        """As a survey looks: what the kind at a role's own port is meant to tell is taken from no other port."""
        if part.part_class not in self._ports:
            self._ports[part.part_class] = self.table.ports_of(part.part_class)
        if (self._ports[part.part_class].get(port, ""), attribute) in self.table.attributes:
            interface = part.ports.get(port)
            return port, interface.readings.get(attribute) if interface else None
        return part.offers(attribute, port)

    def _description(self, part_class: str, attribute: str, port: str) -> str:
        """Whose attribute is meant, since one of that name may be another kind's; empty where there is none."""
        key = (part_class, attribute, port)
        if key not in self._described:
            described = self.table.attribute_of(part_class, attribute, port)
            self._described[key] = f"{described.owner}.{described.name}" if described is not None else ""
        return self._described[key]

    def _content(self, reading: Reading | None) -> Seen:
        if reading is None:
            return ()
        found = self._contents.get(id(reading))
        if found is None:
            self._read[id(reading)] = reading
            found = self._contents[id(reading)] = content(reading)
        return found


def digest(value: object) -> str:
    """Of plain data, by what is in it: the same in every process."""
    return hashlib.blake2b(repr(value).encode(), digest_size=12).hexdigest()


def content(reading: Reading) -> Seen:
    """What a verdict can depend on in a reading: its kind, its range, and whether it is assumed; not who took it."""
    kind = type(reading).__name__
    if isinstance(reading, Word):
        return (kind, tuple(sorted(reading.possible)), reading.open_vocabulary, reading.value_assumed)
    if isinstance(reading, Outline):
        return (kind, reading.rings, reading.holes, reading.spread, reading.value_assumed)
    if isinstance(reading, Count):
        return (kind, reading.values, reading.nominal, reading.value_assumed)
    return (kind, reading.low, reading.nominal, reading.high, reading.value_assumed)

"""Which readings of a part class the rules of a layout can look at: two parts alike in these are judged alike.

Worked out from the needs alone, through every size that is worked out on the way: it may be too much, never too little.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from fitdb.catalogue.read import Book
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook


def readings_asked(pattern: Pattern, book: Book, rules: Rulebook) -> Mapping[str, frozenset[str]]:
    """By part class the names of its own readings and of those at its ports that some rule here may read."""
    table = book.table
    by_role: dict[str, dict[str, set[str]]] = {}  # joint kind, role, names
    for kind, some in rules.by_kind.items():
        waiting = [need for rule in some for need in rule.needs]
        names: defaultdict[str, set[str]] = defaultdict(set)
        seen: set[str] = set()
        while waiting:
            need = waiting.pop()
            if need not in seen:
                seen.add(need)
                role, name = need.split(".", 1)
                names[role.removesuffix("*")].add(name)
                worked_out = rules.survey.get(need.replace("*", ""))
                waiting += worked_out.needs if worked_out is not None else ()
        by_role[kind] = names
    by_seat: defaultdict[str, set[str]] = defaultdict(set)
    for line in pattern.lines:
        for described in line.roles:
            asked = by_role.get(line.kind, {}).get(described.role, set())
            for seat in (*described.seats, *(line.chain_seats if line.expansion == "chain" else ())):
                by_seat[seat.removeprefix("before:")] |= asked
    found: dict[str, frozenset[str]] = {}
    for own in table.classes:
        like = set(table.line_of(own))
        seats = [seat for seat in pattern.seats.values() if like & set(seat.classes)]
        found[own] = frozenset(name for seat in seats for name in by_seat[seat.id])
    return found

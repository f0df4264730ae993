"""What rules said of pairs of interfaces, as it is stored: asked once, under the stamp of the rulebook of that day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, case, delete, func, insert, or_, select

from fitdb.catalogue import tables
from fitdb.catalogue.read import MOST_AT_ONCE

AT_ONCE = 5_000


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """What `rule` says where `first` stands in the first of its two roles by name, and `second` in the other."""

    first: str
    second: str
    rule: str
    state: str


def answers_with(connection: Connection, interface_id: str, stamp: str) -> tuple[FitAnswer, ...]:
    """All answers about one interface under this stamp; those of another stamp are never used."""
    table = tables.fit_answer
    here = or_(table.c.interface_a == interface_id, table.c.interface_b == interface_id)
    query = select(table.c.interface_a, table.c.interface_b, table.c.rule, table.c.state)
    return tuple(FitAnswer(*row) for row in connection.execute(query.where(here, table.c.stamp == stamp)))


def pairs_answered(connection: Connection, rules: Sequence[str], stamp: str) -> set[tuple[str, str]]:
    """The pairs that one of the rules has refused, or about which every one has answered, under this stamp."""
    table = tables.fit_answer
    refused = func.sum(case((table.c.state == "fails", 1), else_=0))
    query = (
        select(table.c.interface_a, table.c.interface_b)
        .where(table.c.rule.in_(rules), table.c.stamp == stamp)
        .group_by(table.c.interface_a, table.c.interface_b)
        .having(or_(refused > 0, func.count() == len(rules)))
    )
    return {(row[0], row[1]) for row in connection.execute(query)}


def store_answers(connection: Connection, answers: Iterable[FitAnswer], stamp: str) -> int:
    """Stores answers that are not there yet; how many. What stands there under another stamp goes.

    Interfaces that are gone meanwhile are passed over. Part of the caller's writing transaction.
    """
    forget_stale(connection, stamp)
    fresh = {(one.first, one.second, one.rule): one for one in answers}
    ids = sorted({own for first, second, _ in fresh for own in (first, second)})
    table, known, standing = tables.fit_answer, set(), set()
    for start in range(0, len(ids), MOST_AT_ONCE):
        some = ids[start : start + MOST_AT_ONCE]
        known |= set(connection.execute(select(tables.interface.c.id).where(tables.interface.c.id.in_(some))).scalars())
        query = select(table.c.interface_a, table.c.interface_b, table.c.rule).where(table.c.interface_a.in_(some))
        standing |= {(row[0], row[1], row[2]) for row in connection.execute(query)}
    added = [
        {"interface_a": one.first, "interface_b": one.second, "rule": one.rule, "state": one.state, "stamp": stamp}
        for key, one in fresh.items()
        if key not in standing and one.first in known and one.second in known
    ]
    for start in range(0, len(added), AT_ONCE):
        connection.execute(insert(table), added[start : start + AT_ONCE])
    return len(added)


def forget_stale(connection: Connection, stamp: str) -> int:
    """Takes away what was said under any other stamp; how many answers."""
    return int(connection.execute(delete(tables.fit_answer).where(tables.fit_answer.c.stamp != stamp)).rowcount)

"""What a part must satisfy, as SQL that both databases read alike, and its values under names of their own.

Every condition on a part `p` is a scalar subquery: PostgreSQL would turn `exists` into a join over the whole class.
"""

from __future__ import annotations

import functools
import itertools
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, TextClause, text

from fitdb.intake.part_filters import SizeWanted, WordsWanted


@dataclass(frozen=True, slots=True)
class Wanted:
    """What parts must have. classes: exactly these, none for any. interface: offered at some port.

    or_unread: what nobody has read does not rule a part out. refused: by class and port the interfaces that are ruled
    out there; a part of which nobody has named the port is never ruled out by them.
    """

    classes: tuple[str, ...] = ()
    text: str = ""
    interface: str = ""
    sizes: tuple[SizeWanted, ...] = ()
    words: tuple[WordsWanted, ...] = ()
    or_unread: bool = False
    refused: Mapping[str, Mapping[str, frozenset[str]]] = field(default_factory=dict)


@dataclass
class Binds:
    """Values on their way into a statement, under names of their own."""

    values: dict[str, Any] = field(default_factory=dict)

    def one(self, value: object) -> str:
        name = f"v{len(self.values)}"
        self.values[name] = value
        return f":{name}"

    def listed(self, values: Iterable[object]) -> str:
        return ", ".join(self.one(value) for value in values) or "null"

    def among(self, column: str, ids: Sequence[str], connection: Connection) -> str:
        """A long list as one value: the statement stays the same however many there are."""
        if connection.dialect.name == "postgresql":
            return f"{column} = any({self.one(list(ids))})"
        return f"{column} in (select value from json_each({self.one(json.dumps(list(ids)))}))"


def conditions_of(
    connection: Connection,
    wanted: Wanted,
    part_class: str,
    binds: Binds,
    *,
    but_port: str = "",
    but_interface: bool = False,
) -> list[str]:
    """What a part `p` must satisfy beside its class. With a class, only what is refused of that class counts."""
    found = []
    if wanted.text.strip():
        like = wanted.text.strip().lower()
        for sign in "/%_":
            like = like.replace(sign, f"/{sign}")
        pattern = binds.one(f"%{like}%")
        found.append(f"(lower(p.id) like {pattern} escape '/' or lower(p.title) like {pattern} escape '/')")
    if wanted.interface and not but_interface:
        own = binds.one(wanted.interface)
        found.append(f"(select count(*) from part_port q where q.part_id = p.id and q.interface_id = {own}) > 0")
    for size in wanted.sizes:
        found.append(_size(connection, size, wanted.or_unread, binds))
    for words in wanted.words:
        found.append(_words(connection, words, wanted.or_unread, binds))
    by_class = [part_class] if part_class else list(wanted.refused)
    for own in by_class:
        for port, refused in wanted.refused.get(own, {}).items():
            if port == but_port or not refused:
                continue
            there = f"(select q.interface_id from part_port q where q.part_id = p.id and q.port = {binds.one(port)})"
            ruled_out = f"coalesce({there}, '') not in ({binds.listed(sorted(refused))})"
            found.append(ruled_out if part_class else f"(p.class_id <> {binds.one(own)} or {ruled_out})")
    return found


def _size(connection: Connection, size: SizeWanted, or_unread: bool, binds: Binds) -> str:
    if not size.port:
        head = f"from part_reading r where r.part_id = p.id and r.attribute = {binds.one(size.attribute)}"
        found = f"(select count(*) {head} and {between(size, binds, 'r')}) = 1"
        return f"({found} or (select count(*) {head} and not r.value_assumed) = 0)" if or_unread else found
    own = Binds()
    query = (
        f"select r.interface_id from interface_reading r where r.attribute = {own.one(size.attribute)}"
        f" and {between(size, own, 'r')}"
    )
    read = "select r.interface_id from interface_reading r where r.attribute = :a and not r.value_assumed"
    return _at_port(connection, size.port, size.attribute, query, own, read, or_unread, binds)


def _words(connection: Connection, words: WordsWanted, or_unread: bool, binds: Binds) -> str:
    """Every word still possible is among those wanted."""
    sure = _subsets(words.words)
    if not words.port:
        head = f"from part_word w where w.part_id = p.id and w.attribute = {binds.one(words.attribute)}"
        found = f"(select count(*) {head} and not w.value_assumed and w.possible in ({binds.listed(sure)})) = 1"
        return f"({found} or (select count(*) {head} and not w.value_assumed) = 0)" if or_unread else found
    own = Binds()
    query = (
        f"select w.interface_id from interface_word w where w.attribute = {own.one(words.attribute)}"
        f" and not w.value_assumed and w.possible in ({own.listed(sure)})"
    )
    read = "select w.interface_id from interface_word w where w.attribute = :a and not w.value_assumed"
    return _at_port(connection, words.port, words.attribute, query, own, read, or_unread, binds)


def _at_port(
    connection: Connection,
    port: str,
    attribute: str,
    query: str,
    own: Binds,
    read: str,
    or_unread: bool,
    binds: Binds,
) -> str:
    """Interfaces are few: those that have it are named one by one."""
    fitting = {str(row[0]) for row in asked(connection, query, own.values)}
    there = f"(select q.interface_id from part_port q where q.part_id = p.id and q.port = {binds.one(port)})"
    if not or_unread:
        return f"{there} in ({binds.listed(sorted(fitting))})"
    wrong = {str(row[0]) for row in asked(connection, read, {"a": attribute})} - fitting
    return f"coalesce({there}, '') not in ({binds.listed(sorted(wrong) or ['-'])})"


def between(size: SizeWanted, binds: Binds, alias: str) -> str:
    parts = [f"not {alias}.value_assumed"]
    parts += [f"{alias}.nominal >= {binds.one(size.low)}"] if size.low is not None else []
    parts += [f"{alias}.nominal <= {binds.one(size.high)}"] if size.high is not None else []
    return " and ".join(parts)


def _subsets(words: Sequence[str]) -> list[str]:
    """Every way in which some of the words stand in a row, in alphabetical order as they are stored."""
    ordered = sorted(words)
    return [" ".join(some) for many in range(1, len(ordered) + 1) for some in itertools.combinations(ordered, many)]


def select_of(tables: str, column: str, conditions: Sequence[str], limit: int) -> str:
    where = f" where {' and '.join(conditions)}" if conditions else ""
    return f"select {column} as part_id from {tables}{where} order by {column} limit {int(limit)}"


def where_of(connection: Connection, wanted: Wanted, binds: Binds) -> str:
    conditions = conditions_of(connection, wanted, "", binds)
    conditions += [f"p.class_id in ({binds.listed(wanted.classes)})"] if wanted.classes else []
    return f" where {' and '.join(conditions)}" if conditions else ""


def asked(connection: Connection, query: str, values: Mapping[str, Any]) -> Sequence[Any]:
    return connection.execute(_statement(query), values).all()


@functools.lru_cache(maxsize=512)
def _statement(query: str) -> TextClause:
    """The same words are read once: a page's statement differs from the last one in its values alone."""
    return text(query)

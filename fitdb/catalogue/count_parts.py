"""Counting parts under any mix of conditions: exact, by word, by size, by interface, by class. Only on request."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection

from fitdb.catalogue.part_conditions import Binds, Wanted, asked, where_of


def counted(connection: Connection, wanted: Wanted) -> int:
    """How many parts there are."""
    binds = Binds()
    query = f"select count(*) from part p{where_of(connection, wanted, binds)}"
    return int(asked(connection, query, binds.values)[0][0])


def counted_words(connection: Connection, wanted: Wanted, attribute: str) -> dict[str | None, int]:
    """How many parts by the words still possible (joined by a space); None where nobody looked."""
    binds = Binds()
    join = (
        f" left join part_word v on v.part_id = p.id and v.attribute = {binds.one(attribute)} and not v.value_assumed"
    )
    return _grouped(connection, wanted, "v.possible", join, binds)


def counted_sizes(connection: Connection, wanted: Wanted, attribute: str) -> dict[float | None, int]:
    """How many parts by the nominal reading; None where nobody has read it."""
    binds = Binds()
    join = (
        f" left join part_reading v on v.part_id = p.id and v.attribute = {binds.one(attribute)}"
        " and not v.value_assumed"
    )
    return _grouped(connection, wanted, "v.nominal", join, binds)


def counted_interfaces(connection: Connection, wanted: Wanted, port: str) -> dict[str | None, int]:
    """How many parts by the interface that they offer at a port; None where nobody has named it."""
    binds = Binds()
    join = f" left join part_port v on v.part_id = p.id and v.port = {binds.one(port)}"
    return _grouped(connection, wanted, "v.interface_id", join, binds)


def counted_classes(connection: Connection, wanted: Wanted) -> dict[str, int]:
    """How many parts by class."""
    return _grouped(connection, wanted, "p.class_id", "", Binds())


def _grouped(connection: Connection, wanted: Wanted, column: str, join: str, binds: Binds) -> dict[Any, int]:
    query = f"select {column}, count(*) from part p{join}{where_of(connection, wanted, binds)} group by {column}"
    return {row[0]: int(row[1]) for row in asked(connection, query, binds.values)}

"""What the same statements cost the bare driver: the floor under every measurement of ours."""

from __future__ import annotations

import statistics
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, event

Statement = tuple[str, Any]


@contextmanager
def recorded(connection: Connection) -> Iterator[list[Statement]]:
    """Every statement that goes through the connection meanwhile, as the driver is given it."""
    found: list[Statement] = []

    def note(_: Any, __: Any, statement: str, values: Any, ___: Any, many: bool) -> None:
        if not many:
            found.append((statement, values))

    event.listen(connection, "before_cursor_execute", note)
    try:
        yield found
    finally:
        event.remove(connection, "before_cursor_execute", note)


def driver_seconds(connection: Connection, statements: Sequence[Statement], rounds: int = 9) -> float:
    """The median time in which the bare driver runs the statements and fetches every row."""
    driver: Any = connection.connection.driver_connection
    taken = []
    for _ in range(rounds):
        begin = time.perf_counter()
        for statement, values in statements:
            cursor = driver.cursor()
            cursor.execute(statement, values)
            cursor.fetchall()
            cursor.close()
        taken.append(time.perf_counter() - begin)
    return statistics.median(taken)

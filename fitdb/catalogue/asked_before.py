"""What was found out about whole boards, as it is stored: by what it is about, under a stamp of all it depends on.

The catalogue keeps it and knows nothing of what is in it. What stands under another stamp is never used, and goes.
"""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import Connection, Engine, delete, insert, select
from sqlalchemy.exc import DBAPIError

from fitdb.catalogue import tables
from fitdb.catalogue.read import MOST_AT_ONCE
from fitdb.catalogue.session import is_memory, queue_up, writing


def found_before(connection: Connection, about: str, stamp: str) -> dict[str, bytes]:
    """All that is stored about one thing under this stamp, by form."""
    table = tables.asked_before
    query = select(table.c.form, table.c.answers).where(table.c.about == about, table.c.stamp == stamp)
    return {row.form: bytes(row.answers) for row in connection.execute(query)}


def keep_found(engine: Engine, about: str, stamp: str, answers: Mapping[str, bytes]) -> bool:
    """Stores answers by form, in place of older ones; False where the catalogue cannot be written to.

    Nothing but time is lost then, so that is no fault. A catalogue in memory keeps nothing.
    """
    if not answers or is_memory(engine):
        return False
    table = tables.asked_before
    forms = sorted(answers)
    rows = [{"about": about, "form": form, "stamp": stamp, "answers": answers[form]} for form in forms]
    try:
        with writing(engine).begin() as connection:
            queue_up(connection)
            connection.execute(delete(table).where(table.c.stamp != stamp))
            for start in range(0, len(rows), MOST_AT_ONCE):
                some = forms[start : start + MOST_AT_ONCE]
                connection.execute(delete(table).where(table.c.about == about, table.c.form.in_(some)))
                connection.execute(insert(table), rows[start : start + MOST_AT_ONCE])
    except DBAPIError:
        return False
    return True


def forget_found(engine: Engine) -> None:
    """Takes away all that is stored, so that it is asked for the first time again."""
    with writing(engine).begin() as connection:
        queue_up(connection)
        connection.execute(delete(tables.asked_before))

"""Runs the migrations on the connection that fitdb.catalogue.session hands over, inside its transaction.

From a shell (`alembic revision --autogenerate`, `alembic check`) there is no such connection: then the catalogue
that FITDB_URL names is opened, or the one in the user's data folder.
"""

from __future__ import annotations

from alembic import context
from sqlalchemy import Connection

from fitdb.catalogue.session import default_url, engine_for, writing
from fitdb.catalogue.tables import metadata


def run(connection: Connection) -> None:
    context.configure(connection=connection, target_metadata=metadata, render_as_batch=True, compare_type=True)
    with context.begin_transaction():
        context.run_migrations()


if context.is_offline_mode():
    context.configure(url=default_url(), target_metadata=metadata, literal_binds=True, render_as_batch=True)
    with context.begin_transaction():
        context.run_migrations()
elif "connection" in context.config.attributes:
    run(context.config.attributes["connection"])
else:
    # A batch migration copies and moves tables: with foreign keys on, SQLite would delete the children by cascade.
    engine = engine_for(default_url(), foreign_keys=False)
    try:
        with writing(engine).begin() as own_connection:
            run(own_connection)
    finally:
        engine.dispose()

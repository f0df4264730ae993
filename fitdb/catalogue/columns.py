"""What every table of the catalogue is made of: lengths of text, and the columns that all rows share."""

from __future__ import annotations

from typing import Any

from sqlalchemy import CheckConstraint, Column, ForeignKey, Integer, MetaData, String
from sqlalchemy.schema import SchemaItem
from sqlalchemy.types import TypeEngine

ID = String(80)
NAME = String(80)
TITLE = String(240)
SENTENCE = String(1000)
ENTERED = String(10_000)  # the longest reading that intake accepts
LIST = String(10_000)  # entries separated by one space
JSON_TEXT = String(200_000)
# The largest size that any column takes. NaN compares greater than every number on PostgreSQL and becomes NULL on
# SQLite, so one upper bound refuses NaN and infinity on both.
LARGEST = "1e30"

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def required(kind: TypeEngine[Any] | type[TypeEngine[Any]], *names: str) -> list[Column[Any]]:
    return [Column(name, kind, nullable=False) for name in names]


def origin() -> list[SchemaItem]:
    column: Column[str] = Column("origin", String(8), nullable=False, server_default="seed")
    return [column, CheckConstraint("origin in ('seed', 'own')", name="origin")]


def added(kind: Any, *names: str, of: str = "") -> list[SchemaItem]:
    """Columns that came later: rows written before say `of` there."""
    return [Column(name, kind, nullable=False, server_default=of) for name in names]


def version_column() -> Column[int]:
    return Column("version", Integer, nullable=False, server_default="1")


def source_column() -> Column[str]:
    return Column("source_id", ID, ForeignKey("source.id"), nullable=False)


def provenance() -> list[SchemaItem]:
    """What every row of the catalogue has but those that belong to another row."""
    return [source_column(), *origin()]

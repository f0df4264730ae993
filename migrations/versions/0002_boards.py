"""Boards: layouts from template rows, remedies that move together, units that move, boards and plans that are kept.

Revision ID: 0002
Revises: 0001
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

ADDED = {
    "pattern": (("lines_of", 80, ""), ("groups", 10_000, "")),
    "seat": (("per", 10, ""), ("groups", 10_000, "")),
    "line": (("per", 10, ""),),
    "remedy": (("together", 10, "end"), ("tool", 80, ""), ("only", 10_000, "")),
}


def upgrade() -> None:
    for table, columns in ADDED.items():
        with op.batch_alter_table(table) as batch:
            for name, length, default in columns:
                batch.add_column(sa.Column(name, sa.String(length=length), server_default=default, nullable=False))
    with op.batch_alter_table("pattern") as batch:
        batch.add_column(sa.Column("source_id", sa.String(length=80), nullable=True))
        batch.create_foreign_key(op.f("fk_pattern_source_id"), "source", ["source_id"], ["id"])
    op.create_table(
        "unit",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("seats", sa.String(length=10_000), nullable=False),
        sa.Column("minutes", sa.Double(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_unit_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_unit_source_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_unit")),
    )
    op.create_table(
        "saved_document",
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("document", sa.String(length=200_000), nullable=False),
        sa.Column("saved_at", sa.String(length=40), nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.CheckConstraint("kind in ('board', 'plan')", name=op.f("ck_saved_document_kind")),
        sa.PrimaryKeyConstraint("kind", "id", name=op.f("pk_saved_document")),
    )


def downgrade() -> None:
    op.drop_table("saved_document")
    op.drop_table("unit")
    with op.batch_alter_table("pattern") as batch:
        batch.drop_constraint(op.f("fk_pattern_source_id"), type_="foreignkey")
        batch.drop_column("source_id")
    for table, columns in ADDED.items():
        with op.batch_alter_table(table) as batch:
            for name, _, _ in columns:
                batch.drop_column(name)

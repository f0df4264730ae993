"""What was found out about whole boards, kept so that another process need not ask again.

Revision ID: 0005
Revises: 0004
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "asked_before",
        sa.Column("about", sa.String(length=80), nullable=False),
        sa.Column("form", sa.String(length=80), nullable=False),
        sa.Column("stamp", sa.String(length=80), nullable=False),
        sa.Column("answers", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("about", "form", name=op.f("pk_asked_before")),
    )


def downgrade() -> None:
    op.drop_table("asked_before")

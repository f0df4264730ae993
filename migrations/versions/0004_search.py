"""Parts by the size of a reading: what a list that is narrowed or sorted by an attribute walks along.

Revision ID: 0004
Revises: 0003
"""

from __future__ import annotations

from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

INDEX = "ix_part_reading_attribute_nominal_part_id"


def upgrade() -> None:
    op.create_index(op.f(INDEX), "part_reading", ["attribute", "nominal", "part_id"])


def downgrade() -> None:
    op.drop_index(op.f(INDEX), table_name="part_reading")

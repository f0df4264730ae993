"""The order of work: steps and what must come before them, fastenings with their torques, trials and cautions.

Revision ID: 0003
Revises: 0002
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

NEW = (
    "work_step",
    "work_need",
    "work_carrier",
    "work_laid_bare",
    "work_change",
    "work_fastening",
    "work_torque",
    "work_trial",
    "work_caution",
)


def _text(length: int, *names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.String(length=length), nullable=False) for name in names]


def _numbers(*names: str) -> list[sa.Column[float]]:
    return [sa.Column(name, sa.Double(), nullable=False) for name in names]


def _sourced(table: str) -> list[sa.schema.SchemaItem]:
    return [
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f(f"ck_{table}_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f(f"fk_{table}_source_id")),
    ]


def _position() -> sa.Column[int]:
    return sa.Column("position", sa.Integer(), nullable=False)


def _points_at_step(table: str, *columns: str) -> list[sa.schema.SchemaItem]:
    return [
        sa.ForeignKeyConstraint([column], ["work_step.id"], name=op.f(f"fk_{table}_{column}")) for column in columns
    ]


def upgrade() -> None:
    op.create_table(
        "work_step",
        *_text(80, "id"),
        *_text(10, "phase", "per", "place_kind"),
        *_text(240, "title"),
        *_text(1000, "does"),
        *_text(10_000, "seats", "opens", "present", "follows"),
        *_text(240, "tool"),
        *_numbers("low", "usual", "high", "wait_hours"),
        *[sa.Column(name, sa.Boolean(), nullable=False) for name in ("electrical", "gate", "reversible")],
        *_text(1000, "photograph", "note"),
        *_text(10_000, "cautions"),
        *_sourced("work_step"),
        _position(),
        sa.CheckConstraint("phase in ('isolate', 'undo', 'rebuild', 'test')", name=op.f("ck_work_step_phase")),
        sa.CheckConstraint("per in ('place', 'end', 'board')", name=op.f("ck_work_step_per")),
        sa.CheckConstraint("place_kind in ('', 'driven', 'idle')", name=op.f("ck_work_step_place_kind")),
        sa.CheckConstraint(
            "0 <= low and low <= usual and usual <= high and wait_hours >= 0", name=op.f("ck_work_step_minutes")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_work_step")),
    )
    op.create_table(
        "work_need",
        *_text(80, "step_id", "needs_id", "condition"),
        *_text(1000, "unknown"),
        *_sourced("work_need"),
        _position(),
        *_points_at_step("work_need", "step_id", "needs_id"),
        sa.PrimaryKeyConstraint("step_id", "needs_id", name=op.f("pk_work_need")),
    )
    op.create_table(
        "work_carrier",
        *_text(80, "seat"),
        *_text(10_000, "sits_on"),
        *_sourced("work_carrier"),
        sa.PrimaryKeyConstraint("seat", name=op.f("pk_work_carrier")),
    )
    op.create_table(
        "work_laid_bare",
        *_text(80, "step_id", "seat", "attribute"),
        *_sourced("work_laid_bare"),
        *_points_at_step("work_laid_bare", "step_id"),
        sa.PrimaryKeyConstraint("step_id", "seat", "attribute", name=op.f("pk_work_laid_bare")),
    )
    op.create_table(
        "work_change",
        *_text(80, "seat", "attribute", "undo", "step"),
        *_sourced("work_change"),
        sa.PrimaryKeyConstraint("seat", "attribute", name=op.f("pk_work_change")),
    )
    op.create_table(
        "work_fastening",
        *_text(80, "id", "step_id"),
        *_text(240, "title"),
        *_text(80, "seat", "class_id"),
        *_text(240, "thread", "length"),
        *_text(10_000, "counts"),
        *_text(10, "lock"),
        *_text(240, "material"),
        *_text(10_000, "not_on"),
        *_text(1000, "manner"),
        *_text(10_000, "recheck_km"),
        *_sourced("work_fastening"),
        _position(),
        *_points_at_step("work_fastening", "step_id"),
        sa.CheckConstraint("lock in ('none', 'medium')", name=op.f("ck_work_fastening_lock")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_work_fastening")),
    )
    op.create_table(
        "work_torque",
        *_text(80, "fastening_id", "thread"),
        *_numbers("low", "high"),
        *_sourced("work_torque"),
        sa.CheckConstraint("0 < low and low <= high", name=op.f("ck_work_torque_torque")),
        sa.ForeignKeyConstraint(["fastening_id"], ["work_fastening.id"], name=op.f("fk_work_torque_fastening_id")),
        sa.PrimaryKeyConstraint("fastening_id", "thread", name=op.f("pk_work_torque")),
    )
    op.create_table(
        "work_trial",
        *_text(80, "step_id"),
        *_text(1000, "passes"),
        *_text(10_000, "back_to"),
        *_sourced("work_trial"),
        *_points_at_step("work_trial", "step_id"),
        sa.PrimaryKeyConstraint("step_id", name=op.f("pk_work_trial")),
    )
    op.create_table(
        "work_caution",
        *_text(80, "id"),
        *_text(1000, "text"),
        *_sourced("work_caution"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_work_caution")),
    )


def downgrade() -> None:
    for table in reversed(NEW):
        op.drop_table(table)

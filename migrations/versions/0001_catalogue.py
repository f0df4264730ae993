"""The catalogue as it was first released: sources, classes, interfaces, parts, patterns, remedies, bookkeeping.

Revision ID: 0001
Revises:
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "catalogue_revision",
        sa.Column("id", sa.SmallInteger(), autoincrement=False, nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("seed", sa.String(length=80), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_catalogue_revision_one_row")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_catalogue_revision")),
    )
    op.create_table(
        "pattern",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_pattern_origin")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pattern")),
    )
    op.create_table(
        "source",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=1000), nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("standing", sa.String(length=40), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_source_origin")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_source")),
    )
    op.create_table(
        "fit",
        sa.Column("fit", sa.String(length=80), nullable=False),
        sa.Column("over", sa.Double(), nullable=False),
        sa.Column("up_to", sa.Double(), nullable=False),
        sa.Column("minus", sa.Double(), nullable=False),
        sa.Column("plus", sa.Double(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_fit_origin")),
        sa.CheckConstraint("over < up_to and -minus <= plus", name=op.f("ck_fit_band")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_fit_source_id")),
        sa.PrimaryKeyConstraint("fit", "over", name=op.f("pk_fit")),
    )
    op.create_table(
        "fit_name",
        sa.Column("fit", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("nominal", sa.Double(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_fit_name_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_fit_name_source_id")),
        sa.PrimaryKeyConstraint("fit", "name", name=op.f("pk_fit_name")),
    )
    op.create_table(
        "interface_kind",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_interface_kind_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_interface_kind_source_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_interface_kind")),
    )
    op.create_table(
        "limit_override",
        sa.Column("key", sa.String(length=80), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.Column("why", sa.String(length=1000), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_limit_override_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_limit_override_source_id")),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_limit_override")),
    )
    op.create_table(
        "line",
        sa.Column("pattern_id", sa.String(length=80), nullable=False),
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("kind", sa.String(length=80), nullable=False),
        sa.Column("joint", sa.String(length=10), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("expansion", sa.String(length=20), nullable=False),
        sa.Column("chain_seats", sa.String(length=10000), nullable=False),
        sa.Column("constants", sa.String(length=1000), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("expansion in ('', 'chain', 'each', 'over')", name=op.f("ck_line_expansion")),
        sa.ForeignKeyConstraint(["pattern_id"], ["pattern.id"], name=op.f("fk_line_pattern_id"), ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_line_source_id")),
        sa.PrimaryKeyConstraint("pattern_id", "id", name=op.f("pk_line")),
    )
    op.create_table(
        "part_class",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("like_ids", sa.String(length=10000), nullable=False),
        sa.Column("another_plan", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_part_class_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_part_class_source_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_part_class")),
    )
    op.create_table(
        "remedy",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("move", sa.String(length=20), nullable=False),
        sa.Column("seat", sa.String(length=80), nullable=False),
        sa.Column("stock", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("reversible", sa.Boolean(), nullable=False),
        sa.Column("gives_up", sa.String(length=1000), nullable=False),
        sa.Column("minutes", sa.Double(), nullable=False),
        sa.Column("money", sa.Double(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("move in ('insert', 'substitute', 'alter', 'set')", name=op.f("ck_remedy_move")),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_remedy_origin")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_remedy_source_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_remedy")),
    )
    op.create_table(
        "seat",
        sa.Column("pattern_id", sa.String(length=80), nullable=False),
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("row", sa.String(length=80), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("classes", sa.String(length=10000), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(["pattern_id"], ["pattern.id"], name=op.f("fk_seat_pattern_id"), ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_seat_source_id")),
        sa.PrimaryKeyConstraint("pattern_id", "id", name=op.f("pk_seat")),
    )
    op.create_table(
        "spread",
        sa.Column("source_kind", sa.String(length=20), nullable=False),
        sa.Column("family", sa.String(length=80), nullable=False),
        sa.Column("minus", sa.Double(), nullable=False),
        sa.Column("plus", sa.Double(), nullable=False),
        sa.Column("percent", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_spread_origin")),
        sa.CheckConstraint("minus >= 0 and plus >= 0", name=op.f("ck_spread_sides")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_spread_source_id")),
        sa.PrimaryKeyConstraint("source_kind", "family", name=op.f("pk_spread")),
    )
    op.create_table(
        "attribute",
        sa.Column("owner", sa.String(length=80), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("class_id", sa.String(length=80), nullable=True),
        sa.Column("kind_id", sa.String(length=80), nullable=True),
        sa.Column("reading", sa.String(length=20), nullable=False),
        sa.Column("unit", sa.String(length=20), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("physical_low", sa.Double(), nullable=True),
        sa.Column("physical_high", sa.Double(), nullable=True),
        sa.Column("plausible_low", sa.Double(), nullable=True),
        sa.Column("plausible_high", sa.Double(), nullable=True),
        sa.Column("default_number", sa.Double(), nullable=True),
        sa.Column("default_text", sa.String(length=10000), nullable=True),
        sa.Column("default_minus", sa.Double(), nullable=False),
        sa.Column("default_plus", sa.Double(), nullable=False),
        sa.Column("vocabulary", sa.String(length=10000), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("fit", sa.String(length=80), nullable=False),
        sa.Column("family", sa.String(length=80), nullable=False),
        sa.Column("tool", sa.String(length=240), nullable=False),
        sa.Column("how", sa.String(length=1000), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "coalesce(class_id, '') || coalesce(kind_id, '') = owner", name=op.f("ck_attribute_one_owner")
        ),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_attribute_origin")),
        sa.CheckConstraint(
            "reading in ('number', 'count', 'word', 'designation', 'outline')", name=op.f("ck_attribute_reading")
        ),
        sa.CheckConstraint("(physical_low is null) = (physical_high is null)", name=op.f("ck_attribute_physical")),
        sa.CheckConstraint("(plausible_low is null) = (plausible_high is null)", name=op.f("ck_attribute_plausible")),
        sa.CheckConstraint(
            "physical_low <= physical_high and plausible_low <= plausible_high", name=op.f("ck_attribute_ranges")
        ),
        sa.ForeignKeyConstraint(["class_id"], ["part_class.id"], name=op.f("fk_attribute_class_id")),
        sa.ForeignKeyConstraint(["kind_id"], ["interface_kind.id"], name=op.f("fk_attribute_kind_id")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_attribute_source_id")),
        sa.PrimaryKeyConstraint("owner", "name", name=op.f("pk_attribute")),
    )
    op.create_table(
        "class_port",
        sa.Column("class_id", sa.String(length=80), nullable=False),
        sa.Column("port", sa.String(length=80), nullable=False),
        sa.Column("kind_id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_class_port_origin")),
        sa.ForeignKeyConstraint(["class_id"], ["part_class.id"], name=op.f("fk_class_port_class_id")),
        sa.ForeignKeyConstraint(["kind_id"], ["interface_kind.id"], name=op.f("fk_class_port_kind_id")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_class_port_source_id")),
        sa.PrimaryKeyConstraint("class_id", "port", name=op.f("pk_class_port")),
    )
    op.create_table(
        "interface",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("kind_id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("signature", sa.String(length=100), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_interface_origin")),
        sa.ForeignKeyConstraint(["kind_id"], ["interface_kind.id"], name=op.f("fk_interface_kind_id")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_interface_source_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_interface")),
        sa.UniqueConstraint("kind_id", "signature", name=op.f("uq_interface_kind_id_signature")),
    )
    op.create_table(
        "line_role",
        sa.Column("pattern_id", sa.String(length=80), nullable=False),
        sa.Column("line_id", sa.String(length=80), nullable=False),
        sa.Column("role", sa.String(length=80), nullable=False),
        sa.Column("seats", sa.String(length=10000), nullable=False),
        sa.Column("how", sa.String(length=20), nullable=False),
        sa.Column("port", sa.String(length=80), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.CheckConstraint("how in ('single', 'list', 'if_present')", name=op.f("ck_line_role_how")),
        sa.ForeignKeyConstraint(
            ["pattern_id", "line_id"],
            ["line.pattern_id", "line.id"],
            name=op.f("fk_line_role_pattern_id_line_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("pattern_id", "line_id", "role", name=op.f("pk_line_role")),
    )
    op.create_table(
        "part",
        sa.Column("id", sa.String(length=80), nullable=False),
        sa.Column("class_id", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=240), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.Column("version", sa.Integer(), server_default="1", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_part_origin")),
        sa.ForeignKeyConstraint(["class_id"], ["part_class.id"], name=op.f("fk_part_class_id")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_part_source_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_part")),
        sa.UniqueConstraint("class_id", "id", name=op.f("uq_part_class_id_id")),
    )
    op.create_table(
        "stock",
        sa.Column("class_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("size", sa.Double(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.Column("origin", sa.String(length=8), server_default="seed", nullable=False),
        sa.CheckConstraint("origin in ('seed', 'own')", name=op.f("ck_stock_origin")),
        sa.ForeignKeyConstraint(["class_id"], ["part_class.id"], name=op.f("fk_stock_class_id")),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_stock_source_id")),
        sa.PrimaryKeyConstraint("class_id", "attribute", "size", name=op.f("pk_stock")),
    )
    op.create_table(
        "fit_answer",
        sa.Column("interface_a", sa.String(length=80), nullable=False),
        sa.Column("interface_b", sa.String(length=80), nullable=False),
        sa.Column("rule", sa.String(length=80), nullable=False),
        sa.Column("state", sa.String(length=20), nullable=False),
        sa.Column("stamp", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["interface_a"], ["interface.id"], name=op.f("fk_fit_answer_interface_a"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["interface_b"], ["interface.id"], name=op.f("fk_fit_answer_interface_b"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("interface_a", "interface_b", "rule", name=op.f("pk_fit_answer")),
        sqlite_with_rowid=False,
    )
    with op.batch_alter_table("fit_answer", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_fit_answer_interface_b"), ["interface_b"], unique=False)

    op.create_table(
        "interface_outline",
        sa.Column("interface_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("rings", sa.String(length=200000), nullable=False),
        sa.Column("holes", sa.String(length=200000), nullable=False),
        sa.Column("spread", sa.Double(), nullable=False),
        sa.Column("entered", sa.String(length=10000), nullable=False),
        sa.Column("value_assumed", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.CheckConstraint("spread >= 0 and spread < 1e30", name=op.f("ck_interface_outline_spread")),
        sa.ForeignKeyConstraint(
            ["interface_id"], ["interface.id"], name=op.f("fk_interface_outline_interface_id"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_interface_outline_source_id")),
        sa.PrimaryKeyConstraint("interface_id", "attribute", name=op.f("pk_interface_outline")),
    )
    op.create_table(
        "interface_reading",
        sa.Column("interface_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("low", sa.Double(), nullable=False),
        sa.Column("nominal", sa.Double(), nullable=False),
        sa.Column("high", sa.Double(), nullable=False),
        sa.Column("counts", sa.String(length=10000), nullable=False),
        sa.Column("unit", sa.String(length=20), nullable=False),
        sa.Column("fit", sa.String(length=80), nullable=False),
        sa.Column("entered", sa.String(length=10000), nullable=False),
        sa.Column("value_assumed", sa.Boolean(), nullable=False),
        sa.Column("spread_assumed", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.CheckConstraint("kind in ('number', 'count', 'designation')", name=op.f("ck_interface_reading_kind")),
        sa.CheckConstraint("low <= nominal and nominal <= high", name=op.f("ck_interface_reading_order")),
        sa.CheckConstraint("low > -1e30 and high < 1e30", name=op.f("ck_interface_reading_finite")),
        sa.ForeignKeyConstraint(
            ["interface_id"], ["interface.id"], name=op.f("fk_interface_reading_interface_id"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_interface_reading_source_id")),
        sa.PrimaryKeyConstraint("interface_id", "attribute", name=op.f("pk_interface_reading")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "interface_word",
        sa.Column("interface_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("possible", sa.String(length=10000), nullable=False),
        sa.Column("entered", sa.String(length=10000), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("value_assumed", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["interface_id"], ["interface.id"], name=op.f("fk_interface_word_interface_id"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_interface_word_source_id")),
        sa.PrimaryKeyConstraint("interface_id", "attribute", name=op.f("pk_interface_word")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "part_outline",
        sa.Column("part_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("rings", sa.String(length=200000), nullable=False),
        sa.Column("holes", sa.String(length=200000), nullable=False),
        sa.Column("spread", sa.Double(), nullable=False),
        sa.Column("entered", sa.String(length=10000), nullable=False),
        sa.Column("value_assumed", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.CheckConstraint("spread >= 0 and spread < 1e30", name=op.f("ck_part_outline_spread")),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name=op.f("fk_part_outline_part_id"), ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_part_outline_source_id")),
        sa.PrimaryKeyConstraint("part_id", "attribute", name=op.f("pk_part_outline")),
    )
    op.create_table(
        "part_port",
        sa.Column("part_id", sa.String(length=80), nullable=False),
        sa.Column("port", sa.String(length=80), nullable=False),
        sa.Column("interface_id", sa.String(length=80), nullable=False),
        sa.Column("class_id", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["class_id", "part_id"],
            ["part.class_id", "part.id"],
            name=op.f("fk_part_port_class_id_part_id"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(["interface_id"], ["interface.id"], name=op.f("fk_part_port_interface_id")),
        sa.PrimaryKeyConstraint("part_id", "port", name=op.f("pk_part_port")),
        sqlite_with_rowid=False,
    )
    with op.batch_alter_table("part_port", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_part_port_interface_id_class_id_part_id"),
            ["interface_id", "class_id", "part_id"],
            unique=False,
        )

    op.create_table(
        "part_reading",
        sa.Column("part_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("low", sa.Double(), nullable=False),
        sa.Column("nominal", sa.Double(), nullable=False),
        sa.Column("high", sa.Double(), nullable=False),
        sa.Column("counts", sa.String(length=10000), nullable=False),
        sa.Column("unit", sa.String(length=20), nullable=False),
        sa.Column("fit", sa.String(length=80), nullable=False),
        sa.Column("entered", sa.String(length=10000), nullable=False),
        sa.Column("value_assumed", sa.Boolean(), nullable=False),
        sa.Column("spread_assumed", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.CheckConstraint("kind in ('number', 'count', 'designation')", name=op.f("ck_part_reading_kind")),
        sa.CheckConstraint("low <= nominal and nominal <= high", name=op.f("ck_part_reading_order")),
        sa.CheckConstraint("low > -1e30 and high < 1e30", name=op.f("ck_part_reading_finite")),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name=op.f("fk_part_reading_part_id"), ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_part_reading_source_id")),
        sa.PrimaryKeyConstraint("part_id", "attribute", name=op.f("pk_part_reading")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "part_word",
        sa.Column("part_id", sa.String(length=80), nullable=False),
        sa.Column("attribute", sa.String(length=80), nullable=False),
        sa.Column("possible", sa.String(length=10000), nullable=False),
        sa.Column("entered", sa.String(length=10000), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("value_assumed", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(["part_id"], ["part.id"], name=op.f("fk_part_word_part_id"), ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["source_id"], ["source.id"], name=op.f("fk_part_word_source_id")),
        sa.PrimaryKeyConstraint("part_id", "attribute", name=op.f("pk_part_word")),
        sqlite_with_rowid=False,
    )


def downgrade() -> None:
    op.drop_table("part_word")
    op.drop_table("part_reading")
    with op.batch_alter_table("part_port", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_part_port_interface_id_class_id_part_id"))

    op.drop_table("part_port")
    op.drop_table("part_outline")
    op.drop_table("interface_word")
    op.drop_table("interface_reading")
    op.drop_table("interface_outline")
    with op.batch_alter_table("fit_answer", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_fit_answer_interface_b"))

    op.drop_table("fit_answer")
    op.drop_table("stock")
    op.drop_table("part")
    op.drop_table("line_role")
    op.drop_table("interface")
    op.drop_table("class_port")
    op.drop_table("attribute")
    op.drop_table("spread")
    op.drop_table("seat")
    op.drop_table("remedy")
    op.drop_table("part_class")
    op.drop_table("line")
    op.drop_table("limit_override")
    op.drop_table("interface_kind")
    op.drop_table("fit_name")
    op.drop_table("fit")
    op.drop_table("source")
    op.drop_table("pattern")
    op.drop_table("catalogue_revision")

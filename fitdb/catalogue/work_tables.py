"""The tables of the order of work: steps, what must come before them, and what is tightened and tried on the way."""

from __future__ import annotations

from sqlalchemy import Boolean, CheckConstraint, Column, Double, ForeignKey, Integer, String, Table

from fitdb.catalogue.columns import ID, LIST, NAME, SENTENCE, TITLE, metadata, provenance, required


def _step(name: str, *, key: bool = True) -> Column[str]:
    return Column(name, ID, ForeignKey("work_step.id"), primary_key=key, nullable=False)


# `seats`, `opens`, `present`, `follows` and `cautions` are lists; `per` says how often the step is done on one board.
work_step = Table(
    "work_step",
    metadata,
    Column("id", ID, primary_key=True),
    *required(String(10), "phase", "per", "place_kind"),
    *required(TITLE, "title"),
    *required(SENTENCE, "does"),
    *required(LIST, "seats", "opens", "present", "follows"),
    *required(TITLE, "tool"),
    *required(Double, "low", "usual", "high", "wait_hours"),
    *required(Boolean, "electrical", "gate", "reversible"),
    *required(SENTENCE, "photograph", "note"),
    *required(LIST, "cautions"),
    *provenance(),
    *required(Integer, "position"),
    CheckConstraint("phase in ('isolate', 'undo', 'rebuild', 'test')", name="phase"),
    CheckConstraint("per in ('place', 'end', 'board')", name="per"),
    CheckConstraint("place_kind in ('', 'driven', 'idle')", name="place_kind"),
    CheckConstraint("0 <= low and low <= usual and usual <= high and wait_hours >= 0", name="minutes"),
)

work_need = Table(
    "work_need",
    metadata,
    _step("step_id"),
    _step("needs_id"),
    *required(NAME, "condition"),
    *required(SENTENCE, "unknown"),
    *provenance(),
    *required(Integer, "position"),
)

# What a piece sits on: it leaves with that, and has to come off when that leaves and it stays.
work_carrier = Table(
    "work_carrier",
    metadata,
    Column("seat", NAME, primary_key=True),
    *required(LIST, "sits_on"),
    *provenance(),
)

work_laid_bare = Table(
    "work_laid_bare",
    metadata,
    _step("step_id"),
    Column("seat", NAME, primary_key=True),
    Column("attribute", NAME, primary_key=True),
    *provenance(),
)

# Where an alteration or a setting is done. An empty step stands for itself, so neither column is a foreign key.
work_change = Table(
    "work_change",
    metadata,
    Column("seat", NAME, primary_key=True),
    Column("attribute", NAME, primary_key=True),
    *required(ID, "undo", "step"),
    *provenance(),
)

work_fastening = Table(
    "work_fastening",
    metadata,
    Column("id", ID, primary_key=True),
    _step("step_id", key=False),
    *required(TITLE, "title"),
    *required(NAME, "seat"),
    *required(ID, "class_id"),  # empty for any, so no foreign key
    *required(TITLE, "thread", "length"),
    *required(LIST, "counts"),
    *required(String(10), "lock"),
    *required(TITLE, "material"),
    *required(LIST, "not_on"),
    *required(SENTENCE, "manner"),
    *required(LIST, "recheck_km"),
    *provenance(),
    *required(Integer, "position"),
    CheckConstraint("lock in ('none', 'medium')", name="lock"),
)

# N m, for one thread of one fastening.
work_torque = Table(
    "work_torque",
    metadata,
    Column("fastening_id", ID, ForeignKey("work_fastening.id"), primary_key=True),
    Column("thread", NAME, primary_key=True),
    *required(Double, "low", "high"),
    *provenance(),
    CheckConstraint("0 < low and low <= high", name="torque"),
)

work_trial = Table(
    "work_trial",
    metadata,
    _step("step_id"),
    *required(SENTENCE, "passes"),
    *required(LIST, "back_to"),
    *provenance(),
)

work_caution = Table(
    "work_caution",
    metadata,
    Column("id", ID, primary_key=True),
    *required(SENTENCE, "text"),
    *provenance(),
)

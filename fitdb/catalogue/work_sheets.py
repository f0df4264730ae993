"""The files of the order of work (`work/`): which headings each has, and how a cell becomes a value."""

from __future__ import annotations

from fitdb.catalogue.seed_cells import (
    SOURCE,
    Field,
    Sheet,
    identifier,
    identifiers,
    not_negative,
    one_of,
    some_text,
    text,
    whole_numbers,
    yes_no,
)
from fitdb.model.work import CONDITIONS, LOCKS, PER, ROW_PHASES, WHERE


def identifiers_or_any(cell: str) -> str:
    """Ids, or `*` for any."""
    return cell if cell == "*" else identifiers(cell)


def id_or_nothing(cell: str) -> str:
    return identifier(cell) if cell else cell


WORK_SHEETS = (
    Sheet(("work/cautions.csv", "work/*_cautions.csv"), "work_caution", ("id",), (
        Field("id", "id", identifier),
        Field("text", "text", some_text),
        SOURCE,
    ), may_be_missing=True),
    Sheet(("work/steps.csv", "work/*_steps.csv"), "work_step", ("id",), (
        Field("id", "id", identifier),
        Field("phase", "phase", one_of(*ROW_PHASES)),
        Field("title", "title", some_text),
        Field("does", "does", some_text),
        Field("seats", "seats", identifiers),
        Field("opens", "opens", identifiers),
        Field("present", "present", identifiers_or_any),
        Field("after", "follows", identifiers_or_any),
        Field("per", "per", one_of(*PER)),
        Field("where", "place_kind", one_of(*WHERE)),
        Field("tool", "tool", text),
        Field("low [min]", "low", not_negative),
        Field("usual [min]", "usual", not_negative),
        Field("high [min]", "high", not_negative),
        Field("wait [h]", "wait_hours", not_negative),
        Field("electrical", "electrical", yes_no),
        Field("gate", "gate", yes_no),
        Field("reversible", "reversible", yes_no),
        Field("photograph", "photograph", text),
        Field("note", "note", text),
        Field("cautions", "cautions", identifiers, refers="work_caution"),
        SOURCE,
    ), ordered=True, may_be_missing=True),
    Sheet(("work/needs.csv", "work/*_needs.csv"), "work_need", ("step_id", "needs_id"), (
        Field("step", "step_id", identifier, refers="work_step"),
        Field("needs", "needs_id", identifier, refers="work_step"),
        Field("if", "condition", one_of(*CONDITIONS)),
        Field("where nobody can say", "unknown", text),
        SOURCE,
    ), ordered=True, may_be_missing=True),
    Sheet(("work/carriers.csv", "work/*_carriers.csv"), "work_carrier", ("seat",), (
        Field("seat", "seat", identifier),
        Field("sits_on", "sits_on", identifiers),
        SOURCE,
    ), may_be_missing=True),
    Sheet(("work/laid_bare.csv", "work/*_laid_bare.csv"), "work_laid_bare", ("step_id", "seat", "attribute"), (
        Field("step", "step_id", identifier, refers="work_step"),
        Field("seat", "seat", identifier),
        Field("attribute", "attribute", identifier),
        SOURCE,
    ), may_be_missing=True),
    Sheet(("work/changes.csv", "work/*_changes.csv"), "work_change", ("seat", "attribute"), (
        Field("seat", "seat", identifier),
        Field("attribute", "attribute", identifier),
        Field("undo", "undo", id_or_nothing, refers="work_step"),
        Field("step", "step", id_or_nothing, refers="work_step"),
        SOURCE,
    ), may_be_missing=True),
    Sheet(("work/fastenings.csv", "work/*_fastenings.csv"), "work_fastening", ("id",), (
        Field("id", "id", identifier),
        Field("step", "step_id", identifier, refers="work_step"),
        Field("title", "title", some_text),
        Field("seat", "seat", identifier),
        Field("class", "class_id", id_or_nothing, refers="part_class"),
        Field("thread", "thread", text),
        Field("length", "length", text),
        Field("counts", "counts", text),
        Field("lock", "lock", one_of(*LOCKS)),
        Field("material", "material", text),
        Field("not_on", "not_on", identifiers),
        Field("manner", "manner", text),
        Field("recheck [km]", "recheck_km", whole_numbers),
        SOURCE,
    ), ordered=True, may_be_missing=True),
    Sheet(("work/torques.csv", "work/*_torques.csv"), "work_torque", ("fastening_id", "thread"), (
        Field("fastening", "fastening_id", identifier, refers="work_fastening"),
        Field("thread", "thread", identifier),
        Field("low [N m]", "low", not_negative),
        Field("high [N m]", "high", not_negative),
        SOURCE,
    ), may_be_missing=True),
    Sheet(("work/trials.csv", "work/*_trials.csv"), "work_trial", ("step_id",), (
        Field("step", "step_id", identifier, refers="work_step"),
        Field("passes", "passes", some_text),
        Field("back_to", "back_to", identifiers),
        SOURCE,
    ), may_be_missing=True),
)  # fmt: skip

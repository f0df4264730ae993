"""The order of work from its rows. Pure, as `rows`: shipped tables and database are read by the same builder."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from fitdb.catalogue.rows import Row, Rows
from fitdb.model.work import (
    Fastening,
    LaidBare,
    Need,
    PlaceOfChange,
    Span,
    Torque,
    Trial,
    Work,
    WorkStep,
)

WORK_TABLES = (
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


def work_of(rows: Rows) -> Work:
    """Steps, needs and fastenings in the order of their `position`, the rest in the order of their keys."""
    torques: defaultdict[str, list[Torque]] = defaultdict(list)
    for row in sorted(rows["work_torque"], key=lambda row: (row["fastening_id"], row["thread"])):
        torques[row["fastening_id"]].append(Torque(row["thread"], row["low"], row["high"], row["source_id"]))
    return Work(
        steps={row["id"]: _step(row) for row in _in_order(rows, "work_step")},
        needs=tuple(
            Need(row["step_id"], row["needs_id"], row["condition"], row["unknown"], row["source_id"])
            for row in _in_order(rows, "work_need")
        ),
        carriers={
            row["seat"]: tuple(row["sits_on"].split()) for row in sorted(rows["work_carrier"], key=_keyed("seat"))
        },
        laid_bare=tuple(
            LaidBare(row["step_id"], row["seat"], row["attribute"], row["source_id"])
            for row in sorted(rows["work_laid_bare"], key=_keyed("seat", "attribute", "step_id"))
        ),
        changes=tuple(
            PlaceOfChange(row["seat"], row["attribute"], row["undo"], row["step"], row["source_id"])
            for row in sorted(rows["work_change"], key=_keyed("seat", "attribute"))
        ),
        fastenings=tuple(_fastening(row, torques) for row in _in_order(rows, "work_fastening")),
        tests={
            row["step_id"]: Trial(row["step_id"], row["passes"], tuple(row["back_to"].split()), row["source_id"])
            for row in sorted(rows["work_trial"], key=_keyed("step_id"))
        },
        cautions={row["id"]: row["text"] for row in sorted(rows["work_caution"], key=_keyed("id"))},
    )


def _step(row: Row) -> WorkStep:
    return WorkStep(
        id=row["id"],
        phase=row["phase"],
        title=row["title"],
        does=row["does"],
        seats=tuple(row["seats"].split()),
        opens=tuple(row["opens"].split()),
        present=tuple(row["present"].split()),
        after=tuple(row["follows"].split()),
        per=row["per"],
        where=row["place_kind"],
        tool=row["tool"],
        minutes=Span(row["low"], row["usual"], row["high"]),
        wait_hours=row["wait_hours"],
        electrical=bool(row["electrical"]),
        gate=bool(row["gate"]),
        reversible=bool(row["reversible"]),
        photograph=row["photograph"],
        note=row["note"],
        cautions=tuple(row["cautions"].split()),
        source=row["source_id"],
    )


def _fastening(row: Row, torques: Mapping[str, list[Torque]]) -> Fastening:
    return Fastening(
        id=row["id"],
        step=row["step_id"],
        title=row["title"],
        seat=row["seat"],
        part_class=row["class_id"],
        thread=row["thread"],
        length=row["length"],
        counts=tuple(row["counts"].split()),
        torques=tuple(torques.get(row["id"], ())),
        lock=row["lock"],
        material=row["material"],
        not_on=tuple(row["not_on"].split()),
        manner=row["manner"],
        recheck_km=tuple(int(entry) for entry in row["recheck_km"].split()),
        source=row["source_id"],
    )


def _in_order(rows: Rows, name: str) -> list[Row]:
    return sorted(rows[name], key=lambda row: int(row["position"]))


def _keyed(*names: str) -> Any:
    return lambda row: tuple(row[name] for name in names)

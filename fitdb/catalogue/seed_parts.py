"""Interfaces and parts of a seed directory: files whose headings follow from the attributes of a kind or class.

`interfaces/<kind>.csv` and `parts/<class>.csv`; behind `--` the name may say more (`parts/wheel--pneumatic.csv`). A
heading is `window_width [mm]`, a bare name for counts and words, or `port:core` for the interface at a port.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from fitdb.catalogue.seed_cells import ID_FORM
from fitdb.catalogue.seed_files import (
    Key,
    Record,
    missing_column,
    no_source,
    read_file,
    record_fault,
    unfit_text,
    unknown_heading,
    unknown_id,
)
from fitdb.catalogue.tables import LENGTHS
from fitdb.intake.nearest import did_you_mean
from fitdb.intake.part_files import signature
from fitdb.intake.readings import Fits, read
from fitdb.intake.units import factor
from fitdb.model.interface import Interface
from fitdb.model.part import Attribute, AttributeTable, Part
from fitdb.model.problems import Problem
from fitdb.model.reading import Reading
from fitdb.model.source import Source

HEADING = re.compile(r"(?P<name>[^\[\]]+?)\s*(?:\[(?P<unit>[^\[\]]*)\])?")
BARE = re.compile(r"[0-9.,\s+±/|-]+")
PORT = "port:"
ALWAYS = ("id", "title", "source")


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """What the cells of interfaces and parts may say. `named`: attributes and ports in the tables, sound or not."""

    table: AttributeTable
    fits: Fits
    named: set[Key]


@dataclass(frozen=True, slots=True)
class Column:
    """What a heading stands for: an attribute with the unit of its bare numbers, or a port."""

    heading: str
    attribute: Attribute | None = None
    unit: str = ""
    port: str = ""


def read_interfaces(
    directory: Path, vocabulary: Vocabulary, known: Mapping[str, Interface], faults: list[Problem]
) -> tuple[dict[str, tuple[Interface, Source]], set[str]]:
    """Interfaces by id, each with its row's source, and all ids that are named, faulty rows included.

    `known` are interfaces of the catalogue that is imported into: a new one may neither repeat their ids nor, under
    another id, their signature.
    """
    table = vocabulary.table
    found: dict[str, tuple[Interface, Source]] = {}
    places: dict[str, Record] = {}
    signatures = {(one.kind, one.signature): one.id for one in known.values()}
    for file, kind in _files(directory, "interfaces", table.kinds, "interface kind", faults):
        attributes = table.kind_attributes(kind)
        headings, records = read_file(directory, file, faults)
        columns = _columns(file, headings, (kind,), attributes, {}, vocabulary, faults)
        for record in records:
            head = _head(record, places, known, "interface", table, faults)
            readings = _readings(record, columns, head.source if head else None, vocabulary, faults)
            if head is None:
                continue
            said = signature(kind, readings)
            twin = signatures.setdefault((kind, said), head.id)
            if twin != head.id:
                message = f"`{head.id}` and `{twin}` say the same: they are one interface."
                hint = f"Keep one of them, and name it in the parts that offer `{head.id}`."
                faults.append(record_fault("same_signature", message, record, "id", hint))
            found[head.id] = Interface(head.id, kind, head.title, readings, said), head.source
    return found, set(places)


def read_parts(
    directory: Path,
    vocabulary: Vocabulary,
    interfaces: Mapping[str, Interface],
    named_interfaces: set[str],
    known: Mapping[str, Part],
    faults: list[Problem],
) -> dict[str, Part]:
    """Parts by id. `interfaces` are those that a port may name, `known` the parts of the catalogue imported into."""
    table = vocabulary.table
    found: dict[str, Part] = {}
    places: dict[str, Record] = {}
    for file, part_class in _files(directory, "parts", table.classes, "part class", faults):
        attributes, ports = table.own_attributes(part_class), table.ports_of(part_class)
        headings, records = read_file(directory, file, faults)
        columns = _columns(file, headings, table.line_of(part_class), attributes, ports, vocabulary, faults)
        for record in records:
            head = _head(record, places, known, "part", table, faults)
            readings = _readings(record, columns, head.source if head else None, vocabulary, faults)
            offered: dict[str, Interface] = {}
            for column in columns:
                named = record.cells[column.heading]
                if not column.port or not named:
                    continue
                interface = interfaces.get(named)
                if interface is None:
                    if named not in named_interfaces:
                        known_here = [one.id for one in interfaces.values() if one.kind == ports[column.port]]
                        faults.append(unknown_id(record, column.heading, "interface", named, known_here))
                elif interface.kind != ports[column.port]:
                    message = f"`{named}` is a {interface.kind}, and this port takes a {ports[column.port]}."
                    faults.append(record_fault("wrong_kind", message, record, column.heading))
                else:
                    offered[column.port] = interface
            if head is not None:
                found[head.id] = Part(head.id, part_class, head.title, readings, offered, head.source)
    return found


def _files(
    directory: Path, folder: str, owners: Mapping[str, object], what: str, faults: list[Problem]
) -> list[tuple[str, str]]:
    """The files of one folder, each with the kind or class that its name says."""
    found = []
    for path in sorted((directory / folder).glob("*.csv")):
        file, owner = path.relative_to(directory).as_posix(), path.stem.partition("--")[0]
        if owner in owners:
            found.append((file, owner))
        else:
            hint = did_you_mean(owner, owners)
            faults.append(Problem("unknown_id", f"No {what} is called `{owner}`.", file=file, hint=hint))
    return found


def _columns(
    file: str,
    headings: tuple[str, ...],
    owners: tuple[str, ...],
    attributes: Mapping[str, Attribute],
    ports: Mapping[str, str],
    vocabulary: Vocabulary,
    faults: list[Problem],
) -> list[Column]:
    """What the headings of one file stand for; those that stand for nothing are faults and left out."""
    known = [*ALWAYS, *attributes, *(PORT + port for port in ports)]
    columns = []
    for heading in headings:
        parts = HEADING.fullmatch(heading)
        name, unit = (parts["name"], parts["unit"]) if parts else (heading, None)
        if heading in ALWAYS:
            continue
        if heading.startswith(PORT) and heading.removeprefix(PORT) in ports:
            columns.append(Column(heading, port=heading.removeprefix(PORT)))
        elif name in attributes:
            fault = _unit_fault(file, heading, attributes[name], unit)
            if fault is None:
                columns.append(Column(heading, attributes[name], unit or ""))
            else:
                faults.append(fault)
        elif not any((owner, name.removeprefix(PORT)) in vocabulary.named for owner in owners):  # else told already
            faults.append(unknown_heading(file, heading, known))
    if headings:
        faults += [missing_column(file, name) for name in ALWAYS if name not in headings]
    return columns


def _unit_fault(file: str, heading: str, attribute: Attribute, unit: str | None) -> Problem | None:
    """Whether the brackets of a heading say a unit of what the attribute measures."""
    if not attribute.unit:
        if not unit:
            return None
        message, hint = f"{attribute.title} has no unit.", f"Write `{attribute.name}`."
        return Problem("other_dimension", message, file=file, row=1, column=heading, hint=hint)
    if not unit:
        message, hint = "The heading names no unit.", f"Write `{attribute.name} [{attribute.unit}]`."
        return Problem("missing_unit", message, file=file, row=1, column=heading, hint=hint)
    worth = factor(unit, attribute.unit)
    return replace(worth, file=file, row=1, column=heading) if isinstance(worth, Problem) else None


@dataclass(frozen=True, slots=True)
class _Head:
    id: str
    title: str
    source: Source


def _head(
    record: Record,
    places: dict[str, Record],
    known: Mapping[str, object],
    what: str,
    table: AttributeTable,
    faults: list[Problem],
) -> _Head | None:
    """Id, title and source of a row; None if one of them is at fault. Notes the id in `places`."""
    before = len(faults)
    if any(name not in record.cells for name in ALWAYS):
        return None  # the missing column has been named
    own, title, source = (record.cells[name] for name in ALWAYS)
    if not ID_FORM.fullmatch(own) or unfit_text(own, LENGTHS[what]["id"]):
        message = f"`{own[:80]}` is no id: letters, digits, `_`, `-`, `.` or `+`, 80 at most."
        faults.append(record_fault("bad_cell", message, record, "id"))
    elif own in places:
        message = f"`{own}` stands in {places[own].file}, row {places[own].number} already."
        faults.append(record_fault("duplicate_id", message, record, "id"))
    elif own in known:
        faults.append(record_fault("duplicate_id", f"`{own}` is in the catalogue already.", record, "id"))
    places.setdefault(own, record)
    unfit = unfit_text(title, LENGTHS[what]["title"]) if title else "The title is empty."
    if unfit:
        faults.append(record_fault("bad_cell", unfit, record, "title"))
    if not source:
        faults.append(no_source(record))
    elif source not in table.sources:
        faults.append(unknown_id(record, "source", "source", source, table.sources))
    return _Head(own, title, table.sources[source]) if len(faults) == before else None


def _readings(
    record: Record, columns: list[Column], source: Source | None, vocabulary: Vocabulary, faults: list[Problem]
) -> dict[str, Reading]:
    """The readings of one row. Cells are looked at even when the row's source is at fault."""
    readings: dict[str, Reading] = {}
    for column in columns:
        cell = record.cells[column.heading]
        if column.attribute is None or not cell:
            continue
        text = with_unit(cell, column.unit) if column.unit != column.attribute.unit else cell
        own = source or column.attribute.source
        reading, problems = read(text, column.attribute, vocabulary.table, vocabulary.fits, own)
        for problem in problems:
            faults.append(replace(problem, file=record.file, row=record.number, column=column.heading))
        if reading is not None:
            readings[column.attribute.name] = reading
    return readings


def with_unit(cell: str, unit: str) -> str:
    """The cell with the unit of its heading, where it names none itself: `9 @ruler` under `[in]` is `9 in @ruler`."""
    value, at, source = cell.partition("@")
    if not BARE.fullmatch(value):
        return cell
    return f"{value.strip()} {unit} {at}{source}".strip()

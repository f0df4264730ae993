"""Carrying a catalogue as files: every table out as CSV, a directory of CSV in; all of it or nothing."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine

from fitdb.catalogue.read import all_rows
from fitdb.catalogue.rows import Row, attribute_table_of, fits_of, interfaces_of, parts_of
from fitdb.catalogue.seed import SeedBook, read_directory
from fitdb.catalogue.seed_cells import Field, Sheet
from fitdb.catalogue.seed_parts import PORT
from fitdb.catalogue.seed_sheets import SHEETS
from fitdb.catalogue.seeding import PATTERN_CHILDREN, add_rows, bump_revision
from fitdb.catalogue.session import queue_up, writing
from fitdb.catalogue.tables import metadata
from fitdb.intake.readings import Fits, read
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.problems import Malformed, Problem
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.source import Source


def import_directory(engine: Engine, directory: Path) -> dict[str, int]:
    """Adds the tables of `directory` to the catalogue as somebody's own; how many rows went into which table.

    The files are those of the shipped tables; any may be missing, and what the catalogue holds may be named. One
    transaction: Malformed, with every fault by file, row and column, leaves the catalogue as it was. Nothing is
    overwritten, and a shipped pattern takes no more seats or lines, since new shipped tables would drop them.
    """
    with writing(engine).begin() as connection:
        queue_up(connection)
        book, faults = _read_addition(connection, directory)
        if book is None:
            raise Malformed(faults)
        for table in metadata.sorted_tables:
            own = {"origin": "own"} if "origin" in table.c else {}
            add_rows(connection, table, book.rows.get(table.name, ()), **own)
        bump_revision(connection)
    return {name: len(rows) for name, rows in book.rows.items() if rows}


def check_import(engine: Engine, directory: Path) -> tuple[Problem, ...]:
    """Every fault that `import_directory` would refuse `directory` for; nothing is stored."""
    with engine.connect() as connection:
        return _read_addition(connection, directory)[1]


def _read_addition(connection: Connection, directory: Path) -> tuple[SeedBook | None, tuple[Problem, ...]]:
    catalogue = all_rows(connection)
    book, faults = read_directory(directory, catalogue)
    if book is None:
        return None, faults
    standing = {row["id"] for row in catalogue["pattern"]}
    grown = {row["pattern_id"] for child in PATTERN_CHILDREN for row in book.rows.get(child.name, ())} & standing
    if not grown:
        return book, ()
    hint = "Copy its rows under an id of your own and add to those."
    return None, tuple(
        Problem("pattern_is_fixed", f"The pattern `{own}` is in the catalogue already.", hint=hint)
        for own in sorted(grown)
    )


def export_directory(engine: Engine, directory: Path, *, own_only: bool = False) -> tuple[str, ...]:
    """Writes the catalogue as tables that can be loaded or imported again; the names of the files.

    own_only: what came with the shipped tables is left out. A reading is written as it was entered where that still
    means the same, else with its spread. OSError when the directory cannot be written.
    """
    with engine.connect() as connection:
        rows = all_rows(connection)
    shown = {name: [row for row in some if not own_only or row.get("origin") != "seed"] for name, some in rows.items()}
    if own_only:
        patterns = {row["id"] for row in shown["pattern"]}
        for child in PATTERN_CHILDREN:
            shown[child.name] = [row for row in rows[child.name] if row["pattern_id"] in patterns]
    files = {sheet.files[0]: _sheet_lines(sheet, shown[sheet.table]) for sheet in SHEETS}
    files |= _collections(rows, shown)
    written = []
    for file, lines in files.items():
        if len(lines) > 1 or not own_only:
            path = directory / file
            path.parent.mkdir(parents=True, exist_ok=True)
            with open(path, "w", encoding="utf-8", newline="") as opened:
                csv.writer(opened, lineterminator="\n").writerows(lines)
            written.append(file)
    return tuple(written)


def _sheet_lines(sheet: Sheet, rows: Sequence[Row]) -> list[list[str]]:
    if sheet.table == "stock":
        sizes: defaultdict[tuple[str, str], list[Row]] = defaultdict(list)
        for row in rows:
            sizes[row["class_id"], row["attribute"]].append(row)
        rows = [{**some[0], "size": tuple(row["size"] for row in some)} for some in sizes.values()]
    lines = [[field.heading for field in sheet.fields]]
    return lines + [[_cell(field, row) for field in sheet.fields] for row in rows]


def _cell(field: Field, row: Row) -> str:
    """What a file says where the table holds this value; the opposite of the field's `parse`."""
    if field.column == "default":
        return _text(row["default_number"]) or row["default_text"] or ""
    return _text(row[field.column])


def _text(value: Any) -> str:
    if isinstance(value, tuple):
        return " ".join(_text(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    return "" if value is None else str(value)


def _collections(rows: Mapping[str, list[Row]], shown: Mapping[str, list[Row]]) -> dict[str, list[list[str]]]:
    """The files of interfaces and parts, by kind and class."""
    table, fits = attribute_table_of(rows), fits_of(rows)
    interfaces = interfaces_of(rows, table.sources)
    files: dict[str, list[list[str]]] = {}
    for kind in table.kinds:
        heads = [row for row in shown["interface"] if row["kind_id"] == kind]
        attributes = table.kind_attributes(kind)
        lines = [["id", "title", *map(_heading, attributes.values()), "source"]]
        for head in heads:
            readings = interfaces[head["id"]].readings
            cells = _reading_cells(readings, attributes.values(), table, fits, table.sources[head["source_id"]])
            lines.append([head["id"], head["title"], *cells, head["source_id"]])
        if heads:
            files[f"interfaces/{kind}.csv"] = lines
    for part_class in table.classes:
        own = {row["id"] for row in shown["part"] if row["class_id"] == part_class}
        parts = [one for one in parts_of(rows, table.sources, interfaces).values() if one.id in own] if own else []
        attributes, ports = table.own_attributes(part_class), table.ports_of(part_class)
        lines = [["id", "title", *(PORT + port for port in ports), *map(_heading, attributes.values()), "source"]]
        for part in parts:
            offered = [part.ports[port].id if port in part.ports else "" for port in ports]
            cells = _reading_cells(part.readings, attributes.values(), table, fits, part.source)
            lines.append([part.id, part.title, *offered, *cells, part.source.id])
        if parts:
            files[f"parts/{part_class}.csv"] = lines
    return files


def _heading(attribute: Attribute) -> str:
    return f"{attribute.name} [{attribute.unit}]" if attribute.unit else attribute.name


def _reading_cells(
    readings: Mapping[str, Reading],
    attributes: Iterable[Attribute],
    table: AttributeTable,
    fits: Fits,
    source: Source,
) -> list[str]:
    return [
        reading_cell(readings[one.name], one, table, fits, source) if one.name in readings else "" for one in attributes
    ]


def reading_cell(reading: Reading, attribute: Attribute, table: AttributeTable, fits: Fits, source: Source) -> str:
    """A cell that reads as `reading` in a row whose source is `source`."""
    cell = ""
    for cell in _spellings(reading, source):
        again, _ = read(cell, attribute, table, fits, source)
        if again is not None and _same(again, reading):
            return cell
    return cell


def _same(one: Reading, other: Reading) -> bool:
    """Whether both say the same of the same source; the kind of source of what is assumed is always `default`."""
    if one.source.id != other.source.id:
        return False
    return replace(one, entered="", source=other.source) == replace(other, entered="")


def _spellings(reading: Reading, source: Source) -> Iterable[str]:
    """As entered; as entered with the source named; at last written out in full."""
    named = f" @{reading.source.id}" if reading.source.id != source.id else ""
    if reading.entered:
        yield reading.entered
        if named and "@" not in reading.entered:
            yield reading.entered + named
    yield _written_out(reading) + named


def _written_out(reading: Reading) -> str:
    if isinstance(reading, Word):
        return "unknown" if reading.value_assumed else "|".join(sorted(reading.possible))
    if isinstance(reading, Count):
        return "unknown" if reading.value_assumed else "|".join(str(value) for value in reading.values)
    if isinstance(reading, Outline):
        rings = "".join(f"ring: {' '.join(f'{x!r},{y!r}' for x, y in ring)}; " for ring in reading.rings)
        holes = " ".join(",".join(repr(value) for value in hole) for hole in reading.holes)
        return f"{rings}{f'holes: {holes}; ' if holes else ''}".removesuffix("; ") + f" +-{reading.spread!r}"
    return _span(reading)


def _span(reading: Number | Designation) -> str:
    minus, plus = reading.nominal - reading.low, reading.high - reading.nominal
    return f"{_text(reading.nominal)} -{_text(minus)}/+{_text(plus)} {reading.unit}".strip()

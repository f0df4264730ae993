"""Reading the files of a seed directory: CSV, UTF-8, comma separated, the first row is the heading.

Nothing here raises: every fault goes to the list that the caller hands in, with file, row and column.
"""

from __future__ import annotations

import csv
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fitdb.catalogue.seed_cells import SOURCE, Field, Sheet
from fitdb.catalogue.tables import LENGTHS
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.problems import Problem

INVISIBLE = ("Cc", "Cf", "Cs", "Zl", "Zp")  # Unicode categories: control, format, surrogate, line and paragraph ends
Key = tuple[str, ...]  # the cells that no two rows of a table share, as they are written


@dataclass(frozen=True, slots=True)
class Record:
    """One row of a file: its number (the heading is row 1) and its cells by heading, stripped."""

    file: str
    number: int
    cells: dict[str, str]


@dataclass(frozen=True, slots=True)
class Placed:
    """A row of a table, and the place in the files that it was read from."""

    file: str
    number: int
    row: dict[str, Any]


def read_file(directory: Path, file: str, faults: list[Problem]) -> tuple[tuple[str, ...], list[Record]]:
    """Headings and rows of one CSV file; empty rows are left out. Faults of form are added to `faults`."""
    try:
        with open(directory / file, encoding="utf-8-sig", newline="") as opened:
            table = list(csv.reader(opened, strict=True))
    except (OSError, UnicodeDecodeError, csv.Error) as fault:
        faults.append(Problem("unreadable_file", f"This is not a CSV file in UTF-8: {fault}.", file=file))
        return (), []
    headings = tuple(cell.strip() for cell in table[0]) if table else ()
    if not any(headings):
        faults.append(Problem("missing_heading", "The first row must be the heading; it is empty.", file=file, row=1))
        return (), []
    repeated = sorted({heading for heading in headings if headings.count(heading) > 1})
    for heading in repeated:
        faults.append(Problem("repeated_heading", "This heading stands there twice.", file=file, row=1, column=heading))
    if repeated:
        return (), []
    records = []
    for number, cells in enumerate(table[1:], start=2):
        stripped = [cell.strip() for cell in cells]
        if not any(stripped):
            continue
        if len(stripped) > len(headings):
            message = f"This row has {len(stripped)} cells under {len(headings)} headings."
            hint = "Put cells that hold a comma in double quotes."
            faults.append(Problem("too_many_cells", message, file=file, row=number, hint=hint))
            continue
        stripped += [""] * (len(headings) - len(stripped))
        records.append(Record(file, number, dict(zip(headings, stripped, strict=True))))
    return headings, records


def read_sheet(directory: Path, sheet: Sheet, faults: list[Problem], named: set[Key]) -> list[Placed]:
    """All rows of one table from its files. A row with a fault is left out; its key still goes to `named`."""
    key_headings = [field.heading for column in sheet.key for field in sheet.fields if field.column == column]
    files = [
        file.relative_to(directory).as_posix() for pattern in sheet.files for file in sorted(directory.glob(pattern))
    ]
    rows = []
    for file in files:
        headings, records = read_file(directory, file, faults)
        if not headings:
            continue
        known = [field.heading for field in sheet.fields]
        for heading in headings:
            if heading not in known:
                faults.append(unknown_heading(file, heading, known))
        missing = [field for field in sheet.fields if field.heading not in headings and not field.may_be_missing]
        for field in missing:
            faults.append(missing_column(file, field.heading))
        for record in records:
            named.add(tuple(record.cells.get(heading, "") for heading in key_headings))
            row = None if missing else _row_of(sheet, record, faults)
            if row is not None:
                rows.append(Placed(file, record.number, row))
    if not files and not sheet.may_be_missing:
        hint = "Write it, if only its heading."
        faults.append(Problem("missing_file", "This file is missing.", file=sheet.files[0], hint=hint))
    return rows


def _row_of(sheet: Sheet, record: Record, faults: list[Problem]) -> dict[str, Any] | None:
    row: dict[str, Any] = {}
    found: list[Problem] = []
    for field in sheet.fields:
        value = read_cell(sheet, field, record)
        if isinstance(value, Problem):
            found.append(value)
        else:
            row[field.column] = value
    faults += found
    return None if found else row


def read_cell(sheet: Sheet, field: Field, record: Record) -> Any | Problem:
    """The value of one cell, or what is wrong with it as far as the cell alone tells."""
    cell = record.cells.get(field.heading, "")
    if field is SOURCE and not cell:
        return no_source(record)
    unfit = unfit_text(cell, LENGTHS[sheet.table].get(field.column))
    if unfit:
        return record_fault("bad_cell", unfit, record, field.heading)
    try:
        return field.parse(cell)
    except ValueError as wanted:
        return record_fault("bad_cell", f"`{shortened(cell)}` cannot be used here: {wanted}", record, field.heading)


def unfit_text(cell: str, longest: int | None) -> str:
    """Why a text cannot be stored; nothing when it can."""
    if longest is not None and len(cell) > longest:
        return f"At most {longest} characters fit here; there are {len(cell)}."
    if not cell.isprintable() and any(unicodedata.category(character) in INVISIBLE for character in cell):
        return "A line break or another character that cannot be printed stands here."
    return ""


# --- faults that several files share -----------------------------------------------------------------------


def record_fault(code: str, message: str, place: Record | Placed, column: str = "", hint: str = "") -> Problem:
    return Problem(code, message, file=place.file, row=place.number, column=column, hint=hint)


def unknown_heading(file: str, heading: str, known: list[str]) -> Problem:
    hint = did_you_mean(heading, known) or f"Known here: {', '.join(known)}."
    shown = shortened(heading)
    return Problem("unknown_heading", f"No column is called `{shown}`.", file=file, row=1, column=shown, hint=hint)


def missing_column(file: str, heading: str) -> Problem:
    return Problem("missing_column", f"The column `{heading}` is missing.", file=file, row=1, column=heading)


def no_source(place: Record | Placed) -> Problem:
    hint = "Name the id of a source in sources.csv: a number without a source cannot be stored."
    return record_fault("no_source", "This row cites no source.", place, "source", hint)


def unknown_id(place: Record | Placed, column: str, what: str, named: str, known: Iterable[str]) -> Problem:
    """`named` is no known `what` ("source", "part class", ...)."""
    message = f"No {what} is called `{shortened(named)}`."
    return record_fault("unknown_id", message, place, column, did_you_mean(named, known))

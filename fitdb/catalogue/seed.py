"""The shipped tables: read from a directory of CSV files and checked as a whole, or refused with every fault.

`python -m fitdb.catalogue.seed [directory]` prints the faults, one a line, and ends with 1 if there is any.
"""

from __future__ import annotations

import contextlib
import hashlib
import sys
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fitdb.catalogue import seed_checks
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.rows import (
    Row,
    attribute_table_of,
    fits_of,
    interface_rows,
    interfaces_of,
    limits_of,
    part_rows,
    parts_of,
    patterns_of,
    remedies_of,
    stock_of,
)
from fitdb.catalogue.seed_cells import Sheet, number
from fitdb.catalogue.seed_files import Key, Placed, read_sheet
from fitdb.catalogue.seed_parts import Vocabulary, read_interfaces, read_parts
from fitdb.catalogue.seed_sheets import SHEETS
from fitdb.catalogue.tables import metadata
from fitdb.catalogue.work_checks import work_faults
from fitdb.catalogue.work_rows import WORK_TABLES, work_of
from fitdb.intake.readings import Fits
from fitdb.model.interface import Interface
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern
from fitdb.model.problems import Malformed, Problem
from fitdb.model.remedy import Remedy
from fitdb.model.source import Source
from fitdb.model.work import Work

# Raised when the same files come to mean other rows, so that catalogues load them again.
FORMAT = "1"


@dataclass(frozen=True, slots=True)
class SeedBook:
    """All that a directory of tables says, as model values and as rows by table name (without their origin).

    `digest` changes whenever a file does.
    """

    table: AttributeTable
    fits: Fits
    interfaces: Mapping[str, Interface]
    parts: Mapping[str, Part]
    patterns: Mapping[str, Pattern]
    remedies: tuple[Remedy, ...]
    stock: Mapping[tuple[str, str], tuple[float, ...]]
    limits: Mapping[str, float]
    work: Work
    rows: Mapping[str, Sequence[Row]]
    digest: str


def load_seed(directory: Path = SEED) -> SeedBook:
    """The tables of `directory`; Malformed, with every fault by file, row and column, if there is any."""
    book, faults = read_directory(directory)
    if book is None:
        raise Malformed(faults)
    return book


def check_seed(directory: Path = SEED) -> tuple[Problem, ...]:
    """Every fault of the tables in `directory`, by file, row and column; none if they can be loaded."""
    return read_directory(directory)[1]


def digest_of(directory: Path = SEED) -> str:
    """A digest of all tables under `directory`; quick enough to be asked at every start."""
    said = hashlib.sha256(FORMAT.encode())
    for file in sorted(directory.rglob("*.csv")):
        content = file.read_bytes()
        said.update(f"{file.relative_to(directory).as_posix()} {len(content)} ".encode())
        said.update(content)
    return said.hexdigest()[:40]


def read_directory(
    directory: Path, catalogue: Mapping[str, Sequence[Row]] | None = None
) -> tuple[SeedBook | None, tuple[Problem, ...]]:
    """The tables of `directory`, or every fault.

    With `catalogue`, the rows that stand in a catalogue already: the directory adds to them, may name what they hold,
    may leave out whole files, and may not repeat an id. The book then holds both; its `rows` are the new ones alone.
    """
    if not directory.is_dir():
        return None, (Problem("missing_directory", "There is no such directory of tables.", file=str(directory)),)
    draft = _Draft(catalogue)
    for sheet in SHEETS:
        draft.add_sheet(directory, sheet)
    table, fits = draft.check()
    vocabulary = Vocabulary(table, fits, draft.named["attribute"] | draft.named["class_port"])
    old = {name: list(rows) for name, rows in draft.catalogue.items()}
    old_interfaces = interfaces_of(old, table.sources)
    old_parts = parts_of(old, table.sources, old_interfaces)
    interfaces, named = read_interfaces(directory, vocabulary, old_interfaces, draft.faults)
    offered = old_interfaces | {own: interface for own, (interface, _) in interfaces.items()}
    parts = read_parts(directory, vocabulary, offered, named, old_parts, draft.faults)
    if draft.faults:
        return None, tuple(sorted(draft.faults, key=lambda one: (one.file, one.row or 0, one.column)))
    for interface, source in interfaces.values():
        draft.add(interface_rows(interface, source.id))
        draft.add_sources(reading.source for reading in interface.readings.values())
    for part in parts.values():
        draft.add(part_rows(part))
        draft.add_sources(reading.source for reading in part.readings.values())
    return draft.book(digest_of(directory)), ()


class _Draft:
    """Tables while they are read: what is sound so far, what is named though at fault, and the faults."""

    def __init__(self, catalogue: Mapping[str, Sequence[Row]] | None) -> None:
        self.adds_to_catalogue = catalogue is not None
        self.catalogue = {name: list((catalogue or {}).get(name, ())) for name in metadata.tables}
        self.faults: list[Problem] = []
        self.placed: dict[str, list[Placed]] = {}
        self.rows: defaultdict[str, list[dict[str, Any]]] = defaultdict(list)
        self.named: dict[str, set[Key]] = {
            sheet.table: {self._key(sheet, row) for row in self.catalogue[sheet.table]} for sheet in SHEETS
        }

    @staticmethod
    def _key(sheet: Sheet, row: Row) -> tuple[Any, ...]:
        return tuple(row[column] for column in sheet.key)

    def add_sheet(self, directory: Path, sheet: Sheet) -> None:
        """Reads the files of one table and drops rows that repeat a key."""
        if self.adds_to_catalogue and not any(any(directory.glob(pattern)) for pattern in sheet.files):
            self.placed[sheet.table] = []
            return
        in_catalogue = set(self.named[sheet.table])
        placed = read_sheet(directory, sheet, self.faults, self.named[sheet.table])
        if sheet.table == "source":  # a source that says the same is the same; everybody's calipers are `own-caliper`
            same = [{key: row[key] for key in ("id", "kind", "title", "standing")} for row in self.catalogue["source"]]
            placed = [item for item in placed if item.row not in same]
        self.faults += seed_checks.repeated(sheet, placed, in_catalogue)
        self.placed[sheet.table] = list({self._key(sheet, item.row): item for item in placed}.values())

    def check(self) -> tuple[AttributeTable, Fits]:
        """Looks at everything between tables; returns what parts are understood by, faulty rows left out."""
        for sheet in SHEETS:
            sound = []
            for item in self.placed[sheet.table]:
                found = list(seed_checks.unknown_references(item, sheet.fields, self.named))
                if sheet.table == "attribute":
                    found += seed_checks.owners(item, self.named)
                self.faults += found
                if not found:
                    sound.append(item)
            self.placed[sheet.table] = sound
            self._take(sheet, sound)
        merged = self._merged()
        self._stand_in(merged)
        table, fits = attribute_table_of(merged), fits_of(merged)
        families = {row["family"] for row in merged["spread"]}
        for item in self.placed["attribute"]:
            self.faults += seed_checks.attributes(item, fits, families)
        self.faults += seed_checks.classes_like_themselves(self.placed["part_class"], table)
        for item in self.placed["fit"]:
            self.faults += seed_checks.bands(item)
        boards = seed_checks.Boards(merged["seat"], merged["pattern"], table)
        per = {(row["pattern_id"], row["id"]): row["per"] for row in merged["line"]}
        roles: defaultdict[tuple[str, str], list[Row]] = defaultdict(list)
        for row in merged["line_role"]:
            roles[row["pattern_id"], row["line_id"]].append(row)
        for item in self.placed["line"]:
            self.faults += boards.lines(item, roles[item.row["pattern_id"], item.row["id"]])
        for item in self.placed["line_role"]:
            self.faults += boards.roles(item, per)
        for item in self.placed["remedy"]:
            self.faults += boards.remedies(item)
        for item in self.placed["stock"]:
            self.faults += seed_checks.stock(item, table)
        placed = {name: self.placed[name] for name in WORK_TABLES}
        steps = {own for (own,) in self.named["work_step"]}
        self.faults += work_faults(placed, work_of(merged), steps, boards.rows, table)
        return table, fits

    def _take(self, sheet: Sheet, sound: Sequence[Placed]) -> None:
        """Turns what stands in a file into the rows of its table."""
        position = len(self.catalogue[sheet.table])
        for item in sound:
            row = item.row
            if sheet.ordered:
                position += 1
                row["position"] = position
            if sheet.table == "attribute":
                self._complete_attribute(row)
            if sheet.table in ("seat", "line"):
                self._add_pattern(row["pattern_id"], row["source_id"])
            if sheet.table == "stock":
                self.rows["stock"] += [row | {"size": size} for size in row["size"]]
            else:
                self.rows[sheet.table].append(row)

    def _complete_attribute(self, row: dict[str, Any]) -> None:
        row["class_id"] = row["owner"] if (row["owner"],) in self.named["part_class"] else None
        row["kind_id"] = row["owner"] if row["class_id"] is None else None
        default = row.pop("default")
        row["default_number"] = row["default_text"] = None
        if default and row["reading"] not in ("word", "outline"):
            with contextlib.suppress(ValueError):  # what is no number stays text, which the checks refuse
                row["default_number"] = number(default)
        if row["default_number"] is None:
            row["default_text"] = default or None

    def _add_pattern(self, pattern: str, source_id: str) -> None:
        """A pattern that is known by its seats or lines alone, from the source of the first."""
        if all(row["id"] != pattern for row in (*self.catalogue["pattern"], *self.rows["pattern"])):
            position = len(self.catalogue["pattern"]) + len(self.rows["pattern"]) + 1
            title = pattern.replace("_", " ").replace("-", " ")
            drawn: dict[str, Any] = {"lines_of": "", "groups": "", "source_id": source_id}
            self.rows["pattern"].append({"id": pattern, "title": title, "position": position, **drawn})

    def _merged(self) -> dict[str, list[Row]]:
        return {name: [*self.catalogue[name], *self.rows[name]] for name in metadata.tables}

    def _stand_in(self, merged: dict[str, list[Row]]) -> None:
        """Puts blanks where a row is at fault, so that one fault is not told again by everybody who refers to it."""
        sources = {row["id"] for row in merged["source"]}
        for (own,) in sorted(self.named["source"]):
            if own not in sources:
                merged["source"].append({"id": own, "kind": "guess", "title": own, "standing": ""})
        some_source = next((row["id"] for row in merged["source"]), "")
        if not some_source:
            merged["source"].append({"id": "", "kind": "guess", "title": "", "standing": ""})
        blank = {"title": "", "like_ids": "", "another_plan": False, "source_id": some_source, "position": 0}
        for name in ("part_class", "interface_kind"):
            present = {row["id"] for row in merged[name]}
            merged[name] += [blank | {"id": own} for (own,) in sorted(self.named[name]) if own not in present]

    def add(self, rows: Mapping[str, Sequence[dict[str, Any]]]) -> None:
        for name, some in rows.items():
            self.rows[name] += some

    def add_sources(self, sources: Iterable[Source]) -> None:
        """Sources that readings name for themselves (`9.0 @caliper`) and no file lists."""
        for source in sources:
            if (source.id,) not in self.named["source"]:
                self.named["source"].add((source.id,))
                row = {"id": source.id, "kind": source.kind, "title": source.title, "standing": source.standing}
                self.rows["source"].append(row)

    def book(self, digest: str) -> SeedBook:
        merged = self._merged()
        table = attribute_table_of(merged)
        interfaces = interfaces_of(merged, table.sources)
        return SeedBook(
            table=table,
            fits=fits_of(merged),
            interfaces=interfaces,
            parts=parts_of(merged, table.sources, interfaces),
            patterns=patterns_of(merged),
            remedies=remedies_of(merged["remedy"]),
            stock=stock_of(merged["stock"]),
            limits=limits_of(merged["limit_override"]),
            work=work_of(merged),
            rows=dict(self.rows),
            digest=digest,
        )


def main(arguments: Sequence[str]) -> int:
    """Prints every fault of the tables in the directory named (else the shipped ones); 1 if there is any."""
    directory = Path(arguments[0]) if arguments else SEED
    faults = check_seed(directory)
    for fault in faults:
        print(fault)
    print(f"{len(faults)} faults in {directory}." if faults else f"The tables in {directory} are sound.")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

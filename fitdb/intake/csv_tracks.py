"""Tracks from a table: distance, or latitude and longitude, in every row; height, speed or time where it is known.

distance [m],elevation [m],speed [km/h]
0,112.4,0
25,112.6,14

Units stand in brackets in the heading, as in the tables of parts. Cells are parted by comma, semicolon or tab; where
it is not the comma, a comma may be the decimal sign. Lines that begin with # are remarks.
"""

from __future__ import annotations

import csv
import io
import re
from codecs import getincrementaldecoder
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fitdb.formulas.tracks import earth_point
from fitdb.intake.nearest import did_you_mean, plain, shortened
from fitdb.intake.track_drafts import HIGHEST_M, LOWEST_M, MOST_POINTS, Draft, Faults, Fix, Stop
from fitdb.intake.track_finish import FASTEST_KMH, finished
from fitdb.intake.units import factor, label
from fitdb.model.problems import Problem
from fitdb.model.track import Track

SEPARATORS = (",", ";", "\t")
MOST_LETTERS = 10_000
HEADING = re.compile(r"([^\[\]]*)(?:\[([^\[\]]*)\])?\s*")
NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?", re.ASCII)
NAMES = {
    "distance": ("distance", "way"),
    "elevation": ("elevation", "altitude", "height", "ele"),
    "speed": ("speed",),
    "time": ("time", "seconds"),
    "lat": ("lat", "latitude"),
    "lon": ("lon", "longitude", "lng"),
    "source": ("source",),
}
BY_NAME = {name: quantity for quantity, names in NAMES.items() for name in names}
UNITS = {"distance": "m", "elevation": "m", "speed": "km/h", "time": "s", "lat": "deg", "lon": "deg"}
RANGES = {
    "distance": (-1e12, 1e12),
    "elevation": (LOWEST_M, HIGHEST_M),
    "speed": (0.0, FASTEST_KMH),
    "time": (-1e12, 1e12),
    "lat": (-90.0, 90.0),
    "lon": (-180.0, 180.0),
}
WORDS = {
    "distance": "distance",
    "elevation": "height",
    "speed": "speed",
    "time": "time",
    "lat": "latitude",
    "lon": "longitude",
}
MOST_SOURCES = 3
EXAMPLE = "`distance [m],elevation [m],speed [km/h]`"
QUOTED = re.compile(r'"[^"]*"')


@dataclass(frozen=True, slots=True)
class _Column:
    """A column that is read: where it stands, its heading, and what a cell is multiplied with."""

    place: int
    heading: str
    quantity: str
    worth: float


def read_csv(
    chunks: Iterable[bytes], *, file_name: str, title: str, encoding: str | None, faults: Faults
) -> Track | None:
    """The track in a table that comes in pieces; None where `faults` says why, by row (line of the file) and column.

    `encoding` is UTF-8 if it is None. Raises Stop where nothing can be told of the rest.
    """
    return _Table(faults, encoding or "utf-8").read(chunks, file_name, title)


class _Table:
    """One table while it is read; `row` is the line of the file that was read last."""

    def __init__(self, faults: Faults, encoding: str) -> None:
        self.faults = faults
        self.encoding = encoding
        self.row = 0
        self.separator = ","
        self.headings: list[str] = []
        self.columns: dict[str, _Column] = {}
        self.source_place: int | None = None
        self.sources: dict[str, None] = {}
        self.notes: list[str] = []
        self.first_way: float | None = None
        self.last_way: float | None = None

    def read(self, chunks: Iterable[bytes], file_name: str, title: str) -> Track | None:
        lines = self._lines(chunks)
        heading = next((line for line in lines if line.strip()), "")
        if not self._read_heading(heading):
            return None
        draft = Draft(self.faults, recorded="distance" not in self.columns)
        for cells in self._rows(lines):
            if draft.points >= MOST_POINTS:
                what = f"The file holds more than {MOST_POINTS:,} rows: reading them all would take too long."
                hint = "Keep one row for each 5 m, which is all that is used, or split it into its rides."
                raise Stop(self.faults.problem("too_many_points", what, self.row, hint=hint))
            fix = self._fix(cells)
            if fix is not None and not self.faults.found:
                draft.add(fix)
        if self.faults.found:
            return None
        if self.first_way:
            self.notes.append(f"The first row stands at {self.first_way:g} m: the way is counted from there.")
        if self.sources:
            self.notes.append(f"The file names as its source: {', '.join(self.sources)}.")
        source = f"{file_name}: table" if file_name else "table"
        return finished(draft, title=title, source=source, notes=self.notes, faults=self.faults)

    def _lines(self, chunks: Iterable[bytes]) -> Iterator[str]:
        """Lines without their ends. Remarks come as empty lines, so that rows are counted as an editor counts them."""
        decoder = io.IncrementalNewlineDecoder(getincrementaldecoder(self.encoding)(), translate=True)
        rest = ""
        try:
            for chunk in chunks:
                rest += decoder.decode(chunk)
                *whole, rest = rest.split("\n")
                for line in whole:
                    yield self._line(line)
                if len(rest) > MOST_LETTERS:
                    break
            else:
                rest += decoder.decode(b"", final=True)
        except UnicodeDecodeError as error:
            what = "Behind this row the file is not written in UTF-8."
            hint = "Save it as CSV in UTF-8; spreadsheets ask for that when they save."
            raise Stop(self.faults.problem("not_utf_8", what, self.row, hint=hint)) from error
        if rest:
            yield self._line(rest)

    def _line(self, line: str) -> str:
        self.row += 1
        if len(line) > MOST_LETTERS:
            what = f"This line is longer than {MOST_LETTERS:,} letters."
            hint = "A table has one row in each line; look whether this file is a table at all."
            raise Stop(self.faults.problem("line_too_long", what, self.row, hint=hint))
        return "" if line.lstrip().startswith("#") else line

    def _rows(self, lines: Iterable[str]) -> Iterator[list[str]]:
        reader = csv.reader(lines, delimiter=self.separator, strict=True)
        while True:
            try:
                cells = next(reader)
            except StopIteration:
                return
            except csv.Error as error:
                hint = 'Look for a double quote (") that is not closed.'
                self.faults.add("not_csv", f"This row cannot be taken apart: {error}.", self.row, hint=hint)
                continue
            if len(cells) > len(self.headings) and any(cell.strip() for cell in cells[len(self.headings) :]):
                what = f"This row has {len(cells)} cells under {len(self.headings)} headings."
                hint = "Where a comma is the decimal sign, part the cells by semicolons."
                self.faults.add("too_many_cells", what, self.row, hint=hint)
            elif any(cell.strip() for cell in cells):
                yield cells

    def _read_heading(self, heading: str) -> bool:
        """Notes the columns that are read; False if no row can be read with this heading."""
        if not heading.strip():
            what = "The file holds nothing."
            raise Stop(self.faults.problem("empty", what, hint=f"It starts with a heading: {EXAMPLE}."))
        bare = QUOTED.sub("", heading)
        self.separator = max(SEPARATORS, key=bare.count)
        try:
            self.headings = [
                cell.strip() for cell in next(csv.reader([heading], delimiter=self.separator, strict=True))
            ]
        except csv.Error as error:
            self.faults.add("not_csv", f"The heading cannot be taken apart: {error}.", self.row, hint=EXAMPLE)
            return False
        for place, typed in enumerate(self.headings):
            self._read_column(place, typed)
        if not self.faults.found and "distance" not in self.columns and not {"lat", "lon"} <= self.columns.keys():
            what = "No column tells where a point lies."
            known = did_you_mean(self.headings[0], BY_NAME)
            hint = f"Wanted is `distance [m]`, or `lat [deg]` and `lon [deg]`: {EXAMPLE}. {known}".rstrip()
            self.faults.add("missing_heading", what, self.row, hint=hint)
        if self.faults.found:
            return False
        if "distance" in self.columns and {"lat", "lon"} & self.columns.keys():
            self.notes.append("Both distances and positions are in the file: the distances are used.")
        if {"speed", "time"} <= self.columns.keys():
            self.notes.append("Both speeds and times are in the file: where speeds are complete, they are used.")
        return True

    def _read_column(self, place: int, typed: str) -> None:
        match = HEADING.fullmatch(typed)
        name = plain(match[1]) if match else plain(typed)
        quantity = BY_NAME.get(name)
        shown = shortened(typed)
        if quantity is None:
            if typed:
                near = did_you_mean(name, BY_NAME)
                self.notes.append(f"The column `{shown}` is not used. {near}".rstrip())
            return
        if quantity == "source":
            self.source_place = place
            return
        unit = match[2] if match else None
        if quantity in self.columns:
            what = f"`{self.columns[quantity].heading}` and `{shown}` both tell the {WORDS[quantity]}."
            self.faults.add("repeated_heading", what, self.row, shown, "Keep one of the two.")
        elif not unit or not unit.strip():
            what = f"The heading `{shown}` has no unit."
            self.faults.add("missing_unit", what, self.row, shown, f"Write it like `{name} [{UNITS[quantity]}]`.")
        else:
            worth = factor(unit.strip(), UNITS[quantity])
            if isinstance(worth, Problem):
                self.faults.add(worth.code, worth.message, self.row, shown, worth.hint)
            else:
                self.columns[quantity] = _Column(place, shown, quantity, worth)

    def _fix(self, cells: list[str]) -> Fix | None:
        """The point in a row, or None where it has a fault."""
        before = self.faults.count
        values = {quantity: self._value(cells, column) for quantity, column in self.columns.items()}
        if self.source_place is not None and self.source_place < len(cells) and len(self.sources) < MOST_SOURCES:
            named = shortened(cells[self.source_place].strip())
            self.sources.update({named: None} if named else {})
        if self.faults.count > before:
            return None
        way = values.get("distance")
        if way is not None:
            if self.last_way is not None and way < self.last_way:
                what = f"The distance goes back, from {self.last_way:g} m to {way:g} m."
                hint = "It is the way since the start and never falls; put the rows in order."
                self.faults.add("goes_back", what, self.row, self.columns["distance"].heading, hint)
                return None
            self.first_way = way if self.first_way is None else self.first_way
            self.last_way = way
        latitude, longitude = values.get("lat"), values.get("lon")
        at = None
        if way is None and latitude is not None and longitude is not None:
            at = earth_point(latitude, longitude)
        return Fix(at, way or 0.0, values.get("elevation"), values.get("time"), values.get("speed"))

    def _value(self, cells: list[str], column: _Column) -> float | None:
        typed = cells[column.place].strip() if column.place < len(cells) else ""
        needed = column.quantity == "distance" or (column.quantity in ("lat", "lon") and "distance" not in self.columns)
        if not typed:
            if needed:
                what = f"The {WORDS[column.quantity]} is missing."
                self.faults.add("missing_value", what, self.row, column.heading, "Write it, or delete the row.")
            return None
        number = typed.replace(",", ".", 1) if self.separator != "," else typed
        if not NUMBER.fullmatch(number):
            hint = "Write digits alone, without a unit and without a sign between thousands."
            if "," in typed and self.separator == ",":
                hint = "Where a comma is the decimal sign, part the cells by semicolons."
            what = f"`{shortened(typed)}` is not a number."
            self.faults.add("not_a_number", what, self.row, column.heading, hint)
            return None
        value = float(number) * column.worth
        least, most = RANGES[column.quantity]
        if not least <= value <= most:
            unit = label(UNITS[column.quantity])
            what = f"{value:g} {unit} is no {WORDS[column.quantity]} of a ride: {least:g} to {most:g} {unit} are."
            hint = "Look at the number and at the unit in the heading; leave the cell empty if it is unknown."
            self.faults.add("impossible_value", what, self.row, column.heading, hint)
            return None
        return value

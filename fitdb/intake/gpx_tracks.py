"""Tracks from GPX 1.0 and 1.1, an open standard (topografix.com/gpx.asp), read as a stream.

The parser is expat, the one under xml.etree: it tells row and column, builds no tree, and is stopped at the first sign
of a document type, before any entity is known. Only the elements of the standard are read; extensions are passed over.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import UTC, datetime
from xml.parsers import expat

from fitdb.formulas.ride import KMH_PER_M_S
from fitdb.formulas.tracks import earth_point
from fitdb.intake.nearest import shortened
from fitdb.intake.track_drafts import HIGHEST_M, LOWEST_M, MOST_POINTS, Draft, Faults, Fix, Stop
from fitdb.intake.track_finish import finished
from fitdb.model.problems import Problem
from fitdb.model.track import Track

GPX_1_1 = "http://www.topografix.com/GPX/1/1"
NAMESPACES = {
    "": "GPX",
    "http://www.topografix.com/GPX/1/0": "GPX 1.0",
    GPX_1_1: "GPX 1.1",
}
POINTS = {"trkpt": "track", "rtept": "route", "wpt": "places"}
PARTS = {"trkseg": "track", "rte": "route"}
FIELDS = ("ele", "time", "speed", "name")
NAMED = ("trk", "rte", "metadata", "gpx")
DEEPEST = 64
MOST_ELEMENTS = 20_000_000
MOST_TOKEN_BYTES = 1_000_000
MOST_LETTERS = 200
NUMBER = re.compile(r"\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?\s*", re.ASCII)
MOST_TITLE = 80
TOO_MANY = f"The file holds more than {MOST_POINTS:,} points: reading them all would take too long."
FEWER = "Export it with fewer points (one each 5 m is all that is used), or split it into its rides."
WAYS = {"track": "track points", "route": "route points", "places": "places"}
PARENTS = {"track": "trk", "route": "rte", "places": "gpx"}
UNTOLD = {
    "track": "",
    "route": "The file has no track: the points of its route are joined by straight lines, though the road bends.",
    "places": "The file has neither track nor route: its places are joined by straight lines in the order of the file.",
}


def read_gpx(
    chunks: Iterable[bytes], *, file_name: str, title: str, encoding: str | None, faults: Faults
) -> Track | None:
    """The track in a GPX document that comes in pieces; None where `faults` says why.

    Tracks come before routes, routes before places. `title` stands where the document has no name of its own;
    `encoding` overrules what the document says of itself. Raises Stop where nothing can be told of the rest.
    """
    parser = expat.ParserCreate(encoding, "}")
    reader = _GpxReader(parser, faults)
    parser.buffer_text = True
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.text
    parser.StartDoctypeDeclHandler = reader.doctype
    fed = 0
    try:
        for chunk in chunks:
            parser.Parse(chunk, False)
            fed += len(chunk)
            if fed - max(0, parser.CurrentByteIndex) > MOST_TOKEN_BYTES + len(chunk):
                what = f"From here on a single piece of the file is longer than {MOST_TOKEN_BYTES // 1_000_000} MB."
                raise Stop(
                    reader.fault_here("too_large", what, "A point needs a few hundred letters: export it again.")
                )
        parser.Parse(b"", True)
    except (expat.ExpatError, ValueError, LookupError) as error:
        raise Stop(_not_xml(error, reader)) from error
    way = next((one for one in POINTS.values() if reader.drafts[one].points), "track")
    if faults.found:
        return None
    kind = f"{NAMESPACES[reader.namespace]}, {WAYS[way]}"
    return finished(
        reader.drafts[way],
        title=reader.titles.get(PARENTS[way]) or reader.titles.get("metadata") or reader.titles.get("gpx") or title,
        source=f"{file_name}: {kind}" if file_name else kind,
        notes=[UNTOLD[way]] if UNTOLD[way] else [],
        faults=faults,
    )


def _not_xml(error: Exception, reader: _GpxReader) -> Problem:
    if isinstance(error, expat.ExpatError):
        said, row, column = expat.ErrorString(error.code), error.lineno, error.offset + 1
        what = f"The file is not XML from here on: {said}."
        hint = "It may be cut off or damaged; nothing after this place was read. Export it again."
        return reader.faults.problem("not_xml", what, row, str(column), hint)
    what = "The file names an encoding that is not known here."
    return reader.faults.problem("unknown_encoding", what, 1, hint="Save it in UTF-8.")


class _GpxReader:
    """What the parser calls: it keeps the path of open elements and the fields of one point, nothing else."""

    def __init__(self, parser: expat.XMLParserType, faults: Faults) -> None:
        self.parser = parser
        self.faults = faults
        self.drafts = {"track": Draft(faults), "route": Draft(faults, False), "places": Draft(faults, False)}
        self.titles: dict[str, str] = {}
        self.namespace = ""
        self.names: dict[str, str] = {}
        self.open: list[str] = []
        self.elements = self.points = 0
        self.at: tuple[float, float] | None = None
        self.row: int = 0
        self.fields: dict[str, str] = {}
        self.field = ""

    def doctype(self, *_: object) -> None:
        what = "The file declares a document type, which may hide a bomb of entities; GPX has none."
        raise Stop(self.fault_here("doctype_refused", what, "Take the line with <!DOCTYPE out."))

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self.elements += 1
        if not self.open:
            self._root(name)
            self.open.append("gpx")
            return
        if len(self.open) >= DEEPEST or self.elements > MOST_ELEMENTS:
            deep = len(self.open) >= DEEPEST
            what = (
                f"elements lie more than {DEEPEST} deep" if deep else f"it holds more than {MOST_ELEMENTS:,} elements"
            )
            hint = "Export it without extensions."
            raise Stop(self.fault_here("too_deep" if deep else "too_large", f"The file is no GPX: {what}.", hint))
        short = self.names.get(name, "")
        parent = self.open[-1]
        self.open.append(short)
        if short in POINTS and parent in ("trkseg", "rte", "gpx"):
            self._begin_point(attributes)
        elif short in PARTS:
            self.drafts[PARTS[short]].break_here()
        elif short in FIELDS and (parent in POINTS or (short == "name" and parent in NAMED)):
            self.field = short
            self.fields[short] = ""

    def text(self, text: str) -> None:
        if self.field and len(self.fields[self.field]) < MOST_LETTERS:
            self.fields[self.field] += text[:MOST_LETTERS]

    def end(self, _: str) -> None:
        short = self.open.pop()
        self.field = ""
        if short in POINTS and self.at is not None:
            self._end_point(short, self.at)
            self.at = None
        elif short == "name" and self.open[-1] in NAMED:
            self.titles.setdefault(self.open[-1], shortened(" ".join(self.fields.pop("name").split()), MOST_TITLE))

    def fault_here(self, code: str, message: str, hint: str) -> Problem:
        """A fault at the place that the parser has come to."""
        row, column = self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1
        return self.faults.problem(code, message, row, str(column), hint)

    def _root(self, name: str) -> None:
        namespace, _, own = name.rpartition("}")
        if own != "gpx":
            what = f"The file is XML, but `{shortened(own)}` and not GPX."
            raise Stop(self.fault_here("not_gpx", what, "Export the ride as GPX, or as a CSV table."))
        if namespace not in NAMESPACES:
            what = f"`{shortened(namespace, 80)}` is no version of GPX that is known here."
            raise Stop(self.fault_here("unknown_version", what, "Export it as GPX 1.1 (or 1.0)."))
        self.namespace = namespace
        for short in (*POINTS, *PARTS, *FIELDS, "trk", "metadata"):
            self.names[f"{namespace}}}{short}" if namespace else short] = short

    def _begin_point(self, attributes: dict[str, str]) -> None:
        self.points += 1
        if self.points > MOST_POINTS:
            raise Stop(self.faults.problem("too_many_points", TOO_MANY, self.parser.CurrentLineNumber, hint=FEWER))
        self.fields = {}
        self.row = self.parser.CurrentLineNumber
        latitude = self._degrees(attributes, "lat", 90.0)
        longitude = self._degrees(attributes, "lon", 180.0)
        self.at = None if latitude is None or longitude is None else (latitude, longitude)

    def _degrees(self, attributes: dict[str, str], name: str, most: float) -> float | None:
        typed = attributes.get(name)
        if typed is None:
            self.faults.add("missing_value", f"This point has no `{name}`.", self.row, name, "Delete the point.")
        elif not NUMBER.fullmatch(typed) or not -most <= float(typed) <= most:
            what = f"`{shortened(typed)}` is not an angle from −{most:g} to {most:g} degrees."
            self.faults.add("impossible_value", what, self.row, name, "Write decimal degrees, or delete the point.")
        else:
            return float(typed)
        return None

    def _end_point(self, short: str, at: tuple[float, float]) -> None:
        draft = self.drafts[POINTS[short]]
        fix = Fix(earth_point(*at), 0.0)
        fields = self.fields
        if "ele" in fields:
            fix.elevation = self._number("ele", fields["ele"])
            if fix.elevation is not None and not LOWEST_M <= fix.elevation <= HIGHEST_M:
                fix.elevation = None
                draft.counts.odd_elevations += 1
        if "speed" in fields and self.namespace != GPX_1_1:
            metres_per_second = self._number("speed", fields["speed"])
            fix.speed = (
                None if metres_per_second is None or metres_per_second < 0.0 else KMH_PER_M_S * metres_per_second
            )
        if "time" in fields:
            fix.seconds = seconds_of(fields["time"])
            draft.counts.odd_times += fix.seconds is None
        draft.add(fix)

    def _number(self, name: str, typed: str) -> float | None:
        if NUMBER.fullmatch(typed):
            return float(typed)
        if typed.strip().casefold() not in ("", "nan"):
            what = f"`{shortened(typed)}` is not a number."
            self.faults.add("not_a_number", what, self.row, name, "Correct it, or delete the element.")
        return None


def seconds_of(typed: str) -> float | None:
    """Seconds since 1970 of a date and time after ISO 8601; None if it is none. Without a zone it is taken as UTC."""
    try:
        moment = datetime.fromisoformat(typed.strip())
        return (moment if moment.tzinfo else moment.replace(tzinfo=UTC)).timestamp()
    except (ValueError, OverflowError):
        return None

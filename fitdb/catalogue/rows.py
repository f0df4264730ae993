"""Rows and nouns: how each model value stands in the tables, and how it is built back from its rows.

Everything here is pure: a row is a plain mapping of column names to values. The shipped tables and the database
are read by the same builders, so both give the same values.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from fitdb.catalogue.layouts import Layouts
from fitdb.intake.readings import FitBand, FitName
from fitdb.model.interface import Interface, InterfaceKind
from fitdb.model.part import Attribute, AttributeTable, Part, PartClass
from fitdb.model.plan import Unit
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.remedy import Remedy
from fitdb.model.source import Source, Spread

Row = Mapping[str, Any]
Rows = Mapping[str, Iterable[Row]]  # by table name

READING_TABLES = ("reading", "word", "outline")


# --- readings ----------------------------------------------------------------------------------------------


def reading_row(attribute: str, reading: Reading) -> tuple[str, dict[str, Any]]:
    """Which table a reading goes to (`reading`, `word`, `outline`), and its row there, without the owner."""
    row: dict[str, Any] = {
        "attribute": attribute,
        "entered": reading.entered,
        "value_assumed": reading.value_assumed,
        "source_id": reading.source.id,
    }
    if isinstance(reading, Word):
        return "word", row | {"possible": " ".join(sorted(reading.possible)), "open": reading.open_vocabulary}
    if isinstance(reading, Outline):
        drawn = {"rings": json.dumps(reading.rings), "holes": json.dumps(reading.holes), "spread": reading.spread}
        return "outline", row | drawn
    span = {"low": reading.low, "nominal": float(reading.nominal), "high": reading.high, "unit": reading.unit}
    kind: dict[str, Any]
    if isinstance(reading, Count):
        counts = " ".join(str(value) for value in reading.values)
        kind = {"kind": "count", "counts": counts, "fit": "", "spread_assumed": False}
    elif isinstance(reading, Designation):
        kind = {"kind": "designation", "counts": "", "fit": reading.fit, "spread_assumed": reading.spread_assumed}
    else:
        kind = {"kind": "number", "counts": "", "fit": "", "spread_assumed": reading.spread_assumed}
    return "reading", row | span | kind


def reading_of(row: Row, sources: Mapping[str, Source]) -> Reading:
    """The reading that a row of any of the three tables holds."""
    source, entered, assumed = sources[row["source_id"]], row["entered"], bool(row["value_assumed"])
    if "possible" in row:
        return Word(frozenset(row["possible"].split()), source, entered, assumed, bool(row["open"]))
    if "rings" in row:
        rings = tuple(tuple((x, y) for x, y in ring) for ring in json.loads(row["rings"]))
        holes = tuple((x, y, size, length, angle) for x, y, size, length, angle in json.loads(row["holes"]))
        return Outline(rings, holes, row["spread"], source, entered, assumed)
    low, nominal, high, unit = row["low"], row["nominal"], row["high"], row["unit"]
    if row["kind"] == "count":
        values = tuple(int(value) for value in row["counts"].split())
        return Count(values, round(nominal), source, entered, assumed, unit)
    spread_assumed = bool(row["spread_assumed"])
    if row["kind"] == "designation":
        return Designation(low, nominal, high, unit, source, row["fit"], entered, assumed, spread_assumed)
    return Number(low, nominal, high, unit, source, entered, assumed, spread_assumed)


def readings_by_owner(rows: Rows, owner: str, sources: Mapping[str, Source]) -> dict[str, dict[str, Reading]]:
    """All readings of the three tables of `owner` (`part` or `interface`), by owner id and attribute."""
    found: defaultdict[str, dict[str, Reading]] = defaultdict(dict)
    for table in READING_TABLES:
        for row in rows[f"{owner}_{table}"]:
            found[row[f"{owner}_id"]][row["attribute"]] = reading_of(row, sources)
    return found


# --- parts and interfaces ----------------------------------------------------------------------------------


def interface_rows(interface: Interface, source_id: str) -> dict[str, list[dict[str, Any]]]:
    """The rows of one interface by table name."""
    rows: dict[str, list[dict[str, Any]]] = defaultdict(list)
    head = {"id": interface.id, "kind_id": interface.kind, "title": interface.title, "signature": interface.signature}
    rows["interface"].append(head | {"source_id": source_id, "version": interface.version})
    for name, reading in interface.readings.items():
        table, row = reading_row(name, reading)
        rows[f"interface_{table}"].append({"interface_id": interface.id, **row})
    return rows


def part_rows(part: Part) -> dict[str, list[dict[str, Any]]]:
    """The rows of one part by table name, those of its interfaces not included."""
    rows: dict[str, list[dict[str, Any]]] = defaultdict(list)
    head = {"id": part.id, "class_id": part.part_class, "title": part.title}
    rows["part"].append(head | {"source_id": part.source.id, "version": part.version})
    for port, interface in part.ports.items():
        row: dict[str, Any] = {"part_id": part.id, "port": port, "interface_id": interface.id}
        rows["part_port"].append(row | {"class_id": part.part_class})
    for name, reading in part.readings.items():
        table, row = reading_row(name, reading)
        rows[f"part_{table}"].append({"part_id": part.id, **row})
    return rows


def interfaces_of(rows: Rows, sources: Mapping[str, Source]) -> dict[str, Interface]:
    """Interfaces by id."""
    readings = readings_by_owner(rows, "interface", sources)
    return {
        row["id"]: Interface(
            row["id"], row["kind_id"], row["title"], readings.get(row["id"], {}), row["signature"], row["version"]
        )
        for row in rows["interface"]
    }


def parts_of(rows: Rows, sources: Mapping[str, Source], interfaces: Mapping[str, Interface]) -> dict[str, Part]:
    """Parts by id, in the order of the rows."""
    readings = readings_by_owner(rows, "part", sources)
    ports: defaultdict[str, dict[str, Interface]] = defaultdict(dict)
    for row in rows["part_port"]:
        ports[row["part_id"]][row["port"]] = interfaces[row["interface_id"]]
    return {
        row["id"]: Part(
            id=row["id"],
            part_class=row["class_id"],
            title=row["title"],
            readings=readings.get(row["id"], {}),
            ports=ports.get(row["id"], {}),
            source=sources[row["source_id"]],
            version=row["version"],
        )
        for row in rows["part"]
    }


# --- classes, kinds, attributes ----------------------------------------------------------------------------


def sources_of(rows: Iterable[Row]) -> dict[str, Source]:
    return {row["id"]: Source(row["id"], row["kind"], row["title"], row["standing"]) for row in rows}


def attribute_table_of(rows: Rows) -> AttributeTable:
    """Classes, kinds, attributes, spreads and sources; rows whose owner is missing were refused before."""
    sources = sources_of(rows["source"])
    ports: defaultdict[str, dict[str, str]] = defaultdict(dict)
    for row in rows["class_port"]:
        ports[row["class_id"]][row["port"]] = row["kind_id"]
    return AttributeTable(
        classes={
            row["id"]: PartClass(
                id=row["id"],
                title=row["title"],
                like=tuple(row["like_ids"].split()),
                another_plan=bool(row["another_plan"]),
                ports=ports.get(row["id"], {}),
                source=sources[row["source_id"]],
            )
            for row in rows["part_class"]
        },
        kinds={row["id"]: InterfaceKind(row["id"], row["title"]) for row in rows["interface_kind"]},
        attributes={(row["owner"], row["name"]): _attribute_of(row, sources) for row in rows["attribute"]},
        spreads={
            (row["source_kind"], row["family"]): Spread(
                row["source_kind"], row["family"], row["minus"], row["plus"], bool(row["percent"]), row["source_id"]
            )
            for row in rows["spread"]
        },
        sources=sources,
    )


def _attribute_of(row: Row, sources: Mapping[str, Source]) -> Attribute:
    return Attribute(
        owner=row["owner"],
        name=row["name"],
        reading=row["reading"],
        unit=row["unit"],
        title=row["title"],
        physical=_range(row["physical_low"], row["physical_high"]),
        plausible=_range(row["plausible_low"], row["plausible_high"]),
        default=row["default_text"] if row["default_text"] is not None else row["default_number"],
        default_spread=(row["default_minus"], row["default_plus"]),
        vocabulary=tuple(row["vocabulary"].split()),
        open_vocabulary=bool(row["open"]),
        fit=row["fit"],
        family=row["family"],
        tool=row["tool"],
        how=row["how"],
        source=sources[row["source_id"]],
    )


def _range(low: float | None, high: float | None) -> tuple[float, float] | None:
    return None if low is None or high is None else (low, high)


# --- patterns, remedies, stock, limits ---------------------------------------------------------------------


def patterns_of(rows: Rows) -> Layouts:
    """Patterns by id; seats, lines and roles in the order of their `position`."""
    ordered = {name: sorted(rows[name], key=_position) for name in ("pattern", "seat", "line", "line_role")}
    return Layouts(ordered["pattern"], ordered["seat"], ordered["line"], ordered["line_role"])


def _position(row: Row) -> int:
    return int(row["position"])


def remedies_of(rows: Iterable[Row]) -> tuple[Remedy, ...]:
    return tuple(
        Remedy(
            id=row["id"],
            title=row["title"],
            move=row["move"],
            seat=row["seat"],
            stock=row["stock"],
            attribute=row["attribute"],
            reversible=bool(row["reversible"]),
            gives_up=row["gives_up"],
            minutes=row["minutes"],
            money=row["money"],
            source=row["source_id"],
            together=row["together"],
            tool=row["tool"],
            only=tuple(row["only"].split()),
        )
        for row in sorted(rows, key=_position)
    )


def units_of(rows: Iterable[Row]) -> tuple[Unit, ...]:
    return tuple(
        Unit(row["id"], row["title"], tuple(row["seats"].split()), row["minutes"], row["source_id"])
        for row in sorted(rows, key=_position)
    )


def fits_of(rows: Rows) -> dict[str, tuple[FitBand | FitName, ...]]:
    """Bands in rising order, then names, by fit table."""
    found: defaultdict[str, list[FitBand | FitName]] = defaultdict(list)
    for row in sorted(rows["fit"], key=lambda row: (row["fit"], row["over"])):
        found[row["fit"]].append(FitBand(row["fit"], row["over"], row["up_to"], row["minus"], row["plus"]))
    for row in sorted(rows["fit_name"], key=lambda row: (row["fit"], row["name"])):
        found[row["fit"]].append(FitName(row["fit"], row["name"], row["nominal"]))
    return {fit: tuple(entries) for fit, entries in found.items()}


def stock_of(rows: Iterable[Row]) -> dict[tuple[str, str], tuple[float, ...]]:
    """Stocked sizes in rising order, by (part class, attribute), in the attribute's canonical unit."""
    sizes: defaultdict[tuple[str, str], list[float]] = defaultdict(list)
    for row in rows:
        sizes[row["class_id"], row["attribute"]].append(row["size"])
    return {key: tuple(sorted(values)) for key, values in sizes.items()}


def limits_of(rows: Iterable[Row]) -> dict[str, float]:
    return {row["key"]: row["value"] for row in rows}

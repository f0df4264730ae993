"""What is told beside a list of parts: what was understood of the question, and exact counts by word, size or class."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from fitdb.catalogue.count_parts import counted_classes, counted_interfaces, counted_sizes, counted_words
from fitdb.catalogue.find_parts import Shelf
from fitdb.catalogue.part_conditions import Wanted
from fitdb.catalogue.read import Book
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.part_filters import SizeWanted, WordsWanted, filter_names, named
from fitdb.model.problems import Malformed, Problem
from fitdb.model.reading import Outline, Reading, Word

MOST_SINGLE, BINS = 15, 10


def facets(
    connection: Any, wanted: Wanted, names: Sequence[str], classes: Sequence[str], book: Book, shelf: Shelf
) -> list[dict[str, Any]]:
    """One document per name: `class`, a port, an attribute, or port.attribute; Malformed, at /query/facet, if unknown.

    classes: those whose readings and ports may be named, none for all. An attribute at a port is counted through the
    interfaces there, which are few.
    """
    ports = {port for own in classes or book.table.classes for port in book.table.ports_of(own)}
    known = ("class", *sorted(ports), *filter_names(book.table, classes))
    faults = [
        Problem("unknown_facet", f"parts cannot be counted by `{shortened(name)}`.", "/query/facet", hint=hint)
        for name in names
        if name not in known
        for hint in [did_you_mean(name, known) or "Count by `class`, a port or an attribute."]
    ]
    if faults:
        raise Malformed(faults)
    return [_facet(connection, wanted, name, classes, book, shelf) for name in dict.fromkeys(names)]


def _facet(
    connection: Any, wanted: Wanted, name: str, classes: Sequence[str], book: Book, shelf: Shelf
) -> dict[str, Any]:
    if name == "class":
        return _document(name, "classes", "", _by_count(counted_classes(connection, wanted)), 0)
    found = named(name, book.table, classes)
    if found is None:  # a port
        by_interface = counted_interfaces(connection, wanted, name)
        unread = by_interface.pop(None, 0)
        return _document(name, "interfaces", "", _by_count({str(own): n for own, n in by_interface.items()}), unread)
    attribute = found.attribute
    if found.port:
        by_value: Counter[Any] = Counter()
        known = shelf.interfaces(connection)
        for own, many in counted_interfaces(connection, wanted, found.port).items():
            reading = known[own].readings.get(attribute.name) if own is not None and own in known else None
            by_value[_counted_as(reading)] += many
        counts: Mapping[Any, int] = by_value
    elif attribute.reading == "word":
        counts = counted_words(connection, wanted, attribute.name)
    else:
        counts = counted_sizes(connection, wanted, attribute.name)
    unread = counts.get(None, 0)
    if attribute.reading == "word":
        words = {str(value).replace(" ", "|"): many for value, many in counts.items() if value is not None}
        return _document(name, "words", "", _by_count(words), unread)
    sizes = {float(value): many for value, many in counts.items() if value is not None}
    return _document(name, "sizes", attribute.unit, _binned(sizes, attribute.unit), unread)


def _counted_as(reading: Reading | None) -> str | float | None:
    if reading is None or reading.value_assumed or isinstance(reading, Outline):
        return None
    return " ".join(sorted(reading.possible)) if isinstance(reading, Word) else float(reading.nominal)


def _by_count(counts: Mapping[str, int]) -> list[dict[str, Any]]:
    ordered = sorted(counts.items(), key=lambda entry: (-entry[1], entry[0]))
    return [{"value": value, "low": None, "high": None, "parts": many} for value, many in ordered]


def _binned(sizes: Mapping[float, int], unit: str) -> list[dict[str, Any]]:
    """Each size by itself where they are few, else bins of a round width; empty ones are left out."""
    if len(sizes) <= MOST_SINGLE:
        bins = [(size, size, many) for size, many in sorted(sizes.items())]
    else:
        step = _round_step((max(sizes) - min(sizes)) / BINS)
        counts: Counter[int] = Counter()
        for size, many in sizes.items():
            counts[math.floor(size / step + 1e-9)] += many
        bins = [(float(f"{n * step:.9g}"), float(f"{(n + 1) * step:.9g}"), counts[n]) for n in sorted(counts)]
    return [{"value": _in_words(low, high, unit), "low": low, "high": high, "parts": many} for low, high, many in bins]


def _round_step(width: float) -> float:
    """1, 2 or 5 times a power of ten, at least as wide."""
    power = 10.0 ** math.floor(math.log10(width))
    return next(factor * power for factor in (1.0, 2.0, 5.0, 10.0) if factor * power >= width * (1 - 1e-9))


def _in_words(low: float, high: float, unit: str) -> str:
    return f"{low:.6g} {unit}".strip() if low == high else f"{low:.6g}..{high:.6g} {unit}".strip()


def _document(name: str, kind: str, unit: str, entries: list[dict[str, Any]], unread: int) -> dict[str, Any]:
    return {"of": name, "kind": kind, "unit": unit, "entries": entries, "unread": unread}


def asked_document(sizes: Sequence[SizeWanted], words: Sequence[WordsWanted], book: Book) -> list[dict[str, Any]]:
    """The conditions as they were understood, in canonical units."""
    told: list[dict[str, Any]] = []
    for size in sizes:
        found = named(_name_of(size), book.table, ())
        unit = found.attribute.unit if found else ""
        low, high = _round(size.low), _round(size.high)
        told.append({"of": _name_of(size), "low": low, "high": high, "unit": unit, "words": []})
    for one in words:
        told.append({"of": _name_of(one), "low": None, "high": None, "unit": "", "words": list(one.words)})
    return told


def _name_of(one: SizeWanted | WordsWanted) -> str:
    return f"{one.port}.{one.attribute}" if one.port else one.attribute


def _round(value: float | None) -> float | None:
    """Without the last bits that were given way to at the ends."""
    return None if value is None else float(f"{value:.8g}")

"""Exact counts beside options: by class, by price, by every reading in which the parts differ, for each verdict."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.part_filters import SizeWanted, WordsWanted, filter_names, named
from fitdb.model.part import AttributeTable, Part
from fitdb.model.problems import Malformed, Problem
from fitdb.model.reading import Outline, Reading, Word
from fitdb.possible.answer import Option

MOST_SINGLE, BINS = 15, 10
Value = str | float | None


PartsOf = Callable[[Option], int]


def facets(
    options: Sequence[Option], names: Sequence[str], table: AttributeTable, parts_of: PartsOf
) -> list[dict[str, Any]]:
    """One document per name, or where none is named, per reading in which these parts differ, the best known first.

    Every part is counted once in each: in an entry, or as unread. parts_of: how many parts an option stands for.
    Malformed, at /facets, where a name is unknown.
    """
    classes = tuple(dict.fromkeys(option.part.part_class for option in options))
    known = ("class", "price", *filter_names(table, classes))
    faults = [
        Problem("unknown_facet", f"options cannot be counted by `{shortened(name)}`.", "/facets", hint=hint)
        for name in names
        if name not in known
        for hint in [did_you_mean(name, known) or "Count by `class`, `price` or a reading."]
    ]
    if faults:
        raise Malformed(faults)
    if names:
        return [_facet(options, name, table, classes, parts_of) for name in dict.fromkeys(names)]
    found = [_facet(options, name, table, classes, parts_of) for name in known]
    differing = [one for one in found if len(one["entries"]) > 1]
    return sorted(differing, key=lambda one: (one["unread"], one["of"]))


def matching(part: Part, sizes: Iterable[SizeWanted], words: Iterable[WordsWanted]) -> bool:
    """Whether a part's readings are as wanted; what nobody has read is not."""
    for size in sizes:
        value = _value(_reading(part, size.port, size.attribute))
        if not isinstance(value, float):
            return False
        if (size.low is not None and value < size.low) or (size.high is not None and value > size.high):
            return False
    for one in words:
        reading = _reading(part, one.port, one.attribute)
        if not isinstance(reading, Word) or reading.value_assumed or not set(reading.possible) <= set(one.words):
            return False
    return True


def _facet(
    options: Sequence[Option], name: str, table: AttributeTable, classes: Sequence[str], parts_of: PartsOf
) -> dict[str, Any]:
    unit, value_of = _counting(name, table, classes)
    by_value: dict[Value, Counter[str]] = {}
    for option in options:
        by_value.setdefault(value_of(option), Counter())[option.verdict] += parts_of(option)
    unread = sum(by_value.pop(None, Counter()).values())
    words = {value: counts for value, counts in by_value.items() if isinstance(value, str)}
    sizes = {value: counts for value, counts in by_value.items() if isinstance(value, float)}
    entries = [_entry(value, None, None, counts) for value, counts in sorted(words.items())]
    entries += _binned(sizes, unit)
    return {"of": name, "unit": unit, "entries": entries, "unread": unread}


def _counting(name: str, table: AttributeTable, classes: Sequence[str]) -> tuple[str, Callable[[Option], Value]]:
    if name == "class":
        return "", lambda option: option.part.part_class
    if name == "price":
        return "mu", lambda option: None if option.price is None or option.price.unpriced else option.price.from_least
    found = named(name, table, classes)
    assert found is not None
    port, attribute = found.port, found.attribute.name
    return found.attribute.unit, lambda option: _value(_reading(option.part, port, attribute))


def _reading(part: Part, port: str, attribute: str) -> Reading | None:
    if not port:
        return part.readings.get(attribute)
    return part.ports[port].readings.get(attribute) if port in part.ports else None


def _value(reading: Reading | None) -> Value:
    if reading is None or reading.value_assumed or isinstance(reading, Outline):
        return None
    return "|".join(sorted(reading.possible)) if isinstance(reading, Word) else float(reading.nominal)


def _binned(sizes: dict[float, Counter[str]], unit: str) -> list[dict[str, Any]]:
    """Each size by itself where they are few, else bins of a round width; empty ones are left out."""
    if len(sizes) <= MOST_SINGLE:
        return [_entry(f"{size:.6g} {unit}".strip(), size, size, counts) for size, counts in sorted(sizes.items())]
    width = (max(sizes) - min(sizes)) / BINS
    power = 10.0 ** math.floor(math.log10(width))
    step = next(factor * power for factor in (1.0, 2.0, 5.0, 10.0) if factor * power >= width * (1 - 1e-9))
    bins: dict[int, Counter[str]] = {}
    for size, counts in sizes.items():
        bins.setdefault(math.floor(size / step + 1e-9), Counter()).update(counts)
    ends = [(float(f"{n * step:.9g}"), float(f"{(n + 1) * step:.9g}"), bins[n]) for n in sorted(bins)]
    return [_entry(f"{low:.6g}..{high:.6g} {unit}".strip(), low, high, counts) for low, high, counts in ends]


def _entry(value: str, low: float | None, high: float | None, counts: Counter[str]) -> dict[str, Any]:
    return {
        "value": value,
        "low": low,
        "high": high,
        "parts": sum(counts.values()),
        "counts": dict(sorted(counts.items())),
    }

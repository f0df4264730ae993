"""What a person asks of parts in a list: sizes in any unit that is understood, and words, by the attribute's name."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.readings import Fits, own_source, read
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.problems import Problem
from fitdb.model.reading import Count, Designation, Number, Word

MOST_WORDS = 6
EXACTLY = 1e-9  # as a share: two ways of typing one size differ in the last bits
HOW_SIZES = "Write `80mm..100mm`, `80mm..`, `..4 in` or one size."


@dataclass(frozen=True, slots=True)
class SizeWanted:
    """A nominal reading from `low` to `high` in the canonical unit, None where open; `port` is empty for its own."""

    port: str
    attribute: str
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class WordsWanted:
    """A word that is one of `words`; `port` is empty for the part's own."""

    port: str
    attribute: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Named:
    """Where an attribute of that name stands on parts: their own, or at a port."""

    port: str
    attribute: Attribute


def filter_names(table: AttributeTable, classes: Sequence[str]) -> tuple[str, ...]:
    """Every name that parts of these classes (none: of any) may be asked for: `attribute`, `port.attribute`."""
    found: dict[str, None] = {}
    for part_class in classes or tuple(table.classes):
        found.update((name, None) for name, one in table.own_attributes(part_class).items() if _askable(one))
        for port, kind in table.ports_of(part_class).items():
            found.update((f"{port}.{name}", None) for name, one in table.kind_attributes(kind).items() if _askable(one))
    return tuple(found)


def named(name: str, table: AttributeTable, classes: Sequence[str]) -> Named | None:
    """The attribute that `name` or `port.name` stands for on these classes (none: on any); None if there is none."""
    port, _, bare = name.rpartition(".")
    for part_class in classes or tuple(table.classes):
        if not port:
            own = table.own_attributes(part_class).get(bare)
            if own is not None and _askable(own):
                return Named("", own)
            continue
        kind = table.ports_of(part_class).get(port, "")
        described = table.attributes.get((kind, bare))
        if described is not None and _askable(described):
            return Named(port, described)
    return None


def parse_filters(
    typed: Iterable[tuple[str, str]], classes: Sequence[str], table: AttributeTable, fits: Fits, path: str = "/query"
) -> tuple[tuple[SizeWanted, ...], tuple[WordsWanted, ...], tuple[Problem, ...]]:
    """Sizes and words from (name, text) pairs, with every fault at `path`/name."""
    sizes: list[SizeWanted] = []
    words: list[WordsWanted] = []
    problems: list[Problem] = []
    for name, text in typed:
        place = f"{path}/{shortened(name, 80)}"
        found = named(name, table, classes)
        if found is None:
            hint = did_you_mean(name, filter_names(table, classes))
            what = "parts of this class have no such reading." if classes else "no part has such a reading."
            problems.append(Problem("unknown_parameter", what, place, hint=hint))
            continue
        if found.attribute.reading == "word":
            asked, faults = _words(text, found, table, fits, place)
            words += asked
        else:
            size, faults = _size(text, found, table, fits, place)
            sizes += size
        problems += faults
    return tuple(sizes), tuple(words), tuple(problems)


def _askable(attribute: Attribute) -> bool:
    return attribute.reading != "outline"


def _words(
    text: str, found: Named, table: AttributeTable, fits: Fits, place: str
) -> tuple[list[WordsWanted], tuple[Problem, ...]]:
    reading, faults = read(text, found.attribute, table, fits, own_source("data_sheet"))
    if faults or not isinstance(reading, Word):
        return [], tuple(replace(one, path=place) for one in faults)
    if reading.value_assumed or len(reading.possible) > MOST_WORDS:
        what = f"`{shortened(text)}` does not say which words are wanted."
        return [], (Problem("bad_filter", what, place, hint=f"Name up to {MOST_WORDS} of them: `one|other`."),)
    return [WordsWanted(found.port, found.attribute.name, tuple(sorted(reading.possible)))], ()


def _size(
    text: str, found: Named, table: AttributeTable, fits: Fits, place: str
) -> tuple[list[SizeWanted], tuple[Problem, ...]]:
    # A bound may lie beyond what is possible on a part: nothing stands there, and that is no fault.
    open_ended = replace(found.attribute, physical=None, plausible=None, reading=_as_number(found.attribute))
    plain = text.strip().replace("…", "..")
    problems: list[Problem] = []

    def value(one: str, bare_unit: str = "") -> Number | Designation | Count | None:
        typed = f"{one} {bare_unit}".strip() if bare_unit else one
        reading, faults = read(typed, open_ended, table, fits, own_source("data_sheet"))
        problems.extend(replace(fault, path=place) for fault in faults)
        if not faults and not isinstance(reading, Number | Designation | Count):
            what = f"`{shortened(one)}` is no size."
            problems.append(Problem("bad_filter", what, place, hint=HOW_SIZES))
        return reading if isinstance(reading, Number | Designation | Count) else None

    low: float | None
    high: float | None
    if plain.startswith("..") or plain.endswith(".."):
        end = value(plain.strip("."))
        if end is None:
            return [], tuple(problems)
        low, high = (None, end.nominal) if plain.startswith("..") else (end.nominal, None)
    else:
        whole = value(plain)
        if whole is None:
            return [], tuple(problems)
        stated = isinstance(whole, Number) and not whole.spread_assumed and whole.low < whole.high
        low, high = (whole.low, whole.high) if stated else (whole.nominal, whole.nominal)
    give = EXACTLY
    low = None if low is None else low - give * max(1.0, abs(low))
    high = None if high is None else high + give * max(1.0, abs(high))
    return [SizeWanted(found.port, found.attribute.name, low, high)], tuple(problems)


def _as_number(attribute: Attribute) -> str:
    """Counts and designations are asked for like sizes: `7`, `6..8`, `8 mm..10 mm`."""
    return "number" if attribute.reading in ("number", "designation", "count") else attribute.reading

"""Invented parts: pure, seeded, without end. The same seed and number give the same parts, to the last byte.

Each class is drawn from its shipped parts: a template by popularity, sizes that cluster where the trade clusters, an
interface that few or many parts share, some readings that nobody took. Nothing here is anybody's product.
"""

from __future__ import annotations

import bisect
import dataclasses
import itertools
import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from fitdb.demo.sizes import (
    FIRST_SYLLABLES,
    INTERFACE_STEPS,
    LAST_SYLLABLES,
    LOOSE_SIZES,
    MIDDLE_SYLLABLES,
    ONE_OF_MANY,
    SHARES,
    TRADE_SIZES,
)
from fitdb.intake.counted_sizes import COUNTED_SIZES
from fitdb.intake.part_files import signature
from fitdb.intake.readings import Fits, read
from fitdb.model.interface import Interface
from fitdb.model.part import Attribute, AttributeTable, Part
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Number, Outline, Reading, Word
from fitdb.model.source import Source

SOURCE = "demo_invention"
MARK = "demo-"  # what every id of an invented row begins with
UNREAD, UNNAMED = 0.08, 0.03  # how often nobody took a reading, or nobody named what a port offers
AS_LINE = 0.45  # how often a part says no more than its product line: another colour, another seller
LINES_GROW = 0.8  # so many product lines: the number of parts to this power
GROWS = ("outer_diameter", "width", "length", "thickness")  # sizes that the mass goes with
AS_TEMPLATE = 0.55  # how often a size that differs from maker to maker is the template's
OTHER_WORD = 0.08
SPREAD = 0.06  # standard deviation of such a size, as a share of the template's


@dataclass(frozen=True, slots=True)
class InventedPart:
    """One part: `ports` pairs port and interface id, `readings` attribute and reading."""

    id: str
    part_class: str
    title: str
    ports: tuple[tuple[str, str], ...]
    readings: tuple[tuple[str, Reading], ...]


@dataclass(frozen=True, slots=True)
class Known:
    """What is drawn from: the attribute table, fit tables, and the parts of every class that are not invented.

    said: signatures of all interfaces that are not invented; what says the same is the same, so none is said again.
    """

    table: AttributeTable
    fits: Fits
    templates: Mapping[str, Sequence[Part]]
    said: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Popular:
    """Choices of falling popularity: the k-th is taken about 1/k^steep as often as the first."""

    bounds: tuple[float, ...]

    @classmethod
    def of(cls, count: int, steep: float = 0.9) -> Popular:
        return cls(tuple(itertools.accumulate((rank + 1) ** -steep for rank in range(count))))

    def drawn(self, dice: random.Random) -> int:
        return bisect.bisect(self.bounds, dice.random() * self.bounds[-1], 0, len(self.bounds) - 1)


Sizes = Mapping[str, tuple[tuple[float, ...], Popular]]
Line = tuple[tuple[tuple[str, str], ...], dict[str, Reading]]  # ports and readings


class Invention:
    """`interfaces` are those that are new; `parts()` gives every part, class by class in the order of the ids.

    designs: of each class at most so many different parts, the same ones however many parts there are, so that only
    the number of sellers grows. Without it the number of product lines grows with the number of parts.
    OurFault when the tables lack the source demo_invention or a class has no shipped part to draw from.
    """

    def __init__(self, known: Known, parts: int, seed: int, designs: int | None = None) -> None:
        in_order = {own: sorted(some, key=lambda part: part.id) for own, some in sorted(known.templates.items())}
        self.known, self.seed, self.designs = dataclasses.replace(known, templates=in_order), seed, designs
        if SOURCE not in known.table.sources:
            raise OurFault(f"the catalogue has no source {SOURCE}; invented parts could not be marked")
        self.source: Source = known.table.sources[SOURCE]
        self.numbers = shares_of(tuple(known.templates), parts)
        self._read: dict[tuple[str, str, str], Reading | None] = {}
        self._marked: dict[int, Reading] = {}
        self._kept: list[Reading] = []
        self._offered = self._offered_by_port()
        different = designs * len(self.numbers) if designs else parts
        wanted = max(3, round(8 * (different / 1000) ** (1 / 3)))
        self.interfaces: tuple[Interface, ...] = self._variants(wanted)

    def parts(self) -> Iterator[InventedPart]:
        for part_class, number in self.numbers.items():
            yield from self._of_class(part_class, number)

    # --- interfaces ------------------------------------------------------------------------------------------

    def _offered_by_port(self) -> dict[tuple[str, str], list[Interface]]:
        """What shipped parts of a class offer at a port, each interface once."""
        found: dict[tuple[str, str], dict[str, Interface]] = {}
        for part_class, templates in self.known.templates.items():
            for part in templates:
                for port, interface in sorted(part.ports.items()):
                    found.setdefault((part_class, port), {})[interface.id] = interface
        return {key: list(some.values()) for key, some in found.items()}

    def _variants(self, wanted: int) -> tuple[Interface, ...]:
        """New interfaces of every kind, each a shipped one with a size or two changed, offered where that is."""
        by_kind: dict[str, dict[str, Interface]] = {}
        for some in self._offered.values():
            for interface in some:
                by_kind.setdefault(interface.kind, {})[interface.id] = interface
        made: list[Interface] = []
        for kind in sorted(by_kind):
            steps = INTERFACE_STEPS.get(kind, {})
            shipped = [by_kind[kind][own] for own in sorted(by_kind[kind])]
            said = set(self.known.said) | {signature(kind, one.readings) for one in shipped}
            dice = random.Random(f"{self.seed} {kind}")
            like = Popular.of(len(shipped), 0.5)
            for _ in range(wanted * 4 if steps else 0):
                if sum(one.kind == kind for one in made) >= wanted:
                    break
                template = shipped[like.drawn(dice)]
                readings = self._varied(template, steps, dice)
                own = signature(kind, readings)
                if own in said:
                    continue
                said.add(own)
                number = sum(one.kind == kind for one in made) + 1
                title = f"{template.title}, variant {number}"[:240]
                variant = Interface(f"{MARK}{kind}-{number:04}", kind, title, readings, own)
                made.append(variant)
                for offered in self._offered.values():
                    if any(one.id == template.id for one in offered):
                        offered.append(variant)
        return tuple(made)

    def _varied(self, template: Interface, steps: Mapping[str, float], dice: random.Random) -> dict[str, Reading]:
        """The readings with one to three sizes moved by a few steps; a drawing no longer tells, so it is left out."""
        moved = set(dice.sample(sorted(steps), min(len(steps), dice.choice((1, 2, 2, 3)))))
        readings: dict[str, Reading] = {}
        for name, reading in sorted(template.readings.items()):
            attribute = self.known.table.attributes[template.kind, name]
            if isinstance(reading, Outline):
                continue
            if name in moved and isinstance(reading, Number | Count):
                by = dice.choice((-4, -3, -2, -2, -1, -1, 1, 1, 2, 2, 3, 4)) * steps[name]
                new = self._sized(template.kind, attribute, reading.nominal + by, steps[name])
                readings[name] = new or self._as_invented(reading)
            elif dice.random() >= UNREAD / 4:
                readings[name] = self._as_invented(reading)
        return readings

    # --- parts -----------------------------------------------------------------------------------------------

    def _of_class(self, part_class: str, number: int) -> Iterator[InventedPart]:
        """Product lines by popularity; a part is as its line says, or differs from it in one size."""
        dice = random.Random(f"{self.seed} {part_class}")
        title = self.known.table.classes[part_class].title.lower()
        names = [_name(dice) for _ in range(120)]
        sizes = self._sizes_of(part_class)
        shown = next(iter(sizes), "")
        many = self.designs or max(1, round(number**LINES_GROW))
        lines = list(self._lines(part_class, many, sizes, dice))
        popular, makers, chance = Popular.of(len(lines), 0.5), Popular.of(len(names)), dice.random
        for count in range(1, number + 1):
            ports, readings = lines[popular.drawn(dice)]
            if self.designs is None and chance() >= AS_LINE:
                readings = self._differing(part_class, readings, sizes, dice)
            if self.designs is None and chance() < UNREAD and readings:
                left_out = list(readings)[int(chance() * len(readings))]
                readings = {name: one for name, one in readings.items() if name != left_out}
            size = readings.get(shown)
            told = f" {size.entered}" if size is not None else ""
            yield InventedPart(
                f"{MARK}{part_class}-{count:07}",
                part_class,
                f"{names[makers.drawn(dice)]} {title}{told}, no. {count}",
                ports,
                tuple(readings.items()),
            )

    def _sizes_of(self, part_class: str) -> Sizes:
        """The trade's sizes of a class and of those it is like, the nearest first."""
        table = self.known.table
        return {
            name: (TRADE_SIZES[own, name], Popular.of(len(TRADE_SIZES[own, name]), 0.8))
            for own in reversed(table.line_of(part_class))
            for name in table.own_attributes(part_class)
            if (own, name) in TRADE_SIZES
        }

    def _lines(self, part_class: str, many: int, sizes: Sizes, dice: random.Random) -> Iterator[Line]:
        table, templates = self.known.table, self.known.templates[part_class]
        attributes = table.own_attributes(part_class)
        by_id = {one.id: one for some in self._offered.values() for one in some}
        # A database gives rows in any order; what is drawn must not depend on it.
        kept = [sorted(template.readings.items()) for template in templates]
        like = Popular.of(len(templates), 0.6)
        ports = {}
        for port in table.ports_of(part_class):
            offered = self._offered.get((part_class, port), [])
            if offered:
                order = dice.sample(offered, len(offered))
                share = sum(port in one.ports for one in templates) / len(templates)
                ports[port] = ([one.id for one in order], Popular.of(len(order)), share * (1 - UNNAMED))
        counted = [one for one in COUNTED_SIZES if one.part_class in table.line_of(part_class)]
        chance = dice.random
        for _ in range(many):
            readings: dict[str, Reading] = {}
            for name, reading in kept[like.drawn(dice)]:
                attribute = attributes[name]
                new: Reading | None = self._as_invented(reading)
                if name in sizes:
                    values, popular = sizes[name]
                    new = self._sized(part_class, attribute, values[popular.drawn(dice)], 0) or new
                elif name in LOOSE_SIZES and isinstance(reading, Number):
                    times = 1.0 if chance() < AS_TEMPLATE else dice.gauss(1.0, SPREAD)
                    new = self._sized(part_class, attribute, reading.nominal * times, LOOSE_SIZES[name]) or new
                elif isinstance(reading, Word) and attribute.vocabulary and chance() < OTHER_WORD:
                    word = attribute.vocabulary[int(chance() * len(attribute.vocabulary))]
                    new = self._typed(part_class, attribute, word) or new
                if chance() >= UNREAD and new is not None:
                    readings[name] = new
            taken = tuple(
                (port, ids[some.drawn(dice)]) for port, (ids, some, share) in ports.items() if chance() < share
            )
            for one in counted:
                self._count_out(part_class, one.size, one.count, one.each, taken, by_id, readings, attributes)
            yield taken, readings

    def _differing(
        self, part_class: str, readings: Mapping[str, Reading], sizes: Sizes, dice: random.Random
    ) -> dict[str, Reading]:
        """The line with one size drawn anew, and the mass that goes with it."""
        attributes = self.known.table.own_attributes(part_class)
        settled = {one.size for one in COUNTED_SIZES if one.part_class in self.known.table.line_of(part_class)}
        free = [name for name in readings if (name in sizes or name in LOOSE_SIZES) and name not in settled]
        changed = dict(readings)
        if not free:
            return changed
        name = free[int(dice.random() * len(free))]
        reading = readings[name]
        if not isinstance(reading, Number):
            return changed
        if name in sizes:
            values, popular = sizes[name]
            new = self._sized(part_class, attributes[name], values[popular.drawn(dice)], 0)
        else:
            near = reading.nominal * dice.gauss(1.0, SPREAD)
            new = self._sized(part_class, attributes[name], near, LOOSE_SIZES[name])
        mass = readings.get("mass")
        if isinstance(new, Number) and isinstance(mass, Number) and name in GROWS and reading.nominal > 0:
            heavier = mass.nominal * new.nominal / reading.nominal
            changed["mass"] = self._sized(part_class, attributes["mass"], heavier, LOOSE_SIZES["mass"]) or mass
        changed[name] = new or reading
        return changed

    def _count_out(
        self,
        part_class: str,
        size: str,
        count: str,
        each: str,
        ports: Sequence[tuple[str, str]],
        interfaces: Mapping[str, Interface],
        readings: dict[str, Reading],
        attributes: Mapping[str, Attribute],
    ) -> None:
        """A size that a count of the same part settles is what the count says, or is not read."""
        offered = {name: one for _, own in ports for name, one in interfaces[own].readings.items()}
        many, pitch = offered.get(count), offered.get(each)
        readings.pop(size, None)
        if isinstance(many, Count) and isinstance(pitch, Number):
            new = self._sized(part_class, attributes[size], many.nominal * pitch.nominal, 0)
            if new is not None:
                readings[size] = new

    # --- readings --------------------------------------------------------------------------------------------

    def _sized(self, owner: str, attribute: Attribute, value: float, step: float) -> Reading | None:
        """The size on its step, as somebody would type it; None where it is not possible."""
        stepped = round(value / step) * step if step else value
        for bounds in (attribute.physical, attribute.plausible if step else None):
            if bounds is not None and not bounds[0] <= stepped <= bounds[1]:
                return None
        if attribute.reading == "count":
            return self._typed(owner, attribute, str(round(stepped)))
        return self._typed(owner, attribute, f"{stepped:.6g} {attribute.unit}".strip())

    def _typed(self, owner: str, attribute: Attribute, text: str) -> Reading | None:
        key = (owner, attribute.name, text)
        if key not in self._read:
            reading, _ = read(text, attribute, self.known.table, self.known.fits, self.source)
            self._read[key] = reading
        return self._read[key]

    def _as_invented(self, reading: Reading) -> Reading:
        """The template's reading, marked as invented; one value for all parts that have it."""
        key = id(reading)
        if key not in self._marked:
            self._kept.append(reading)  # what is remembered by identity has to stay alive
            self._marked[key] = dataclasses.replace(reading, source=self.source)
        return self._marked[key]


def shares_of(classes: Sequence[str], parts: int) -> dict[str, int]:
    """How many parts of each class, in the order of the ids; at least one of each where there are parts enough."""
    ordered = sorted(classes)
    weights = [SHARES.get(own, ONE_OF_MANY) for own in ordered]
    each = {own: 1 if parts >= len(ordered) else 0 for own in ordered}
    left = parts - sum(each.values())
    bounds = list(itertools.accumulate(weights))
    before = 0
    for own, bound in zip(ordered, bounds, strict=True):
        up_to = round(left * bound / bounds[-1])
        each[own] += up_to - before
        before = up_to
    return each


def _name(dice: random.Random) -> str:
    parts = [dice.choice(FIRST_SYLLABLES), dice.choice(MIDDLE_SYLLABLES), dice.choice(LAST_SYLLABLES)]
    return "".join(parts)

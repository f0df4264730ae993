"""Part classes, their attributes, and parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitdb.model.interface import Interface, InterfaceKind
from fitdb.model.reading import Reading
from fitdb.model.source import Source, Spread


@dataclass(frozen=True, slots=True)
class Attribute:
    """One thing to read on a part class or interface kind (`owner`), with how to read it and what is possible.

    reading: number, count, word, designation or outline. `unit` is canonical. `physical` is the range outside
    which a value is impossible; `plausible` the widest range met on real parts; `default` stands in when nobody
    read it, with its own minus and plus. `fit` names the table that gives a designation its one-sided span;
    `family` the column of the spread table.
    """

    owner: str
    name: str
    reading: str
    unit: str
    title: str
    physical: tuple[float, float] | None
    plausible: tuple[float, float] | None
    default: float | str | None
    default_spread: tuple[float, float]
    vocabulary: tuple[str, ...]
    open_vocabulary: bool
    fit: str
    family: str
    tool: str
    how: str
    source: Source


@dataclass(frozen=True, slots=True)
class PartClass:
    """A generic kind of part. `like` names classes whose ports, attributes and seats it also has, nearest first.

    another_plan: exchanging such a part is another plan, never a remedy.
    """

    id: str
    title: str
    like: tuple[str, ...]
    another_plan: bool
    ports: Mapping[str, str]
    source: Source


@dataclass(frozen=True, slots=True)
class Part:
    """One entry of the catalogue, or somebody's own measured part. `ports` maps port name to interface."""

    id: str
    part_class: str
    title: str
    readings: Mapping[str, Reading]
    ports: Mapping[str, Interface]
    source: Source
    version: int = 1

    def reading_at(self, place: str, attribute: str) -> Reading | None:
        """The reading that stands at a port, or among the part's own where the place is empty; None where none does."""
        if not place:
            return self.readings.get(attribute)
        interface = self.ports.get(place)
        return interface.readings.get(attribute) if interface is not None else None

    def offers(self, attribute: str, port: str = "") -> tuple[str, Reading | None]:
        """Where the reading called `attribute` stands, and the reading (None if nobody read it).

        Looked for at `port` first, then among the part's own, then at its other ports; the place is the port's name,
        or empty for the part's own.
        """
        if port and port in self.ports and attribute in self.ports[port].readings:
            return port, self.ports[port].readings[attribute]
        if attribute in self.readings:
            return "", self.readings[attribute]
        for name, interface in self.ports.items():
            if attribute in interface.readings:
                return name, interface.readings[attribute]
        return "", None


@dataclass(frozen=True, slots=True)
class AttributeTable:
    """Everything needed to understand a part that somebody types: classes, kinds, attributes, spreads, sources.

    Keys: classes by id, kinds by id, attributes by (owner, name), spreads by (source kind, family), sources by id.
    """

    classes: Mapping[str, PartClass]
    kinds: Mapping[str, InterfaceKind]
    attributes: Mapping[tuple[str, str], Attribute]
    spreads: Mapping[tuple[str, str], Spread]
    sources: Mapping[str, Source]
    # Worked out once for each class: rules ask for it at every joint.
    _lines: dict[str, tuple[str, ...]] = field(default_factory=dict, init=False, repr=False, compare=False)
    _ports: dict[str, dict[str, str]] = field(default_factory=dict, init=False, repr=False, compare=False)

    def line_of(self, part_class: str) -> tuple[str, ...]:
        """The class and those it is like, nearest first."""
        if part_class not in self._lines:
            self._lines[part_class] = self._line_of(part_class)
        return self._lines[part_class]

    def _line_of(self, part_class: str) -> tuple[str, ...]:
        line: list[str] = []
        waiting = [part_class]
        while waiting:
            current = waiting.pop(0)
            if current in self.classes and current not in line:
                line.append(current)
                waiting.extend(self.classes[current].like)
        return tuple(line)

    def ports_of(self, part_class: str) -> Mapping[str, str]:
        """Port name to interface kind, those of the classes it is like included."""
        if part_class not in self._ports:
            ports = self._ports[part_class] = {}
            for ancestor in reversed(self.line_of(part_class)):
                ports.update(self.classes[ancestor].ports)
        return self._ports[part_class]

    def own_attributes(self, part_class: str) -> dict[str, Attribute]:
        """Attributes of the class itself and of those it is like, not those of its ports."""
        line = self.line_of(part_class)
        found: dict[str, Attribute] = {}
        for owner, name in self.attributes:
            if owner in line and (name not in found or line.index(owner) < line.index(found[name].owner)):
                found[name] = self.attributes[owner, name]
        return found

    def kind_attributes(self, kind: str) -> dict[str, Attribute]:
        """Attributes of one interface kind by name."""
        return {name: attribute for (owner, name), attribute in self.attributes.items() if owner == kind}

    def attribute_of(self, part_class: str, name: str, port: str = "") -> Attribute | None:
        """The description of `name` as a part of that class has it: at `port`, its own, then at any port."""
        ports = self.ports_of(part_class)
        if port in ports and (ports[port], name) in self.attributes:
            return self.attributes[ports[port], name]
        for owner in self.line_of(part_class):
            if (owner, name) in self.attributes:
                return self.attributes[owner, name]
        for kind in ports.values():
            if (kind, name) in self.attributes:
                return self.attributes[kind, name]
        return None

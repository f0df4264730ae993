"""The parts that a plan file names: by catalogue id, amended with readings of one's own, or written in place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from fitdb.intake.assignments import NUMBER
from fitdb.intake.counted_sizes import contradictions
from fitdb.intake.documents import Entry, Node
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.part_files import PART_KEYS, part_of_node
from fitdb.intake.part_readings import Known, keys_hint, text_of, text_of_node
from fitdb.intake.readings import own_source
from fitdb.model.part import Part
from fitdb.model.source import Source

AMENDED_KEYS = ("part", "source", "readings", "ports")
WHAT_A_PART_IS = "Name a part of the catalogue, or write {part: …, readings: …} or {class: …, source: …, readings: …}."
MOST_SUGGESTIONS = 20  # looking through the whole catalogue for a nearest id takes a while


@dataclass(slots=True)
class PlanParts:
    """Reads parts, each place once; one and the same id is one and the same Part wherever the plan names it."""

    known: Known
    written: dict[str, Node] = field(default_factory=dict)
    _catalogue: dict[str, Part | None] = field(default_factory=dict)
    _read: dict[int, tuple[Node, Part | None]] = field(default_factory=dict)
    _made: set[str] = field(default_factory=set)
    _suggestions: dict[str, str] = field(default_factory=dict)

    def find_written(self, nodes: Sequence[Node]) -> None:
        """Notes the parts that are written out with an id of their own, so that they may be named anywhere else."""
        for node in nodes:
            entry = node.entry("id") if node.kind == "mapping" and node.entry("part") is None else None
            if entry is None or entry.node.kind != "scalar":
                continue
            own = str(entry.node.value)
            if own in self.written:
                first = self.written[own].row
                where = f" (row {first})" if first else ""
                what = f"Two parts are called `{shortened(own)}`{where}."
                hint = "Rename one, or write it out once and name it by its id in the other place."
                self.known.fault("duplicate_id", what, entry.node, hint)
            self.written.setdefault(own, node)

    def part(
        self, node: Node, made_id: str, *, extra_keys: Sequence[str] = (), source: Source | None = None
    ) -> Part | None:
        """The part at a node, or None with its faults noted. `made_id` is what it is called if it has no id."""
        if id(node) not in self._read:
            before = len(self.known.problems)
            part = self._part(node, made_id, extra_keys, source)
            if part is not None and node.kind == "mapping" and len(self.known.problems) == before:
                self._contradictions(part, node)
            self._read[id(node)] = node, part if len(self.known.problems) == before else None
        return self._read[id(node)][1]

    def _part(self, node: Node, made_id: str, extra_keys: Sequence[str], source: Source | None) -> Part | None:
        if node.kind == "list":
            self.known.fault("not_a_part", "A list stands where one part is wanted.", node, WHAT_A_PART_IS)
            return None
        if node.kind == "scalar":
            if node.value is None:
                self.known.fault("empty", "No part is named here.", node, "Name one, or leave the line out.")
                return None
            return self._by_id(node)
        amended = node.entry("part")
        if amended is not None:
            base = self._by_id(amended.node)
            if base is None:
                self._keys(node, (*AMENDED_KEYS, *extra_keys))
                return None
            keys = (*AMENDED_KEYS, *extra_keys)
            part = part_of_node(node, self.known, keys=keys, source=own_source("caliper"), base=base)
            # Without a reading of its own it is the catalogue's part and nothing else.
            return base if node.entry("readings") is None and node.entry("ports") is None else part
        if node.entry("class") is None and node.entry("like") is None:
            self._keys(node, (*PART_KEYS, "part", *extra_keys))
            self.known.fault("not_a_part", "Neither `part` nor `class` says what this is.", node, WHAT_A_PART_IS)
            return None
        return part_of_node(
            node, self.known, keys=(*PART_KEYS, *extra_keys), made_id=self._free(made_id), source=source
        )

    def _keys(self, node: Node, keys: Sequence[str]) -> None:
        for entry in node.entries:
            if entry.key not in keys:
                what = f"`{shortened(entry.key)}` is not a key of a part."
                self.known.fault("unknown_key", what, entry, keys_hint(entry.key, keys))

    def _by_id(self, node: Node) -> Part | None:
        written = text_of_node(node, "part", self.known)
        if written is None:
            return None
        if written in self.written:
            return self.part(self.written[written], written)
        if written.split()[0] == "from":
            what = f"`{shortened(written)}` takes a part from a donor, and that is only possible under `on`."
            self.known.fault("unknown_part", what, node, "Name the part itself here.")
            return None
        if written not in self._catalogue:
            self._catalogue[written] = self.known.catalogue_part(written)
        part = self._catalogue[written]
        if part is None:
            what = f"The catalogue has no part `{shortened(written)}`, and this file describes none of that name."
            self.known.fault("unknown_part", what, node, self._suggestion(written))
        return part

    def _suggestion(self, written: str) -> str:
        if written not in self._suggestions:
            if len(self._suggestions) >= MOST_SUGGESTIONS:
                return "`fitdb find` lists what it has."
            hint = did_you_mean(written, (*self.written, *self.known.part_ids_near(written)))
            self._suggestions[written] = hint or "`fitdb find` lists what it has."
        return self._suggestions[written]

    def _free(self, made_id: str) -> str:
        """An id that no other part of the plan has: wheel, wheel-2, wheel-3 …"""
        free, count = made_id, 1
        while free in self._made or free in self.written:
            count += 1
            free = f"{made_id}-{count}"
        self._made.add(free)
        return free

    def _contradictions(self, part: Part, node: Node) -> None:
        for found in contradictions(part, self.known.table):
            place = next((entry for entry in _readings(node) if entry.key.split(".")[-1] in found.attributes), None)
            if place is not None:
                self.known.fault("contradiction", found.message, place, "Read the three again; one of them is wrong.")


def money_of(node: Node, known: Known) -> float | None:
    """What `money` says, in mu; None when nothing is said or it is faulty."""
    entry = node.entry("money") if node.kind == "mapping" else None
    if entry is None:
        return None
    money = number_of(entry, known)
    if money is not None and money < 0:
        known.fault("impossible_value", "A price is never below 0.", entry.node, "Write what the part costs.")
        return None
    return money


def number_of(entry: Entry, known: Known) -> float | None:
    """A bare number without unit; None if it is faulty."""
    written = text_of(entry, known)
    if written is None:
        return None
    if not NUMBER.fullmatch(written):
        what = f"`{shortened(written)}` is not a number."
        known.fault("not_a_number", what, entry.node, "Write the bare number, without a unit.")
        return None
    value = float(written.replace(",", "."))
    if abs(value) == float("inf"):
        known.fault("not_finite", f"`{shortened(entry.key)}` is not a finite number.", entry.node)
        return None
    return value


def part_nodes(sections: Mapping[str, Node]) -> Iterator[Node]:
    """Every place of a plan file where a part stands."""
    by_seat = [sections[name] for name in ("board", "on") if name in sections]
    by_seat += [entry.node for entry in sections["donors"].entries] if "donors" in sections else []
    for section in by_seat:
        for entry in section.entries:
            yield from entry.node.items if entry.node.kind == "list" else (entry.node,)
    for name in ("shelf", "stock"):
        if name in sections:
            yield from sections[name].items


def _readings(node: Node) -> Iterator[Entry]:
    readings, ports = node.entry("readings"), node.entry("ports")
    if readings is not None:
        yield from readings.node.entries
    if ports is not None:
        for port in ports.node.entries:
            yield from port.node.entries

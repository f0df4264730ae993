"""What is written about one part: its plain texts, its readings and its ports, with every fault at its place."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from fitdb.intake.documents import Entry, Node, placed, plain_value
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.readings import Fits, read
from fitdb.model.interface import Interface
from fitdb.model.part import Attribute, AttributeTable, Part
from fitdb.model.problems import Problem
from fitdb.model.reading import Reading
from fitdb.model.source import Source

LONGEST_TITLE = 200
MOST_HINTED = 100


@dataclass(frozen=True, slots=True)
class Known:
    """What the catalogue knows, and where faults are gathered."""

    table: AttributeTable
    fits: Fits
    catalogue_part: Callable[[str], Part | None]
    catalogue_interface: Callable[[str], Interface | None]
    file_name: str
    part_ids_near: Callable[[str], Iterable[str]]
    interface_ids: tuple[str, ...]
    problems: list[Problem] = field(default_factory=list)

    def fault(self, code: str, message: str, place: Node | Entry, hint: str = "") -> None:
        self.problems.append(placed(code, message, place, hint, self.file_name))

    def few(self) -> bool:
        """Whether so few faults are noted that the nearest of many names is worth looking for."""
        return len(self.problems) < MOST_HINTED


@dataclass(slots=True)
class Draft:
    """A part on its way: own readings, the catalogue's interfaces by port, and readings of its own by port."""

    part_class: str
    source: Source
    readings: dict[str, Reading]
    interfaces: dict[str, Interface]
    overrides: dict[str, dict[str, Reading | None]] = field(default_factory=dict)
    first_seen: dict[tuple[str, str], Entry] = field(default_factory=dict)
    unsourced: Entry | None = None


def text_of(entry: Entry | None, known: Known) -> str | None:
    """The text of a plain entry such as id, class or title; None if it is absent or faulty."""
    return None if entry is None else text_of_node(entry.node, entry.key, known)


def text_of_node(node: Node, name: str, known: Known) -> str | None:
    """The text of a node that has to be one word or line; None if it is faulty. `name` is what messages call it."""
    if node.kind != "scalar" or isinstance(node.value, bool):
        known.fault("not_text", f"`{name}` is one word or line of text.", node, f"Write `{name}: …`.")
        return None
    written = "" if node.value is None else str(node.value) if _can_be_written(node.value) else ""
    if not written.strip():
        known.fault("empty", f"`{name}` is empty.", node, "Write it, or leave the line out.")
        return None
    if len(written) > LONGEST_TITLE:
        known.fault("too_long", f"`{name}` is longer than {LONGEST_TITLE} characters.", node, "Shorten it.")
        return None
    if any(unicodedata.category(character) in ("Cc", "Cf", "Cs") for character in written):
        known.fault("control_character", f"`{name}` holds an invisible character.", node, "Type it again.")
        return None
    return written.strip()


def _can_be_written(value: object) -> bool:
    """Whether a scalar can be written out (a whole number of thousands of digits cannot)."""
    return not isinstance(value, int) or abs(value) < 10**LONGEST_TITLE


def read_ports(entry: Entry | None, draft: Draft, known: Known) -> None:
    """Reads `ports:` into the draft: interface ids, or readings given inline."""
    if entry is None:
        return
    if entry.node.kind != "mapping":
        known.fault("not_a_mapping", "`ports` is not a mapping.", entry.node, "Write `ports: {core: core-six-20}`.")
        return
    ports = known.table.ports_of(draft.part_class)
    for port in entry.node.entries:
        kind = ports.get(port.key)
        if kind is None:
            what = f"A {draft.part_class} has no port `{shortened(port.key)}`."
            known.fault("unknown_port", what, port, keys_hint(port.key, ports))
        elif port.node.kind == "mapping":
            _read_port(port, kind, draft, known)
        elif port.node.kind == "list":
            hint = "Write an interface id, or a mapping of readings."
            known.fault("not_a_mapping", f"The port `{port.key}` is a list.", port.node, hint)
        else:
            _take_interface(port.key, port, kind, draft, known)


def _read_port(port: Entry, kind: str, draft: Draft, known: Known) -> None:
    attributes = known.table.kind_attributes(kind)
    like = port.node.entry("like")
    if like is not None and "like" not in attributes:
        _take_interface(port.key, like, kind, draft, known)
    for entry in port.node.entries:
        if entry is like and "like" not in attributes:
            continue
        attribute = attributes.get(entry.key)
        if attribute is None:
            what = f"The port `{port.key}` ({kind}) has no attribute `{shortened(entry.key)}`."
            known.fault("unknown_attribute", what, entry, keys_hint(entry.key, attributes))
            continue
        _read_one(entry, attribute, port.key, draft, known)


def _take_interface(port: str, entry: Entry, kind: str, draft: Draft, known: Known) -> None:
    written = text_of(entry, known)
    if written is None:
        return
    interface = known.catalogue_interface(written)
    if interface is None:
        hint = did_you_mean(written, known.interface_ids) or "Give its readings inline instead."
        known.fault("unknown_interface", f"The catalogue has no interface `{shortened(written)}`.", entry.node, hint)
    elif interface.kind != kind:
        what = f"`{interface.id}` is a {interface.kind}, and the port `{port}` is a {kind}."
        known.fault("interface_of_other_kind", what, entry.node, f"Name an interface of the kind {kind}.")
    else:
        draft.interfaces[port] = interface


def read_readings(entry: Entry | None, draft: Draft, known: Known) -> None:
    """Reads `readings:` into the draft, each at its port or as the part's own."""
    if entry is None:
        return
    if entry.node.kind != "mapping":
        hint = "Write `readings: {outer_diameter: 90 mm}`."
        known.fault("not_a_mapping", "`readings` is not a mapping.", entry.node, hint)
        return
    own = known.table.own_attributes(draft.part_class)
    ports = known.table.ports_of(draft.part_class)
    offered = {port: known.table.kind_attributes(kind) for port, kind in ports.items()}
    for item in entry.node.entries:
        place = _place_of(item, own, offered, draft, known)
        if place is not None:
            port, attribute = place
            _read_one(item, attribute, port, draft, known)


def _place_of(
    item: Entry,
    own: Mapping[str, Attribute],
    offered: Mapping[str, Mapping[str, Attribute]],
    draft: Draft,
    known: Known,
) -> tuple[str, Attribute] | None:
    """The port (empty: the part itself) and the attribute that a flat reading means; `core.window_width` names both."""
    if item.key in own:
        return "", own[item.key]
    port, dot, name = item.key.partition(".")
    if dot and name in offered.get(port, {}):
        return port, offered[port][name]
    found = [port for port, attributes in offered.items() if item.key in attributes]
    if len(found) == 1:
        return found[0], offered[found[0]][item.key]
    if found:
        what = f"`{item.key}` can be read at several ports of a {draft.part_class}: {', '.join(found)}."
        hint = f"Write it under `ports:`, like `ports: {{{found[0]}: {{{item.key}: …}}}}`."
        known.fault("which_port", what, item, hint)
        return None
    names = list(dict.fromkeys([*own, *(name for attributes in offered.values() for name in attributes)]))
    what = f"A {draft.part_class} has no attribute `{shortened(item.key)}`."
    known.fault("unknown_attribute", what, item, keys_hint(item.key, names))
    return None


def _read_one(entry: Entry, attribute: Attribute, port: str, draft: Draft, known: Known) -> None:
    first = draft.first_seen.get((port, attribute.name))
    if first is not None:
        where = f" in row {first.row}" if first.row else ""
        what = f"`{attribute.name}` is given twice; the first is{where or ' elsewhere in the part'}."
        known.fault("read_twice", what, entry, "Keep one of the two.")
        return
    draft.first_seen[port, attribute.name] = entry
    node = entry.node
    if node.kind == "list":
        hint = "Write one value; a range is `8..10 mm`, several words are `round|oval`."
        known.fault("not_a_reading", f"`{entry.key}` is a list.", node, hint)
        return
    typed = plain_value(node)
    reading, problems = read(typed, attribute, known.table, known.fits, draft.source)
    for problem in problems:
        known.fault(problem.code, problem.message, node, problem.hint)
    if problems:
        return
    if draft.unsourced is None and reading is not None and "@" not in (reading.entered or ""):
        draft.unsourced = entry
    if port:
        draft.overrides.setdefault(port, {})[attribute.name] = reading
    elif reading is None:
        draft.readings.pop(attribute.name, None)
    else:
        draft.readings[attribute.name] = reading


def keys_hint(key: str, known_keys: Iterable[str]) -> str:
    """The nearest known key, or all of them where none is alike."""
    names = tuple(known_keys)
    alike = did_you_mean(key, names)
    if alike or not names:
        return alike
    listed = ", ".join(names[:40]) + (", …" if len(names) > 40 else "")
    return f"Known here: {listed}."

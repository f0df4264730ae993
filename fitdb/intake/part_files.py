"""Part files: what somebody wrote about a part of their own, as Parts, with every fault at its place.

part:                       # or a list under `parts:`
  id: my-wheel
  class: wheel
  source: caliper           # where the readings below come from, unless one says otherwise (`9.0 mm @ruler`)
  like: wheel-90-six-window # optional: a catalogue part it starts from
  readings: {outer_diameter: 90 mm, window_width: 9.0 +-0.1 mm}
  ports: {core: core-six-20}  # optional: interface ids, or readings given inline
"""

from __future__ import annotations

import hashlib
import importlib.resources
import json
import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from fitdb.intake.documents import Entry, Node, placed, plain_value, tree_of_data, tree_of_text
from fitdb.intake.nearest import did_you_mean, nearest, shortened
from fitdb.intake.readings import Fits, own_source, read, source_named
from fitdb.model.interface import Interface
from fitdb.model.part import Attribute, AttributeTable, Part
from fitdb.model.problems import Problem
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.source import SOURCE_KINDS, Source

PART_KEYS = ("id", "class", "title", "source", "like", "readings", "ports")
FILE_KEYS = ("part", "parts")
WELL_FORMED_ID = re.compile(r"[a-z0-9][a-z0-9._-]{0,79}")
MOST_PARTS = 1000
LONGEST_TITLE = 200

PartsAndProblems = tuple[tuple[Part, ...], tuple[Problem, ...]]


@dataclass(frozen=True, slots=True)
class _Known:
    """What the catalogue knows, and where faults are gathered."""

    table: AttributeTable
    fits: Fits
    catalogue_part: Callable[[str], Part | None]
    catalogue_interface: Callable[[str], Interface | None]
    file_name: str
    part_ids: tuple[str, ...]
    interface_ids: tuple[str, ...]
    problems: list[Problem] = field(default_factory=list)

    def fault(self, code: str, message: str, place: Node | Entry, hint: str = "") -> None:
        self.problems.append(placed(code, message, place, hint, self.file_name))


@dataclass(slots=True)
class _Draft:
    """A part on its way: own readings, the catalogue's interfaces by port, and readings of its own by port."""

    part_class: str
    source: Source
    readings: dict[str, Reading]
    interfaces: dict[str, Interface]
    overrides: dict[str, dict[str, Reading | None]] = field(default_factory=dict)
    first_seen: dict[tuple[str, str], Entry] = field(default_factory=dict)
    unsourced: Entry | None = None


def parse_part_file(
    text: str,
    *,
    file_name: str,
    table: AttributeTable,
    fits: Fits,
    catalogue_part: Callable[[str], Part | None],
    catalogue_interface: Callable[[str], Interface | None],
    part_ids: Iterable[str] = (),
    interface_ids: Iterable[str] = (),
) -> PartsAndProblems:
    """The parts that a YAML or JSON file describes, and every fault with its row, column and JSON pointer.

    A part with a fault of its own is left out of the result. Nothing that is merely unread is a fault here.
    `part_ids` and `interface_ids` serve only to name the nearest known id.
    """
    root, problems = tree_of_text(text, file_name)
    known = _Known(table, fits, catalogue_part, catalogue_interface, file_name, tuple(part_ids), tuple(interface_ids))
    known.problems.extend(problems)
    parts = _parts(root, known) if root is not None else ()
    return parts, _in_order(known.problems)


def parse_part_document(
    data: object,
    *,
    table: AttributeTable,
    fits: Fits,
    catalogue_part: Callable[[str], Part | None],
    catalogue_interface: Callable[[str], Interface | None],
    file_name: str = "",
    part_ids: Iterable[str] = (),
    interface_ids: Iterable[str] = (),
) -> PartsAndProblems:
    """The same for JSON that is already decoded; faults carry JSON pointers, but no rows and columns."""
    root, problems = tree_of_data(data, file_name)
    known = _Known(table, fits, catalogue_part, catalogue_interface, file_name, tuple(part_ids), tuple(interface_ids))
    known.problems.extend(problems)
    parts = _parts(root, known) if root is not None else ()
    return parts, tuple(known.problems)


def part_file_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a part file."""
    text = importlib.resources.files("fitdb.intake").joinpath("part_file.schema.json").read_text("utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


def signature(kind: str, readings: Mapping[str, Reading]) -> str:
    """SHA-256 (hex) over the kind and its readings; equal for interfaces that offer the same.

    Spans count to nine significant digits, so that 1/2 in and 12.7 mm agree; who read them and how it was typed do
    not count.
    """
    lines = [kind]
    for name in sorted(readings):
        lines.append(f"{name}={_canonical_text(readings[name])}")
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()


def _canonical_text(reading: Reading) -> str:
    assumed = "assumed" if reading.value_assumed else "read"
    if isinstance(reading, Word):
        words = "|".join(sorted(reading.possible))
        return f"word {assumed} {'open' if reading.open_vocabulary else 'closed'} {words}"
    if isinstance(reading, Count):
        return f"count {assumed} {reading.nominal} {'|'.join(map(str, reading.values))}"
    if isinstance(reading, Outline):
        rings = ";".join(" ".join(",".join(map(_nine_digits, point)) for point in ring) for ring in reading.rings)
        holes = " ".join(",".join(map(_nine_digits, hole)) for hole in reading.holes)
        return f"outline {assumed} {rings} / {holes} / {_nine_digits(reading.spread)}"
    # Whether the span came from a fit table or was stated, the shape is the same.
    span = " ".join(map(_nine_digits, (reading.low, reading.nominal, reading.high)))
    return f"size {assumed} {span} {reading.unit}"


def _nine_digits(value: float) -> str:
    return format(value + 0.0, ".9g")


def _in_order(problems: list[Problem]) -> tuple[Problem, ...]:
    def place(problem: Problem) -> tuple[int, int]:
        return problem.row or 0, int(problem.column) if problem.column.isdigit() else 0

    return tuple(sorted(problems, key=place))


def _parts(root: Node, known: _Known) -> tuple[Part, ...]:
    if root.kind != "mapping":
        known.fault("not_a_mapping", "The file is not a mapping.", root, "It starts with `part:` or `parts:`.")
        return ()
    nodes: list[Node] = []
    unknown = [entry for entry in root.entries if entry.key not in FILE_KEYS]
    if len(unknown) == len(root.entries):
        bare = any(entry.key in PART_KEYS for entry in root.entries)
        hint = "Put all of it under `part:`, indented." if bare else "Start the file with `part:`."
        known.fault("no_part", "There is neither `part:` nor `parts:`.", root, hint)
        if bare:
            nodes.append(root)
    else:
        for entry in unknown:
            what = f"`{shortened(entry.key)}` is not known here."
            known.fault("unknown_key", what, entry, _keys(entry.key, FILE_KEYS))
    for entry in root.entries:
        if entry.key == "part":
            nodes.append(entry.node)
        elif entry.key == "parts":
            if entry.node.kind == "list" and entry.node.items:
                nodes.extend(entry.node.items)
            else:
                what = "`parts` is not a list of parts."
                known.fault("not_a_list", what, entry.node, "Start each part with `- id:`.")
    if len(nodes) > MOST_PARTS:
        known.fault("too_large", f"The file holds more than {MOST_PARTS} parts.", root, "Split it into several files.")
        return ()
    parts: list[Part] = []
    ids: dict[str, Node] = {}
    for node in nodes:
        before = len(known.problems)
        part = _part(node, known)
        if part is None:
            continue
        if part.id in ids:
            where = f" (row {ids[part.id].row})" if ids[part.id].row else ""
            known.fault("duplicate_id", f"Two parts are called `{part.id}`{where}.", node, "Rename one of them.")
        ids.setdefault(part.id, node)
        if len(known.problems) == before:
            parts.append(part)
    return tuple(parts)


def _part(node: Node, known: _Known) -> Part | None:
    if node.kind != "mapping":
        known.fault("not_a_mapping", "A part is not a mapping.", node, f"It has the keys {', '.join(PART_KEYS)}.")
        return None
    for entry in node.entries:
        if entry.key not in PART_KEYS and not (node.path == "" and entry.key in FILE_KEYS):
            what = f"`{shortened(entry.key)}` is not a key of a part."
            known.fault("unknown_key", what, entry, _keys(entry.key, PART_KEYS))
    part_id = _id(node, known)
    like = _like(node, known)
    part_class = _class(node, like, known)
    source = _source(node, known)
    title = _text_of(node.entry("title"), known)
    if part_class is None:
        return None
    # Faults of the readings need some source to be read with; a part without one is refused below.
    draft = _Draft(part_class, source or own_source("guess"), {}, {})
    if like is not None:
        own, ports = known.table.own_attributes(part_class), known.table.ports_of(part_class)
        draft.readings.update((name, value) for name, value in like.readings.items() if name in own)
        draft.interfaces.update((name, face) for name, face in like.ports.items() if ports.get(name) == face.kind)
    _read_ports(node.entry("ports"), draft, known)
    _read_readings(node.entry("readings"), draft, known)
    if draft.unsourced is not None and node.entry("source") is None:
        what = "Nothing says where these readings come from."
        hint = f"Write `source: caliper`, or another of: {', '.join(SOURCE_KINDS)}; or end a reading with `@caliper`."
        known.fault("missing_source", what, draft.unsourced, hint)
    title = title or (like.title if like else known.table.classes[part_class].title)
    ports_of_part = {
        port: _interface(port, part_id or "", title, draft, known)
        for port in known.table.ports_of(part_class)
        if port in draft.interfaces or draft.overrides.get(port)
    }
    return Part(part_id or "", part_class, title, draft.readings, ports_of_part, draft.source)


def _interface(port: str, part_id: str, part_title: str, draft: _Draft, known: _Known) -> Interface:
    """The interface at a port: the catalogue's as it is, or one of the part's own where a reading differs."""
    base, changes = draft.interfaces.get(port), draft.overrides.get(port, {})
    if base is not None and not changes:
        return base
    kind = known.table.ports_of(draft.part_class)[port]
    readings = dict(base.readings) if base else {}
    for name, reading in changes.items():
        if reading is None:
            readings.pop(name, None)
        else:
            readings[name] = reading
    kind_title = known.table.kinds[kind].title if kind in known.table.kinds else kind
    title = f"{kind_title} of {part_title}"
    return Interface(f"{part_id}.{port}", kind, title, readings, signature(kind, readings))


def _id(node: Node, known: _Known) -> str | None:
    entry = node.entry("id")
    if entry is None:
        known.fault("missing_key", "The part has no `id`.", node, "Write `id: my-wheel`.")
        return None
    written = _text_of(entry, known)
    if written is None:
        return None
    if not WELL_FORMED_ID.fullmatch(written):
        what = f"`{shortened(written)}` is not an id: up to 80 of a-z 0-9 . _ -, a letter or digit first."
        better = re.sub(r"[^a-z0-9._-]+", "-", written.casefold()).strip("-._")[:80]
        known.fault("bad_id", what, entry.node, f"Write `{better}`, for instance." if better else "")
        return None
    return written


def _like(node: Node, known: _Known) -> Part | None:
    entry = node.entry("like")
    written = _text_of(entry, known)
    if entry is None or written is None:
        return None
    part = known.catalogue_part(written)
    if part is None:
        hint = did_you_mean(written, known.part_ids) or "Leave `like` out to start from nothing."
        known.fault("unknown_part", f"The catalogue has no part `{shortened(written)}`.", entry.node, hint)
    return part


def _class(node: Node, like: Part | None, known: _Known) -> str | None:
    entry = node.entry("class")
    if entry is None:
        if like is not None:
            return like.part_class
        if node.entry("like") is None:
            known.fault("missing_key", "The part has no `class`.", node, "Write `class: wheel`.")
        return None
    written = _text_of(entry, known)
    if written is None:
        return None
    if written not in known.table.classes:
        alike = nearest(written, known.table.classes)
        hint = f"Did you mean `{alike[0]}`?" if alike else f"Known: {', '.join(known.table.classes)}."
        known.fault("unknown_class", f"There is no part class `{shortened(written)}`.", entry.node, hint)
        # The rest is checked against the class that was probably meant, so that one round finds every fault.
        return alike[0] if alike else None
    line_of = known.table.line_of
    if like is not None and written not in line_of(like.part_class) and like.part_class not in line_of(written):
        what = f"`{like.id}` is a {like.part_class}, and this part is a {written}."
        known.fault("like_other_class", what, entry.node, f"Write `class: {like.part_class}`, or leave `like` out.")
    return written


def _source(node: Node, known: _Known) -> Source | None:
    entry = node.entry("source")
    written = _text_of(entry, known)
    if entry is None or written is None:
        return None
    found = source_named(written, known.table)
    if isinstance(found, Problem):
        known.fault(found.code, found.message, entry.node, found.hint)
        return None
    return found


def _text_of(entry: Entry | None, known: _Known) -> str | None:
    """The text of a plain entry such as id, class or title; None if it is absent or faulty."""
    if entry is None:
        return None
    node = entry.node
    if node.kind != "scalar" or isinstance(node.value, bool):
        known.fault("not_text", f"`{entry.key}` is one word or line of text.", node, f"Write `{entry.key}: …`.")
        return None
    written = "" if node.value is None else str(node.value) if _can_be_written(node.value) else ""
    if not written.strip():
        known.fault("empty", f"`{entry.key}` is empty.", node, "Write it, or leave the line out.")
        return None
    if len(written) > LONGEST_TITLE:
        known.fault("too_long", f"`{entry.key}` is longer than {LONGEST_TITLE} characters.", node, "Shorten it.")
        return None
    if any(unicodedata.category(character) in ("Cc", "Cf", "Cs") for character in written):
        known.fault("control_character", f"`{entry.key}` holds an invisible character.", node, "Type it again.")
        return None
    return written.strip()


def _can_be_written(value: object) -> bool:
    """Whether a scalar can be written out (a whole number of thousands of digits cannot)."""
    return not isinstance(value, int) or abs(value) < 10**LONGEST_TITLE


def _read_ports(entry: Entry | None, draft: _Draft, known: _Known) -> None:
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
            known.fault("unknown_port", what, port, _keys(port.key, ports))
        elif port.node.kind == "mapping":
            _read_port(port, kind, draft, known)
        elif port.node.kind == "list":
            hint = "Write an interface id, or a mapping of readings."
            known.fault("not_a_mapping", f"The port `{port.key}` is a list.", port.node, hint)
        else:
            _take_interface(port.key, port, kind, draft, known)


def _read_port(port: Entry, kind: str, draft: _Draft, known: _Known) -> None:
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
            known.fault("unknown_attribute", what, entry, _keys(entry.key, attributes))
            continue
        _read_one(entry, attribute, port.key, draft, known)


def _take_interface(port: str, entry: Entry, kind: str, draft: _Draft, known: _Known) -> None:
    written = _text_of(entry, known)
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


def _read_readings(entry: Entry | None, draft: _Draft, known: _Known) -> None:
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
    draft: _Draft,
    known: _Known,
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
    known.fault("unknown_attribute", what, item, _keys(item.key, names))
    return None


def _read_one(entry: Entry, attribute: Attribute, port: str, draft: _Draft, known: _Known) -> None:
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


def _keys(key: str, known_keys: Iterable[str]) -> str:
    names = tuple(known_keys)
    alike = did_you_mean(key, names)
    if alike or not names:
        return alike
    listed = ", ".join(names[:40]) + (", …" if len(names) > 40 else "")
    return f"Known here: {listed}."

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
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from fitdb.intake.documents import Node, tree_of_data, tree_of_text
from fitdb.intake.nearest import did_you_mean, nearest, shortened
from fitdb.intake.part_readings import Draft, Known, keys_hint, read_ports, read_readings, text_of
from fitdb.intake.readings import Fits, own_source, source_named
from fitdb.model.interface import Interface
from fitdb.model.part import AttributeTable, Part
from fitdb.model.problems import Problem
from fitdb.model.reading import Count, Outline, Reading, Word
from fitdb.model.source import SOURCE_KINDS, Source

PART_KEYS = ("id", "class", "title", "source", "like", "readings", "ports")
FILE_KEYS = ("part", "parts")
WELL_FORMED_ID = re.compile(r"[a-z0-9][a-z0-9._-]{0,79}")
MOST_PARTS = 1000

PartsAndProblems = tuple[tuple[Part, ...], tuple[Problem, ...]]


def parse_part_file(
    text: str,
    *,
    file_name: str,
    table: AttributeTable,
    fits: Fits,
    catalogue_part: Callable[[str], Part | None],
    catalogue_interface: Callable[[str], Interface | None],
    part_ids_near: Callable[[str], Iterable[str]] = lambda typed: (),
    interface_ids: Iterable[str] = (),
) -> PartsAndProblems:
    """The parts that a YAML or JSON file describes, and every fault with its row, column and JSON pointer.

    A part with a fault of its own is left out of the result. Nothing that is merely unread is a fault here.
    `part_ids_near` and `interface_ids` serve only to name the nearest known id.
    """
    root, problems = tree_of_text(text, file_name)
    known = Known(table, fits, catalogue_part, catalogue_interface, file_name, part_ids_near, tuple(interface_ids))
    known.problems.extend(problems)
    parts = _parts(root, known) if root is not None else ()
    return parts, in_order(known.problems)


def parse_part_document(
    data: object,
    *,
    table: AttributeTable,
    fits: Fits,
    catalogue_part: Callable[[str], Part | None],
    catalogue_interface: Callable[[str], Interface | None],
    file_name: str = "",
    part_ids_near: Callable[[str], Iterable[str]] = lambda typed: (),
    interface_ids: Iterable[str] = (),
) -> PartsAndProblems:
    """The same for JSON that is already decoded; faults carry JSON pointers, but no rows and columns."""
    root, problems = tree_of_data(data, file_name)
    known = Known(table, fits, catalogue_part, catalogue_interface, file_name, part_ids_near, tuple(interface_ids))
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


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The faults as they stand in the file, from top to bottom."""

    def place(problem: Problem) -> tuple[int, int]:
        return problem.row or 0, int(problem.column) if problem.column.isdigit() else 0

    return tuple(sorted(problems, key=place))


def _parts(root: Node, known: Known) -> tuple[Part, ...]:
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
            known.fault("unknown_key", what, entry, keys_hint(entry.key, FILE_KEYS))
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
        part = part_of_node(node, known)
        if part is None:
            continue
        if part.id in ids:
            where = f" (row {ids[part.id].row})" if ids[part.id].row else ""
            known.fault("duplicate_id", f"Two parts are called `{part.id}`{where}.", node, "Rename one of them.")
        ids.setdefault(part.id, node)
        if len(known.problems) == before:
            parts.append(part)
    return tuple(parts)


def part_of_node(
    node: Node,
    known: Known,
    *,
    keys: Sequence[str] = PART_KEYS,
    made_id: str = "",
    source: Source | None = None,
    base: Part | None = None,
) -> Part | None:
    """The part written at a node; its faults go to `known`. None where not even its class can be told.

    keys: those that may stand there. made_id: the id where none is written. source: where readings come from that name
    no source. base: the part that is amended: what is written replaces its readings, and it keeps its id and its class.
    """
    if node.kind != "mapping":
        known.fault("not_a_mapping", "A part is not a mapping.", node, f"It has the keys {', '.join(keys)}.")
        return None
    for entry in node.entries:
        if entry.key not in keys and not (node.path == "" and entry.key in FILE_KEYS):
            what = f"`{shortened(entry.key)}` is not a key of a part."
            known.fault("unknown_key", what, entry, keys_hint(entry.key, keys))
    part_id = base.id if base else made_id if made_id and node.entry("id") is None else _id(node, known)
    like = base or _like(node, known)
    part_class = base.part_class if base else _class(node, like, known)
    source = _source(node, known) or source
    title = text_of(node.entry("title"), known)
    if part_class is None:
        return None
    # Faults of the readings need some source to be read with; a part without one is refused below.
    draft = Draft(part_class, source or own_source("guess"), {}, {})
    if like is not None:
        own, ports = known.table.own_attributes(part_class), known.table.ports_of(part_class)
        draft.readings.update((name, value) for name, value in like.readings.items() if name in own)
        draft.interfaces.update((name, face) for name, face in like.ports.items() if ports.get(name) == face.kind)
    read_ports(node.entry("ports"), draft, known)
    read_readings(node.entry("readings"), draft, known)
    if draft.unsourced is not None and source is None and node.entry("source") is None:
        what = "Nothing says where these readings come from."
        hint = f"Write `source: caliper`, or another of: {', '.join(SOURCE_KINDS)}; or end a reading with `@caliper`."
        known.fault("missing_source", what, draft.unsourced, hint)
    title = title or (like.title if like else known.table.classes[part_class].title)
    ports_of_part = {
        port: _interface(port, part_id or "", title, draft, known)
        for port in known.table.ports_of(part_class)
        if port in draft.interfaces or draft.overrides.get(port)
    }
    return Part(part_id or "", part_class, title, draft.readings, ports_of_part, base.source if base else draft.source)


def _interface(port: str, part_id: str, part_title: str, draft: Draft, known: Known) -> Interface:
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


def _id(node: Node, known: Known) -> str | None:
    entry = node.entry("id")
    if entry is None:
        known.fault("missing_key", "The part has no `id`.", node, "Write `id: my-wheel`.")
        return None
    written = text_of(entry, known)
    if written is None:
        return None
    if not WELL_FORMED_ID.fullmatch(written):
        what = f"`{shortened(written)}` is not an id: up to 80 of a-z 0-9 . _ -, a letter or digit first."
        better = re.sub(r"[^a-z0-9._-]+", "-", written.casefold()).strip("-._")[:80]
        known.fault("bad_id", what, entry.node, f"Write `{better}`, for instance." if better else "")
        return None
    return written


def _like(node: Node, known: Known) -> Part | None:
    entry = node.entry("like")
    written = text_of(entry, known)
    if entry is None or written is None:
        return None
    part = known.catalogue_part(written)
    if part is None:
        hint = did_you_mean(written, known.part_ids_near(written)) or "Leave `like` out to start from nothing."
        known.fault("unknown_part", f"The catalogue has no part `{shortened(written)}`.", entry.node, hint)
    return part


def _class(node: Node, like: Part | None, known: Known) -> str | None:
    entry = node.entry("class")
    if entry is None:
        if like is not None:
            return like.part_class
        if node.entry("like") is None:
            known.fault("missing_key", "The part has no `class`.", node, "Write `class: wheel`.")
        return None
    written = text_of(entry, known)
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


def _source(node: Node, known: Known) -> Source | None:
    entry = node.entry("source")
    written = text_of(entry, known)
    if entry is None or written is None:
        return None
    found = source_named(written, known.table)
    if isinstance(found, Problem):
        known.fault(found.code, found.message, entry.node, found.hint)
        return None
    return found

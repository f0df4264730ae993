"""Plan files: a board as it stands and as it is wanted, as a SwapPlan, with every fault at its place.

plan: softer-wheels
board: {deck: deck-ply-top, wheel: wheel-83, belt: belt-280}
on: {wheel: wheel-97}
shelf: [belt-285]
wish: {speed: {floor: 25 km/h}}

Seats go by any of their names; the narrowest name wins. A part is a catalogue id, {part: id, readings: …} for one with
readings of its own, or written out as in a part file. `fitdb new` writes a commented plan with all that may stand
there.
"""

from __future__ import annotations

import dataclasses
import functools
import importlib.resources
import json
from collections.abc import Callable, Collection, Iterable, Mapping
from typing import Any

from fitdb.intake.documents import Node, tree_of_data, tree_of_text
from fitdb.intake.nearest import nearest, shortened
from fitdb.intake.part_files import WELL_FORMED_ID, in_order, part_file_schema
from fitdb.intake.part_readings import Known, keys_hint, text_of
from fitdb.intake.plan_parts import PlanParts, part_nodes
from fitdb.intake.plan_seats import Filled, Seating
from fitdb.intake.plan_terms import buys_of, limits_of, most_moves_of, readings_of, stock_of, tools_of
from fitdb.intake.plan_wishes import RIDER, ROUTE, WISH, stated_part, wished_part
from fitdb.intake.readings import Fits
from fitdb.model.interface import Interface
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.pattern import Pattern
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Problem

MOST_PARTS = 2000
MAPPINGS = ("board", "donors", "on", "readings", "limits")
STATED = (RIDER, ROUTE, WISH)
LISTS = ("off", "shelf", "stock", "tools", "keep_as_is")
TAKEN_FOR = "A YAML 1.1 reader took `{}` for {}: hand the text over as it is, or quote the key."
ELSEWHERE = {
    "settings": "A setting is a reading of its part: write it under `readings`, like `controller.pack_current`.",
    **dict.fromkeys(("True", "true"), TAKEN_FOR.format("on", "true")),
    **dict.fromkeys(("False", "false"), TAKEN_FOR.format("off", "false")),
}
HINTS = {"empty": "It starts with `plan:`.", "too_deep": "A plan needs ten levels at most."}

PlanAndProblems = tuple[SwapPlan | None, tuple[Problem, ...]]


def parse_plan_file(
    text: str,
    *,
    file_name: str,
    patterns: Mapping[str, Pattern],
    table: AttributeTable,
    fits: Fits,
    catalogue_part: Callable[[str], Part | None],
    catalogue_interface: Callable[[str], Interface | None],
    part_ids_near: Callable[[str], Iterable[str]] = lambda typed: (),
    interface_ids: Iterable[str] = (),
    tools: Collection[str] | None = None,
    limit_keys: Collection[str] | None = None,
) -> PlanAndProblems:
    """The plan that a YAML or JSON file describes, or None and every fault with its row, column and JSON pointer.

    `part_ids_near` and `interface_ids` serve only to name the nearest known id. `tools` and `limit_keys` are all those
    that exist; None leaves them unchecked. The plan's own readings are checked and kept, and applied by
    `own_readings.plan_with_own_readings`.
    """
    root, problems = tree_of_text(text, file_name)
    known = Known(table, fits, catalogue_part, catalogue_interface, file_name, part_ids_near, tuple(interface_ids))
    return _parsed(root, problems, known, patterns, tools, limit_keys)


def parse_plan_document(
    data: object,
    *,
    patterns: Mapping[str, Pattern],
    table: AttributeTable,
    fits: Fits,
    catalogue_part: Callable[[str], Part | None],
    catalogue_interface: Callable[[str], Interface | None],
    file_name: str = "",
    part_ids_near: Callable[[str], Iterable[str]] = lambda typed: (),
    interface_ids: Iterable[str] = (),
    tools: Collection[str] | None = None,
    limit_keys: Collection[str] | None = None,
) -> PlanAndProblems:
    """The same for JSON that is already decoded; faults carry JSON pointers, but no rows and columns."""
    root, problems = tree_of_data(data, file_name)
    known = Known(table, fits, catalogue_part, catalogue_interface, file_name, part_ids_near, tuple(interface_ids))
    return _parsed(root, problems, known, patterns, tools, limit_keys)


def plan_file_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a plan file; what it says of parts and readings is the part file's."""
    schema = _own_schema()
    return {**schema, "$defs": {**part_file_schema()["$defs"], **schema["$defs"]}}


@functools.cache
def _own_schema() -> dict[str, Any]:
    text = importlib.resources.files("fitdb.intake").joinpath("plan_file.schema.json").read_text("utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


def plan_keys() -> tuple[str, ...]:
    """The keys of a plan file, in the order in which they are usually written."""
    return tuple(_own_schema()["properties"])


def default_layout() -> str:
    """The layout of a plan that names none."""
    return str(_own_schema()["properties"]["layout"]["default"])


def _parsed(
    root: Node | None,
    problems: Iterable[Problem],
    known: Known,
    patterns: Mapping[str, Pattern],
    tools: Collection[str] | None,
    limit_keys: Collection[str] | None,
) -> PlanAndProblems:
    for problem in problems:
        known.problems.append(dataclasses.replace(problem, hint=HINTS.get(problem.code, problem.hint)))
    plan = _plan(root, known, patterns, tools, limit_keys) if root is not None else None
    return (None, in_order(known.problems)) if known.problems else (plan, ())


def _plan(
    root: Node,
    known: Known,
    patterns: Mapping[str, Pattern],
    tools: Collection[str] | None,
    limit_keys: Collection[str] | None,
) -> SwapPlan | None:
    if root.kind != "mapping":
        known.fault("not_a_mapping", "The file is not a mapping.", root, "It starts with `plan:`.")
        return None
    sections = _sections(root, known)
    own = _plan_id(root, known)
    title = text_of(root.entry("title"), known)
    nodes = tuple(part_nodes(sections))
    if len(nodes) > MOST_PARTS:
        what = f"The plan names {len(nodes)} parts; {MOST_PARTS} are the most."
        known.fault("too_many_parts", what, root, "Parts to choose from belong in the catalogue: see `fitdb tables`.")
        return None
    parts = PlanParts(known)
    parts.find_written(nodes)
    pattern = _layout(root, known, patterns)
    shelf, stock = stock_of(sections, parts, known)
    riders = {RIDER: sections.get(RIDER), ROUTE: sections.get(ROUTE)}
    stated = {name: stated_part(node, name, parts, known) for name, node in riders.items() if node is not None}
    if WISH in sections:
        stated[WISH] = wished_part(sections[WISH], parts, known)
    owned = tools_of(sections.get("tools"), known, tools)
    limits = limits_of(sections.get("limits"), known, limit_keys)
    buys, most_moves = buys_of(root, known), most_moves_of(root, known)
    if pattern is None:  # nothing can be said of seats; the parts in them are read all the same
        for node in nodes:
            parts.part(node, "part")
        return None
    seating = Seating(pattern, parts, known)
    before = seating.filled(sections.get("board"))
    seating.donors = _donors(sections.get("donors"), seating, known)
    cleared = seating.cleared(sections.get("off"), before)
    on = seating.filled(sections.get("on"), from_donors=True)
    untouchable = {
        seat
        for node in (sections["keep_as_is"].items if "keep_as_is" in sections else ())
        for seat in seating.named(node, "keep_as_is")
    }
    with_stated = _with_stated(before, stated, sections, pattern, known)
    after = {**{seat: part for seat, part in with_stated.items() if seat not in cleared}, **on}
    before = with_stated if before else {}
    readings = readings_of(sections.get("readings"), before, after, pattern, known)
    if known.problems or own is None:
        return None
    pieces: dict[tuple[str, int], Piece] = {}

    def piece(seat: str, part: Part) -> Piece:
        return pieces.setdefault((seat, id(part)), Piece(seat, part))  # kept: one and the same before and after

    return SwapPlan(
        id=own,
        title=title or own,
        pattern=pattern.id,
        before=tuple(piece(seat, part) for seat in pattern.seats if (part := before.get(seat))),
        after=tuple(piece(seat, part) for seat in pattern.seats if (part := after.get(seat))),
        stock=(*shelf, *seating.left_at_donors(), *stock),
        donors={
            name: tuple(piece(seat, part) for seat in pattern.seats if (part := donor.get(seat)))
            for name, donor in seating.donors.items()
        },
        buys=buys,
        untouchable=frozenset(untouchable),
        tools=owned,
        readings=readings,
        limits=limits,
        most_moves=most_moves,
    )


def _sections(root: Node, known: Known) -> dict[str, Node]:
    """The sections that hold something, by name; those of the wrong shape are faults and left out."""
    found: dict[str, Node] = {}
    for entry in root.entries:
        if entry.key not in plan_keys():
            what = f"`{shortened(entry.key)}` is not a key of a plan."
            hint = ELSEWHERE.get(entry.key) or (keys_hint(entry.key, plan_keys()) if known.few() else "")
            known.fault("unknown_key", what, entry, hint)
        elif entry.node.kind == "scalar" and entry.node.value is None and entry.key in (*MAPPINGS, *LISTS, *STATED):
            continue  # a section whose lines are all commented out
        elif entry.key in MAPPINGS and entry.node.kind != "mapping":
            hint = f"Write its lines indented under `{entry.key}:`, each `name: value`."
            known.fault("not_a_mapping", f"`{entry.key}` is not a mapping.", entry.node, hint)
        elif entry.key in LISTS and entry.node.kind != "list":
            hint = f"Write `{entry.key}: [one, another]`, or each on a line of its own after `-`."
            known.fault("not_a_list", f"`{entry.key}` is not a list.", entry.node, hint)
        else:
            found[entry.key] = entry.node
    return found


def _plan_id(root: Node, known: Known) -> str | None:
    entry = root.entry("plan")
    if entry is None:
        known.fault("missing_key", "The plan has no `plan:`, which names it.", root, "Write `plan: my-swap`.")
        return None
    written = text_of(entry, known)
    if written is not None and not WELL_FORMED_ID.fullmatch(written):
        what = f"`{shortened(written)}` is not an id: up to 80 of a-z 0-9 . _ -, a letter or digit first."
        known.fault("bad_id", what, entry.node, "Write `plan: my-swap`, and the rest under `title:`.")
        return None
    return written


def _layout(root: Node, known: Known, patterns: Mapping[str, Pattern]) -> Pattern | None:
    entry = root.entry("layout")
    written = default_layout() if entry is None else text_of(entry, known)
    if written is None or written in patterns:
        return None if written is None else patterns[written]
    alike = nearest(written, patterns)
    hint = f"Did you mean `{alike[0]}`?" if alike else f"Known here: {', '.join(patterns)}."
    what = f"There is no board layout `{shortened(written)}`."
    known.fault("unknown_layout", what, entry.node if entry else root, hint)
    # The rest is checked against the layout that was probably meant, so that one round finds every fault.
    return patterns[alike[0]] if alike and entry is not None else None


def _donors(section: Node | None, seating: Seating, known: Known) -> dict[str, Filled]:
    donors: dict[str, Filled] = {}
    for entry in section.entries if section is not None else ():
        if not WELL_FORMED_ID.fullmatch(entry.key) or "." in entry.key:
            what = f"`{shortened(entry.key)}` is not a name for a donor: up to 80 of a-z 0-9 _ -."
            known.fault("bad_id", what, entry, "Write `old_carver: {rear_truck: …}`, for instance.")
        if entry.node.kind == "mapping":
            donors[entry.key] = seating.filled(entry.node)
        else:
            hint = f"Write `{entry.key}: {{rear_truck: …}}`."
            known.fault("not_a_mapping", f"The donor `{shortened(entry.key)}` is not a mapping.", entry.node, hint)
            donors[entry.key] = {}
    return donors


def _with_stated(
    before: Filled, stated: Mapping[str, Part | None], sections: Mapping[str, Node], pattern: Pattern, known: Known
) -> Filled:
    """The board with rider, route and wish in their seats."""
    filled = dict(before)
    for seat, part in stated.items():
        if seat not in pattern.seats:
            what = f"The layout {pattern.id} has no seat for `{seat}`."
            known.fault("unknown_seat", what, sections[seat], "Leave this section out.")
        elif seat in before:
            what = f"`{seat}` stands under `board` too."
            known.fault("seat_taken", what, sections[seat], "Keep one of the two.")
        else:
            filled[seat] = part
    return filled

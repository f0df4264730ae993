"""Who rides, where, and what is wished for: pieces of the classes rider, route and wish in seats of the same names."""

from __future__ import annotations

from dataclasses import replace

from fitdb.intake.documents import Entry, Node
from fitdb.intake.nearest import shortened
from fitdb.intake.part_readings import Known, keys_hint
from fitdb.intake.plan_parts import PlanParts
from fitdb.intake.readings import own_source
from fitdb.model.part import AttributeTable, Part
from fitdb.model.reading import Count, Designation, Number, Reading

RIDER, ROUTE, WISH = "rider", "route", "wish"
# A mass, a slope and a wish are stated; what is stated has no more spread than a data sheet.
AS_STATED = "data_sheet"
PART_MARKS = ("part", "class", "like", "readings")
# What must not lie below what, for one and the same quantity.
IN_ORDER = (("floor", "target"), ("floor", "ceiling"))


def stated_part(section: Node, part_class: str, parts: PlanParts, known: Known) -> Part | None:
    """The rider or route: an id, a part, or its readings alone; None with its faults noted."""
    if not _has_class(section, part_class, known):
        return None
    node = section
    if section.kind == "mapping" and not any(section.entry(mark) for mark in PART_MARKS):
        readings = [entry for entry in section.entries if entry.key != "source"]
        node = _part_of_readings(section, part_class, readings, section.entry("source"))
    elif section.kind == "mapping" and section.entry("readings") and not any(map(section.entry, PART_MARKS[:3])):
        node = Node("mapping", section.path, section.row, section.column)
        node.entries = [_class_entry(section, part_class), *section.entries]
    part = parts.part(node, part_class, source=own_source(AS_STATED))
    if part is not None and part_class not in known.table.line_of(part.part_class):
        what = f"{part.id} is a {part.part_class}, and a {part_class} stands here."
        known.fault("wrong_class", what, section, f"Write the readings of the {part_class}.")
        return None
    return part


def wished_part(section: Node, parts: PlanParts, known: Known) -> Part | None:
    """The wish: `ratio: {target: 2.93, floor: 2.41}` are its readings ratio_target and ratio_floor."""
    if not _has_class(section, WISH, known):
        return None
    if section.kind != "mapping":
        hint = "Write `wish: {ratio: {target: 2.93, floor: 2.41}}`."
        known.fault("not_a_mapping", "`wish` is not a mapping.", section, hint)
        return None
    names = known.table.own_attributes(WISH)
    before = len(known.problems)
    readings: list[Entry] = []
    for entry in section.entries:
        if entry.node.kind == "mapping":
            readings += _bounds_of(entry, known)
        elif entry.key in names:
            readings.append(entry)
        elif entry.key in wish_quantities(known.table):
            what = f"`{entry.key}` is a single value, and it is not said whether it is wished for or the least."
            hint = f"Write `{entry.key}: {{target: …, floor: …}}`, or one of the two."
            known.fault("target_or_floor", what, entry.node, hint)
        else:
            _unknown_quantity(entry, known)
    part = parts.part(_part_of_readings(section, WISH, readings, None), WISH, source=own_source(AS_STATED))
    if part is not None:
        _check_order(part, section, known)
        part = _with_floors(part, known)
    return part if len(known.problems) == before else None


def _with_floors(part: Part, known: Known) -> Part:
    """A target without a floor has a hundredth of it as its floor: nothing is refused, and what is reached is told."""
    floors: dict[str, Reading] = {}
    for quantity in wish_quantities(known.table):
        target = part.readings.get(f"{quantity}_target")
        if isinstance(target, Number) and f"{quantity}_floor" not in part.readings:
            least = target.nominal / 100
            floors[f"{quantity}_floor"] = Number(least, least, least, target.unit, target.source, "no floor was told")
    return replace(part, readings={**part.readings, **floors})


def wish_quantities(table: AttributeTable) -> dict[str, tuple[str, ...]]:
    """What may be wished for, and as what: `ratio` as target and floor."""
    found: dict[str, tuple[str, ...]] = {}
    for name in table.own_attributes(WISH):
        quantity, _, bound = name.rpartition("_")
        if bound in ("target", "floor", "ceiling"):
            found[quantity] = (*found.get(quantity, ()), bound)
    return found


def _bounds_of(entry: Entry, known: Known) -> list[Entry]:
    bounds = wish_quantities(known.table).get(entry.key)
    if bounds is None:
        _unknown_quantity(entry, known)
        return []
    if not entry.node.entries:
        known.fault("empty", f"Nothing is wished for `{entry.key}`.", entry.node, f"Known here: {', '.join(bounds)}.")
    readings = []
    for bound in entry.node.entries:
        if bound.key in bounds:
            readings.append(Entry(f"{entry.key}_{bound.key}", bound.row, bound.column, bound.node))
        else:
            what = f"`{shortened(bound.key)}` cannot be wished of `{entry.key}`."
            known.fault("unknown_key", what, bound, keys_hint(bound.key, bounds))
    return readings


def _unknown_quantity(entry: Entry, known: Known) -> None:
    quantities = wish_quantities(known.table)
    others = [name for name in known.table.own_attributes(WISH) if name.rpartition("_")[0] not in quantities]
    what = f"Nothing called `{shortened(entry.key)}` can be wished for."
    known.fault("unknown_wish", what, entry, keys_hint(entry.key, (*quantities, *others)) if known.few() else "")


def _check_order(part: Part, section: Node, known: Known) -> None:
    for quantity in wish_quantities(known.table):
        for lower, upper in IN_ORDER:
            least, most = part.readings.get(f"{quantity}_{lower}"), part.readings.get(f"{quantity}_{upper}")
            if not isinstance(least, Number | Count | Designation) or not isinstance(
                most, Number | Count | Designation
            ):
                continue
            if 0 < most.nominal < least.nominal:  # 0 is no wish
                entry = section.entry(quantity) or section.entry(f"{quantity}_{upper}")
                unit = f" {least.unit}" if least.unit else ""
                above, below = f"{most.nominal:g}{unit}", f"{least.nominal:g}{unit}"
                what = f"The {upper} of `{quantity}` ({above}) lies below its {lower} ({below})."
                known.fault("below_floor", what, entry or section, "Exchange the two, or leave one out.")


def _has_class(section: Node, part_class: str, known: Known) -> bool:
    if part_class in known.table.classes:
        return True
    known.fault("unknown_class", f"The catalogue has no class {part_class}.", section, "Leave this section out.")
    return False


def _part_of_readings(section: Node, part_class: str, readings: list[Entry], source: Entry | None) -> Node:
    """The section as a part would be written: its class, its readings, and where they come from."""
    inner = Node("mapping", section.path, section.row, section.column, entries=readings)
    node = Node("mapping", section.path, section.row, section.column)
    node.entries = [_class_entry(section, part_class), Entry("readings", section.row, section.column, inner)]
    node.entries += [source] if source is not None else []
    return node


def _class_entry(section: Node, part_class: str) -> Entry:
    value = Node("scalar", section.path, section.row, section.column, value=part_class)
    return Entry("class", section.row, section.column, value)

"""Which part goes into which seat of a plan: names that mean several seats, lists, and parts of donors."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from fitdb.intake.documents import Entry, Node
from fitdb.intake.nearest import did_you_mean, plain, shortened
from fitdb.intake.part_files import WELL_FORMED_ID
from fitdb.intake.part_readings import Known, text_of_node
from fitdb.intake.plan_parts import PlanParts
from fitdb.intake.seat_names import nearest_seat, rows_named, seats_bearing, seats_named, takes
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.plan import StockItem

# The part in each seat; None where something is written that could not be read, so that nobody calls the seat empty.
Filled = dict[str, Part | None]
FROM = re.compile(r"from +([a-z0-9][a-z0-9_-]*)(?:\.(\S+))?")
STARTS_WITH_FROM = re.compile(r"from(?:\s|$)")


@dataclass(frozen=True, slots=True)
class _Claim:
    """A part for a seat; `width` is how many seats the name means: the narrowest wins."""

    part: Part | None
    entry: Entry
    width: int


@dataclass(slots=True)
class Seating:
    """Reads the sections of a plan that are written by seat. `taken` gathers the donors' seats that `on` draws on."""

    pattern: Pattern
    parts: PlanParts
    known: Known
    donors: Mapping[str, Filled] = field(default_factory=dict)
    taken: set[tuple[str, str]] = field(default_factory=set)

    def filled(self, section: Node | None, *, from_donors: bool = False) -> Filled:
        """The part in each seat that the section names. `from_donors`: whether `from …` may stand for a part."""
        claims: dict[str, list[_Claim]] = {}
        for entry in section.entries if section is not None else ():
            for seat, part in self._of_entry(entry, from_donors).items():
                width = len(seats_named(entry.key, self.pattern))
                claims.setdefault(seat, []).append(_Claim(part, entry, width))
        told: set[tuple[int, int]] = set()
        return {seat: self._narrowest(seat, claims[seat], told) for seat in self.pattern.seats if seat in claims}

    def named(self, node: Node, what: str) -> tuple[str, ...]:
        """The seats that one entry of a list of seats means; a fault where it means none. `what` is the section."""
        written = text_of_node(node, what, self.known)
        if written is None:
            return ()
        seats = seats_named(written, self.pattern)
        if not seats:
            self._unknown_seat(written, node)
        return seats

    def cleared(self, section: Node | None, filled: Mapping[str, Part | None]) -> frozenset[str]:
        """The seats that `off` clears; a fault where nothing stands in any of them."""
        seats: set[str] = set()
        for node in section.items if section is not None else ():
            meant = self.named(node, "off")
            if meant and not any(seat in filled for seat in meant):
                what = f"`{shortened(str(node.value))}` comes off, but nothing stands there on the board."
                self.known.fault("nothing_there", what, node, "Write it under `board`, or leave it out here.")
            seats.update(meant)
        return frozenset(seats)

    def left_at_donors(self) -> tuple[StockItem, ...]:
        """What the donors still have to give: everything that `on` did not take."""
        items: list[StockItem] = []
        for name, donor in self.donors.items():
            left = {id(part): part for seat, part in donor.items() if part and (name, seat) not in self.taken}
            items += [StockItem(part, f"donor {name}", 0.0) for part in left.values()]
        return tuple(items)

    def _unknown_seat(self, name: str, place: Node | Entry) -> None:
        what = f"The layout {self.pattern.id} has no seat `{shortened(name)}`."
        self.known.fault("unknown_seat", what, place, nearest_seat(name, self.pattern) if self.known.few() else "")

    def _of_entry(self, entry: Entry, from_donors: bool) -> Filled:
        node = entry.node
        seats = seats_bearing(entry.key, self.pattern)
        made_id = made_id_of(entry.key)
        if not seats:
            self._unknown_seat(entry.key, entry)
        if node.kind == "list":
            return self._of_list(entry, made_id)
        if from_donors and node.kind == "scalar" and isinstance(node.value, str):
            written = node.value.strip()
            if STARTS_WITH_FROM.match(written):
                return self._from_donor(written, node, entry.key, seats) if seats else {}
        part = self.parts.part(node, made_id)
        self._check_class(part, seats, node)
        return dict.fromkeys(seats, part)

    def _of_list(self, entry: Entry, made_id: str) -> Filled:
        """A list fills the row of each place in order; seats that stand alone (four wheels) one after the other."""
        rows = rows_named(entry.key, self.pattern)
        if all(len(row) == 1 for row in rows):
            rows = (tuple(seat for row in rows for seat in row),)
        items = entry.node.items
        if not items:
            self.known.fault("empty", "The list names no part.", entry.node, "Name one, or leave the line out.")
        room = min(map(len, rows))
        if rows[0] and len(items) > room:
            seats = "1 seat" if room == 1 else f"{room} seats"
            what = f"`{shortened(entry.key)}` has {seats}, and the list names {len(items)} parts."
            self.known.fault("list_too_long", what, entry, f"The seats: {', '.join(rows[0])}.")
        filled: Filled = {}
        for index, node in enumerate(items):
            part = self.parts.part(node, made_id)
            seats_here = tuple(row[index] for row in rows if index < len(row))
            self._check_class(part, seats_here, node)
            filled.update(dict.fromkeys(seats_here, part))
        return filled

    def _from_donor(self, written: str, node: Node, seat_name: str, firsts: tuple[str, ...]) -> Filled:
        """`from old_carver`: what stands in the same seats there; `from old_carver.rear_truck`: in another one."""
        faulty: Filled = dict.fromkeys(firsts, None)
        found = FROM.fullmatch(written)
        if found is None:
            what = f"`{shortened(written)}` does not name a donor."
            self.known.fault("bad_donor", what, node, "Write `from old_carver` or `from old_carver.rear_truck`.")
            return faulty
        name, other = found.group(1), found.group(2)
        if name not in self.donors:
            hint = did_you_mean(name, self.donors) or "Write its parts under `donors`."
            self.known.fault("unknown_donor", f"There is no donor `{shortened(name)}`.", node, hint)
            return faulty
        donor = self.donors[name]
        if other is not None:
            return dict.fromkeys(firsts, self._other_seat(name, other, firsts, node))
        # The second riser comes along where there is one; the first has to be there.
        wanted = [seat for seat in seats_named(seat_name, self.pattern) if seat in firsts or seat in donor]
        missing = [seat for seat in wanted if seat not in donor]
        if missing:
            what = f"The donor {name} has nothing in {', '.join(missing)}."
            self.known.fault("nothing_there", what, node, f"It has: {', '.join(donor) or 'nothing'}.")
            return faulty
        self.taken.update((name, seat) for seat in wanted)
        return {seat: donor[seat] for seat in wanted}

    def _other_seat(self, name: str, other: str, firsts: tuple[str, ...], node: Node) -> Part | None:
        donor = self.donors[name]
        meant = seats_named(other, self.pattern)
        if not meant:
            self._unknown_seat(other, node)
            return None
        standing = [seat for seat in meant if seat in donor]
        different = {id(donor[seat]) for seat in standing}
        if not standing:
            what = f"The donor {name} has nothing in {shortened(other)}."
            self.known.fault("nothing_there", what, node, f"It has: {', '.join(donor) or 'nothing'}.")
            return None
        if len(different) > 1:
            what = f"The donor {name} has different parts in {', '.join(standing)}."
            self.known.fault("which_seat", what, node, "Name one of these seats.")
            return None
        self.taken.update((name, seat) for seat in standing[: max(len(firsts), 1)])
        part = donor[standing[0]]
        self._check_class(part, firsts, node)
        return part

    def _check_class(self, part: Part | None, seats: tuple[str, ...], node: Node) -> None:
        for name in seats if part is not None else ():
            seat = self.pattern.seats[name]
            if part is not None and not takes(seat, part.part_class, self.known.table):
                what = f"{part.id} is a {part.part_class}; the seat {seat.id} takes: {', '.join(seat.classes)}."
                self.known.fault("wrong_class", what, node, "Put it under another seat, or name another part.")
                return

    def _narrowest(self, seat: str, claims: list[_Claim], told: set[tuple[int, int]]) -> Part | None:
        width = min(claim.width for claim in claims)
        nearest, *others = [claim for claim in claims if claim.width == width]
        for other in others:
            pair = (id(nearest.entry), id(other.entry))
            if other.part is nearest.part or pair in told:
                continue
            told.add(pair)
            where = f" (row {nearest.entry.row})" if nearest.entry.row else ""
            what = f"Two parts are named for the seat {seat}: `{nearest.entry.key}`{where} and `{other.entry.key}`."
            hint = f"Write `{seat}` itself, or leave one of the two out."
            self.known.fault("seat_taken", what, other.entry, hint)
        return nearest.part


def made_id_of(name: str) -> str:
    """An id for a part that has none, made from the name of its seat."""
    made = re.sub(r"[^a-z0-9._-]+", "-", plain(name)).strip("-._")[:70]
    return made if WELL_FORMED_ID.fullmatch(made) else "part"

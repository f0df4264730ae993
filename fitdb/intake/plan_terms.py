"""On what terms a plan may be mended: what lies on the shelf, what can be bought, which tools, and how much at once."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from fitdb.intake.assignments import KEY
from fitdb.intake.counted_sizes import contradictions
from fitdb.intake.documents import Entry, Node, plain_value
from fitdb.intake.nearest import did_you_mean, plain, shortened
from fitdb.intake.own_readings import with_own_readings
from fitdb.intake.part_readings import Known, keys_hint, text_of, text_of_node
from fitdb.intake.plan_parts import PlanParts, money_of, number_of
from fitdb.intake.plan_seats import Filled
from fitdb.intake.seat_names import nearest_seat, seats_named
from fitdb.model.joint import Piece
from fitdb.model.pattern import Pattern
from fitdb.model.plan import OwnReading, StockItem
from fitdb.model.problems import Malformed

CATALOGUE, LISTED = "catalogue", "listed"
# Nothing is done to a board without these, so that no remedy names them.
EVERYBODYS_TOOLS = ("hex_keys", "sockets")
LEAST_MOVES, MOST_MOVES, USUAL_MOVES = 1, 12, 9


def stock_of(
    sections: Mapping[str, Node], parts: PlanParts, known: Known
) -> tuple[tuple[StockItem, ...], tuple[StockItem, ...]]:
    """What lies on the shelf, which costs nothing, and what can be bought, with the prices that the plan gives."""
    shelf = [parts.part(node, "shelf") for node in (sections["shelf"].items if "shelf" in sections else ())]
    bought = []
    for node in sections["stock"].items if "stock" in sections else ():
        part = parts.part(node, "stock", extra_keys=("money",))
        money = money_of(node, known)
        if part is not None:
            bought.append(StockItem(part, "stock", money))
    return tuple(StockItem(part, "shelf", 0.0) for part in shelf if part is not None), tuple(bought)


def tools_of(section: Node | None, known: Known, vocabulary: Collection[str] | None) -> frozenset[str] | None:
    """The tools owned, None when nothing was said. `vocabulary`: the tools that remedies name; None checks nothing."""
    if section is None:
        return None
    words = {plain(word): word for word in (*EVERYBODYS_TOOLS, *(vocabulary or ()))}
    owned: set[str] = set()
    for node in section.items:
        written = text_of_node(node, "tools", known)
        if written is None:
            continue
        if vocabulary is not None and plain(written) not in words:
            what = f"No remedy needs a tool called `{shortened(written)}`."
            known.fault("unknown_tool", what, node, keys_hint(written, words.values()) if known.few() else "")
            continue
        owned.add(words.get(plain(written), plain(written)))
    return frozenset(owned)


def limits_of(section: Node | None, known: Known, keys: Collection[str] | None) -> dict[str, float]:
    """Limits of one's own by key. `keys`: those that a rule knows; None checks nothing."""
    limits: dict[str, float] = {}
    for entry in section.entries if section is not None else ():
        if not KEY.fullmatch(entry.key) or (keys is not None and entry.key not in keys):
            hint = (
                did_you_mean(entry.key, (keys or ()) if known.few() else ())
                or "`fitdb rules` prints the keys beside the limits."
            )
            known.fault("unknown_limit", f"No rule has a limit `{shortened(entry.key)}`.", entry, hint)
        value = number_of(entry, known)
        if value is not None:
            limits[entry.key] = value
    return limits


def buys_of(root: Node, known: Known) -> bool:
    """Whether the catalogue may be drawn on beside what the plan lists."""
    entry = root.entry("buy")
    written = text_of(entry, known)
    if entry is not None and written is not None and written not in (CATALOGUE, LISTED):
        what = f"`buy` is `{CATALOGUE}` or `{LISTED}`, not `{shortened(written)}`."
        known.fault("unknown_word", what, entry.node, did_you_mean(written, (CATALOGUE, LISTED)))
    return written != LISTED


def most_moves_of(root: Node, known: Known) -> int:
    """How many remedies one answer may combine."""
    entry = root.entry("most_moves")
    number = number_of(entry, known) if entry is not None else None
    if entry is None or number is None:
        return USUAL_MOVES
    if number != int(number) or not LEAST_MOVES <= number <= MOST_MOVES:
        what = f"`most_moves` is a whole number from {LEAST_MOVES} to {MOST_MOVES}."
        known.fault("impossible_value", what, entry.node, f"Leave it out for {USUAL_MOVES}.")
        return USUAL_MOVES
    return int(number)


def readings_of(
    section: Node | None, before: Filled, after: Filled, pattern: Pattern, known: Known
) -> tuple[OwnReading, ...]:
    """The plan's own readings, tried on the parts that they are of; a fault where one cannot be read there."""
    found: list[OwnReading] = []
    standing = {**before, **after}
    pieces = tuple(Piece(seat, part) for seat, part in standing.items() if part is not None)
    for entry in section.entries if section is not None else ():
        own = _own_reading(entry, pieces, pattern, known)
        if own is None:
            continue
        found.append(own)
        faulty = any(standing[seat] is None for seat in seats_named(own.role, pattern) if seat in standing)
        if not faulty:  # of a part that could not be read, nothing can be told
            pieces = _tried(own, entry, pieces, pattern, known)
    return tuple(found)


def _own_reading(entry: Entry, pieces: tuple[Piece, ...], pattern: Pattern, known: Known) -> OwnReading | None:
    names = entry.key.split(".")
    if len(names) not in (2, 3) or not all(names):
        what = f"`{shortened(entry.key)}` does not name a seat and an attribute."
        known.fault("bad_assignment", what, entry, "Write `rear_left_wheel.window_width: 9.0 mm`.")
        return None
    role, port, attribute = names[0], names[1] if len(names) == 3 else "", names[-1]
    called = {name for piece in pieces for name in (piece.part.id, piece.part.part_class)}
    if not seats_named(role, pattern) and role not in called:
        what = f"The layout {pattern.id} has no seat `{shortened(role)}`."
        known.fault("unknown_seat", what, entry, nearest_seat(role, pattern) if known.few() else "")
        return None
    return OwnReading(role, attribute, plain_value(entry.node), entry.node.path, port)


def _tried(
    own: OwnReading, entry: Entry, pieces: tuple[Piece, ...], pattern: Pattern, known: Known
) -> tuple[Piece, ...]:
    if entry.node.kind == "list":
        known.fault("not_a_reading", f"`{shortened(entry.key)}` is a list.", entry.node, "Write one value.")
        return pieces
    try:
        changed = with_own_readings(pieces, (own,), pattern, known.table, known.fits, several=True)
    except Malformed as malformed:
        for problem in dict.fromkeys(malformed.problems):
            known.fault(problem.code, problem.message, entry.node, problem.hint)
        return pieces
    for part in {id(new.part): new.part for old, new in zip(pieces, changed, strict=True) if new is not old}.values():
        for contradiction in contradictions(part, known.table):
            if own.attribute in contradiction.attributes:
                hint = "Read the three again; one of them is wrong."
                known.fault("contradiction", contradiction.message, entry.node, hint)
    return changed

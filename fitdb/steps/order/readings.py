"""The readings to take on the way: which, and what has to be undone before each can be taken.

A reading that the verdict waits for stands as early as it can. A size that nobody has read and that a step lays bare
is read while it lies bare.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fitdb.model.finding import Input
from fitdb.model.rule import Severity
from fitdb.model.verdict import JointVerdict, ToMeasure
from fitdb.model.work import CardReading
from fitdb.steps.order.boards import Boards, meet
from fitdb.steps.order.undoing import At, Teardown

MOST_BESIDE = 6  # sizes told beside those that the verdict waits for; more are not read on a bench


@dataclass(frozen=True, slots=True)
class Reach:
    """A reading and the least that lays it bare, nothing where it lies open. cut_off: only what is for good does."""

    reading: CardReading
    nodes: frozenset[At]
    cut_off: bool = False


def waited_for(to_measure: Sequence[ToMeasure], teardown: Teardown, done: frozenset[At]) -> tuple[Reach, ...]:
    """The readings that the verdict waits for, the most decisive first. done: what is undone in any case."""
    return tuple(_reach(_of_verdict(one, teardown.boards), teardown, done) for one in to_measure)


def laid_bare(
    joints: Iterable[JointVerdict], teardown: Teardown, done: frozenset[At], told: Sequence[Reach]
) -> tuple[Reach, ...]:
    """Sizes that nobody has read, that a joint which can do damage rests on, and that the card lays bare anyway."""
    boards = teardown.boards
    known = {(one.reading.part, one.reading.attribute) for one in told}
    found: dict[tuple[str, str], dict[str, Input]] = {}
    for item in _unread(joints):
        key = (item.part, item.attribute)
        if key in known or item.seat not in boards.after or _new(boards, item.seat):
            continue
        if set(_baring(boards, item.seat, item.attribute, teardown)) & done:
            found.setdefault(key, {})[item.seat] = item
    return tuple(_beside(tuple(items.values()), teardown, done) for items in list(found.values())[:MOST_BESIDE])


def _beside(items: Sequence[Input], teardown: Teardown, done: frozenset[At]) -> Reach:
    first = items[0]
    title = teardown.boards.after[first.seat].part.title
    seats = tuple(item.seat for item in items)
    reading = CardReading(
        seats, first.part, title, first.attribute, first.unit, None, first.tool, first.how, False, False
    )
    return _reach(reading, teardown, done)


def _unread(joints: Iterable[JointVerdict]) -> Iterator[Input]:
    for joint in joints:
        for finding in joint.findings:
            if finding.rule.severity >= Severity.DAMAGE and finding.state in ("holds", "undecided"):
                for item in finding.inputs:
                    if item.share > 0 and (item.reading is None or item.reading.value_assumed):
                        yield item


def _of_verdict(one: ToMeasure, boards: Boards) -> CardReading:
    asked = {item.seat for finding in one.decides for item in finding.inputs if item.attribute == one.attribute}
    asked |= {_other_side(seat) for seat in asked}  # like sides are judged once, and read both
    at_hand = bool(one.seats) and all(_new(boards, seat) for seat in one.seats)
    seats = (() if at_hand else tuple(seat for seat in one.seats if seat in asked)) or one.seats
    at_hand = at_hand or all(_new(boards, seat) for seat in seats)
    return CardReading(
        seats, one.part, one.title, one.attribute, one.unit, one.settles_within, one.tool, one.how, True, at_hand
    )


def _other_side(seat: str) -> str:
    swapped = {"left": "right", "right": "left"}
    return "_".join(swapped.get(word, word) for word in seat.split("_"))


def _new(boards: Boards, seat: str) -> bool:
    """Whether the piece that will sit there is not on the board yet."""
    before, after = boards.before.get(seat), boards.after.get(seat)
    return after is not None and (before is None or before.part.id != after.part.id)


def _reach(reading: CardReading, teardown: Teardown, done: frozenset[At]) -> Reach:
    """The least that lays it bare: what is undone anyway before anything else, then what takes the fewest minutes."""
    nodes: frozenset[At] = frozenset()
    cut_off = False
    for seat in reading.seats if not reading.at_hand else ():
        ways = [teardown.least(some) for some in _by_step(_baring(teardown.boards, seat, reading.attribute, teardown))]
        open_ways = [way for way in ways if not teardown.irreversible(way - done)]
        cut_off = cut_off or bool(ways and not open_ways)
        if open_ways:
            nodes |= min(open_ways, key=lambda way: (len(way - done), teardown.minutes(way - done).usual))
    return Reach(reading, nodes, cut_off)


def _baring(boards: Boards, seat: str, attribute: str, teardown: Teardown) -> Iterator[At]:
    """Steps on this board that lay the size of what sits there bare."""
    base = boards.base(seat)
    for row in boards.work.laid_bare:
        if (row.seat, row.attribute) == (base, attribute):
            for place in boards.places_of(boards.work.steps[row.step]):
                node = At(row.step, place)
                if meet(place, boards.place(seat)) and node in teardown.needs:
                    yield node


def _by_step(nodes: Iterable[At]) -> list[list[At]]:
    found: dict[str, list[At]] = {}
    for node in nodes:
        found.setdefault(node.step, []).append(node)
    return list(found.values())

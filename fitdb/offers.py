"""The moves there are: each remedy of the catalogue on each seat, with every size, word or part it may draw on.

A remedy names a seat as people do (`driven_pulley`) and stands for every seat of that name; like seats that hold the
same part move together. Nothing is judged here.
"""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from fitdb.board import BoardJudge, Judged
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.plan import StockItem, SwapPlan
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.remedy import WHOLE, Move, Remedy
from fitdb.moves import (
    base_of,
    change_told,
    changed,
    distance,
    exchange,
    part_id,
    setting_unread,
    side_of,
    with_reading,
)
from fitdb.steps.mend import Marks, overlap

StockOf = Callable[[str], tuple[Part, ...]]


@dataclass
class Offers:
    """The moves on boards of one pattern. wanted: seats whose part was asked for. exchanges: also offers parts whose
    exchange makes it another plan. left_out: remedies that are not tried at all, with the reason."""

    judge: BoardJudge
    plan: SwapPlan
    wanted: frozenset[str]
    stock_of: StockOf
    exchanges: bool = False
    left_out: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.named: defaultdict[str, list[str]] = defaultdict(list)
        for seat in self.judge.pattern.seats.values():
            for name in dict.fromkeys((*seat.names, seat.id)):
                self.named[name].append(seat.id)
        self._altered: dict[tuple[int, str, object], Part] = {}
        self._stock: dict[str, tuple[StockItem, ...]] = {}
        self.remedies = self._by_seat()

    def moves(self, board: Judged, remedy: Remedy, seat: str, moved: Marks) -> Iterator[Move]:
        changed = remedy.attribute if remedy.move in ("alter", "set") else WHOLE
        if overlap(((seat, changed),), moved):
            return
        piece = board.seated.get(seat)
        if remedy.move == "insert":
            if piece is None:
                yield from self._inserts(board, remedy, seat)
            return
        if piece is None or piece.by_default:
            return
        if seat in self.plan.untouchable:
            self.left_out.setdefault(remedy.title, f"{seat} is to stay as it is")
            return
        like = [other for other in self._together(remedy, seat) if part_id(board.seated.get(other)) == piece.part.id]
        seats = [
            other for other in like if not overlap(((other, changed),), moved) and other not in self.plan.untouchable
        ]
        if remedy.move == "substitute":
            yield from self._substitutes(remedy, seats, piece.part)
        else:
            yield from self._changes(board, remedy, seats, piece.part)

    def _inserts(self, board: Judged, remedy: Remedy, seat: str) -> Iterator[Move]:
        """The stock in the empty seat, and in the like seat of the other side where that side is alike."""
        if self._waits(board, remedy, seat):
            return
        seats = [seat] + [
            other
            for other in self._together(remedy, seat)
            if other != seat and other not in board.seated and self._alike(board, seat, other)
        ]
        for item in self._items(remedy):
            if self._takes(seat, item.part):
                yield self._move(remedy, seats, item.part, item.part.title, item)

    def _substitutes(self, remedy: Remedy, seats: list[str], part: Part) -> Iterator[Move]:
        another = self._is_another_plan(part)
        if another and not self.exchanges:
            return
        for item in self._items(remedy):
            if item.part.id == part.id or not seats or not self._takes(seats[0], item.part):
                continue
            move = self._move(remedy, seats, item.part, item.part.title, item)
            wanted = bool(self.wanted & set(seats))
            yield dataclasses.replace(
                move, replaces_wanted=wanted, another_plan=another, step=distance(part, item.part)
            )

    def _changes(self, board: Judged, remedy: Remedy, seats: list[str], part: Part) -> Iterator[Move]:
        """The attribute at each stocked size, or each other word.

        What nobody has read is not altered; but a setting that nobody has read is set, and known from then on.
        """
        place, reading = part.offers(remedy.attribute)
        if reading is None and remedy.move == "set":
            reading = setting_unread(self.judge.book.table.attribute_of(part.part_class, remedy.attribute))
        if reading is None or isinstance(reading, Outline) or not seats:
            return
        if remedy.move == "alter" and isinstance(reading, Word) and len(reading.possible) > 1:
            return
        for value in self._values(remedy, part, reading):
            pieces = tuple(  # each seat keeps what was altered there alone
                Piece(seat, self._with(board.seated[seat].part, place, remedy.attribute, reading, value))
                for seat in seats
            )
            step = 0.0
            if not isinstance(reading, Word):
                step = abs(float(value) - reading.nominal) / max(abs(reading.nominal), 1e-9)  # type: ignore[arg-type]
            told = change_told(remedy.attribute, reading, value)
            yield Move(remedy, pieces, told, minutes=remedy.minutes, money=remedy.money, step=step)

    def _values(self, remedy: Remedy, part: Part, reading: Reading) -> Iterable[object]:
        if isinstance(reading, Word):
            described = self.judge.book.table.attribute_of(part.part_class, remedy.attribute)
            words = remedy.only or (described.vocabulary if described else ())
            return [word for word in words if reading.possible != {word}]
        assert isinstance(reading, Number | Designation | Count)
        for own in self.judge.book.table.line_of(part.part_class):
            if (own, remedy.attribute) in self.judge.book.stock:
                sizes = self.judge.book.stock[own, remedy.attribute]
                if "up" in remedy.only:
                    return [size for size in sizes if size > reading.nominal + 1e-9]
                if "down" in remedy.only:
                    return [size for size in sizes if size < reading.nominal - 1e-9]
                return [size for size in sizes if reading.value_assumed or abs(size - reading.nominal) > 1e-9]
        return []

    def _with(self, part: Part, place: str, attribute: str, reading: Reading, value: object) -> Part:
        """The part with one reading changed; the same part object for the same change, so that it is remembered."""
        key = (id(part), attribute, value)
        if key not in self._altered:
            self._altered[key] = with_reading(part, place, attribute, changed(reading, value))
        return self._altered[key]

    def _move(self, remedy: Remedy, seats: list[str], part: Part, what: str, item: StockItem) -> Move:
        pieces = tuple(Piece(seat, part) for seat in seats)
        money = remedy.money if item.money is None else item.money * len(seats)
        return Move(remedy, pieces, what, item.where, remedy.minutes, money)

    def _by_seat(self) -> dict[str, list[Remedy]]:
        found: defaultdict[str, list[Remedy]] = defaultdict(list)
        for remedy in self.judge.book.remedies:
            if remedy.tool and self.plan.tools is not None and remedy.tool not in self.plan.tools:
                self.left_out[remedy.title] = (
                    f"it takes a {remedy.tool.replace('_', ' ')}, which is not among the tools"
                )
                continue
            for seat in self.named.get(remedy.seat, ()):
                found[seat].append(remedy)
        if self.exchanges:
            for seat_id, described in self.judge.pattern.seats.items():
                for own in described.classes:
                    if own in self.judge.book.table.classes and self.judge.book.table.classes[own].another_plan:
                        found[seat_id].append(exchange(own, seat_id))
        return dict(found)

    def _together(self, remedy: Remedy, seat: str) -> list[str]:
        """Like seats that move with this one, itself first: of the same end, or of the whole board's row."""
        seats = self.judge.pattern.seats
        base, end = base_of(seats[seat]), seat.split("_", 1)[0]
        if remedy.together == "board":
            like = [other.id for other in seats.values() if (other.row or other.id) == (seats[seat].row or seat)]
        elif remedy.together == "end" and base != seat:
            like = [
                other for other in self.named[base] if base_of(seats[other]) == base and other.startswith(f"{end}_")
            ]
        else:
            like = []
        return [seat, *(other for other in like if other != seat)]

    def _waits(self, board: Judged, remedy: Remedy, seat: str) -> bool:
        """Whether a seat that has to be filled first is empty at the same place: a second riser needs a first."""
        place = seat.removesuffix(base_of(self.judge.pattern.seats[seat]))
        return any(f"{place}{first}" not in board.seated for first in remedy.only)

    def _alike(self, board: Judged, seat: str, other: str) -> bool:
        """Whether the other side holds the same parts round this seat as this side does."""
        prefix, mirrored = side_of(seat), side_of(other)
        here = {s.replace(prefix, mirrored, 1): p for s, p in board.seated.items() if s.startswith(prefix)}
        there = {s: p for s, p in board.seated.items() if s.startswith(mirrored)}
        return {s: p.part.id for s, p in here.items()} == {s: p.part.id for s, p in there.items()}

    def _items(self, remedy: Remedy) -> tuple[StockItem, ...]:
        """What the remedy may draw on: the plan's own stock first, then the catalogue's. A class that has a remedy of
        its own is not drawn on by the remedy of a class that it is like."""
        if remedy.stock not in self._stock:
            table = self.judge.book.table
            with_own = {one.stock for one in self.judge.book.remedies if one.move in ("insert", "substitute")}
            listed = [
                item
                for item in self.plan.stock
                if remedy.stock in table.line_of(item.part.part_class)
                and (item.part.part_class == remedy.stock or item.part.part_class not in with_own)
            ]
            bought = [
                StockItem(part, "catalogue")
                for part in (self.stock_of(remedy.stock) if self.plan.buys else ())
                if (part.part_class == remedy.stock or part.part_class not in with_own)
                and all(item.part.id != part.id for item in listed)
            ]
            self._stock[remedy.stock] = (*listed, *bought)
        return self._stock[remedy.stock]

    def _takes(self, seat: str, part: Part) -> bool:
        classes = self.judge.pattern.seats[seat].classes
        return any(own in classes for own in self.judge.book.table.line_of(part.part_class))

    def _is_another_plan(self, part: Part) -> bool:
        return self.judge.book.table.classes[part.part_class].another_plan

    def parts_like(self, part: Part) -> tuple[Part, ...]:
        """Parts of the same class in the plan's stock and, where it may be drawn on, the catalogue."""
        listed = tuple(item.part for item in self.plan.stock if item.part.part_class == part.part_class)
        bought = self.stock_of(part.part_class) if self.plan.buys else ()
        return (*listed, *(one for one in bought if one.part_class == part.part_class))

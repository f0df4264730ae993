"""What can be done to a board: the remedies of the catalogue as moves on its seats, each size found by judging.

`mend` searches; this says which moves there are. A remedy names a seat as people do (`driven_pulley`) and stands for
every seat of that name on the board; like seats that hold the same part move together. What a move cures and breaks
is never declared: the line whose finding it is for is judged again with each stocked size.
"""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from fitdb.board import BoardJudge, Judged, touched, with_moved
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.plan import StockItem, SwapPlan
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.remedy import WHOLE, Cost, Move, Remedy
from fitdb.model.rule import Severity
from fitdb.moves import (
    base_of,
    change_told,
    changed,
    distance,
    exchange,
    mark_of,
    part_id,
    part_in,
    setting_unread,
    side_of,
    unread_at,
    wished,
    with_reading,
)
from fitdb.steps.mend import Failing, Marks, OutOfBudget, Workshop, overlap

StockOf = Callable[[str], tuple[Part, ...]]
SIZES_KEPT = {"insert": 6, "substitute": 6, "alter": 2, "set": 2}


@dataclass
class BoardWorkshop:
    """The moves on one board. `exchanges` also offers parts whose exchange makes it another plan, and nothing else of
    the kind is ever offered.

    start: the board as asked. stood: the board before, None when there was none. stock_of: the catalogue's parts of a
    class.
    """

    judge: BoardJudge
    plan: SwapPlan
    start: Judged
    stood: Judged | None
    stock_of: StockOf
    exchanges: bool = False
    expired: Callable[[], bool] = lambda: False
    left_out: dict[str, str] = field(default_factory=dict)  # remedy title -> why it was not tried

    def __post_init__(self) -> None:
        self._named: defaultdict[str, list[str]] = defaultdict(list)
        for seat in self.judge.pattern.seats.values():
            for name in dict.fromkeys((*seat.names, seat.id)):
                self._named[name].append(seat.id)
        self._wanted = {
            piece.seat
            for piece in self.plan.after
            if self.stood is not None and part_in(self.stood.seated.get(piece.seat)) is not piece.part
        }
        self._undecided = {name for name, _ in self._in_state(self.start, "undecided")}
        self._thin = self._thin_of(self.start)
        self._altered: dict[tuple[int, str, object], Part] = {}
        self._stock: dict[str, tuple[StockItem, ...]] = {}
        self._offers: dict[Hashable, tuple[Move, ...]] = {}
        self._seats_round: dict[str, tuple[str, ...]] = {}
        self._remedies = self._by_seat()

    def shop(self) -> Workshop[Judged]:
        return Workshop(
            self.failing, self.candidates, self.applied, self.lead, mark_of, self.in_cone, self.lost, self.room
        )

    # --- what mend asks ------------------------------------------------------------------------------------

    def failing(self, board: Judged) -> tuple[Failing, ...]:
        """Findings of touched joints that fail, one per joint line and rule, the worst of them."""
        worst: dict[str, float] = {}
        for name, finding in self._in_state(board, "fails"):
            margin = finding.margin.nominal if finding.margin else 0.0
            worst[name] = min(margin, worst.get(name, margin))
        return tuple(Failing(name, margin) for name, margin in worst.items())

    def candidates(self, board: Judged, failing: Failing, moved: Marks) -> tuple[Move, ...]:
        """Moves that cure the finding; where none does, the two that better it most."""
        line_id, rule_id = failing.name.split("|")
        round_it = self._round(line_id)
        here = frozenset(mark for mark in moved if mark[0] in round_it)
        key = (failing.name, here, tuple(id(part_in(board.seated.get(seat))) for seat in round_it))
        if key not in self._offers:
            self._offers[key] = tuple(self._tried(board, line_id, rule_id, moved))
        refused = self._refused(board)
        return tuple(move for move in self._offers[key] if not self._talks_away(board, move, refused))

    def _round(self, line_id: str) -> tuple[str, ...]:
        """Every seat that says which moves there are for a line: its own, like ones, and those beside them."""
        if line_id not in self._seats_round:
            seats = set(self.judge.seats_of(line_id))
            like = {
                other for seat in seats for name in self.judge.pattern.seats[seat].names for other in self._named[name]
            }
            sides = tuple(side_of(seat) for seat in seats | like if side_of(seat) != seat)
            beside = {seat for seat in self.judge.pattern.seats if seat.startswith(sides)} if sides else set()
            self._seats_round[line_id] = tuple(sorted(seats | like | beside))
        return self._seats_round[line_id]

    def _refused(self, board: Judged) -> list[tuple[str, Finding]]:
        """Line and finding of what fails here and nothing but another part may cure."""
        return [
            (name.split("|")[0], finding) for name, finding in self._in_state(board, "fails") if finding.rule.refused
        ]

    def _talks_away(self, board: Judged, move: Move, refused: Iterable[tuple[str, Finding]]) -> bool:
        """Whether a move chosen for another finding would cure a refused one, or changes a reading that it follows."""
        for line_id, finding in refused:
            blamed = {item.seat for item in finding.inputs}
            if move.remedy.move == "substitute" and blamed & set(move.seats):
                continue
            if any((item.seat, item.attribute) in move.marks for item in finding.inputs):
                return True
            after = self._rule_on(board, line_id, finding.rule.id, {piece.seat: piece for piece in move.pieces})
            if not any(one.joint == finding.joint and one.state == "fails" for one in after):
                return True
        return False

    def in_cone(self, failing: Failing, seat: str) -> bool:
        """Whether the seat is one that the finding's line looks at; what is refused has no cone but its own parts."""
        line_id, rule_id = failing.name.split("|")
        return not self.judge.rules.rules[rule_id].refused and seat in self.judge.seats_of(line_id)

    def applied(self, board: Judged, move: Move) -> Judged:
        return self.judge.again(board, {piece.seat: piece for piece in move.pieces})

    def lead(self, board: Judged) -> tuple[int, float, int]:
        """New undecided findings, shortfall against the wish, findings that newly hold without their comfort."""
        undecided = {name for name, _ in self._in_state(board, "undecided")} - self._undecided
        return len(undecided), self.shortfall(board), len(self._thin_of(board) - self._thin)

    def shortfall(self, board: Judged) -> float:
        """How far the wishes are missed, summed, each as a share of its target."""
        short: dict[str, float] = {}
        wish = board.seated.get("wish")
        if wish is None:
            return 0.0
        for joint in board.joints:
            for finding in joint.findings:
                for name, floor in wished(finding):
                    target = wish.part.readings.get(f"{name}_target")
                    if finding.value is not None and isinstance(target, Number) and target.nominal > 0:
                        missed = max(0.0, (target.nominal - finding.value.nominal - floor) / target.nominal)
                        short[name] = max(missed, short.get(name, 0.0))
        return round(sum(short.values()), 9)

    def lost(self, failing: Failing) -> bool:
        """What is refused and has no candidate never gets one: only another part in its own place could be that."""
        return self.judge.rules.rules[failing.name.split("|")[1]].refused

    def room(self, board: Judged, chosen_for: Sequence[str]) -> float:
        """What the lines that were mended have to spare: the least margin of each, summed."""
        lines = {name.split("|")[0] for name in chosen_for}
        least: dict[str, float] = {}
        for joint in board.joints:
            line = joint.joint.line.id
            for finding in joint.findings if line in lines else ():
                if finding.state == "holds" and finding.margin is not None:
                    least[line] = min(finding.margin.nominal, least.get(line, finding.margin.nominal))
        return sum(least.values())

    def _in_state(self, board: Judged, state: str) -> Iterator[tuple[str, Finding]]:
        for joint in touched(board, self.stood):
            for finding in joint.findings:
                if finding.state == state:
                    yield f"{joint.joint.line.id}|{finding.rule.id}", finding

    def _thin_of(self, board: Judged) -> set[str]:
        return {
            name
            for name, finding in self._in_state(board, "holds")
            if finding.comfort_missed and finding.rule.severity >= Severity.INJURY
        }

    def closers(self, board: Judged, name: str, moved: Marks) -> tuple[Move, ...]:
        """Reversible remedies that give nothing up and after which an undecided finding holds over all its readings."""
        line_id, rule_id = name.split("|")
        if self.judge.rules.rules[rule_id].refused:
            return ()
        before = {one for state in ("fails", "undecided") for one, _ in self._in_state(board, state)}
        found: list[Move] = []
        for seat in self.judge.seats_of(line_id):
            for remedy in self._remedies.get(seat, ()):
                if not remedy.reversible or remedy.gives_up:
                    continue
                for move in self._moves(board, remedy, seat, moved):
                    after = self._rule_on(board, line_id, rule_id, {piece.seat: piece for piece in move.pieces})
                    if not after or {finding.state for finding in after} - {"holds", "excused"}:
                        continue
                    if move.replaces_wanted or move.another_plan:
                        continue
                    whole = self.applied(board, move)
                    left = {one for state in ("fails", "undecided") for one, _ in self._in_state(whole, state)}
                    if left < before:
                        found.append(move)
        return tuple(sorted(found, key=lambda move: (move.minutes, move.money, move.step))[:3])

    def moves_at(self, board: Judged, seat: str) -> Iterator[Move]:
        """Every move that the remedies have at one seat, whatever it may be good for."""
        for remedy in self._remedies.get(seat, ()):
            yield from self._moves(board, remedy, seat, frozenset())

    # --- moves for one finding -----------------------------------------------------------------------------

    def _tried(self, board: Judged, line_id: str, rule_id: str, moved: Marks) -> list[Move]:
        """Every move on a seat that the line looks at, judged on that line alone; of each remedy the best sizes."""
        here = self._rule_on(board, line_id, rule_id, {})
        rule = self.judge.rules.rules[rule_id]
        blamed = {item.seat for finding in here for item in finding.inputs}
        least = min((finding.margin.nominal for finding in here if finding.margin), default=0.0)
        cures: list[Move] = []
        betters: list[tuple[float, Move]] = []
        seen: dict[tuple[tuple[str, int], ...], Cost] = {}
        for seat in self.judge.seats_of(line_id):
            for remedy in self._remedies.get(seat, ()):
                if rule.refused and (remedy.move != "substitute" or seat not in blamed):
                    continue
                found: list[tuple[float, Move]] = []
                for move in self._moves(board, remedy, seat, moved):
                    if self.expired():
                        raise OutOfBudget
                    mark = tuple((piece.seat, id(piece.part)) for piece in move.pieces)
                    if (mark in seen and seen[mark] <= move.cost()) or self._undoes(board, move):
                        continue
                    seen[mark] = move.cost()
                    after = self._rule_on(board, line_id, rule_id, {piece.seat: piece for piece in move.pieces})
                    states = {finding.state for finding in after}
                    if not after or states <= {"not_asked"}:
                        continue
                    if "fails" not in states:
                        if move.where == "catalogue" and unread_at(after, move):
                            continue  # nobody buys a part whose size nobody knows
                        found.append((float("undecided" in states), move))
                        continue
                    margin = min((finding.margin.nominal for finding in after if finding.margin), default=0.0)
                    if margin > least + 1e-9:
                        betters.append((-margin, move))
                found.sort(key=lambda pair: (pair[0], pair[1].where == "catalogue", pair[1].step, pair[1].money))
                cures += [move for _, move in found[: SIZES_KEPT[remedy.move]]]
        if cures:
            return cures
        return [move for _, move in sorted(betters, key=lambda pair: pair[0])[:2]]

    def _rule_on(
        self, board: Judged, line_id: str, rule_id: str, moved: Mapping[str, Piece | None]
    ) -> tuple[Finding, ...]:
        """Without joints that say to the letter what they said before: the swap is never blamed for them."""
        seated = with_moved(board.seated, moved) if moved else board.seated
        told = self.judge.rule_on(line_id, rule_id, seated)
        if self.stood is None:
            return told
        before = {finding.joint: finding for finding in self.judge.rule_on(line_id, rule_id, self.stood.seated)}
        return tuple(finding for finding in told if before.get(finding.joint) != finding)

    def _moves(self, board: Judged, remedy: Remedy, seat: str, moved: Marks) -> Iterator[Move]:
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
            wanted = bool(self._wanted & set(seats))
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

    def parts_like(self, part: Part) -> tuple[Part, ...]:
        """Parts of the same class in the plan's stock and, where it may be drawn on, the catalogue."""
        listed = tuple(item.part for item in self.plan.stock if item.part.part_class == part.part_class)
        bought = self.stock_of(part.part_class) if self.plan.buys else ()
        return (*listed, *(one for one in bought if one.part_class == part.part_class))

    def _undoes(self, board: Judged, move: Move) -> bool:
        """Whether the board would stand as it stood before: no swap at all is no answer to a swap."""
        if self.stood is None or move.remedy.move in ("alter", "set"):
            return False
        after = with_moved(board.seated, {piece.seat: piece for piece in move.pieces})
        stood = {seat: piece.part.id for seat, piece in self.stood.seated.items()}
        return {seat: piece.part.id for seat, piece in after.items()} == stood

    # --- seats and stock -----------------------------------------------------------------------------------

    def _by_seat(self) -> dict[str, list[Remedy]]:
        found: defaultdict[str, list[Remedy]] = defaultdict(list)
        for remedy in self.judge.book.remedies:
            if remedy.tool and self.plan.tools is not None and remedy.tool not in self.plan.tools:
                self.left_out[remedy.title] = (
                    f"it takes a {remedy.tool.replace('_', ' ')}, which is not among the tools"
                )
                continue
            for seat in self._named.get(remedy.seat, ()):
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
                other for other in self._named[base] if base_of(seats[other]) == base and other.startswith(f"{end}_")
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

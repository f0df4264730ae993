"""What can be done to a board: the remedies of the catalogue as moves on its seats, each size found by judging.

`mend` searches; this says which moves there are. A remedy names a seat as people do (`driven_pulley`) and stands for
every seat of that name on the board; like seats that hold the same part move together. What a move cures and breaks
is never declared: the line whose finding it is for is judged again with each stocked size.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from fitdb.board import BoardJudge, Judged, Stood, touched, with_moved
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.plan import SwapPlan
from fitdb.model.reading import Number
from fitdb.model.remedy import Cost, Move
from fitdb.model.rule import Severity
from fitdb.moves import mark_of, part_in, side_of, unread_at, wished
from fitdb.offers import Offers, StockOf
from fitdb.steps.mend import Failing, Marks, OutOfBudget, Workshop

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

    def __post_init__(self) -> None:
        wanted = {
            piece.seat
            for piece in self.plan.after
            if self.stood is not None and part_in(self.stood.seated.get(piece.seat)) is not piece.part
        }
        self.offers = Offers(self.judge, self.plan, frozenset(wanted), self.stock_of, self.exchanges)
        self._undecided = {name for name, _ in self._in_state(self.start, "undecided")}
        self._thin = self._thin_of(self.start)
        self._known: dict[Hashable, tuple[Move, ...]] = {}
        self._seats_round: dict[str, tuple[str, ...]] = {}
        self._stood_before: dict[tuple[str, str], tuple[Stood, ...]] = {}

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
        if key not in self._known:
            self._known[key] = tuple(self._tried(board, line_id, rule_id, moved))
        refused = self._refused(board)
        return tuple(move for move in self._known[key] if not self._talks_away(board, move, refused))

    def _round(self, line_id: str) -> tuple[str, ...]:
        """Every seat that says which moves there are for a line: its own, like ones, and those beside them."""
        if line_id not in self._seats_round:
            seats = set(self.judge.seats_of(line_id))
            like = {
                other
                for seat in seats
                for name in self.judge.pattern.seats[seat].names
                for other in self.offers.named[name]
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
            for remedy in self.offers.remedies.get(seat, ()):
                if not remedy.reversible or remedy.gives_up:
                    continue
                for move in self.offers.moves(board, remedy, seat, moved):
                    after = self._rule_on(board, line_id, rule_id, {piece.seat: piece for piece in move.pieces})
                    if not after or {one.state for one in after} - {"holds", "excused"}:
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
        for remedy in self.offers.remedies.get(seat, ()):
            yield from self.offers.moves(board, remedy, seat, frozenset())

    # --- moves for one finding -----------------------------------------------------------------------------

    def _tried(self, board: Judged, line_id: str, rule_id: str, moved: Marks) -> list[Move]:
        """Every move on a seat that the line looks at, judged on that line alone; of each remedy the best sizes."""
        here = self._rule_on(board, line_id, rule_id, {})
        rule = self.judge.rules.rules[rule_id]
        blamed = {seat for one in here for seat, _, _ in one.read}
        least = min((one.margin for one in here if one.margin is not None), default=0.0)
        cures: list[Move] = []
        betters: list[tuple[float, Move]] = []
        seen: dict[tuple[tuple[str, int], ...], Cost] = {}
        for seat in self.judge.seats_of(line_id):
            for remedy in self.offers.remedies.get(seat, ()):
                if rule.refused and (remedy.move != "substitute" or seat not in blamed):
                    continue
                found: list[tuple[int, Move]] = []
                for move in self.offers.moves(board, remedy, seat, moved):
                    if self.expired():
                        raise OutOfBudget
                    mark = tuple((piece.seat, id(piece.part)) for piece in move.pieces)
                    if (mark in seen and seen[mark] <= move.cost()) or self._undoes(board, move):
                        continue
                    seen[mark] = move.cost()
                    after = self._rule_on(board, line_id, rule_id, {piece.seat: piece for piece in move.pieces})
                    states = {one.state for one in after}
                    if not after or states <= {"not_asked"}:
                        continue
                    if "fails" not in states:
                        if move.where == "catalogue" and unread_at(after, move):
                            continue  # nobody buys a part whose size nobody knows
                        found.append((_doubt(after), move))
                        continue
                    margin = min((one.margin for one in after if one.margin is not None), default=0.0)
                    if margin > least + 1e-9:
                        betters.append((-margin, move))
                found.sort(key=lambda pair: (pair[0], pair[1].where == "catalogue", pair[1].step, pair[1].money))
                cures += [move for _, move in found[: SIZES_KEPT[remedy.move]]]
        if cures:
            return cures
        return [move for _, move in sorted(betters, key=lambda pair: pair[0])[:2]]

    def _rule_on(
        self, board: Judged, line_id: str, rule_id: str, moved: Mapping[str, Piece | None]
    ) -> tuple[Stood, ...]:
        """Without joints that stand to the letter as they stood before: the swap is never blamed for them."""
        seated = with_moved(board.seated, moved) if moved else board.seated
        told = self.judge.stood_on(line_id, rule_id, seated)
        if self.stood is None:
            return told
        if (line_id, rule_id) not in self._stood_before:
            self._stood_before[line_id, rule_id] = self.judge.stood_on(line_id, rule_id, self.stood.seated)
        before = {one.joint: one for one in self._stood_before[line_id, rule_id]}
        return tuple(one for one in told if before.get(one.joint) != one)

    def _undoes(self, board: Judged, move: Move) -> bool:
        """Whether the board would stand as it stood before: no swap at all is no answer to a swap."""
        if self.stood is None or move.remedy.move in ("alter", "set"):
            return False
        after = with_moved(board.seated, {piece.seat: piece for piece in move.pieces})
        stood = {seat: piece.part.id for seat, piece in self.stood.seated.items()}
        return {seat: piece.part.id for seat, piece in after.items()} == stood


def _doubt(stood: Sequence[Stood]) -> int:
    """0 where all hold, 1 where one is in doubt, 2 where one in doubt would fail at what was read."""
    open_ones = [one for one in stood if one.state == "undecided"]
    if any(one.margin is not None and one.margin < 0 for one in open_ones):
        return 2
    return int(bool(open_ones))

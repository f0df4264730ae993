"""Which choices cannot stand together: the smallest sets of pieces that make a rule fail, and what would free each.

A set of pieces is a conflict when the joint line fails a rule with these pieces alone in their seats, all others taken
away, and no part of the set does. What holds once a piece is gone is not asked, so no smaller set is ever
blamed for what it cannot do by itself.
"""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from fitdb.board import BoardJudge, Judged, touched, with_moved
from fitdb.model.finding import Finding, Input
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.reading import Count, Designation, Number
from fitdb.model.rule import Rule, Shape
from fitdb.model.verdict import Conflict, Freeing, JointVerdict, Wanted
from fitdb.moves import distance, with_reading
from fitdb.workshop import BoardWorkshop

MOST_PIECES = 10  # of one line, among which subsets are looked through
HALVINGS = 24
BAD = frozenset({"fails", "not_asked", "undecided"})
MOST_TRIED = 3  # parts of the stock, most alike first
MOST_WAYS = 2  # of one part, told as another plan


def conflicts(
    shop: BoardWorkshop,
    board: Judged,
    stood: Judged | None,
    expired: Callable[[], bool] = lambda: False,
    most: int = 6,
) -> tuple[Conflict, ...]:
    """The conflicts of a board, most severe first; both sides of a board told once.

    Once the time is up a conflict is all the pieces that its rule follows, and what would free it is not looked for.
    """
    found: dict[tuple[tuple[str, str], ...], Conflict] = {}
    for joint, finding in failing_findings(touched(board, stood)):
        if len(found) >= most:
            break
        if expired():
            sets: Iterable[tuple[str, ...]] = [tuple(dict.fromkeys(item.seat for item in finding.inputs))]
        else:
            sets = smallest_sets(shop.judge, board, joint, finding.rule)
        for seats in sets:
            pieces = tuple((seat, board.seated[seat].part) for seat in seats)
            alike = tuple(sorted({(_base(shop.judge, seat), part.id) for seat, part in pieces}))
            old = found.get(alike)
            if old is None:
                frees = tuple(_freeing(shop, board, stood, joint, finding, seats, expired))
                title = (joint.joint.line.title,)
                found[alike] = Conflict(pieces, (finding,), title, frees, finding.rule.refused)
            elif all(finding.rule.id != other.rule.id for other in old.findings):
                found[alike] = dataclasses.replace(
                    old,
                    findings=(*old.findings, finding),
                    titles=tuple(dict.fromkeys((*old.titles, joint.joint.line.title))),
                    frees=(*old.frees, *_freeing(shop, board, stood, joint, finding, seats, expired)),
                    refused=old.refused or finding.rule.refused,
                )
    return tuple(found.values())[:most]


def exchanges_wanted(
    shop: BoardWorkshop, board: Judged, stood: Judged | None, expired: Callable[[], bool] = lambda: False
) -> tuple[Wanted, ...]:
    """Parts whose exchange would be another plan, with the sizes that another of their class would have to have.

    One size alone where one is enough, else for every finding that fails the size that changes least; told only where
    the board with these sizes has nothing failing left.
    """
    failing = failing_findings(touched(board, stood))
    told: dict[str, list[Wanted]] = {}
    for seat in dict.fromkeys(item.seat for _, finding in failing for item in finding.inputs):
        part = board.seated[seat].part
        if not shop.judge.book.table.classes[part.part_class].another_plan or part.id in told:
            continue
        for chosen in _in_turn(shop.judge, board, failing, seat, expired):
            if not failing_findings(touched(_changed(shop.judge, board, seat, chosen), stood)):
                sizes = tuple((item.attribute, at_least, value, item.unit) for item, value, at_least in chosen)
                told.setdefault(part.id, []).append(Wanted(seat, part.id, part.title, part.part_class, sizes))
            if len(told.get(part.id, ())) >= MOST_WAYS or expired():
                break
    return tuple(one for some in told.values() for one in some)


Turn = tuple[Input, float, bool]


def _in_turn(
    judge: BoardJudge,
    board: Judged,
    failing: Sequence[tuple[JointVerdict, Finding]],
    seat: str,
    expired: Callable[[], bool],
) -> Iterator[tuple[Turn, ...]]:
    """Sizes of one piece that may end all that fails: one alone, then for each finding the one that changes least."""
    strictest: dict[str, Turn] = {}
    least: dict[str, Turn] = {}
    for joint, finding in failing:
        turns: list[Turn] = []
        for item in finding.inputs:
            if item.seat == seat and isinstance(item.reading, Number | Designation | Count) and not expired():
                turned = _turning(judge, board, joint, finding, item)
                if turned is not None:
                    turns.append((item, *turned))
        for turn in turns:
            strictest[turn[0].attribute] = _stricter(turn, strictest.get(turn[0].attribute))
        if turns:
            first = min(turns, key=lambda turn: _change(turn[0], turn[1]))
            least[first[0].attribute] = _stricter(first, least.get(first[0].attribute))
    for turn in sorted(strictest.values(), key=lambda turn: _change(turn[0], turn[1])):
        yield (turn,)
    if len(least) > 1:
        yield tuple(least.values())


def _stricter(turn: Turn, other: Turn | None) -> Turn:
    """Of two bounds on one size the one that keeps both."""
    if other is None:
        return turn
    return turn if (turn[1] > other[1]) == turn[2] else other


def _change(item: Input, value: float) -> float:
    assert isinstance(item.reading, Number | Designation | Count)
    return abs(value - item.reading.nominal) / max(abs(item.reading.nominal), 1e-9)


def _changed(judge: BoardJudge, board: Judged, seat: str, turns: Sequence[Turn]) -> Judged:
    for item, value, _ in turns:
        board = judge.again(board, _with_value(board, dataclasses.replace(item, seat=seat), value))
    return board


def failing_findings(joints: Sequence[JointVerdict]) -> list[tuple[JointVerdict, Finding]]:
    """Every finding that fails with its joint: the deciding one first (severity, then how far beyond the limit)."""
    failing = [(joint, finding) for joint in joints for finding in joint.findings if finding.state == "fails"]

    def weight(pair: tuple[JointVerdict, Finding]) -> tuple[float, float]:
        finding = pair[1]
        bound = (
            finding.margin.nominal / max(abs(finding.value.nominal), 1e-9) if finding.margin and finding.value else 0
        )
        return (-finding.rule.severity, bound)

    return sorted(failing, key=weight)


def smallest_sets(judge: BoardJudge, board: Judged, joint: JointVerdict, rule: Rule) -> Iterator[tuple[str, ...]]:
    """The smallest sets of a joint's seats with which alone its line still fails the rule; each is minimal."""
    seats = tuple(dict.fromkeys(piece.seat for pieces in joint.joint.pieces.values() for piece in pieces))

    def fails(chosen: Sequence[str]) -> bool:
        return _fails(judge, joint.joint.line.id, rule, {seat: board.seated[seat] for seat in chosen})

    yield from minimal_sets(seats, fails, 0 if rule.shape is Shape.ASKED else MOST_PIECES)


def minimal_sets(
    items: Sequence[str], fails: Callable[[Sequence[str]], bool], most: int = MOST_PIECES
) -> Iterator[tuple[str, ...]]:
    """Every subset that fails while none of its own subsets does, of the least size at which there is one.

    A piece may also make up for another (a second pack shares the current), so no piece counts as needed because the
    whole holds without it: subsets are gone through from the smallest. Of more than `most`, one set, shrunk by
    one at a time.
    """
    if len(items) > most:
        chosen = list(items)
        for item in items:
            fewer = [other for other in chosen if other != item]
            if fails(fewer):
                chosen = fewer
        yield tuple(chosen)
        return
    for size in range(len(items) + 1):
        hits = [some for some in itertools.combinations(items, size) if fails(some)]
        if hits:
            yield from hits
            return


def _fails(judge: BoardJudge, line_id: str, rule: Rule, seated: Mapping[str, Piece]) -> bool:
    return any(one.state == "fails" for one in judge.stood_on(line_id, rule.id, seated))


def _freeing(
    shop: BoardWorkshop,
    board: Judged,
    stood: Judged | None,
    joint: JointVerdict,
    finding: Finding,
    seats: Sequence[str],
    expired: Callable[[], bool],
) -> Iterator[Freeing]:
    """Per piece of the conflict the size at which the rule would hold, and what fails then instead."""
    failed = {(j.joint.line.id, f.rule.id) for j, f in failing_findings(touched(board, stood))}
    for seat in seats:
        best: tuple[float, Freeing] | None = None
        for item in finding.inputs:
            if item.seat != seat or not isinstance(item.reading, Number | Designation | Count) or expired():
                continue
            turned = _turning(shop.judge, board, joint, finding, item)
            if turned is None:
                continue
            value, at_least = turned
            stocked = _stocked(shop, board, stood, item, value, at_least, failed)
            change = abs((stocked[1] if stocked else value) - item.reading.nominal) / max(
                abs(item.reading.nominal), 1e-9
            )
            moved = _with_value(board, item, value)
            whole = shop.judge.again(board, moved)
            breaks = tuple(
                other
                for other_joint, other in failing_findings(touched(whole, stood))
                if (other_joint.joint.line.id, other.rule.id) not in failed
            )
            other = stocked[0] if stocked else ""
            told = Freeing(seat, item.part, item.attribute, value, item.unit, at_least, other, breaks)
            weight = change + (0.0 if stocked else 1.0)  # what nobody makes is the last thing to ask for
            if best is None or (len(breaks), weight) < (len(best[1].breaks), best[0]):
                best = (weight, told)
        if best is not None:
            yield best[1]


def _turning(
    judge: BoardJudge, board: Judged, joint: JointVerdict, finding: Finding, item: Input
) -> tuple[float, bool] | None:
    """(the value nearest to the present one at which the rule no longer fails, whether it is larger); None if none."""
    reading = item.reading
    assert isinstance(reading, Number | Designation | Count)
    if finding.rule.shape is Shape.ASKED:
        return None  # a solver says whether, not by how much
    part = board.seated[item.seat].part
    described = judge.book.table.attribute_of(part.part_class, item.attribute, part.offers(item.attribute)[0])
    if described is None or described.plausible is None:
        return None
    line_id, rule = joint.joint.line.id, finding.rule

    def state(value: float) -> set[str]:
        seated = with_moved(board.seated, _with_value(board, item, value))
        return {one.state for one in judge.stood_on(line_id, rule.id, seated)} or {"not_asked"}

    ends = [end for end in described.plausible if abs(end - reading.nominal) >= 1e-9]
    # Where it can hold over all other readings, that is what is wanted; else that it no longer fails.
    bad_ones = BAD if any(not state(end) & BAD for end in ends) else BAD - {"undecided"}

    def fails(value: float) -> bool:
        return bool(state(value) & bad_ones)

    best: tuple[float, float] | None = None
    for end in ends:
        if fails(end):
            continue
        if isinstance(reading, Count):
            step = 1 if end > reading.nominal else -1
            counts = range(reading.nominal, round(end) + step, step)
            value = float(next(count for count in counts if not fails(float(count))))
        else:
            bad, good = float(reading.nominal), float(end)
            for _ in range(HALVINGS):
                middle = (bad + good) / 2
                bad, good = (middle, good) if fails(middle) else (bad, middle)
            value = good
        change = abs(value - reading.nominal) / max(abs(reading.nominal), 1e-9)
        if best is None or change < best[0]:
            best = (change, value)
    return None if best is None else (best[1], best[1] > reading.nominal)


def _stocked(
    shop: BoardWorkshop,
    board: Judged,
    stood: Judged | None,
    item: Input,
    value: float,
    at_least: bool,
    failed: set[tuple[str, str]],
) -> tuple[str, float] | None:
    """Of the parts of the class most like this one that go beyond the value the one that, judged, breaks least."""
    part = board.seated[item.seat].part
    found: list[tuple[float, str, Part, float]] = []
    for other in shop.offers.parts_like(part):
        reading = other.offers(item.attribute)[1]
        if isinstance(reading, Number | Designation | Count) and not reading.value_assumed:
            beyond = reading.nominal - value if at_least else value - reading.nominal
            if beyond >= -1e-9:
                found.append((distance(part, other), other.id, other, reading.nominal))
    judged: list[tuple[int, float, str, float]] = []
    for far, own, other, nominal in sorted(found, key=lambda one: one[:2])[:MOST_TRIED]:
        moved = {seat: Piece(seat, other) for seat, piece in board.seated.items() if piece.part is part}
        whole = touched(shop.judge.again(board, moved), stood)
        failing = failing_findings(whole)
        now = {(joint.joint.line.id, finding.rule.id) for joint, finding in failing}
        refused = any(f.rule.refused and (joint.joint.line.id, f.rule.id) not in failed for joint, f in failing)
        if failed - now and not refused:
            judged.append((len(now - failed), far, own, nominal))
    return (min(judged)[2], min(judged)[3]) if judged else None


def _with_value(board: Judged, item: Input, value: float) -> dict[str, Piece | None]:
    """The seats that hold the same part with the reading at one value, its spread gone."""
    part = board.seated[item.seat].part
    place, _ = part.offers(item.attribute)
    reading = item.reading
    assert isinstance(reading, Number | Designation | Count)
    if isinstance(reading, Count):
        changed = with_reading(part, place, item.attribute, Count((round(value),), round(value), reading.source))
    else:
        exact = Number(value, value, value, item.unit, reading.source)
        changed = with_reading(part, place, item.attribute, exact)
    return {seat: Piece(seat, changed) for seat, piece in board.seated.items() if piece.part is part}


def _base(judge: BoardJudge, seat: str) -> str:
    return judge.pattern.seats[seat].row or seat

"""Which readings decide, how finely they must be taken, and what comes of either result.

The readings that hold the doubt of a board, ranked by their share of it; for each the verdict of the whole plan at
either side of the value where it turns, found by judging again.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator

from fitdb.board import BoardJudge, Judged, touched
from fitdb.model.finding import Finding, Input
from fitdb.model.joint import Piece
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.verdict import JointVerdict, Outcome, ToMeasure
from fitdb.moves import with_reading

MOST_WORDS = 8
STEPS, HALVINGS = 8, 8


def to_measure(
    judge: BoardJudge,
    board: Judged,
    stood: Judged | None,
    expired: Callable[[], bool] = lambda: False,
    most: int = 12,
) -> tuple[ToMeasure, ...]:
    """The readings that hold the doubt, the most decisive first; like pieces told once.

    Once the time is up, what comes of either result is not looked for.
    """
    held: dict[tuple[str, str, str], list[tuple[Finding, Input, float]]] = {}
    for joint in touched(board, stood):
        for finding in joint.findings:
            if finding.state == "undecided":
                for item, share in _shares(finding):
                    place = board.seated[item.seat].part.offers(item.attribute)[0] if item.seat in board.seated else ""
                    held.setdefault((item.part, place, item.attribute), []).append((finding, item, share))

    def weight(some: list[tuple[Finding, Input, float]]) -> tuple[float, float]:
        return -max(finding.rule.severity for finding, _, _ in some), -max(share for _, _, share in some)

    ranked = sorted(held.items(), key=lambda pair: weight(pair[1]))[:most]
    return tuple(_entry(judge, board, stood, place, some, expired) for (_, place, _), some in ranked)


def _shares(finding: Finding) -> list[tuple[Input, float]]:
    """Readings with their share of the doubt; where nobody read some, these hold all of it, evenly."""
    unread = [item for item in finding.inputs if item.reading is None or _open(item.reading)]
    if unread:
        return [(item, 1 / len(unread)) for item in unread]
    return [(item, item.share) for item in finding.inputs if item.share > 0.02]


def _open(reading: Reading) -> bool:
    return isinstance(reading, Word) and reading.open_vocabulary and len(reading.possible) != 1


def _entry(
    judge: BoardJudge,
    board: Judged,
    stood: Judged | None,
    place: str,
    held: list[tuple[Finding, Input, float]],
    expired: Callable[[], bool],
) -> ToMeasure:
    item = max(held, key=lambda one: one[2])[1]
    part = board.seated[item.seat].part
    seats = tuple(seat for seat, piece in board.seated.items() if piece.part is part)
    findings = {finding.rule.id: finding for finding, _, _ in held}
    precise = [one.settles_within for _, one, _ in held if one.settles_within is not None]
    return ToMeasure(
        seats=seats,
        part=part.id,
        title=part.title,
        attribute=item.attribute,
        unit=item.unit,
        share=max(share for _, _, share in held),
        settles_within=min(precise, default=None),
        tool=item.tool,
        how=item.how,
        decides=tuple(findings.values()),
        outcomes=tuple(_outcomes(judge, board, stood, place, item, seats, expired)),
    )


def _outcomes(
    judge: BoardJudge,
    board: Judged,
    stood: Judged | None,
    place: str,
    item: Input,
    seats: tuple[str, ...],
    expired: Callable[[], bool],
) -> Iterator[Outcome]:
    """What comes of the reading, of all rules that follow it: for each word or count, or over which stretch of sizes.

    A size is taken as read exactly; where the stretches end is found by halving, so no value between is told wrongly.
    """
    part = board.seated[item.seat].part
    reading = item.reading

    def verdict(one: Reading) -> str:
        changed = with_reading(part, place, item.attribute, one)
        whole = judge.again(board, {seat: Piece(seat, changed) for seat in seats})
        return _worst(touched(whole, stood), item)

    if isinstance(reading, Word):
        for word in sorted(reading.possible)[:MOST_WORDS] if len(reading.possible) > 1 else ():
            if not expired():
                yield Outcome(None, None, word, verdict(Word(frozenset((word,)), reading.source)))
    elif isinstance(reading, Count):
        for value in reading.values[:MOST_WORDS] if len(reading.values) > 1 else ():
            if not expired():
                yield Outcome(value, value, "", verdict(Count((value,), value, reading.source)))
    elif isinstance(reading, Number | Designation) and item.used_low is not None and item.used_high is not None:
        source = reading.source
        yield from _stretches(
            item.used_low,
            item.used_high,
            lambda size: verdict(Number(size, size, size, item.unit, source)),
            expired,
        )


def _stretches(
    low: float, high: float, verdict: Callable[[float], str], expired: Callable[[], bool]
) -> Iterator[Outcome]:
    """The range cut where the verdict turns, each end found by halving between two sizes that differ."""
    told: list[tuple[float, str]] = []
    for step in range(STEPS + 1):
        if expired():
            return
        size = low + (high - low) * step / STEPS
        told.append((size, verdict(size)))
    start = low
    for (left, here), (right, there) in itertools.pairwise(told):
        if here != there:
            inside, outside = left, right
            for _ in range(HALVINGS):
                middle = (inside + outside) / 2
                inside, outside = (middle, outside) if verdict(middle) == here else (inside, middle)
            yield Outcome(start, inside, "", here)
            start = outside
    yield Outcome(start, high, "", told[-1][1])


def _worst(joints: tuple[JointVerdict, ...], item: Input) -> str:
    """The worst of the rules that follow this reading."""
    states = {
        finding.state
        for joint in joints
        for finding in joint.findings
        if any(one.part == item.part and one.attribute == item.attribute for one in finding.inputs)
    }
    return "clash" if "fails" in states else "measure" if "undecided" in states else "fits"

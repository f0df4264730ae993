"""Which readings decide, how finely they must be taken, and what comes of either result.

The readings that hold the doubt of a board, ranked by their share of it; for each the verdict of the whole plan at
either side of the value where it turns, found by judging again.
"""

from __future__ import annotations

from collections.abc import Iterator

from fitdb.board import BoardJudge, Judged, touched
from fitdb.model.finding import Finding, Input
from fitdb.model.joint import Piece
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.verdict import JointVerdict, Outcome, ToMeasure
from fitdb.moves import with_reading

MOST_WORDS = 8


def to_measure(judge: BoardJudge, board: Judged, stood: Judged | None, most: int = 12) -> tuple[ToMeasure, ...]:
    """The readings that hold the doubt, the most decisive first; like pieces told once."""
    held: dict[tuple[str, str, str], list[tuple[Finding, Input, float]]] = {}
    for joint in touched(board, stood):
        for finding in joint.findings:
            if finding.state == "undecided":
                for item, share in _shares(finding):
                    place = board.seated[item.seat].part.offers(item.attribute)[0] if item.seat in board.seated else ""
                    held.setdefault((item.part, place, item.attribute), []).append((finding, item, share))
    told = [_entry(judge, board, stood, place, some) for (_, place, _), some in held.items()]
    told.sort(key=lambda one: (-max(f.rule.severity for f in one.decides), -one.share))
    return tuple(told)[:most]


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
        outcomes=tuple(_outcomes(judge, board, stood, place, item, seats)),
    )


def _outcomes(
    judge: BoardJudge, board: Judged, stood: Judged | None, place: str, item: Input, seats: tuple[str, ...]
) -> Iterator[Outcome]:
    """The verdict of the whole plan for each word, or at either side of the value where the reading turns it."""
    part = board.seated[item.seat].part
    reading = item.reading

    def verdict(one: Reading) -> str:
        changed = with_reading(part, place, item.attribute, one)
        whole = judge.again(board, {seat: Piece(seat, changed) for seat in seats})
        return _worst(touched(whole, stood))

    if isinstance(reading, Word):
        for word in sorted(reading.possible)[:MOST_WORDS] if len(reading.possible) > 1 else ():
            yield Outcome(None, None, word, verdict(Word(frozenset((word,)), reading.source)))
    elif isinstance(reading, Count):
        for value in reading.values[:MOST_WORDS] if len(reading.values) > 1 else ():
            yield Outcome(value, value, "", verdict(Count((value,), value, reading.source)))
    elif isinstance(reading, Number | Designation) and item.used_low is not None and item.used_high is not None:
        low, high, turn = item.used_low, item.used_high, item.flips_at
        if turn is None or not low < turn < high:
            turn = (low + high) / 2
        for start, end in ((low, turn), (turn, high)):
            middle = (start + end) / 2
            yield Outcome(start, end, "", verdict(Number(middle, middle, middle, item.unit, reading.source)))
    elif reading is None or isinstance(reading, Outline):
        return


def _worst(joints: tuple[JointVerdict, ...]) -> str:
    verdicts = {joint.verdict for joint in joints}
    return next((word for word in ("clash", "measure", "fits") if word in verdicts), "not_asked")

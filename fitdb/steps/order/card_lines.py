"""Lines of the card: a step with its places, parts, minutes, fasteners and cautions; readings, gates, alterations."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from fitdb.model.joint import Piece
from fitdb.model.remedy import Move
from fitdb.model.work import CardStep, Span, WorkStep
from fitdb.steps.order.boards import Boards
from fitdb.steps.order.fasteners import fasteners_at
from fitdb.steps.order.readings import Reach
from fitdb.steps.order.rebuilding import needs_of, step_of_change
from fitdb.steps.order.undoing import At, Teardown, lines_of

PRACTICE = "common practice, no source"
READING_MINUTES = Span(1, 3, 10)  # with the tool at hand; common practice, no source
LEAST_SHARE, GREATEST_SHARE = 0.5, 2.0  # of the rough minutes that a remedy tells; common practice, no source


def undo_lines(teardown: Teardown, nodes: frozenset[At], doubtful: frozenset[At]) -> tuple[CardStep, ...]:
    """One line for each step that is undone, its places together."""
    boards, work = teardown.boards, teardown.work
    look: dict[str, dict[str, None]] = {}
    for need in work.needs:
        waits = {node.step for node in nodes} if need.unknown else set()
        if need.step in waits and any(node.step == need.needs for node in doubtful & nodes):
            look.setdefault(need.needs, {})[need.unknown] = None
    lines = []
    for own, places in lines_of(boards, nodes).items():
        step = work.steps[own]
        before = {one.step for place in places for one in teardown.needs[At(own, place)] if one in nodes}
        lines.append(
            CardStep(
                key=own,
                kind="work",
                phase=step.phase,
                places=_told(places),
                parts=_parts(boards, step, places, boards.before),
                minutes=step.minutes.times(len(places)),
                look_first=tuple(look.get(own, ())),
                needs=tuple(sorted(before)),
                **_of_row(boards, step),
            )
        )
    return tuple(lines)


def rebuild_line(
    boards: Boards, step: WorkStep, places: Sequence[str], keys: Sequence[str], told: set[str]
) -> CardStep:
    """One line of the rebuild or a test. keys: the steps of the rebuild that are on the card. told: seats whose new
    pieces an earlier line has named; those of this one are added."""
    fresh = _new(boards, told) if step.phase == "rebuild" else {}
    moves = [
        move
        for move in boards.moves
        if move.remedy.move in ("alter", "set") and step_of_change(boards, move, move.seats[0]) == step.id
    ]
    parts = _parts(boards, step, places, fresh)
    told.update(seat for place in places for seat in boards.filled_at(step.seats, place, fresh))
    set_here = moves if step.phase == "rebuild" else []
    return CardStep(
        key=step.id,
        kind="test" if step.phase == "test" else "work",
        phase=step.phase,
        places=_told(places),
        parts=_parts(boards, step, places, boards.after) if step.phase == "rebuild" else (),
        new=parts,
        minutes=step.minutes.times(len(places)),
        fasteners=fasteners_at(step.id, places, boards),
        test=boards.work.tests.get(step.id),
        changes=tuple(f"{move.remedy.title}: {move.what}" for move in set_here),
        gives_up="; ".join(dict.fromkeys(move.gives_up for move in set_here if move.gives_up)),
        needs=tuple(sorted(needs_of(boards, keys)[step.id])),
        **_of_row(boards, step),
    )


def reading_line(number: int, reach: Reach, teardown: Teardown) -> CardStep:
    """A reading to take. Its sentence is made where numbers are shown."""
    boards, reading = teardown.boards, reach.reading
    return CardStep(
        key=f"reading_{number}",
        kind="reading",
        phase="check" if reach.nodes else "measure",
        title=f"Read the {reading.attribute.replace('_', ' ')} of {reading.title}",
        does=reading.how,
        places=_told(tuple(dict.fromkeys(boards.place(seat) for seat in reading.seats))),
        tool=reading.tool,
        minutes=READING_MINUTES,
        note="It cannot be laid bare without something that cannot be undone: find another way to read it."
        if reach.cut_off
        else "",
        reading=reading,
        source=PRACTICE,
    )


def gate_line(key: str, ends: bool, doubt: bool) -> CardStep:
    """A stop: the plan is judged again with what was read. ends: the card holds nothing behind it. doubt: the verdict
    waits for one of the readings."""
    asks = "Put what you read into the plan and ask again"
    if ends:
        does = f"{asks}. What comes next depends on it, so this card ends here."
    elif doubt:
        does = (
            f"{asks}, before anything is pressed on, drilled, cut or soldered. Go on only if the card stays as it is."
        )
    else:
        does = f"If one of them is not what the plan says: {asks[:1].lower()}{asks[1:]}, before anything goes on."
    return CardStep(
        key=key, kind="gate", phase="check", title="Stop and compare the readings", does=does, source=PRACTICE
    )


def alteration_line(boards: Boards, move: Move) -> CardStep:
    """An alteration or setting that is a step of its own, or a part that is fitted for good."""
    remedy = move.remedy
    electrical = any(_electrical(boards, seat) for seat in move.seats)
    usual = Span(round(move.minutes * LEAST_SHARE), move.minutes, round(move.minutes * GREATEST_SHARE))
    return CardStep(
        key=f"change_{remedy.id}",
        kind="alteration",
        phase="alter",
        title=f"{remedy.title[:1].upper()}{remedy.title[1:]}",
        does=f"{move.what[:1].upper()}{move.what[1:]}.",
        places=_told(tuple(dict.fromkeys(boards.place(seat) for seat in move.seats))),
        parts=_counted(move.pieces) if remedy.move in ("insert", "substitute") else (),
        tool=remedy.tool.replace("_", " "),
        minutes=usual,
        electrical=electrical,
        reversible=remedy.reversible,
        gives_up=move.gives_up,
        note="" if remedy.reversible else "This cannot be undone.",
        source=remedy.source,
    )


def _electrical(boards: Boards, seat: str) -> bool:
    """Whether the tables free such a seat only behind the gate."""
    base = boards.base(seat)
    return any(
        step.electrical and base in (*step.seats, *step.opens)
        for step in boards.work.steps.values()
        if step.phase == "undo"
    )


def _of_row(boards: Boards, step: WorkStep) -> dict[str, Any]:
    return {
        "title": step.title,
        "does": step.does,
        "tool": step.tool,
        "wait_hours": step.wait_hours,
        "electrical": step.electrical,
        "reversible": step.reversible,
        "photograph": step.photograph,
        "note": step.note,
        "cautions": tuple(boards.work.cautions[own] for own in step.cautions),
        "source": step.source,
    }


def _parts(
    boards: Boards, step: WorkStep, places: Sequence[str], seated: Mapping[str, Piece]
) -> tuple[tuple[str, int], ...]:
    seats = dict.fromkeys(seat for place in places for seat in boards.filled_at(step.seats, place, seated))
    return _counted([seated[seat] for seat in seats])


def _new(boards: Boards, told: set[str]) -> Mapping[str, Piece]:
    known = [seat for seat in boards.after if seat in boards.pattern.seats and seat not in told]
    return {seat: boards.after[seat] for seat in known if boards.changed(seat)}


def _counted(pieces: Iterable[Piece]) -> tuple[tuple[str, int], ...]:
    return tuple(Counter(piece.part.title for piece in pieces).items())


def _told(places: Sequence[str]) -> tuple[str, ...]:
    return tuple(place for place in places if place)

"""What is tightened at a step: thread, length and count from the parts that sit there, never guessed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitdb.model.part import Part
from fitdb.model.reading import Count, Designation, Number, Reading, Word
from fitdb.model.work import Fasteners, Fastening
from fitdb.steps.order.boards import Boards


@dataclass(frozen=True, slots=True)
class _Kind:
    """What makes the fasteners of two places alike."""

    fastening: str
    thread: str
    length: tuple[float, float] | None
    each: int | None
    lock: str


def fasteners_at(step: str, places: Sequence[str], boards: Boards) -> tuple[Fasteners, ...]:
    """The fasteners of a step at these places on the board as it will be; places that are alike are told together."""
    told = []
    for fastening in boards.work.fastenings:
        found: dict[_Kind, dict[str, None]] = {}
        for place in places if fastening.step == step else ():
            for seat in boards.filled_at((fastening.seat,), place, boards.after):
                if fastening.part_class in ("", *boards.table.line_of(boards.after[seat].part.part_class)):
                    at = boards.place(seat)
                    found.setdefault(_kind(fastening, at or seat, boards), {})[at] = None
        for kind, where in found.items():
            torques = tuple(one for one in fastening.torques if not kind.thread or one.thread == kind.thread)
            here = tuple(place for place in where if place)
            told.append(Fasteners(fastening, here, kind.each, kind.thread, kind.length, torques, kind.lock))
    return tuple(told)


def _kind(fastening: Fastening, place: str, boards: Boards) -> _Kind:
    return _Kind(
        fastening=fastening.id,
        thread=_word(_read(fastening.thread, place, boards)),
        length=_span(_read(fastening.length, place, boards)),
        each=_count(fastening, place, boards),
        lock=_lock(fastening, place, boards),
    )


def _count(fastening: Fastening, place: str, boards: Boards) -> int | None:
    """As many as every side has holes for; None unless each of them is counted."""
    counts = []
    for entry in fastening.counts:
        if entry.isdigit():
            counts.append(int(entry))
            continue
        reading = _read(entry, place, boards)
        if not isinstance(reading, Count) or reading.value_assumed or len(reading.values) != 1:
            return None
        counts.append(reading.values[0])
    return min(counts) if counts else None


def _lock(fastening: Fastening, place: str, boards: Boards) -> str:
    """Thread lock never meets plastic: where the material is not known, on metal only."""
    if fastening.lock == "none" or not fastening.material:
        return fastening.lock
    material = _word(_read(fastening.material, place, boards))
    if not material:
        return "metal_only"
    return "none" if material in fastening.not_on else fastening.lock


def _read(path: str, place: str, boards: Boards) -> Reading | None:
    """`seat.attribute` or `seat.port.attribute`, of what sits there afterwards."""
    base, _, rest = path.partition(".")
    port, _, attribute = rest.rpartition(".")
    seat = boards.sibling(base, place) if path else None
    if seat is None or seat not in boards.after:
        return None
    part: Part = boards.after[seat].part
    if port and port in part.ports:
        return part.ports[port].readings.get(attribute)
    return part.offers(attribute, port)[1] if not port else None


def _word(reading: Reading | None) -> str:
    known = isinstance(reading, Word) and not reading.value_assumed and len(reading.possible) == 1
    return next(iter(reading.possible)) if known and isinstance(reading, Word) else ""


def _span(reading: Reading | None) -> tuple[float, float] | None:
    return (reading.low, reading.high) if isinstance(reading, Number | Designation) else None

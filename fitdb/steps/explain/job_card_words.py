"""The words of a job card: minutes, places, fasteners with thread, count and torque, and readings to take."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fitdb.model.work import CardReading, Fasteners, Span, Torque
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swap_words import attribute_words, by_tool, listed

# 1 lbf in is 0.112 984 8 N m (NIST SP 811, appendix B.8).
LBF_IN_PER_N_M = 1 / 0.1129848
THREADS = {
    "unc_8_32": "number 8-32",
    "unf_10_32": "number 10-32",
    "unf_5_16_24": "5/16-24",
    "unf_3_8_24": "3/8-24",
}
LOCKS = {
    "none": "no thread lock",
    "medium": "medium thread lock",
    "metal_only": "medium thread lock on metal, none on plastic",
}


def minutes_text(span: Span) -> str:
    """`6 min (4 to 20 min)`, from an hour and a half on in hours."""
    if span.low == span.high:
        return _time(span.usual)
    if span.high < 90:
        return f"{span.usual:g} min ({span.low:g} to {span.high:g} min)"
    return f"{_time(span.usual)} ({_time(span.low)} to {_time(span.high)})"


def _time(minutes: float) -> str:
    if minutes < 90:
        return f"{minutes:g} min"
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def span_document(span: Span) -> dict[str, Any]:
    """Minutes as plain data."""
    short = f"{span.low:g} to {span.high:g} min" if span.high < 90 else f"{_time(span.low)} to {_time(span.high)}"
    return {
        "low": span.low,
        "usual": span.usual,
        "high": span.high,
        "unit": "min",
        "text": minutes_text(span),
        "short": short,
    }


def money_document(span: Span) -> dict[str, Any]:
    """Money as plain data, in mu."""
    low, usual, high = (round(value) for value in (span.low, span.usual, span.high))
    text = f"{usual} mu" if low == high else f"{usual} mu ({low} to {high} mu)"
    return {"low": low, "usual": usual, "high": high, "unit": "mu", "text": text}


def places_text(places: Sequence[str]) -> str:
    """`rear left and rear right`."""
    return listed([place.replace("_", " ") for place in places])


def counted_parts(parts: Sequence[tuple[str, int]]) -> str:
    """`2 × belt; motor`."""
    return "; ".join(f"{count} × {title}" if count > 1 else title for title, count in parts)


def thread_text(thread: str) -> str:
    return THREADS.get(thread, thread.upper() if thread[:1] == "m" and thread[1:].isdigit() else thread)


def fasteners_document(one: Fasteners, display: Display) -> dict[str, Any]:
    """One kind of fastener: what nobody told is said, never left to be read as nothing."""
    fastening = one.fastening
    length: dict[str, Any] | None = None
    if one.length is not None:
        low, high = one.length
        middle = (low + high) / 2
        text = f"{middle:.3g} mm" if display.system == "mm" else display.size(middle, "mm")
        length = {"low": low, "high": high, "unit": "mm", "text": text}
    return {
        "id": fastening.id,
        "title": fastening.title,
        "places": list(one.places),
        "count": one.count,
        "each": one.each,
        "thread": one.thread,
        "length": length,
        "torques": [_torque(torque) for torque in one.torques],
        "thread_lock": one.lock,
        "manner": fastening.manner,
        "recheck_km": list(fastening.recheck_km),
        "source": fastening.source,
        "sentence": _fasteners_told(one, length["text"] if length else ""),
    }


def _fasteners_told(one: Fasteners, length: str) -> str:
    count = f"{one.count} × {one.fastening.title}" if one.count is not None else f"{one.fastening.title}, count unknown"
    size = f" {thread_text(one.thread)}" if one.thread and one.count is not None else ""
    size = size or (f", {thread_text(one.thread)}" if one.thread else "")
    size += f" × {length}" if length and size else f", {length} long" if length else ""
    place = places_text(one.places)
    parts = [f"{count[:1].upper()}{count[1:]}{size}{f', {place}' if place else ''}: {_tightened(one)}"]
    return ", ".join([*parts, LOCKS[one.lock]]) + "."


def _tightened(one: Fasteners) -> str:
    manner = one.fastening.manner
    if not one.torques:
        unknown = "no torque is known for this thread" if one.fastening.torques else ""
        return "; ".join(told for told in (unknown, manner) if told) or "by hand"
    if one.thread:
        return f"{_torque(one.torques[0])['text']}{f', {manner}' if manner else ''}"
    either = "; ".join(f"if {thread_text(each.thread)}, {_torque(each)['text']}" for each in one.torques)
    return f"{either}{f'; {manner}' if manner else ''}"


def _torque(torque: Torque) -> dict[str, Any]:
    low, high = torque.low * LBF_IN_PER_N_M, torque.high * LBF_IN_PER_N_M
    same = torque.low == torque.high
    metric = f"{torque.low:g} N m" if same else f"{torque.low:g} to {torque.high:g} N m"
    inches = f"{low:.0f} lbf in" if same else f"{low:.0f} to {high:.0f} lbf in"
    return {
        "thread": torque.thread,
        "low_n_m": torque.low,
        "high_n_m": torque.high,
        "low_lbf_in": round(low, 1),
        "high_lbf_in": round(high, 1),
        "source": torque.source,
        "text": f"{metric} ({inches})",
    }


def reading_document(one: CardReading, display: Display) -> dict[str, Any]:
    """A reading to take, with the name under which a plan takes it."""
    name = f"{_seat_name(one.seats)}.{one.attribute}" if one.seats else f"{one.part}.{one.attribute}"
    finely = f" to ±{display.finely(one.settles_within, one.unit)} or better" if one.settles_within else ""
    tool = f"{',' if finely else ''} {by_tool(one.tool)}" if one.tool else ""
    why = "" if one.doubt else " Nobody has read it, and it lies bare now."
    how = f" {one.how}" if one.how else ""
    return {
        "name": name,
        "seats": list(one.seats),
        "part": one.part,
        "title": one.title,
        "attribute": one.attribute,
        "unit": one.unit,
        "settles_within": one.settles_within,
        "tool": one.tool,
        "how": one.how,
        "decides": one.doubt,
        "at_hand": one.at_hand,
        "sentence": f"{name}: the {attribute_words(one.attribute)} of {one.title}. Read it{finely}{tool}.{why}{how}",
    }


def _seat_name(seats: Sequence[str]) -> str:
    """The seat as a plan takes it: `rear_wheel` where both sides are read, `wheel` where both ends are."""
    kept = seats[0].split("_")
    for word, other in (("left", "right"), ("right", "left"), ("front", "rear"), ("rear", "front")):
        if word in kept and any(other in seat.split("_") for seat in seats):
            kept.remove(word)
    return "_".join(kept)

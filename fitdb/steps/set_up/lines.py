"""How a line is made of its links: the careful end, how it is typed, what sets it, and what is set now."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping, Sequence

from fitdb.formulas.setting_values import typed
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.reading import Count, Designation, Number, Word
from fitdb.model.set_up import AT_LEAST, AT_MOST, MissingReading, SetNow, SettingLine, SettingLink

SETTINGS = "the plan's own reading of its settings, else its label"


def bounded(
    line_id: str,
    group: str,
    title: str,
    unit: str,
    side: str,
    links: Iterable[SettingLink],
    *,
    missing: Sequence[MissingReading] = (),
    now: Sequence[SetNow] = (),
    notes: Sequence[str] = (),
    caution: str = "",
    seats: tuple[str, ...] = (),
) -> SettingLine:
    """A line whose value is the least (`at_most`) or the greatest (`at_least`) that any of its links leaves.

    The range runs over the readings; the careful end of it is rounded to the careful side and is what is typed.
    """
    upward = side == AT_LEAST
    order = sorted(links, key=lambda one: -one.value.high if upward else one.value.low)
    if all(one.bound for one in order):  # bounds alone are no setting
        return SettingLine(
            line_id, group, title, unit, side, "", others=tuple(order), missing=tuple(missing), now=tuple(now),
            notes=tuple(notes), caution=caution, seats=seats,
        )  # fmt: skip
    pick = max if upward else min
    value = Range(
        pick(one.value.low for one in order),
        pick(one.value.nominal for one in order),
        pick(one.value.high for one in order),
        unit,
    )
    end = value.high if upward else value.low
    return SettingLine(
        line_id, group, title, unit, side, order[0].source, value, typed(end, unit, upward), "", "", order[0],
        tuple(order[1:]), held_against(now, end, side), tuple(missing), tuple(notes), caution, seats,
    )  # fmt: skip


def held_against(now: Sequence[SetNow], end: float, side: str) -> tuple[SetNow, ...]:
    """What is set now, marked where it lies beyond the careful end of a line."""

    def beyond(value: float | None) -> bool:
        if value is None:
            return False
        return value > end + 1e-9 if side == AT_MOST else value < end - 1e-9

    return tuple(dataclasses.replace(one, beyond=beyond(one.value)) for one in now)


def scaled(line: SettingLine, by: float, line_id: str, title: str, worked: str, now: Sequence[SetNow]) -> SettingLine:
    """The line of one of several equal parts: every link divided alike, with its own rounding."""
    every = [one for one in (line.set_by, *line.others) if one is not None]
    links = [
        dataclasses.replace(
            one,
            value=Range(one.value.low / by, one.value.nominal / by, one.value.high / by, one.value.unit),
            worked=f"{one.worked}{worked}",
        )
        for one in every
    ]
    return bounded(
        line_id, line.group, title, line.unit, line.side, links, missing=line.missing, now=now, notes=(),
        caution=line.caution,
    )  # fmt: skip


def set_now(
    now: Mapping[str, Piece], seats: Sequence[str], attribute: str, none_from: float = float("inf")
) -> list[SetNow]:
    """What each controller is set to, by its reading; nothing for one that nobody read, or that has none set."""
    found = []
    for seat in seats:
        piece = now.get(seat)
        read = piece.part.offers(attribute)[1] if piece else None
        if read is None or read.value_assumed:
            continue
        if isinstance(read, Number | Designation | Count) and read.nominal < none_from:
            found.append(SetNow((seat,), float(read.high)))
        elif isinstance(read, Word) and len(read.possible) == 1:
            found.append(SetNow((seat,), None, next(iter(read.possible))))
    return found


def all_together(each: Sequence[SetNow], behind: Mapping[str, int], controllers: Sequence[str]) -> list[SetNow]:
    """What the controllers may do together: settings times channels that drive a motor; nothing if one is unread."""
    if not each or len(each) < len(controllers) or not all(behind.get(one.seats[0]) for one in each):
        return []
    total = sum((one.value or 0.0) * behind[one.seats[0]] for one in each)
    return [SetNow(tuple(one.seats[0] for one in each), total)]

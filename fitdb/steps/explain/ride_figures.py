"""One figure of several boards as plain data: its values, the difference, and a sentence with what is said of it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitdb.model.finding import Range
from fitdb.model.outlook import BOARDS, Figure, Mover, Outlook
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swap_words import listed

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Rows = Mapping[str, NDArray[np.float64]]

BOARD_WORDS = {"before": "as it stands", "as_asked": "as asked", "built": "with the changes"}
ABSOLUTE = ("mm", "deg")  # a difference of these is told in their own unit, of all others in per cent
SAME = 1.0  # per cent: nobody feels less
GONE = "the board no longer has the parts that it is told of"


def figure_document(
    own: str, outlooks: Mapping[str, Outlook], rows: Mapping[str, Rows], names: Sequence[str], display: Display
) -> dict[str, Any]:
    told = {name: outlooks[name].figures.get(own) for name in names}
    last = next(figure for name in reversed(names) if (figure := told[name]) is not None)
    if told[names[-1]] is None:  # a charger that is gone has no hours
        last = dataclasses.replace(last, value=None, limited_by="", movers=(), note="", unknown=GONE)
    difference = difference_document(own, rows, names, last.unit, display) if len(names) > 1 else None
    return {
        "id": own,
        "title": last.title,
        "group": last.group,
        "unit": last.unit,
        **{name: value_document(told.get(name), display) for name in BOARDS},
        "difference": difference,
        "limited_by": last.limited_by,
        "moved_by": [mover_document(one) for one in last.movers],
        "note": last.note,
        "unknown": last.unknown,
        "source": last.source,
        "sentence": figure_sentence(last, told, names, difference, display),
    }


def value_document(figure: Figure | None, display: Display) -> dict[str, Any] | None:
    if figure is None or figure.value is None:
        return None
    value = figure.value
    return {
        "low": rounded(value.low),
        "nominal": rounded(value.nominal),
        "high": rounded(value.high),
        "unit": value.unit,
        "text": shown(value, display),
        "limited_by": figure.limited_by,
    }


def rounded(size: float) -> float:
    """To six significant digits: more is nothing that anybody could have read."""
    return float(f"{size:.6g}")


def shown(value: Range, display: Display) -> str:
    """The middle with its range, the unit once: `18.2 (16.9 to 19.4) km/h`; lengths in the units of the reader."""
    if value.unit == "mm" and display.system != "mm":
        return display.range(value)
    middle, low, high = (_digits(size, value) for size in (value.nominal, value.low, value.high))
    unit = {"percent": " %", "m/s2": " m/s²", "deg": "°"}.get(value.unit, f" {value.unit}" if value.unit else "")
    return f"{middle}{unit}" if low == high else f"{middle} ({low} to {high}){unit}"


def _digits(size: float, value: Range) -> str:
    """As many digits as the range bears: a tenth below 100 where it is narrow enough, else whole numbers."""
    if value.unit in ABSOLUTE:
        return f"{size:.1f}"
    wide = value.high - value.low
    if value.unit == "V" and abs(value.nominal) < 10.0 and wide < 0.3:
        return f"{size:.2f}"  # of one cell a tenth of a volt is much
    if abs(value.nominal) < 10.0 and wide < 10.0:
        return f"{size:.1f}" if abs(value.nominal) >= 1.0 or wide >= 0.1 else f"{size:.2f}"
    if abs(value.nominal) < 100.0 and wide < 10.0:
        return f"{size:.1f}"
    return f"{size:.0f}"


def mover_document(one: Mover) -> dict[str, Any]:
    return {
        "seat": one.seat,
        "part": one.part,
        "attribute": one.attribute,
        "title": one.title,
        "share": round(one.share, 3),
        "assumed": one.assumed,
    }


def difference_document(
    own: str, rows: Mapping[str, Rows], names: Sequence[str], unit: str, display: Display
) -> dict[str, Any] | None:
    """After against before, draw by draw: what both boards have in common falls out."""
    import numpy as np

    before, after = rows[names[0]].get(own), rows[names[-1]].get(own)
    if before is None or after is None:
        return None
    if unit in ABSOLUTE:
        change, of = after - before, unit
    else:
        with np.errstate(divide="ignore", invalid="ignore"):
            change, of = (after / before - 1.0) * 100.0, "percent"
    if not np.isfinite(change[0]):
        return None
    finite = change[np.isfinite(change)]
    low, high = np.percentile(finite, (5.0, 95.0))
    value = Range(min(float(low), float(change[0])), float(change[0]), max(float(high), float(change[0])), of)
    return {
        "low": rounded(value.low),
        "nominal": rounded(value.nominal),
        "high": rounded(value.high),
        "unit": of,
        "same": abs(value.nominal) < (SAME if of == "percent" else 0.5),
        "text": _signed(value, display),
    }


def _signed(value: Range, display: Display) -> str:
    if value.unit == "mm" and display.system != "mm":
        return f"{'+' if value.nominal > 0 else ''}{display.size(value.nominal, value.unit)}"
    if value.unit in ABSOLUTE:
        return f"{value.nominal:+.1f}{'°' if value.unit == 'deg' else ' mm'}"
    middle, low, high = (f"{size:+.0f}" for size in (value.nominal, value.low, value.high))
    return f"{middle} %" if low == high else f"{middle} % ({low} to {high} %)"


def figure_sentence(
    last: Figure,
    told: Mapping[str, Figure | None],
    names: Sequence[str],
    difference: Mapping[str, Any] | None,
    display: Display,
) -> str:
    title = last.title[:1].upper() + last.title[1:]
    if last.value is None:
        return f"{title}: unknown; {last.unknown}."
    parts = []
    for name in names:
        figure = told[name]
        if figure is not None and figure.value is not None and name != names[-1]:
            parts.append(f"{shown(figure.value, display)} {BOARD_WORDS[name]}")
        elif name != names[-1]:
            parts.append(f"unknown {BOARD_WORDS[name]}")
    here = shown(last.value, display) + (f" {BOARD_WORDS[names[-1]]}" if parts else "")
    text = f"{title}: {', '.join([*parts, here])}"
    if difference is not None:
        text += ", the same" if difference["same"] else f", {difference['text']}"
    text += f". Ended by {last.limited_by}." if last.limited_by else "."
    if last.movers:
        text += f" Moved most by {moved_by(last.movers)}."
    return f"{text} {last.note}".rstrip()


def moved_by(movers: Sequence[Mover]) -> str:
    """`the speed constant of the motors (62 %)`, alike readings of both sides once."""
    shares: dict[str, float] = {}
    unread: set[str] = set()
    for one in movers:
        of = " ".join(word for word in one.seat.split("_") if word not in ("left", "right"))
        name = one.title if of in ("", "rider", "route") or of in one.title else f"{one.title} of the {of}"
        shares[name] = shares.get(name, 0.0) + one.share
        if one.assumed:
            unread.add(name)
    return listed(
        [f"{name} ({100 * share:.0f} %{', assumed' if name in unread else ''})" for name, share in shares.items()]
    )

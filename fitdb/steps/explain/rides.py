"""What the boards of a plan will do as one document: differences first, then every figure with its range and reason."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Protocol

from fitdb.model.finding import Range
from fitdb.model.outlook import BOARDS, Chart, Figure, Mover, Outlook
from fitdb.model.remedy import Move
from fitdb.model.track import Track
from fitdb.model.verdict import SwapVerdict
from fitdb.steps.explain import ALWAYS
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swap_words import listed, move_in_brief

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Rows = Mapping[str, NDArray[np.float64]]


class Changing(Protocol):
    """A change that would move a figure, as `would_change` finds it."""

    @property
    def figure(self) -> str: ...
    @property
    def move(self) -> Move: ...
    @property
    def percent(self) -> float: ...
    @property
    def raised(self) -> bool | None: ...


class Told(Protocol):
    """A figure with its rows."""

    @property
    def figure(self) -> Figure: ...
    @property
    def rows(self) -> NDArray[np.float64] | None: ...


class Way(Protocol):
    """What a board does on a track, as `foresee` finds it."""

    @property
    def track(self) -> Track: ...
    @property
    def figures(self) -> tuple[Told, ...]: ...
    @property
    def spots(self) -> tuple[str, ...]: ...
    @property
    def chart(self) -> Chart: ...


GROUPS = (
    ("speed", "Speed"),
    ("pull", "Pull"),
    ("hill", "Hill"),
    ("range", "Range"),
    ("pack", "Pack"),
    ("brake", "Brake"),
    ("body", "The standing board"),
)
BOARD_WORDS = {"before": "as it stands", "as_asked": "as asked", "built": "with the changes"}
ABSOLUTE = ("mm", "deg")  # a difference of these is told in their own unit, of all others in per cent
LEADING = ("top_speed_half", "pull", "grade_start", "range", "stopping_distance")
SAME = 1.0  # per cent: nobody feels less
WEAK_BRAKE = 2.0  # m/s²; common practice, no source
GONE = "the board no longer has the parts that it is told of"
RANGES = "Ranges: nine of ten boards drawn from the ranges of the readings lie within them."
BRAKE = (
    "On this build the motor is the brake. It can vanish without warning: a belt skips, a full pack takes no charge, a "
    "protection circuit opens, the link is lost, something gets hot. Learn to stop by foot or to step off, leave "
    "distance, and do not begin a long descent with a full pack."
)
STEERING = (
    "Changed trucks, wedges, softer bushings or a softer deck change how quickly it steers. Start at walking pace, "
    "raise the speed in small steps on an empty, smooth place. If it starts to weave, do not brake hard: weight "
    "forward, ease off."
)
LAW = (
    "Whether, where and how fast you may ride such a board differs from place to place, and changing power or speed "
    "may change its class, insurance and age limit. Check locally before you build."
)
PROTECTION = (
    "Helmet of a kind meant for your speed, wrist guards, knee and elbow pads, closed shoes, gloves; lights at dusk."
)


def ride_document(
    verdict: SwapVerdict,
    outlooks: Mapping[str, Outlook],
    rows: Mapping[str, Rows],
    changes: Sequence[Changing],
    choices: Sequence[str],
    ways: Mapping[str, Way],
    display: Display,
    date: str,
) -> dict[str, Any]:
    """The whole answer as plain data. outlooks: by board; rows: of their figures, drawn alike on all boards."""
    names = [name for name in BOARDS if name in outlooks]
    last = names[-1]
    figures = [_figure(own, outlooks, rows, names, display) for own in _in_order(outlooks, names)]
    return {
        "plan": {"id": verdict.plan.id, "title": verdict.plan.title, "layout": verdict.plan.pattern},
        "verdict": verdict.best_allowed,
        "boards": names,
        "lead": _lead(verdict, figures, outlooks, names),
        "groups": [{"id": own, "title": title} for own, title in GROUPS],
        "figures": figures,
        "track": _track(ways, rows, names, display),
        "changes": [_change(one, figures) for one in changes],
        "choices": list(choices),
        "stability": {name: _stability(outlooks[name]) for name in names},
        "charts": joined_charts(outlooks, names),
        "cautions": _cautions(outlooks[last]),
        "ranges": RANGES,
        "catalogue_revision": verdict.revision,
        "rulebook_stamp": verdict.stamp,
        "date": date,
    }


def _track(
    ways: Mapping[str, Way], rows: Mapping[str, Rows], names: Sequence[str], display: Display
) -> dict[str, Any] | None:
    """What comes of the track on every board; None where none was given, or no board can ride it."""
    there = [name for name in names if name in ways]
    if not there:
        return None
    last = ways[there[-1]]
    figures = []
    for index, one in enumerate(last.figures):
        told = {name: ways[name].figures[index].figure for name in there}
        own = one.figure.id
        drawn = {name: {own: kept} for name in there if (kept := ways[name].figures[index].rows) is not None}
        difference = _difference(own, drawn, there, one.figure.unit, display) if len(drawn) > 1 else None
        figures.append(
            {
                "id": own,
                "title": one.figure.title,
                "unit": one.figure.unit,
                **{name: _value(told.get(name), display) for name in BOARDS},
                "difference": difference,
                "limited_by": one.figure.limited_by,
                "moved_by": [_mover(mover) for mover in one.figure.movers],
                "sentence": _sentence(one.figure, told, there, difference, display),
            }
        )
    climbed = "" if last.track.ascent_m is None else f", {last.track.ascent_m:.0f} m climbed"
    charts = [_chart(last.chart)]
    for name in dict.fromkeys((there[0], there[-1])):
        charts[0]["series"] += [_series(series) for series in ways[name].chart.series]
    return {
        "title": f"{last.track.title} ({last.track.length_m / 1000.0:.1f} km{climbed})",
        "source": last.track.source,
        "length_m": last.track.length_m,
        "ascent_m": last.track.ascent_m,
        "figures": figures,
        "spots": list(last.spots),
        "told": [figure["sentence"] for figure in figures] + list(last.spots),
        "charts": charts,
    }


def joined_charts(outlooks: Mapping[str, Outlook], names: Sequence[str]) -> list[dict[str, Any]]:
    """Each chart once, with the lines of the board as it stands and of the last one."""
    shown = list(dict.fromkeys((names[0], names[-1])))
    told: dict[str, dict[str, Any]] = {}
    for name in shown:
        for chart in outlooks[name].charts:
            one = told.setdefault(chart.id, _chart(chart))
            one["series"] += [_series(series) for series in chart.series]
            one["missing"] = one["missing"] if chart.series else chart.missing
    return list(told.values())


def _chart(chart: Chart) -> dict[str, Any]:
    return {
        "id": chart.id,
        "title": chart.title,
        "description": chart.description,
        "x": {"title": chart.x_title, "unit": chart.x_unit},
        "y": {"title": chart.y_title, "unit": chart.y_unit},
        "series": [],
        "missing": "",
    }


def _series(series: Any) -> dict[str, Any]:
    return {
        "name": series.name,
        "board": series.board,
        "role": series.role,
        **{key: [round(value, 4) for value in getattr(series, key)] for key in ("x", "y", "low", "high")},
    }


def _in_order(outlooks: Mapping[str, Outlook], names: Sequence[str]) -> list[str]:
    """The ids of all figures, in the order in which the fullest board has them."""
    fullest = max(names, key=lambda name: len(outlooks[name].figures))
    return list(dict.fromkeys([*outlooks[fullest].figures, *(own for name in names for own in outlooks[name].figures)]))


# --- one figure --------------------------------------------------------------------------------------------


def _figure(
    own: str, outlooks: Mapping[str, Outlook], rows: Mapping[str, Rows], names: Sequence[str], display: Display
) -> dict[str, Any]:
    told = {name: outlooks[name].figures.get(own) for name in names}
    last = next(figure for name in reversed(names) if (figure := told[name]) is not None)
    if told[names[-1]] is None:  # a charger that is gone has no hours
        last = dataclasses.replace(last, value=None, limited_by="", movers=(), note="", unknown=GONE)
    difference = _difference(own, rows, names, last.unit, display) if len(names) > 1 else None
    return {
        "id": own,
        "title": last.title,
        "group": last.group,
        "unit": last.unit,
        **{name: _value(told.get(name), display) for name in BOARDS},
        "difference": difference,
        "limited_by": last.limited_by,
        "moved_by": [_mover(one) for one in last.movers],
        "note": last.note,
        "unknown": last.unknown,
        "source": last.source,
        "sentence": _sentence(last, told, names, difference, display),
    }


def _value(figure: Figure | None, display: Display) -> dict[str, Any] | None:
    if figure is None or figure.value is None:
        return None
    value = figure.value
    return {
        "low": value.low,
        "nominal": value.nominal,
        "high": value.high,
        "unit": value.unit,
        "text": shown(value, display),
        "limited_by": figure.limited_by,
    }


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


def _mover(one: Mover) -> dict[str, Any]:
    return {
        "seat": one.seat,
        "part": one.part,
        "attribute": one.attribute,
        "title": one.title,
        "share": round(one.share, 3),
        "assumed": one.assumed,
    }


def _difference(
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
        "low": value.low,
        "nominal": value.nominal,
        "high": value.high,
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


def _sentence(
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


def _change(one: Changing, figures: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """One change in a sentence: what it does, what it costs, and what it gives up."""
    figure = next(figure for figure in figures if figure["id"] == one.figure)
    cost = f"{one.move.minutes:g} min, {one.move.money:g} mu"
    lost = one.move.remedy.gives_up
    for word, meant in (("lowered: ", False), ("raised: ", True)):
        if lost.startswith(word):
            lost = lost.removeprefix(word) if one.raised is meant else ""
    gives_up = f" Gives up: {lost}." if lost else ""
    brief = move_in_brief(one.move)
    return {
        "figure": one.figure,
        "percent": round(one.percent, 1),
        "remedy": one.move.remedy.id,
        "what": one.move.what,
        "seats": list(one.move.seats),
        "minutes": one.move.minutes,
        "money_mu": one.move.money,
        "reversible": one.move.remedy.reversible,
        "sentence": f"{figure['title'].partition(',')[0]} {one.percent:+.0f} %: {brief} ({cost}).{gives_up}",
    }


# --- what a builder repeats to a friend --------------------------------------------------------------------


def _lead(
    verdict: SwapVerdict, figures: Sequence[Mapping[str, Any]], outlooks: Mapping[str, Outlook], names: Sequence[str]
) -> list[str]:
    by_id = {figure["id"]: figure for figure in figures}
    told = []
    if verdict.best_allowed == "clash":
        told.append(
            "As asked it clashes, and nothing here says that it can be built; these are its numbers if it could."
        )
    leading = [by_id[own] for own in LEADING if own in by_id]
    if len(names) > 1:
        told += _compared(leading, names[-1])
    else:
        told += [_alone(figure, names[-1]) for figure in leading if figure[names[-1]] is not None]
    told += [
        f"{figure['title'][:1].upper()}{figure['title'][1:]}: {figure['unknown']}."
        for figure in leading
        if figure[names[-1]] is None
    ]
    told += _motors_add_nothing(verdict, by_id, names)
    told += _weak_brake(by_id, names[-1])
    steer = outlooks[names[-1]].stability
    if steer.word != "calm":
        told.append(f"Steering asks for {'care' if steer.word == 'care' else 'much care'}: {'; '.join(steer.reasons)}.")
    return told


def _alone(figure: Mapping[str, Any], name: str) -> str:
    ends = f", ended by {figure['limited_by']}" if figure["limited_by"] else ""
    return f"{figure['title'][:1].upper()}{figure['title'][1:]}: {figure[name]['text']}{ends}."


def _compared(leading: Sequence[Mapping[str, Any]], last: str) -> list[str]:
    """What differs, each in one sentence, and what stays the same in one for all."""
    told, same = [], []
    for figure in leading:
        before, after, change = figure["before"], figure[last], figure["difference"]
        if after is None or before is None or change is None:
            continue
        if change["same"]:
            same.append(figure["title"].partition(",")[0])
            continue
        ends = f", ended by {figure['limited_by']}" if figure["limited_by"] else ""
        title = figure["title"][:1].upper() + figure["title"][1:]
        told.append(f"{title}: {change['text']}, from {before['text']} to {after['text']}{ends}.")
    if same:
        words = listed(list(dict.fromkeys(same)))
        told.append(f"{words[:1].upper()}{words[1:]} {'stays' if len(same) == 1 else 'stay'} as before.")
    return told


def _motors_add_nothing(verdict: SwapVerdict, by_id: Mapping[str, Any], names: Sequence[str]) -> list[str]:
    """Other motors that pull no harder at speed, because the pack has no more to give."""
    motors = ("_motor", "_direct_drive")
    stood = {piece.seat: piece.part.id for piece in verdict.plan.before if piece.seat.endswith(motors)}
    now = {piece.seat: piece.part.id for piece in verdict.built if piece.seat.endswith(motors)}
    figure = by_id.get("pull_at_speed")
    if stood == now or not stood or figure is None or figure["difference"] is None:
        return []
    pack = "pack" in figure["limited_by"]
    if not pack or figure["difference"]["nominal"] > 3.0:
        return []
    return [
        f"The other motors add nothing at speed: {figure['title']} is {figure['before']['text']} before and "
        f"{figure[names[-1]]['text']} after, and what ends it is {figure['limited_by']}. More pull there takes a pack, "
        "or a setting, that gives more current."
    ]


def _weak_brake(by_id: Mapping[str, Any], last: str) -> list[str]:
    brake, way = by_id.get("brake_deceleration"), by_id.get("stopping_distance")
    if brake is None or way is None or brake[last] is None or way[last] is None:
        return []
    if brake[last]["nominal"] >= WEAK_BRAKE:
        return []
    rolling = by_id["rolling_out"][last]
    without = f" Without the motor brake it rolls {rolling['text']}." if rolling is not None else ""
    return [
        f"This board brakes weakly: {way['title']} is {way[last]['text']}. What ends the brake is "
        f"{brake['limited_by']}.{without}"
    ]


def _stability(outlook: Outlook) -> dict[str, Any]:
    return {
        "points": outlook.stability.points,
        "word": outlook.stability.word,
        "reasons": list(outlook.stability.reasons),
        "source": "common practice, no source",
    }


def _cautions(outlook: Outlook) -> list[str]:
    """Those that the figures of this board call for."""
    told = [ALWAYS]
    if any(own.startswith("stopping_distance") for own in outlook.figures):
        told += [BRAKE, PROTECTION, LAW]
    if outlook.stability.points >= 2:
        told.append(STEERING)
    return told

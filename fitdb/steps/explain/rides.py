"""What the boards of a plan will do as one document: differences first, then every figure with its range and reason."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Protocol

from fitdb.model.outlook import BOARDS, Chart, Figure, Outlook
from fitdb.model.remedy import Move
from fitdb.model.track import Track
from fitdb.model.verdict import SwapVerdict
from fitdb.steps.explain import ALWAYS
from fitdb.steps.explain.ride_figures import (
    difference_document,
    figure_document,
    figure_sentence,
    mover_document,
    value_document,
)
from fitdb.steps.explain.ride_lead import ride_lead
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swap_words import move_in_brief

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
    def notes(self) -> tuple[str, ...]: ...
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
NOTHING = "Too little is known of this board to say what it does."
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
    figures = [figure_document(own, outlooks, rows, names, display) for own in _in_order(outlooks, names)]
    lead = ride_lead(verdict, figures, outlooks, names)
    return {
        "plan": {"id": verdict.plan.id, "title": verdict.plan.title, "layout": verdict.plan.pattern},
        "verdict": verdict.best_allowed,
        "as_asked": verdict.as_asked,
        "sentence": lead[0] if lead else NOTHING,
        "boards": names,
        "lead": lead,
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
        difference = difference_document(own, drawn, there, one.figure.unit, display) if len(drawn) > 1 else None
        figures.append(
            {
                "id": own,
                "title": one.figure.title,
                "unit": one.figure.unit,
                **{name: value_document(told.get(name), display) for name in BOARDS},
                "difference": difference,
                "limited_by": one.figure.limited_by,
                "moved_by": [mover_document(mover) for mover in one.figure.movers],
                "sentence": figure_sentence(one.figure, told, there, difference, display),
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
        "notes": list(last.notes),
        "spots": list(last.spots),
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


def _change(one: Changing, figures: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """One change in a sentence: what it does, what it costs, and what it gives up."""
    figure = next(figure for figure in figures if figure["id"] == one.figure)
    cost = f"{one.move.minutes:g} min, {one.move.money:g} mu"
    lost = one.move.remedy.gives_up
    for word, meant in (("lowered: ", False), ("raised: ", True)):
        if lost.startswith(word):
            lost = lost.removeprefix(word) if one.raised is meant else ""
    gives_up = f" Gives up: {lost}." if lost else ""
    brief, title = move_in_brief(one.move), figure["title"].partition(",")[0]
    return {
        "figure": one.figure,
        "percent": round(one.percent, 1),
        "remedy": one.move.remedy.id,
        "what": one.move.what,
        "seats": list(one.move.seats),
        "minutes": one.move.minutes,
        "money_mu": one.move.money,
        "reversible": one.move.remedy.reversible,
        "sentence": f"{title[:1].upper()}{title[1:]} {one.percent:+.0f} %: {brief} ({cost}).{gives_up}",
    }


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
    brake = outlook.figures.get("brake_deceleration")
    if brake is not None and brake.value is not None:
        told.append(BRAKE)
    told += [PROTECTION, LAW]
    if outlook.stability.points >= 2:
        told.append(STEERING)
    return told

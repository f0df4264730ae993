"""The order of work as one document: steps with what is tightened, read and tried at each, minutes, money, ways.

Plain data under stable keys; `sentence` stands wherever a person reads, made from the numbers beside it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.verdict import BillLine, SwapVerdict
from fitdb.model.work import PHASES, CardStep, JobCard, Span, Way
from fitdb.steps.explain import ALWAYS
from fitdb.steps.explain.job_card_words import (
    counted_parts,
    fasteners_document,
    minutes_text,
    money_document,
    places_text,
    reading_document,
    span_document,
)
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swap_words import listed, move_in_brief
from fitdb.steps.explain.swaps import MEASURE_ONLY, headline

PHASE_TITLES = {
    "measure": "Read before anything is undone",
    "isolate": "Isolate",
    "undo": "Undo",
    "check": "Check what lies bare",
    "alter": "Alter",
    "rebuild": "Rebuild",
    "test": "Try out",
}
FIRST_TIME = "Somebody who does this for the first time takes two to three times as long (common practice, no source)."
NOTHING = "There is nothing to do: no part leaves the board, none comes, and nothing is altered."
MEASURING = "This card holds the readings that decide, and what lays them bare, nothing else."
NO_CARD = "No order of work: this plan clashes, and nothing from this stock mends it."
WAIT = "Nothing may be loaded or ridden meanwhile."


@dataclass(frozen=True, slots=True)
class Charged:
    """What a job is charged by: mu per hour; the parts to get; new parts whose price nobody told."""

    rate: float
    parts: tuple[BillLine, ...]
    unpriced: tuple[str, ...]


def job_card_document(
    card: JobCard,
    verdict: SwapVerdict,
    joints: Mapping[str, str],
    parts: Sequence[BillLine],
    sets: frozenset[str],
    charged: Charged | None,
    display: Display,
    date: str,
) -> dict[str, Any]:
    """The card as plain data.

    joints: titles by number. parts: to get for the cure. sets: parts of which one stands for all screws of a place.
    charged: None without a rate.
    """
    asked = {joint.joint.line.joint for joint in (*verdict.joints, *verdict.untouched)}
    steps = [_step(number, step, joints, asked, display) for number, step in enumerate(card.steps, start=1)]
    return {
        "plan": {"id": verdict.plan.id, "title": verdict.plan.title, "layout": verdict.plan.pattern},
        "verdict": card.verdict,
        "as_asked": verdict.as_asked,
        "sentence": _headline(card, verdict),
        "withheld": card.withheld,
        "why": _why(card, verdict),
        "measuring_only": card.measuring_only,
        "minutes": span_document(card.minutes),
        "wait_hours": sum(step.wait_hours for step in card.steps),
        "first_time": FIRST_TIME if card.steps else "",
        "steps": steps,
        "phases": _phases(card),
        "rechecks": _rechecks(card),
        "promises": [{"what": what, "sentence": f"The answer holds only with this: {what}."} for what in card.promises],
        "parts_to_get": _parts(parts, sets) if card.steps and not card.measuring_only else [],
        "quote": _quote(card, charged, sets) if charged is not None and card.steps else None,
        "ways": [_way(way) for way in card.ways],
        "cautions": [ALWAYS],
        "catalogue_revision": verdict.revision,
        "rulebook_stamp": verdict.stamp,
        "date": date,
    }


def compared_cards(this: dict[str, Any], other: dict[str, Any]) -> dict[str, Any]:
    """Two cards side by side: the same questions, each answered for both."""

    def phase(card: dict[str, Any], name: str) -> str:
        return next((one["minutes"]["text"] for one in card["phases"] if one["phase"] == name), "nothing")

    def row(what: str, of: Any) -> dict[str, Any]:
        return {"what": what, "this": of(this), "other": of(other)}

    rows = [
        row("verdict", lambda card: card["verdict"]),
        row("the card", lambda card: card["sentence"]),
        row("steps", lambda card: len(card["steps"])),
        row("steps that cannot be undone", lambda card: sum(not step["reversible"] for step in card["steps"])),
        row("readings on the way", lambda card: sum(step["kind"] == "reading" for step in card["steps"])),
        row("taking apart", lambda card: phase(card, "undo")),
        row("putting together", lambda card: phase(card, "rebuild")),
        row("all of it", lambda card: card["minutes"]["text"] if card["steps"] else "nothing"),
        row("parts to get, mu", lambda card: sum(part["money_mu"] for part in card["parts_to_get"])),
        row("quote", lambda card: card["quote"]["total"]["text"] if card["quote"] else "no rate was told"),
    ]
    return {"this": this, "other": other, "rows": rows}


# --- the head ------------------------------------------------------------------------------------------------


def _headline(card: JobCard, verdict: SwapVerdict) -> str:
    if card.withheld == "clash":
        return NO_CARD
    if card.withheld:
        return NOTHING
    takes = f"{len(card.steps)} steps, about {minutes_text(card.minutes)}"
    if card.measuring_only:
        return f"Measuring only: {takes}. {MEASURE_ONLY}"
    return f"Order of work: {takes}. {headline(verdict)}"


def _why(card: JobCard, verdict: SwapVerdict) -> list[str]:
    if card.measuring_only:
        return [MEASURING]
    if card.withheld != "clash":
        return []
    clashing = [joint.joint.line for joint in verdict.joints if joint.verdict == "clash"]
    told = [f"It clashes at {line.joint} {line.title}." for line in clashing]
    if any(conflict.refused for conflict in verdict.conflicts):
        told.append("For this no adapter, setting or alteration is ever offered: only another part can end it.")
    for plan in verdict.instead[:2]:
        told.append(f"Another plan would do: {'; '.join(move_in_brief(move) for move in plan.moves)}.")
    return list(dict.fromkeys(told))


# --- steps ---------------------------------------------------------------------------------------------------


def _step(number: int, step: CardStep, joints: Mapping[str, str], asked: set[str], display: Display) -> dict[str, Any]:
    reading = reading_document(step.reading, display) if step.reading else None
    return {
        "number": number,
        "key": step.key,
        "kind": step.kind,
        "phase": step.phase,
        "title": step.title,
        "does": step.does,
        "places": list(step.places),
        "where": places_text(step.places),
        "parts": [{"title": title, "count": count} for title, count in step.parts],
        "new": [{"title": title, "count": count} for title, count in step.new],
        "tool": step.tool,
        "minutes": span_document(step.minutes),
        "wait_hours": step.wait_hours,
        "electrical": step.electrical,
        "reversible": step.reversible,
        "photograph": step.photograph,
        "note": step.note,
        "look_first": list(step.look_first),
        "cautions": list(step.cautions),
        "fasteners": [fasteners_document(one, display) for one in step.fasteners],
        "reading": reading,
        "test": _test(step, joints, asked),
        "changes": list(step.changes),
        "gives_up": step.gives_up,
        "needs": list(step.needs),
        "source": step.source,
        "sentence": reading["sentence"] if reading else _sentence(step),
    }


def _sentence(step: CardStep) -> str:
    """What is done, where, and with what, in words to be read aloud."""
    place = places_text(step.places)
    told = f"{step.title}{f', {place}' if place else ''}: {step.does}"
    if step.parts and step.phase in ("rebuild", "alter"):
        told += f" With: {counted_parts(step.parts)}."
    if step.changes:
        told += f" Here: {'; '.join(step.changes)}."
    if step.gives_up:
        told += f" Gives up: {step.gives_up}."
    if step.wait_hours:
        told += f" Then {step.wait_hours:g} h; {WAIT[:1].lower()}{WAIT[1:]}"
    return told


def _test(step: CardStep, joints: Mapping[str, str], asked: set[str]) -> dict[str, Any] | None:
    """What it has to show, and where to go back: to the joints of this board, or to all where it has none of them."""
    if step.test is None:
        return None
    named = [own for own in step.test.back_to if own in asked] or list(step.test.back_to)
    back = [{"joint": own, "title": joints.get(own, "")} for own in named]
    told = listed([f"{own} ({title})" if (title := joints.get(own, "")) else own for own in named])
    return {
        "passes": step.test.passes,
        "back_to": back,
        "sentence": f"Passes if: {step.test.passes} If not, unplug the pack and go back to {told}.",
    }


def _phases(card: JobCard) -> list[dict[str, Any]]:
    found = []
    for phase in PHASES:
        of_phase = [(number, step) for number, step in enumerate(card.steps, start=1) if step.phase == phase]
        if of_phase:
            minutes = _sum([step.minutes for _, step in of_phase])
            found.append(
                {
                    "phase": phase,
                    "title": PHASE_TITLES[phase],
                    "steps": [number for number, _ in of_phase],
                    "minutes": span_document(minutes),
                    "sentence": f"{PHASE_TITLES[phase]}{f', {minutes_text(minutes)}' if minutes.high else ''}:",
                }
            )
    return found


def _sum(spans: Sequence[Span]) -> Span:
    total = Span()
    for span in spans:
        total = total + span
    return total


def _rechecks(card: JobCard) -> list[dict[str, Any]]:
    """Which fastenings to look at again, and after how many km."""
    by_km: dict[int, dict[str, None]] = {}
    for step in card.steps:
        for one in step.fasteners:
            for km in one.fastening.recheck_km:
                by_km.setdefault(km, {})[one.fastening.title] = None
    return [
        {"km": km, "what": list(what), "sentence": f"After {km} km look again at: {listed(list(what))}."}
        for km, what in sorted(by_km.items())
    ]


# --- money and ways ------------------------------------------------------------------------------------------


def _parts(lines: Sequence[BillLine], sets: frozenset[str]) -> list[dict[str, Any]]:
    """One entry for each part, whatever number of lines it has. sets: parts that stand for all screws of a place."""
    found: dict[str, tuple[str, int, float]] = {}
    for line in lines:
        _, count, money = found.get(line.part, ("", 0, 0.0))
        found[line.part] = (line.title, count + line.count, money + line.money)
    return [
        {
            "part": part,
            "title": title,
            "count": count,
            "in_sets": part in sets,
            "money_mu": money,
            "sentence": f"{_many(count, part in sets)} {title}, {money:g} mu",
        }
        for part, (title, count, money) in found.items()
    ]


def _many(count: int, in_sets: bool) -> str:
    return f"{count} ×" if not in_sets else f"{count} sets of" if count > 1 else "1 set of"


def _quote(card: JobCard, charged: Charged, sets: frozenset[str]) -> dict[str, Any]:
    """Labour by phase and parts; what nobody priced is named, never counted as nothing."""
    lines: list[dict[str, Any]] = []
    total = Span()
    for phase in PHASES:
        minutes = _sum([step.minutes for step in card.steps if step.phase == phase])
        if minutes.high:
            money = minutes.times(charged.rate / 60)
            total = total + money
            what = PHASE_TITLES[phase]
            told = money_document(money)
            lines.append(
                {
                    "kind": "labour",
                    "what": what,
                    "minutes": span_document(minutes),
                    "count": None,
                    "money_mu": told,
                    "sentence": f"{what}: {minutes_text(minutes)} at {charged.rate:g} mu per hour, {told['text']}",
                }
            )
    for part in _parts(charged.parts, sets) if not card.measuring_only else ():
        money = Span(part["money_mu"], part["money_mu"], part["money_mu"])
        total = total + money
        lines.append(
            {
                "kind": "part",
                "what": part["title"],
                "minutes": None,
                "count": part["count"],
                "money_mu": money_document(money),
                "sentence": part["sentence"],
            }
        )
    told = money_document(total)
    without = f" Without: {listed(list(charged.unpriced))}, whose price nobody told." if charged.unpriced else ""
    return {
        "rate_mu_per_hour": charged.rate,
        "lines": lines,
        "total": told,
        "unpriced": list(charged.unpriced),
        "sentence": f"Together {told['text']}.{without}",
    }


def _way(way: Way) -> dict[str, Any]:
    for_good = f", {way.irreversible} of them for good" if way.irreversible else ""
    joints = ""
    if way.clashing is not None:
        joints = f" {way.clashing or 'no'} {'joint clashes' if way.clashing == 1 else 'joints clash'} then"
        joints += f", {way.undecided} cannot be told yet." if way.undecided else "."
    told = f"{way.title}: {len(way.steps)} steps to take it apart{for_good}, {minutes_text(way.minutes)}.{joints}"
    return {
        "title": way.title,
        "steps": list(way.steps),
        "minutes": span_document(way.minutes),
        "irreversible": way.irreversible,
        "clashing": way.clashing,
        "undecided": way.undecided,
        "sentence": f"{told[:1].upper()}{told[1:]}",
    }

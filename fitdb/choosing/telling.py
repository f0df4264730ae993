"""One sentence for each option, and why something cannot stand: in words, with the numbers of the finding."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from typing import Any

from fitdb.model.finding import Finding
from fitdb.model.part import Part
from fitdb.options import Option, Options, Snapshot, change_document, why_document
from fitdb.possible.answer import Changed, Why
from fitdb.possible.whole import Group
from fitdb.possible.why import STATED
from fitdb.steps.explain import Display, finding_document, sentence
from fitdb.steps.explain.swap_words import attribute_words, listed

MOST_TOLD = 5
STANDS = "It stands on a whole board on which nothing clashes."
IN_TIME = "The time was up before it was known; ask again, what was found is kept."
NO_BOARD = "No whole board stands with it and what is chosen; `why` tells the reason."


def already(
    shot: Snapshot, chosen: Mapping[str, Part], seats: tuple[str, ...], display: Display
) -> list[dict[str, Any]]:
    """What clashes among the chosen parts themselves, whatever is put into the seats asked about."""
    kept = {seat: part for seat, part in chosen.items() if seat not in seats}
    told: dict[tuple[str, str], dict[str, Any]] = {}
    for finding in _failing(shot, kept):
        of = list(dict.fromkeys(item.seat for item in finding.inputs if item.seat in kept))
        text = sentence(finding, display)
        told.setdefault((finding.rule.id, text), {"rule": finding.rule.id, "seats": of, "sentence": text})
    return list(told.values())[:MOST_TOLD]


def to_give_up(
    shot: Snapshot,
    chosen: Mapping[str, Part],
    seats: tuple[str, ...],
    part: Part | None,
    groups: Sequence[Group],
    untouchable: Collection[str],
) -> list[Group]:
    """The choices that take part in everything that fails as it is chosen (with this part): one of them has to go.

    Where nothing fails yet, every choice may be the one. What is stated, and what is to stay, is given up last.
    """
    kept = {seat: one for seat, one in chosen.items() if seat not in seats}
    seated = {**kept, **(dict.fromkeys(seats, part) if part is not None else {})}
    failing = [{item.seat for item in finding.inputs} for finding in _failing(shot, seated)]
    free = [one for one in groups if set(one.seats) & set(kept)]
    found = [one for one in free if all(set(one.seats) & some for some in failing)]
    return sorted(found, key=lambda one: (bool(set(one.seats) & set(STATED)), bool(set(one.seats) & set(untouchable))))


def over_the_price(found: Options, most: float | None, cost: Callable[[Mapping[str, str]], float | None]) -> Options:
    """The options where a price is insisted on: what costs more at least is ruled out, what is not known to keep to it
    is still to be checked."""
    if most is None:
        return found

    def held(option: Option) -> Option:
        if option.witness is None:
            return option
        if option.price is not None and option.price.from_least > most + 1e-9:
            return dataclasses.replace(option, verdict="clash", board=None)
        money = cost(option.witness)
        if money is None or money > most + 1e-9:
            return dataclasses.replace(option, verdict="checking", board=None)
        return option

    told = tuple(map(held, found.options))
    return dataclasses.replace(found, options=told, complete=all(one.verdict != "checking" for one in told))


def option_sentence(
    shot: Snapshot,
    chosen: Mapping[str, Part],
    seats: tuple[str, ...],
    option: Option,
    line: Mapping[str, Any],
    display: Display,
) -> str:
    """What is said of an option in one sentence."""
    if line["fits_with"] is not None:
        return str(line["fits_with"]["sentence"])
    if line["verdict"] == "fits":
        return STANDS
    if line["verdict"] == "clash":
        failing = next(_with(shot, chosen, seats, option.part), None)
        return sentence(failing, display) if failing is not None else NO_BOARD
    if not option.possible:
        return IN_TIME
    first = [(f"{attribute_words(one['attribute'])} of {one['part']}", one["finer"]) for one in line["to_read"][:3]]
    read = [told + (" more finely" if finer else "") for told, finer in first]
    more = len(line["to_read"]) - len(read)
    named = listed(read) + (f" and {more} more" if more > 0 else "")
    told = f"It may stand: read {named} first." if read else "It may stand; a reading decides."
    looked = " Whether a board without a doubt stands was not known in time."
    return told + (looked if line["verdict"] == "checking" else "")


def possible_at_all(option: Option) -> dict[str, Any]:
    """The answer to `why not` where the part can stand."""
    return {
        "part": option.part.id, "verdict": option.verdict, "sentence": f"{option.part.id} can stand here.",
        "reason": None, "change": None, "findings": [], "known": True,
    }  # fmt: skip


def explained(
    shot: Snapshot,
    chosen: Mapping[str, Part],
    seats: tuple[str, ...],
    option: Option,
    reason: Why | None,
    change: Changed | None,
    display: Display,
) -> dict[str, Any]:
    """Why a part cannot stand here: the smallest reason where it was found in time, and what clashes with it now."""
    failing: dict[str, Finding] = {}
    for finding in _with(shot, chosen, seats, option.part):
        failing.setdefault(sentence(finding, display), finding)
    reason_told, change_told = why_document(reason, display), change_document(change)
    told = IN_TIME
    if reason_told is not None:
        told = reason_told["sentence"]
    elif failing:
        told = _blaming(next(iter(failing.values())), chosen, seats, display)
    return {
        "part": option.part.id,
        "verdict": option.verdict,
        "sentence": told + (f" {change_told['sentence']}" if change_told is not None else ""),
        "reason": reason_told,
        "change": change_told,
        "findings": [finding_document(one, display) for one in list(failing.values())[:MOST_TOLD]],
        "known": reason is not None,
    }


def _blaming(finding: Finding, chosen: Mapping[str, Part], seats: tuple[str, ...], display: Display) -> str:
    """`With driven-36-six-lug (rear left driven pulley): fails ...`: the finding, and the choices that it looks at."""
    met: dict[str, str] = {}
    for item in finding.inputs:
        if item.seat in chosen and item.seat not in seats:
            met.setdefault(chosen[item.seat].id, item.seat)
    named = listed([f"{part} ({attribute_words(seat)})" for part, seat in met.items()])
    return f"With {named}: {sentence(finding, display)}" if named else sentence(finding, display)


def _with(shot: Snapshot, chosen: Mapping[str, Part], seats: tuple[str, ...], part: Part) -> Iterator[Finding]:
    """What fails on the chosen board with the part in its seats, and looks at it."""
    for finding in _failing(shot, {**chosen, **dict.fromkeys(seats, part)}):
        if any(item.seat in seats for item in finding.inputs):
            yield finding


def _failing(shot: Snapshot, seated: Mapping[str, Part]) -> Iterator[Finding]:
    known = {seat: shot.same(part) for seat, part in seated.items()}
    return (finding for finding in shot.judged(known) if finding.state == "fails")

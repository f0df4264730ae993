"""What a builder repeats to a friend: what changes, what stays, what adds nothing, and where the board is dangerous."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from fitdb.model.outlook import Outlook
from fitdb.model.verdict import SwapVerdict
from fitdb.steps.explain.swap_words import listed

LEADING = ("top_speed_half", "pull", "grade_start", "range", "stopping_distance")
WEAK_BRAKE = 2.0  # m/s²; common practice, no source


def ride_lead(
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
    told += _unknown([figure for figure in leading if figure[names[-1]] is None])
    told += _motors_add_nothing(verdict, by_id, names)
    told += _weak_brake(by_id, names[-1])
    steer = outlooks[names[-1]].stability
    if steer.word != "calm":
        told.append(f"Steering asks for {'care' if steer.word == 'care' else 'much care'}: {'; '.join(steer.reasons)}.")
    return told


def _unknown(figures: Sequence[Mapping[str, Any]]) -> list[str]:
    """What cannot be told, figures of one reason in one sentence."""
    reasons: dict[str, list[str]] = {}
    for figure in figures:
        reasons.setdefault(figure["unknown"], []).append(figure["title"].partition(",")[0])
    told = [(listed(titles), why) for why, titles in reasons.items()]
    return [f"{titles[:1].upper()}{titles[1:]}: unknown; {why}." for titles, why in told]


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

"""What the boards of a plan will do as text for a terminal: differences first, then every figure in groups."""

from __future__ import annotations

from typing import Any

from fitdb.sheets.fit_report import VERDICT_WORDS, wrapped

SHORT = (
    "top_speed_full",
    "top_speed_half",
    "top_speed_low",
    "pull",
    "grade_start",
    "grade_all_day",
    "hill_speed",
    "consumption",
    "range",
    "pack_current",
    "stopping_distance",
    "stopping_distance_wet",
    "stopping_distance_full",
    "rolling_out",
    "deck_height",
    "box_clearance",
    "bite_angle",
    "turn_radius",
)
MOST_CAUTIONS = 3


def ride_report(answer: dict[str, Any], width: int = 80, full: bool = False) -> str:
    """The whole answer; `full` tells every figure in its sentence, with what ends it and what moves it."""
    names = answer["boards"]
    lines = wrapped(f"{answer['plan']['title'] or answer['plan']['id']}: what the board will do.", width)
    lines += wrapped(f"The plan: {VERDICT_WORDS[answer['verdict']].lower()}.", width, "", "")
    lines += ["", *[line for told in answer["lead"] for line in wrapped(told, width, "  ", "    ")]]
    lines += _figures(answer, names, width, full)
    lines += _track(answer, width)
    if answer["changes"]:
        lines += ["", "What would change these numbers, the cheapest first (nothing fails by it):"]
        for one in answer["changes"]:
            lines += wrapped(one["sentence"], width, "  - ", "    ")
    if answer["choices"]:
        lines += ["", "What one would choose differently:"]
        for told in answer["choices"]:
            lines += wrapped(told, width, "  - ", "    ")
    steer = answer["stability"][names[-1]]
    reasons = f": {'; '.join(steer['reasons'])}" if steer["reasons"] else ""
    lines += ["", *wrapped(f"Steering: {steer['word']}{reasons} ({steer['source']}).", width)]
    cautions = answer["cautions"] if full else answer["cautions"][:MOST_CAUTIONS]
    lines += ["", "Cautions:", *[line for told in cautions for line in wrapped(told, width, "  ! ", "    ")]]
    if len(cautions) < len(answer["cautions"]):
        lines.append(f"  … and {len(answer['cautions']) - len(cautions)} more: --full tells all")
    lines += ["", *wrapped(answer["ranges"], width)]
    lines.append(f"Catalogue {answer['catalogue_revision']}, rulebook {answer['rulebook_stamp']}, {answer['date']}.")
    return "\n".join(lines)


def _figures(answer: dict[str, Any], names: list[str], width: int, full: bool) -> list[str]:
    lines: list[str] = []
    for group in answer["groups"]:
        figures = [one for one in answer["figures"] if one["group"] == group["id"] and (full or one["id"] in SHORT)]
        if not full and all(figure[names[-1]] is None for figure in figures):
            continue  # the first lines say why
        if not figures:
            continue
        lines += ["", f"{group['title']}:"]
        for figure in figures:
            if full:
                lines += wrapped(figure["sentence"], width, "  - ", "    ")
            else:
                lines += wrapped(_in_short(figure, names), width, "  - ", "    ")
    return lines


def _in_short(figure: dict[str, Any], names: list[str]) -> str:
    """`top speed, pack half full: 18.0 km/h, was 16.0 km/h, +12 %; ended by the volts of the pack`."""
    now, before = figure[names[-1]], figure["before"] if names[0] == "before" and len(names) > 1 else None
    if now is None:
        return f"{figure['title']}: unknown; {figure['unknown']}"
    told = f"{figure['title']}: {now['text']}"
    if before is not None and figure["difference"] is not None:
        same = figure["difference"]["same"]
        told += ", as before" if same else f", was {before['text']}, {figure['difference']['text']}"
    return told + (f"; ended by {figure['limited_by']}" if figure["limited_by"] else "")


def _track(answer: dict[str, Any], width: int) -> list[str]:
    """What comes of the ridden track, where one was given."""
    track = answer.get("track")
    if track is None:
        return []
    told = [*(figure["sentence"] for figure in track["figures"]), *track["spots"], *track["notes"]]
    return [
        "",
        f"On {track['title']}:",
        *[line for one in told for line in wrapped(one, width, "  - ", "    ")],
    ]

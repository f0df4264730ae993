"""The order of work as text for a terminal: a box before every step, cautions and torques beside what they are for."""

from __future__ import annotations

from typing import Any

from fitdb.sheets.fit_report import wrapped

MOST_WAYS = 4
MONEY = "1 mu is about one euro or dollar"


def job_card_report(document: dict[str, Any], width: int = 80, full: bool = False) -> str:
    """The card, or two cards side by side. `full` tells how each step is done, what to photograph and what to watch."""
    if "rows" in document:
        return _side_by_side(document, width)
    full = full or document["measuring_only"]
    title = document["plan"]["title"]
    lines = [*wrapped(f"Job card: {title}." if title else "Job card.", width), ""]
    lines += wrapped(document["sentence"], width)
    for told in document["why"]:
        lines += wrapped(told, width, "  ", "    ")
    lines += _list([one["sentence"] for one in document["promises"]], width)
    lines += ["", *wrapped(document["cautions"][0], width, "! ", "  ")]
    lines += _steps(document, width, full)
    lines += _rechecks(document, width)
    lines += _ways(document, width, full)
    lines += _money(document, width)
    if document["first_time"]:
        lines += ["", *wrapped(document["first_time"], width)]
        if not full:
            lines += wrapped("--full tells how each step is done and what to photograph before it.", width)
    stamp = f"Catalogue {document['catalogue_revision']}, rulebook {document['rulebook_stamp']}, {document['date']}."
    return "\n".join([*lines, "", *wrapped(stamp, width)])


def _steps(document: dict[str, Any], width: int, full: bool) -> list[str]:
    """Every step under the title of its phase, told again where the phase comes back; a caution once, where it is first
    needed."""
    titles = {one["phase"]: one["sentence"] for one in document["phases"]}
    phase_titles = {one["phase"]: one["title"] for one in document["phases"]}
    lines: list[str] = []
    phase, warned = "", set[str]()
    for step in document["steps"]:
        if step["phase"] != phase:
            phase = step["phase"]
            again = f"{phase_titles[phase]}, further:"
            lines += ["", *wrapped(titles.pop(phase, again), width)]
        lines += _step(step, width, full)
        for caution in step["cautions"]:
            if caution not in warned:
                warned.add(caution)
                lines += wrapped(caution, width, "       ! ", "         ")
    return lines


def _step(step: dict[str, Any], width: int, full: bool) -> list[str]:
    told = step["sentence"] if full or step["kind"] in ("gate", "reading", "alteration") else _short(step)
    minutes = step["minutes"]
    takes = f" {minutes['text'] if full else minutes['short']}." if minutes["high"] else ""
    tool = f" Tool: {step['tool']}." if full and step["tool"] and not step["reading"] else ""
    for_good = "" if step["reversible"] else " This cannot be undone."
    lines = wrapped(f"{told}{tool}{takes}{for_good}", width, f"  [ ] {step['number']:>2}. ", " " * 10)
    inner = "       "
    if full and step["photograph"]:
        lines += wrapped(f"Photograph first: {step['photograph']}.", width, f"{inner}- ", f"{inner}  ")
    if full and step["note"]:
        lines += wrapped(step["note"], width, f"{inner}- ", f"{inner}  ")
    for told in step["look_first"]:
        lines += wrapped(told, width, f"{inner}- ", f"{inner}  ")
    for one in step["fasteners"]:
        lines += wrapped(one["sentence"], width, f"{inner}- ", f"{inner}  ")
    if step["test"]:
        told = step["test"]["sentence"] if full else f"Passes if: {step['test']['passes']}"
        lines += wrapped(told, width, f"{inner}- ", f"{inner}  ")
    return lines


def _short(step: dict[str, Any]) -> str:
    """Title and places; of the rebuild what is new or set here."""
    place = step["where"]
    new = "; ".join(f"{one['count']} × {one['title']}" if one["count"] > 1 else one["title"] for one in step["new"])
    changes = f" Here: {'; '.join(step['changes'])}." if step["changes"] else ""
    wait = f" Then {step['wait_hours']:g} h." if step["wait_hours"] else ""
    return f"{step['title']}{f', {place}' if place else ''}.{f' New: {new}.' if new else ''}{changes}{wait}"


def _rechecks(document: dict[str, Any], width: int) -> list[str]:
    """The same fastenings after 1, 10 and 100 km are one sentence."""
    by_what: dict[tuple[str, ...], list[int]] = {}
    for one in document["rechecks"]:
        by_what.setdefault(tuple(one["what"]), []).append(one["km"])
    lines = []
    for what, kms in by_what.items():
        after = f"{', '.join(map(str, kms[:-1]))} and {kms[-1]}" if len(kms) > 1 else f"{kms[0]}"
        lines += wrapped(f"After {after} km look again at: {', '.join(what)}.", width, "  [ ] ", "      ")
    return ["", "Look again:", *lines] if lines else []


def _ways(document: dict[str, Any], width: int, full: bool) -> list[str]:
    if not document["ways"]:
        return []
    lines = ["", "The ways side by side, by what has to be taken apart:"]
    for way in document["ways"][:MOST_WAYS]:
        lines += wrapped(way["sentence"], width, "  - ", "    ")
        if full:
            lines += wrapped("; ".join(way["steps"]) + ".", width, "      ", "      ")
    return lines


def _money(document: dict[str, Any], width: int) -> list[str]:
    quote = document["quote"]
    if quote is None:
        return _titled("To get:", [one["sentence"] for one in document["parts_to_get"]], width)
    told = [*(line["sentence"] for line in quote["lines"]), f"{quote['sentence']} ({MONEY})"]
    return _titled("Quote:", told, width)


def _titled(title: str, told: list[str], width: int) -> list[str]:
    return ["", title, *_list(told, width)] if told else []


def _list(told: list[str], width: int) -> list[str]:
    return [line for one in told for line in wrapped(one, width, "  - ", "    ")]


def _side_by_side(both: dict[str, Any], width: int) -> str:
    this, other = both["this"]["plan"]["id"], both["other"]["plan"]["id"]
    lines = [f"{this} beside {other}"]
    for row in both["rows"]:
        lines += ["", f"{row['what']}:"]
        for name, value in ((this, row["this"]), (other, row["other"])):
            shown = f"{value:g}" if isinstance(value, float) else str(value)
            lines += wrapped(f"{name}: {shown}", width, "  ", "    ")
    stamp = f"Catalogue {both['this']['catalogue_revision']}, rulebook {both['this']['rulebook_stamp']}."
    return "\n".join([*lines, "", stamp])

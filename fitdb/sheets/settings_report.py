"""The settings sheet as text for a terminal, in whole sentences to be read aloud; cautions beside what they guard."""

from __future__ import annotations

from typing import Any

from fitdb.sheets.fit_report import wrapped

MOST_TO_READ = 6


def settings_report(document: dict[str, Any], width: int = 80, full: bool = False) -> str:
    """The sheet, group by group. `full` adds to every line each other link with its number, and how to read what is
    missing."""
    title = document["plan"].get("title", "")
    lines = wrapped(f"Settings sheet: {title}." if title else "Settings sheet.", width)
    for sentence in document["head"]:
        lines += wrapped(sentence, width)
    for note in document["notes"]:
        lines += wrapped(note, width)
    shown: set[str] = set()
    for group in document["groups"]:
        of_group = [line for line in document["lines"] if line["group"] == group["id"]]
        if of_group:
            lines += ["", f"{group['title']}:"]
            lines += _group(of_group, width, full, shown)
    lines += _to_read(document, width, full)
    always = document["cautions"][0]
    lines += ["", *wrapped(always, width)]
    stamp = f"Catalogue {document['catalogue_revision']}, rulebook {document['rulebook_stamp']}, {document['date']}."
    return "\n".join([*lines, "", *wrapped(stamp, width)])


def _group(of_group: list[dict[str, Any]], width: int, full: bool, shown: set[str]) -> list[str]:
    """The lines of a group, and each of its cautions once in the whole sheet, after the line that asks for it."""
    lines: list[str] = []
    for line in of_group:
        lines += wrapped(line["sentence"], width, "  - ", "    ")
        if full:
            lines += _links(line, width)
        if line["caution"] and not any(line["caution"] in one for one in shown):
            shown.add(line["caution"])
            lines += wrapped(f"Caution: {line['caution']}", width, "    ", "    ")
    return lines


def _links(line: dict[str, Any], width: int) -> list[str]:
    """Every link of the line with its own number, the one that sets it first."""
    links = [line["set_by"], *line["others"]] if line["set_by"] else []
    told = [f"{link['name']}: {link['value']['text']}, {link['worked']}. Source: {link['source']}." for link in links]
    if not links and line["source"]:
        told = [f"Source: {line['source']}."]
    return [text for one in told for text in wrapped(one, width, "      ", "        ")]


def _to_read(document: dict[str, Any], width: int, full: bool) -> list[str]:
    """What to read or to name, so that bounds become settings."""
    items = document["to_read"]
    if not items:
        return []
    lines = ["", "To be read, or named in the plan, before these are the last word:"]
    for item in items if full else items[:MOST_TO_READ]:
        how = f" {item['how']}" if item["how"] else ""
        lines += wrapped(f"{item['name']}: {item['title']}.{how}", width, "  - ", "    ")
    left = len(items) - MOST_TO_READ
    return lines + ([f"  and {left} more: --full tells all"] if left > 0 and not full else [])

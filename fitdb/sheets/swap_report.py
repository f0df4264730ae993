"""The answer to a swap plan as text for a terminal: verdict, why, what mends it, what to get, what to measure."""

from __future__ import annotations

import csv
import io
from typing import Any

from fitdb.sheets.fit_report import STATE_MARKS, VERDICT_WORDS, wrapped

MOST = {
    "conflicts": 3,
    "other_remedies": 2,
    "passed_over": 3,
    "instead": 3,
    "cut_lines": 4,
    "measure_first": 4,
    "joints": 8,
    "stood": 5,
    "cautions": 5,
}
SIDES = {"left", "right", "front", "rear"}
MONEY = "1 mu is about one euro or dollar"


def swap_report(answer: dict[str, Any], width: int = 80, full: bool = False) -> str:
    """The whole answer; `full` tells every joint in its sentences and every list and caution to its end."""
    lines = wrapped(f"{VERDICT_WORDS[answer['verdict']]}. {answer['sentence']}", width)
    lines += ["", *[line for told in answer["lead"] for line in wrapped(told, width, "  ", "    ")]]
    lines += _items(answer, "conflicts", "What clashes with what:", width, full, "  ✗ ")
    lines += _remedies(answer, width, full)
    lines += _items(answer, "passed_over", "Looked at and passed over:", width, full)
    if answer["instead"]:
        lines += ["", "Instead, as another plan:"]
        for plan in answer["instead"] if full else answer["instead"][: MOST["instead"]]:
            lines += wrapped(f"{plan['sentence']} {_verdict(plan)}", width, "  - ", "    ")
    lines += _items(answer, "cut_lines", "Where to cut between the two boards, the best cut first:", width, full)
    lines += _measures(answer, width, full)
    lines += _joints(answer, width, full)
    lines += _waiting(answer, width, full)
    lines += _stood(answer, width, full)
    lines += _items(answer, "cautions", "Cautions:", width, full, "  ! ")
    if answer["claim"]:
        lines += ["", *wrapped(answer["claim"], width)]
    stamp = f"Catalogue {answer['catalogue_revision']}, rulebook {answer['rulebook_stamp']}, {answer['date']}."
    return "\n".join([*lines, "", stamp])


def bill_text(answer: dict[str, Any]) -> str:
    """The bill of the first remedy plan as CSV, units in the headings; nothing but these where nothing is bought."""
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(["part", "title", "count", "money [mu]", "where", "neighbours", "neighbour unit"])
    for plan in answer["remedies"][:1]:
        for line in plan["bill"]:
            sizes = " ".join(f"{item['value']:g}" for item in line["neighbours"])
            unit = line["neighbours"][0]["unit"] if line["neighbours"] else ""
            row = [line["part"], line["title"], line["count"], f"{line['money_mu']:g}", line["where"], sizes, unit]
            writer.writerow(row)
    return written.getvalue()


def comparison_report(both: dict[str, Any], width: int = 80) -> str:
    """Two plans side by side, one question a row."""
    this, other = both["this"]["plan"]["id"], both["other"]["plan"]["id"]
    lines = [f"{this} beside {other}"]
    for row in both["rows"]:
        lines.append("")
        lines.append(f"{row['what']}:")
        for name, value in ((this, row["this"]), (other, row["other"])):
            told = (
                " ".join(value) if isinstance(value, list) else f"{value:g}" if isinstance(value, float) else str(value)
            )
            lines += wrapped(f"{name}: {told or 'none'}", width, "  ", "    ")
    stamp = f"Catalogue {both['this']['catalogue_revision']}, rulebook {both['this']['rulebook_stamp']}."
    return "\n".join([*lines, "", stamp])


def shelf_report(told: dict[str, Any], width: int = 80) -> str:
    """Boards that could be built from what is owned, best first."""
    lines = wrapped(told["sentence"], width)
    for number, board in enumerate(told["boards"], start=1):
        lines += ["", *wrapped(f"{number}. {VERDICT_WORDS[board['verdict']]}: {board['sentence']}", width, "", "   ")]
        for seat, part in board["parts"].items():
            lines += wrapped(f"{seat}: {part}", width, "   ", "     ")
        if board["empty"]:
            more = f" and {len(board['empty']) - 8} more" if len(board["empty"]) > 8 else ""
            lines += wrapped(f"nothing owned for: {'; '.join(board['empty'][:8])}{more}", width, "   ", "     ")
    stamp = f"Catalogue {told['catalogue_revision']}, rulebook {told['rulebook_stamp']}."
    return "\n".join([*lines, "", stamp])


def _items(answer: dict[str, Any], key: str, title: str, width: int, full: bool, mark: str = "  - ") -> list[str]:
    """A titled list of sentences; nothing where there are none."""
    items = [item if isinstance(item, str) else item["sentence"] for item in answer[key]]
    if not items:
        return []
    shown = items if full else items[: MOST[key]]
    lines = ["", title, *[line for item in shown for line in wrapped(item, width, mark, "    ")]]
    return lines + _more(len(items) - len(shown))


def _more(left: int) -> list[str]:
    return [f"  … and {left} more: --full tells all"] if left > 0 else []


def _verdict(plan: dict[str, Any]) -> str:
    """How another way ends, and the doubts that it brings with it."""
    doubts = plan["cost"]["new_undecided"]
    if doubts:
        return f"It brings {doubts} new doubt{'' if doubts == 1 else 's'}."
    if plan["verdict"] == "clash":
        return "It still clashes."
    return "Then readings decide." if plan["verdict"] == "measure" else "Then these numbers do not clash."


def _remedies(answer: dict[str, Any], width: int, full: bool) -> list[str]:
    if not answer["remedies"]:
        return []
    best = answer["remedies"][0]
    lines = ["", "What mends it:"]
    for number, move in enumerate(best["moves"], start=1):
        lines += wrapped(move["sentence"], width, f"  {number}. ", "     ")
    cost = best["cost"]
    together = "Together about" if len(best["moves"]) > 1 else "About"
    lines += wrapped(f"{together} {cost['minutes']:g} min and {cost['money_mu']:g} mu ({MONEY}).", width, "     ")
    if best["bill"]:
        lines += ["", "To get:"]
        for item in best["bill"]:
            lines += wrapped(item["sentence"], width, "  - ", "    ")
    others = answer["other_remedies"] if full else answer["other_remedies"][: MOST["other_remedies"]]
    if others:
        lines += ["", "Other ways:"]
        for plan in others:
            lines += wrapped(f"{plan['sentence']} {_verdict(plan)}", width, "  - ", "    ")
    return lines + _more(len(answer["other_remedies"]) - len(others))


def _measures(answer: dict[str, Any], width: int, full: bool) -> list[str]:
    """The readings that decide, with what comes of them; those that only narrow the doubt by their names."""
    lines: list[str] = []
    deciding = [item for item in answer["measure_first"] if len({one["verdict"] for one in item["outcomes"]}) != 1]
    first = (deciding or answer["measure_first"])[: None if full else MOST["measure_first"]]
    rest = [item for item in answer["measure_first"] if item not in first]
    if first:
        lines += ["", "Measure first, and ask again with --reading 'NAME=VALUE':"]
        for number, item in enumerate(first, start=1):
            lines += wrapped(item["sentence"], width, f"  {number}. ", "     ")
    if full:
        for number, item in enumerate(rest, start=len(first) + 1):
            lines += wrapped(item["sentence"], width, f"  {number}. ", "     ")
    elif rest:
        names = ", ".join(item["sentence"].partition(":")[0] for item in rest)
        lines += wrapped(f"If that is not enough, these narrow it further: {names}.", width, "  ", "  ")
    if answer["beside_measure"]:
        lines += ["", "This ends one of the doubts, whatever its reading turns out to be:"]
        for move in answer["beside_measure"]:
            lines += wrapped(move["sentence"], width, "  - ", "    ")
    return lines


def _waiting(answer: dict[str, Any], width: int, full: bool) -> list[str]:
    """What could not be asked of the parts that are put on, because the plan does not name what they meet."""
    told: dict[str, list[str]] = {}
    for item in answer["waiting"]:
        for wanted in item["wanted"]:
            name = " or ".join(one.replace("_", " ") for one in wanted["classes"][:2]) or wanted["role"]
            told.setdefault(name, []).append(f"{item['number']} {item['title'].partition(',')[0].lower()}")
    if not told:
        return []
    lines = ["", "Not asked, because the plan does not say what is there:"]
    shown = list(told.items()) if full else list(told.items())[: MOST["joints"]]
    for name, joints in shown:
        named = "; ".join(list(dict.fromkeys(joints))[: None if full else 3])
        lines += wrapped(f"{name}: {named}", width, "  · ", "    ")
    more = len(told) - len(shown)
    return [*lines, f"  … and {more} more: --full tells all"] if more > 0 else lines


def _joints(answer: dict[str, Any], width: int, full: bool) -> list[str]:
    """Touched joints: what fails and what is open, both sides of a board once; `full` adds what holds."""
    asked = [joint for joint in answer["joints"] if joint["verdict"] != "not_asked"]
    if not asked:
        return []
    wrong = asked if full else [joint for joint in asked if joint["verdict"] != "fits"]
    holds = sum(joint["verdict"] == "fits" for joint in asked)
    lines = [
        "",
        f"Joints that the swap touches: {len(asked)}; as asked {holds} of them {'holds' if holds == 1 else 'hold'}.",
    ]
    states = ("fails", "undecided", "holds") if full else ("fails", "undecided")
    sides: dict[tuple[Any, ...], list[str]] = {}
    for joint in wrong:
        findings = [finding for finding in joint["findings"] if finding["state"] in states]
        told = tuple(f"{STATE_MARKS[one['state']]} {_finding(one, full)} [{one['rule']}]" for one in findings)
        title, _, side = joint["title"].rpartition(", ")
        known = title and set(side.split()) <= SIDES
        key = (joint["number"], title if known else joint["title"], joint["verdict"], told)
        sides.setdefault(key, []).append(side if known else "")
    groups = list(sides.items())
    for (number, title, verdict, told), places in groups if full else groups[: MOST["joints"]]:
        where = f", {' and '.join(dict.fromkeys(places))}" if any(places) else ""
        lines += wrapped(f"{number} {title}{where}: {VERDICT_WORDS[verdict].lower()}", width, "  ", "    ")
        for one in told:
            lines += wrapped(one, width, "    ", "      ")
    return lines + ([] if full else _more(len(groups) - MOST["joints"]))


def _finding(finding: dict[str, Any], full: bool) -> str:
    """The whole sentence, or what was found and wanted: how to read it is told above, under `Measure first`."""
    if full or finding["value"] is None:
        return str(finding["sentence"])
    return f"{finding['question']} {finding['value']['text']}; wanted: {finding['limit']['text']}."


def _stood(answer: dict[str, Any], width: int, full: bool) -> list[str]:
    """What the swap does not touch and was open or wrong before: told apart, never blamed on the swap."""
    wrong = [joint for joint in answer["as_it_stood"] if joint["verdict"] in ("clash", "measure")]
    if not wrong:
        return []
    told = [f"{one['number']} {one['title']}: {VERDICT_WORDS[one['verdict']].lower()}" for one in wrong]
    told = list(dict.fromkeys(told))
    shown = told if full else told[: MOST["stood"]]
    lines = ["", "As it stood before, untouched by this swap:"]
    lines += [line for one in shown for line in wrapped(one, width, "  ", "    ")]
    return lines + _more(len(told) - len(shown))

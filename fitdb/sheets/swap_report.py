"""The answer to a swap plan as text for a terminal: verdict, why, what mends it, what to get, what to measure."""

from __future__ import annotations

import csv
import io
from typing import Any

from fitdb.sheets.fit_report import STATE_MARKS, VERDICT_WORDS, wrapped

MOST = {"conflicts": 3, "passed_over": 5, "instead": 3, "cut_lines": 4, "measure_first": 6, "joints": 8, "cautions": 6}


def swap_report(answer: dict[str, Any], width: int = 80, full: bool = False) -> str:
    """The whole answer; `full` also tells every joint that holds and every caution."""
    lines = wrapped(f"{VERDICT_WORDS[answer['verdict']]}. {answer['sentence']}", width)
    lines += ["", *[line for told in answer["lead"] for line in wrapped(told, width, "  ", "    ")]]
    lines += _conflicts(answer, width)
    lines += _remedies(answer, width)
    lines += _listed(answer, "passed_over", "Passed over:", width)
    if answer["instead"]:
        lines += ["", "Instead, as another plan:"]
        for plan in answer["instead"][: MOST["instead"]]:
            lines += wrapped(f"{VERDICT_WORDS[plan['verdict']]}: {plan['sentence']}", width, "  - ", "    ")
    lines += _listed(answer, "cut_lines", "Which unit to move, the best cut first:", width)
    if answer["claim"]:
        lines += ["", *wrapped(answer["claim"], width)]
    lines += _measures(answer, width)
    lines += _joints(answer, width, full)
    lines += _stood(answer, width)
    lines += ["", "Cautions:"]
    shown = answer["cautions"] if full else answer["cautions"][: MOST["cautions"]]
    for caution in shown:
        lines += wrapped(caution, width, "  ! ", "    ")
    if len(shown) < len(answer["cautions"]):
        lines.append(f"  ! and {len(answer['cautions']) - len(shown)} more: --full tells them all")
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
            told = "; ".join(value) if isinstance(value, list) else str(value)
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
    stamp = f"Catalogue {told['catalogue_revision']}, rulebook {told['rulebook_stamp']}."
    return "\n".join([*lines, "", stamp])


def _conflicts(answer: dict[str, Any], width: int) -> list[str]:
    if not answer["conflicts"]:
        return []
    lines = ["", "What clashes with what:"]
    for conflict in answer["conflicts"][: MOST["conflicts"]]:
        lines += wrapped(conflict["sentence"], width, "  ✗ ", "    ")
    more = len(answer["conflicts"]) - MOST["conflicts"]
    return [*lines, f"  … and {more} more: --json tells them all"] if more > 0 else lines


def _remedies(answer: dict[str, Any], width: int) -> list[str]:
    if not answer["remedies"]:
        return []
    best = answer["remedies"][0]
    lines = ["", "What mends it:"]
    for number, move in enumerate(best["moves"], start=1):
        lines += wrapped(move["sentence"], width, f"  {number}. ", "     ")
    cost = best["cost"]
    lines += wrapped(f"Together about {cost['minutes']:g} min and {cost['money_mu']:g} mu.", width, "     ")
    if best["bill"]:
        lines += ["", "To get:"]
        for item in best["bill"]:
            lines += wrapped(item["sentence"], width, "  - ", "    ")
    if answer["other_remedies"]:
        lines += ["", "Other ways:"]
        for plan in answer["other_remedies"]:
            lines += wrapped(plan["sentence"], width, "  - ", "    ")
    return lines


def _measures(answer: dict[str, Any], width: int) -> list[str]:
    lines: list[str] = []
    if answer["measure_first"]:
        lines += ["", "Measure first:"]
        for number, item in enumerate(answer["measure_first"][: MOST["measure_first"]], start=1):
            lines += wrapped(item["sentence"], width, f"  {number}. ", "     ")
    if answer["beside_measure"]:
        lines += ["", "Whatever the reading turns out to be, this would hold:"]
        for move in answer["beside_measure"]:
            lines += wrapped(move["sentence"], width, "  - ", "    ")
    return lines


def _joints(answer: dict[str, Any], width: int, full: bool) -> list[str]:
    """Touched joints: what fails and what is open in its sentences, what holds as a count, or in full."""
    asked = [joint for joint in answer["joints"] if joint["verdict"] != "not_asked"]
    holds = sum(joint["verdict"] == "fits" for joint in asked)
    lines = ["", f"Joints that the swap touches: {len(asked)}, of which {holds} hold."]
    shown = asked if full else [joint for joint in asked if joint["verdict"] != "fits"][: MOST["joints"]]
    for joint in shown:
        lines += wrapped(f"{joint['number']} {joint['title']}: {VERDICT_WORDS[joint['verdict']].lower()}", width, "  ")
        for finding in joint["findings"]:
            if finding["state"] in ("fails", "undecided") or (full and finding["state"] == "holds"):
                told = f"{STATE_MARKS[finding['state']]} {finding['sentence']} [{finding['rule']}]"
                lines += wrapped(told, width, "    ", "      ")
    return lines


def _stood(answer: dict[str, Any], width: int) -> list[str]:
    """What the swap does not touch and was open or wrong before: told apart, never blamed on the swap."""
    wrong = [joint for joint in answer["as_it_stood"] if joint["verdict"] in ("clash", "measure")]
    if not wrong:
        return []
    lines = ["", "As it stood before, untouched by this swap:"]
    for joint in wrong[: MOST["joints"]]:
        words = VERDICT_WORDS[joint["verdict"]].lower()
        lines += wrapped(f"{joint['number']} {joint['title']}: {words}", width, "  ", "    ")
    more = len(wrong) - MOST["joints"]
    return [*lines, f"  … and {more} more: --json tells them all"] if more > 0 else lines


def _listed(answer: dict[str, Any], key: str, title: str, width: int) -> list[str]:
    if not answer[key]:
        return []
    lines = ["", title]
    for item in answer[key][: MOST[key]]:
        lines += wrapped(item["sentence"], width, "  - ", "    ")
    return lines

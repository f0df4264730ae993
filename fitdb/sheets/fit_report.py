"""Answers as text for a terminal of 80 columns: the deciding finding first, the rest below, cautions beside them."""

from __future__ import annotations

import textwrap
from typing import Any

from fitdb.model.rule import Rulebook

STATE_MARKS = {"fails": "✗", "undecided": "?", "holds": "✓", "excused": "–", "not_asked": "·"}
VERDICT_WORDS = {
    "fits": "FITS",
    "fits_with": "FITS WITH A REMEDY",
    "measure": "MEASURE FIRST",
    "clash": "CLASH",
    "not_asked": "NOT ASKED",
}
ORDER = ("fails", "undecided", "holds", "excused")
VERDICT_ORDER = ("clash", "measure", "fits_with", "fits")
MOST_BRIDGES = 3
SEVERITIES = ("fire", "injury", "damage", "nuisance", "info")


def fit_report(answer: dict[str, Any], book: Rulebook, width: int = 80, full: bool = False) -> str:
    """The answer to a fit question: verdict, what decides it, every finding by joint, what was not asked, cautions.

    What holds is told in a line, with `full` in all its sentences, with the source of its limit.
    """
    lines = wrapped(f"{VERDICT_WORDS[answer['verdict']]}. {answer['sentence']}", width)
    if answer["verdict"] != answer["as_asked"]:
        lines.append(f"As asked: {VERDICT_WORDS[answer['as_asked']].lower()}.")
    if not answer["meets"]:
        lines += ["", *_offers(answer, width)]
    for item in answer["measure_first"]:
        lines += wrapped(f"Do not buy or drill yet. {item['sentence']}", width, "  ")
    asked = [joint for joint in answer["joints"] if joint["verdict"] != "not_asked"]
    for joint in sorted(asked, key=lambda one: VERDICT_ORDER.index(one["verdict"])):
        lines += ["", *_joint_lines(joint, width, full)]
    good = [bridge for bridge in answer["bridges"] if bridge["verdict"] != "clash"]
    if good:
        lines += ["", "Adapters of the catalogue that bridge it (each judged):"]
        for bridge in good[:MOST_BRIDGES]:
            lines += _bridge_lines(bridge, width)
        more = [bridge["part"] for bridge in good[MOST_BRIDGES:]]
        if more:
            lines += ["", *wrapped(f"These as well: {', '.join(more)}.", width, "  ")]
    tried = [bridge["part"] for bridge in answer["bridges"] if bridge["verdict"] == "clash"]
    if tried:
        lines += ["", *wrapped(f"Tried, and not enough by itself: {', '.join(tried)}.", width, "", "  ")]
    waiting = _waiting(answer)
    if waiting:
        lines += ["", "Not asked, because another part is missing:"]
        for number, title, wanted in waiting:
            lines += wrapped(f"{number} {title}: name {_named(wanted)}", width, "  ", "      ")
    lines += ["", "Cautions:"]
    for caution in answer["cautions"]:
        lines += wrapped(caution, width, "  ! ", "    ")
    stamp = f"Catalogue {answer['catalogue_revision']}, rulebook {answer['rulebook_stamp']} ({len(book.rules)} rules)."
    return "\n".join([*lines, "", stamp])


def find_report(answer: dict[str, Any], width: int = 80) -> str:
    """The parts of a class that fit a part, best first."""
    found = answer["found"]
    lines = [f"{answer['sentence']}"]
    for item in found:
        lines.append("")
        lines += wrapped(f"{VERDICT_WORDS[item['verdict']]:14} {item['part']}: {item['title']}", width, "", " " * 15)
        lines += wrapped(item["sentence"], width, " " * 15)
    return "\n".join([*lines, "", f"Catalogue {answer['catalogue_revision']}, rulebook {answer['rulebook_stamp']}."])


def class_report(answer: dict[str, Any], width: int = 80) -> str:
    """All parts of a class: id and title."""
    lines = [f"{len(answer['parts'])} parts of class {answer['class']}:"]
    for item in answer["parts"]:
        lines += wrapped(f"{item['part']}: {item['title']}", width, "  ", "      ")
    return "\n".join([*lines, "", f"Catalogue {answer['catalogue_revision']}."])


def part_report(answer: dict[str, Any], width: int = 80) -> str:
    """A part with its readings, ports and unread attributes."""
    lines = [
        f"{answer['id']}: {answer['title']}",
        f"class {answer['class']}; {answer['source']['standing']} ({answer['source']['title']})",
    ]
    for group in answer["groups"]:
        lines += ["", group["title"]]
        for item in group["readings"]:
            note = f" [{item['note']}]" if item["note"] else ""
            lines += wrapped(f"{item['attribute']}: {item['text']}{note}", width, "  ", "      ")
    if answer["unread"]:
        lines += ["", "Nobody has read:"]
        for item in answer["unread"]:
            how = f" ({item['how']})" if item["how"] else ""
            lines += wrapped(f"{item['attribute']}{how}", width, "  ", "      ")
    return "\n".join(lines)


def _joint_lines(joint: dict[str, Any], width: int, full: bool) -> list[str]:
    pieces = ", ".join(dict.fromkeys(piece["part"] for piece in joint["pieces"]))
    lines = wrapped(f"{joint['number']} {joint['title']}: {VERDICT_WORDS[joint['verdict']].lower()}", width)
    lines += wrapped(pieces, width, "    ")
    asked = [finding for finding in joint["findings"] if finding["state"] in ORDER]
    for finding in sorted(asked, key=lambda one: (ORDER.index(one["state"]), SEVERITIES.index(one["severity"]))):
        mark = STATE_MARKS[finding["state"]]
        brief = not full and finding["state"] in ("holds", "excused")
        if brief and finding["state"] == "excused":
            continue
        lines += wrapped(f"{mark} {finding['question']} {_told(finding, brief)}", width, "  ", "      ")
        if finding["comfort_missed"]:
            lines += wrapped(f"Thin: comfortable would be {finding['comfort']['text']}.", width, "      ")
        for item in finding["overridden"]:
            lines += wrapped(f"Limit {item}.", width, "      ")
        if finding["would_help"]:
            lines += wrapped(f"What would help: {finding['would_help']}.", width, "      ")
        if not brief:
            tail = f"[{finding['rule']}; {_limit_source(finding)}; {finding['severity']}]"
            lines += wrapped(tail, width, "      ")
    for finding in joint["findings"]:
        if finding["wanted"]:
            wanted = _named([_spoken(one["role"]) for one in finding["wanted"]])
            lines += wrapped(f"· With {wanted}: {finding['question']}", width, "  ", "      ")
    return lines


def _told(finding: dict[str, Any], brief: bool) -> str:
    """The finding's sentence, or in brief what was found and what was wanted."""
    if not brief or finding["value"] is None:
        return str(finding["sentence"])
    return f"{finding['value']['text']}; wanted {finding['limit']['text']}."


def _named(things: list[str]) -> str:
    """`an axle nut and another motor`."""
    told = []
    for thing in things:
        if thing.startswith("other "):
            told.append("another " + thing.removeprefix("other "))
        else:
            told.append(f"an {thing}" if thing[0] in "aeio" else f"a {thing}")
    return " and ".join(told)


def _waiting(answer: dict[str, Any]) -> list[tuple[str, str, list[str]]]:
    """Joints that want another part: number, title and roles, each joint once, with the fewest parts wanted."""
    asked = {joint["kind"] for joint in answer["joints"] if joint["verdict"] != "not_asked"}
    found: dict[str, tuple[str, str, list[str]]] = {}
    unasked = [joint for joint in answer["joints"] if joint["verdict"] == "not_asked"]
    for item in [*answer["not_asked"], *unasked]:
        entries = item["wanted"] if "wanted" in item else [one for f in item["findings"] for one in f["wanted"]][:2]
        wanted = list(dict.fromkeys(_wanted(one) for one in entries))
        known = found.get(item["kind"])
        if wanted and item["kind"] not in asked and (known is None or len(wanted) < len(known[2])):
            found[item["kind"]] = (item["number"], item["title"], wanted)
    return sorted(found.values())


def _wanted(entry: dict[str, Any]) -> str:
    """What to name for a role: the role where it is a part's name, else the first class that fills it."""
    role, classes = entry["role"], entry["classes"]
    return _spoken(role if role.startswith("other_") or role in classes or not classes else classes[0])


def _bridge_lines(bridge: dict[str, Any], width: int) -> list[str]:
    head = f"{bridge['title']}: {bridge['part_title']} ({bridge['part']})"
    lines = ["", *wrapped(head, width, "  ", "    ")]
    lines += wrapped(f"{VERDICT_WORDS[bridge['verdict']].lower()}; cures {', '.join(bridge['cures'])}", width, "    ")
    if bridge["breaks"]:
        lines += wrapped(f"breaks {', '.join(bridge['breaks'])}", width, "    ")
    if bridge["adds"]:
        lines += wrapped(f"adds {'; '.join(bridge['adds'])}", width, "    ")
    rough = f"about {bridge['money_mu']:g} mu and {bridge['minutes']:g} min ({bridge['source'].replace('_', ' ')})"
    kept = "reversible" if bridge["reversible"] else "cannot be undone"
    gives_up = f"; gives up {bridge['gives_up']}" if bridge["gives_up"] else ""
    return lines + wrapped(f"{rough}, {kept}{gives_up}", width, "    ")


def _offers(answer: dict[str, Any], width: int) -> list[str]:
    lines = []
    for item in answer.get("offers", ()):
        lines += wrapped(
            f"{item['part']} offers: {', '.join(item['offers']) or 'nothing that another part meets'}",
            width,
            "  ",
            "    ",
        )
    return lines


def _limit_source(finding: dict[str, Any]) -> str:
    limit = finding["limit"]
    for side in ("low", "high"):
        if limit[side]:
            return str(limit[side]["source"])
    return str(limit.get("source", ""))


def _spoken(word: str) -> str:
    return word.replace("_", " ")


def wrapped(text: str, width: int, first: str = "", rest: str | None = None) -> list[str]:
    """Lines of at most `width` characters; ids are never broken."""
    return textwrap.wrap(
        text,
        width,
        initial_indent=first,
        subsequent_indent=first if rest is None else rest,
        break_long_words=False,
        break_on_hyphens=False,
    )

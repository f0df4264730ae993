"""The settings sheet as one document: every line with what sets it, what else would, what is set now, and a sentence.

Evidence first: each sentence is made from the numbers that stand beside it under stable keys.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from fitdb.model.finding import Range
from fitdb.model.set_up import (
    AS_TOLD,
    AT_LEAST,
    MissingReading,
    SetNow,
    SettingLine,
    SettingLink,
    SettingsSheet,
    Standing,
)
from fitdb.steps.explain import ALWAYS
from fitdb.steps.explain.sentences import Display
from fitdb.steps.explain.swap_words import listed

GROUP_TITLES = {
    "pack": "Current out of the pack",
    "brake": "Current back into the pack",
    "motor": "Current through each motor",
    "volts": "Volts of the whole pack",
    "speed": "Speed",
    "heat": "Heat",
    "sensors": "Sensors",
    "together": "All channels",
    "first_ride": "First ride",
}
SAID = {
    "with_sensors": "with its sensors",
    "without_sensors": "without sensors",
    "ntc_10k": "10 kΩ that falls with heat",
    "ntc_100k": "100 kΩ that falls with heat",
    "ptc_silicon": "silicon, whose ohms rise with heat",
    "not_used": "not used, its pin left open",
    "no": "off",
    "yes": "on",
}
MOST_MISSING = 4
READY = Standing("ready")
HEADS = {
    "ready": "These settings are for the board as it is planned.",
    "changes": "These settings are for the board with these changes made: {changes}.",
    "readings": "Preliminary, not to be used: readings decide whether it fits. Not until these are taken: {until}.",
    "blocked": "Not to be used: a joint that can hurt someone is undecided. Not until these are read: {until}.",
    "clash": "Not to be used: the board clashes, and nothing allowed mends it. Not until this is solved: {until}.",
}
STOOD = (
    "The board clashes as it stood, and the plan leaves that as it is: {stood}. What settings can mend of it is told "
    "in the lines below; the rest has to be mended before it is ridden."
)
WITH_SETTINGS = "What the verdict would set otherwise is told in the lines below, on their careful side: {settings}."
WITH_CHANGES = "They are for the board with these changes made: {changes}."


def settings_document(
    sheet: SettingsSheet,
    display: Display,
    *,
    standing: Standing = READY,
    before: SettingsSheet | None = None,
    plan: Mapping[str, str] | None = None,
    revision: str = "",
    stamp: str = "",
    date: str = "",
) -> dict[str, Any]:
    """The sheet as plain data, keys stable. `before`: the sheet of the board as it stands, told line beside line.

    plan: id and title. revision, stamp and date are those of catalogue, rulebook and day.
    """
    earlier = {line.id: line for line in before.lines} if before is not None else {}
    lines = [_line(line, earlier.get(line.id), display) for line in sheet.lines]
    head = _head(standing)
    return {
        "plan": dict(plan or {}),
        "usable": standing.usable,
        "state": standing.state,
        "head": head,
        "changes": list(standing.changes),
        "settings_of_the_verdict": list(standing.settings),
        "clashes_as_it_stood": list(standing.stood),
        "until": list(standing.until),
        "sentence": f"{head[0]} {_summary(lines)}",
        "motors": list(sheet.motors),
        "channels": sheet.channels,
        "idle_channels": sheet.idle_channels,
        "notes": list(sheet.notes),
        "groups": [{"id": group, "title": title} for group, title in GROUP_TITLES.items()],
        "lines": lines,
        "to_read": _to_read(sheet),
        "cautions": [ALWAYS, *dict.fromkeys(line.caution for line in sheet.lines if line.caution)],
        "catalogue_revision": revision,
        "rulebook_stamp": stamp,
        "date": date,
    }


def _head(standing: Standing) -> list[str]:
    """What comes before any line: whether the sheet may be used, until what not, and with which changes."""
    changes, until = ("; ".join(some) or "none told" for some in (standing.changes, standing.until))
    told = [HEADS[standing.state].format(changes=changes, until=until)]
    if standing.changes and standing.state != "changes":
        told.append(WITH_CHANGES.format(changes=changes))
    if standing.stood:
        told.append(STOOD.format(stood="; ".join(standing.stood)))
    if standing.settings:
        told.append(WITH_SETTINGS.format(settings="; ".join(standing.settings)))
    return told


def _summary(lines: Sequence[dict[str, Any]]) -> str:
    beyond = [line for line in lines if line["change"]["state"] in ("beyond", "differs")]
    bounds = sum(line["is_bound"] for line in lines)
    told = (
        f"What is set now has to be changed in {len(beyond)} of {len(lines)} lines."
        if beyond
        else f"{len(lines)} lines; nothing that is known to be set now is beyond them."
    )
    return f"{told} In {bounds} of them a reading is missing." if bounds else told


def _line(line: SettingLine, before: SettingLine | None, display: Display) -> dict[str, Any]:
    change = _change(line, display)
    earlier = _before(line, before, display)
    return {
        "id": line.id,
        "group": line.group,
        "title": line.title,
        "unit": line.unit,
        "side": line.side,
        "seats": list(line.seats),
        "value": _range(line.value, display),
        "printed": line.printed,
        "printed_text": _typed(line, display),
        "word": line.word,
        "task": line.task,
        "is_bound": line.is_bound,
        "set_by": _link(line.set_by, display) if line.set_by else None,
        "others": [_link(link, display) for link in line.others],
        "now": [_now(one, line, display) for one in line.now],
        "change": change,
        "before": earlier,
        "missing": [_missing(one) for one in line.missing],
        "notes": list(line.notes),
        "caution": line.caution,
        "source": line.source,
        "sentence": _sentence(line, change, earlier, display),
    }


def _sentence(line: SettingLine, change: dict[str, Any], before: dict[str, Any] | None, display: Display) -> str:
    """The whole line, to be read aloud: what to set, what sets it, what is next, what is set now, what is missing."""
    told = [f"{_capital(line.title)}: {_typed(line, display) or _untold(line)}."]
    if line.task:
        told = [f"{_capital(line.title)}: {line.task}"]
    told += _why(line, display)
    if change["sentence"]:
        told.append(change["sentence"])
    if before is not None:
        told.append(before["sentence"])
    if line.missing:
        names = [_name(one) for one in line.missing]
        more = f" and {len(names) - MOST_MISSING} more" if len(names) > MOST_MISSING else ""
        told.append(f"Not known: {'; '.join(names[:MOST_MISSING])}{more}.")
    return " ".join([*told, *line.notes])


def _untold(line: SettingLine) -> str:
    return "cannot be told yet" if line.missing else "nothing on this board sets it"


def _why(line: SettingLine, display: Display) -> list[str]:
    told = []
    if line.set_by is not None:
        rests = " It rests on something that nobody read." if line.set_by.assumed else ""
        told.append(f"{_capital(line.set_by.name)} set{_s(line.set_by.name)} it: {line.set_by.worked}.{rests}")
    wide = line.set_by is not None and line.set_by.value.high - line.set_by.value.low > 1e-9
    if line.value is not None and wide:
        told.append(f"The readings leave {_numbers(line.value, display)}; the careful end counts.")
    following = next((one for one in line.others if line.set_by and one.name != line.set_by.name), None)
    if following is not None:
        told.append(f"Next come{_s(following.name)} {following.name} with {_end(following, line.side, display)}.")
    return told


def _s(name: str) -> str:
    """The ending of the verb: `the cells set it`, `the fuse sets it`."""
    first = name.partition(" of ")[0].partition(" in ")[0]
    plural = first.endswith(("cells", "bullets", "lugs", "leads", "volts")) or first.startswith("the volts")
    return "" if plural else "s"


def _typed(line: SettingLine, display: Display) -> str:
    """`at most 32 A`, `at least 34 V, and perhaps more`, `80 °C`, `with its sensors`, or nothing."""
    if line.printed is None:
        return SAID.get(line.word, line.word.replace("_", " "))
    size = display.size(line.printed, line.unit)
    if line.side == AS_TOLD:
        return size
    side, perhaps = ("at least", "more") if line.side == AT_LEAST else ("at most", "less")
    return f"{side} {size}, and perhaps {perhaps}" if line.is_bound else f"{side} {size}"


def _change(line: SettingLine, display: Display) -> dict[str, Any]:
    """What has to become of what is set now, in one word and one sentence."""
    if not line.now:
        return {"state": "not_known", "sentence": ""}
    shown = list(dict.fromkeys(_now(one, line, display)["text"] for one in line.now))
    stands = f"Now {listed(shown)} {'is' if len(shown) == 1 else 'are'} set"
    if line.word:
        if all(one.word == line.word for one in line.now):
            return {"state": "within", "sentence": f"{stands}: it may stay."}
        return {"state": "differs", "sentence": f"{stands}: change it to {_typed(line, display)}."}
    if line.printed is None:
        return {"state": "no_line", "sentence": f"{stands}."}
    beyond = [one for one in line.now if one.beyond]
    if not beyond:
        return {"state": "within", "sentence": f"{stands}: it may stay."}
    way, to = ("raise", line.printed) if line.side == AT_LEAST else ("lower", line.printed)
    froms = list(dict.fromkeys(display.size(one.value or 0.0, line.unit) for one in beyond))
    sentence = f"{stands}: {way} it from {listed(froms)} to {display.size(to, line.unit)}."
    return {"state": "beyond", "sentence": sentence}


def _before(line: SettingLine, before: SettingLine | None, display: Display) -> dict[str, Any] | None:
    """The same line on the board as it stands, and the difference; None where there is none, or it has no number."""
    if before is None or line.side == AS_TOLD or (line.printed is None and before.printed is None):
        return None
    by = before.set_by.name if before.set_by else ""
    told = {
        "value": _range(before.value, display),
        "printed": before.printed,
        "set_by": _link(before.set_by, display) if before.set_by else None,
        "difference": None,
    }
    if before.printed is None or line.printed is None:
        which = "could not be told" if before.printed is None else f"was {display.size(before.printed, line.unit)}"
        return {**told, "sentence": f"On the board as it stands it {which}."}
    difference = round(line.printed - before.printed, 6)
    same_link = line.set_by is not None and line.set_by.name == by
    told["difference"] = difference
    if difference == 0 and (same_link or not by):
        return {**told, "sentence": "The line is as it was before."}
    at = f"On the board as it stands {display.size(before.printed, line.unit)}"
    at += f", set by {by}" if by and not same_link else ""
    if difference == 0:
        return {**told, "sentence": f"{at}: the same number."}
    more = "more" if difference > 0 else "less"
    return {**told, "sentence": f"{at}: now {display.size(abs(difference), line.unit)} {more}."}


def _link(link: SettingLink, display: Display) -> dict[str, Any]:
    return {
        "id": link.id,
        "name": link.name,
        "seat": link.seat,
        "part": link.part,
        "value": _range(link.value, display),
        "worked": link.worked,
        "source": link.source,
        "assumed": link.assumed,
    }


def _now(one: SetNow, line: SettingLine, display: Display) -> dict[str, Any]:
    word = SAID.get(one.word, one.word.replace("_", " "))
    text = word if one.value is None else display.size(one.value, line.unit)
    return {
        "seats": list(one.seats),
        "value": one.value,
        "word": one.word,
        "unit": line.unit,
        "text": text,
        "beyond": one.beyond or bool(line.word and one.word != line.word),
    }


def _missing(one: MissingReading) -> dict[str, Any]:
    return {
        "name": f"{one.seat}.{one.attribute}" if one.attribute else one.seat,
        "seat": one.seat,
        "part": one.part,
        "attribute": one.attribute,
        "title": one.title,
        "how": one.how,
    }


def _name(one: MissingReading) -> str:
    return f"{one.title} ({one.seat}.{one.attribute})" if one.attribute else one.title


def _to_read(sheet: SettingsSheet) -> list[dict[str, Any]]:
    """Every missing reading once, with the lines that it may move, most lines first."""
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for line in sheet.lines:
        for one in line.missing:
            entry = found.setdefault((one.seat, one.attribute), {**_missing(one), "lines": []})
            entry["lines"].append(line.id)
    return sorted(found.values(), key=lambda entry: -len(entry["lines"]))


def _range(shown: Range | None, display: Display) -> dict[str, Any] | None:
    if shown is None:
        return None
    sizes = {"low": shown.low, "nominal": shown.nominal, "high": shown.high, "unit": shown.unit}
    return {**sizes, "text": display.range(shown)}


def _numbers(shown: Range, display: Display) -> str:
    return f"{display.size(shown.low, shown.unit)} to {display.size(shown.high, shown.unit)}"


def _end(link: SettingLink, side: str, display: Display) -> str:
    return display.size(link.value.high if side == AT_LEAST else link.value.low, link.value.unit)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

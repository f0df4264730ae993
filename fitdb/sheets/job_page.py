"""The sheet for the bench as one HTML file that stands by itself: no script, no font or picture from elsewhere.

It is made from the documents that the other answers are made of, prints on A4 and Letter without a setting, and can be
ticked off on screen or on paper. Drawings come as SVG texts and are set in as they are.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from typing import Any

from fitdb.sheets.fit_report import VERDICT_WORDS
from fitdb.sheets.job_page_card import card_section

STYLE = """
:root { --ink: #16202a; --soft: #56616c; --line: #b9c1c8; --alarm: #a11a1a; --wash: #f3f5f6; }
* { box-sizing: border-box; }
body { font: 10pt/1.36 "Liberation Sans", Arial, Helvetica, sans-serif; color: var(--ink); background: #fff;
  max-width: 190mm; margin: 0 auto; padding: 6mm; }
h1 { font-size: 19pt; line-height: 1.15; margin: 0 0 1mm; }
h2 { font-size: 13.5pt; margin: 9mm 0 2mm; padding-bottom: 1mm; border-bottom: .6mm solid var(--ink);
  break-after: avoid; }
h3 { font-size: 11pt; margin: 4mm 0 1mm; break-after: avoid; }
p { margin: 1mm 0; }
small, .soft { color: var(--soft); font-size: 8.8pt; }
.verdict { border: .7mm solid var(--ink); padding: 3mm 4mm; margin: 3mm 0; break-inside: avoid; }
.verdict b { font-size: 14pt; letter-spacing: .02em; }
.stop { border-color: var(--alarm); color: var(--alarm); }
.caution { border-left: 1.2mm solid var(--alarm); padding: .6mm 0 .6mm 2.5mm; margin: 1.2mm 0; break-inside: avoid; }
table { border-collapse: collapse; width: 100%; margin: 1.5mm 0 3mm; }
th, td { text-align: left; vertical-align: top; padding: 1mm 1.6mm; border-bottom: .25mm solid var(--line); }
th { font-size: 8.8pt; color: var(--soft); font-weight: 600; border-bottom-color: var(--soft); }
thead { display: table-header-group; }
tr { break-inside: avoid; }
td.number { white-space: nowrap; }
span.write { display: inline-block; min-width: 40mm; border-bottom: .4mm solid var(--ink); }
td.write { min-width: 30mm; border-bottom: .4mm solid var(--ink); }
ul, ol { margin: 1mm 0 2mm; padding-left: 5mm; }
li { margin: .6mm 0; }
input[type=checkbox] { width: 3.6mm; height: 3.6mm; margin: 0 1.5mm 0 0; vertical-align: -.4mm; }
figure { margin: 3mm 0; break-inside: avoid; }
figure svg { width: 100%; height: auto; max-height: 118mm; }
table.ride { table-layout: fixed; }
table.ride th:nth-child(1) { width: 33%; }
table.ride th:nth-child(2), table.ride th:nth-child(3) { width: 17.5%; }
table.ride th:nth-child(4) { width: 11%; }
table.ride td.number { white-space: normal; }
table.ride tr.group td { font-weight: 600; padding-top: 2.4mm; border-bottom-color: var(--soft); }
table.settings { table-layout: fixed; }
table.settings th:nth-child(1) { width: 6mm; }
table.settings th:nth-child(2) { width: 42%; }
table.settings th:nth-child(3) { width: 17%; }
table.settings th:nth-child(4) { width: 21%; }
td .caution { font-size: 8.8pt; line-height: 1.3; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 3mm; }
.step { break-inside: avoid; padding: 1.4mm 0; border-bottom: .25mm solid var(--line); }
.step .head { display: flex; gap: 2mm; justify-content: space-between; }
.foot { margin-top: 8mm; border-top: .25mm solid var(--line); padding-top: 2mm; }
@page { margin: 13mm 12mm 14mm; }
@media print { body { max-width: none; padding: 0; } h2.page { break-before: page; } a { color: inherit; } }
@media (max-width: 640px) { .two { grid-template-columns: 1fr; } body { padding: 3mm; } }
"""
BOX = '<input type="checkbox" aria-label="done">'
WIDE_MOVERS = 1


@dataclass(frozen=True, slots=True)
class SheetParts:
    """Everything that goes on the sheet. Documents as their own front doors tell them; drawings are SVG texts.

    charts: by id of the chart. views: title and SVG of the board to scale.
    """

    swap: Mapping[str, Any]
    ride: Mapping[str, Any]
    settings: Mapping[str, Any]
    card: Mapping[str, Any]
    charts: Mapping[str, str] = field(default_factory=dict)
    views: Sequence[tuple[str, str]] = ()


def job_page(parts: SheetParts) -> str:
    """The whole sheet as one HTML document."""
    swap = parts.swap
    title = swap["plan"]["title"] or swap["plan"]["id"]
    body = [
        f"<h1>{escape(title)}</h1>",
        f'<p class="soft">Job sheet of the plan {escape(swap["plan"]["id"])}, {escape(swap["date"])}. Catalogue '
        f"{escape(swap['catalogue_revision'])}, rulebook {escape(swap['rulebook_stamp'])}.</p>",
        _verdict(swap),
        _readings(swap),
        _changes(swap),
        _bill(swap),
        _ride(parts),
        _settings(parts.settings),
        card_section(parts.card),
        _views(parts.views),
        _cautions(parts),
        _foot(swap),
    ]
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}: job sheet</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        + "\n".join(part for part in body if part)
        + "\n</body>\n</html>\n"
    )


def _verdict(swap: Mapping[str, Any]) -> str:
    stop = " stop" if swap["measuring_only"] or swap["verdict"] == "clash" else ""
    lead = "".join(f"<p>{escape(told)}</p>" for told in swap["lead"])
    always = escape(swap["cautions"][0]) if swap["cautions"] else ""
    return (
        f'<div class="verdict{stop}"><b>{VERDICT_WORDS[swap["verdict"]]}</b><p>{escape(swap["sentence"])}</p></div>'
        f'{lead}<p class="caution">{always}</p>'
    )


def _readings(swap: Mapping[str, Any]) -> str:
    if not swap["measure_first"]:
        return ""
    rows = [
        f"<tr><td>{BOX}</td><td>{escape(item['sentence'])}</td><td class='write'></td></tr>"
        for item in swap["measure_first"]
    ]
    return (
        "<h2>Readings to take first</h2><p>Write each one down, then ask again before money or a drill is spent.</p>"
        + _table(("", "Reading, how to take it and what comes of it", "Read"), rows)
    )


def _changes(swap: Mapping[str, Any]) -> str:
    told = []
    if swap["conflicts"]:
        told.append("<h2>What clashes as asked</h2>" + _list(one["sentence"] for one in swap["conflicts"]))
    if swap["remedies"]:
        best = swap["remedies"][0]
        spent = best["cost"]
        cost = f"About {spent['minutes']:g} min and {spent['money_mu']:g} mu (1 mu is about one euro or dollar)."
        moves = _list((move["sentence"] for move in best["moves"]), "ol")
        told.append(f"<h2>What mends it</h2>{moves}<p>{escape(cost)}</p>")
    return "".join(told)


def _bill(swap: Mapping[str, Any]) -> str:
    lines = swap["remedies"][0]["bill"] if swap["remedies"] else []
    if not lines:
        return ""
    rows = [
        f"<tr><td>{BOX}</td><td class='number'>{line['count']} ×</td><td>{escape(line['title'])}<br>"
        f"<small>{escape(line['part'])}</small></td><td>{escape(_beside(line))}</td>"
        f"<td class='number'>{line['money_mu']:g} mu</td></tr>"
        for line in lines
    ]
    total = sum(line["money_mu"] for line in lines)
    rows.append(
        f"<tr><td></td><td></td><td><b>Together</b></td><td></td><td class='number'><b>{total:g} mu</b></td></tr>"
    )
    return "<h2>To get</h2>" + _table(("", "", "Part", "Have at hand as well", "Money"), rows)


def _beside(line: Mapping[str, Any]) -> str:
    return " or ".join(f"{size['value']:g} {size['unit']} ({size['attribute']})" for size in line["neighbours"])


# --- what it will do ---------------------------------------------------------------------------------------


def _ride(parts: SheetParts) -> str:
    ride = parts.ride
    names = ride["boards"]
    told = ["<h2>What the board will do</h2>", _list(ride["lead"])]
    two = len(names) > 1
    heads = ("", "Before", "After", "Difference", "Ended by") if two else ("", "Figure", "Ended by")
    rows = []
    for group in ride["groups"]:
        figures = [one for one in ride["figures"] if one["group"] == group["id"]]
        if figures:
            rows.append(f"<tr class='group'><td colspan='{len(heads)}'>{group['title']}</td></tr>")
            rows += [_figure(one, names) for one in figures]
    told.append(_table(heads, rows, "ride"))
    if ride.get("track"):
        track = ride["track"]
        told.append(f"<h3>On {escape(track['title'])}</h3>")
        told.append(
            _table(heads, [_figure(one, names) for one in track["figures"]], "ride")
            + _list([*track["spots"], *track["notes"]])
        )
    charts = [f"<figure>{svg}</figure>" for svg in parts.charts.values()]
    if charts:
        told.append(f'<div class="two">{"".join(charts)}</div>')
    if ride["changes"]:
        told.append("<h3>What would change these numbers</h3>" + _list(one["sentence"] for one in ride["changes"]))
    if ride["choices"]:
        told.append("<h3>What one would choose differently</h3>" + _list(ride["choices"]))
    steer = ride["stability"][names[-1]]
    reasons = f": {'; '.join(steer['reasons'])}" if steer["reasons"] else ""
    told.append(f"<p>Steering: <b>{escape(steer['word'])}</b>{escape(reasons)} ({escape(steer['source'])}).</p>")
    told.append(f'<p class="soft">{escape(ride["ranges"])}</p>')
    return "".join(told)


def _figure(figure: Mapping[str, Any], names: Sequence[str]) -> str:
    title = escape(figure["title"])
    now = figure[names[-1]]
    movers = ", ".join(
        f"{one['title']} {100 * one['share']:.0f} %{' (assumed)' if one['assumed'] else ''}"
        for one in figure["moved_by"][:WIDE_MOVERS]
    )
    moved = f"<br><small>moved by {escape(movers)}</small>" if movers else ""
    if now is None:
        unknown = figure.get("unknown", "")
        wide = 4 if len(names) > 1 else 2
        return f"<tr><td>{title}</td><td colspan='{wide}'>unknown: {escape(unknown)}</td></tr>"
    ends = escape(figure["limited_by"])
    if len(names) == 1:
        return f"<tr><td>{title}{moved}</td><td class='number'>{escape(now['text'])}</td><td>{ends}</td></tr>"
    before, change = figure["before"], figure["difference"]
    differs = "" if change is None else "the same" if change["same"] else change["text"]
    return (
        f"<tr><td>{title}{moved}</td><td class='number'>{escape(before['text']) if before else 'unknown'}</td>"
        f"<td class='number'><b>{escape(now['text'])}</b></td><td class='number'>{escape(differs)}</td>"
        f"<td>{ends}</td></tr>"
    )


# --- settings ----------------------------------------------------------------------------------------------


def _settings(settings: Mapping[str, Any]) -> str:
    told = ["<h2>Settings</h2>"]
    stop = "" if settings["usable"] else " stop"
    told.append(f'<div class="verdict{stop}">{"".join(f"<p>{escape(one)}</p>" for one in settings["head"])}</div>')
    shown: set[str] = set()
    for group in settings["groups"]:
        lines = [line for line in settings["lines"] if line["group"] == group["id"]]
        if lines:
            rows = [_setting(line, shown) for line in lines]
            heads = ("", "Setting", "Set", "Set by", "Is now")
            told.append(f"<h3>{escape(group['title'])}</h3>" + _table(heads, rows, "settings"))
    return "".join(told)


def _setting(line: Mapping[str, Any], shown: set[str]) -> str:
    """One line of the table; a caution stands once, at the first line that asks for it."""
    by = f"{line['set_by']['name']}: {line['set_by']['worked']}" if line["set_by"] else ""
    now = "; ".join(one["text"] for one in line["now"] if one.get("text"))
    value = line["printed_text"] or "cannot be told yet"
    notes = "".join(f"<br><small>{escape(note)}</small>" for note in line["notes"])
    change = f"<br><small>{escape(line['change']['sentence'])}</small>" if line["change"]["sentence"] else ""
    new = not set(_sentences(line["caution"])) <= shown
    shown.update(_sentences(line["caution"]))
    caution = f'<p class="caution">{escape(line["caution"])}</p>' if line["caution"] and new else ""
    title = f"{line['title'][:1].upper()}{line['title'][1:]}"
    if line["task"]:
        task = f"{escape(title)}: <b>{escape(line['task'])}</b>"
        return f"<tr><td>{BOX}</td><td colspan='4'>{task}{notes}{caution}</td></tr>"
    return (
        f"<tr><td>{BOX}</td><td>{escape(title)}{notes}{caution}</td><td><b>{escape(value)}</b></td>"
        f"<td>{escape(by)}</td><td>{escape(now)}{change}</td></tr>"
    )


# --- drawings, cautions, foot ------------------------------------------------------------------------------


def _views(views: Sequence[tuple[str, str]]) -> str:
    if not views:
        return ""
    drawn = "".join(
        f"<figure>{svg}<figcaption class='soft'>{escape(title)}</figcaption></figure>" for title, svg in views
    )
    return f"<h2>The board to scale</h2>{drawn}"


def _cautions(parts: SheetParts) -> str:
    """Every caution once; one whose every sentence stands in others is left out."""
    every = list(
        dict.fromkeys(
            [*parts.swap["cautions"], *parts.ride["cautions"], *parts.settings["cautions"], *parts.card["cautions"]]
        )
    )
    for caution in sorted(every, key=len):
        others = {one for other in every if other != caution for one in _sentences(other)}
        if set(_sentences(caution)) <= others:
            every.remove(caution)
    lines = "".join(f'<p class="caution">{escape(one)}</p>' for one in every)
    return f"<h2>Cautions</h2>{lines}"


def _sentences(text: str) -> list[str]:
    return [one for one in re.split(r"(?<=[.!?]) +", text) if one]


def _foot(swap: Mapping[str, Any]) -> str:
    return (
        '<p class="foot soft">These numbers were worked out from what was entered. Whether they clash is all that is '
        f"said. Catalogue {escape(swap['catalogue_revision'])}, rulebook {escape(swap['rulebook_stamp'])}, "
        f"{escape(swap['date'])}: from the same plan, catalogue and rulebook this sheet comes out the same.</p>"
    )


def _table(heads: Sequence[str], rows: Sequence[str], kind: str = "") -> str:
    named = f' class="{kind}"' if kind else ""
    head = "".join(f"<th>{escape(one)}</th>" for one in heads)
    return f"<table{named}><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"


def _list(items: Iterable[str], kind: str = "ul") -> str:
    return f"<{kind}>{''.join(f'<li>{escape(item)}</li>' for item in items)}</{kind}>"

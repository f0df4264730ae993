"""The order of work on the printed sheet: a line to tick off per step, with what is read, tightened and tried there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

BOX = '<input type="checkbox" aria-label="done">'


def card_section(card: Mapping[str, Any]) -> str:
    """The card with its phases, what to look at again, other ways, and a quote where a rate was told."""
    told = [f'<h2 class="page">Order of work</h2><p>{escape(card["sentence"])}</p>']
    told += [f"<p>{escape(one)}</p>" for one in card["why"]]
    if card["first_time"]:
        told.append(f'<p class="soft">{escape(card["first_time"])}</p>')
    steps = {step["number"]: step for step in card["steps"]}
    for phase in card["phases"]:
        told.append(f"<h3>{escape(phase['title'])} <small>{escape(phase['minutes']['text'])}</small></h3>")
        told += [_step(steps[number]) for number in phase["steps"]]
    if card["promises"]:
        told.append(_list([one["sentence"] for one in card["promises"]]))
    if card["rechecks"]:
        told.append(
            "<h3>Look again</h3>" + "".join(f"<p>{BOX}{escape(one['sentence'])}</p>" for one in card["rechecks"])
        )
    if len(card["ways"]) > 1:
        told.append("<h3>Ways of doing it, side by side</h3>" + _list([one["sentence"] for one in card["ways"]]))
    if card["quote"]:
        told.append(_quote(card["quote"]))
    return "".join(told)


def _step(step: Mapping[str, Any]) -> str:
    minutes = step["minutes"]["text"] if step["minutes"]["high"] else ""
    head = f"{step['number']}. {step['title']}"
    places = f" ({', '.join(place.replace('_', ' ') for place in step['places'])})" if step["places"] else ""
    lines = [f"<p>{escape(_body(step))}</p>"]
    if step["tool"]:
        lines.append(f"<p><small>Tool: {escape(step['tool'].replace('_', ' '))}</small></p>")
    if step["photograph"]:
        lines.append(f"<p>{BOX}<small>Photograph first: {escape(step['photograph'])}</small></p>")
    if step["note"]:
        lines.append(f"<p><small>{escape(step['note'])}</small></p>")
    lines += [f"<p><small>{escape(one)}</small></p>" for one in step["look_first"]]
    lines += [f"<p>{BOX}{escape(one['sentence'])}</p>" for one in step["fasteners"]]
    if step["test"]:
        lines.append(f"<p>{BOX}{escape(step['test']['sentence'])}</p>")
    if step["reading"]:
        lines.append('<p>Read: <span class="write">&nbsp;</span></p>')
    if not step["reversible"]:
        lines.append('<p class="caution"><b>Cannot be undone.</b></p>')
    lines += [f'<p class="caution">{escape(one)}</p>' for one in step["cautions"]]
    return (
        f'<div class="step"><div class="head"><b>{BOX}{escape(head)}{escape(places)}</b>'
        f"<small>{escape(minutes)}</small></div>{''.join(lines)}</div>"
    )


def _body(step: Mapping[str, Any]) -> str:
    """What is done, without the title and places that stand above it."""
    sentence = str(step["sentence"])
    if step["reading"]:
        return sentence
    start = sentence.find(step["does"])
    return sentence[start:] if start >= 0 else sentence


def _quote(quote: Mapping[str, Any]) -> str:
    rows = "".join(
        f"<tr><td>{escape(line['sentence'].rsplit(',', 1)[0] if line['kind'] == 'labour' else line['sentence'])}</td>"
        f"<td class='number'>{escape(line['money_mu']['text'])}</td></tr>"
        for line in quote["lines"]
    )
    return (
        f"<h3>Quote</h3><table><tbody>{rows}</tbody></table><p><b>{escape(quote['sentence'])}</b> "
        f"<small>Labour at {quote['rate_mu_per_hour']:g} mu per hour; one mu is about one euro or dollar.</small></p>"
    )


def _list(items: Sequence[str]) -> str:
    return f"<ul>{''.join(f'<li>{escape(item)}</li>' for item in items)}</ul>"

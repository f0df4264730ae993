"""Markdown to HTML, as far as the rulebook page uses it: headings, tables, lists, quotes, bold, code and links."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import escape

INLINE = re.compile(r"`([^`]+)`|\*\*(.+?)\*\*|\[([^\]]+)\]\((#[^)\s]+)\)")
HEADING = re.compile(r"(#{1,6}) +(.*)")
RULE_OF_TABLE = re.compile(r"\|(?: *:?-+:? *\|)+")


def html_of(markdown: str) -> str:
    """The blocks of the text as HTML; everything that is not of the subset stays text, escaped."""
    return "\n".join(_blocks(markdown.splitlines()))


def _blocks(lines: list[str]) -> Iterator[str]:
    index = 0
    while index < len(lines):
        kind = _kind(lines[index])
        end = index + 1
        while kind in ("list", "quote", "table", "text") and end < len(lines) and _kind(lines[end]) == kind:
            end += 1
        block = lines[index:end]
        if kind == "heading":
            yield _heading(block[0])
        elif kind == "list":
            yield "<ul>" + "".join(f"<li>{_inline(line[2:])}</li>" for line in block) + "</ul>"
        elif kind == "quote":
            yield f"<blockquote>{_inline(' '.join(line[1:].strip() for line in block))}</blockquote>"
        elif kind == "table":
            yield _table(block)
        elif kind == "text":
            yield f"<p>{_inline(' '.join(block))}</p>"
        index = end


def _kind(line: str) -> str:
    if not line.strip() or line.startswith("<!--"):
        return "nothing"
    if HEADING.match(line):
        return "heading"
    return {"- ": "list", "> ": "quote"}.get(line[:2], "table" if line.startswith("|") else "text")


def _heading(line: str) -> str:
    found = HEADING.match(line)
    assert found
    level, text = len(found[1]), found[2]
    anchor = re.sub(r"[^\w\- ]", "", text.lower()).replace(" ", "-")
    return f'<h{level} id="{escape(anchor)}">{_inline(text)}</h{level}>'


def _table(block: list[str]) -> str:
    rows = [[cell.strip() for cell in line.strip().strip("|").split("|")] for line in block]
    headed = len(block) > 1 and RULE_OF_TABLE.fullmatch(block[1].strip())
    head = "".join(f'<th scope="col">{_inline(cell)}</th>' for cell in rows[0]) if headed else ""
    body = rows[2:] if headed else rows
    told = "".join("<tr>" + "".join(f"<td>{_inline(cell)}</td>" for cell in row) + "</tr>" for row in body)
    return f"<table>{f'<thead><tr>{head}</tr></thead>' if headed else ''}<tbody>{told}</tbody></table>"


def _inline(text: str) -> str:
    told, last = [], 0
    for found in INLINE.finditer(text):
        told.append(escape(text[last : found.start()]))
        code, bold, name, target = found.groups()
        if code is not None:
            told.append(f"<code>{escape(code)}</code>")
        elif bold is not None:
            told.append(f"<strong>{_inline(bold)}</strong>")
        else:
            told.append(f'<a href="{escape(target)}">{_inline(name)}</a>')
        last = found.end()
    return "".join(told) + escape(text[last:])

"""The pages: what this is and how to ask, the rulebook, and the OpenAPI document. Everything comes from this server."""

from __future__ import annotations

import json
import shlex
from html import escape
from typing import Any
from urllib.parse import quote, urlencode

from fastapi import APIRouter, Request, Response

from api.markdown import html_of
from api.options import WHOLE
from api.parameters import answered
from api.plan_examples import GEARED, PACK, WHEELS
from api.replies import VERSION, Checked, desk_of, told, told_as
from api.shapes import Index
from fitdb.sheets.rulebook import rulebook_page
from fitdb.steps.explain import ALWAYS

router = APIRouter()
HTML, CSS = "text/html", "text/css"
STYLE = """:root { color-scheme: light dark; }
body { font: 16px/1.5 system-ui, sans-serif; max-width: 62rem; margin: 0 auto; padding: 1rem; }
pre, code { font: 14px/1.45 ui-monospace, monospace; }
pre { overflow-x: auto; padding: .6rem .8rem; border: 1px solid #8888; border-radius: 4px; }
table { border-collapse: collapse; display: block; overflow-x: auto; margin: .5rem 0 1rem; }
th, td { border: 1px solid #8888; padding: .25rem .5rem; text-align: left; vertical-align: top; }
blockquote { border-left: 4px solid #b45309; margin: .5rem 0; padding: .2rem .8rem; }
h2, h3 { margin-top: 2rem; }
.method { font-weight: bold; }
"""


@router.get("/v1", operation_id="getIndex", tags=["index"], dependencies=[Checked], responses=answered(Index, "Index."))
def get_index(request: Request) -> Response:
    """What this API answers, and the state of catalogue and rulebook."""
    document = request.app.openapi()
    resources = [
        {"method": method.upper(), "path": path, "does": operation["summary"]}
        for path, operations in document["paths"].items()
        for method, operation in operations.items()
    ]
    head = {"name": "fitdb", "version": VERSION, "resources": resources}
    stamp = desk_of(request).rules.stamp
    return told(request, lambda _, book: {**head, "catalogue_revision": book.revision, "rulebook_stamp": stamp})


@router.get("/v1/openapi.json", include_in_schema=False)
def get_openapi_document(request: Request) -> Response:
    """The OpenAPI 3.1 document of this server."""
    return told_as(request, "application/json", "", lambda: json.dumps(request.app.openapi(), ensure_ascii=False))


@router.get("/style.css", include_in_schema=False)
def get_style(request: Request) -> Response:
    return told_as(request, CSS, STYLE, lambda: STYLE)


@router.get("/", include_in_schema=False)
def get_page(request: Request) -> Response:
    """What this is, what to try, and every operation with its example."""
    base = str(request.base_url).rstrip("/")
    return told_as(
        request, HTML, base, lambda: _page("fitdb", _opening(base) + _operations(request.app.openapi(), base))
    )


@router.get("/rules", include_in_schema=False)
def get_rules_page(request: Request) -> Response:
    """The rulebook as a page."""
    rules = desk_of(request).rules
    return told_as(
        request, HTML, rules.stamp, lambda: _page("The rulebook of fitdb", _back() + html_of(rulebook_page(rules)))
    )


def example_of(path: str, operation: dict[str, Any]) -> str:
    """The address of an operation with the examples of its parameters filled in."""
    asked = {}
    for parameter in operation.get("parameters", []):
        shown = [example["value"] for example in parameter.get("examples", {}).values()]
        if shown and parameter["in"] == "path":
            path = path.replace("{" + parameter["name"] + "}", quote(str(shown[0]), safe=""))
        elif shown and parameter["in"] == "query":
            asked[parameter["name"]] = shown[0]
    return path + (f"?{urlencode(asked)}" if asked else "")


def example_headers(operation: dict[str, Any]) -> dict[str, str]:
    """The headers of an operation that have an example."""
    return {
        parameter["name"]: str(next(iter(parameter["examples"].values()))["value"])
        for parameter in operation.get("parameters", [])
        if parameter["in"] == "header" and parameter.get("examples")
    }


def is_there_from_the_start(operation: dict[str, Any]) -> bool:
    """Whether the example of an operation can be followed at once: it names nothing that somebody has to keep first."""
    named = [
        parameter.get("examples", {}) for parameter in operation.get("parameters", []) if parameter["in"] == "path"
    ]
    return all("usual" in examples for examples in named)


def _page(title: str, body: str) -> str:
    return (
        '<!doctype html>\n<html lang="en">\n<head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<title>{escape(title)}</title><link rel="icon" href="data:,"><link rel="stylesheet" href="/style.css">'
        "</head>\n"
        f"<body><main>\n{body}\n</main></body>\n</html>\n"
    )


def _back() -> str:
    return '<p><a href="/">fitdb</a></p>\n'


def _opening(base: str) -> str:
    pair = json.dumps({"parts": [{"id": "wheel-90-six-window"}, {"id": "driven-36-six-lug"}]})
    seat = json.dumps({"plan": WHOLE, "seat": "charger", "limit": 5})
    wheels, pack, geared = json.dumps(WHEELS), json.dumps(PACK), json.dumps(GEARED)
    return f"""<h1>fitdb</h1>
<p>Does this part fit that one, and what does a swap do to a whole board: what clashes, what makes it fit, what does
that break in turn, and what has to be measured first? For light electric ride-on boards, answered from numbers: a
catalogue says what every part offers, a rulebook says what must hold where parts meet, and every answer names its
margin, its sources and the reading that would settle a doubt.</p>
<blockquote>{escape(ALWAYS)}</blockquote>
<h2>What to try</h2>
<pre>curl -s {escape(base)}/v1/fits -H 'content-type: application/json' \\
  -d '{escape(pair, quote=False)}'</pre>
<ul>
<li><a href="/v1/fits/wheel-90-six-window/driven-36-six-lug">the same, for two parts of the catalogue</a></li>
<li><a href="/v1/parts/wheel-90-six-window/fitting?class=driven_pulley">driven pulleys for it, best first</a></li>
<li><a href="/v1/parts?class=wheel">wheels of the catalogue</a>,
<a href="/v1/classes/wheel">how to measure one</a></li>
</ul>
<p>A whole board before and after a swap; and which of its parts cannot stand together:</p>
<pre>curl -s {escape(base)}/v1/swaps -H 'content-type: application/json' \\
  -d '{escape(wheels, quote=False)}'</pre>
<pre>curl -s {escape(base)}/v1/swaps/conflicts -H 'content-type: application/json' \\
  -d '{escape(pack, quote=False)}'</pre>
<p>What the finished board will do, before and after; one of its charts as a drawing; what to set in its controllers,
the order of work and the page to print for the bench are asked with the same plan:</p>
<pre>curl -s {escape(base)}/v1/ride -H 'content-type: application/json' \
  -d '{escape(geared, quote=False)}'</pre>
<pre>curl -s '{escape(base)}/v1/ride?chart=force' -H 'accept: image/svg+xml' -H 'content-type: application/json' \
  -d '{escape(geared, quote=False)}'</pre>
<p>Which parts can stand in a seat of a board, each as part of a whole board; and why another cannot:</p>
<pre>curl -s {escape(base)}/v1/options -H 'content-type: application/json' \
  -d '{escape(seat, quote=False)}'</pre>
<p><a href="#askOptions">More about options</a>, <a href="#askWhyNot">why not this part</a>.</p>
<p>All of it in one answer, judged once: <code>/v1/swaps?include=ride,settings,jobcard</code>. Each by itself:
<a href="#askSettings">settings</a>, <a href="#askJobcard">order of work</a>, <a href="#askSheet">page to print</a>,
<a href="#askRideView">board to scale</a>.</p>
<ul>
<li><a href="/v1/layouts">the layouts of boards</a>, <a href="/v1/layouts/two_wheel_belt">the seats of one</a>, and
<a href="/v1/layouts/two_wheel_belt/plan.yaml">a blank plan</a> to fill in</li>
<li>boards and plans that are kept: <a href="/v1/boards">boards</a>, <a href="/v1/plans">plans</a>; they can be changed
from the machine that the server runs on, and from nowhere else</li>
<li><a href="/rules">the rulebook</a>, <a href="/v1/words">what the words of an answer mean</a></li>
<li><a href="/v1/openapi.json">the OpenAPI 3.1 document</a></li>
</ul>"""


def _operations(document: dict[str, Any], base: str) -> str:
    told_operations = [
        _operation(path, method, operation, base)
        for path, operations in document["paths"].items()
        for method, operation in operations.items()
    ]
    return "\n<h2>Every operation</h2>\n" + "\n".join(told_operations)


def _operation(path: str, method: str, operation: dict[str, Any], base: str) -> str:
    lines = [
        f'<h3 id="{escape(operation["operationId"])}"><span class="method">{method.upper()}</span> '
        f"<code>{escape(path)}</code></h3>",
        f"<p>{escape(operation['description'])}</p>",
    ]
    parameters = operation.get("parameters", [])
    if parameters:
        rows = "".join(
            f"<tr><td><code>{escape(one['name'])}</code></td><td>{escape(one['in'])}</td>"
            f"<td>{escape(one.get('description', ''))}</td></tr>"
            for one in parameters
        )
        lines.append(
            f'<table><thead><tr><th scope="col">parameter</th><th scope="col">in</th><th scope="col">what</th>'
            f"</tr></thead><tbody>{rows}</tbody></table>"
        )
    address = example_of(path, operation)
    examples = operation.get("requestBody", {}).get("content", {}).get("application/json", {}).get("examples", {})
    if method == "get" and is_there_from_the_start(operation):
        lines.append(f'<pre><a href="{escape(address)}">{escape(base + address)}</a></pre>')
    elif not examples:
        lines.append(f"<pre>{escape(_curl(method, base + address, operation), quote=False)}</pre>")
    for name, example in examples.items():
        body = json.dumps(example["value"], ensure_ascii=False, indent=1)
        command = _curl(method, base + address, operation, body)
        lines.append(f"<p>{escape(name[:1].upper() + name[1:])}:</p><pre>{escape(command, quote=False)}</pre>")
    return "\n".join(lines)


def _curl(method: str, address: str, operation: dict[str, Any], body: str = "") -> str:
    """The command for a shell that asks this."""
    words = ["curl -s"]
    if method not in ("get", "post") or (method == "post" and not body):
        words.append(f"-X {method.upper()}")
    words.append(shlex.quote(address))
    words += [f"-H {shlex.quote(f'{name}: {value}')}" for name, value in example_headers(operation).items()]
    if body:
        words += ["-H 'content-type: application/json'", f"-d {shlex.quote(body)}"]
    return " ".join(words)

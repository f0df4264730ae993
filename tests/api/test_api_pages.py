"""The pages work offline and under their own policy: nothing inline, nothing from elsewhere, every link leads on."""

from __future__ import annotations

import shlex
from html.parser import HTMLParser

import httpx
import pytest
from live_server import serving

from api.main import create_app
from api.markdown import html_of
from fitdb.rules import rulebook

PAGES = ("/", "/rules")
VOID = {"meta", "link", "br", "hr", "img", "input"}


class Page(HTMLParser):
    """Elements with their attributes; fails where tags are not closed in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []
        self.text = ""
        self.texts: list[tuple[str, str]] = []
        self.feed(text)
        self.close()
        assert self.open == [], self.open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attrs}))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data
        self.texts.append((self.open[-1] if self.open else "", data))


@pytest.mark.parametrize("address", PAGES)
def test_a_page_holds_nothing_that_its_policy_would_block(client: httpx.Client, address: str) -> None:
    response = client.get(address)
    assert response.headers["content-type"] == "text/html; charset=utf-8"
    policy = response.headers["content-security-policy"]
    assert policy.startswith("default-src 'none'") and "unsafe" not in policy
    page = Page(response.text)
    for tag, attributes in page.elements:
        assert tag not in ("script", "style", "iframe", "object", "embed")
        assert not any(name == "style" or name.startswith("on") for name in attributes)
        for name in ("href", "src"):
            target = attributes.get(name, "/")
            assert target.startswith(("/", "#", "data:,")) and not target.startswith("//"), target
    assert [tag for tag, _ in page.elements].count("h1") == 1
    assert ("html", {"lang": "en"}) in page.elements


@pytest.mark.parametrize("address", PAGES)
def test_every_link_of_a_page_leads_somewhere(client: httpx.Client, address: str) -> None:
    page = Page(client.get(address).text)
    anchors = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(anchors) == len(set(anchors))
    targets = {attributes["href"] for tag, attributes in page.elements if tag in ("a", "link")}
    for target in targets:
        if target.startswith("#"):
            assert target[1:] in anchors, target
        elif target.startswith("/"):
            assert client.get(target).status_code == 200, target


def test_the_first_page_shows_every_operation_with_its_example(client: httpx.Client) -> None:
    text = Page(client.get("/").text).text
    paths = client.get("/v1/openapi.json").json()["paths"]
    for path, operations in paths.items():
        assert path in text
        for operation in operations.values():
            assert " ".join(operation["description"].split()) in " ".join(text.split())
    assert "have a qualified person look at it" in text


def test_the_commands_of_the_first_page_are_answered(own_catalogue: str) -> None:
    """Each is run as a shell would read it, those that make something before those that ask for it."""
    with serving(create_app(own_catalogue)) as address, httpx.Client(timeout=60) as client:
        shown = (text for tag, text in Page(client.get(address).text).texts if tag == "pre")
        commands = [shlex.split(text.replace("\\\n", " ")) for text in shown if text.startswith("curl ")]
        commands.sort(key=lambda words: ("PUT", "GET", "POST", "DELETE").index(method_of(words)))
        assert {method_of(words) for words in commands} == {"GET", "POST", "PUT", "DELETE"}
        for words in commands:
            headers = dict(words[at + 1].split(": ", 1) for at, word in enumerate(words) if word == "-H")
            body = words[words.index("-d") + 1].encode() if "-d" in words else None
            target = next(word for word in words if word.startswith("http"))
            sent = client.request(method_of(words), target, headers=headers, content=body)
            assert sent.status_code in (200, 201, 204), (words, sent.text)


def method_of(words: list[str]) -> str:
    """What curl sends: what is named, else POST with a body, else GET."""
    return words[words.index("-X") + 1] if "-X" in words else "POST" if "-d" in words else "GET"


def test_the_description_of_the_document_has_a_command_that_is_answered(client: httpx.Client) -> None:
    description = client.get("/v1/openapi.json").json()["info"]["description"]
    words = shlex.split(description[description.index("curl ") :])
    path = httpx.URL(next(word for word in words if word.startswith("http"))).path
    headers = {"content-type": "application/json"}
    assert path == "/v1/swaps"
    assert client.post(path, content=words[words.index("-d") + 1].encode(), headers=headers).status_code == 200


def test_a_strange_host_cannot_write_into_the_page(client: httpx.Client) -> None:
    text = client.get("/", headers={"host": 'a"><b>x'}).text
    assert "<b>x" not in text


def test_the_rulebook_page_has_every_rule(client: httpx.Client) -> None:
    page = Page(client.get("/rules").text)
    anchors = {attributes["id"] for _, attributes in page.elements if "id" in attributes}
    for rule in rulebook().rules.values():
        assert rule.id.replace(".", "") in anchors
        assert rule.question in page.text


def test_responses_carry_the_headers_that_keep_browsers_strict(client: httpx.Client) -> None:
    for response in (client.get("/v1"), client.get("/v1/none"), client.get("/")):
        assert response.headers["x-content-type-options"] == "nosniff"
        assert response.headers["referrer-policy"] == "no-referrer"
        assert "server" not in response.headers


@pytest.mark.parametrize(
    ("markdown", "html"),
    [
        ("# One two", '<h1 id="one-two">One two</h1>'),
        ("### belt_teeth.pitch_agrees", '<h3 id="belt_teethpitch_agrees">belt_teeth.pitch_agrees</h3>'),
        ("a\nb\n\nc", "<p>a b</p>\n<p>c</p>"),
        ("- a\n- `b<`", "<ul><li>a</li><li><code>b&lt;</code></li></ul>"),
        ("> take **care**", "<blockquote>take <strong>care</strong></blockquote>"),
        (
            "| a | b |\n| --- | --- |\n| 1 | 2 |",
            '<table><thead><tr><th scope="col">a</th><th scope="col">b</th></tr></thead>'
            "<tbody><tr><td>1</td><td>2</td></tr></tbody></table>",
        ),
        ("[there](#one-two)", '<p><a href="#one-two">there</a></p>'),
        ("[out](javascript:x)", "<p>[out](javascript:x)</p>"),
        ("<script>x</script>", "<p>&lt;script&gt;x&lt;/script&gt;</p>"),
        ("<!-- notice -->", ""),
    ],
)
def test_markdown_becomes_html(markdown: str, html: str) -> None:
    # GitHub Flavored Markdown 0.29 for these blocks; anchors as that renderer makes them.
    assert html_of(markdown) == html

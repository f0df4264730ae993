"""Nothing is changed but from the machine that the server runs on, and by nobody but who sits there."""

from __future__ import annotations

from typing import Any

import anyio
import httpx
import pytest
from live_server import NEW, assert_problem, measure, serving, version_of

from api.main import create_app
from api.plan_examples import BOARD, PACK
from api.writes import is_this_machine


def named(several: str, own: str) -> dict[str, Any]:
    return {**(BOARD if several == "boards" else PACK), "plan": own}


@pytest.mark.parametrize(
    ("host", "here"),
    [
        # RFC 1122, 3.2.1.3: 127/8; RFC 4291, 2.5.3: ::1; RFC 6761, 6.3: localhost. RFC 5737 and 3849 for the others.
        ("127.0.0.1", True),
        ("127.8.9.10", True),
        ("::1", True),
        ("[::1]", True),
        ("::ffff:127.0.0.1", True),
        ("localhost", True),
        ("LocalHost", True),
        ("0.0.0.0", False),
        ("::", False),
        ("", False),
        ("192.0.2.7", False),
        ("::ffff:192.0.2.7", False),
        ("2001:db8::1", False),
        ("10.0.0.1", False),
        ("localhost.example", False),
        ("127.0.0.1.example", False),
    ],
)
def test_what_can_only_mean_this_machine(host: str, here: bool) -> None:
    assert is_this_machine(host) is here


CHANGES = [
    (method, path)
    for path, operations in create_app("sqlite://").openapi()["paths"].items()
    for method, operation in operations.items()
    if method in ("put", "delete", "patch") or "403" in operation["responses"]
]


def test_every_operation_that_changes_something_says_that_it_may_be_refused(document: dict[str, Any]) -> None:
    assert {("put", "/v1/boards/{board_id}"), ("post", "/v1/parts/{part_id}/readings")} <= set(CHANGES)
    for method, path in CHANGES:
        assert {"403", "412", "428"} <= document["paths"][path][method]["responses"].keys()


@pytest.mark.parametrize(
    ("bound_to", "client", "reached", "why"),
    [
        ("", "192.0.2.7", "http://127.0.0.1:8480", "another machine"),
        ("", "127.0.0.1", "http://192.0.2.1:8480", "outside of this machine"),
        ("0.0.0.0", "127.0.0.1", "http://127.0.0.1:8480", "listens on more"),
        ("192.0.2.1", "127.0.0.1", "http://127.0.0.1:8480", "listens on more"),
        ("", "127.0.0.1", "http://board.example:8480", "outside of this machine"),
    ],
)
def test_nothing_is_changed_from_elsewhere(
    monkeypatch: pytest.MonkeyPatch, bound_to: str, client: str, reached: str, why: str
) -> None:
    monkeypatch.setenv("FITDB_HOST", bound_to)
    transport = httpx.ASGITransport(create_app("sqlite://"), client=(client, 50_000))

    async def asked(method: str, path: str) -> httpx.Response:
        async with httpx.AsyncClient(transport=transport, base_url=reached) as opened:
            address = path.replace("{board_id}", "x").replace("{plan_id}", "x").replace("{part_id}", "x")
            return await opened.request(method, address, content=b"{}")

    for method, path in CHANGES:
        fault = assert_problem(anyio.run(asked, method, path), 403, "not_from_here", "")
        assert why in fault["detail"] and "127.0.0.1" in fault["hint"]


def test_a_page_that_leads_its_own_name_here_changes_nothing(own_client_on_each: httpx.Client) -> None:
    headers = {**NEW, "host": "board.example"}
    response = own_client_on_each.put("/v1/boards/led", json=named("boards", "led"), headers=headers)
    assert_problem(response, 403, "not_from_here", "")
    assert own_client_on_each.get("/v1/boards/led").status_code == 404


@pytest.mark.parametrize(
    "passed_on",
    [
        {"forwarded": "for=127.0.0.1"},
        {"via": "1.1 other"},
        {"x-forwarded-for": "127.0.0.1"},
        {"x-real-ip": "127.0.0.1"},
    ],
)
def test_what_another_server_passes_on_changes_nothing(
    own_client_on_each: httpx.Client, passed_on: dict[str, str]
) -> None:
    response = own_client_on_each.put("/v1/boards/on", json=named("boards", "on"), headers={**NEW, **passed_on})
    assert_problem(response, 403, "not_from_here", "")
    assert own_client_on_each.get("/v1/boards/on").status_code == 404


def test_a_server_that_others_reach_answers_and_takes_no_changes(
    own_catalogue: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FITDB_HOST", "0.0.0.0")
    with serving(create_app(own_catalogue)) as address, httpx.Client(base_url=address, timeout=60) as client:
        assert client.post("/v1/swaps/conflicts", json=PACK).status_code == 200
        assert client.get("/v1/boards").status_code == 200
        for several in ("boards", "plans"):
            response = client.put(f"/v1/{several}/x", json=named(several, "x"), headers=NEW)
            assert_problem(response, 403, "not_from_here", "")
        assert_problem(measure(client, "wheel-90-six-window", {"mass": "300 g"}), 403, "not_from_here", "")
        assert client.get("/v1/boards").json()["boards"] == []
        assert version_of(client, "wheel-90-six-window") == 1
    monkeypatch.setenv("FITDB_HOST", "127.0.0.1")
    with serving(create_app(own_catalogue)) as address:
        assert httpx.put(f"{address}/v1/boards/x", json=named("boards", "x"), headers=NEW).status_code == 201

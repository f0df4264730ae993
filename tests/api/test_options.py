"""Options over HTTP: a board put together choice by choice, what is refused and why, what moves, what is malformed."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from live_server import asked_options as asked
from live_server import assert_problem, measure, serving

from api.main import create_app
from api.options import WHOLE

Check = Callable[[httpx.Response, str, str], None]
EMPTY: dict[str, Any] = {"plan": "from-nothing", "layout": "unpowered", "board": {}}


def test_a_refused_part_is_told_in_one_sentence_with_numbers_and_the_change_that_admits_it(
    client: httpx.Client, check: Check
) -> None:
    # Six lugs spread evenly do not meet five windows.
    body = {"plan": WHOLE, "seat": "wheel", "part": "wheel-90-five-window", "budget_ms": 60000}
    response = client.post("/v1/options/why", json=body, timeout=300)
    check(response, "/v1/options/why", "post")
    told = response.json()
    assert told["verdict"] == "clash" and "driven-36-six-lug" in told["sentence"]
    assert any(sign.isdigit() for sign in told["sentence"])
    change = told["change"]
    assert change["smallest"] and set(change["instead"].values()) == {"driven-36-five-lug"}
    stated = {key: WHOLE[key] for key in ("layout", "rider", "route")}
    swapped = client.post("/v1/swaps", json={"plan": "let-in", **stated, "on": _without_stated(change["witness"])})
    assert swapped.json()["as_asked"] != "clash"


def _without_stated(board: dict[str, str]) -> dict[str, str]:
    return {seat: part for seat, part in board.items() if seat not in ("rider", "route", "wish")}


def test_a_page_is_told_as_documented_and_the_next_one_goes_on(client: httpx.Client, check: Check) -> None:
    body = {"plan": WHOLE, "seat": "belt", "limit": 10, "facets": [], "budget_ms": 30000, "remedies": False}
    ids: list[str] = []
    while True:
        response = client.post("/v1/options", json=body, timeout=120)
        check(response, "/v1/options", "post")
        told = response.json()
        ids += [one["part"] for one in told["options"]]
        if told["next"] is None:
            break
        assert told["next"] != body.get("after")
        body["after"] = told["next"]
    assert len(ids) == len(set(ids)) == told["total"]


def test_a_catalogue_that_moves_under_a_page_is_said_and_the_pages_go_on(own_client_on_each: httpx.Client) -> None:
    client = own_client_on_each
    body = {"plan": WHOLE, "seat": "belt", "limit": 40, "sort": "id", "budget_ms": 30000, "remedies": False}
    first = asked(client, body)
    measure(client, "belt-5mm-300-9", {"width": "9.0 +-0.1 mm"})
    deadline = time.monotonic() + 400
    while True:
        second = asked(client, {**body, "after": first["next"]})
        if second["newer_revision"] is None:
            break
        assert second["catalogue_revision"] == first["catalogue_revision"], "the old list, and it says so"
        assert time.monotonic() < deadline, "the new snapshot never came"
        time.sleep(1.0)
    assert second["moved_from"] == first["catalogue_revision"] != second["catalogue_revision"]
    ids = [one["part"] for one in (*first["options"], *second["options"])]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"plan": WHOLE, "seat": "weel"}, "unknown_seat", "/seat"),
        ({"plan": WHOLE}, "missing", "/seat"),
        (WHOLE, "missing_key", "/plan"),
        ({"plan": WHOLE, "seat": "belt", "sort": "colour"}, "unknown_word", "/sort"),
        ({"plan": WHOLE, "seat": "belt", "limit": 1000}, "impossible_value", "/limit"),
        ({"plan": WHOLE, "seat": "belt", "after": "x"}, "bad_cursor", "/after"),
        ({"plan": WHOLE, "seat": "belt", "why": "belt-of-nobody"}, "unknown_part", "/why"),
        ({"plan": WHOLE, "seat": "belt", "facets": ["widht"]}, "unknown_facet", "/facets"),
        ({"plan": WHOLE, "seat": "belt", "where": {"widht": "9 mm"}}, "unknown_parameter", "/where/widht"),
        ({"plan": {**WHOLE, "board": {"deck": "no-such-deck"}}, "seat": "belt"}, "unknown_part", "/plan/board/deck"),
    ],
)
def test_what_cannot_be_understood_is_refused_at_its_place(
    client: httpx.Client, body: dict[str, Any], code: str, pointer: str
) -> None:
    sent = {**body, "budget_ms": 0} if "seat" in body else body
    response = client.post("/v1/options", json=sent, timeout=120)
    if code == "missing":
        assert response.status_code == 422
        assert any(one["pointer"] == pointer for one in response.json()["errors"])
        return
    assert_problem(response, 422, code, pointer)


def test_no_time_is_an_answer(client: httpx.Client, check: Check) -> None:
    response = client.post("/v1/options", json={"plan": EMPTY, "seat": "deck", "budget_ms": 0, "limit": 3}, timeout=120)
    check(response, "/v1/options", "post")
    told = response.json()
    assert len(told["options"]) == 3 and told["total"] == 21


def test_other_requests_are_answered_meanwhile_and_nobody_works_for_one_who_has_gone(client: httpx.Client) -> None:
    body = {"plan": {**EMPTY, "layout": "four_wheel_belt"}, "seat": "deck", "budget_ms": 60000}
    with pytest.raises(httpx.ReadTimeout):
        client.post("/v1/options", json=body, timeout=2)
    began = time.monotonic()
    assert client.get("/v1/layouts", timeout=30).status_code == 200
    # The snapshot of that layout is free again as soon as the first asker is seen to be gone.
    told = asked(client, {**body, "budget_ms": 0})
    assert told["total"] == 21 and time.monotonic() - began < 45


def test_a_catalogue_in_memory_answers_as_well() -> None:
    """It has one connection for everything, and keeps nothing for later."""
    with serving(create_app("sqlite://")) as address, httpx.Client(base_url=address, timeout=120) as client:
        told = asked(client, {"plan": WHOLE, "seat": "belt", "limit": 2, "budget_ms": 30000, "remedies": False})
        assert told["complete"] and told["counts"]["fits"] > 0
        assert client.get("/v1/parts?class=belt&limit=1").status_code == 200

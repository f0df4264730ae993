"""Options over HTTP: a board put together choice by choice, what is refused and why, what moves, what is malformed."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from live_server import assert_problem, measure

from api.options import WHOLE

Check = Callable[[httpx.Response, str, str], None]
# A board without a drive has the fewest seats; ten choices leave the rest to the witness.
CHOICES = ("deck", "truck", "wheel", "bearing", "bushing", "axle_nut", "deck_bolt", "deck_nut", "grip", "front_spacer")
DRIVEN = (
    "deck", "truck", "wheel", "driven_pulley", "belt", "motor", "drive_pulley", "motor_mount", "pack", "controller",
)  # fmt: skip
EMPTY: dict[str, Any] = {"plan": "from-nothing", "layout": "unpowered", "board": {}}
MOST_ASKED = 40
SEEN: dict[str, list[tuple[str, dict[str, int]]]] = {}


def asked(client: httpx.Client, body: dict[str, Any], path: str = "/v1/options") -> dict[str, Any]:
    response = client.post(path, json=body, timeout=300)
    assert response.status_code == 200, response.text
    assert response.headers["cache-control"] == "no-store"
    return dict(response.json())


def until_complete(client: httpx.Client, body: dict[str, Any]) -> dict[str, Any]:
    """Asks again until nothing is left to check: what was found is kept from one time to the next."""
    for _ in range(MOST_ASKED):
        told = asked(client, {**body, "budget_ms": 8000})
        if told["complete"]:
            return told
        assert not told["counts"]["clash"] or told["counts"]["checking"] + told["counts"]["measure"] >= 0
    pytest.fail(f"not complete after {MOST_ASKED} times: {told['counts']}")


def test_ten_choices_by_the_api_alone_make_a_whole_board(client_on_each: httpx.Client, check: Check) -> None:
    board: dict[str, str] = {}
    picks: list[tuple[str, dict[str, int]]] = []
    last: dict[str, Any] = {}
    for seat in CHOICES:
        last = until_complete(client_on_each, {"plan": {**EMPTY, "board": board}, "seat": seat, "remedies": False})
        assert last["broken"] is None and last["options"], seat
        best = last["options"][0]
        assert best["possible"], f"{seat}: what was chosen before leaves a board"
        picks.append((best["part"], last["counts"]))
        board = {**board, seat: best["part"]}
    witness = last["options"][0]["witness"]
    response = client_on_each.post("/v1/swaps", json=witness, timeout=120)
    check(response, "/v1/swaps", "post")
    verdict = response.json()
    expected = {"fits": ("fits", "fits_with"), "measure": ("measure", "fits_with")}[last["options"][0]["verdict"]]
    assert verdict["as_asked"] != "clash" and verdict["verdict"] in expected
    open_ones = {one["part"] for one in last["options"][0]["to_read"]}
    assert open_ones <= {part for part in witness["on"].values() if isinstance(part, str)}
    SEEN[str(client_on_each.base_url)] = picks
    assert len({str(one) for one in SEEN.values()}) == 1, "the same choices and counts on both databases"


def test_ten_choices_make_a_whole_board_with_a_drive(client: httpx.Client) -> None:
    """Motors, belts, pack and controller: the seats that are left take what the last answer's board has in them."""
    board: dict[str, str] = {}
    last: dict[str, Any] = {}
    for seat in DRIVEN:
        plan = {**EMPTY, "layout": "two_wheel_belt", "board": board}
        last = until_complete(client, {"plan": plan, "seat": seat, "remedies": False})
        assert last["broken"] is None and last["options"][0]["verdict"] == "fits", seat
        board = {**board, seat: last["options"][0]["part"]}
    assert last["options"][0]["to_read"] == []
    verdict = client.post("/v1/swaps", json=last["options"][0]["witness"], timeout=120).json()
    assert verdict["as_asked"] == verdict["verdict"] == "fits"


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

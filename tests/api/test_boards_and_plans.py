"""Boards and plans that people keep: against the version they saw, all of it or nothing; and a kept plan answered."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
from live_server import NEW, assert_problem, seen

from api.plan_examples import BOARD, PACK, WHEELS

Check = Callable[[httpx.Response, str, str], None]
KINDS = pytest.mark.parametrize("several", ["boards", "plans"])


def named(several: str, own: str, **changes: Any) -> dict[str, Any]:
    return {**(BOARD if several == "boards" else PACK), "plan": own, **changes}


def made(client: httpx.Client, several: str, own: str) -> str:
    """The address of a new board or plan."""
    address = f"/v1/{several}/{own}"
    response = client.put(address, json=named(several, own), headers=NEW)
    assert response.status_code == 201, response.text
    return address


def path_of(several: str) -> str:
    return f"/v1/{several}/{{{several.removesuffix('s')}_id}}"


# --- keeping -------------------------------------------------------------------------------------------------


@KINDS
def test_a_new_one_is_kept_changed_and_taken_away(own_client_on_each: httpx.Client, check: Check, several: str) -> None:
    client, path, address = own_client_on_each, path_of(several), f"/v1/{several}/first"
    assert_problem(client.get(address), 404, f"unknown_{several.removesuffix('s')}", f"/path/{several[:-1]}_id")
    response = client.put(address, json=named(several, "first"), headers=NEW)
    check(response, path, "put")
    assert (response.status_code, response.headers["etag"], response.headers["location"]) == (201, '"1"', address)
    kept = client.get(address)
    check(kept, path, "get")
    assert kept.headers["etag"] == '"1"' and kept.json() == response.json()
    assert kept.json()["document"] == named(several, "first") and kept.json()["version"] == 1

    response = client.put(address, json=named(several, "first", title="Another title"), headers=seen(1))
    check(response, path, "put")
    assert (response.status_code, response.headers["etag"]) == (200, '"2"')
    assert client.get(address).json()["title"] == "Another title"

    response = client.delete(address, headers=seen(2))
    check(response, path, "delete")
    assert response.status_code == 204 and client.get(address).status_code == 404
    assert_problem(client.delete(address, headers=seen(2)), 404, f"unknown_{several.removesuffix('s')}")


@KINDS
def test_whoever_has_the_version_is_told_so_and_no_more(own_client_on_each: httpx.Client, several: str) -> None:
    address = made(own_client_on_each, several, "unchanged")
    for wanted in ('"1"', 'W/"1"', '"7", "1"', "*"):  # RFC 9110, 13.1.2: weak comparison
        again = own_client_on_each.get(address, headers={"if-none-match": wanted})
        assert again.status_code == 304 and again.content == b"" and again.headers["etag"] == '"1"'
    assert own_client_on_each.get(address, headers={"if-none-match": '"2"'}).status_code == 200
    head = own_client_on_each.head(address)
    assert head.status_code == 200 and head.headers["etag"] == '"1"' and head.content == b""


@KINDS
def test_what_moved_in_the_meantime_is_not_overwritten(
    own_client_on_each: httpx.Client, check: Check, several: str
) -> None:
    client, address = own_client_on_each, made(own_client_on_each, several, "moved")
    document = named(several, "moved", title="Mine")
    client.put(address, json=named(several, "moved", title="Theirs"), headers=seen(1)).raise_for_status()
    # RFC 9110, 13.1.1: If-Match compares strongly, so a weak tag never matches.
    for headers in (seen(1), seen(3), NEW, {"if-match": 'W/"2"'}, {"if-match": "2"}, {**seen(2), **NEW}):
        response = client.put(address, json=document, headers=headers)
        fault = assert_problem(response, 412, "stale", "")
        check(response, path_of(several), "put")
        assert response.headers["etag"] == '"2"' and "version 2" in fault["detail"]
    for headers in (seen(1), {"if-match": 'W/"2"'}):
        response = client.delete(address, headers=headers)
        assert_problem(response, 412, "stale", "")
        check(response, path_of(several), "delete")
    assert client.get(address).json()["title"] == "Theirs"


@KINDS
def test_who_does_not_say_what_they_saw_changes_nothing(own_client_on_each: httpx.Client, several: str) -> None:
    client, address = own_client_on_each, made(own_client_on_each, several, "unseen")
    for headers in ({}, {"if-match": "*"}, {"if-none-match": '"7"'}):  # RFC 6585, 3
        document = named(several, "unseen", title="Other")
        assert_problem(client.put(address, json=document, headers=headers), 428, "unseen", "")
        assert_problem(client.delete(address, headers=headers), 428, "unseen", "")
    assert client.get(address).headers["etag"] == '"1"'


@KINDS
def test_what_is_not_there_cannot_be_changed(own_client_on_each: httpx.Client, several: str) -> None:
    address = f"/v1/{several}/never-made"
    response = own_client_on_each.put(address, json=named(several, "never-made"), headers=seen(1))
    assert_problem(response, 412, "stale")
    assert "etag" not in response.headers and own_client_on_each.get(address).status_code == 404


@KINDS
def test_of_many_who_saw_the_same_version_one_changes_it(own_client_on_each: httpx.Client, several: str) -> None:
    address = made(own_client_on_each, several, "raced")
    together = threading.Barrier(6)

    def change(number: int) -> int:
        with httpx.Client(base_url=own_client_on_each.base_url, timeout=60) as client:
            together.wait()
            title = f"By {number}"
            return client.put(address, json=named(several, "raced", title=title), headers=seen(1)).status_code

    with ThreadPoolExecutor(6) as pool:
        assert sorted(pool.map(change, range(6))) == [200, *[412] * 5]
    assert own_client_on_each.get(address).headers["etag"] == '"2"'


@KINDS
def test_pages_walk_all_that_is_kept_and_their_tag_moves(
    own_client_on_each: httpx.Client, check: Check, several: str
) -> None:
    client = own_client_on_each
    before = client.get(f"/v1/{several}")
    assert client.get(f"/v1/{several}", headers={"if-none-match": before.headers["etag"]}).status_code == 304
    for number in range(5):
        made(client, several, f"page-{number}")
    after = client.get(f"/v1/{several}?limit=200", headers={"if-none-match": before.headers["etag"]})
    check(after, f"/v1/{several}", "get")
    assert after.status_code == 200
    found: list[str] = []
    following: str | None = f"/v1/{several}?limit=2"
    while following:
        response = client.get(following)
        following = response.json()["next"]
        assert response.headers.get("link") == (f'<{following}>; rel="next"' if following else None)  # RFC 8288
        found += [one["id"] for one in response.json()[several]]
    assert found == [one["id"] for one in after.json()[several]] and len(set(found)) == len(found)
    assert {f"page-{number}" for number in range(5)} <= set(found)
    other = "plans" if several == "boards" else "boards"
    assert_problem(client.get(f"/v1/{other}", params={"after": "nonsense"}), 422, "bad_cursor", "/query/after")


# --- what cannot be kept -------------------------------------------------------------------------------------


@KINDS
def test_a_document_with_faults_is_refused_with_all_of_them_and_nothing_is_kept(
    own_client_on_each: httpx.Client, check: Check, several: str
) -> None:
    client, address = own_client_on_each, f"/v1/{several}/faulty"
    document = named(several, "other-name", bord={}, board={"deck": "wheel-90-six-window", "whel": "no-such"})
    response = client.put(address, json=document, headers=NEW)
    check(response, path_of(several), "put")
    found = {(fault["code"], fault["pointer"]) for fault in response.json()["errors"]}
    assert {("unknown_key", "/bord"), ("wrong_class", "/board/deck"), ("unknown_seat", "/board/whel")} <= found
    assert ("other_id", "/plan") in found
    assert client.get(address).status_code == 404
    address = made(client, several, "sound")
    assert client.put(address, json=named(several, "sound", bord={}), headers=seen(1)).status_code == 422
    assert client.get(address).headers["etag"] == '"1"'


def test_a_board_says_nothing_of_a_swap(own_client_on_each: httpx.Client) -> None:
    response = own_client_on_each.put("/v1/boards/swap", json={**WHEELS, "plan": "swap", "shelf": []}, headers=NEW)
    problem = assert_problem(response, 422, "not_of_a_board", "/on")
    assert "/v1/plans" in problem["hint"]
    assert_problem(response, 422, "not_of_a_board", "/shelf")


@pytest.mark.parametrize("own", ["Not An Id", "-x", "x" * 81, "%00", "ä"])
@KINDS
def test_an_id_that_cannot_be_kept_is_refused(own_client_on_each: httpx.Client, several: str, own: str) -> None:
    address = f"/v1/{several}/{own}"
    response = own_client_on_each.put(address, json=named(several, own), headers=NEW)
    assert_problem(response, 422, "bad_parameter", f"/path/{several[:-1]}_id")
    assert own_client_on_each.get(address).status_code == 404
    assert own_client_on_each.delete(address, headers=seen(1)).status_code == 404


def test_a_document_that_is_too_long_is_refused_on_either_database(own_client_on_each: httpx.Client) -> None:
    part = {"class": "wheel", "title": "x" * 190, "source": "caliper"}
    document = named("plans", "long", shelf=[part] * 1000)
    assert 200_000 < len(json.dumps(document)) < 1_000_000
    response = own_client_on_each.put("/v1/plans/long", json=document, headers=NEW)
    assert_problem(response, 422, "too_large", "")
    assert own_client_on_each.get("/v1/plans/long").status_code == 404


def test_what_is_kept_may_hold_any_letters(own_client_on_each: httpx.Client) -> None:
    document = named("plans", "letters", title="Ø 90 für den Flußweg — 板 🛹")
    assert own_client_on_each.put("/v1/plans/letters", json=document, headers=NEW).status_code == 201
    assert own_client_on_each.get("/v1/plans/letters").json()["document"] == document


# --- a kept plan is answered ---------------------------------------------------------------------------------


def test_a_kept_plan_is_answered_as_if_it_were_sent(own_client_on_each: httpx.Client, check: Check) -> None:
    client, address = own_client_on_each, made(own_client_on_each, "plans", "asked")
    response = client.post(f"{address}/swap")
    check(response, "/v1/plans/{plan_id}/swap", "post")
    assert response.json() == client.post("/v1/swaps", json=named("plans", "asked")).json()
    bill = client.post(f"{address}/swap", headers={"accept": "text/csv"})
    check(bill, "/v1/plans/{plan_id}/swap", "post")
    assert bill.text.startswith("part,title,count,")
    assert_problem(client.post("/v1/plans/none-such/swap"), 404, "unknown_plan", "/path/plan_id")
    assert_problem(client.post(f"{address}/swap?units=cubit"), 422, "bad_parameter", "/query/units")

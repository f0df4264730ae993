"""Boards, plans and readings that people keep: against the version they saw, all or nothing, from here alone."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import anyio
import httpx
import pytest
from live_server import assert_problem, serving

from api.main import create_app
from api.plan_examples import BOARD, PACK, WHEELS
from api.writes import is_this_machine

Check = Callable[[httpx.Response, str, str], None]
NEW = {"if-none-match": "*"}
KINDS = pytest.mark.parametrize("several", ["boards", "plans"])


def seen(version: int) -> dict[str, str]:
    return {"if-match": f'"{version}"'}


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


# --- readings on parts ---------------------------------------------------------------------------------------


def version_of(client: httpx.Client, part: str) -> int:
    return int(client.get(f"/v1/parts/{part}").json()["version"])


def measure(client: httpx.Client, part: str, readings: object, version: int | None = None) -> httpx.Response:
    headers = seen(version_of(client, part) if version is None else version)
    return client.post(f"/v1/parts/{part}/readings", json=readings, headers=headers)


def test_a_reading_stays_with_its_part_and_settles_the_next_question(
    own_client_on_each: httpx.Client, check: Check
) -> None:
    client, part = own_client_on_each, "wheel-90-unread"
    before = client.get(f"/v1/parts/{part}")
    response = measure(client, part, {"outer_diameter": "88.7 +-0.03 mm", "window_width": "9.13 mm @ruler"})
    check(response, "/v1/parts/{part_id}/readings", "post")
    told = response.json()
    assert response.headers["etag"] == f'"{told["version"]}"' and told["version"] == before.json()["version"] + 1
    diameter, width = told["kept"]
    assert (diameter["port"], width["port"]) == ("", "core")
    assert diameter["reading"]["source"]["kind"] == "caliper" and width["reading"]["source"]["kind"] == "ruler"
    assert diameter["reading"]["source"]["standing"] == "own reading" and not diameter["reading"]["value_assumed"]
    assert (diameter["reading"]["low"], diameter["reading"]["high"]) == (pytest.approx(88.67), pytest.approx(88.73))

    after = client.get(f"/v1/parts/{part}", headers={"if-none-match": before.headers["etag"]})
    assert after.status_code == 200 and after.json()["version"] == told["version"]
    assert after.json()["catalogue_revision"] == told["catalogue_revision"]
    read = {one["attribute"]: one["reading"] for group in after.json()["groups"] for one in group["readings"]}
    assert read["outer_diameter"] == diameter["reading"] and read["window_width"] == width["reading"]
    question = {"parts": [{"id": part}, {"id": "driven-36-six-lug"}]}
    inputs = [
        item
        for joint in client.post("/v1/fits", json=question).json()["joints"]
        for finding in joint["findings"]
        for item in finding["inputs"]
    ]
    assert width["reading"] in [item["reading"] for item in inputs if item["attribute"] == "window_width"]


def test_the_same_place_can_be_measured_again(own_client_on_each: httpx.Client) -> None:
    client, part = own_client_on_each, "wheel-97-six-window"
    for width in ("9.21 +-0.1 mm", "9.22 +-0.1 mm", "9.21 +-0.1 mm"):
        response = measure(client, part, {"core.window_width": width})
        assert response.status_code == 200, response.text
        assert response.json()["kept"][0]["reading"]["nominal"] == float(width.split()[0])


def test_a_reading_that_was_wrong_is_taken_away(own_client_on_each: httpx.Client) -> None:
    client, part = own_client_on_each, "wheel-83-used"
    assert measure(client, part, {"outer_diameter": "81 mm"}).json()["kept"][0]["reading"]["nominal"] == 81
    kept = measure(client, part, {"outer_diameter": "unknown"}).json()["kept"][0]
    assert kept["reading"] is None and kept["text"] == ""
    assert "outer_diameter" in {one["attribute"] for one in client.get(f"/v1/parts/{part}").json()["unread"]}


@pytest.mark.parametrize(
    ("part", "readings", "code", "pointer"),
    [
        ("wheel-90-six-window", {}, "not_a_mapping", ""),
        ("wheel-90-six-window", [], "not_a_mapping", ""),
        ("wheel-90-six-window", 7, "not_a_mapping", ""),
        ("wheel-90-six-window", {"outer_diamter": "90 mm"}, "unknown_attribute", "/outer_diamter"),
        ("wheel-90-six-window", {"rim.window_width": "9 mm"}, "unknown_port", "/rim.window_width"),
        ("wheel-90-six-window", {"outer_diameter": "-90 mm"}, "impossible_value", "/outer_diameter"),
        ("wheel-90-six-window", {"outer_diameter": "90 kg"}, "other_dimension", "/outer_diameter"),
        ("wheel-90-six-window", {"outer_diameter": None}, "empty", "/outer_diameter"),
        ("wheel-90-six-window", {"window_count": "5.5"}, "not_whole", "/window_count"),
        ("wheel-90-six-window", {"a.b.c": 1}, "bad_assignment", "/a.b.c"),
        ("wheel-90-six-window", {"": 1}, "bad_assignment", "/"),
        ("wheel-90-six-window", {f"a{number}": 1 for number in range(101)}, "too_many_readings", ""),
        # ISO 5296: 56 teeth of 5 mm pitch are 280 mm along the pitch line.
        ("belt-5mm-280-15", {"length": "300 mm"}, "contradiction", "/length"),
        ("belt-5mm-280-15", {"teeth.teeth": 60}, "contradiction", "/teeth.teeth"),
    ],
)
def test_a_reading_that_cannot_be_kept_is_refused_and_the_part_stays(
    own_client_on_each: httpx.Client, part: str, readings: object, code: str, pointer: str
) -> None:
    version = version_of(own_client_on_each, part)
    assert_problem(measure(own_client_on_each, part, readings), 422, code, pointer)
    assert version_of(own_client_on_each, part) == version


def test_all_faults_of_readings_come_at_once_and_none_is_kept(own_client_on_each: httpx.Client, check: Check) -> None:
    readings = {"outer_diameter": "-90 mm", "colour": "red", "mass": "300 g"}
    response = measure(own_client_on_each, "wheel-90-six-window", readings)
    check(response, "/v1/parts/{part_id}/readings", "post")
    assert {fault["pointer"] for fault in response.json()["errors"]} >= {"/outer_diameter", "/colour"}
    assert version_of(own_client_on_each, "wheel-90-six-window") == 1


def test_a_part_that_moved_in_the_meantime_is_not_overwritten(own_client_on_each: httpx.Client, check: Check) -> None:
    client, part, reading = own_client_on_each, "wheel-70-solid", {"outer_diameter": "69.5 mm"}
    assert measure(client, part, reading, 1).status_code == 200
    response = measure(client, part, {"outer_diameter": "68 mm"}, 1)
    check(response, "/v1/parts/{part_id}/readings", "post")
    assert_problem(response, 412, "stale", "")
    assert response.headers["etag"] == '"2"' and version_of(client, part) == 2
    address = f"/v1/parts/{part}/readings"
    assert_problem(client.post(address, json=reading), 428, "unseen", "")
    assert_problem(client.post(address, json=reading, headers=NEW), 412, "stale", "")
    missing = client.post("/v1/parts/none-such/readings", json=reading, headers=seen(1))
    assert_problem(missing, 404, "unknown_part", "/path/part_id")


# --- from this machine alone ---------------------------------------------------------------------------------


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

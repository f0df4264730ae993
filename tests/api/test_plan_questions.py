"""Questions about a plan that cannot be answered as they stand: its track, its rate, what is written elsewhere."""

from __future__ import annotations

import json
import time
from collections.abc import Callable

import httpx
import pytest
from live_server import assert_problem

from api.asked import LARGEST_TRACK
from api.guards import LARGEST_BODY, LARGEST_WITH_A_TRACK
from api.plan_examples import PACK, WAY

Check = Callable[[httpx.Response, str, str], None]
NOTHING = {"plan": "nothing-changes", "board": {"truck": "truck-180-44"}}
POSTS = ("/v1/ride", "/v1/ride/views", "/v1/settings", "/v1/jobcard", "/v1/sheets")
DOCTYPE = '<!DOCTYPE gpx [<!ENTITY a "b">]><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"></gpx>'


@pytest.mark.parametrize("path", ["/v1/ride", "/v1/sheets"])
@pytest.mark.parametrize(
    ("track", "named"),
    [
        (DOCTYPE, "DOCTYPE"),
        ("", ""),
        (" ", ""),
        ("PK\x03\x04", "zip"),
        ("distance [m],elevation [m]\n0,1\nfar,2\n", "row 3"),
        ("\x00\ud800", ""),
        ("<gpx>", ""),
    ],
    ids=("doctype", "empty", "blank", "packed", "not a number", "no text", "torn off"),
)
def test_a_track_that_cannot_be_read_is_refused_at_its_place(
    client_on_each: httpx.Client, path: str, track: str, named: str
) -> None:
    body = json.dumps({"plan": NOTHING, "track": track})
    response = client_on_each.post(path, content=body, headers={"content-type": "application/json"})
    assert response.status_code == 422 and response.json()["errors"], response.text
    assert {fault["pointer"] for fault in response.json()["errors"]} == {"/track"}
    assert named in " ".join(f"{fault['detail']} {fault['hint']}" for fault in response.json()["errors"])


def test_a_track_may_be_larger_than_a_plan_and_is_refused_where_it_is_too_large(client: httpx.Client) -> None:
    rows = "".join(f"{5 * number},100\n" for number in range(200_000))
    text = f"distance [m],elevation [m]\n{rows}"
    assert len(text) > LARGEST_BODY
    started = time.monotonic()
    response = client.post("/v1/ride", json={"plan": NOTHING, "track": text})
    assert response.json()["track"] is None, "no board to ride"
    assert time.monotonic() - started < 20.0
    filler = text + "1000000,100\n" * ((LARGEST_TRACK - len(text)) // 12 + 1)
    problem = assert_problem(
        client.post("/v1/ride", json={"plan": NOTHING, "track": filler}), 422, "too_large", "/track"
    )
    assert "8 MB" in problem["detail"]
    whole = client.post("/v1/ride", json={"plan": NOTHING, "track": "x" * LARGEST_WITH_A_TRACK})
    assert "10 MB" in assert_problem(whole, 413, "too_large", "")["detail"]
    elsewhere = client.post("/v1/settings", json={"plan": {**NOTHING, "title": "x" * LARGEST_BODY}})
    assert "1 MB" in assert_problem(elsewhere, 413, "too_large", "")["detail"]


@pytest.mark.parametrize("rate", [-1, -0.001, 10_001, 1e300, True, "60", [], {}])
def test_what_is_no_rate_is_refused_at_its_place(client: httpx.Client, rate: object) -> None:
    for path in ("/v1/jobcard", "/v1/sheets"):
        response = client.post(path, json={"plan": PACK, "rate_mu_per_hour": rate})
        assert response.status_code == 422, response.text
        assert [fault["pointer"] for fault in response.json()["errors"]] == ["/rate_mu_per_hour"]


@pytest.mark.parametrize("word", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_no_number_that_is_none_comes_in(client: httpx.Client, word: str) -> None:
    body = f'{{"plan": {json.dumps(PACK)}, "rate_mu_per_hour": {word}}}'
    response = client.post("/v1/jobcard", content=body, headers={"content-type": "application/json"})
    assert_problem(response, 422, "not_finite")


def test_all_faults_of_a_question_come_at_once(client: httpx.Client, check: Check) -> None:
    body = {
        "plan": {**PACK, "bord": {}, "most_moves": 0},
        "units": "cubit",
        "track": "distance [m],elevation [m]\n0,high\nfar,2\n",
        "rate_mu_per_hour": -5,
        "colour": "red",
    }
    response = client.post("/v1/sheets", json=body)
    check(response, "/v1/sheets", "post")
    found = [(fault["code"], fault["pointer"]) for fault in response.json()["errors"]]
    assert {
        ("unknown_key", "/plan/bord"),
        ("impossible_value", "/plan/most_moves"),
        ("unknown_word", "/units"),
        ("unknown_key", "/colour"),
        ("bad_rate", "/rate_mu_per_hour"),
    } <= set(found)
    assert len([pointer for _, pointer in found if pointer == "/track"]) == 2


@pytest.mark.parametrize(
    ("path", "key", "value"),
    [
        ("/v1/ride", "track", WAY),
        ("/v1/jobcard", "rate_mu_per_hour", 60),
        ("/v1/settings", "units", "inch"),
        ("/v1/sheets", "track", WAY),
    ],
)
def test_what_stands_beside_a_plan_is_not_written_into_it(
    client: httpx.Client, path: str, key: str, value: object
) -> None:
    fault = assert_problem(client.post(path, json={**PACK, key: value}), 422, "unknown_key", f"/{key}")
    assert f'"{key}"' in fault["hint"] and "object of its own" in fault["hint"]


@pytest.mark.parametrize(
    ("path", "key"), [("/v1/settings", "track"), ("/v1/ride", "rate_mu_per_hour"), ("/v1/jobcard", "compare")]
)
def test_what_has_no_meaning_here_is_refused(client: httpx.Client, path: str, key: str) -> None:
    assert_problem(client.post(path, json={"plan": PACK, key: None}), 422, "unknown_key", f"/{key}")


@pytest.mark.parametrize("path", POSTS)
@pytest.mark.parametrize(
    "body", [None, 7, "plan", [], [PACK], {"plan": None}, {"plan": []}, {"plan": {}}, {"units": "mm"}]
)
def test_what_is_no_plan_is_refused_everywhere(client: httpx.Client, path: str, body: object) -> None:
    response = client.post(path, content=json.dumps(body), headers={"content-type": "application/json"})
    assert response.status_code == 422 and response.json()["errors"], response.text
    assert client.get(path).status_code == 405


@pytest.mark.parametrize("path", POSTS)
def test_nothing_is_written_by_asking(own_client_on_each: httpx.Client, path: str) -> None:
    before = own_client_on_each.get("/v1").headers["etag"]
    own_client_on_each.post(path, json=PACK).raise_for_status()
    assert own_client_on_each.get("/v1").headers["etag"] == before

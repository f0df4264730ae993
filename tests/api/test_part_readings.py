"""Readings that people keep on parts of the catalogue: with their source, against the version that was seen."""

from __future__ import annotations

from collections.abc import Callable

import httpx
import pytest
from live_server import NEW, assert_problem, measure, seen, version_of

Check = Callable[[httpx.Response, str, str], None]


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

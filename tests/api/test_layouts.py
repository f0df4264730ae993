"""The layouts of whole boards, a blank plan for each, and the form in which a plan is written."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import httpx
import yaml
from jsonschema import Draft202012Validator
from live_server import assert_problem

from api.plan_examples import PACK, PACK_AND_CHARGER, SHELF, WHEELS

Check = Callable[[httpx.Response, str, str], None]


def test_layouts_are_those_of_whole_boards(client: httpx.Client, check: Check) -> None:
    response = client.get("/v1/layouts")
    check(response, "/v1/layouts", "get")
    ids = [one["id"] for one in response.json()["layouts"]]
    assert "two_wheel_belt" in ids and not {"board", "loose"} & set(ids)
    patterns = {one["id"]: one["seats"] for one in client.get("/v1/patterns").json()["patterns"]}
    assert set(patterns) == {*ids, "board", "loose"}
    for own in ids:
        shown = client.get(f"/v1/layouts/{own}")
        check(shown, "/v1/layouts/{layout_id}", "get")
        assert len(shown.json()["seats"]) == patterns[own]
    for hidden in ("board", "loose", "two_wheel_blet"):
        assert_problem(client.get(f"/v1/layouts/{hidden}"), 404, "unknown_layout", "/path/layout_id")
        assert_problem(client.get(f"/v1/layouts/{hidden}/plan.yaml"), 404, "unknown_layout", "/path/layout_id")


def test_a_seat_is_called_by_each_of_its_names(client: httpx.Client) -> None:
    seats = {one["seat"]: one for one in client.get("/v1/layouts/two_wheel_belt").json()["seats"]}
    names = seats["rear_left_wheel"]["names"]
    assert {"wheel", "rear_wheel", "left_wheel", "rear_left_wheel"} <= set(names)
    for name in names:
        plan = {"plan": "named", "board": {name: "wheel-90-six-window"}, "on": {"truck": "truck-180-44"}}
        assert client.post("/v1/swaps/conflicts", json=plan).status_code == 200


def test_the_blank_plan_of_every_layout_is_a_plan_without_a_fault(client: httpx.Client) -> None:
    for layout in client.get("/v1/layouts").json()["layouts"]:
        response = client.get(client.get(f"/v1/layouts/{layout['id']}").json()["blank_plan"])
        assert response.headers["content-type"] == "text/yaml; charset=utf-8"
        # A YAML 1.1 reader takes the keys on and off for true and false.
        plan = {{True: "on", False: "off"}.get(key, key): value for key, value in yaml.safe_load(response.text).items()}
        assert client.post("/v1/swaps", json=plan).json()["verdict"] == "not_asked"
    tag = response.headers["etag"]
    again = client.get(str(response.request.url), headers={"if-none-match": tag})
    assert again.status_code == 304 and again.headers["etag"] == tag


def test_patterns_are_told_in_bearable_time(client: httpx.Client) -> None:
    client.get("/v1/patterns")  # the first to ask has every layout expanded
    started = time.monotonic()
    assert client.get("/v1/patterns").status_code == 200
    assert time.monotonic() - started < 1.0


def test_the_form_of_a_plan_has_one_source(client: httpx.Client, document: dict[str, Any]) -> None:
    schema = client.get("/v1/schemas/plan-file").json()
    Draft202012Validator.check_schema(schema)
    published = document["components"]["schemas"]["PlanFile"]
    assert published["properties"].keys() == schema["properties"].keys()
    here, there = (
        Draft202012Validator(schema),
        Draft202012Validator({"components": document["components"], "$ref": "#/components/schemas/PlanFile"}),
    )
    for plan in (PACK, PACK_AND_CHARGER, WHEELS, SHELF):
        assert here.is_valid(plan) and there.is_valid(plan)
    for plan in ({**PACK, "bord": {}}, {**PACK, "most_moves": 13}, {**PACK, "board": {"pack": 7}}, {}):
        assert not here.is_valid(plan) and not there.is_valid(plan)

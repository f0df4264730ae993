"""Every way of failing: the status, the one shape, and each fault at its place. A failure never says how we work."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from live_server import FIRST, SECOND, assert_problem

import api.rules

JSON = {"content-type": "application/json"}
PAIR = {"parts": [{"id": FIRST}, {"id": SECOND}]}


def asked(client: httpx.Client, body: bytes | str, headers: dict[str, str] = JSON) -> httpx.Response:
    return client.post("/v1/fits", content=body, headers=headers)


# --- bodies that are no question -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("body", "status", "code"),
    [
        (b"", 400, "not_json"),
        (b"{", 400, "not_json"),
        (b'{"parts": [,]}', 400, "not_json"),
        (b"\xff\xfe{}", 400, "not_utf8"),
        (b'{"parts": [{"id": "caf\xe9"}]}', 400, "not_utf8"),
        (b'{"parts": [], "parts": []}', 400, "duplicate_key"),
        (b"[" * 20_000 + b"]" * 20_000, 400, "too_deep"),
        (b'{"a":' * 20_000 + b"1" + b"}" * 20_000, 400, "too_deep"),
        (b"[" * 40 + b"]" * 40, 400, "too_deep"),
        (b'{"limits": {"a": ' + b"9" * 5_000 + b"}}", 400, "not_a_number"),
        (b'{"limits": {"a": NaN}}', 422, "not_finite"),
        (b'{"limits": {"a": -Infinity}}', 422, "not_finite"),
        (b'{"limits": {"a": 1e999}}', 422, "not_finite"),
        (b"null", 422, "bad_value"),
        (b'"text"', 422, "bad_value"),
        (b"[]", 422, "bad_value"),
        (b"{}", 422, "missing_key"),
        (b'{"questions": []}', 422, "bad_value"),
        (b'{"questions": 7}', 422, "bad_value"),
        (json.dumps({"questions": [PAIR] * 51}).encode(), 422, "bad_value"),
    ],
)
def test_a_body_that_is_no_question(client: httpx.Client, body: bytes, status: int, code: str) -> None:
    assert_problem(asked(client, body), status, code)


@pytest.mark.parametrize("declared", [{}, {"content-type": "text/plain"}, {"content-type": "application/jsonp"}])
def test_a_body_that_is_not_declared_as_json(client: httpx.Client, declared: dict[str, str]) -> None:
    assert_problem(asked(client, json.dumps(PAIR), declared), 415, "not_json")


def test_json_may_be_declared_with_its_character_set(client: httpx.Client) -> None:
    assert asked(client, json.dumps(PAIR), {"content-type": "Application/JSON; charset=utf-8"}).status_code == 200


def test_ten_megabytes_are_refused_whether_their_length_is_declared_or_not(client: httpx.Client) -> None:
    large = b'{"parts": "' + b"x" * 10_000_000 + b'"}'
    assert_problem(asked(client, large), 413, "too_large")
    chunks = (large[start : start + 65_536] for start in range(0, len(large), 65_536))
    assert_problem(client.post("/v1/fits", content=chunks, headers=JSON), 413, "too_large")
    assert asked(client, json.dumps(PAIR)).status_code == 200, "the server lives on"


def test_a_body_just_under_the_limit_is_read(client: httpx.Client) -> None:
    body = json.dumps(PAIR).encode().ljust(1_000_000)
    assert asked(client, body).status_code == 200
    assert_problem(asked(client, body + b" "), 413, "too_large")


@pytest.mark.parametrize("bad", ["\x00", "\x1b", "\x7f", "\x85"])
def test_control_characters_are_named_by_their_number(client: httpx.Client, bad: str) -> None:
    fault = assert_problem(asked(client, json.dumps({"parts": [{"id": f"wheel{bad}"}]})), 422, "control_character")
    assert fault["pointer"] == "/parts/0/id" and f"U+{ord(bad):04X}" in fault["detail"]
    assert_problem(asked(client, json.dumps({"readings": {f"wheel{bad}.x": 1}})), 422, "control_character")


def test_half_a_character_is_refused_in_values_and_keys(client: httpx.Client) -> None:
    assert_problem(asked(client, '{"parts": [{"id": "\\ud800"}]}'), 422, "lone_surrogate", "/parts/0/id")
    assert_problem(asked(client, '{"\\udfff": 1}'), 422, "lone_surrogate")


# --- questions that cannot be understood ---------------------------------------------------------------------


def own(**changes: Any) -> dict[str, Any]:
    part = {"id": "my-wheel", "class": "wheel", "source": "caliper", "readings": {}, **changes}
    return {"parts": [{"part": part}, {"id": SECOND}]}


@pytest.mark.parametrize(
    ("question", "code", "pointer"),
    [
        ({"parts": [{"id": "wheel-90-six-windo"}, {"id": SECOND}]}, "unknown_part", "/parts/0/id"),
        ({"parts": [{"id": "Not An Id"}]}, "bad_value", "/parts/0/id"),
        ({"parts": [{"id": FIRST, "rol": "wheel"}]}, "unknown_key", "/parts/0/rol"),
        ({"parts": [{"id": FIRST, "role": "steering_wheel"}]}, "unknown_role", "/parts/0"),
        ({"parts": [{"id": FIRST, "role": "deck"}]}, "wrong_class", "/parts/0"),
        ({"parts": [{}]}, "missing_key", "/parts/0/id"),
        ({"parts": [{"part": {}, "id": FIRST}]}, "unknown_key", "/parts/0/id"),
        ({"parts": [{"part": None}]}, "not_a_mapping", "/parts/0/part"),
        ({"parts": [7]}, "bad_value", "/parts/0"),
        ({"parts": []}, "bad_value", "/parts"),
        ({**PAIR, "reading": {}}, "unknown_key", "/reading"),
        ({**PAIR, "units": "cubit"}, "unknown_word", "/units"),
        ({**PAIR, "include": ["everything"]}, "unknown_word", "/include/0"),
        ({**PAIR, "limits": {"no.such.limit": 1.0}}, "unknown_limit", "/limits/no.such.limit"),
        ({**PAIR, "limits": {"core_windows.lugs_enter.least": "wide"}}, "bad_value", None),
        ({**PAIR, "limits": {"core_windows.lugs_enter.least": True}}, "bad_value", None),
        ({**PAIR, "readings": {"window_width": "9 mm"}}, "bad_assignment", "/readings/window_width"),
        ({**PAIR, "readings": {"axle.window_width": "9 mm"}}, "which_role", "/readings/axle.window_width"),
        ({**PAIR, "readings": {"wheel.windowwidth": "9 mm"}}, "unknown_attribute", "/readings/wheel.windowwidth"),
        ({**PAIR, "readings": {"wheel.window_width": "9 cubits"}}, "unknown_unit", "/readings/wheel.window_width"),
        ({**PAIR, "readings": {"wheel.window_width": "9 kg"}}, "other_dimension", "/readings/wheel.window_width"),
        (
            {**PAIR, "readings": {"wheel.outer_diameter": "-90 mm"}},
            "impossible_value",
            "/readings/wheel.outer_diameter",
        ),
        (own(readings={"outer_diameter": "-90 mm"}), "impossible_value", "/parts/0/part/readings/outer_diameter"),
        (own(readings={"outer_diamter": "90 mm"}), "unknown_attribute", "/parts/0/part/readings/outer_diamter"),
        (own(ports={"rim": "core-six-20"}), "unknown_port", "/parts/0/part/ports/rim"),
        (own(ports={"core": "core-nine-99"}), "unknown_interface", "/parts/0/part/ports/core"),
        (own(like="wheel-99"), "unknown_part", "/parts/0/part/like"),
        (own(**{"class": "whel"}), "unknown_class", "/parts/0/part/class"),
        (own(source="rumour"), "unknown_source", "/parts/0/part/source"),
        (own(colour="red"), "unknown_key", "/parts/0/part/colour"),
    ],
)
def test_a_question_that_cannot_be_understood(
    client_on_each: httpx.Client, question: dict[str, Any], code: str, pointer: str | None
) -> None:
    assert_problem(client_on_each.post("/v1/fits", json=question), 422, code, pointer)


def test_an_outline_that_crosses_itself_is_refused_at_its_place(client: httpx.Client) -> None:
    bow_tie = {"rings": [[[0, 0], [10, 10], [10, 0], [0, 10]]]}
    response = client.post("/v1/fits", json=own(ports={"core": {"outline": bow_tie}}))
    assert_problem(response, 422, "outline_crosses_itself", "/parts/0/part/ports/core/outline")


def test_all_faults_of_a_question_come_at_once(client: httpx.Client) -> None:
    question = own(readings={"outer_diameter": "-90 mm", "colour": "red"}, ports={"rim": "core-six-20"})
    problem = client.post("/v1/fits", json=question).json()
    assert {fault["code"] for fault in problem["errors"]} == {"impossible_value", "unknown_attribute", "unknown_port"}
    question = {"parts": [{"id": "Bad"}, {"id": FIRST, "rol": ""}], "units": "cubit", "reading": {}}
    assert len(client.post("/v1/fits", json=question).json()["errors"]) == 4


def test_the_nearest_known_name_is_told(client: httpx.Client) -> None:
    fault = assert_problem(client.post("/v1/fits", json={**PAIR, "reading": {}}), 422, "unknown_key")
    assert "readings" in fault["hint"]
    fault = assert_problem(client.get("/v1/parts/wheel-90-six-windo"), 404, "unknown_part", "/path/part_id")
    assert FIRST in fault["hint"]


# --- addresses that are not there ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("address", "code", "pointer"),
    [
        ("/v1/classes/whel", "unknown_class", "/path/class_id"),
        ("/v1/parts/none-such", "unknown_part", "/path/part_id"),
        ("/v1/parts/%00", "unknown_part", "/path/part_id"),
        ("/v1/parts/%ff%fe", "unknown_part", "/path/part_id"),
        ("/v1/parts/..%2f..%2fetc%2fpasswd.yaml", "unknown_path", ""),
        ("/v1/parts/pyproject.yaml", "unknown_part", "/path/part_id"),
        ("/v1/parts/" + "x" * 5_000, "unknown_part", "/path/part_id"),
        ("/v1/parts/none-such/fitting?class=wheel", "unknown_part", "/path/part_id"),
        ("/v1/interfaces/none-such", "unknown_interface", "/path/interface_id"),
        ("/v1/interfaces/none-such/fitting?class=wheel", "unknown_interface", "/path/interface_id"),
        ("/v1/patterns/none-such", "unknown_pattern", "/path/pattern_id"),
        ("/v1/rules/core_windows.lugs_entr", "unknown_rule", "/path/rule_id"),
        (f"/v1/fits/none-such/{SECOND}", "unknown_part", "/path/first"),
        (f"/v1/fits/{FIRST}/none-such", "unknown_part", "/path/second"),
        (f"/v1/fits/{FIRST}/{SECOND}/none.such/drawing.svg", "unknown_rule", "/path/rule_id"),
        ("/v1/parts/", "unknown_path", ""),
        ("/v2/parts", "unknown_path", ""),
        ("/docs", "unknown_path", ""),
        ("/redoc", "unknown_path", ""),
        ("/openapi.json", "unknown_path", ""),
    ],
)
def test_what_is_not_there_is_404(client_on_each: httpx.Client, address: str, code: str, pointer: str) -> None:
    assert_problem(client_on_each.get(address), 404, code, pointer)


@pytest.mark.parametrize(
    ("address", "code", "pointer"),
    [
        ("/v1/parts?limit=0", "bad_parameter", "/query/limit"),
        ("/v1/parts?limit=-1", "bad_parameter", "/query/limit"),
        ("/v1/parts?limit=201", "bad_parameter", "/query/limit"),
        ("/v1/parts?limit=99999999999999999999999", "bad_parameter", "/query/limit"),
        ("/v1/parts?limit=NaN", "bad_parameter", "/query/limit"),
        ("/v1/parts?limmit=5", "unknown_parameter", "/query/limmit"),
        ("/v1/parts?limit=5&limit=6", "repeated_parameter", "/query/limit"),
        ("/v1/parts?class=whel", "unknown_class", "/query/class"),
        ("/v1/parts?interface=none-such", "unknown_interface", "/query/interface"),
        ("/v1/parts?interface=%25", "unknown_interface", "/query/interface"),
        ("/v1/parts?text=%00", "control_character", "/query/text"),
        ("/v1/parts?text=" + "x" * 101, "bad_parameter", "/query/text"),
        ("/v1/classes?x=1", "unknown_parameter", "/query/x"),
        ("/v1/attributes?owner=whel", "unknown_owner", "/query/owner"),
        ("/v1/interfaces?kind=whel", "unknown_kind", "/query/kind"),
        ("/v1/rules?joint=J99", "unknown_joint", "/query/joint"),
        ("/v1/rules?kind=none", "unknown_kind", "/query/kind"),
        (f"/v1/parts/{FIRST}/fitting", "missing_parameter", "/query/class"),
        (f"/v1/parts/{FIRST}/fitting?class=whel", "unknown_class", "/query/class"),
        (f"/v1/parts/{FIRST}/fitting?class=wheel&all=perhaps", "bad_parameter", "/query/all"),
        (f"/v1/parts/{FIRST}?units=cubit", "bad_parameter", "/query/units"),
        (f"/v1/fits/{FIRST}/{SECOND}?with=nonsense", "bad_assignment", "/query/with"),
        (f"/v1/fits/{FIRST}/{SECOND}?with=spacer%3Dnone-such", "unknown_part", "/query/with"),
        (f"/v1/fits/{FIRST}/{SECOND}?with=deck%3D{FIRST}", "wrong_class", "/query/with"),
    ],
)
def test_a_parameter_that_cannot_be_understood(
    client_on_each: httpx.Client, address: str, code: str, pointer: str
) -> None:
    assert_problem(client_on_each.get(address), 422, code, pointer)


def test_a_method_that_a_path_does_not_know_is_405_and_names_those_it_does(client: httpx.Client) -> None:
    response = client.delete("/v1/parts")
    assert_problem(response, 405, "method_not_allowed")
    assert response.headers["allow"] == "GET, HEAD"  # RFC 9110, 15.5.6
    response = client.get("/v1/fits")
    assert_problem(response, 405, "method_not_allowed")
    assert response.headers["allow"] == "POST"
    assert_problem(client.request("BREW", "/v1/parts"), 405, "method_not_allowed")
    response = client.post("/v1/boards/x")  # several routes share this path
    assert_problem(response, 405, "method_not_allowed")
    assert response.headers["allow"] == "DELETE, GET, HEAD, PUT"


def test_a_fault_of_ours_is_500_with_a_number_and_nothing_else(
    client: httpx.Client, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def broken(_: str) -> dict[str, Any]:
        raise RuntimeError("secret of the house")

    monkeypatch.setattr(api.rules, "rule_document", broken)
    response = client.get("/v1/rules/core_windows.lugs_enter")
    assert_problem(response, 500, "our_fault")
    instance = response.json()["instance"]
    assert instance.startswith("urn:uuid:")
    assert "secret" not in response.text and "RuntimeError" not in response.text
    assert instance in caplog.text and "secret of the house" in caplog.text
    assert response.headers["x-content-type-options"] == "nosniff"


def test_one_question_of_a_batch_that_breaks_leaves_the_others_alone(
    client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    import api.fits

    whole = api.fits.fit

    def broken(question: Any, *others: Any) -> Any:
        if question.limits:
            raise RuntimeError("broken")
        return whole(question, *others)

    monkeypatch.setattr(api.fits, "fit", broken)
    batch = {"questions": [PAIR, {**PAIR, "limits": {"core_windows.lugs_enter.least": 0.1}}, PAIR]}
    answers = client.post("/v1/fits", json=batch).json()["answers"]
    assert [answer.get("status") for answer in answers] == [None, 500, None]
    assert answers[1]["errors"][0]["pointer"] == "/questions/1"


def test_every_documented_failure_keeps_to_its_schema(
    client: httpx.Client, check: Callable[[httpx.Response, str, str], None]
) -> None:
    for body, headers in ((b"{", JSON), (b"{}", JSON), (b"{}", {}), (b" " * 1_000_001, JSON)):
        check(asked(client, body, headers), "/v1/fits", "post")
    check(client.get("/v1/parts/none-such"), "/v1/parts/{part_id}", "get")
    check(client.get("/v1/parts?limit=0"), "/v1/parts", "get")

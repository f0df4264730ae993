"""Fit questions over HTTP: answers that are no failures, parts and readings and limits of one's own, batches."""

from __future__ import annotations

from typing import Any

import httpx
from live_server import FIRST, SECOND, Catalogue, assert_problem

PAIR = {"parts": [{"id": FIRST}, {"id": SECOND}]}


def told(client: httpx.Client, question: dict[str, Any]) -> dict[str, Any]:
    response = client.post("/v1/fits", json=question)
    assert response.status_code == 200, response.text
    return dict(response.json())


def finding(answer: dict[str, Any], rule: str) -> dict[str, Any]:
    found = [one for joint in answer["joints"] for one in joint["findings"] if one["rule"] == rule]
    assert found, f"{rule} was not asked"
    return dict(found[0])


def test_a_question_in_a_body_and_in_an_address_has_one_answer(client_on_each: httpx.Client) -> None:
    answer = told(client_on_each, PAIR)
    assert answer == client_on_each.get(f"/v1/fits/{FIRST}/{SECOND}").json()
    assert answer["meets"] and answer["joints"]
    assert answer["cautions"], "the caution stands beside the verdict"


def test_two_parts_that_do_not_meet_are_an_answer(client: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    grip, remote = (sqlite_catalogue[2][name][0].id for name in ("grip_sheet", "remote"))
    answer = client.get(f"/v1/fits/{grip}/{remote}")
    assert answer.status_code == 200
    body = answer.json()
    assert body["verdict"] == "not_asked" and not body["meets"] and body["joints"] == []
    assert {offer["part"] for offer in body["offers"]} == {grip, remote}
    charger = sqlite_catalogue[2]["charger"][0].id
    assert client.get(f"/v1/fits/{FIRST}/{charger}").json()["verdict"] == "not_asked"


def test_one_part_alone_is_asked_nothing(client: httpx.Client) -> None:
    assert told(client, {"parts": [{"id": FIRST}]})["verdict"] == "not_asked"


def test_parts_that_do_not_fit_are_an_answer(client: httpx.Client) -> None:
    found = client.get(f"/v1/parts/{FIRST}/fitting?class=driven_pulley&all=true&limit=200").json()["found"]
    clashing = [one["part"] for one in found if one["verdict"] == "clash"]
    assert clashing
    answer = told(client, {"parts": [{"id": FIRST}, {"id": clashing[0]}]})
    assert answer["as_asked"] == "clash"
    assert [one for joint in answer["joints"] for one in joint["findings"] if one["state"] == "fails"]


def test_a_reading_of_ones_own_takes_the_place_of_the_catalogues(client: httpx.Client) -> None:
    rule = "core_windows.lugs_enter"
    before = finding(told(client, PAIR), rule)
    own = told(client, {**PAIR, "readings": {"wheel.window_width": "2.0 +-0.1 mm"}})
    after = finding(own, rule)
    assert after["state"] == "fails" and own["as_asked"] == "clash"
    assert before["state"] != "fails"
    read = next(one["reading"] for one in after["inputs"] if one["attribute"] == "window_width")
    assert (read["low"], read["nominal"], read["high"]) == (1.9, 2.0, 2.1)
    assert read["source"]["standing"] == "own reading" and not read["value_assumed"]


def test_inches_and_millimetres_are_the_same_reading(client: httpx.Client) -> None:
    # 1 in is 25.4 mm exactly (international yard and pound agreement, 1959).
    mm = told(client, {**PAIR, "readings": {"wheel.window_width": "12.7 +-0.1 mm"}})
    inch = told(client, {**PAIR, "readings": {"wheel.window_width": "1/2 +-0.00393700787 in"}})
    assert mm["verdict"] == inch["verdict"]
    one, other = finding(mm, "core_windows.lugs_enter"), finding(inch, "core_windows.lugs_enter")
    assert abs(one["margin"]["low"] - other["margin"]["low"]) < 1e-6


def test_units_change_the_sentences_and_never_the_numbers(client: httpx.Client) -> None:
    mm, inch = told(client, PAIR), told(client, {**PAIR, "units": "inch"})
    one, other = finding(mm, "core_windows.lugs_enter"), finding(inch, "core_windows.lugs_enter")
    assert one["value"]["nominal"] == other["value"]["nominal"] and one["value"]["unit"] == other["value"]["unit"]
    assert "mm" in one["sentence"] and "mm" not in other["sentence"] and " in" in other["sentence"]


def test_a_limit_of_ones_own_decides_and_is_named(client: httpx.Client) -> None:
    rule = "core_windows.lugs_enter"
    before = finding(told(client, PAIR), rule)
    key = (before["limit"]["low"] or before["limit"]["high"])["key"]
    after = finding(told(client, {**PAIR, "limits": {key: 50.0}}), rule)
    assert after["state"] == "fails" and key in after["overridden"][0] and not before["overridden"]


def test_a_part_of_ones_own_stands_beside_those_of_the_catalogue(client: httpx.Client) -> None:
    own = {"id": "my-wheel", "class": "wheel", "like": FIRST, "source": "caliper", "readings": {"outer_diameter": 88}}
    answer = told(client, {"parts": [{"part": own, "role": "wheel"}, {"id": SECOND}]})
    assert answer["meets"]
    assert "my-wheel" in {piece["part"] for joint in answer["joints"] for piece in joint["pieces"]}
    assert_problem(client.get("/v1/parts/my-wheel"), 404, "unknown_part")


def test_an_answer_says_what_it_was_made_from(client: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    answer = told(client, PAIR)
    assert answer["catalogue_revision"] == sqlite_catalogue[1].revision
    assert answer["rulebook_stamp"] == client.get("/v1/rules").json()["rulebook_stamp"]


def test_a_batch_answers_each_question_in_its_place(client_on_each: httpx.Client) -> None:
    wrong = {"parts": [{"id": FIRST}, {"id": "none-such"}]}
    batch = {"questions": [PAIR, wrong, {"parts": 7}, 7, {**PAIR, "units": "inch"}]}
    answers = told(client_on_each, batch)["answers"]
    assert len(answers) == 5
    assert answers[0] == told(client_on_each, PAIR)
    assert answers[4] == told(client_on_each, {**PAIR, "units": "inch"})
    for index, pointer in ((1, "/questions/1/parts/1/id"), (2, "/questions/2/parts"), (3, "/questions/3")):
        problem = answers[index]
        assert problem["status"] == 422 and problem["type"] == "urn:fitdb:problem:malformed"
        assert [fault["pointer"] for fault in problem["errors"]] == [pointer]


def test_a_role_may_be_given_in_the_address(client: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    answer = client.get(f"/v1/fits/{FIRST}/{SECOND}", params={"with": f"front_wheel={FIRST}"})
    assert answer.status_code == 200
    seats = {piece["seat"] for joint in answer.json()["joints"] for piece in joint["pieces"]}
    assert "wheel" not in seats
    bearing = sqlite_catalogue[2]["bearing"][0].id
    answer = client.get(f"/v1/fits/{FIRST}/{SECOND}", params=[("with", f"bearing={bearing}")])
    assert bearing in {p["part"] for joint in answer.json()["joints"] for p in joint["pieces"]}


def test_words_of_every_answer_are_explained(client: httpx.Client) -> None:
    words = {name: {one["word"] for one in listed} for name, listed in client.get("/v1/words").json()["words"].items()}
    found = client.get(f"/v1/parts/{FIRST}/fitting?class=driven_pulley&all=true&limit=200").json()["found"]
    batch = {"questions": [{"parts": [{"id": FIRST}, {"id": one["part"]}]} for one in found[:50]]}
    for answer in told(client, batch)["answers"]:
        assert answer["verdict"] in words["verdicts"]
        for joint in answer["joints"]:
            for one in joint["findings"]:
                assert one["state"] in words["states"]
                assert one["code"] in words["codes"]
                assert one["severity"] in words["severities"]
                assert one["limit"]["kind"] in words["limit_kinds"]
                for item in one["inputs"]:
                    if item["reading"]:
                        assert item["reading"]["source"]["kind"] in words["source_kinds"]
                        assert item["reading"]["source"]["standing"] in words["standings"]
                        assert item["reading"]["kind"] in words["reading_kinds"]

"""Whole boards over HTTP: answers that are no failures, their shape, the bill, conflicts alone, boards from a shelf."""

from __future__ import annotations

import csv
import io
import json
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
from live_server import assert_problem

import api.swaps
import fitdb.swap
from api.plan_examples import PACK, PACK_AND_CHARGER, SHELF, WHEELS
from api.swaps import MOST_OWNED

Check = Callable[[httpx.Response, str, str], None]
PATHS = ("/v1/swaps", "/v1/swaps/conflicts", "/v1/swaps/builds")
CSV = {"accept": "text/csv"}
# A plan that is quickly answered, and whose parts leave a doubt that one reading ends.
UNREAD: dict[str, Any] = {
    "plan": "unread-windows",
    "board": {"truck": "truck-180-44", "driven_pulley": "driven-36-six-lug", "rear_wheel": "wheel-90-six-window"},
    "on": {"rear_wheel": "wheel-90-six-window-unread"},
}
DONOR: dict[str, Any] = {
    "plan": "a-truck-from-another-board",
    "board": {"truck": "truck-180-44", "rear_wheel": "wheel-90-six-window"},
    "donors": {"old_carver": {"rear_truck": "truck-150-50", "rear_wheel": "wheel-97-six-window"}},
    "on": {"rear_truck": "from old_carver"},
}
NOTHING: dict[str, Any] = {"plan": "nothing-changes", "board": {"truck": "truck-180-44"}}


def told(client: httpx.Client, body: dict[str, Any], path: str = "/v1/swaps") -> dict[str, Any]:
    response = client.post(path, json=body)
    assert response.status_code == 200, response.text
    return dict(response.json())


@pytest.fixture(scope="module")
def mended(client: httpx.Client) -> dict[str, Any]:
    """The answer to a plan that clashes and can be mended; judging it takes a second or two."""
    return told(client, WHEELS)


# --- answers -------------------------------------------------------------------------------------------------


def test_a_plan_alone_and_one_in_an_object_have_one_answer(client_on_each: httpx.Client) -> None:
    alone = told(client_on_each, PACK)
    assert alone == told(client_on_each, {"plan": PACK}) == told(client_on_each, {"plan": PACK, "compare": None})
    assert alone["plan"] == {"id": PACK["plan"], "title": PACK["title"], "layout": "two_wheel_belt"}


def test_a_charger_of_fewer_cells_is_refused_and_another_one_is_another_plan(client: httpx.Client) -> None:
    # A lithium-ion cell is full at 4.2 V (common practice, no source; iron phosphate: 3.65 V): a pack of 12 in series
    # wants 50.4 V, and a charger for 10 gives 42.0 V.
    answer = told(client, PACK)
    assert answer["before"] == "fits" and answer["as_asked"] == answer["verdict"] == "clash"
    assert answer["remedies"] == []
    (conflict,) = answer["conflicts"]
    assert {piece["seat"] for piece in conflict["pieces"]} == {"charger", "pack"} and conflict["refused"]
    finding = conflict["findings"][0]
    assert finding["value"]["nominal"] == pytest.approx(42.0 - 12 * 4.2)
    assert any("50.4 V" in move["sentence"] for plan in answer["instead"] for move in plan["moves"])
    assert answer["cautions"], "the caution stands beside the verdict"


def test_what_mends_a_clash_is_told_with_what_it_costs(mended: dict[str, Any]) -> None:
    answer = mended
    assert (answer["before"], answer["as_asked"], answer["verdict"]) == ("fits", "clash", "fits_with")
    (best,) = answer["remedies"]
    assert best["moves"] and best["bill"] and best["verdict"] == "fits_with"
    assert best["cost"]["minutes"] == sum(move["minutes"] for move in best["moves"])
    assert all(joint["verdict"] != "clash" for joint in best["joints"])
    assert answer["claim"] and answer["complete"]


def test_a_doubt_names_the_reading_that_ends_it_and_the_reading_ends_it(client: httpx.Client) -> None:
    answer = told(client, UNREAD)
    assert answer["verdict"] == "measure"
    assert "window_width" in {one["attribute"] for one in answer["measure_first"]}
    read = {**UNREAD, "readings": {"rear_wheel.window_width": "9.0 +-0.1 mm"}}
    assert told(client, read)["verdict"] == "fits"
    narrow = {**UNREAD, "readings": {"rear_wheel.window_width": "2.0 mm"}}
    assert told(client, narrow, "/v1/swaps/conflicts")["as_asked"] == "clash"


@pytest.mark.parametrize("plan", [PACK, UNREAD, DONOR, NOTHING], ids=lambda plan: str(plan["plan"]))
def test_answers_of_every_kind_are_told_as_documented(client: httpx.Client, check: Check, plan: dict[str, Any]) -> None:
    for path in PATHS:
        response = client.post(path, json=plan)
        assert response.status_code == 200, response.text
        check(response, path, "post")
        assert response.headers["cache-control"] == "no-store" and "etag" not in response.headers


def test_a_plan_that_touches_nothing_is_an_answer(client: httpx.Client) -> None:
    assert told(client, NOTHING)["verdict"] == "not_asked"


def test_units_change_the_sentences_and_never_the_numbers(client: httpx.Client) -> None:
    narrow = {**UNREAD, "readings": {"rear_wheel.window_width": "2.0 mm"}}
    mm, inch = (
        told(client, {"plan": narrow, "units": units}, "/v1/swaps/conflicts")["conflicts"][0]["findings"][0]
        for units in ("mm", "inch")
    )
    assert mm["value"]["nominal"] == inch["value"]["nominal"] and mm["value"]["unit"] == inch["value"]["unit"] == "mm"
    assert " mm" in mm["sentence"] and " in" in inch["sentence"] and " mm" not in inch["sentence"]


def test_two_plans_stand_side_by_side(client: httpx.Client, check: Check) -> None:
    response = client.post("/v1/swaps", json={"plan": PACK, "compare": PACK_AND_CHARGER})
    check(response, "/v1/swaps", "post")
    both = response.json()
    assert both["this"] == told(client, PACK) and both["other"] == told(client, PACK_AND_CHARGER)
    verdicts = next(row for row in both["rows"] if row["what"] == "verdict")
    assert (verdicts["this"], verdicts["other"]) == ("clash", "fits")


def test_the_server_answers_others_while_a_board_is_judged(
    client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The board is judged until somebody else was answered: on the event loop itself that would be never."""
    answered = threading.Event()
    whole = api.swaps.told_of

    def judged(*question: Any) -> dict[str, Any]:
        assert answered.wait(20), "nobody else was answered"
        return whole(*question)

    monkeypatch.setattr(api.swaps, "told_of", judged)
    with ThreadPoolExecutor(1) as pool:
        waiting = pool.submit(told, client, PACK)
        assert client.get("/v1/words").status_code == 200
        answered.set()
        assert waiting.result()["verdict"] == "clash"


# --- the bill ------------------------------------------------------------------------------------------------


def test_the_bill_is_a_table_of_the_best_plan_of_remedies(
    client: httpx.Client, check: Check, mended: dict[str, Any]
) -> None:
    response = client.post("/v1/swaps", json=WHEELS, headers=CSV)
    assert response.status_code == 200
    check(response, "/v1/swaps", "post")
    assert response.headers["content-type"] == "text/csv; charset=utf-8"
    heading, *rows = csv.reader(io.StringIO(response.text))
    assert heading[:4] == ["part", "title", "count", "money [mu]"]
    expected = mended["remedies"][0]["bill"]
    assert [(row[0], int(row[2])) for row in rows] == [(line["part"], line["count"]) for line in expected]


@pytest.mark.parametrize(
    ("accept", "is_csv"),
    [
        ("text/csv", True),
        ("text/csv, */*;q=0.1", True),
        ("application/json;q=0.5, text/csv", True),
        ("application/json, text/csv", False),
        ("text/csv;q=0", False),
        ("text/csv;q=nonsense", False),
        ("*/*", False),
        ("", False),
    ],
)
def test_the_bill_comes_where_it_is_preferred(client: httpx.Client, accept: str, is_csv: bool) -> None:
    # RFC 9110, 12.5.1: the weight decides, and q=0 is not acceptable.
    response = client.post("/v1/swaps", json=PACK, headers={"accept": accept})
    assert response.headers["content-type"].startswith("text/csv") == is_csv


def test_a_bill_is_of_one_plan(client: httpx.Client) -> None:
    response = client.post("/v1/swaps", json={"plan": PACK, "compare": PACK_AND_CHARGER}, headers=CSV)
    assert_problem(response, 422, "one_plan", "/compare")


# --- conflicts and builds ------------------------------------------------------------------------------------


def test_conflicts_alone_are_those_of_the_whole_answer_and_nothing_is_mended(
    client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = told(client, PACK)

    def never(*_: Any, **__: Any) -> None:
        raise AssertionError("a remedy was looked for")

    monkeypatch.setattr(fitdb.swap, "mend", never)
    alone = told(client, PACK, "/v1/swaps/conflicts")
    for key in ("plan", "as_asked", "before", "conflicts", "catalogue_revision", "rulebook_stamp"):
        assert alone[key] == whole[key], key
    assert "remedies" not in alone and "no remedy" not in alone["sentence"]


def test_boards_come_from_what_is_owned_alone(client: httpx.Client) -> None:
    answer = told(client, SHELF, "/v1/swaps/builds")
    assert answer["owned"] == SHELF["shelf"]
    used = {part for board in answer["boards"] for part in board["parts"].values()}
    assert used <= set(SHELF["shelf"])
    order = [("fits", "measure", "clash").index(board["verdict"]) for board in answer["boards"]]
    assert order == sorted(order) and answer["best"] == answer["boards"][0]["verdict"]
    # The pulley has six lugs: of the two wheels the one with five windows would clash.
    assert "wheel-90-six-window" in answer["boards"][0]["parts"].values()


def test_a_whole_shop_is_not_put_together(client: httpx.Client) -> None:
    ids = [one["id"] for one in client.get("/v1/parts", params={"limit": MOST_OWNED + 1}).json()["parts"]]
    response = client.post("/v1/swaps/builds", json={"plan": {"plan": "shop", "shelf": ids}})
    assert_problem(response, 422, "too_many_parts", "/plan")


# --- plans that cannot be read -------------------------------------------------------------------------------


def faulty(**changes: Any) -> dict[str, Any]:
    return {**PACK, **changes}


FAULTS: list[tuple[dict[str, Any], str, str, str]] = [
    # plan, code, pointer, what the person needs to see
    ({}, "missing_key", "", "plan:"),
    ({"board": {}}, "missing_key", "", "plan:"),
    (faulty(plan="My Swap"), "bad_id", "/plan", "a-z"),
    (faulty(bord={}), "unknown_key", "/bord", "board"),
    (faulty(layout="two_wheel_blet"), "unknown_layout", "/layout", "two_wheel_belt"),
    (faulty(board={"rear_whel": "wheel-90-six-window"}), "unknown_seat", "/board/rear_whel", "rear_wheel"),
    (faulty(board={"wheel": "wheel-90-six-windo"}), "unknown_part", "/board/wheel", "wheel-90-six-window"),
    (faulty(board={"deck": "wheel-90-six-window"}), "wrong_class", "/board/deck", "takes: deck"),
    (
        faulty(on={"left_wheel": "wheel-90-six-window", "rear_wheel": "wheel-97-six-window"}),
        "seat_taken",
        "/on/rear_wheel",
        "rear_left_wheel",
    ),
    (faulty(on={"pack": ["pack-6s2p-18650"] * 3}), "list_too_long", "/on/pack", "2 seats"),
    (faulty(on={"pack": "from old_carver"}), "unknown_donor", "/on/pack", "donors"),
    (faulty(wish={"speed": {"target": "20 km/h", "floor": "25 km/h"}}), "below_floor", "/wish/speed", "25"),
    (faulty(tools=["dril"]), "unknown_tool", "/tools/0", "drill"),
    (faulty(most_moves=13), "impossible_value", "/most_moves", "1 to 12"),
    (faulty(readings={"pack.series": "twelve"}), "not_a_number", "/readings/pack.series", "counted"),
    (faulty(readings={"pack.serie": 12}), "unknown_attribute", "/readings/pack.serie", "series"),
    (faulty(limits={"charger_pack.no_such.low": 1.0}), "unknown_limit", "/limits/charger_pack.no_such.low", ""),
    (faulty(units="inch"), "unknown_key", "/units", '{"plan": {...}, "units": "inch"}'),
    (
        {"plan": "belt", "board": {"belt": {"part": "belt-5mm-280-15", "readings": {"length": "300 mm"}}}},
        "contradiction",
        "/board/belt/readings/length",
        "56",
    ),
]


@pytest.mark.parametrize(("plan", "code", "pointer", "named"), FAULTS, ids=[f"{one[1]}{one[2]}" for one in FAULTS])
def test_a_plan_that_cannot_be_read_is_refused_at_its_place(
    client_on_each: httpx.Client, plan: dict[str, Any], code: str, pointer: str, named: str
) -> None:
    problem = assert_problem(client_on_each.post("/v1/swaps/conflicts", json=plan), 422, code, pointer)
    assert named in f"{problem['detail']} {problem['hint']}"
    if plan and code != "missing_key" and "units" not in plan:  # the same within an object, at its place there
        assert_problem(client_on_each.post("/v1/swaps", json={"plan": plan}), 422, code, f"/plan{pointer}")


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("body", [None, 7, "plan", [], [PACK], {"plan": None}, {"plan": []}, {"plan": {}}])
def test_what_is_no_plan_is_refused_everywhere(client: httpx.Client, path: str, body: object) -> None:
    response = client.post(path, content=json.dumps(body), headers={"content-type": "application/json"})
    assert response.status_code == 422 and response.json()["errors"], response.text


def test_all_faults_of_both_plans_come_at_once(client: httpx.Client, check: Check) -> None:
    body = {
        "plan": faulty(bord={}, most_moves=0, limits={"no.such": 1}),
        "compare": {"plan": "Other Swap", "off": ["deck"]},
        "units": "cubit",
        "colour": "red",
    }
    response = client.post("/v1/swaps", json=body)
    check(response, "/v1/swaps", "post")
    found = {(fault["code"], fault["pointer"]) for fault in response.json()["errors"]}
    assert found == {
        ("unknown_key", "/plan/bord"),
        ("impossible_value", "/plan/most_moves"),
        ("unknown_limit", "/plan/limits/no.such"),
        ("bad_id", "/compare/plan"),
        ("nothing_there", "/compare/off/0"),
        ("unknown_word", "/units"),
        ("unknown_key", "/colour"),
    }


@pytest.mark.parametrize("path", PATHS[1:])
def test_nothing_is_compared_where_one_plan_is_asked(client: httpx.Client, path: str) -> None:
    response = client.post(path, json={"plan": PACK, "compare": PACK_AND_CHARGER})
    assert_problem(response, 422, "unknown_key", "/compare")


def test_ten_thousand_parts_are_one_fault_and_quickly_told(client: httpx.Client) -> None:
    body = {"plan": "shop", "shelf": [f"wheel-{number}" for number in range(10_000)]}
    started = time.monotonic()
    response = client.post("/v1/swaps", json=body)
    assert time.monotonic() - started < 5.0
    problem = assert_problem(response, 422, "too_many_parts", "")
    assert "10000" in problem["detail"] and len(response.json()["errors"]) == 1


JUNK: tuple[object, ...] = (None, True, -1, 1e308, "", " ", "x" * 300, "…", [], {}, [[]], {"": 0}, [None, 7], {"a": {}})


def test_whatever_stands_in_a_plan_the_document_says_what_happens(client: httpx.Client, check: Check) -> None:
    """Every value of a plan that uses all sections is exchanged for what nobody would write there."""
    whole: dict[str, Any] = {
        **DONOR,
        "title": "t",
        "layout": "two_wheel_belt",
        "off": ["front_truck"],
        "shelf": ["wheel-90-five-window"],
        "stock": [{"part": "wheel-97-six-window", "money": 12}],
        "buy": "listed",
        "rider": {"mass": "80 kg"},
        "route": {},
        "wish": {"speed": {"floor": "20 km/h"}},
        "tools": ["drill"],
        "keep_as_is": ["front_wheel"],
        "most_moves": 2,
        "readings": {"rear_wheel.outer_diameter": "89 mm"},
        "limits": {},
    }
    client.post("/v1/swaps/conflicts", json=whole).raise_for_status()
    answers = {200: 0, 422: 0}
    for key in whole:
        for junk in JUNK:
            response = client.post("/v1/swaps/conflicts", json={**whole, key: junk})
            check(response, "/v1/swaps/conflicts", "post")
            answers[response.status_code] += 1
    assert answers[422] > 150 and answers[200] > 20, answers

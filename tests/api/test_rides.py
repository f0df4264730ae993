"""What a board will do, its settings, its job card and its sheet over HTTP: shapes, drawings, what stands beside."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any
from xml.etree import ElementTree

import httpx
import pytest
from live_server import NEW, assert_problem

import api.rides
import fitdb.swap
from api.jobcards import policy_of
from api.plan_examples import GEARED, PACK, WAY, WHEELS

Check = Callable[[httpx.Response, str, str], None]
SVG = {"accept": "image/svg+xml"}
NEW_BOARD: dict[str, Any] = {"plan": "a-new-board", "on": {"rear_wheel": "wheel-90-six-window"}}
NOTHING: dict[str, Any] = {"plan": "nothing-changes", "board": {"truck": "truck-180-44"}}
PATHS = ("/v1/ride", "/v1/settings", "/v1/jobcard")
POSTS = (*PATHS, "/v1/ride/views", "/v1/sheets")
KINDS = ("fits", "refused", "fits with remedies", "new board", "nothing changes")
PLANS = dict(zip(KINDS, (GEARED, PACK, WHEELS, NEW_BOARD, NOTHING), strict=True))


def told(client: httpx.Client, path: str, body: object) -> dict[str, Any]:
    response = client.post(path, json=body)
    assert response.status_code == 200, response.text
    return dict(response.json())


def texts_of(document: object) -> Iterator[str]:
    """Every text in a document."""
    if isinstance(document, str):
        yield document
    for inner in document.values() if isinstance(document, dict) else document if isinstance(document, list) else ():
        yield from texts_of(inner)


@pytest.fixture(scope="module")
def ridden(client: httpx.Client) -> dict[str, Any]:
    return told(client, "/v1/ride", {"plan": GEARED, "track": WAY})


# --- shapes --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("kind", KINDS)
def test_answers_of_every_kind_are_told_as_documented(client: httpx.Client, check: Check, path: str, kind: str) -> None:
    response = client.post(path, json=PLANS[kind])
    assert response.status_code == 200, response.text
    check(response, path, "post")
    assert response.headers["cache-control"] == "no-store" and "etag" not in response.headers
    assert "NaN" not in response.text and "Infinity" not in response.text
    assert response.json()["cautions"], "the caution stands in the answer"


def test_a_plan_alone_and_one_in_an_object_have_one_answer_on_each_database(client_on_each: httpx.Client) -> None:
    for path in PATHS:
        alone = told(client_on_each, path, PACK)
        assert alone == told(client_on_each, path, {"plan": PACK, "units": "mm"})
        assert alone["plan"]["id"] == PACK["plan"]


def test_every_figure_has_a_unit_a_range_and_a_source(ridden: dict[str, Any]) -> None:
    figures = ridden["figures"]
    groups = [group["id"] for group in ridden["groups"]]
    assert len(figures) > 20 and {one["group"] for one in figures} <= set(groups)
    for one in [*figures, *ridden["track"]["figures"]]:
        for board in ridden["boards"]:
            value = one[board]
            if value is None:
                assert one["unknown"], one["id"]
            else:
                assert value["unit"] == one["unit"] and value["text"]
                assert value["low"] <= value["nominal"] <= value["high"]
        assert one["built"] is None, "the answer changes nothing of this plan"
    assert all(one["source"] for one in figures)
    # 40 over 15 teeth in place of 36 over 15: with the wheels up it turns 36/40 as fast, kinematics.
    bench = next(one for one in figures if one["id"] == "unloaded_speed")
    assert bench["as_asked"]["nominal"] / bench["before"]["nominal"] == pytest.approx(36 / 40)
    assert bench["difference"]["nominal"] == pytest.approx(-10.0)


def test_units_change_the_sentences_and_never_the_numbers(client: httpx.Client, ridden: dict[str, Any]) -> None:
    inch = told(client, "/v1/ride", {"plan": GEARED, "track": WAY, "units": "inch"})
    for mine, other in zip(ridden["figures"], inch["figures"], strict=True):
        assert mine["before"] is None or mine["before"]["nominal"] == other["before"]["nominal"]
        if mine["unit"] == "mm":
            assert " mm" in mine["sentence"] and " in" in other["sentence"] and " mm" not in other["sentence"]


def test_a_track_is_told_with_its_length_and_climb(client: httpx.Client, ridden: dict[str, Any]) -> None:
    way = ridden["track"]
    assert way["length_m"] == pytest.approx(1200.0) and 10.0 < way["ascent_m"] <= 13.0
    assert {"track_energy", "track_range"} <= {one["id"] for one in way["figures"]}
    alone = told(client, "/v1/ride", GEARED)
    assert alone["track"] is None
    # Which changes are found may end with the time of a busy machine; nothing else does.
    again = told(client, "/v1/ride", {"plan": GEARED, "track": None})
    assert {**again, "changes": []} == {**alone, "changes": []}
    assert {**alone, "changes": []} == {**ridden, "track": None, "changes": []}, "the track moves no other figure"


def test_a_gpx_text_is_read_as_it_is(client: httpx.Client) -> None:
    # GPX 1.1 schema; one minute of latitude is 1852 m within half a per cent (the nautical mile).
    points = "".join(
        f'\n\t<trkpt lat="{50 + step / 60 / 20:.8f}" lon="8.0"><ele>100</ele></trkpt>' for step in range(21)
    )
    text = '<?xml version="1.0"?>\r\n<gpx version="1.1" creator="us" xmlns="http://www.topografix.com/GPX/1/1">'
    text += f"<trk><name>Over the bridge ä</name><trkseg>{points}\n</trkseg></trk></gpx>"
    way = told(client, "/v1/ride", {"plan": GEARED, "track": text})["track"]
    assert "Over the bridge ä" in way["title"] and way["length_m"] == pytest.approx(1852.0, rel=0.005)


def test_a_settings_sheet_says_whether_it_may_be_used(client: httpx.Client) -> None:
    answer = told(client, "/v1/settings", GEARED)
    assert answer["usable"] and answer["state"] == "ready"
    for line in answer["lines"]:
        assert line["source"] and line["sentence"]
        assert line["printed"] is None or line["unit"], line["id"]
        assert line["group"] in {group["id"] for group in answer["groups"]}
    refused = told(client, "/v1/settings", PACK)
    assert not refused["usable"] and refused["state"] == "clash" and refused["until"]


def test_a_rate_adds_a_quote_of_labour_and_parts(client: httpx.Client) -> None:
    card = told(client, "/v1/jobcard", {"plan": GEARED, "rate_mu_per_hour": 60})
    quote, minutes = card["quote"], card["minutes"]
    labour = [line for line in quote["lines"] if line["kind"] == "labour"]
    # At 60 mu per hour a minute is one mu.
    assert sum(line["money_mu"]["usual"] for line in labour) == pytest.approx(minutes["usual"], abs=len(labour))
    assert quote["rate_mu_per_hour"] == 60 and quote["total"]["unit"] == "mu"
    assert told(client, "/v1/jobcard", GEARED) == {**card, "quote": None}
    assert [step["number"] for step in card["steps"]] == list(range(1, len(card["steps"]) + 1))
    keys = [step["key"] for step in card["steps"]]
    for at, step in enumerate(card["steps"]):
        assert set(step["needs"]) <= set(keys[:at]), "what a step needs comes before it"
    free = told(client, "/v1/jobcard", {"plan": GEARED, "rate_mu_per_hour": 0})
    assert all(line["money_mu"]["high"] == 0 for line in free["quote"]["lines"] if line["kind"] == "labour")


def test_a_plan_that_clashes_gets_no_card(client: httpx.Client) -> None:
    card = told(client, "/v1/jobcard", {"plan": PACK, "rate_mu_per_hour": 60})
    assert card["withheld"] == "clash" and card["why"]
    assert card["steps"] == [] and card["quote"] is None


@pytest.mark.parametrize("path", POSTS)
def test_the_server_answers_others_meanwhile(client: httpx.Client, monkeypatch: pytest.MonkeyPatch, path: str) -> None:
    """The plan is judged until somebody else was answered: on the event loop itself that would be never."""
    answered = threading.Event()
    whole = fitdb.swap.swap

    def judged(*question: Any, **more: Any) -> Any:
        assert answered.wait(20), "nobody else was answered"
        return whole(*question, **more)

    for module in (api.rides, api.settings_sheets, api.jobcards):
        monkeypatch.setattr(module, "swap", judged)
    with ThreadPoolExecutor(1) as pool:
        waiting = pool.submit(client.post, path, json=NOTHING)
        assert client.get("/v1/words").status_code == 200
        answered.set()
        assert waiting.result().status_code == 200


# --- drawings ------------------------------------------------------------------------------------------------


def test_every_chart_of_an_answer_comes_as_a_drawing(
    client: httpx.Client, check: Check, ridden: dict[str, Any]
) -> None:
    charts = [*ridden["charts"], *ridden["track"]["charts"]]
    assert {"force", "track_volts"} <= {chart["id"] for chart in charts}
    for chart in charts:
        body = {"plan": GEARED, "track": WAY}
        response = client.post("/v1/ride", params={"chart": chart["id"]}, json=body, headers=SVG)
        check(response, "/v1/ride", "post")
        assert response.headers["content-type"].startswith("image/svg+xml")
        assert response.headers["cache-control"] == "no-store"
        root = ElementTree.fromstring(response.text)
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        assert root.findtext("{http://www.w3.org/2000/svg}title") == chart["title"]


@pytest.mark.parametrize(
    ("accept", "chart", "status", "media_type"),
    [
        # RFC 9110, 12.5.1: the most specific range counts, and without the header anything is taken.
        ("", "force", 200, "image/svg+xml"),
        ("*/*", "force", 200, "image/svg+xml"),
        ("image/*", "force", 200, "image/svg+xml"),
        ("application/json, image/svg+xml;q=0.1", "force", 200, "image/svg+xml"),
        ("application/json", "force", 422, "application/problem+json"),
        ("*/*, image/svg+xml;q=0", "force", 422, "application/problem+json"),
        ("image/svg+xml", "", 422, "application/problem+json"),
        ("*/*", "", 200, "application/json"),
        ("application/json, image/svg+xml", "", 200, "application/json"),
    ],
)
def test_a_chart_comes_where_it_is_named_and_taken(
    client: httpx.Client, accept: str, chart: str, status: int, media_type: str
) -> None:
    response = client.post("/v1/ride", params={"chart": chart}, json=PACK, headers={"accept": accept})
    assert (response.status_code, response.headers["content-type"].split(";")[0]) == (status, media_type)
    if status == 422:
        code = "not_accepted" if chart else "missing_parameter"
        assert "image/svg+xml" in assert_problem(response, 422, code, "/query/chart")["hint"] or not chart


def test_a_chart_that_is_not_there_is_refused_with_the_nearest(client: httpx.Client) -> None:
    problem = assert_problem(client.post("/v1/ride?chart=forse", json=PACK, headers=SVG), 422, "unknown_chart")
    assert problem["pointer"] == "/query/chart" and "`force`" in problem["hint"] and "volts" in problem["hint"]
    without = client.post("/v1/ride?chart=track_volts", json=PACK, headers=SVG)
    assert_problem(without, 422, "unknown_chart", "/query/chart")


def test_a_board_is_drawn_to_scale_from_either_side(client: httpx.Client, check: Check) -> None:
    drawn = {}
    for view in ("side", "plan"):
        for board in ("before", "as_asked", "built"):
            response = client.post("/v1/ride/views", params={"view": view, "board": board}, json=GEARED)
            check(response, "/v1/ride/views", "post")
            assert response.status_code == 200 and response.headers["cache-control"] == "no-store"
            drawn[view, board] = ElementTree.fromstring(response.text)
    assert client.post("/v1/ride/views", json=GEARED).text == client.post("/v1/ride/views?view=side", json=GEARED).text
    # The wheels of this board stand 800 mm apart (its deck's reading), and a drawing to scale has one unit a mm.
    for (view, _), root in drawn.items():
        assert any("800 mm" in (text.text or "") for text in root.iter("{http://www.w3.org/2000/svg}text")), view
        assert float(root.get("width", "0")) > 800.0
    side = [ElementTree.tostring(drawn["side", board]) for board in ("before", "as_asked", "built")]
    assert side[0] != side[1], "another pulley stands nearer to the ground"
    assert side[1] == side[2], "the answer changes nothing"


def test_a_board_of_which_too_little_is_known_is_a_sentence_in_a_frame(client: httpx.Client) -> None:
    for view, lacking in (("side", "how high its axles stand"), ("plan", "its wheelbase is not among the readings")):
        text = client.post("/v1/ride/views", params={"view": view}, json=PACK).text
        assert lacking in (ElementTree.fromstring(text).findtext("{http://www.w3.org/2000/svg}desc") or "")


def test_no_remedy_is_looked_for_to_draw_the_board_as_it_stands(
    client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def never(*_: Any, **__: Any) -> None:
        raise AssertionError("a remedy was looked for")

    monkeypatch.setattr(fitdb.swap, "mend", never)
    for board in ("before", "as_asked"):
        assert client.post("/v1/ride/views", params={"board": board}, json=WHEELS).status_code == 200


def test_what_cannot_be_drawn_is_refused_at_its_place(client: httpx.Client) -> None:
    post = client.post
    assert_problem(post("/v1/ride/views?view=front", json=PACK), 422, "bad_parameter", "/query/view")
    assert_problem(post("/v1/ride/views?board=after", json=PACK), 422, "bad_parameter", "/query/board")
    assert_problem(post("/v1/ride/views?board=before", json=NEW_BOARD), 422, "no_such_board", "/query/board")
    assert_problem(post("/v1/ride/views?chart=force", json=PACK), 422, "unknown_parameter", "/query/chart")
    assert_problem(post("/v1/ride/views", json={"plan": PACK, "track": "way"}), 422, "unknown_key", "/track")


# --- everything in one answer --------------------------------------------------------------------------------


def test_what_is_included_is_what_its_own_resource_tells_and_the_plan_is_judged_once(
    client: httpx.Client, check: Check, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged: list[object] = []
    whole = api.swaps.swap

    def counted(plan: Any, *question: Any) -> Any:
        judged.append(plan)
        return whole(plan, *question)

    monkeypatch.setattr(api.swaps, "swap", counted)
    response = client.post("/v1/swaps?include=ride,settings,jobcard", json=GEARED)
    check(response, "/v1/swaps", "post")
    assert len(judged) == 1
    answer = response.json()
    for word in ("ride", "settings", "jobcard"):
        assert answer.pop(word) == told(client, f"/v1/{word}", GEARED), word
    assert answer == told(client, "/v1/swaps", GEARED)


def test_only_what_is_named_is_included_once_and_on_both_sides(client: httpx.Client, check: Check) -> None:
    for include in ("settings", "settings, settings", ",settings,"):
        answer = client.post("/v1/swaps", params={"include": include}, json=PACK).json()
        assert "settings" in answer and not {"ride", "jobcard"} & answer.keys()
    assert not {"ride", "settings", "jobcard"} & told(client, "/v1/swaps?include=", PACK).keys()
    both = client.post("/v1/swaps?include=jobcard", json={"plan": PACK, "compare": NOTHING})
    check(both, "/v1/swaps", "post")
    assert both.json()["this"]["jobcard"]["withheld"] == "clash"
    assert both.json()["other"]["jobcard"]["withheld"] == "nothing_changes"


def test_what_cannot_be_included_is_refused_with_the_nearest_word(client: httpx.Client) -> None:
    response = client.post("/v1/swaps?include=rides,jobcard,bill", json=PACK)
    faults = {fault["detail"]: fault for fault in response.json()["errors"]}
    assert response.status_code == 422 and len(faults) == 2
    assert all(fault["code"] == "unknown_word" and fault["pointer"] == "/query/include" for fault in faults.values())
    hints = {fault["detail"].split("`")[1]: fault["hint"] for fault in faults.values()}
    assert hints["rides"] == "Did you mean `ride`?" and "settings" in hints["bill"]
    bill = client.post("/v1/swaps?include=ride", json=PACK, headers={"accept": "text/csv"})
    assert_problem(bill, 422, "not_in_a_bill", "/query/include")


# --- kept plans ----------------------------------------------------------------------------------------------


def test_a_kept_plan_is_answered_as_if_it_were_sent(own_client_on_each: httpx.Client, check: Check) -> None:
    client, address = own_client_on_each, "/v1/plans/ridden"
    document = {**PACK, "plan": "ridden"}
    client.put(address, json=document, headers=NEW).raise_for_status()
    for word in ("ride", "settings", "jobcard"):
        response = client.post(f"{address}/{word}")
        check(response, f"/v1/plans/{{plan_id}}/{word}", "post")
        assert response.json() == told(client, f"/v1/{word}", document)
        assert response.headers["cache-control"] == "no-store"
        assert_problem(client.post(f"/v1/plans/none-such/{word}"), 404, "unknown_plan", "/path/plan_id")
        assert_problem(client.post(f"{address}/{word}?units=cubit"), 422, "bad_parameter", "/query/units")
    whole = client.post(f"{address}/swap?include=settings")
    check(whole, "/v1/plans/{plan_id}/swap", "post")
    assert whole.json()["settings"] == told(client, "/v1/settings", document)
    assert_problem(client.post(f"{address}/swap?include=setting"), 422, "unknown_word", "/query/include")
    drawn = client.post(f"{address}/ride?chart=force", headers=SVG)
    check(drawn, "/v1/plans/{plan_id}/ride", "post")
    assert drawn.text.startswith("<svg ")
    for rate in ("-1", "nan", "inf", "1e9", "much"):
        response = client.post(f"{address}/jobcard", params={"rate_mu_per_hour": rate})
        assert_problem(response, 422, "bad_parameter", "/query/rate_mu_per_hour")
    client.put("/v1/plans/geared", json={**GEARED, "plan": "geared"}, headers=NEW).raise_for_status()
    assert client.post("/v1/plans/geared/jobcard?rate_mu_per_hour=60").json()["quote"]["rate_mu_per_hour"] == 60


# --- the sheet -----------------------------------------------------------------------------------------------


def test_the_sheet_is_one_page_with_everything_on_it(client: httpx.Client, check: Check) -> None:
    response = client.post("/v1/sheets", json={"plan": GEARED, "track": WAY, "rate_mu_per_hour": 60})
    check(response, "/v1/sheets", "post")
    assert response.status_code == 200 and response.headers["content-type"] == "text/html; charset=utf-8"
    assert response.headers["cache-control"] == "no-store"
    assert response.text.startswith("<!doctype html>") and GEARED["title"] in response.text
    for word in ("way to stop", "A lithium pack", "have a qualified person look at it", "<svg "):
        assert word in response.text, word
    # CSP Level 3, 2.3.1: the page's own style is let through by its hash, and no other.
    policy = response.headers["content-security-policy"]
    assert policy == policy_of(response.text) and "sha256-" in policy and "unsafe" not in policy
    assert "<script" not in response.text


def test_what_is_typed_into_a_plan_stays_text_on_the_sheet(client: httpx.Client) -> None:
    page = client.post("/v1/sheets", json={**NOTHING, "title": "</style><script>x</script><b>"}).text
    assert "<script>" not in page and "<b>" not in page.partition("</head>")[0]


# --- for whoever writes a front end --------------------------------------------------------------------------


@pytest.mark.parametrize("path", PATHS)
def test_no_key_hides_a_number_without_a_unit(document: dict[str, Any], path: str) -> None:
    """Every number is a count, an id's order, a share, or says its unit: in its name, its description or beside it."""
    schemas = document["components"]["schemas"]
    schema = document["paths"][path]["post"]["responses"]["200"]["content"]["application/json"]["schema"]
    waiting, seen = [schema["$ref"].rsplit("/", 1)[1]], set()
    while waiting:
        name = waiting.pop()
        if name in seen or name not in schemas:
            continue
        seen.add(name)
        shape = schemas[name]
        text = json.dumps(shape)
        waiting += [ref.split('"', 1)[0].rsplit("/", 1)[1] for ref in text.split('"$ref": "')[1:]]
        for key, value in shape.get("properties", {}).items():
            kinds = {value.get("type"), *(one.get("type") for one in value.get("anyOf", []))}
            if "number" not in kinds:
                continue
            told_by_name = key.endswith(("_mu", "_m", "_km", "_hours", "_n_m", "_lbf_in", "_per_hour"))
            told_by_words = any(word in value.get("description", "") for word in ("unit", "per cent", "0 to 1"))
            assert told_by_name or told_by_words or "unit" in shape["properties"] or key in ("percent", "minutes"), (
                name,
                key,
            )
    assert len(seen) > 5


def test_no_answer_says_what_nobody_can_know(client: httpx.Client, ridden: dict[str, Any]) -> None:
    answers = [ridden, *(told(client, path, GEARED) for path in ("/v1/settings", "/v1/jobcard"))]
    for text in texts_of(answers):
        words = {word.strip(".,;:()").lower() for word in text.split()}
        assert not {"safe", "legal", "nan", "inf"} & words, text

"""GET /v1/parts: readings as conditions, what fits a part or a seat, orders, counts, pages while parts are added."""

from __future__ import annotations

import dataclasses
import random
from collections.abc import Iterator
from typing import Any
from urllib.parse import urlencode

import httpx
import pytest
from large_catalogues import own_database
from live_server import FIRST, SECOND, Catalogue, assert_problem, seen, serving, version_of

from api.main import create_app
from api.part_filters import OWN
from api.plan_examples import BOARD
from fitdb.board import BoardJudge
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_document
from fitdb.catalogue.session import open_catalogue, writing
from fitdb.catalogue.write import save_part
from fitdb.demo import write_demo
from fitdb.intake.part_filters import filter_names
from fitdb.model.joint import Piece
from fitdb.rules import rulebook

Both = tuple[httpx.Client, httpx.Client, list[str]]


@pytest.fixture(scope="module")
def both(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Both]:
    """The same invented catalogue behind a server on SQLite and one on PostgreSQL, and their addresses."""
    folder = tmp_path_factory.mktemp("listed")
    with (
        own_database("sqlite", folder, request) as sqlite,
        own_database("postgresql", folder, request) as postgresql,
    ):
        for url in (sqlite, postgresql):
            write_demo(url, 1_500, 4)
        with (
            serving(create_app(sqlite)) as first,
            serving(create_app(postgresql)) as second,
            httpx.Client(base_url=first, timeout=60) as one,
            httpx.Client(base_url=second, timeout=60) as other,
        ):
            yield one, other, [sqlite, postgresql]


def walked(client: httpx.Client, address: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    following: str | None = address
    for _ in range(400):
        assert following is not None
        response = client.get(following)
        assert response.status_code == 200, response.text
        found += response.json()["parts"]
        following = response.json()["next"]
        if following is None:
            return found
    raise AssertionError("the pages do not end")


# --- readings ------------------------------------------------------------------------------------------------


def test_sizes_in_any_unit_narrow_the_list(client: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    """1 in is 25.4 mm by definition (International Yard and Pound Agreement, 1959)."""
    wheels = sqlite_catalogue[2]["wheel"]
    sizes = {part.id: part.readings["outer_diameter"] for part in wheels if "outer_diameter" in part.readings}
    expected = sorted(own for own, one in sizes.items() if 80 <= one.nominal <= 91.44)  # type: ignore[union-attr]
    assert expected
    for asked in ("80mm..91.44mm", "80 mm..91.44 mm", "8cm..3.6in", "80 … 91.44", "8 cm to 3.6 in"):
        query = urlencode({"class": "wheel", "outer_diameter": asked, "limit": 200})
        told = client.get(f"/v1/parts?{query}").json()
        assert [one["id"] for one in told["parts"] if one["class"] == "wheel"] == expected, asked
        assert told["asked"] == [{"of": "outer_diameter", "low": 80.0, "high": 91.44, "unit": "mm", "words": []}]


def test_one_end_may_be_open_and_one_size_is_that_size(client: httpx.Client) -> None:
    def ids(asked: str) -> set[str]:
        return {
            one["id"] for one in walked(client, f"/v1/parts?{urlencode({'class': 'wheel', 'outer_diameter': asked})}")
        }

    whole = ids("..1 m")
    assert ids("90mm..") | ids("..90mm") == whole and ids("90mm..") & ids("..90mm") == ids("90") == ids("9 cm")
    assert FIRST in ids("90") and ids("90 ± 5 mm") == ids("85..95 mm")


def test_a_size_at_a_port_is_asked_for_by_its_port(client: httpx.Client) -> None:
    told = walked(client, "/v1/parts?class=wheel&core.window_width=9mm&core.window_count=6")
    assert FIRST in {one["id"] for one in told}
    for one in told:
        core = client.get(f"/v1/interfaces/{one['ports']['core']}").json()
        read_there = {group["attribute"]: group["reading"] for group in core["readings"]}
        assert read_there["window_width"]["nominal"] == 9.0 and read_there["window_count"]["values"] == [6]


def test_a_word_matches_when_every_word_still_possible_is_wanted(
    client: httpx.Client, sqlite_catalogue: Catalogue
) -> None:
    decks = [part for own in ("deck", "drop_through_deck", "flush_deck") for part in sqlite_catalogue[2][own]]
    styles = {part.id: part.readings["mount_style"].possible for part in decks if "mount_style" in part.readings}  # type: ignore[union-attr]
    for asked in ("top", "top|drop_through", "flush"):
        found = {one["id"] for one in walked(client, f"/v1/parts?{urlencode({'class': 'deck', 'mount_style': asked})}")}
        assert found == {own for own, words in styles.items() if words <= set(asked.split("|"))}, asked


def test_what_nobody_read_matches_only_on_request(client: httpx.Client) -> None:
    unread = "wheel-90-six-window-unread"
    plain = {one["id"] for one in walked(client, "/v1/parts?class=wheel&core.window_width=9mm")}
    kept = {one["id"] for one in walked(client, "/v1/parts?class=wheel&core.window_width=9mm&unread=true")}
    assert unread not in plain and unread in kept and plain <= kept


@pytest.mark.parametrize(
    ("query", "code", "pointer", "said"),
    [
        ("outer_diamter=80", "unknown_parameter", "/query/outer_diamter", "`outer_diameter`"),
        ("class=wheel&window_width=9", "unknown_parameter", "/query/window_width", "`core.window_width`"),
        ("class=motor&outer_diameter=9", "unknown_parameter", "/query/outer_diameter", ""),
        ("class=wheel&core.windw_width=9", "unknown_parameter", "/query/core.windw_width", "`core.window_width`"),
        ("class=wheel&outer_diameter=80kg", "other_dimension", "/query/outer_diameter", "mm"),
        ("class=wheel&outer_diameter=80 parsec", "unknown_unit", "/query/outer_diameter", ""),
        ("class=wheel&outer_diameter=", "bad_filter", "/query/outer_diameter", ""),
        ("class=wheel&outer_diameter=..", "bad_filter", "/query/outer_diameter", ""),
        ("class=wheel&outer_diameter=nan..80", "not_a_number", "/query/outer_diameter", ""),
        ("class=wheel&outer_diameter=90..80", "bad_filter", "/query/outer_diameter", ""),
        ("class=wheel&outer_diameter=80&outer_diameter=90", "repeated_parameter", "/query/outer_diameter", "Keep"),
        ("class=deck&mount_style=sideways", "unknown_word", "/query/mount_style", ""),
        ("by=colour", "unknown_order", "/query/by", ""),
        ("class=wheel&by=core.window_width", "unknown_order", "/query/by", ""),
        ("class=wheel&facet=colour", "unknown_facet", "/query/facet", ""),
        (f"fits={FIRST}", "missing_parameter", "/query/class", "class"),
        ("fits=none-such&class=wheel", "unknown_part", "/query/fits", ""),
        (f"fits={FIRST}&class=charger&with=nowhere=x", "bad_role", "/query/with", ""),
        ("board=none-such&seat=wheel", "unknown_board", "/query/board", ""),
        ("board=none-such", "missing_parameter", "/query/seat", ""),
        ("seat=wheel", "missing_parameter", "/query/seat", ""),
        (f"fits={FIRST}&class=wheel&plan=x&seat=y", "too_many", "/query/fits", ""),
        ("with=wheel=x", "missing_parameter", "/query/with", "Name a part"),
        ("after=x", "bad_cursor", "/query/after", ""),
        ("class=wheel&text=%00", "control_character", "/query/text", ""),
    ],
)
def test_a_question_with_a_fault_says_where_and_what_to_do(
    client: httpx.Client, query: str, code: str, pointer: str, said: str
) -> None:
    response = client.get(f"/v1/parts?{query}")
    assert response.status_code == 422, response.text
    assert response.status_code != 500
    found = [one for one in response.json()["errors"] if one["pointer"] == pointer]
    assert found, response.text
    assert said in found[0]["hint"] + found[0]["detail"]


def test_no_attribute_of_the_shipped_catalogue_is_called_like_a_parameter(sqlite_catalogue: Catalogue) -> None:
    assert not set(OWN) & set(filter_names(sqlite_catalogue[1].table, ()))


# --- what fits -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("part", "part_class"),
    [
        (SECOND, "wheel"),
        (FIRST, "driven_pulley"),
        ("motor-63x74-190", "motor_mount"),
        ("truck-180-50", "deck"),
        ("belt-5mm-270-15", "driven_pulley"),
    ],
)
def test_what_fits_is_what_the_whole_class_judged_one_by_one_says(
    client: httpx.Client, sqlite_catalogue: Catalogue, part: str, part_class: str
) -> None:
    if part not in {one.id for some in sqlite_catalogue[2].values() for one in some}:
        part = sqlite_catalogue[2][part.split("-")[0]][0].id
    whole: dict[str, tuple[str, str]] = {}
    address: str | None = f"/v1/parts/{part}/fitting?class={part_class}&all=true&limit=200"
    while address:
        told = client.get(address).json()
        whole |= {one["part"]: (one["verdict"], one["rule"]) for one in told["found"]}
        address = told["next"]
    assert whole
    for query, expected in (
        ("&all=true", whole),
        ("", {own: said for own, said in whole.items() if said[0] != "clash"}),
    ):
        for limit in (3, 200):
            found = walked(client, f"/v1/parts?class={part_class}&fits={part}&limit={limit}{query}")
            assert {one["id"]: (one["verdict"], one["rule"]) for one in found} == expected
            assert [one["id"] for one in found] == sorted(expected)


def test_each_part_is_told_in_its_own_name_though_another_was_judged(both: Both) -> None:
    """Parts that are alike in all that rules read are judged once: the sentence must still name the right one."""
    told = walked(both[0], f"/v1/parts?class=wheel&fits={SECOND}&limit=50")
    assert len(told) > 20
    for one in told:
        others = [own["id"] for own in told if own["id"] != one["id"] and f"{own['id']}." in one["sentence"]]
        assert not others, one


def test_what_fits_a_part_goes_with_every_other_condition(client: httpx.Client) -> None:
    fitting = {one["id"] for one in walked(client, f"/v1/parts?class=wheel&fits={SECOND}")}
    big = {one["id"] for one in walked(client, "/v1/parts?class=wheel&outer_diameter=90mm..")}
    both_of_them = walked(client, f"/v1/parts?class=wheel&fits={SECOND}&outer_diameter=90mm..&by=mass&limit=2")
    assert {one["id"] for one in both_of_them} == fitting & big
    masses = [one["by"]["nominal"] for one in both_of_them if one["by"]["nominal"] is not None]
    assert masses == sorted(masses)


def test_with_brings_in_what_both_must_live_with(client: httpx.Client) -> None:
    plain = client.get(f"/v1/parts?class=driven_pulley&fits={FIRST}&limit=200").json()
    more = client.get(f"/v1/parts?class=driven_pulley&fits={FIRST}&with=truck=truck-180-50&limit=200").json()
    assert plain["parts"] and more["parts"]
    assert {one["id"] for one in more["parts"]} <= {one["id"] for one in plain["parts"]}


def test_parts_for_a_seat_of_a_kept_board_are_judged_on_that_board(own_client_on_each: httpx.Client) -> None:
    client = own_client_on_each
    there = client.get(f"/v1/boards/{BOARD['plan']}")
    if there.status_code == 404:
        assert client.put(f"/v1/boards/{BOARD['plan']}", json=BOARD, headers={"if-none-match": "*"}).status_code == 201
    seats = client.get(f"/v1/layouts/{BOARD.get('layout', 'two_wheel_belt')}").json()["seats"]
    seat = next(one["seat"] for one in seats if one["seat"] == "rear_left_wheel")
    address = f"/v1/parts?board={BOARD['plan']}&seat={seat}"
    everything = walked(client, f"{address}&all=true&limit=20")
    fitting = walked(client, f"{address}&limit=7")
    assert {one["id"] for one in fitting} == {one["id"] for one in everything if one["verdict"] != "clash"}
    assert {one["class"] for one in everything} >= {"wheel"}
    some_class = walked(client, f"{address}&class=tyre_wheel&all=true")
    assert {one["class"] for one in some_class} == {"tyre_wheel"}
    assert_problem(client.get(f"{address}&class=deck"), 422, "wrong_class", "/query/class")
    assert_problem(client.get(f"/v1/parts?board={BOARD['plan']}&seat=wheel"), 422, "unknown_seat", "/query/seat")


def test_a_seat_of_a_board_says_what_the_board_with_that_part_says(
    own_client_on_each: httpx.Client, sqlite_catalogue: Catalogue
) -> None:
    engine, book, by_class = sqlite_catalogue
    client = own_client_on_each
    if client.get(f"/v1/boards/{BOARD['plan']}").status_code == 404:
        client.put(f"/v1/boards/{BOARD['plan']}", json=BOARD, headers={"if-none-match": "*"})
    with engine.connect() as connection:
        plan = plan_of_document(connection, book, BOARD)
    judge = BoardJudge(book.patterns[plan.pattern], book, rulebook(), {**book.limits, **plan.limits})
    base = judge.judge(piece for piece in plan.after if piece.seat != "rear_left_wheel")
    told = walked(client, f"/v1/parts?board={BOARD['plan']}&seat=rear_left_wheel&class=wheel&all=true")
    parts = {part.id: part for part in by_class["wheel"]}
    for one in told:
        if one["id"] not in parts or version_of(client, one["id"]) != 1:  # others have kept readings on some
            continue
        joints = judge.again(base, {"rear_left_wheel": Piece("rear_left_wheel", parts[one["id"]])}).joints
        touching = [
            joint.verdict
            for joint in joints
            if any(piece.seat == "rear_left_wheel" for some in joint.joint.pieces.values() for piece in some)
        ]
        assert one["verdict"] == next(word for word in ("clash", "measure", "fits") if word in touching), one["id"]


# --- counts, orders, pages -----------------------------------------------------------------------------------


def test_counts_and_facets_add_up(both: Both) -> None:
    client = both[0]
    address = "/v1/parts?class=wheel&limit=1&count=true"
    facets = "&facet=outer_diameter&facet=mass&facet=used&facet=core&facet=core.window_count&facet=class"
    told = client.get(f"{address}{facets}").json()
    whole = len(walked(client, "/v1/parts?class=wheel&limit=200"))
    assert told["count"] == {"parts": whole, "exact": True}
    for facet in told["facets"]:
        assert sum(entry["parts"] for entry in facet["entries"]) + facet["unread"] == whole, facet["of"]
    sizes = next(one for one in told["facets"] if one["of"] == "mass")
    assert len(sizes["entries"]) <= 16 and sizes["unit"] == "kg"
    for entry in sizes["entries"][:3]:
        low, high = entry["low"], entry["high"] - 1e-6 if entry["high"] > entry["low"] else entry["high"]
        query = urlencode({"class": "wheel", "mass": f"{low}..{high}", "limit": 1, "count": "true"})
        assert client.get(f"/v1/parts?{query}").json()["count"]["parts"] == entry["parts"]
    assert client.get("/v1/parts?class=wheel&limit=1").json()["count"] is None
    fitting = client.get(f"/v1/parts?class=wheel&fits={SECOND}&count=true&limit=1").json()["count"]
    assert not fitting["exact"] and fitting["parts"] >= len(walked(client, f"/v1/parts?class=wheel&fits={SECOND}"))


def questions(dice: random.Random, names: list[str]) -> dict[str, str]:
    """Any mix of parameters, sensible and not."""
    sensible = {
        "class": ["wheel", "deck", "motor", "belt", "cap_screw", "driven_pulley"],
        "text": ["wheel", "no. 1", "%", "x", "É"],
        "outer_diameter": ["80mm..100mm", "..4in", "90", "70..", "1..2"],
        "mass": ["100g..300g", "..1 lb", "0.2", "..0"],
        "hardness": ["78..80", "78A", "..90"],
        "width": ["40..60", "..2in"],
        "length": ["10..40 mm", "1in.."],
        "used": ["yes", "no", "yes|no"],
        "core.window_width": ["9mm", "8..10", ".."],
        "core.window_count": ["6", "5..6", "5|6"],
        "fits": [SECOND, FIRST, "demo-wheel-0000003"],
        "by": ["id", "mass", "outer_diameter", "length", "price"],
        "falling": ["true", "false", "perhaps"],
        "unread": ["true", "false"],
        "all": ["true", "false"],
        "count": ["true"],
        "facet": ["class", "outer_diameter", "core", "used", "mass", "core.window_count", "nothing"],
        "limit": ["1", "5", "50", "0"],
        "units": ["mm", "inch"],
        "interface": ["core-six-20", "thread-m5", "none-such"],
    }
    asked = {name: dice.choice(sensible[name]) for name in dice.sample(sorted(sensible), dice.randint(1, 5))}
    if dice.random() < 0.3:
        asked[dice.choice(names)] = dice.choice(
            ["", "5", "5 mm..9 mm", "yes", "\u0000", "1e999", "-3..", "a|b|c|d|e|f|g", "½ in"]
        )
    return asked


def test_both_databases_answer_alike_whatever_is_asked(both: Both, sqlite_catalogue: Catalogue) -> None:
    one, other, _ = both
    names = [*filter_names(sqlite_catalogue[1].table, ()), "nothing", "limmit", "Outer_Diameter"]
    dice = random.Random(20)
    statuses = []
    for _ in range(220):
        asked = urlencode(questions(dice, names))
        first, second = one.get(f"/v1/parts?{asked}"), other.get(f"/v1/parts?{asked}")
        assert first.status_code == second.status_code, asked
        assert first.status_code in (200, 422), (asked, first.text)
        assert first.json() == second.json(), asked
        statuses.append(first.status_code)
    assert statuses.count(200) > 60 and statuses.count(422) > 20


@pytest.mark.parametrize("order", ["", "&by=hardness", "&by=total_height&falling=true"])
@pytest.mark.parametrize("which", [0, 1])
def test_pages_are_complete_and_without_duplicates_while_parts_are_added(both: Both, order: str, which: int) -> None:
    client, url = both[which], both[2][which]
    address = f"/v1/parts?class=bushing_set&limit=4{order}"
    before = [one["id"] for one in walked(client, address)]
    engine = open_catalogue(url)
    with engine.connect() as connection:
        template = read.part(connection, before[0])
    assert template is not None
    found: list[str] = []
    moved = 0
    following: str | None = address
    turn = 0
    while following:
        told = client.get(following).json()
        found += [one["id"] for one in told["parts"]]
        moved += told["moved_from"] is not None and told["moved_from"] != told["catalogue_revision"]
        following = told["next"]
        turn += 1
        if turn <= 3:
            with writing(engine).begin() as connection:
                for end in ("aaa", "zzz"):
                    new = f"{end}-{which}-{len(order)}-{turn}"
                    save_part(connection, dataclasses.replace(template, id=new, title=new), None)
    engine.dispose()
    assert len(found) == len(set(found)), "a part is shown twice"
    assert set(before) <= set(found), "a part that was there all the time is missing"
    assert [own for own in found if own in before] == before
    assert moved >= 3, "the answer says that the catalogue has moved"
    assert client.get(address).json()["moved_from"] is None


def test_a_cursor_of_another_list_or_with_a_wrong_size_is_refused(both: Both) -> None:
    client = both[0]
    following = client.get("/v1/parts?class=wheel&by=mass&limit=2").json()["next"]
    cursor = str(httpx.URL(following).params["after"])
    assert client.get("/v1/parts", params={"class": "wheel", "by": "mass", "after": cursor}).status_code == 200
    for other in (
        {"class": "wheel"},
        {"class": "wheel", "by": "width"},
        {"class": "wheel", "by": "mass", "falling": "true"},
    ):
        assert_problem(client.get("/v1/parts", params={**other, "after": cursor}), 422, "bad_cursor", "/query/after")


def test_a_kept_board_that_changes_changes_the_list(own_client_on_each: httpx.Client) -> None:
    """The list follows the board as it is kept now, and so does its ETag."""
    client = own_client_on_each
    own = "listed-board"
    document = {**BOARD, "plan": own}
    there = client.get(f"/v1/boards/{own}")
    if there.status_code == 200:
        client.delete(f"/v1/boards/{own}", headers={"if-match": there.headers["etag"]})
    client.put(f"/v1/boards/{own}", json=document, headers={"if-none-match": "*"})
    address = f"/v1/parts?board={own}&seat=rear_left_wheel&class=wheel&all=true&limit=200"
    first = client.get(address)
    assert first.status_code == 200
    assert client.get(address, headers={"if-none-match": first.headers["etag"]}).status_code == 304
    board = {key: value for key, value in document["board"].items() if "pulley" not in key}
    assert board != document["board"]
    changed = client.put(f"/v1/boards/{own}", json={**document, "board": board}, headers=seen(1))
    assert changed.status_code == 200, changed.text
    second = client.get(address, headers={"if-none-match": first.headers["etag"]})
    assert second.status_code == 200 and second.json()["parts"] != first.json()["parts"]


def test_a_best_first_list_of_too_many_parts_names_the_list_that_comes_in_pages(
    client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("api.parts.MOST_JUDGED_AT_ONCE", 3)
    fault = assert_problem(client.get(f"/v1/parts/{SECOND}/fitting?class=wheel"), 422, "too_many", "/query/class")
    assert client.get(fault["hint"].split("GET ")[1].rstrip(".")).status_code == 200


def test_where_nothing_of_a_class_can_fit_the_rule_says_so_and_the_list_ends(both: Both) -> None:
    """A rule that looks at the part that stands alone fails with every candidate: no page is judged in vain."""
    client, found = both[0], 0
    for pulley in client.get("/v1/parts?class=driven_pulley&limit=40").json()["parts"]:
        address = f"/v1/parts?class=wheel&fits={pulley['id']}&limit=200"
        told = client.get(f"{address}&count=true&facet=core").json()
        for one in told["ruled_out"]:
            found += 1
            assert one["sentence"] and not [part for part in told["parts"] if part["class"] == one["class"]]
            if found <= 2:
                judged = client.get(f"{address}&all=true").json()["parts"]
                assert judged and {part["verdict"] for part in judged if part["class"] == one["class"]} == {"clash"}
        if {one["class"] for one in told["ruled_out"]} >= {"wheel", "tyre_wheel"}:
            assert told["parts"] == [] and told["next"] is None and told["complete"] and told["count"]["parts"] == 0
    assert found

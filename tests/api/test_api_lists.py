"""Keyset pages: every row once, in order; cursors that cannot be carried from one list to another."""

from __future__ import annotations

import base64
import json
from typing import Any

import httpx
import pytest
from live_server import FIRST, SECOND, Catalogue, assert_problem


def walked(client: httpx.Client, address: str, rows: str) -> list[dict[str, Any]]:
    """All rows behind an address, page by page; the Link header and `next` must agree (RFC 8288)."""
    found: list[dict[str, Any]] = []
    following: str | None = address
    for _ in range(2_000):
        assert following is not None
        response = client.get(following)
        assert response.status_code == 200, response.text
        page = response.json()
        found += page[rows]
        following = page["next"]
        assert response.headers.get("link") == (f'<{following}>; rel="next"' if following else None)
        assert response.links.get("next", {}).get("url") == following
        if following is None:
            return found
        assert page[rows], "an empty page promises no next one"
    raise AssertionError("the pages never end")


@pytest.mark.parametrize("limit", [1, 7, 200])
def test_pages_walk_all_parts_without_gap_or_repeat(client_on_each: httpx.Client, limit: int) -> None:
    whole = [one["id"] for one in walked(client_on_each, "/v1/parts?limit=200", "parts")]
    paged = [one["id"] for one in walked(client_on_each, f"/v1/parts?limit={limit}", "parts")]
    assert paged == whole and len(set(paged)) == len(paged)


def test_the_pages_hold_what_the_catalogue_holds(client: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    expected = tuple(sorted(part.id for some in sqlite_catalogue[2].values() for part in some))
    assert tuple(one["id"] for one in walked(client, "/v1/parts?limit=50", "parts")) == expected


def test_pages_walk_all_interfaces(client_on_each: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    kinds = sqlite_catalogue[1].table.kinds
    whole = {one["id"] for one in walked(client_on_each, "/v1/interfaces?limit=9", "interfaces")}
    by_kind = [
        one["id"]
        for kind in kinds
        for one in walked(client_on_each, f"/v1/interfaces?kind={kind}&limit=3", "interfaces")
    ]
    assert len(by_kind) == len(set(by_kind)) and set(by_kind) == whole


def test_filters_narrow_the_list_together(client: httpx.Client, sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    like_wheel = {name for name in book.table.classes if "wheel" in book.table.line_of(name)}
    expected = sorted(part.id for name in like_wheel for part in by_class.get(name, []))
    assert [one["id"] for one in walked(client, "/v1/parts?class=wheel&limit=2", "parts")] == expected
    offering = walked(client, "/v1/parts?class=wheel&interface=core-six-20&limit=1", "parts")
    assert FIRST in {one["id"] for one in offering}
    assert all("core-six-20" in one["ports"].values() for one in offering)
    for text in ("SIX WINDOW", "six-window"):
        assert FIRST in {one["id"] for one in walked(client, f"/v1/parts?text={text}", "parts")}
    assert walked(client, "/v1/parts?text=%25", "parts") == [], "a per cent sign is no wildcard"


@pytest.mark.parametrize(
    "address",
    [
        f"/v1/parts/{FIRST}/fitting?class=driven_pulley&all=true",
        f"/v1/parts/{FIRST}/fitting?class=driven_pulley",
        f"/v1/parts/{SECOND}/fitting?class=wheel&all=true&units=inch",
        "/v1/interfaces/core-six-20/fitting?class=driven_pulley&all=true",
    ],
)
def test_fitting_parts_come_best_first_however_they_are_paged(client: httpx.Client, address: str) -> None:
    whole = walked(client, f"{address}&limit=200", "found")
    assert whole
    order = [("fits", "measure", "clash").index(one["verdict"]) for one in whole]
    assert order == sorted(order)
    assert "all=true" in address or 2 not in order
    for limit in (1, 3):
        assert walked(client, f"{address}&limit={limit}", "found") == whole


def test_what_fits_by_the_list_fits_by_the_question(client: httpx.Client) -> None:
    for one in walked(client, f"/v1/parts/{FIRST}/fitting?class=driven_pulley&all=true", "found"):
        answer = client.get(f"/v1/fits/{FIRST}/{one['part']}").json()
        touching = [joint["verdict"] for joint in answer["joints"] if one["part"] in _parts(joint)]
        assert one["verdict"] in touching
        assert (one["verdict"] == "clash") == ("clash" in touching)


def _parts(joint: dict[str, Any]) -> set[str]:
    return {piece["part"] for piece in joint["pieces"]}


def test_an_interface_that_nothing_of_the_class_meets_gives_an_empty_list(client: httpx.Client) -> None:
    told = client.get("/v1/interfaces/core-six-20/fitting?class=charger").json()
    assert told["found"] == [] and told["stand_in"] is None and told["next"] is None


def test_an_interface_is_tried_as_a_part_of_which_nothing_else_is_known(client: httpx.Client) -> None:
    told = client.get("/v1/interfaces/core-six-20/fitting?class=driven_pulley&all=true").json()
    assert told["stand_in"]["class"] == "wheel" and "core-six-20" in told["stand_in"]["note"]
    as_part = client.get(f"/v1/parts/{FIRST}/fitting?class=driven_pulley&all=true&limit=200").json()
    of_part = {one["part"]: one["verdict"] for one in as_part["found"]}
    # Knowing less can turn fits or clash into measure, never one into the other.
    for one in walked(client, "/v1/interfaces/core-six-20/fitting?class=driven_pulley&all=true", "found"):
        assert (one["verdict"], of_part[one["part"]]) not in {("fits", "clash"), ("clash", "fits")}


# --- cursors -------------------------------------------------------------------------------------------------


def cursor_of(client: httpx.Client, address: str) -> str:
    following = client.get(address).json()["next"]
    return str(httpx.URL(following).params["after"])


def test_a_cursor_belongs_to_its_list(client: httpx.Client) -> None:
    cursor = cursor_of(client, "/v1/parts?class=wheel&limit=1")
    assert client.get("/v1/parts", params={"class": "wheel", "limit": 50, "after": cursor}).status_code == 200
    for other in ({"class": "deck"}, {}, {"class": "wheel", "text": "six"}):
        response = client.get("/v1/parts", params={**other, "after": cursor})
        assert_problem(response, 422, "bad_cursor", "/query/after")
    assert_problem(client.get("/v1/interfaces", params={"after": cursor}), 422, "bad_cursor")


def test_the_order_of_the_filters_does_not_count(client: httpx.Client) -> None:
    cursor = cursor_of(client, "/v1/parts?class=wheel&text=wheel&limit=1")
    assert client.get(f"/v1/parts?text=wheel&class=wheel&after={cursor}").status_code == 200


@pytest.mark.parametrize(
    "cursor",
    ["x", "%00", "=", "e30", "bnVsbA", "W10", "é", "A" * 400]
    + [base64.urlsafe_b64encode(json.dumps(key).encode()).decode() for key in (["x", "y"], ["x", 7], "text", [["a"]])],
)
def test_a_cursor_that_was_not_made_here_is_refused(client: httpx.Client, cursor: str) -> None:
    assert client.get("/v1/parts", params={"after": cursor}).status_code == 422

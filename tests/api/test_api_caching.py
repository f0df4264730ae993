"""Strong ETags that move with what is told, 304, HEAD, and who may ask from a browser (RFC 9110, 8.8.3 and 13.1.2)."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx
import pytest
from live_server import FIRST, SECOND, Catalogue, address_of, assert_problem, serving

from api.main import create_app
from fitdb.catalogue.exchange import import_directory
from fitdb.catalogue.session import engine_for

ADDRESSES = (
    "/v1",
    "/v1/classes",
    f"/v1/parts/{FIRST}",
    "/v1/parts?class=wheel&limit=2",
    f"/v1/fits/{FIRST}/{SECOND}",
    f"/v1/fits/{FIRST}/{SECOND}/core_windows.lugs_enter/drawing.svg",
    "/v1/openapi.json",
    "/",
    "/rules",
    "/style.css",
)


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_get_has_a_strong_tag_and_is_304_for_whoever_has_it(client: httpx.Client, address: str) -> None:
    first = client.get(address)
    tag = first.headers["etag"]
    assert first.status_code == 200 and tag.startswith('"') and tag.endswith('"')
    assert first.headers["cache-control"] == "no-cache"
    for wanted in (tag, f'"other", {tag}', f"W/{tag}", "*"):
        again = client.get(address, headers={"if-none-match": wanted})
        assert again.status_code == 304 and again.content == b"" and again.headers["etag"] == tag
    for other in ('"other"', tag.strip('"'), ""):
        assert client.get(address, headers={"if-none-match": other}).status_code == 200


@pytest.mark.parametrize("address", ADDRESSES)
def test_head_says_what_get_would(client: httpx.Client, address: str) -> None:
    got, head = client.get(address), client.head(address)
    assert head.status_code == 200 and head.content == b""
    for name in ("etag", "content-type", "content-length", "cache-control"):
        assert head.headers[name] == got.headers[name]


def test_head_of_what_is_not_there_is_404(client: httpx.Client) -> None:
    assert client.head("/v1/parts/none-such").status_code == 404
    assert client.head("/v1/fits").status_code == 405


def test_every_address_and_every_query_has_a_tag_of_its_own(client: httpx.Client) -> None:
    addresses = (*ADDRESSES, "/v1/parts?class=wheel&limit=3", f"/v1/parts/{FIRST}?units=inch", f"/v1/parts/{SECOND}")
    assert len({client.get(address).headers["etag"] for address in addresses}) == len(addresses)


def test_nothing_that_is_not_there_is_ever_304(client: httpx.Client) -> None:
    assert_problem(client.get("/v1/parts/none-such", headers={"if-none-match": "*"}), 404, "unknown_part")


def test_answers_to_questions_and_failures_are_not_kept(client: httpx.Client) -> None:
    asked = client.post("/v1/fits", json={"parts": [{"id": FIRST}, {"id": SECOND}]})
    assert asked.headers["cache-control"] == "no-store" and "etag" not in asked.headers
    assert client.get("/v1/parts/none-such").headers["cache-control"] == "no-store"


def test_tags_and_answers_move_when_somebody_adds_a_part(own_catalogue: str, tmp_path: Path) -> None:
    tables = tmp_path / "tables" / "parts"
    tables.mkdir(parents=True)
    (tables / "wheel.csv").write_text(
        "id,title,port:core,source\nmy-new-wheel,My new wheel,core-six-20,demo_invention\n"
    )
    with serving(create_app(own_catalogue)) as address, httpx.Client(base_url=address, timeout=60) as client:
        before = client.get("/v1/parts?class=wheel")
        fitting_before = client.get(f"/v1/parts/{SECOND}/fitting?class=wheel&limit=200&all=true").json()
        assert_problem(client.get("/v1/parts/my-new-wheel"), 404, "unknown_part")
        engine = engine_for(own_catalogue)
        import_directory(engine, tables.parent)
        engine.dispose()
        after = client.get("/v1/parts?class=wheel", headers={"if-none-match": before.headers["etag"]})
        assert after.status_code == 200 and after.headers["etag"] != before.headers["etag"]
        assert after.json()["catalogue_revision"] != before.json()["catalogue_revision"]
        assert client.get("/v1/parts/my-new-wheel").status_code == 200
        fitting_after = client.get(f"/v1/parts/{SECOND}/fitting?class=wheel&limit=200&all=true").json()
        assert fitting_after["judged"] == fitting_before["judged"] + 1
        assert "my-new-wheel" in {one["part"] for one in fitting_after["found"]}


def test_a_catalogue_in_memory_answers_many_at_once() -> None:
    with serving(create_app("sqlite://")) as address, httpx.Client(base_url=address, timeout=60) as client:
        with ThreadPoolExecutor(8) as pool:
            got = list(pool.map(lambda _: client.get("/v1/parts?class=wheel").status_code, range(24)))
        assert got == [200] * 24


def test_many_at_once_get_the_same_answer(client_on_each: httpx.Client) -> None:
    with ThreadPoolExecutor(12) as pool:
        got = list(pool.map(lambda _: client_on_each.get(f"/v1/fits/{FIRST}/{SECOND}"), range(36)))
    assert {response.status_code for response in got} == {200}
    assert len({response.content for response in got}) == 1


def test_the_catalogue_is_the_one_that_the_environment_names(
    sqlite_catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FITDB_URL", address_of(sqlite_catalogue[0]))
    with serving(create_app()) as address:
        revision = httpx.get(f"{address}/v1").json()["catalogue_revision"]
    assert revision == sqlite_catalogue[1].revision


def test_no_page_of_another_origin_may_ask_unless_it_is_named(
    client: httpx.Client, sqlite_catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch
) -> None:
    preflight = {"origin": "https://bench.example", "access-control-request-method": "POST"}
    preflight["access-control-request-headers"] = "content-type"
    assert "access-control-allow-origin" not in client.options("/v1/fits", headers=preflight).headers
    assert "access-control-allow-origin" not in client.get("/v1", headers=preflight).headers
    monkeypatch.setenv("FITDB_CORS_ORIGINS", "https://bench.example, https://other.example")
    with serving(create_app(address_of(sqlite_catalogue[0]))) as address:
        allowed = httpx.options(f"{address}/v1/fits", headers=preflight)
        assert allowed.status_code == 200
        assert allowed.headers["access-control-allow-origin"] == "https://bench.example"
        told = httpx.get(f"{address}/v1/parts/none-such", headers={"origin": "https://bench.example"})
        assert told.status_code == 404
        assert told.headers["access-control-allow-origin"] == "https://bench.example"
        stranger = httpx.get(f"{address}/v1", headers={"origin": "https://stranger.example"})
        assert "access-control-allow-origin" not in stranger.headers


def test_the_engine_is_let_go_when_the_server_stops(own_catalogue: str) -> None:
    with serving(create_app(own_catalogue)) as address:
        assert httpx.get(f"{address}/v1").status_code == 200
    file = Path(own_catalogue.removeprefix("sqlite:///"))
    assert not file.with_name(file.name + "-wal").exists(), "SQLite folds its side file when the last one leaves"

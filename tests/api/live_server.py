"""The application as `fitdb serve` runs it, in a thread, on a port of its own; and the one shape of its failures."""

from __future__ import annotations

import socket
import sqlite3
import threading
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import httpx
import uvicorn
from fastapi import FastAPI
from sqlalchemy import Engine

from fitdb.catalogue.read import Book
from fitdb.model.part import Part

Catalogue = tuple[Engine, Book, dict[str, list[Part]]]
FIRST, SECOND = "wheel-90-six-window", "driven-36-six-lug"
NEW = {"if-none-match": "*"}


@contextmanager
def serving(app: FastAPI) -> Iterator[str]:
    """The address of the application while it runs."""
    # The protocol is named because asyncio sends small packets at once only where it knows that this is TCP.
    with socket.socket(proto=socket.IPPROTO_TCP) as listening:
        listening.bind(("127.0.0.1", 0))
        server = uvicorn.Server(uvicorn.Config(app, log_config=None, ws="none", lifespan="on", server_header=False))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        deadline = time.monotonic() + 60
        while not server.started and thread.is_alive() and time.monotonic() < deadline:
            time.sleep(0.01)
        assert server.started, "the server did not start"
        try:
            yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        finally:
            server.should_exit = True
            thread.join(30)


def address_of(engine: Engine) -> str:
    return engine.url.render_as_string(hide_password=False)


def copied(catalogue: Catalogue, own: Path) -> str:
    """The address of a copy of a catalogue on SQLite."""
    with closing(sqlite3.connect(str(catalogue[0].url.database))) as shipped, closing(sqlite3.connect(own)) as copy:
        shipped.backup(copy)
    return f"sqlite:///{own}"


def seen(version: int) -> dict[str, str]:
    """The header that says which version a change is meant for."""
    return {"if-match": f'"{version}"'}


def version_of(client: httpx.Client, part: str) -> int:
    return int(client.get(f"/v1/parts/{part}").json()["version"])


def measure(client: httpx.Client, part: str, readings: object, version: int | None = None) -> httpx.Response:
    """Keeps readings on a part, at the version that it has now unless another is named."""
    headers = seen(version_of(client, part) if version is None else version)
    return client.post(f"/v1/parts/{part}/readings", json=readings, headers=headers)


def assert_problem(response: httpx.Response, status: int, code: str, pointer: str | None = None) -> dict[str, Any]:
    """The one shape of RFC 9457, section 3, with each fault at its place; gives the fault with that code."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    problem = response.json()
    assert (
        {"type", "title", "status", "detail", "errors"}
        <= problem.keys()
        <= {*("type", "title", "status", "detail", "errors", "instance")}
    )
    assert problem["status"] == status
    assert problem["type"].startswith("urn:fitdb:problem:")
    assert problem["title"] and problem["detail"] and problem["errors"]
    for fault in problem["errors"]:
        assert fault.keys() == {"code", "pointer", "detail", "hint"}
        assert fault["code"] and fault["detail"]
        assert fault["pointer"] == "" or fault["pointer"].startswith("/")
    assert "Traceback" not in response.text and 'File "' not in response.text
    meant = [one for one in problem["errors"] if one["code"] == code and pointer in (None, one["pointer"])]
    assert meant, f"no fault {code} at {pointer}: {problem['errors']}"
    return dict(meant[0])


def asked_options(client: httpx.Client, body: dict[str, Any], path: str = "/v1/options") -> dict[str, Any]:
    response = client.post(path, json=body, timeout=300)
    assert response.status_code == 200, response.text
    assert response.headers["cache-control"] == "no-store"
    return dict(response.json())

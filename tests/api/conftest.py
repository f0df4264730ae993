"""A live server for the tests: the application as `fitdb serve` runs it, in a thread, on a port of its own."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import httpx
import pytest
import uvicorn
from fastapi import FastAPI
from jsonschema import Draft202012Validator
from sqlalchemy import Engine

from api.main import create_app
from fitdb.catalogue.read import Book
from fitdb.model.part import Part

Catalogue = tuple[Engine, Book, dict[str, list[Part]]]


@contextmanager
def serving(app: FastAPI) -> Iterator[str]:
    """The address of the application while it runs."""
    with socket.socket() as listening:
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


@pytest.fixture(scope="session")
def base_url(sqlite_catalogue: Catalogue) -> Iterator[str]:
    """A server on the shipped catalogue, on SQLite."""
    with serving(create_app(address_of(sqlite_catalogue[0]))) as address:
        yield address


@pytest.fixture(scope="session")
def client(base_url: str) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=base_url, timeout=60) as opened:
        yield opened


@pytest.fixture(scope="session")
def client_on_each(seeded_engine: Engine) -> Iterator[httpx.Client]:
    """The same on each database."""
    with (
        serving(create_app(address_of(seeded_engine))) as address,
        httpx.Client(base_url=address, timeout=60) as opened,
    ):
        yield opened


@pytest.fixture(scope="session")
def document() -> dict[str, Any]:
    """The OpenAPI document."""
    return dict(create_app("sqlite://").openapi())


@pytest.fixture(scope="session")
def check(document: dict[str, Any]) -> Callable[[httpx.Response, str, str], None]:
    """Holds a response against what the document says of its operation, status and media type."""
    validators: dict[str, Draft202012Validator] = {}

    def conforms(response: httpx.Response, path: str, method: str) -> None:
        described = document["paths"][path][method]["responses"]
        assert str(response.status_code) in described, f"{response.status_code} of {method} {path} is not documented"
        content = described[str(response.status_code)].get("content", {})
        media_type = response.headers.get("content-type", "").split(";")[0]
        if not content:
            assert not response.content
            return
        assert media_type in content, f"{media_type} of {method} {path} is not documented"
        if not media_type.endswith("json"):
            return
        schema = content[media_type]["schema"]
        key = repr(schema)
        if key not in validators:
            validators[key] = Draft202012Validator({"components": document["components"], **schema})
        validators[key].validate(response.json())

    return conforms


def assert_problem(response: httpx.Response, status: int, code: str, pointer: str | None = None) -> dict[str, Any]:
    """The one shape of RFC 9457, section 3, with each fault at its place; gives the fault with that code."""
    assert response.status_code == status, response.text
    assert response.headers["content-type"] == "application/problem+json"
    problem = response.json()
    assert {"type", "title", "status", "detail", "errors"} <= problem.keys() <= {
        *("type", "title", "status", "detail", "errors", "instance")
    }
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

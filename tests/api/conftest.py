"""Servers and clients that the tests of the API share."""

from __future__ import annotations

import itertools
import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import httpx
import pytest
from jsonschema import Draft202012Validator
from live_server import Catalogue, address_of, copied, serving
from sqlalchemy import Engine, create_engine, text
from sqlalchemy.engine import make_url

from api.main import create_app

_numbers = itertools.count(1)


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


@pytest.fixture
def own_catalogue(sqlite_catalogue: Catalogue, tmp_path: Path) -> str:
    """The address of a copy of the shipped catalogue that a test may write to."""
    return copied(sqlite_catalogue, tmp_path / "own.sqlite")


@pytest.fixture(scope="session")
def own_base_url(sqlite_catalogue: Catalogue, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server on such a copy, for requests that may change anything."""
    with serving(create_app(copied(sqlite_catalogue, tmp_path_factory.mktemp("anything") / "own.sqlite"))) as address:
        yield address


@pytest.fixture(scope="session", params=("sqlite", "postgresql"))
def own_client_on_each(
    request: pytest.FixtureRequest, sqlite_catalogue: Catalogue, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[httpx.Client]:
    """A server on a catalogue that tests may write to, on each database; every test keeps to names of its own."""
    with ExitStack() as stack:
        if request.param == "sqlite":
            url = copied(sqlite_catalogue, tmp_path_factory.mktemp("kept") / "own.sqlite")
        else:
            server = make_url(request.getfixturevalue("postgres")).set(drivername="postgresql+psycopg")
            name = f"fitdb_kept_{os.getpid()}_{next(_numbers)}"
            admin = create_engine(server, isolation_level="AUTOCOMMIT")
            stack.callback(admin.dispose)
            with admin.connect() as connection:
                connection.execute(text(f"create database {name} template template0"))
            url = server.set(drivername="postgresql", database=name).render_as_string(hide_password=False)
        address = stack.enter_context(serving(create_app(url)))
        yield stack.enter_context(httpx.Client(base_url=address, timeout=60))


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

"""Every example of the OpenAPI document is run, and every answer is held against the schema it is promised in."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from jsonschema import Draft202012Validator
from live_server import FIRST, SECOND, Catalogue

from api.main import create_app
from api.pages import example_headers, example_of
from api.plan_examples import BOARD, PACK

DOCUMENT = create_app("sqlite://").openapi()
OPERATIONS = [
    (method, path, operation) for path, methods in DOCUMENT["paths"].items() for method, operation in methods.items()
]
Check = Callable[[httpx.Response, str, str], None]
names = [operation["operationId"] for _, _, operation in OPERATIONS]


@pytest.mark.parametrize(("method", "path", "operation"), OPERATIONS, ids=names)
def test_the_example_is_answered_as_documented(
    method: str, path: str, operation: dict[str, Any], own_client_on_each: httpx.Client, check: Check
) -> None:
    kept_first(own_client_on_each, method, operation)
    address, headers = example_of(path, operation), example_headers(operation)
    bodies = [example["value"] for example in examples_of(operation).values()] or [None]
    for body in bodies:
        sent = {} if body is None else {"json": body}
        response = own_client_on_each.request(method, address, headers=headers, **sent)
        assert response.status_code in (200, 201, 204), response.text
        check(response, path, method)
        if response.headers.get("content-type") == "application/json":  # no question of a batch is refused
            assert all("verdict" in answer for answer in response.json().get("answers", []))


def examples_of(operation: dict[str, Any]) -> dict[str, Any]:
    """The examples of a body; an operation without a body has none."""
    content = operation.get("requestBody", {}).get("content", {})
    return dict(content["application/json"]["examples"]) if content else {}


def kept_first(client: httpx.Client, method: str, operation: dict[str, Any]) -> None:
    """What the example names is made, at its first version, or taken away where the example is to make it."""
    for several, document in (("boards", BOARD), ("plans", PACK)):
        if several in operation["tags"]:
            address = f"/v1/{several}/{document['plan']}"
            there = client.get(address)
            if there.status_code == 200:
                client.delete(address, headers={"if-match": there.headers["etag"]})
            if method != "put":
                assert client.put(address, json=document, headers={"if-none-match": "*"}).status_code == 201


def test_every_operation_has_a_name_of_its_own_a_summary_and_an_example() -> None:
    assert len(set(names)) == len(names)
    assert all(re.fullmatch(r"[a-z]+[A-Za-z]*", name) for name in names)
    for _, path, operation in OPERATIONS:
        assert operation["summary"].endswith(".") and operation["description"]
        assert "{" not in example_of(path, operation)
        assert examples_of(operation) or "requestBody" not in operation


def test_every_operation_documents_its_failures_in_one_shape() -> None:
    for _, path, operation in OPERATIONS:
        for status, response in operation["responses"].items():
            if int(status) >= 400:
                schema = response["content"]["application/problem+json"]["schema"]
                assert schema == {"$ref": "#/components/schemas/ProblemShape"}, (path, status)


def test_the_document_is_openapi_3_1_with_schemas_of_json_schema_2020_12() -> None:
    # OpenAPI 3.1.0: schema objects are JSON Schema draft 2020-12; every reference must lead somewhere.
    assert DOCUMENT["openapi"].startswith("3.1.")
    schemas = DOCUMENT["components"]["schemas"]
    for schema in schemas.values():
        Draft202012Validator.check_schema(schema)
    references = set(re.findall(r"'\$ref': '([^']*)'", repr(DOCUMENT)))
    assert references
    for reference in references:
        assert reference.startswith("#/components/schemas/")
        found: Any = DOCUMENT  # a JSON pointer (RFC 6901) into the document
        for key in reference.removeprefix("#/").split("/"):
            assert key in found, reference
            found = found[key]


def test_every_class_part_interface_and_rule_is_told_as_documented(
    client: httpx.Client, check: Check, sqlite_catalogue: Catalogue
) -> None:
    _, book, by_class = sqlite_catalogue
    check(client.get("/v1/attributes"), "/v1/attributes", "get")
    for name in list(book.table.classes)[::6]:
        check(client.get(f"/v1/classes/{name}"), "/v1/classes/{class_id}", "get")
    for parts in by_class.values():
        for part in parts[:1]:
            check(client.get(f"/v1/parts/{part.id}"), "/v1/parts/{part_id}", "get")
    for kind in book.table.kinds:
        listed = client.get("/v1/interfaces", params={"kind": kind, "limit": 1})
        check(listed, "/v1/interfaces", "get")
        for one in listed.json()["interfaces"]:
            check(client.get(f"/v1/interfaces/{one['id']}"), "/v1/interfaces/{interface_id}", "get")
    check(client.get("/v1/rules"), "/v1/rules", "get")


def test_verdicts_of_every_kind_are_told_as_documented(
    client: httpx.Client, check: Check, sqlite_catalogue: Catalogue
) -> None:
    """Pairs of all classes that meet anywhere."""
    pairs = meeting_pairs(sqlite_catalogue)
    verdicts: set[str] = set()
    for first, second in pairs[:60]:
        response = client.get(f"/v1/fits/{first}/{second}")
        if response.status_code == 422:  # one seat for both
            continue
        check(response, "/v1/fits/{first}/{second}", "get")
        answer = response.json()
        assert answer["verdict"] == answer["best_allowed"]
        verdicts.add(answer["verdict"])
    assert {"fits", "clash"} <= verdicts


def test_adapters_are_offered_as_documented(client: httpx.Client, check: Check, sqlite_catalogue: Catalogue) -> None:
    """The first pair of wheel and pulley that clashes and can be bridged."""
    by_class = sqlite_catalogue[2]
    pairs = itertools.product(by_class["wheel"], by_class["driven_pulley"])
    for wheel, pulley in itertools.islice(pairs, 60):
        response = client.get(f"/v1/fits/{wheel.id}/{pulley.id}")
        if response.json()["bridges"]:
            check(response, "/v1/fits/{first}/{second}", "get")
            return
    raise AssertionError("no adapter was ever offered")


def meeting_pairs(catalogue: Catalogue) -> list[tuple[str, str]]:
    """Pairs of parts whose classes fill two roles of one joint line."""
    _, book, by_class = catalogue
    found: dict[tuple[str, str], None] = {}
    for line in book.patterns["loose"].lines:
        seats = [[book.patterns["loose"].seats[seat] for seat in role.seats[:1]] for role in line.roles]
        filled = [
            [part for seat in role for name in seat.classes for part in by_class.get(name, [])[:3]] for role in seats
        ]
        for one, other in itertools.combinations(filled, 2):
            found.update({(a.id, b.id): None for a, b in itertools.product(one[:3], other[:3]) if a.id != b.id})
    pairs = list(found)
    return pairs[:: max(len(pairs) // 60, 1)]


def test_drawings_come_with_every_finding_that_is_asked_for_them(client: httpx.Client, check: Check) -> None:
    asked = {"parts": [{"id": FIRST}, {"id": SECOND}], "include": ["drawings"]}
    response = client.post("/v1/fits", json=asked)
    check(response, "/v1/fits", "post")
    findings = [finding for joint in response.json()["joints"] for finding in joint["findings"]]
    assert findings and all(finding["drawing"].startswith("<svg ") for finding in findings)
    for rule in sorted({finding["rule"] for finding in findings}):
        drawn = client.get(f"/v1/fits/{FIRST}/{SECOND}/{rule}/drawing.svg")
        assert drawn.status_code == 200 and drawn.headers["content-type"].startswith("image/svg+xml")
        assert drawn.text in {finding["drawing"] for finding in findings if finding["rule"] == rule}

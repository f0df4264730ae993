"""What the tests of options share: the shipped book and parts, and one layout."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.rules import rulebook


@pytest.fixture(scope="session")
def book(sqlite_catalogue) -> Book:  # type: ignore[no-untyped-def]
    found: Book = sqlite_catalogue[1]
    return found


@pytest.fixture(scope="session")
def by_class(sqlite_catalogue) -> Mapping[str, list[Part]]:  # type: ignore[no-untyped-def]
    found: Mapping[str, list[Part]] = sqlite_catalogue[2]
    return found


@pytest.fixture(scope="session")
def rules() -> Rulebook:
    return rulebook()


@pytest.fixture(scope="session")
def layout(book: Book) -> Pattern:
    return book.patterns["two_wheel_belt"]

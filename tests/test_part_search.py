"""Whatever is refused on the way, a list of what fits has exactly the parts that the judge does not call a clash."""

from __future__ import annotations

import pytest
from sqlalchemy import Engine

from fitdb import part_search
from fitdb.catalogue import read
from fitdb.catalogue.find_parts import Found
from fitdb.catalogue.part_conditions import Wanted
from fitdb.fit_table import FitTable
from fitdb.model.part import Part
from fitdb.model.plan import FitQuestion
from fitdb.part_search import Order, PartSearch
from fitdb.rules import rulebook
from fitdb.search import classes_like, fitting
from fitdb.steps.explain import Display

Catalogue = tuple[Engine, read.Book, dict[str, list[Part]]]
ASKED = (
    ("driven_pulley", "wheel"),
    ("wheel", "driven_pulley"),
    ("motor", "drive_pulley"),
    ("truck", "bearing"),
    ("deck", "enclosure"),
    ("pack", "charger"),
    ("controller", "motor"),
    ("motor", "motor_mount"),
)


@pytest.mark.parametrize("many_clashes", [1, 25])
@pytest.mark.parametrize(("known_class", "part_class"), ASKED)
def test_nothing_that_fits_is_refused(
    sqlite_catalogue: Catalogue, known_class: str, part_class: str, many_clashes: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By pairs of interfaces, by what stands, by what a clash has taught: against the whole class judged."""
    monkeypatch.setattr(part_search, "MANY_CLASHES", many_clashes)
    engine, book, by_class = sqlite_catalogue
    display, classes = Display(), classes_like(part_class, book)
    candidates = [part for own in classes for part in by_class.get(own, [])]
    search = PartSearch(book, rulebook())
    with engine.connect() as connection:
        for known in by_class[known_class][:: max(1, len(by_class[known_class]) // 5)]:
            question = FitQuestion((("", known),))
            expected = {
                one["part"]: (one["verdict"], one["rule"])
                for one in fitting(question, part_class, candidates, book, rulebook(), False, display)["found"]
            }
            beside, found, place = search.beside_parts(question, classes), {}, None
            while True:
                page = search.page_beside(connection, Wanted(classes), Order(), beside, False, place, 3, display)
                found |= {one["id"]: (one["verdict"], one["rule"]) for one in page.lines}
                place = page.last
                if place is None:
                    break
            assert found == expected, known.id


def test_a_page_that_takes_too_long_says_so_and_the_next_goes_on(sqlite_catalogue: Catalogue) -> None:
    engine, book, by_class = sqlite_catalogue
    classes = classes_like("wheel", book)
    pulley = next(part for part in by_class["driven_pulley"] if part.id == "driven-36-six-lug")
    search, ticks = PartSearch(book, rulebook()), iter(range(0, 10_000_000, 2))
    beside = search.beside_parts(FitQuestion((("", pulley),)), classes)
    found: list[str] = []
    place: Found | None = None
    pages = 0
    with engine.connect() as connection:
        while True:
            page = search.page_beside(
                connection, Wanted(classes), Order(), beside, False, place, 50, Display(), lambda: float(next(ticks))
            )
            found += [one["id"] for one in page.lines]
            pages, place = pages + 1, page.last
            if place is None:
                break
            assert not page.complete
        whole = search.page_beside(connection, Wanted(classes), Order(), beside, False, None, 200, Display())
    assert pages > 1 and whole.complete
    assert found == [one["id"] for one in whole.lines]


def test_the_table_of_one_revision_is_not_asked_for_another(sqlite_catalogue: Catalogue) -> None:
    search = PartSearch(sqlite_catalogue[1], rulebook())
    assert search.shelf.revision == sqlite_catalogue[1].revision and isinstance(search.table, FitTable)
    assert search.table.shelf is search.shelf

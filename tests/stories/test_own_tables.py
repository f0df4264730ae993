"""A builder adds a part class, parts and an adapter as tables, without code, and gets verdicts with them.

The tables beside this file are what somebody wrote who had read DEVELOPERS.md and no code: a wheel for wet grass in two
cores, and a lug plate to seven windows that the shipped catalogue lacks.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import Engine

from fitdb.catalogue import read
from fitdb.catalogue.asked import typed_question
from fitdb.catalogue.exchange import check_import, import_directory
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.seeding import seed_if_changed
from fitdb.fit import fit
from fitdb.model.verdict import Verdict
from fitdb.rules import rulebook

OWN = Path(__file__).parent / "own_tables"


@pytest.fixture
def grown(engine: Engine) -> Engine:
    """The shipped catalogue with the own tables added, on SQLite and on PostgreSQL."""
    seed_if_changed(engine, SEED)
    assert check_import(engine, OWN) == ()
    import_directory(engine, OWN)
    return engine


def asked(engine: Engine, *names: str) -> Verdict:
    with engine.connect() as connection:
        book = read.book(connection)
        question = typed_question(connection, book, names)
        return fit(question, book, rulebook(), lambda stock: read.parts_of_classes(connection, (stock,)))


def test_the_new_class_is_judged_like_the_one_it_is_like(grown: Engine) -> None:
    assert asked(grown, "grass-160-six", "driven-36-six-lug").best_allowed == "fits"


def test_the_new_adapter_bridges_what_clashes_without_it(grown: Engine) -> None:
    verdict = asked(grown, "grass-160-seven", "driven-36-six-lug")
    assert (verdict.as_asked, verdict.best_allowed) == ("clash", "fits_with")
    bridge = next(bridge for bridge in verdict.bridges if bridge.verdict == "fits")
    assert bridge.part == "plate-6-to-7"
    assert "core_windows.lugs_index" in bridge.cured
    assert "axial_thickness 6 mm" in bridge.adds

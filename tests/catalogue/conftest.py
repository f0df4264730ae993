"""A tiny catalogue of its own, so that these tests do not move when the shipped tables do."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from sqlalchemy import Engine

from fitdb.catalogue.seed import SeedBook, load_seed
from fitdb.catalogue.seeding import write_seed
from fitdb.catalogue.session import writing

TINY = Path(__file__).parent / "tiny_seed"


@pytest.fixture(scope="session")
def tiny() -> SeedBook:
    return load_seed(TINY)


@pytest.fixture
def tiny_copy(tmp_path: Path) -> Path:
    """A copy of the tiny tables that a test may spoil."""
    return Path(shutil.copytree(TINY, tmp_path / "tables"))


@pytest.fixture
def filled(engine: Engine, tiny: SeedBook) -> Engine:
    """A catalogue with the tiny tables, on both databases, the test's own."""
    with writing(engine).begin() as connection:
        write_seed(connection, tiny)
    return engine

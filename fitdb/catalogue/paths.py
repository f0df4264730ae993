"""Where the migrations and the shipped tables lie: the source tree when run from one, else inside the wheel."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

_PACKAGE = Path(str(files("fitdb")))
_ROOT = _PACKAGE.parent
_IN_SOURCE_TREE = (_ROOT / "pyproject.toml").is_file() and (_ROOT / "migrations" / "env.py").is_file()

MIGRATIONS = _ROOT / "migrations" if _IN_SOURCE_TREE else _PACKAGE / "_migrations"
SEED = _ROOT / "seed_parts" if _IN_SOURCE_TREE else _PACKAGE / "_seed"

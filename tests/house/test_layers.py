"""The house keeps its walls: imports run downhill, rules and steps are strangers, folders match the promised joints."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from fitdb.rules import rulebook

ROOT = Path(__file__).parents[2]
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "pyproject.toml",
    "fitdb",
    "api",
    "migrations",
    "tests",
    "seed_parts",
}
PROMISED = {f"J{number:02}" for number in range(1, 81)} | {"J14b"}


def test_imports_keep_every_contract() -> None:
    tool = Path(sys.executable).parent / "lint-imports"
    run = subprocess.run([tool, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr


def test_ruff_and_mypy_are_clean() -> None:
    for command in (["ruff", "check", "."], ["ruff", "format", "--check", "."], ["mypy"]):
        tool = Path(sys.executable).parent / command[0]
        run = subprocess.run([tool, *command[1:]], cwd=ROOT, capture_output=True, text=True, check=False)
        assert run.returncode == 0, f"{command}\n{run.stdout}{run.stderr}"


def test_the_top_level_is_as_agreed() -> None:
    tracked = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False).stdout
    found = {line.split("/")[0] for line in tracked.splitlines()}
    assert {name for name in found if not name.startswith(".")} <= TOP_LEVEL


def test_the_folders_cover_the_promised_joints() -> None:
    assert {kind.joint for kind in rulebook().kinds.values()} == PROMISED

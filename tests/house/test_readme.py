"""The README's examples are run, in the order in which they stand."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = [
    line.removeprefix("$ ")
    for block in re.findall(r"```console\n(.*?)```", README, re.DOTALL)
    for line in block.splitlines()
    if line.startswith("$ ")
]
EXPECTED = {  # the verdicts that the prose around an example promises
    "fitdb swap seed_parts/plans/river-path.yaml": (2, "MEASURE FIRST"),
    "fitdb swap seed_parts/plans/river-path.yaml --reading 'rear_truck.size_a=31.54 +-0.02 mm'": (
        3,
        "FITS WITH A REMEDY",
    ),
    "fitdb swap seed_parts/plans/river-path.yaml --reading 'rear_truck.size_a=31.32 +-0.02 mm'": (
        3,
        "FITS WITH A REMEDY",
    ),
    "fitdb swap seed_parts/plans/river-path-charger.yaml": (1, "CLASH"),
    "fitdb swap seed_parts/plans/river-path-truck.yaml": (2, "MEASURE FIRST"),
    "fitdb fit wheel-90-six-window driven-36-six-lug": (0, "FITS"),
    "fitdb fit wheel-90-five-window driven-36-six-lug": (3, "FITS WITH A REMEDY"),
    "fitdb fit wheel-90-six-window-unread driven-36-six-lug": (2, "MEASURE FIRST"),
    "fitdb fit wheel-90-six-window-unread driven-36-six-lug --reading 'wheel.window_width=9.0 +-0.1 mm'": (0, "FITS"),
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the part file of the README, the shipped tables and a catalogue of its own."""
    folder = tmp_path_factory.mktemp("readme")
    yaml = re.search(r"```yaml\n# my-wheel.yaml\n(.*?)```", README, re.DOTALL)
    assert yaml
    (folder / "my-wheel.yaml").write_text(yaml.group(1), encoding="utf-8")
    (folder / "seed_parts").symlink_to(ROOT / "seed_parts")
    return folder


@pytest.mark.parametrize("command", COMMANDS)
def test_the_command_works_as_the_text_says(command: str, desk: Path) -> None:
    words = shlex.split(command)
    program = str(Path(sys.executable).parent / words[0])
    environment = {"XDG_DATA_HOME": str(desk), "PATH": "/usr/bin:/bin", "HOME": str(desk)}
    run = subprocess.run([program, *words[1:]], cwd=desk, env=environment, capture_output=True, text=True, check=False)
    assert run.returncode in (0, 1, 2, 3), run.stderr
    assert run.stdout.strip()
    assert max(len(line) for line in run.stdout.splitlines()) <= 80 or "--json" in words or words[1] == "rules"
    if command in EXPECTED:
        code, opening = EXPECTED[command]
        assert (run.returncode, run.stdout.split(".")[0]) == (code, opening), run.stdout


@pytest.mark.parametrize("opening", ["MEASURE", "More pull"])
def test_the_answer_that_the_text_shows_is_the_answer(opening: str, desk: Path) -> None:
    """What stands between the cuts is in the answer, word for word and in its order."""
    block = re.search(rf"\$ (fitdb \w+ [^\n]*river-path.yaml)\n({opening}.*?)```", README, re.DOTALL)
    assert block
    program, *words = shlex.split(block.group(1))
    environment = {"XDG_DATA_HOME": str(desk), "PATH": "/usr/bin:/bin", "HOME": str(desk)}
    command = [str(Path(sys.executable).parent / program), *words]
    run = subprocess.run(command, cwd=desk, env=environment, capture_output=True, text=True, check=False)
    answer, at = " ".join(run.stdout.split()), 0
    for shown in block.group(2).split("[...]"):
        for paragraph in shown.split("\n\n"):
            told = " ".join(paragraph.split())
            assert answer.find(told, at) >= at, told
            at = answer.find(told, at) + len(told)


def test_the_commands_that_are_promised_an_outcome_stand_in_the_text() -> None:
    assert set(EXPECTED) <= set(COMMANDS)


def test_the_test_command_is_the_one_that_ci_runs() -> None:
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "<!-- test command -->" in README and "<!-- test command -->" in ci
    assert "FITDB_REQUIRE_POSTGRES=1" in ci

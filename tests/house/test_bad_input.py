"""Bad input at the command line and the front door: told what, where and what to do, by exit code, without a trace.

"Does not fit" and "cannot tell" are answers (0 to 3); a malformed question is 64, a fault of ours 70. Every command
runs against one catalogue, which must not have changed at the end.
"""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from fitdb.catalogue.paths import SEED
from fitdb.catalogue.session import open_catalogue
from fitdb.cli import main
from fitdb.fit import ask
from fitdb.model.problems import Malformed, OurFault

WHEEL, UNREAD, PULLEY = "wheel-90-six-window", "wheel-90-six-window-unread", "driven-36-six-lug"
PROGRAM = str(Path(sys.executable).parent / "fitdb")
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A filled catalogue of this file's own; whatever was asked, it holds the same bytes at the end."""
    file = tmp_path_factory.mktemp("bad_input") / "catalogue.sqlite"
    url = f"sqlite:///{file}"
    open_catalogue(url, seed=SEED).dispose()
    before = hashlib.sha256(file.read_bytes()).digest()
    yield url
    assert hashlib.sha256(file.read_bytes()).digest() == before, "a question has stored something"


@pytest.fixture
def run(address: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder of its own: exit code, what it said, what it said of faults."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FITDB_URL", address)

    def go(*words: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["fitdb", *words])
        with pytest.raises(SystemExit) as ended:
            main()
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        code = ended.value.code
        assert isinstance(code, int)
        if code >= 64:
            assert err.startswith(("fitdb: ", "Usage")), err
            assert out == "", "a refused question gives no half of an answer"
            assert all(character.isprintable() or character == "\n" for character in err), repr(err)
        return code, out, err

    return go


def part_file(**readings: str) -> str:
    lines = ["part:", "  id: mine", "  class: wheel", "  source: caliper", "  readings:"]
    return "\n".join([*lines, *(f"    {name}: {value}" for name, value in readings.items()), ""])


# The words typed after `fitdb`, and what a person has to be told.
MALFORMED: list[tuple[list[str], list[str]]] = [
    (["fit", "wheel-90-six-windo", PULLEY], ["/parts/0", "`wheel-90-six-window`"]),
    (["fit", "", PULLEY], ["/parts/0", "no part ''"]),
    (["fit", "x" * 100_000, PULLEY], ["/parts/0", "…"]),
    (["fit", "wheel\x1b[31m\x00", PULLEY], ["/parts/0"]),
    (["fit", WHEEL, WHEEL, WHEEL], ["/parts/2", "full"]),
    (["fit", WHEEL, PULLEY, "--with", "wheel"], ["/with/0", "ROLE=PART"]),
    (["fit", WHEEL, PULLEY, "--with", f"nowhere={WHEEL}"], ["no role 'nowhere'"]),
    (["fit", WHEEL, PULLEY, "--with", f"deck={WHEEL}"], ["takes: deck"]),
    (["fit", WHEEL, PULLEY, "--reading", "window_width"], ["/reading/0", "no `=`"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_widht=9"], ["/reading/0", "`window_width`"]),
    (["fit", WHEEL, PULLEY, "--reading", "whel.window_width=9"], ["/reading/0", "'whel'"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=9 parsec"], ["/reading/0", "`parsec`", "mm"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=9 kg"], ["/reading/0", "mm"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=-9 mm"], ["/reading/0", "impossible", "between"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=9 m"], ["/reading/0", "impossible"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=nan"], ["/reading/0", "finite"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=inf mm"], ["/reading/0", "finite"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=-inf"], ["/reading/0", "finite"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=1e999 mm"], ["/reading/0", "finite"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_width=9 +- inf"], ["/reading/0", "finite"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.window_count=6.5"], ["/reading/0"]),
    (["fit", WHEEL, PULLEY, "--reading", "wheel.core_material=plastik"], ["/reading/0", "`plastic`"]),
    (["fit", WHEEL, PULLEY, "--limit", "core_windows.lugs_enter.leest=0.2"], ["core_windows.lugs_enter.least"]),
    (["fit", WHEEL, PULLEY, "--limit", "core_windows.lugs_enter.least=nan"], ["/limit/0", "not a number"]),
    (["fit", WHEEL, PULLEY, "--limit", "core_windows.lugs_enter.least=1e999"], ["/limit/0", "finite"]),
    (["fit", WHEEL, PULLEY, "--units", "cubits"], ["--units", "mm, in or frac"]),
    (["fit", WHEEL, PULLEY, "--draw", "no/such/folder/lugs.svg"], ["--draw"]),
    (["fit", WHEEL, PULLEY, "--catalogue", "nonsense"], ["no database address"]),
    (["fit", WHEEL, PULLEY, "--catalogue", "mongodb://there"], ["mongodb"]),
    (["fit", "no-such-file.yaml", PULLEY], ["no-such-file.yaml", "cannot be read"]),
    (["show", "nothing-of-the-kind"], ["nothing-of-the-kind"]),
    (["rules", "core_windows.lugs_indx"], ["core_windows.lugs_index"]),
    (["find", "--class", "weel", "--fits", PULLEY], ["`wheel`"]),
    (["find", "--class", "wheel", "--fits", "nothing"], ["'nothing'"]),
    (["tables", "no-such-folder"], ["no-such-folder"]),
    (["fit"], ["parts"]),
    (["fit", "--wrong"], ["--wrong"]),
    (["fit", WHEEL, PULLEY, "--reading"], ["--reading"]),
    (["frobnicate"], ["frobnicate"]),
    (["serve", "--port", "99999"], ["--port"]),
    ([], ["Usage"]),
]


@pytest.mark.parametrize(("words", "said"), MALFORMED, ids=range(len(MALFORMED)))
def test_a_malformed_question_is_64_and_says_what_and_where(run: Run, words: list[str], said: list[str]) -> None:
    code, _, err = run(*words)
    assert code == 64
    assert all(word in err for word in said), err
    assert len(err) < 2000, "a person reads this"


CROSSED = "part: {id: mine, class: wheel, source: caliper, readings: {outline: {rings: [[[0,0],[9,9],[9,0],[0,9]]]}}}"
# The name and the content of a part file, and what a person has to be told.
FILES: list[tuple[str, str | bytes, list[str]]] = [
    ("wrong.yaml", part_file(windw_width="9"), ["row 6", "`window_width`"]),
    ("wrong.yaml", part_file(window_width="9 furlongs"), ["row 6", "`furlongs`"]),
    ("wrong.yaml", part_file(outer_diameter="-90 mm"), ["row 6", "between 30 and 400 mm"]),
    ("wrong.yaml", part_file(outer_diameter="90 m"), ["row 6", "impossible"]),
    ("wrong.yaml", part_file(outer_diameter=".nan"), ["row 6", "finite"]),
    ("wrong.yaml", part_file(outer_diameter=".inf"), ["row 6", "finite"]),
    ("wrong.yaml", part_file(outer_diameter="90 @crystal_ball"), ["row 6", "crystal_ball"]),
    ("wrong.yaml", part_file(outer_diameter="90").replace("wheel", "weel"), ["row 3", "`wheel`"]),
    ("port.yaml", part_file(outer_diameter="90") + "  ports: {seet: seat-608}\n", ["row 7", "`seat`"]),
    ("crossed.yaml", CROSSED, ["crosses or touches itself", "edge 1"]),
    ("control.yaml", "part:\n  id: a\x07b\n", ["row 2", "U+0007"]),
    ("control.json", '{"part": {"id": "a\\u0000b", "class": "wheel"}}', ["invisible character"]),
    ("bytes.yaml", bytes(range(128, 256)), ["not UTF-8"]),
    ("huge.yaml", "part:\n  title: " + "x" * 10_000_000, ["larger than 1 MB"]),
    ("deep.json", '{"part":' + "[" * 20_000 + "]" * 20_000 + "}", ["nested more than"]),
    ("deep.json", '{"part":' + '{"a":' * 20_000 + "1" + "}" * 20_001, ["nested more than"]),
    ("deep.yaml", "part: " + "[" * 20_000 + "]" * 20_000, ["nested more than"]),
    ("repeats.yaml", "part: &a {id: b}\nparts: [*a, *a]\n", ["repeats another place"]),
    ("tag.yaml", "part: !!python/object/apply:os.getcwd []\n", ["tag"]),
    ("empty.yaml", "", ["holds nothing"]),
    ("half.json", '{"part": {"id": "a",', ["neither YAML nor JSON"]),
    ("twice.yaml", part_file(width="50", outer_diameter="90") + "    width: 51\n", ["row 8", "twice"]),
]


@pytest.mark.parametrize(("name", "content", "said"), FILES, ids=[f"{n} {said[-1]}" for n, _, said in FILES])
def test_a_malformed_file_is_told_with_row_and_reason(
    run: Run, tmp_path: Path, name: str, content: str | bytes, said: list[str]
) -> None:
    (tmp_path / name).write_bytes(content if isinstance(content, bytes) else content.encode())
    code, _, err = run("fit", name, PULLEY)
    assert code == 64
    assert name in err and all(word in err for word in said), err
    assert len(err) < 2000, "a person reads this"


def test_every_fault_of_the_parts_and_of_a_file_is_told_at_once(run: Run, tmp_path: Path) -> None:
    (tmp_path / "mine.yaml").write_text(part_file(windw_width="9", width="9 furlongs"), encoding="utf-8")
    words = ("fit", "mine.yaml", "nothing", "--with", "spacer", "--with", "nut=none", "--reading", "x", "--limit", "y")
    code, _, err = run(*words)
    assert code == 64
    assert "(7 faults)" in err, err


def test_every_fault_of_readings_and_limits_is_told_at_once(run: Run) -> None:
    readings = ("--reading", "nobody.width=1", "--reading", "wheel.nothing=2", "--reading", "wheel.window_width=9 kg")
    code, _, err = run("fit", WHEEL, PULLEY, *readings, "--limit", "no_such.limit=1")
    assert code == 64
    assert all(word in err for word in ("'nobody'", "'nothing'", "kg", "no_such.limit")), err


def test_parts_that_do_not_meet_are_an_answer(run: Run) -> None:
    code, out, _ = run("fit", "rider-60", "fuse-blade-30-32v")
    assert code == 2
    assert out.startswith("NOT ASKED") and "no permission" in out
    told = json.loads(run("fit", "rider-60", "fuse-blade-30-32v", "--json")[1])
    assert told["meets"] is False and told["joints"] == []


def test_a_part_against_nothing_is_an_answer(run: Run) -> None:
    code, out, _ = run("fit", WHEEL)
    assert code == 2
    assert out.startswith("NOT ASKED")


def test_a_missing_decisive_reading_is_named_and_no_fault(run: Run) -> None:
    code, out, _ = run("fit", UNREAD, PULLEY)
    assert code == 2
    assert "window_width" in out


def test_taking_a_reading_away_never_makes_it_fit(run: Run) -> None:
    assert run("fit", WHEEL, PULLEY)[0] == 0
    code, out, _ = run("fit", WHEEL, PULLEY, "--reading", "wheel.window_width=unknown")
    assert code == 2
    assert "window_width" in out


@pytest.mark.parametrize(("width", "code"), (("9.0 +-0.1 mm", 0), ("7 mm", 1), ("8.7 +-0.2 mm", 2)))
def test_the_exit_code_is_the_verdict(run: Run, width: str, code: int) -> None:
    assert run("fit", WHEEL, PULLEY, "--reading", f"wheel.window_width={width}")[0] == code


def test_a_named_remedy_is_exit_code_3(run: Run) -> None:
    assert run("fit", "wheel-90-five-window", PULLEY)[0] == 3


@pytest.mark.parametrize("fault", (OurFault("a rule broke"), RuntimeError("unforeseen"), RecursionError("too deep")))
def test_a_fault_of_ours_is_70_and_shows_no_trace(run: Run, monkeypatch: pytest.MonkeyPatch, fault: Exception) -> None:
    def broken(*_: object) -> None:
        raise fault

    monkeypatch.setattr("fitdb.fit.ask", broken)
    code, _, err = run("fit", WHEEL, PULLEY)
    assert code == 70
    assert "our fault, not yours" in err and str(fault) in err


def test_the_front_door_raises_malformed_with_every_problem_and_its_place(address: str) -> None:
    with pytest.raises(Malformed) as raised:
        ask(address, ["nothing", WHEEL], ["spacer"], ["wheel.window_width"], ["key"])
    assert [problem.path for problem in raised.value.problems] == ["/parts/0", "/with/0", "/reading/0", "/limit/0"]
    assert all(problem.code and problem.message for problem in raised.value.problems)


def test_a_real_run_shows_no_trace_and_leaves_the_folder_empty(address: str, tmp_path: Path) -> None:
    environment = {**os.environ, "FITDB_URL": address, "HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path)}
    command = [PROGRAM, "fit", "nothing", PULLEY]
    ended = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)
    assert (ended.returncode, ended.stdout) == (64, "")
    assert "Traceback" not in ended.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "stream", "code"), ((["fit", WHEEL, PULLEY], "stdout", 0), (["fit", "x"], "stderr", 64))
)
def test_a_reader_who_hangs_up_does_not_change_the_verdict(
    address: str, words: list[str], stream: str, code: int
) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    streams: dict[str, int] = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, stream: writer}
    try:
        ended = subprocess.run([PROGRAM, *words], env={**os.environ, "FITDB_URL": address}, check=False, **streams)  # type: ignore[call-overload]
    finally:
        os.close(writer)
    assert ended.returncode == code

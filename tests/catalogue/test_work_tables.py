"""The order of work in the tables: read back as shipped, a shop's own steps beside them, every fault at its place."""

from __future__ import annotations

import csv
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from sqlalchemy import Engine

from fitdb.catalogue import read
from fitdb.catalogue.exchange import check_import, export_directory, import_directory
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.seed import check_seed, load_seed
from fitdb.catalogue.seeding import write_seed
from fitdb.catalogue.session import writing
from fitdb.model.work import Work

STEPS, NEEDS = "work/own_steps.csv", "work/own_needs.csv"


def _heading(file: str) -> list[str]:
    with open(SEED / "work" / file, encoding="utf-8", newline="") as opened:
        return next(csv.reader(opened))


def _write(directory: Path, file: str, heading_of: str, **cells: str) -> None:
    """One row under the shipped heading; cells that are not named are empty."""
    path = directory / file
    path.parent.mkdir(parents=True, exist_ok=True)
    heading = _heading(heading_of)
    assert set(cells) <= set(heading), set(cells) - set(heading)
    fresh = not path.exists()
    with open(path, "a", encoding="utf-8", newline="") as opened:
        rows = csv.writer(opened)
        if fresh:
            rows.writerow(heading)
        rows.writerow([cells.get(name, "") for name in heading])


def own_step(directory: Path, own: str, **cells: str) -> None:
    plain = {
        "phase": "undo", "title": own, "does": "Do it.", "per": "board", "present": "*", "low [min]": "1",
        "usual [min]": "2", "high [min]": "3", "wait [h]": "0", "electrical": "no", "gate": "no", "reversible": "yes",
        "source": "bench_practice",
    }  # fmt: skip
    _write(directory, STEPS, "steps.csv", **{"id": own, **plain, **cells})


def own_need(directory: Path, step: str, needs: str, **cells: str) -> None:
    plain = {"if": "always", "source": "bench_practice"}
    _write(directory, NEEDS, "needs.csv", **{"step": step, "needs": needs, **plain, **cells})


def test_the_shipped_order_of_work_is_read_back(seeded_engine: Engine) -> None:
    with seeded_engine.connect() as connection:
        work = read.work(connection)
        assert read.book(connection).work == work
    assert work == load_seed().work
    assert {"isolate", "belt_off", "phase_leads_unplugged", "truck_off"} <= set(work.steps)
    assert all(step.source for step in work.steps.values()) and all(need.source for need in work.needs)


@pytest.fixture
def shipped(engine: Engine) -> Engine:
    """The shipped tables in a catalogue of the test's own, on both databases."""
    with writing(engine).begin() as connection:
        write_seed(connection, load_seed())
    return engine


def test_a_shop_adds_its_own_step(shipped: Engine, tmp_path: Path) -> None:
    own_step(tmp_path, "belt_washed", title="Belt washed", seats="belt", present="", per="place")
    own_need(tmp_path, "belt_washed", "belt_off")
    own_need(tmp_path, "driven_wheel_off", "belt_washed")
    assert check_import(shipped, tmp_path) == ()
    import_directory(shipped, tmp_path)
    work = _work(shipped)
    assert work.steps["belt_washed"].minutes.high == 3
    assert ("driven_wheel_off", "belt_washed") in {(need.step, need.needs) for need in work.needs}
    with writing(shipped).begin() as connection:  # new shipped tables leave a person's rows alone
        write_seed(connection, load_seed())
    assert _work(shipped).steps["belt_washed"] == work.steps["belt_washed"]


def test_exported_tables_can_be_loaded_again(shipped: Engine, tmp_path: Path) -> None:
    export_directory(shipped, tmp_path)
    assert load_seed(tmp_path).work == _work(shipped)


def _work(engine: Engine) -> Work:
    with engine.connect() as connection:
        return read.work(connection)


def _replaced(file: str, old: str, new: str) -> Callable[[Path], None]:
    def spoil(directory: Path) -> None:
        path = directory / file
        text = path.read_text(encoding="utf-8")
        assert old in text, f"{file} has no {old!r}"
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    return spoil


def _appended(file: str, row: str) -> Callable[[Path], None]:
    def spoil(directory: Path) -> None:
        with open(directory / file, "a", encoding="utf-8") as opened:
            opened.write(row + "\n")

    return spoil


SHIPPED_NEEDS, TRIALS, FASTENINGS = "work/needs.csv", "work/trials.csv", "work/fastenings.csv"
# What is spoilt, and the one fault that follows: code, file and column.
FAULTS: dict[str, tuple[Callable[[Path], None], str, str, str]] = {
    "a step that nobody knows": (_appended(SHIPPED_NEEDS, "belt_off,belt_of,always,,bench_practice"), "unknown_id",
                                 SHIPPED_NEEDS, "needs"),
    "a condition that nobody decides": (_appended(SHIPPED_NEEDS, "belt_off,isolate,on_sundays,,bench_practice"),
                                        "bad_cell", SHIPPED_NEEDS, "if"),
    "a step before itself": (_appended(SHIPPED_NEEDS, "binding_off,binding_off,always,,bench_practice"),
                             "circular_need", SHIPPED_NEEDS, "needs"),
    "taking apart waits for putting together": (_appended(SHIPPED_NEEDS, "belt_off,belt_on,always,,bench_practice"),
                                                "two_directions", SHIPPED_NEEDS, "needs"),
    "an electrical step that nothing makes dead": (
        _replaced(SHIPPED_NEEDS, "pack_out,pack_unplugged,always,,bench_practice\n", ""), "no_gate",
        "work/steps.csv", "id"),
    "a seat that no board has": (_appended("work/carriers.csv", "belts,hanger,bench_practice"), "unknown_id",
                                 "work/carriers.csv", "seat"),
    "an attribute that nothing there has": (_appended("work/laid_bare.csv", "belt_off,belt,colour,bench_practice"),
                                            "unknown_id", "work/laid_bare.csv", "attribute"),
    "a caution that nobody wrote": (_replaced("work/steps.csv", "hot_screw no_prying", "hot_screw no_pryin"),
                                    "unknown_id", "work/steps.csv", "cautions"),
    "no source": (_replaced("work/torques.csv", "motor_screws,m4,2,2.5,bench_practice", "motor_screws,m4,2,2.5,"),
                  "no_source", "work/torques.csv", "source"),
    "torque upside down": (_replaced("work/torques.csv", "motor_screws,m4,2,2.5", "motor_screws,m4,2.5,2"),
                           "low_above_high", "work/torques.csv", "low [N m]"),
    "a count of something that has none": (_replaced(FASTENINGS, "motor_mount.clamp_screws", "motor_mount.screws"),
                                           "unknown_id", FASTENINGS, "counts"),
    "a joint that is none": (_replaced(TRIALS, "J08 J09", "J8 J09"), "bad_cell", TRIALS, "back_to"),
    "a test that has nothing to show": (lambda directory: _without(directory / TRIALS, "lean_test,"), "no_trial",
                                        "work/steps.csv", "id"),
}  # fmt: skip


def _without(path: Path, start: str) -> None:
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    path.write_text("".join(line for line in lines if not line.startswith(start)), encoding="utf-8")


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_told_with_its_place(name: str, tmp_path: Path) -> None:
    spoil, code, file, column = FAULTS[name]
    directory = Path(shutil.copytree(SEED, tmp_path / "tables"))
    spoil(directory)
    faults = check_seed(directory)
    assert [(one.code, one.file, one.column) for one in faults] == [(code, file, column)], [str(one) for one in faults]
    assert faults[0].row is not None


def test_a_circle_through_an_own_step_is_refused(shipped: Engine, tmp_path: Path) -> None:
    own_step(tmp_path, "belt_washed")
    own_need(tmp_path, "belt_washed", "driven_wheel_off")
    own_need(tmp_path, "belt_off", "belt_washed")
    faults = check_import(shipped, tmp_path)
    assert {one.code for one in faults} == {"circular_need"}
    assert {one.file for one in faults} == {NEEDS}


def test_minutes_and_followers_of_an_own_step_are_looked_at(shipped: Engine, tmp_path: Path) -> None:
    own_step(tmp_path, "hurried", **{"low [min]": "9"})
    own_step(tmp_path, "follows", after="belt_off")
    own_step(tmp_path, "idle_hands", present="")
    told = {(one.row, one.code, one.column) for one in check_import(shipped, tmp_path)}
    assert told == {(2, "low_above_high", "low [min]"), (3, "bad_cell", "after"), (4, "no_seat", "seats")}

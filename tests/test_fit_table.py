"""The table of pairs refuses only what the judge calls a clash, and says of every pair what the judge says."""

from __future__ import annotations

import dataclasses
import itertools
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, func, select

from fitdb.board import BoardJudge
from fitdb.catalogue import read, tables
from fitdb.catalogue.fit_answers import FitAnswer, answers_with, store_answers
from fitdb.catalogue.session import open_catalogue, writing
from fitdb.catalogue.write import save_part
from fitdb.fit import LOOSE
from fitdb.fit_table import REFUSES, FitTable, PurePair, fill_fit_table, stamp_of
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.source import Source
from fitdb.rules import rulebook

Catalogue = tuple[Engine, read.Book, dict[str, list[Part]]]


@pytest.fixture(scope="module")
def table(sqlite_catalogue: Catalogue) -> FitTable:
    return FitTable(sqlite_catalogue[1], rulebook())


@pytest.fixture(scope="module")
def pairs(table: FitTable, sqlite_catalogue: Catalogue) -> tuple[PurePair, ...]:
    return table.all_pairs(sqlite_catalogue[1].patterns[LOOSE])


def test_the_rules_of_the_plainest_joints_are_pure(pairs: tuple[PurePair, ...]) -> None:
    """Lugs and windows, belt teeth, bores and shafts, plugs: two ports and nothing else."""
    pure = {rule.id for pair in pairs for rule in pair.rules}
    assert {
        "core_windows.lugs_enter",
        "core_windows.lugs_index",
        "belt_teeth.pitch_agrees",
        "pulley_bore.bore_takes_shaft",
        "charge_port.polarity_equal",
        "phase_bullets.diameters_agree",
    } <= pure
    assert not pure & {"wheel_bite.clears_at_full_lean", "belt_length.slot_has_room"}


def real_parts(by_class: dict[str, list[Part]], part_class: str, port: str, interface: str) -> list[Part]:
    return [part for part in by_class.get(part_class, []) if port in part.ports and part.ports[port].id == interface]


def test_every_pair_of_the_shipped_catalogue_says_what_the_judge_says_of_real_parts(
    sqlite_catalogue: Catalogue, table: FitTable, pairs: tuple[PurePair, ...]
) -> None:
    """Real parts have sizes of their own and other ports as well: none of these may come in."""
    engine, book, by_class = sqlite_catalogue
    judge = BoardJudge(book.patterns[LOOSE], book, rulebook(), book.limits)
    tried = refused = 0
    with engine.connect() as connection:
        for pair in pairs:
            firsts = table.interfaces(connection, pair.first.kind).values()
            seconds = table.interfaces(connection, pair.second.kind).values()
            for first, second in itertools.product(firsts, seconds):
                said = table.asked(pair, first, second)
                one = real_parts(by_class, pair.first.part_class, pair.first.port, first.id)[:1]
                other = real_parts(by_class, pair.second.part_class, pair.second.port, second.id)[:1]
                for part, another in itertools.product(one, other):
                    seated = in_seats(judge, pair, part, another)
                    for rule, state in said.items():
                        found = judge.stood_on(pair.line.id, rule, seated)
                        assert found and all(one.state == state for one in found), (rule, part.id, another.id)
                        tried += 1
                    refused += REFUSES in said.values()
    assert tried > 1_200 and refused > 200


def in_seats(judge: BoardJudge, pair: PurePair, part: Part, another: Part) -> dict[str, Piece]:
    """The two parts in seats of their roles; a line is told with what else its single roles need left to chance."""
    seats: dict[str, Piece] = {}
    for end, one in ((pair.first, part), (pair.second, another)):
        role = pair.line.role(end.role)
        assert role is not None
        seat = next(
            seat
            for seat in role.seats
            if seat not in seats
            and set(judge.pattern.seats[seat].classes) & set(judge.book.table.line_of(one.part_class))
        )
        seats[seat] = Piece(seat, one)
    for role in pair.line.roles:
        if role.how == "single" and not any(seat in seats for seat in role.seats):
            taken = judge.pattern.seats[role.seats[0]].classes[0]
            seats[role.seats[0]] = Piece(
                role.seats[0], Part("-", taken, "", {}, {}, Source("-", "default", "-", "derived"))
            )
    return seats


def test_what_is_refused_clashes_and_what_clashes_by_a_pure_rule_is_refused(
    sqlite_catalogue: Catalogue, table: FitTable
) -> None:
    """Whole parts of the shipped catalogue against each other, as a list of fitting parts would judge them."""
    engine, book, by_class = sqlite_catalogue
    pattern = book.patterns[LOOSE]
    tried = 0
    for known_class, seat, wanted_class, wanted_seat in (
        ("driven_pulley", "driven_pulley", "wheel", "wheel"),
        ("motor", "motor", "drive_pulley", "drive_pulley"),
        ("motor", "motor", "motor_mount", "motor_mount"),
        ("charger", "charger", "charge_port", "charge_port"),
        ("deck", "deck", "enclosure", "enclosure"),
        ("receiver", "receiver", "controller", "controller"),
    ):
        for known in by_class[known_class][:6]:
            judge = BoardJudge(pattern, book, rulebook(), book.limits)
            seated = {seat: Piece(seat, known)}
            base = judge.judge(seated.values())
            meetings = table.meetings(pattern, seated, wanted_seat, wanted_class)
            with engine.connect() as connection:
                refused = table.refused(connection, meetings, thorough=True)
                quickly = FitTable(book, rulebook()).refused(connection, meetings)
            assert all(quickly[port] <= refused[port] for port in quickly)
            pure = {rule.id for meeting in meetings for rule in meeting.pair.rules}
            for part in by_class[wanted_class]:
                joints = judge.again(base, {wanted_seat: Piece(wanted_seat, part)}).joints
                failing = {one.rule.id for joint in joints for one in joint.findings if one.state == "fails"}
                ruled_out = any(part.ports[port].id in some for port, some in refused.items() if port in part.ports)
                assert ruled_out == bool(failing & pure), (known.id, part.id, failing & pure)
                tried += 1
    assert tried > 200


# --- what is stored --------------------------------------------------------------------------------------------


@pytest.fixture
def own(sqlite_catalogue: Catalogue, tmp_path: Path) -> str:
    file = tmp_path / "own.sqlite"
    shipped, copy = sqlite3.connect(str(sqlite_catalogue[0].url.database)), sqlite3.connect(file)
    shipped.backup(copy)
    shipped.close()
    copy.close()
    return f"sqlite:///{file}"


def few_pairs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the quickest joints: geometry would take its time."""
    whole = FitTable.all_pairs

    def quick(self: FitTable, pattern: Any) -> tuple[PurePair, ...]:
        return tuple(pair for pair in whole(self, pattern) if pair.line.kind in ("charge_port", "receiver_signal"))

    monkeypatch.setattr(FitTable, "all_pairs", quick)


def stored(url: str) -> int:
    engine = open_catalogue(url)
    with engine.connect() as connection:
        count = connection.execute(select(func.count()).select_from(tables.fit_answer)).scalar_one()
    engine.dispose()
    return int(count)


def test_filling_goes_on_where_it_ended_and_asks_only_new_pairs(own: str, monkeypatch: pytest.MonkeyPatch) -> None:
    few_pairs(monkeypatch)
    none = fill_fit_table(own, seconds=0.0)
    assert none.stored == 0 and none.left > 0
    first = fill_fit_table(own, seconds=60.0)
    assert first.stored == stored(own) > 0 and first.left == 0
    assert fill_fit_table(own).stored == 0
    engine = open_catalogue(own)
    with writing(engine).begin() as connection:
        charger = read.parts_of_classes(connection, ("charger",))[0]
        plug = charger.ports["plug"]
        wider = dataclasses.replace(plug.readings["pin_diameter"], low=2.9, nominal=2.95, high=3.0, entered="2.95")
        new = dataclasses.replace(plug, id="my-plug", readings={**plug.readings, "pin_diameter": wider})
        save_part(connection, dataclasses.replace(charger, id="my-charger", ports={"plug": new}), None)
        plugs = connection.execute(
            select(func.count()).select_from(tables.interface).where(tables.interface.c.kind_id == "charge_plug")
        ).scalar_one()
    engine.dispose()
    more = fill_fit_table(own)
    assert 0 < more.stored <= (2 * plugs - 1) * 3, "the new plug in either place, three rules, and nothing else"
    assert stored(own) == first.stored + more.stored


def test_what_is_stored_is_used_and_what_has_another_stamp_is_not(own: str) -> None:
    engine = open_catalogue(own)
    with engine.connect() as connection:
        book = read.book(connection)
        pulley = read.part(connection, "driven-36-six-lug")
    assert pulley is not None
    pattern, seated = book.patterns[LOOSE], {"driven_pulley": Piece("driven_pulley", pulley)}
    right = FitTable(book, rulebook())
    with engine.connect() as connection:
        expected = right.refused(connection, right.meetings(pattern, seated, "wheel", "wheel"))
        thorough = right.refused(connection, right.meetings(pattern, seated, "wheel", "wheel"), thorough=True)
        cores = list(right.interfaces(connection, "wheel_core"))
    fitting = next(own for own in cores if own not in thorough["core"])
    lie = FitAnswer(pulley.ports["lugs"].id, fitting, "core_windows.lugs_enter", "fails")
    with writing(engine).begin() as connection:
        store_answers(connection, [lie], "another-stamp")
    stale = FitTable(book, rulebook())
    with engine.connect() as connection:
        assert answers_with(connection, fitting, stale.stamp) == ()
        assert stale.refused(connection, stale.meetings(pattern, seated, "wheel", "wheel")) == expected
    with writing(engine).begin() as connection:
        store_answers(connection, [lie], right.stamp)
    believing = FitTable(book, rulebook())
    with engine.connect() as connection:
        found = believing.refused(connection, believing.meetings(pattern, seated, "wheel", "wheel"))
    assert found["core"] == expected["core"] | {fitting}, "a stored answer under the right stamp is not asked again"
    engine.dispose()


def test_the_stamp_moves_with_limits_and_attributes(sqlite_catalogue: Catalogue) -> None:
    book = sqlite_catalogue[1]
    stamp = stamp_of(book, rulebook())
    assert stamp == stamp_of(dataclasses.replace(book, revision="r99-"), rulebook())
    assert stamp != stamp_of(dataclasses.replace(book, limits={"core_windows.lugs_enter.least": 0.4}), rulebook())
    key = ("wheel_core", "window_width")
    wider = dataclasses.replace(book.table.attributes[key], plausible=(0.0, 99.0))
    other = dataclasses.replace(book.table, attributes={**book.table.attributes, key: wider})
    assert stamp != stamp_of(dataclasses.replace(book, table=other), rulebook())
    assert len(stamp) <= 80


def test_a_limit_of_the_question_leaves_its_rule_to_the_judge(sqlite_catalogue: Catalogue, table: FitTable) -> None:
    _, book, by_class = sqlite_catalogue
    pulley = next(part for part in by_class["driven_pulley"] if part.id == "driven-36-six-lug")
    seated = {"driven_pulley": Piece("driven_pulley", pulley)}
    key = "core_windows.lugs_enter.least"
    plain = table.meetings(book.patterns[LOOSE], seated, "wheel", "wheel")
    own = table.meetings(book.patterns[LOOSE], seated, "wheel", "wheel", [key])
    assert any(rule.id == "core_windows.lugs_enter" for one in plain for rule in one.pair.rules)
    assert not any(rule.id == "core_windows.lugs_enter" for one in own for rule in one.pair.rules)


def test_somebodys_own_readings_are_not_taken_for_the_catalogues(sqlite_catalogue: Catalogue, table: FitTable) -> None:
    engine, book, by_class = sqlite_catalogue
    pulley = next(part for part in by_class["driven_pulley"] if part.id == "driven-36-six-lug")
    lugs = pulley.ports["lugs"]
    thick = dataclasses.replace(lugs.readings["lug_width"], low=19.9, nominal=20.0, high=20.1)
    mine = dataclasses.replace(lugs, readings={**lugs.readings, "lug_width": thick})
    measured = dataclasses.replace(pulley, ports={**pulley.ports, "lugs": mine})
    with engine.connect() as connection:
        cores = table.interfaces(connection, "wheel_core")
        for part, all_refused in ((pulley, False), (measured, True), (pulley, False)):
            seated = {"driven_pulley": Piece("driven_pulley", part)}
            refused = table.refused(connection, table.meetings(book.patterns[LOOSE], seated, "wheel", "wheel"))
            read_widths = {own for own, one in cores.items() if "window_width" in one.readings}
            assert (read_widths <= refused["core"]) == all_refused


def test_when_time_is_over_nothing_more_is_refused(sqlite_catalogue: Catalogue) -> None:
    engine, book, by_class = sqlite_catalogue
    fresh = FitTable(book, rulebook())
    seated = {"driven_pulley": Piece("driven_pulley", by_class["driven_pulley"][0])}
    with engine.connect() as connection:
        meetings = fresh.meetings(book.patterns[LOOSE], seated, "wheel", "wheel")
        assert fresh.refused(connection, meetings, lambda: True) == {}
        assert fresh.refused(connection, meetings) != {}


def test_answers_are_stored_once_on_both_databases(seeded_engine: Engine) -> None:
    with seeded_engine.connect() as connection:
        ids = [one.id for one in read.interfaces(connection, kinds=("charge_plug",), limit=2)]
        transaction = connection.get_transaction()
        one = FitAnswer(ids[0], ids[1], "charge_port.form_equal", "fails")
        gone = FitAnswer(ids[0], "none-such", "charge_port.form_equal", "fails")
        assert store_answers(connection, [one, one, gone], "trial") == 1
        assert store_answers(connection, [one], "trial") == 0
        assert answers_with(connection, ids[1], "trial") == (one,)
        assert answers_with(connection, ids[1], "other") == ()
        assert transaction is not None
        connection.rollback()

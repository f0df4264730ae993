"""What the finished board will do, asked as whole plans: what limits it, what a swap does, what would change it."""

from __future__ import annotations

import copy
import dataclasses
import json
import math
import random
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from random_boards import fill, plain
from scipy.integrate import quad
from sqlalchemy import Engine

from fitdb.board import with_moved
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_document
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.verdict import SwapVerdict
from fitdb.ride import Foreseen, answer, foreseen
from fitdb.rules import rulebook
from fitdb.steps.explain import Display
from fitdb.steps.explain.rides import ride_document
from fitdb.steps.foresee import foresee
from fitdb.steps.foresee.choices import choices
from fitdb.steps.foresee.draws import Memory
from fitdb.swap import Budget, judge_of, stock_in, swap
from fitdb.workshop import BoardWorkshop
from fitdb.would_change import WouldChange, would_change

PLANS = Path(__file__).parents[1] / "seed_parts" / "plans"
ASIDE = ("wish", "stock", "buy", "most_moves", "keep_as_is", "readings")
Catalogue = tuple[Engine, read.Book, Mapping[str, list[Part]]]
G = 9.80665


@dataclasses.dataclass(frozen=True)
class Asked:
    """One plan asked: its document, and what stands behind it."""

    told: dict[str, Any]
    verdict: SwapVerdict
    boards: dict[str, Foreseen]

    def figure(self, own: str) -> dict[str, Any]:
        return next(figure for figure in self.told["figures"] if figure["id"] == own)

    def lead(self, words: str) -> str:
        return next((line for line in self.told["lead"] if words in line), "")


@pytest.fixture(scope="module")
def asking(sqlite_catalogue: Catalogue) -> Callable[..., Asked]:
    """Asks plans on the river board; each only once. Nothing is searched for: only the ride is of interest here."""
    engine, book, _ = sqlite_catalogue
    river = yaml.safe_load((PLANS / "river-path.yaml").read_text(encoding="utf-8"))
    river = {"on" if key is True else key: value for key, value in river.items() if key not in ASIDE}
    known: dict[str, Asked] = {}

    def ask(plan: str, on: dict[str, Any], board: dict[str, Any] | None = None, **more: Any) -> Asked:
        if plan not in known:
            document = {**copy.deepcopy(river), "plan": plan, "title": plan, "on": on, **more}
            document["board"].update(board or {})
            with engine.connect() as connection:
                asked, stock = plan_of_document(connection, book, document), stock_in(connection)
                verdict = swap(asked, book, rulebook(), lambda part_class: (), Budget(nodes=2, seconds=1.0, more=0.1))
                told = answer(verdict, book, rulebook(), stock, Display())
            known[plan] = Asked(
                told, verdict, foreseen(verdict, judge_of(verdict.plan, book, rulebook()), charts=False)
            )
        return known[plan]

    return ask


def middle(figure: Mapping[str, Any], board: str) -> float:
    return float(figure[board]["nominal"])


# --- motors that the pack holds back -----------------------------------------------------------------------------


def bigger_motors(asking: Callable[..., Asked]) -> Asked:
    """63 mm motors of the same speed constant, 62 mm long in place of 50, fed with 2 x 15 A as before."""
    return asking("bigger-motors-same-pack", {"motor": "motor-63x62-170-closed"})


def test_bigger_motors_on_a_pack_that_limits_are_said_to_add_nothing(asking: Callable[..., Asked]) -> None:
    asked = bigger_motors(asking)
    line, pull = asked.lead("add nothing at speed"), asked.figure("pull_at_speed")
    assert "pack current (30 A in all)" in line
    assert pull["before"]["text"] in line
    assert pull["as_asked"]["text"] in line
    assert 0.0 <= pull["difference"]["nominal"] <= 3.0


def test_that_pull_is_what_thirty_amperes_give_by_the_balance_of_powers(asking: Callable[..., Asked]) -> None:
    """F·v = η·(P·η_c − n·R·I² − n·E·I₀ ...), solved here for the motor current with numpy's roots; statics and Ohm."""
    asked = bigger_motors(asking)
    for board, ohms, idle in (("before", 0.058, 1.3), ("as_asked", 0.055, 1.5)):
        ride = asked.boards[board].ride
        assert ride is not None
        speed = ride.pulled
        volts = 10.0 * 3.7509 - 30.0 * (10.0 / 3.0 * 16.0 + 15.0) / 1000.0
        back = 9.5493 / 170.0 * speed / 0.045 * 2.4
        warm = 1.2 * ohms
        # Two motors: 2·(E·I + R·I²) = 30 A · volts · 0.97, of which the current without load pulls nothing.
        amps = max(np.roots([2.0 * warm, 2.0 * back, -30.0 * volts * 0.97]).real)
        pull = 2.0 * 9.5493 / 170.0 * (amps - idle) * 2.4 * 0.92 / 0.045
        assert middle(asked.figure("pull_at_speed"), board) == pytest.approx(pull, rel=2e-3)


def test_pull_at_speed_is_told_at_one_speed_for_both_boards(asking: Callable[..., Asked]) -> None:
    """Larger wheels reach more; a pull at another speed could not be held against the one before."""
    asked = larger_wheels(asking)
    rides = [one.ride for one in asked.boards.values()]
    assert all(ride is not None for ride in rides)
    assert len({ride.pulled for ride in rides if ride is not None}) == 1
    least = min(middle(asked.figure("top_speed_half"), board) for board in ("before", "as_asked"))
    assert f"{0.75 * least:.0f} km/h" in asked.figure("pull_at_speed")["title"]


# --- a pack that is too small to brake with ----------------------------------------------------------------------


def small_pack(asking: Callable[..., Asked]) -> Asked:
    """12 cells twice in parallel, 2 x 4 A of braking charge, ridden at 35 km/h."""
    on = {"pack": "pack-12s2p-21700-energy", "controller": "controller-double-75v-60-set-12s"}
    return asking("small-pack-to-brake-with", on, wish={"riding_speed": "35 km/h"})


def test_a_pack_too_small_to_brake_with_says_how_far_it_stops_and_what_ends_the_brake(
    asking: Callable[..., Asked],
) -> None:
    asked = small_pack(asking)
    line, way = asked.lead("brakes weakly"), asked.figure("stopping_distance")
    assert way["as_asked"]["text"] in line
    assert way["as_asked"]["text"].endswith(" m")
    assert "35 km/h" in line
    assert "charging current" in line and "8 A in all" in line
    assert asked.figure("rolling_out")["as_asked"]["text"] in line


def test_that_way_is_what_quadrature_over_the_balance_of_powers_finds(asking: Callable[..., Asked]) -> None:
    """s = v·t + ∫ m·v/F dv with F from 8 A at the terminals, windings and controllers at their middle; 91 kg."""
    volts, ohms = 12.0 * 3.7509, (12.0 / 2.0 * 28.0 + 15.0) / 1000.0
    taken = 8.0 * (volts + 8.0 * ohms) / 0.97

    def slows(speed: float) -> float:
        back = 9.5493 / 170.0 * speed / 0.045 * 2.4
        warm, most = 0.058 * 1.2, 60.0 * 0.8
        root = (2.0 * back) ** 2 - 8.0 * warm * taken
        amps = most if root <= 0.0 else min(most, (2.0 * back - math.sqrt(root)) / (4.0 * warm))
        brake = 2.0 * 9.5493 / 170.0 * amps * 2.4 / 0.045
        held = 0.65 * 91.0 * G * 0.62 / (1.0 + 0.65 * 1000.0 / 480.0)
        return (min(brake, held) + 91.0 * G * 0.02 + 0.6 * 0.55 * speed * speed) / 91.0

    fast = 35.0 / 3.6
    way = fast * 1.0 + quad(lambda v: v / slows(v), 0.0, fast, limit=500)[0]
    assert middle(asked_way := small_pack(asking).figure("stopping_distance"), "as_asked") == pytest.approx(
        way, rel=0.03
    )
    assert asked_way["as_asked"]["low"] < way < asked_way["as_asked"]["high"]


def test_a_braking_charge_that_nobody_read_is_not_taken_for_no_limit(asking: Callable[..., Asked]) -> None:
    """A controller of whose settings none was read: a range with its reason, and what to read."""
    asked = asking("charge-unread", {"controller": "controller-single-60v-60"})
    brake = asked.figure("brake_deceleration")
    assert "Nobody has read the charging current" in brake["note"]
    assert "Nobody has read the charging current" in asked.figure("stopping_distance")["note"]
    assert brake["as_asked"]["high"] - brake["as_asked"]["low"] > 0.2
    ride = asked.boards["as_asked"].ride
    assert ride is not None
    # Half of the capacity per hour, 12 Ah with 0.95 of it there.
    assert float(ride.half.supply.charge[0]) == pytest.approx(0.5 * 12.0 * 0.95)


# --- larger wheels ----------------------------------------------------------------------------------------------------


def larger_wheels(asking: Callable[..., Asked]) -> Asked:
    """100 mm in place of 90, with controllers that no speed ceiling holds back."""
    return asking(
        "wheels-100", {"wheel": "wheel-100-six-window"}, board={"controller": "controller-double-75v-set-hard"}
    )


def test_larger_wheels_are_told_as_faster_and_weaker_by_their_diameters(asking: Callable[..., Asked]) -> None:
    """Kinematics: 100/90 = +11.1 % without load; statics: 90/100 = −10 % of pull; loaded it gains less."""
    asked = larger_wheels(asking)
    faster, weaker = asked.lead("Top speed"), asked.lead("Pull from rest")
    assert "+9 %" in faster
    assert "-10 %" in weaker
    assert asked.figure("unloaded_speed")["difference"]["nominal"] == pytest.approx(100.0 * (100 / 90 - 1), abs=0.01)
    assert asked.figure("pull")["difference"]["nominal"] == pytest.approx(-10.0, abs=0.01)
    assert 5.0 < asked.figure("top_speed_half")["difference"]["nominal"] < 11.1
    assert asked.figure("grade_start")["difference"]["nominal"] < 0.0


def test_what_both_boards_have_in_common_falls_out_of_the_difference(asking: Callable[..., Asked]) -> None:
    """The pull of either board spreads by some 8 %; their ratio is that of two diameters that were read."""
    pull = larger_wheels(asking).figure("pull")
    spread = (pull["before"]["high"] - pull["before"]["low"]) / pull["before"]["nominal"]
    assert spread > 0.05
    assert pull["difference"]["high"] - pull["difference"]["low"] < 1.5


def test_the_way_to_stop_is_told_from_one_speed_for_both_boards(asking: Callable[..., Asked]) -> None:
    """From the faster of both: what one wants to know is how far the new board goes from where it gets to."""
    asked = larger_wheels(asking)
    most = max(middle(asked.figure("top_speed_half"), board) for board in ("before", "as_asked"))
    assert f"from {most:.0f} km/h" in asked.figure("stopping_distance")["title"]


# --- the document ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("plan", [bigger_motors, small_pack, larger_wheels])
def test_every_number_has_a_unit_a_range_and_a_source(plan: Any, asking: Callable[..., Asked]) -> None:
    told = plan(asking).told
    json.dumps(told, allow_nan=False)
    for figure in told["figures"]:
        last = figure[told["boards"][-1]]
        if last is None:
            assert figure["unknown"], figure["id"]
            continue
        assert last["low"] <= last["nominal"] <= last["high"], figure["id"]
        assert figure["source"], figure["id"]
        assert figure["unit"] or figure["id"] == "ratio"
        assert not any(word in figure["sentence"] for word in ("nan", "inf ", "None"))


@pytest.mark.parametrize("plan", [bigger_motors, small_pack, larger_wheels])
def test_no_sentence_calls_a_board_safe_or_legal(plan: Any, asking: Callable[..., Asked]) -> None:
    words = json.dumps(plan(asking).told).lower()
    assert " safe" not in words
    assert "legal" not in words


def test_volts_over_the_ride_end_where_the_range_ends(asking: Callable[..., Asked]) -> None:
    """The chart and the figure are of one discharge: the way at which the line ends is the range, within its points."""
    asked = larger_wheels(asking)
    chart = next(chart for chart in asked.told["charts"] if chart["id"] == "volts")
    line = next(one for one in chart["series"] if one["board"] == "as_asked" and one["role"] == "main")
    assert line["x"][-1] == pytest.approx(middle(asked.figure("range"), "as_asked"), rel=0.02)


# --- what would change it ----------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def changes(
    asking: Callable[..., Asked], sqlite_catalogue: Catalogue
) -> list[tuple[Asked, BoardWorkshop, Any, WouldChange]]:
    """Every change that is told of three boards, with the workshop it was tried in."""
    engine, book, _ = sqlite_catalogue
    found = []
    for plan in (bigger_motors, small_pack, larger_wheels):
        asked = plan(asking)
        last = list(asked.boards.values())[-1]
        assert last.ride is not None
        judge = judge_of(asked.verdict.plan, book, rulebook())
        board = judge.judge(last.seated.values())
        with engine.connect() as connection:
            stood = judge.judge(asked.verdict.plan.before)
            shop = BoardWorkshop(judge, asked.verdict.plan, board, stood, stock_in(connection))
            told = would_change(shop, board, last.ride, book.table, lambda: False)
        found += [(asked, shop, board, one) for one in told]
    return found


def test_some_changes_are_told(changes: list[Any]) -> None:
    assert changes


def test_no_change_makes_anything_fail_or_fail_by_more(changes: list[Any], sqlite_catalogue: Catalogue) -> None:
    """Judged again from scratch, by the steps alone, nothing remembered: every joint, touched or not."""
    _, book, _ = sqlite_catalogue

    def failing(asked: Asked, seated: dict[str, Any]) -> dict[tuple[str, str], float]:
        plan = asked.verdict.plan
        before = {piece.seat: piece for piece in plan.before}
        told = plain(book.patterns[plan.pattern], book, rulebook(), before, seated)
        return {
            (joint.joint.id, one.rule.id): one.margin.low if one.margin else 0.0
            for joint in told
            for one in joint.findings
            if one.state == "fails"
        }

    for asked, _, board, change in changes:
        moved = {piece.seat: piece for piece in change.move.pieces}
        stood, now = failing(asked, dict(board.seated)), failing(asked, dict(with_moved(board.seated, moved)))
        worse = [key for key, margin in now.items() if key not in stood or margin < stood[key] - 1e-9]
        assert not worse, (change.move.what, worse)


def test_the_per_cent_of_a_change_are_those_of_the_whole_board_foreseen_again(
    changes: list[Any], sqlite_catalogue: Catalogue
) -> None:
    """The board with the change in it, foreseen like any other, at the same speeds."""
    _, book, _ = sqlite_catalogue
    for asked, _, board, change in changes:
        ride = list(asked.boards.values())[-1].ride
        assert ride is not None
        # The speeds of the answer: the pull at three quarters of the least, the brake from the greatest.
        tops = (ride.pulled / 0.75, float(ride.ridden[0]))
        moved = {piece.seat: piece for piece in change.move.pieces}
        rows = [
            foresee("as_asked", seated, {}, book.table, charts=False, tops=tops)[1][change.figure].rows
            for seated in (board.seated, with_moved(board.seated, moved))
        ]
        assert rows[0] is not None and rows[1] is not None
        assert change.percent == pytest.approx((rows[1][0] / rows[0][0] - 1.0) * 100.0, abs=0.3), change.move.what


# --- every layout ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(3))
def test_two_boards_of_any_layout_make_a_document_of_plain_numbers(
    seed: int, asking: Callable[..., Asked], sqlite_catalogue: Catalogue
) -> None:
    """Seats filled at random on both boards, drawn alike: no exception, no number that is none, every gap explained."""
    _, book, by_class = sqlite_catalogue
    verdict = larger_wheels(asking).verdict
    for layout, pattern in book.patterns.items():
        if layout in ("loose", "board"):
            continue
        chance = random.Random(f"{layout} {seed}")
        boards: dict[str, dict[str, Piece]] = {"before": {}, "as_asked": {}}
        for seat in pattern.seats:
            for board in boards.values():
                if seat not in board and chance.random() < 0.95:
                    fill(chance, board, seat, pattern, by_class, book.table)
        memory = Memory()
        seen = {name: foresee(name, board, {}, book.table, memory=memory) for name, board in boards.items()}
        before, after = (tuple(board.values()) for board in boards.values())
        asked = dataclasses.replace(verdict.plan, pattern=layout, before=before, after=after)
        told = ride_document(
            dataclasses.replace(verdict, plan=asked, cures=()),
            {name: one[0] for name, one in seen.items()},
            {
                name: {own: rows.rows for own, rows in one[1].items() if rows.rows is not None}
                for name, one in seen.items()
            },
            (),
            choices(boards["as_asked"], ride, seen["as_asked"][3]) if (ride := seen["as_asked"][2]) else (),
            {},
            Display(),
            "2026-01-01",
        )
        text = json.dumps(told, allow_nan=False)
        assert "nan" not in text.lower().replace("nano", "")
        for figure in told["figures"]:
            assert figure["as_asked"] or figure["unknown"] or figure["before"], (layout, figure["id"])

"""How long options take, click by click: beside plain clingo, one solve per value, and the pairwise shortcut.

`pytest tests/bench/test_options_speed.py -s` prints. Sessions of up to eight clicks; each click takes one of the parts
that are possible. The catalogue is the shipped parts and seeded variants of them, so many signatures per seat. Times
are of this thread, in ms; ratios within one run are what to look at.
FITDB_SIGNATURES=30,100 FITDB_SESSIONS=4 set how large and how often, FITDB_WARM=50 how many sessions go before.
"""

from __future__ import annotations

import os
import random
import statistics
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from random_boards import parts_for

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.options import Budget, Options, Snapshot, options, options_document
from fitdb.possible.session import Session
from fitdb.rules import rulebook
from fitdb.steps.explain import Display

sys.path.insert(0, str(Path(__file__).parents[1] / "possible"))
import small_catalogues as catalogues

SIGNATURES = tuple(int(one) for one in os.environ.get("FITDB_SIGNATURES", "12").split(","))
SESSIONS = int(os.environ.get("FITDB_SESSIONS", "1"))
WARM = int(os.environ.get("FITDB_WARM", str(2 * SESSIONS)))  # a snapshot that others have asked before
PAGE = 20  # options told with each answer, as the front door does when nothing else is wanted
BUDGET = Budget(float(os.environ.get("FITDB_MILLISECONDS", "2000")))
CLICKS = 8
# Rows of a real layout that meet each other in many rules; the box is told apart, since its packing is a solver's.
DRIVE = (
    "truck",
    "wheel",
    "bearing",
    "axle_nut",
    "driven_pulley",
    "belt",
    "drive_pulley",
    "motor",
    "motor_mount",
    "motor_screw",
)
POWER = ("pack", "bms", "charger", "charge_port", "controller", "switch", "receiver", "motor")
DECK = ("deck", "truck", "deck_bolt", "deck_nut", "bushing", "wheel", "grip")
SEATS = {"drive": DRIVE, "power": POWER, "deck": DECK}


def told(line: str) -> None:
    print(line, flush=True)


@dataclass(frozen=True, slots=True)
class Took:
    """Milliseconds of one click. stand: until it is known what can stand; doubt: which of that without any doubt; page:
    until the first page is judged as a whole and told."""

    stand: float
    doubt: float
    page: float

    @property
    def together(self) -> float:
        return self.stand + self.doubt + self.page


class Clicks:
    """A catalogue of so many parts per row, and sessions on it."""

    def __init__(self, rows: Sequence[str], many: int, book: Book, by_class: Mapping[str, list[Part]]) -> None:
        chance = random.Random(f"bench {many} {rows}")
        self.book, self.rules, self.whole = book, rulebook(), tuple(rows)
        self.pattern: Pattern = book.patterns["two_wheel_belt"]
        self.by_class: dict[str, tuple[Part, ...]] = {}
        groups = catalogues.groups_of(self.pattern, book.remedies, book.table, {}, (), rows)
        for group in groups:
            described = self.pattern.seats[group.seats[0]]
            offered = [
                one
                for one in parts_for(described.classes, {k: list(v) for k, v in by_class.items()}, book.table)
                if catalogues.stands_alone(self.pattern, described.id, one, book.table, ())
            ]
            some = list(offered[:many])
            while len(some) < many:
                some.append(catalogues.varied(chance, chance.choice(offered), book.table, f"-v{len(some)}"))
            self.by_class[described.classes[0]] = tuple(some)
        seats = {seat for group in groups for seat in group.seats}
        self.pattern = catalogues.within(self.pattern, seats)
        self.groups = groups
        self.snapshot = Snapshot(self.pattern, book, self.rules, dict(book.limits))

    def parts_of_class(self, part_class: str) -> Sequence[Part]:
        return self.by_class.get(part_class, ())

    def ask(self, chosen: Mapping[str, Part], name: str, strictly: bool = True) -> Options:
        """The options for a seat. strictly: as the front door asks, also which of them stand without any doubt."""
        return options(
            self.book, self.rules, self.pattern, self.parts_of_class, chosen, name,
            budget=BUDGET, snapshot=self.snapshot, whole=self.whole, strictly=strictly,
        )  # fmt: skip

    def told(self, found: Options) -> None:
        """The first page of an answer: its boards judged as a whole, and what is undecided on them."""
        for option in found.options[:PAGE]:
            assert option.board is None or self.snapshot.stands(option.board) != "fails"
        options_document(found, Display(), self.snapshot.judged, 0, PAGE)

    def session(self, seed: int, seen: Callable[[dict[str, Part], str, Options, Took], None]) -> None:
        """Eight clicks, each on one of the parts that may stand. seen: told of each what was chosen before."""
        chance = random.Random(f"session {seed}")
        order = [group.name for group in self.groups if not group.may_be_empty]
        chance.shuffle(order)
        chosen: dict[str, Part] = {}
        for name in order[:CLICKS]:
            started = time.thread_time()
            self.ask(chosen, name, strictly=False)
            stand = time.thread_time()
            found = self.ask(chosen, name)
            proved = time.thread_time()
            self.told(found)
            ended = time.thread_time()
            seen(
                dict(chosen),
                name,
                found,
                Took(1000 * (stand - started), 1000 * (proved - stand), 1000 * (ended - proved)),
            )
            possible = [option.part for option in found.options if option.possible]
            if not possible:
                return
            chosen[name] = chance.choice(possible)


def spread(took: Sequence[float]) -> str:
    ordered = sorted(took)
    if not ordered:
        return "none"
    p95 = ordered[min(int(len(ordered) * 0.95), len(ordered) - 1)]
    return f"p50 {statistics.median(ordered):.0f}, p95 {p95:.0f}, max {ordered[-1]:.0f}"


@pytest.mark.parametrize("many", SIGNATURES)
@pytest.mark.parametrize("rows", sorted(SEATS))
def test_clicks(rows: str, many: int, sqlite_catalogue) -> None:  # type: ignore[no-untyped-def]
    _, book, by_class = sqlite_catalogue
    clicks = Clicks(SEATS[rows], many, book, by_class)
    cold: list[float] = []
    warm: list[Took] = []
    rest: list[float] = []
    verdicts: dict[str, int] = {}
    states: list[tuple[dict[str, Part], str, Options]] = []
    start = time.thread_time()
    for seed in range(WARM):
        clicks.session(1000 + seed, lambda chosen, name, found, took: cold.append(took.together))
    warmed = time.thread_time() - start

    def seen(chosen: dict[str, Part], name: str, found: Options, took: Took) -> None:
        warm.append(took)
        states.append((chosen, name, found))
        for option in found.options:
            word = option.verdict + (", may stand" if option.possible and option.verdict == "checking" else "")
            verdicts[word] = verdicts.get(word, 0) + 1
        begun = time.thread_time()
        for group in clicks.groups:
            if group.name != name and group.name not in chosen and not group.may_be_empty:
                clicks.ask(chosen, group.name, strictly=False)
        rest.append((time.thread_time() - begun) * 1000)

    for seed in range(100, 100 + 2 * SESSIONS):  # other clicks than those before: the tables are warm, the answers new
        clicks.session(seed, seen)
    again: list[float] = []
    for seed in range(100, 100 + 2 * SESSIONS):
        clicks.session(seed, lambda chosen, name, found, took: again.append(took.together))
    asking = clicks.snapshot.asking
    told(
        f"\n{rows}, {many} parts a row, {len(clicks.groups)} groups, {len(clicks.snapshot.tables)} tables, "
        f"{WARM} sessions from cold {spread(cold)} ms ({warmed:.0f} s together); "
        f"judge asked of {asking.cells} cells and {asking.spans} spans\n"
        f"  {len(states)} new clicks on warm tables, told: {verdicts}\n"
        f"    the seat on screen, what can stand: {spread([one.stand for one in warm])} ms\n"
        f"    what of it without a doubt: {spread([one.doubt for one in warm])} ms more\n"
        f"    its first page judged as a whole and told: {spread([one.page for one in warm])} ms more\n"
        f"    all of that: {spread([one.together for one in warm])} ms; again: {spread(again)} ms\n"
        f"    all other seats besides, what can stand: {spread(rest)} ms"
    )
    overstated(clicks, states)
    beside_clingo(clicks, states)


def overstated(clicks: Clicks, states: Sequence[tuple[dict[str, Part], str, Options]]) -> None:
    """The shortcut: each candidate held against the chosen parts alone. How many it lets in that stand on no board."""
    judge = BoardJudge(clicks.pattern, clicks.book, clicks.rules, clicks.book.limits)
    by_clicks: dict[int, list[int]] = {}
    for chosen, name, found in states:
        seats = {seat: part for own, part in chosen.items() for seat in _seats(clicks, own)}
        let_in, wrong = 0, 0
        for option in found.options:
            if option.verdict == "checking" and not option.possible:
                continue
            board = {**seats, **dict.fromkeys(_seats(clicks, name), option.part)}
            judged = judge.judge(Piece(seat, part) for seat, part in board.items())
            if all(f.state != "fails" for joint in judged.joints for f in joint.findings):
                let_in += 1
                wrong += option.verdict == "clash"
        counted = by_clicks.setdefault(len(chosen), [0, 0])
        counted[0] += let_in
        counted[1] += wrong
    shares = ", ".join(f"{n}: {wrong}/{let_in}" for n, (let_in, wrong) in sorted(by_clicks.items()))
    told(f"  chosen parts: overstated by the pairwise shortcut / let in by it: {shares}")


def _seats(clicks: Clicks, name: str) -> tuple[str, ...]:
    return next(group.seats for group in clicks.groups if group.name == name)


def beside_clingo(clicks: Clicks, states: Sequence[tuple[dict[str, Part], str, Options]]) -> None:
    """The same states by the solver alone, on what the judge has said so far: all boards united; one solve per value.

    It knows only what our search ruled out, so it is a bound from below on what these ways take with every cell known.
    """
    united, single = [], []
    for chosen, name, _ in states[:12]:
        seats = {seat: part for own, part in chosen.items() for seat in _seats(clicks, own)}
        session = Session(clicks.snapshot, clicks.parts_of_class, seats, _seats(clicks, name), clicks.whole)
        ruled_out = session.search.ruled_out
        ruled_out.tell()
        fixed = session.search.assumed({g: s for g, s in session.fixed.items() if g != session.group})
        start = time.thread_time()
        for literal in ruled_out.literal[session.group]:
            ruled_out.proposal([*fixed, literal], False)
        single.append((time.thread_time() - start) * 1000)
        start = time.thread_time()
        ruled_out.control.configuration.solve.enum_mode = "brave"
        ruled_out.control.configuration.solve.models = 0
        with ruled_out.control.solve(assumptions=[*fixed, -ruled_out.strict], yield_=True) as handle:
            models = sum(1 for _ in handle)
        ruled_out.control.configuration.solve.enum_mode = "auto"
        ruled_out.control.configuration.solve.models = 1
        united.append((time.thread_time() - start) * 1000)
        assert models >= 0
    told(f"  solver alone: union of boards {spread(united)} ms, one solve per value {spread(single)} ms")

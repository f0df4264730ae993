"""Mending real boards against every plan of up to three moves; judging again against judging from scratch.

Boards are put together at random from the shipped parts and layouts; a handful of remedies with a few stocked parts is
drawn for each. The referee works out every move itself (`random_boards`), judges each board with a judge that has
never seen another, and keeps the plans in which every move cures the finding that it is for, or betters it where no
single move cures it.
"""

from __future__ import annotations

import gc
import itertools
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any

import pytest
from random_boards import (
    Bench,
    ByClass,
    Seated,
    Step,
    at_value,
    failing,
    fill,
    parts_for,
    plain,
    random_board,
    scratch,
    within,
)

from fitdb.board import BoardJudge, Judged, touched
from fitdb.catalogue.read import Book
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.plan import SwapPlan
from fitdb.model.reading import Designation, Number
from fitdb.model.remedy import Remedy
from fitdb.model.rule import Rulebook, Severity, Shape
from fitdb.rules import rulebook
from fitdb.steps.mend import Mended, mend
from fitdb.workshop import BoardWorkshop

PATTERNS = ("two_wheel_belt", "single_belt", "four_wheel_belt", "gear_drive", "hub_motors", "two_wheel_belt_two_boxes")
MOST_MOVES = 3
MOST_STEPS = 12  # on one board: three of twelve are 298 plans
CURABLE, HOPELESS = 20, 6  # boards that some plan cures, and that none does
Key = tuple[float, ...]
Shelf = tuple[Any, Book, dict[str, list[Part]]]


@dataclass
class Question:
    """A board that fails, the board before (or none), and what there is to mend it with."""

    pattern: Pattern
    book: Book
    rules: Rulebook
    by_class: ByClass
    before: Seated
    start: Seated
    bench: Bench
    judged: dict[frozenset[tuple[str, int]], Judged] = field(default_factory=dict)

    def judge(self, seated: Seated) -> Judged:
        key = frozenset((seat, id(piece.part)) for seat, piece in seated.items())
        if key not in self.judged:
            self.judged[key] = scratch(self.pattern, self.book, self.rules, self.before, seated)
        return self.judged[key]

    @property
    def stood(self) -> Judged | None:
        return self.judge(self.before) if self.before else None

    def failing(self, seated: Seated) -> dict[str, float]:
        return failing(self.judge(seated), self.stood)

    def stock_of(self, part_class: str) -> tuple[Part, ...]:
        return tuple(parts_for([part_class], self.by_class, self.book.table))

    def named(self, seated: Seated, wanted: Callable[[Any], bool]) -> set[str]:
        return {
            f"{joint.joint.line.id}|{finding.rule.id}"
            for joint in touched(self.judge(seated), self.stood)
            for finding in joint.findings
            if wanted(finding)
        }

    def price(self, seated: Seated, steps: tuple[Step, ...]) -> Key:
        """New doubts, shortfall (no wish here), new thin findings, then what the moves cost."""

        def doubtful(finding: Any) -> bool:
            return bool(finding.state == "undecided")

        def thin(finding: Any) -> bool:
            missed = finding.state == "holds" and finding.comfort_missed
            return bool(missed and finding.rule.severity >= Severity.INJURY)

        def not_as_asked(step: Step) -> bool:
            return step.remedy.move == "substitute" and any(
                seat not in self.before or self.before[seat].part.id != self.start[seat].part.id
                for seat, _ in step.seated
            )

        return (
            len(self.named(seated, doubtful) - self.named(self.start, doubtful)),
            0.0,
            len(self.named(seated, thin) - self.named(self.start, thin)),
            0,
            sum(not step.remedy.reversible for step in steps),
            sum(bool(step.remedy.gives_up) + (bool(self.before) and not_as_asked(step)) for step in steps),
            len(steps),
            sum(step.remedy.minutes for step in steps),
            sum(step.money for step in steps),
        )


def of_step(step: Step) -> tuple[str, frozenset[tuple[str, str]]]:
    return step.remedy.id, frozenset((seat, shown(part)) for seat, part in step.seated)


def shown(part: Part) -> str:
    """A part with all its sizes: an altered part keeps its id."""
    everything = {**{("", name): one for name, one in part.readings.items()}}
    for port, interface in part.ports.items():
        everything |= {(port, name): one for name, one in interface.readings.items()}
    sizes = [
        (key, sorted(one.possible) if hasattr(one, "possible") else getattr(one, "nominal", ""))
        for key, one in sorted(everything.items())
    ]
    return f"{part.id} {sizes}"


def asked_still(question: Question, seated: Seated, name: str) -> bool:
    """Whether the rule still has something to say on its line: what is no longer asked is not cured."""
    return any(
        finding.state != "not_asked"
        for joint in question.judge(seated).joints
        for finding in joint.findings
        if f"{joint.joint.line.id}|{finding.rule.id}" == name
    )


def every_cure(question: Question) -> dict[frozenset[Any], Key]:
    """Plans by their moves, at their price, that some allowed order of moves leads to."""
    found: dict[frozenset[Any], Key] = {}
    been: set[frozenset[Any]] = set()

    def go(seated: Seated, steps: tuple[Step, ...]) -> None:
        plan = frozenset(map(of_step, steps))
        if plan in been:
            return
        been.add(plan)
        fails = question.failing(seated)
        if not fails:
            found[plan] = question.price(seated, steps)
        if not fails or len(steps) == MOST_MOVES:
            return
        moved = frozenset(change for step in steps for change in step.changes)
        offered = [(step, after(seated, step)) for step in question.bench.steps(seated, moved)]
        for name, margin in fails.items():
            cures, betters = [], []
            for step, then in offered:
                there = question.failing(then).get(name)
                if there is None and asked_still(question, then, name):
                    cures.append((step, then))
                elif there is not None and there > margin + 1e-9:
                    betters.append((step, then))
            for step, then in cures or betters:
                go(then, (*steps, step))

    go(question.start, ())
    return found


def after(seated: Seated, step: Step) -> Seated:
    return seated | {seat: Piece(seat, part) for seat, part in step.seated}


def question_of(seed: int, book: Book, by_class: ByClass, rules: Rulebook) -> Question | None:
    """A failing board with one to `MOST_STEPS` moves at first; None where this seed has none."""
    chance = random.Random(seed)
    pattern = book.patterns[chance.choice(PATTERNS)]
    quick = {kind for kind, some in rules.by_kind.items() if all(rule.shape is not Shape.ASKED for rule in some)}
    pattern = replace(pattern, lines=tuple(line for line in pattern.lines if line.kind in quick))
    start = random_board(chance, pattern, by_class, book.table, chance.choice((1, 2, 2)))
    start.pop("wish", None)
    if not start or len(start) > 9:
        return None
    before: Seated = {}
    if chance.random() < 0.5:
        before = dict(start)
        changed = chance.choice(list(start))
        del before[changed]
        fill(chance, before, changed, pattern, by_class, book.table)
    seen = scratch(within(pattern, start), book, rules, before, start)
    stood = scratch(within(pattern, start), book, rules, before, before) if before else None
    fails = failing(seen, stood)
    if not fails:
        return None
    lines = {name.split("|")[0] for name in fails}
    near = {seat for line in pattern.lines if line.id in lines for role in line.roles for seat in role.seats}
    near |= {seat for line in pattern.lines if line.id in lines for seat in line.chain_seats}
    names = {name for seat in near if seat in pattern.seats for name in (seat, *pattern.seats[seat].names)}
    # Of more than two words or sizes the workshop tries the nearest alone, so none has more here.
    fitting = [remedy for remedy in book.remedies if remedy.seat in names and not _many_words(remedy, pattern, book)]
    drawn = sorted(chance.sample(fitting, min(6, len(fitting))), key=lambda one: one.id)
    remedies = tuple(replace(one, together=chance.choice((one.together, "end", "board", "alone"))) for one in drawn)
    stood_there = {piece.part.id for piece in before.values()} - {piece.part.id for piece in start.values()}
    shelf = {
        own: chance.sample(parts := [part for part in some if part.id not in stood_there], min(2, len(parts)))
        for own, some in by_class.items()
    }  # to put back what stood there is no remedy
    stock = {key: tuple(chance.sample(sizes, min(2, len(sizes)))) for key, sizes in book.stock.items()}
    small = replace(book, remedies=remedies, stock=stock)
    bench = Bench(pattern, small, shelf)
    first = bench.steps(start, frozenset())
    if not 0 < len(first) <= MOST_STEPS:
        return None
    reached = {seat for step in first for seat, _ in step.seated} | set(start) | set(before)
    reached |= {seat for remedy in remedies for seat in pattern.seats if remedy.seat in pattern.seats[seat].names}
    return Question(within(pattern, reached), small, rules, shelf, before, start, bench)


def _many_words(remedy: Remedy, pattern: Pattern, book: Book) -> bool:
    seats = [seat for seat in pattern.seats.values() if remedy.seat in (seat.id, *seat.names)]
    told = [book.table.attribute_of(own, remedy.attribute) for seat in seats for own in seat.classes]
    return any(one is not None and len(one.vocabulary) > 3 for one in told)


def promising(question: Question) -> bool:
    """Whether one move betters something: most boards drawn at random have nothing that would."""
    fails = question.failing(question.start)
    for step in question.bench.steps(question.start, frozenset()):
        left = question.failing(after(question.start, step))
        if any(name not in left for name in fails) and len(left) < MOST_MOVES:
            return True
    return False


def mended(question: Question, **budget: Any) -> Mended[Judged]:
    judge = BoardJudge(question.pattern, question.book, question.rules, question.book.limits, question.before)
    start = judge.judge(question.start.values())
    stood = judge.judge(question.before.values()) if question.before else None
    plan = SwapPlan("q", "q", question.pattern.id, tuple(question.before.values()), tuple(question.start.values()))
    shop = BoardWorkshop(judge, plan, start, stood, question.stock_of)
    settled = {"most_nodes": 100_000, "expired": lambda: False, **budget}
    return mend(start, shop.shop(), most_moves=MOST_MOVES, **settled)


@pytest.fixture(scope="module")
def shelf(sqlite_catalogue: Shelf) -> tuple[Book, dict[str, list[Part]], Rulebook]:
    _, book, by_class = sqlite_catalogue
    return book, by_class, rulebook()


@pytest.fixture(scope="module")
def questions(shelf: Any) -> list[tuple[int, Question, dict[frozenset[Any], Key]]]:
    """Twenty boards that some plan cures, and six that none does, with every cure of each."""
    book, by_class, rules = shelf
    found: list[tuple[int, Question, dict[frozenset[Any], Key]]] = []
    left = {True: CURABLE, False: HOPELESS}
    for seed in range(5_000):
        question = question_of(seed, book, by_class, rules)
        if question is None or (not left[False] and not promising(question)):
            continue
        cures = every_cure(question)
        if left[bool(cures)]:
            left[bool(cures)] -= 1
            found.append((seed, question, cures))
        if not any(left.values()):
            return found
    raise AssertionError("the shipped parts and remedies make too few boards that can be mended")


def told_of(found: Mended[Judged]) -> list[tuple[Any, ...]]:
    return [(cure.chosen_for, [move.what for move in cure.moves], cure.cost) for cure, _ in found.cures]


def test_the_boards_are_worth_asking(questions: Any) -> None:
    assert sum(bool(question.before) for _, question, _ in questions) >= 5
    assert sum(len(question.failing(question.start)) > 1 for _, question, _ in questions) >= 5
    assert sum(len(cures) > 1 for _, _, cures in questions) >= 3


def test_the_cheapest_cure_of_a_board_is_found_where_there_is_one(questions: Any) -> None:
    for seed, question, cures in questions:
        found = mended(question)
        assert found.proven, f"board {seed}"
        assert bool(found.cures) == bool(cures), f"board {seed}: cures there are {sorted(cures.values())[:1]}"
        if cures:
            cost = found.cures[0][0].cost
            told = (
                cost.new_undecided,
                cost.shortfall,
                cost.thin,
                cost.exchanges,
                cost.irreversible,
                cost.gives_up,
                cost.count,
                cost.minutes,
                cost.money,
            )
            assert told == pytest.approx(min(cures.values())), f"board {seed}: {told_of(found)[0]}"


def test_the_cured_board_fails_nothing_when_judged_from_scratch(questions: Any) -> None:
    """And it holds what the moves say, seat by seat, and nothing else that is new."""
    for seed, question, _ in questions:
        for cure, board in mended(question).cures:
            assert failing(scratch(question.pattern, question.book, question.rules, question.before,
                                   dict(board.seated)), question.stood) == {}, f"board {seed}"  # fmt: skip
            moved = {piece.seat for move in cure.moves for piece in move.pieces}
            assert {seat for seat in board.seated if board.seated[seat] != question.start.get(seat)} <= moved
            for move in cure.moves:
                assert all(piece.seat in board.seated for piece in move.pieces), f"board {seed}"


def test_a_board_mended_twice_has_one_answer(questions: Any) -> None:
    for seed, question, _ in questions:
        assert told_of(mended(question)) == told_of(mended(question)), f"board {seed}"


def test_a_spent_budget_makes_no_claim_about_a_board(questions: Any) -> None:
    for seed, question, cures in questions:
        found = mended(question, expired=lambda: True)
        assert not found.cures, f"board {seed}"
        assert not (cures and found.proven), f"board {seed}: claims that nothing cures it"


# --- judged again, and judged from scratch --------------------------------------------------------------------


def some_boards(shelf: Any, count: int) -> Iterator[tuple[random.Random, Pattern, Seated, Seated]]:
    """Boards of several joints each, with what stood before, and the lines that can be asked quickly."""
    book, by_class, rules = shelf
    quick = {kind for kind, some in rules.by_kind.items() if all(rule.shape is not Shape.ASKED for rule in some)}
    for seed in itertools.count():
        chance = random.Random(f"again {seed}")
        pattern = book.patterns[chance.choice(PATTERNS)]
        pattern = replace(pattern, lines=tuple(line for line in pattern.lines if line.kind in quick))
        seated = random_board(chance, pattern, by_class, book.table, 4)
        pattern = within(pattern, {*seated, *(other for seat in seated for other in beside(pattern, seat))})
        before = {seat: piece for seat, piece in seated.items() if chance.random() < 0.7}
        if len(seated) >= 5:
            yield chance, pattern, seated, before
            count -= 1
        if not count:
            return


def beside(pattern: Pattern, seat: str) -> set[str]:
    """Empty seats in which an adapter could stand on a line of this one."""
    return {one for line in pattern.lines if seat in line.chain_seats for one in line.chain_seats}


def moved_at_random(
    chance: random.Random, pattern: Pattern, seated: Seated, stood: Seated, shelf: Any
) -> dict[str, Piece | None]:
    """One or two seats emptied, filled, exchanged, altered in one size, or put back as they stood."""
    book, by_class, _ = shelf
    moved: dict[str, Piece | None] = {}
    named = {seat for line in pattern.lines for role in line.roles for seat in role.seats} & set(pattern.seats)
    for _ in range(chance.choice((1, 1, 2))):
        seat = chance.choice(sorted(seated)) if chance.random() < 0.6 else chance.choice(sorted(named))
        kind = chance.choice(("empty", "other", "other", "alter", "alter", "back"))
        if kind == "empty":
            moved[seat] = None
        elif kind == "back" and seat in stood:
            moved[seat] = stood[seat]
        elif kind == "alter" and seat in seated:
            part = seated[seat].part
            sized = [name for name, one in part.readings.items() if isinstance(one, Number | Designation)]
            if sized:
                name = chance.choice(sorted(sized))
                place, reading = part.offers(name)
                assert isinstance(reading, Number | Designation)
                value = reading.nominal * chance.choice((0.8, 0.95, 1.05, 1.2))
                moved[seat] = Piece(seat, at_value(part, place, name, reading, value))
        else:
            other: Seated = {}
            fill(chance, other, seat, pattern, by_class, book.table)
            moved |= {one: piece for one, piece in other.items() if one == seat}
    return moved


def test_judging_again_is_judging_from_scratch(shelf: Any) -> None:
    """Two hundred random moves, ten on each board, each judged again from the one before."""
    book, _, rules = shelf
    moves = changed = 0
    for chance, pattern, seated, before in some_boards(shelf, 20):
        judge = BoardJudge(pattern, book, rules, book.limits, before)
        board = judge.judge(seated.values())
        for _ in range(10):
            moved = moved_at_random(chance, pattern, dict(board.seated), seated, shelf)
            earlier, board = board, judge.again(board, moved)
            moves += 1
            changed += earlier.joints != board.joints
            fresh = scratch(pattern, book, rules, before, dict(board.seated))
            assert board.lines == fresh.lines, f"{pattern.id}: {sorted(moved)}"
            assert board.seated == fresh.seated
    assert moves == 200 and changed >= 60


def test_a_board_is_judged_as_the_steps_judge_it_one_joint_at_a_time(shelf: Any) -> None:
    """What is remembered from one joint to the next, of other seats or of other parts, never shows."""
    book, _, rules = shelf
    asked = 0
    for _, pattern, seated, before in some_boards(shelf, 60):
        told = list(scratch(pattern, book, rules, before, seated).joints)
        expected = plain(pattern, book, rules, before, seated)
        for one, other in zip(told, expected, strict=True):
            for finding, alone in zip(one.findings, other.findings, strict=True):
                asked += 1
                assert finding == alone, f"{pattern.id}, {one.joint.id}, {finding.rule.id}"
        assert told == expected
    assert asked > 1000


def test_judging_does_not_depend_on_what_was_judged_before(shelf: Any) -> None:
    """One judge that has seen many boards, in either order, says what a judge says that has seen none."""
    book, _, rules = shelf
    for chance, pattern, seated, before in some_boards(shelf, 8):
        boards = [seated]
        for _ in range(5):
            moved = moved_at_random(chance, pattern, boards[-1], seated, shelf)
            kept = {seat: piece for seat, piece in boards[-1].items() if seat not in moved}
            boards.append(kept | {seat: piece for seat, piece in moved.items() if piece is not None})
        forward = BoardJudge(pattern, book, rules, book.limits, before)
        backward = BoardJudge(pattern, book, rules, book.limits, before)
        there = [forward.judge(one.values()).lines for one in boards]
        back = [backward.judge(one.values()).lines for one in reversed(boards)][::-1]
        alone = [scratch(pattern, book, rules, before, one).lines for one in boards]
        assert there == back == alone, pattern.id


def test_a_part_that_is_gone_is_not_taken_for_one_that_came_after_it(shelf: Any) -> None:
    """Parts made for a trial and thrown away: the next may lie where the last one lay."""
    book, _, rules = shelf
    tried = 0
    for _, pattern, seated, before in some_boards(shelf, 6):
        judge = BoardJudge(pattern, book, rules, book.limits, before)
        fails = [(j.joint.line.id, f.rule.id, f) for j in judge.judge(seated.values()).joints for f in j.findings]
        for line, rule, finding in fails:
            sized = [one for one in finding.inputs if isinstance(one.reading, Number | Designation)]
            for item in sized[:2]:
                for share in (0.5, 0.8, 1.25, 2.0):
                    part = seated[item.seat].part
                    place, reading = part.offers(item.attribute)
                    if not isinstance(reading, Number | Designation):
                        continue
                    other = at_value(part, place, item.attribute, reading, reading.nominal * share)
                    trial = seated | {item.seat: Piece(item.seat, other)}
                    told = judge.stood_on(line, rule, trial)
                    fresh = BoardJudge(pattern, book, rules, book.limits, before).stood_on(line, rule, trial)
                    assert told == fresh, f"{line} {rule} {item.seat}.{item.attribute} x {share}"
                    tried += 1
                    del other, trial, told, fresh
        gc.collect()
    assert tried > 100

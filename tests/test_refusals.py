"""What no adapter and no setting may cure stays a clash, whatever rows somebody adds to the list of remedies.

A rule marked `refused` (pack and charger, packs side by side, pack and BMS, a pack above what the rail bears) may only
be cured by another part in the place of one that takes part in the failure, and not by one whose exchange makes it
another plan. Boards that fail such a rule are put together at random; then the catalogue gets every row that could
talk the failure away: set or alter each reading that the rule follows, at many sizes, fill each empty seat of the line,
exchange each part of it, and rows at random for whatever else fails there.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import pytest
from random_boards import ByClass, Seated, fill, random_board, scratch, within

from fitdb.board import Judged
from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.plan import SwapPlan
from fitdb.model.reading import Count, Designation, Number, Word
from fitdb.model.remedy import Move, Remedy
from fitdb.model.rule import Rulebook, Shape
from fitdb.model.verdict import SwapVerdict
from fitdb.rules import rulebook
from fitdb.swap import Budget, swap

BOARDS_OF_EACH = 2
PATTERNS = ("loose", "two_wheel_belt", "two_wheel_belt_two_boxes")
SHARES = (0.25, 0.5, 0.8, 0.9, 1.1, 1.25, 2.0, 4.0)


@dataclass
class Refusal:
    """A board that fails a refused rule on one of its lines, and a catalogue with rows meant to talk it away."""

    seed: str
    rule: str
    line: str
    pattern: Pattern
    book: Book
    by_class: ByClass
    before: Seated
    seated: Seated

    def failing(self, seated: Seated, rules: Rulebook) -> list[Finding]:
        return failing_of(scratch(self.pattern, self.book, rules, self.before, seated), self.line, self.rule)


def failing_of(board: Judged, line: str, rule: str) -> list[Finding]:
    return [
        finding
        for joint in board.joints
        if joint.joint.line.id == line
        for finding in joint.findings
        if finding.rule.id == rule and finding.state == "fails"
    ]


def row(name: str, move: str, seat: str, chance: random.Random, stock: str = "", attribute: str = "") -> Remedy:
    return Remedy(
        id=name,
        title=name.replace("_", " "),
        move=move,
        seat=seat,
        stock=stock,
        attribute=attribute,
        reversible=True,
        gives_up="",
        minutes=1.0,
        money=0.0,
        source="bench_practice",
        together=chance.choice(("end", "board", "alone")),
    )


def every_row(
    chance: random.Random, seated: Seated, lines: tuple[Line, ...], findings: list[Finding], book: Book
) -> tuple[Book, list[Remedy]]:
    """Rows for each reading that failing findings follow, each seat of their lines; and sizes to set them to."""
    found: dict[str, Remedy] = {}
    stock = dict(book.stock)
    for finding in findings:
        for item in finding.inputs:
            part = seated[item.seat].part
            if isinstance(item.reading, Number | Designation | Count):
                sizes = {item.reading.nominal * share for share in SHARES} | {item.reading.nominal + 1}
                if isinstance(item.reading, Count):
                    sizes = {float(round(size)) for size in sizes if round(size) > 0}
                stock[part.part_class, item.attribute] = tuple(sorted(chance.sample(sorted(sizes), 2)))
            if isinstance(item.reading, Number | Designation | Count | Word):
                for move in ("set", "alter"):
                    name = f"{move}_{item.seat}_{item.attribute}"
                    found[name] = row(name, move, item.seat, chance, attribute=item.attribute)
    for line in lines:
        for seat in sorted({one for role in line.roles for one in role.seats} | set(line.chain_seats)):
            if seat in seated:
                own = seated[seat].part.part_class
                found[f"other_{seat}"] = row(f"other_{seat}", "substitute", seat, chance, stock=own)
    return replace(book, stock=stock), list(found.values())


def inserts(chance: random.Random, seated: Seated, lines: tuple[Line, ...], pattern: Pattern) -> list[Remedy]:
    seats = {one.removeprefix("before:") for line in lines for role in line.roles for one in role.seats}
    seats |= {one for line in lines for one in line.chain_seats}
    return [
        row(f"insert_{seat}_{own}", "insert", seat, chance, stock=own)
        for seat in sorted(seats)
        if seat in pattern.seats and seat not in seated
        for own in pattern.seats[seat].classes
    ]


def drawn(chance: random.Random, rule: str, book: Book, by_class: ByClass, rules: Rulebook) -> Refusal | None:
    """A board with a line of the rule on it; None where it does not fail the rule."""
    kind = rules.rules[rule].kind
    whole = book.patterns[chance.choice(PATTERNS)]
    quick = {own for own, some in rules.by_kind.items() if all(one.shape is not Shape.ASKED for one in some)}
    whole = replace(whole, lines=tuple(line for line in whole.lines if line.kind in quick))
    lines = [line for line in whole.lines if line.kind == kind]
    if not lines:
        return None
    line = chance.choice(lines)
    seated = random_board(chance, replace(whole, lines=(line,)), by_class, book.table, 1)
    for other in chance.sample(near := sorted(seats_near(whole, seated)), min(3, len(near))):
        if other not in seated:
            fill(chance, seated, other, whole, by_class, book.table)
    seated.pop("wish", None)
    if len(seated) > 5:
        return None
    alone = within(replace(whole, lines=(line,)), seated)
    if not failing_of(scratch(alone, book, rules, {}, seated), line.id, rule):
        return None
    return Refusal("", rule, line.id, whole, book, by_class, {}, seated)


def with_every_row(chance: random.Random, refusal: Refusal, rules: Rulebook) -> Refusal:
    """Rows for whatever fails on the board, adapters for the line's empty seats, and ten rows of the shipped list."""
    book, seated, whole = refusal.book, refusal.seated, refusal.pattern
    board = scratch(within(whole, seated), book, rules, {}, seated)
    fails = [finding for joint in board.joints for finding in joint.findings if finding.state == "fails"]
    meet = tuple(joint.joint.line for joint in board.joints if joint.verdict == "clash")
    line = next(line for line in whole.lines if line.id == refusal.line)
    wider, rows = every_row(chance, seated, meet, fails, book)
    rows += chance.sample(some := inserts(chance, seated, (line,), whole), min(3, len(some)))
    rows += chance.sample(book.remedies, 10)
    chance.shuffle(rows)
    pattern = within(whole, set(seated) | {remedy.seat for remedy in rows})
    before: Seated = {}
    if chance.random() < 0.3:
        blamed = {item.seat for finding in fails for item in finding.inputs}
        before = {seat: piece for seat, piece in seated.items() if seat not in blamed}
    shelf = {own: chance.sample(parts, min(3, len(parts))) for own, parts in refusal.by_class.items()}
    wider = replace(wider, remedies=tuple(rows), patterns={pattern.id: pattern})
    return replace(refusal, pattern=pattern, book=wider, by_class=shelf, before=before)


def with_a_way_round(chance: random.Random, refusal: Refusal, rules: Rulebook) -> Refusal | None:
    """Rows that set what a refused rule reads, where another rule that fails reads it too and may be cured by them;
    and an exchange of each part, so that the refused rule has candidates of its own. None where nothing is shared."""
    book, seated = refusal.book, refusal.seated
    pattern = within(refusal.pattern, seated)
    board = scratch(pattern, book, rules, {}, seated)
    fails = [finding for joint in board.joints for finding in joint.findings if finding.state == "fails"]
    shared = read_by(one for one in fails if one.rule.refused) & read_by(one for one in fails if not one.rule.refused)
    if not shared:
        return None
    rows, stock = [], {}
    for seat, attribute in sorted(shared):
        rows.append(row(f"set_{seat}_{attribute}", "set", seat, chance, attribute=attribute))
        stock[seated[seat].part.part_class, attribute] = tuple(float(size) for size in range(1, 25))
    for seat in sorted({seat for seat, _ in read_by(one for one in fails if one.rule.refused)}):
        rows.append(row(f"other_{seat}", "substitute", seat, chance, stock=seated[seat].part.part_class))
    shelf = {own: chance.sample(parts, min(3, len(parts))) for own, parts in refusal.by_class.items()}
    wider = replace(book, stock=stock, remedies=tuple(rows), patterns={pattern.id: pattern})
    return replace(refusal, pattern=pattern, book=wider, by_class=shelf)


def read_by(findings: Iterable[Finding]) -> set[tuple[str, str]]:
    return {(item.seat, item.attribute) for finding in findings for item in finding.inputs}


def refusals(book: Book, by_class: ByClass, rules: Rulebook) -> list[Refusal]:
    found: list[Refusal] = []
    for rule in sorted(one.id for one in rules.rules.values() if one.refused):
        left = {"every": BOARDS_OF_EACH, "round": BOARDS_OF_EACH}
        for number in range(150):
            chance = random.Random(f"{rule} {number}")
            refusal = drawn(chance, rule, book, by_class, rules)
            if refusal is None:
                continue
            refusal = replace(refusal, seed=f"{rule} {number}")
            wider = with_a_way_round(chance, refusal, rules) if left["round"] else None
            kind = "round" if wider is not None else "every"
            if left[kind]:
                left[kind] -= 1
                found.append(wider or with_every_row(chance, refusal, rules))
            if not any(left.values()):
                break
        assert left["every"] < BOARDS_OF_EACH, f"no board of shipped parts fails {rule}"
    return found


def seats_near(pattern: Pattern, seated: Seated) -> set[str]:
    """Seats that share a line with one that is filled."""
    near: set[str] = set()
    for line in pattern.lines:
        seats = {one for role in line.roles for one in role.seats if not one.startswith("before:")}
        if seats & set(seated):
            near |= seats
    return near


def answered(refusal: Refusal, rules: Rulebook) -> SwapVerdict:
    plan = SwapPlan(
        "q",
        "q",
        refusal.pattern.id,
        tuple(refusal.before.values()),
        tuple(refusal.seated.values()),
        most_moves=4,
    )

    def stock_of(part_class: str) -> tuple[Part, ...]:
        table = refusal.book.table
        return tuple(
            part for own, parts in refusal.by_class.items() if part_class in table.line_of(own) for part in parts
        )

    return swap(plan, refusal.book, rules, stock_of, Budget(nodes=20, seconds=60.0))


def refused_in(board: Judged) -> dict[tuple[str, str], Finding]:
    """Failing findings of refused rules by joint and rule."""
    return {
        (joint.joint.id, finding.rule.id): finding
        for joint in board.joints
        for finding in joint.findings
        if finding.rule.refused and finding.state == "fails"
    }


def readings_of(finding: Finding) -> list[Any]:
    return [(item.seat, item.attribute, item.reading) for item in finding.inputs]


def talked_away(refusal: Refusal, moves: Sequence[Move], rules: Rulebook, exchanges: bool) -> list[str]:
    """Moves, taken in their order, that touch a failure of a refused rule without being an exchange of a failing part.

    A move touches a failure when the failure is gone after it, or a reading that the rule follows is another. Parts
    whose exchange makes it another plan may be exchanged in `instead` alone.
    """
    seated, faults = dict(refusal.seated), []
    classes = refusal.book.table.classes
    board = scratch(refusal.pattern, refusal.book, rules, refusal.before, seated)
    for move in moves:
        after = seated | {piece.seat: piece for piece in move.pieces}
        then = scratch(refusal.pattern, refusal.book, rules, refusal.before, after)
        still = refused_in(then)
        for (joint, rule), finding in refused_in(board).items():
            exchanged = {item.seat for item in finding.inputs} & set(move.seats)
            another = any(classes[seated[seat].part.part_class].another_plan for seat in exchanged)
            if move.remedy.move == "substitute" and exchanged and (exchanges or not another):
                continue
            left = still.get((joint, rule))
            if left is None or readings_of(left) != readings_of(finding):
                faults.append(f"{move.remedy.id} ({move.what}) touches {rule} at {joint}")
        seated, board = after, then
    return faults


@dataclass
class Asked:
    refusals: list[tuple[Refusal, SwapVerdict]]
    rules: Rulebook


@pytest.fixture(scope="module")
def asked(sqlite_catalogue: tuple[Any, Book, dict[str, list[Part]]]) -> Asked:
    _, book, by_class = sqlite_catalogue
    rules = rulebook()
    return Asked([(one, answered(one, rules)) for one in refusals(book, by_class, rules)], rules)


def test_every_refused_rule_is_asked_with_rows_that_would_talk_it_away(asked: Asked) -> None:
    rules = {refusal.rule for refusal, _ in asked.refusals}
    assert rules == {rule.id for rule in asked.rules.rules.values() if rule.refused} and len(rules) >= 8
    assert all(verdict.as_asked == "clash" for _, verdict in asked.refusals)
    rows = [remedy.move for refusal, _ in asked.refusals for remedy in refusal.book.remedies]
    assert {"insert", "substitute", "alter", "set"} <= set(rows) and len(rows) > 200
    assert sum(not refusal.before for refusal, _ in asked.refusals) > 8


def test_no_remedy_of_an_answer_touches_what_is_refused(asked: Asked) -> None:
    faults = [
        (refusal.seed, fault)
        for refusal, verdict in asked.refusals
        for cured in verdict.cures
        for fault in talked_away(refusal, cured.moves, asked.rules, exchanges=False)
    ]
    assert not faults, f"{len(faults)}; the first: {faults[0]}"


def test_no_setting_in_another_plan_touches_what_is_refused(asked: Asked) -> None:
    """Under `instead` parts are exchanged; what is refused may end by that exchange and by nothing else."""
    faults = [
        (refusal.seed, fault)
        for refusal, verdict in asked.refusals
        for cured in verdict.instead
        for fault in talked_away(refusal, cured.moves, asked.rules, exchanges=True)
    ]
    assert not faults, f"{len(faults)}; the first: {faults[0]}"


def test_a_plan_stays_a_clash_unless_the_failing_part_is_another(asked: Asked) -> None:
    stayed = 0
    for refusal, verdict in asked.refusals:
        failing = refusal.failing(refusal.seated, asked.rules)
        at_fault = {item.seat for finding in failing for item in finding.inputs}
        table = refusal.book.table
        may_go = {seat for seat in at_fault if not table.classes[refusal.seated[seat].part.part_class].another_plan}
        if not may_go:
            assert (verdict.best_allowed, verdict.cures) == ("clash", ()), refusal.seed
            stayed += 1
        for cured in verdict.cures:
            exchanged = {seat for move in cured.moves if move.remedy.move == "substitute" for seat in move.seats}
            assert exchanged & may_go, f"{refusal.seed}: {[move.remedy.id for move in cured.moves]}"
    assert stayed >= 10


def test_the_conflict_says_that_only_another_part_cures_it(asked: Asked) -> None:
    for refusal, verdict in asked.refusals:
        told = [one for one in verdict.conflicts if any(finding.rule.id == refusal.rule for finding in one.findings)]
        assert all(one.refused for one in told), refusal.seed


def test_fewer_cells_set_for_a_light_are_no_cure_for_a_fuse_that_cannot_break_the_volts(
    sqlite_catalogue: tuple[Any, Book, dict[str, list[Part]]],
) -> None:
    """A 32 V fuse behind a large pack, and a 12 V light that fails at the same pack: a row that sets the pack's cells.

    The fuse may be exchanged; setting three cells in series would end both failures on paper, and neither on the board.
    """
    _, book, by_class = sqlite_catalogue
    rules, chance, tried = rulebook(), random.Random(0), 0
    rows = (
        row("set_cells", "set", "pack", chance, attribute="series"),
        row("other_fuse", "substitute", "fuse", chance, stock="fuse"),
    )
    shelf = {own: parts[:6] for own, parts in by_class.items()}
    for fuse, pack, light in itertools.product(by_class["fuse"], by_class["pack"][:6], by_class["light"]):
        seated = {seat: Piece(seat, part) for seat, part in (("fuse", fuse), ("pack", pack), ("light_front", light))}
        pattern = within(book.patterns["two_wheel_belt"], seated)
        fails = {
            finding.rule.id
            for joint in scratch(pattern, book, rules, {}, seated).joints
            for finding in joint.findings
            if finding.state == "fails"
        }
        if not {"main_fuse.volts_cover_the_full_pack", "light_volts.supply_within_rating"} <= fails:
            continue
        sizes = {(pack.part_class, "series"): tuple(float(size) for size in range(1, 25))}
        wider = replace(book, remedies=rows, stock=sizes, patterns={pattern.id: pattern})
        line = next(line.id for line in pattern.lines if line.kind == "main_fuse")
        refusal = Refusal(
            f"{fuse.id} {pack.id} {light.id}", "main_fuse.volts_cover_the_full_pack", line, pattern, wider, shelf,
            {}, seated,
        )  # fmt: skip
        verdict = answered(refusal, rules)
        for plans, exchanges in ((verdict.cures, False), (verdict.instead, True)):
            for cured in plans:
                assert not talked_away(refusal, cured.moves, rules, exchanges), refusal.seed
        tried += 1
        if tried == 6:
            break
    assert tried

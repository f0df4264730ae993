"""Random builds from the shipped catalogue referee the judge: what it says over a box is so at every point of it.

The dice are seeded, so every run throws the same builds and the same points. A box is rebuilt here from the readings
and the attribute table, without asking the judge what it used.
"""

from __future__ import annotations

import dataclasses
import random
from collections.abc import Iterator
from typing import Any

import pytest
from rules.test_soundness import passes, widened

from fitdb.catalogue.read import Book
from fitdb.fit import LOOSE
from fitdb.intake.readings import assumed
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.rule import NothingToGuard, Severity, Shape
from fitdb.model.trace import Trace, Variable
from fitdb.rules import rulebook
from fitdb.steps.join import join
from fitdb.steps.judge import judge
from fitdb.steps.survey import trace

Catalogue = tuple[object, Book, dict[str, list[Part]]]
BUILDS = 60
CLIMBS = 3
CLIMBS_INSIDE = 20
SOLVER_POINTS = 3
SOLVER_TRACES = 40


def random_build(dice: random.Random, book: Book, by_class: dict[str, list[Part]]) -> tuple[Piece, ...]:
    """Random parts in a random share of the loose pattern's seats; heirs of a class stand in for it too."""
    share = dice.uniform(0.3, 1.0)
    pieces = []
    for seat in book.patterns[LOOSE].seats.values():
        heirs = [own for own in book.table.classes if set(seat.classes) & set(book.table.line_of(own))]
        parts = [part for own in heirs for part in by_class.get(own, [])]
        if parts and dice.random() < share:
            pieces.append(Piece(seat.id, dice.choice(parts)))
    return tuple(pieces)


def random_traces(seed: str, catalogue: Catalogue, builds: int) -> Iterator[Trace]:
    """The trace of every rule at every joint of random builds, each set of readings once."""
    _, book, by_class = catalogue
    rules, dice = rulebook(), random.Random(seed)
    seats_take = {seat.id: seat.classes for seat in book.patterns[LOOSE].seats.values()}
    seen: set[tuple[object, ...]] = set()
    solvers = 0
    for _ in range(builds):
        joints, _ = join(random_build(dice, book, by_class), book.patterns[LOOSE])
        for joint in joints:
            for rule in rules.by_kind.get(joint.line.kind, ()):
                found = trace(joint, rule, rules, book.table, seats_take)
                key = (rule.id, *((one.seat, one.part, one.attribute) for one in found.variables))
                if found.wanted or found.lacking or key in seen:
                    continue
                solvers += rule.shape is Shape.ASKED
                if rule.shape is Shape.ASKED and solvers > SOLVER_TRACES:
                    continue
                seen.add(key)
                yield found


def stands_in(variable: Variable, severity: Severity) -> Reading | None:
    """What may be true of a reading: as it was read, or what is met on real parts where nobody read it."""
    reading, described = variable.reading, variable.described
    if reading is not None and not reading.value_assumed:
        return reading
    if described is None:
        return reading
    if severity >= Severity.INJURY and isinstance(reading, Number | Designation | None) and described.plausible:
        if described.reading == "number":
            low, high = described.plausible
            return Number(low, (low + high) / 2, high, described.unit, described.source, value_assumed=True)
        if described.reading == "count":
            whole = tuple(range(round(described.plausible[0]), round(described.plausible[1]) + 1))
            return Count(whole, whole[0], described.source, value_assumed=True)
    if severity >= Severity.INJURY and described.reading == "word" and described.vocabulary:
        return Word(frozenset(described.vocabulary), described.source, value_assumed=True)
    return reading if reading is not None and severity < Severity.INJURY else assumed(described, severity >= 3)


def choices(reading: Reading, dice: random.Random) -> tuple[Any, ...]:
    """Values worth trying of one reading: both ends and somewhere between."""
    if isinstance(reading, Count):
        return (reading.values[0], reading.values[-1], dice.choice(reading.values))
    if isinstance(reading, Word):
        return tuple(sorted(reading.possible))
    if isinstance(reading, Outline):
        spreads = (-reading.spread, reading.spread, dice.uniform(-reading.spread, reading.spread))
        return tuple(dataclasses.replace(reading, spread=spread) for spread in spreads)
    return (float(reading.low), float(reading.high), dice.uniform(reading.low, reading.high))


def points_to_try(found: Trace, box: list[Reading], dice: random.Random) -> Iterator[tuple[list[Any], Any]]:
    """Points of the box with the quantity there: random ones, and climbs from them towards both of its ends."""
    if found.rule.shape is Shape.ASKED:
        for _ in range(SOLVER_POINTS):
            point = [dice.choice(choices(reading, dice)) for reading in box]
            yield point, found.quantity(point)
        return
    for climb in range(CLIMBS if found.rule.shape is not Shape.SAMPLED else CLIMBS_INSIDE):
        point = [dice.choice(choices(reading, dice)) for reading in box]
        value = found.quantity(point)
        yield point, value
        if isinstance(value, str | tuple | NothingToGuard):
            continue
        sign = 1 if climb % 2 else -1
        for at in dice.sample(range(len(box)), len(box)):
            for choice in choices(box[at], dice):
                tried = [*point[:at], choice, *point[at + 1 :]]
                there = found.quantity(tried)
                yield tried, there
                if isinstance(there, NothingToGuard):
                    continue
                if sign * there > sign * value:
                    point, value = tried, there


def told(found: Trace, point: list[Any]) -> str:
    return ", ".join(f"{one.part}.{one.attribute}={value}" for one, value in zip(found.variables, point, strict=True))


def contradictions(found: Trace, finding: Finding, dice: random.Random) -> Iterator[str]:
    """Points at which a decided finding is not so."""
    box = [stands_in(variable, found.rule.severity) for variable in found.variables]
    if finding.state not in ("holds", "fails"):
        return
    if any(reading is None for reading in box):
        yield f"{found.rule.id}: {finding.state} although something is unread and nothing is known of it"
        return
    known = [reading for reading in box if reading is not None]
    for point, value in points_to_try(found, known, dice):
        agrees = passes(found.rule, value)
        if agrees is not None and agrees != (finding.state == "holds"):
            yield f"{found.rule.id}: {finding.state}, margin {finding.margin}, but {value} at {told(found, point)}"
            return


def test_what_is_decided_over_the_box_is_so_at_every_point(sqlite_catalogue: Catalogue) -> None:
    dice, book = random.Random("points"), sqlite_catalogue[1]
    wrong: dict[str, str] = {}
    decided: set[str] = set()
    for found in random_traces("decided", sqlite_catalogue, BUILDS):
        try:
            finding = judge(found, book.table, book.limits)
            if finding.state in ("holds", "fails"):
                decided.add(found.rule.id)
            for line in contradictions(found, finding, dice):
                wrong.setdefault(found.rule.id, line)
        except (OurFault, ValueError, ArithmeticError, TypeError) as fault:
            where = ", ".join(f"{one.part}.{one.attribute}" for one in found.variables)
            wrong.setdefault(found.rule.id, f"{found.rule.id}: {fault} at {where}")
    assert not wrong, "\n".join(wrong.values())
    assert len(decided) > len(rulebook().rules) // 2, "the builds decide too little to referee anything"


def test_what_nobody_read_stands_in_within_what_is_met_on_real_parts(sqlite_catalogue: Catalogue) -> None:
    book = sqlite_catalogue[1]
    wrong: dict[str, str] = {}
    stood_in = 0
    for found in random_traces("unread", sqlite_catalogue, BUILDS):
        if found.rule.shape is Shape.ASKED:
            continue
        finding = judge(found, book.table, book.limits)
        if finding.state not in ("holds", "fails"):
            continue
        for variable, item in zip(found.variables, finding.inputs, strict=True):
            described = variable.described
            unread = variable.reading is None or variable.reading.value_assumed
            if not unread or described is None or described.plausible is None or item.used_low is None:
                continue
            stood_in += 1
            low, high = described.plausible
            assert item.used_high is not None
            line = f"{found.rule.id}: {variable.attribute} {item.used_low}..{item.used_high}, met {low}..{high}"
            if item.used_low < low - 1e-9 or item.used_high > high + 1e-9:
                wrong.setdefault(line, line)
            if found.rule.severity >= Severity.INJURY and (item.used_low > low + 1e-9 or item.used_high < high - 1e-9):
                wrong.setdefault(line, f"{line}: danger is assumed away")
    assert not wrong, "\n".join(wrong)
    assert stood_in, "no unread reading stood in anywhere"


@pytest.mark.parametrize("share", (0.02, 0.3))
def test_widening_every_span_decides_nothing_that_was_open(sqlite_catalogue: Catalogue, share: float) -> None:
    book = sqlite_catalogue[1]
    wrong: dict[str, str] = {}
    for found in random_traces("widened", sqlite_catalogue, BUILDS // 4):
        if found.rule.shape is Shape.ASKED:
            continue
        before = judge(found, book.table, book.limits)
        try:
            after = judge(widened(found, share), book.table, book.limits)
        except OurFault as fault:
            wrong.setdefault(found.rule.id, f"{found.rule.id}: widened by {share}: {fault}")
            continue
        turned = after.state in ("holds", "fails") and after.state != before.state
        if turned:
            line = f"{found.rule.id}: {before.state} {before.margin} became {after.state} {after.margin}"
            wrong.setdefault(found.rule.id, line)
    assert not wrong, "\n".join(wrong.values())


def forgotten(found: Trace, at: int) -> Trace:
    """The same trace with one reading that nobody took."""
    variables = list(found.variables)
    variables[at] = dataclasses.replace(variables[at], reading=None)
    return dataclasses.replace(found, variables=tuple(variables))


def test_forgetting_a_reading_never_turns_the_answer_round(sqlite_catalogue: Catalogue) -> None:
    """What was read is still possible once it is forgotten; only a default of a harmless rule may decide otherwise."""
    book = sqlite_catalogue[1]
    wrong: dict[str, str] = {}
    asked_again = 0
    dice = random.Random("forgetting")
    for found in random_traces("forgotten", sqlite_catalogue, BUILDS):
        if found.rule.shape is Shape.ASKED:
            continue
        before = judge(found, book.table, book.limits)
        if before.state not in ("holds", "fails"):
            continue
        for at in dice.sample(range(len(found.variables)), min(2, len(found.variables))):
            variable = found.variables[at]
            described, reading = variable.described, variable.reading
            if reading is None or reading.value_assumed or described is None:
                continue
            if described.default is not None and found.rule.severity < Severity.INJURY:
                continue
            asked_again += 1
            after = judge(forgotten(found, at), book.table, book.limits)
            if after.state in ("holds", "fails") and after.state != before.state:
                without = f"without {variable.part}.{variable.attribute}"
                line = f"{found.rule.id}: {before.state} {before.margin}, but {after.state} {after.margin} {without}"
                wrong.setdefault(f"{found.rule.id} {variable.attribute}", line)
    assert not wrong, "\n".join(wrong.values())
    assert asked_again, "nothing was forgotten"


def test_a_deck_whose_holes_nobody_read_is_refused_by_no_rule_of_its_holes(sqlite_catalogue: Catalogue) -> None:
    _, book, by_class = sqlite_catalogue
    rules = rulebook()
    seats_take = {seat.id: seat.classes for seat in book.patterns[LOOSE].seats.values()}
    deck = next(part for part in by_class["deck"] if "truck_holes" in part.ports)
    unread = {port: shape for port, shape in deck.ports.items() if port != "truck_holes"}
    wrong = set()
    for truck in by_class["truck"]:
        pieces = (Piece("deck", dataclasses.replace(deck, ports=unread)), Piece("truck", truck))
        for joint in join(pieces, book.patterns[LOOSE])[0]:
            for rule in rules.by_kind["deck_holes"] if joint.line.kind == "deck_holes" else ():
                finding = judge(trace(joint, rule, rules, book.table, seats_take), book.table, book.limits)
                if finding.state == "fails":
                    wrong.add(f"{rule.id}: fails {finding.margin} with {truck.id}")
    assert not wrong, "\n".join(sorted(wrong))

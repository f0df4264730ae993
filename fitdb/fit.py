"""Front door: does this part fit that one?

place · join · survey · judge, then the adapters of the catalogue that would bridge what fails. No board is needed:
every joint line counts whose roles the named parts can fill, and since there is no before, every joint is touched.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from fitdb.board import BoardJudge, Judged
from fitdb.catalogue import read
from fitdb.catalogue.asked import typed_question
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.drawings import DECIDING_FIRST, draw_finding, drawing_of
from fitdb.drawings.svg import svg
from fitdb.intake.nearest import did_you_mean
from fitdb.intake.own_readings import with_own_readings
from fitdb.model.joint import Joint, Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.plan import FitQuestion
from fitdb.model.problems import Malformed, Problem
from fitdb.model.reading import Count, Designation, Number
from fitdb.model.remedy import Remedy
from fitdb.model.rule import Rulebook
from fitdb.model.verdict import Bridge, JointVerdict, Verdict
from fitdb.rules import limit_keys, rulebook
from fitdb.steps.explain import Display, document
from fitdb.steps.place import place

LOOSE = "loose"  # the pattern of parts on the table, with no board yet
WORST_FIRST = ("clash", "measure", "fits_with", "fits")
StockOf = Callable[[str], tuple[Part, ...]]


def ask(
    url: str | None, names: Sequence[str], in_roles: Sequence[str], readings: Sequence[str], limits: Sequence[str]
) -> Verdict:
    """The verdict on what was typed on a command line, from the catalogue at `url` (None: the default one)."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            question = typed_question(connection, book, names, in_roles, readings, limits)
            return fit(question, book, rulebook(), lambda stock: read.parts_of_classes(connection, (stock,)))
    finally:
        engine.dispose()


def fit(question: FitQuestion, book: Book, rules: Rulebook, stock_of: StockOf) -> Verdict:
    """The verdict on the named parts. `stock_of` gives the catalogue's parts of one class, for adapters.

    Raises Malformed when a part has no seat or could stand in several, or when a limit has a key that no rule knows.
    """
    pattern = book.patterns[LOOSE]
    limits = {**book.limits, **question.limits}
    unknown = _unknown_limits(question.limits, rules)
    try:
        pieces = pieces_of(question, book)
    except Malformed as malformed:
        raise Malformed((*malformed.problems, *unknown)) from malformed
    if unknown:
        raise Malformed(unknown)
    judge = BoardJudge(pattern, book, rules, limits)
    board = judge.judge(pieces)
    joints, not_asked = board.joints, board.not_asked
    as_asked = _worst_of(joints) if _meet(joints, pieces) else "not_asked"
    bridges: tuple[Bridge, ...] = ()
    if as_asked == "clash":
        bridges = _bridges(judge, board, stock_of)
    best = "fits_with" if any(bridge.verdict == "fits" for bridge in bridges) else as_asked
    if best == "clash" and any(bridge.verdict == "measure" for bridge in bridges):
        best = "measure"
    joints = tuple(sorted(joints, key=lambda joint: (*WORST_FIRST, "not_asked").index(joint.verdict)))
    offers = tuple((piece.part.id, _offered(piece.part, book)) for piece in pieces) if as_asked == "not_asked" else ()
    return Verdict(as_asked, best, joints, not_asked, bridges, offers, book.revision, rules.stamp)


def answer(verdict: Verdict, display: Display, with_drawings: bool = False) -> dict[str, Any]:
    """The verdict as one document, with the geometry of every finding, and its SVG where asked for."""
    told = document(verdict, display)
    for joint_told, judged in zip(told["joints"], verdict.joints, strict=True):
        for finding_told, finding in zip(joint_told["findings"], judged.findings, strict=True):
            drawing = drawing_of(judged.joint, finding)
            finding_told["geometry"] = drawing.document()
            if with_drawings:
                finding_told["drawing"] = svg(drawing)
    return told


def drawing(verdict: Verdict, rule_id: str) -> str:
    """The SVG of what one rule said; where it was asked at several joints, of the one that decides.

    Raises Malformed, with the nearest id, when these parts were not asked that rule.
    """
    found = [(judged.joint, finding) for judged in verdict.joints for finding in judged.findings]
    meant = [pair for pair in found if pair[1].rule.id == rule_id]
    if not meant:
        asked = tuple(dict.fromkeys(finding.rule.id for _, finding in found))
        hint = did_you_mean(rule_id, asked) or "The answer on these parts lists the rules that were asked."
        raise Malformed([Problem("unknown_rule", f"these parts were not asked a rule {rule_id!r}.", hint=hint)])
    return draw_finding(*min(meant, key=lambda pair: DECIDING_FIRST.index(pair[1].state)))


def pieces_of(question: FitQuestion, book: Book) -> tuple[Piece, ...]:
    """The named parts in their seats, with the person's own readings in the place of the catalogue's."""
    pattern = book.patterns[LOOSE]
    placed = place(question.parts, pattern, book.table)
    return with_own_readings(placed, question.readings, pattern, book.table, book.fits)


def _unknown_limits(limits: Mapping[str, float], rules: Rulebook) -> tuple[Problem, ...]:
    """Limits that no rule knows: a mistyped key would otherwise leave the rule's own limit in force without a word."""
    known = limit_keys(rules)
    return tuple(
        Problem("unknown_limit", f"no rule has a limit {key!r}.", f"/limits/{key}", hint=did_you_mean(key, known))
        for key in limits
        if key not in known
    )


def _offered(part: Part, book: Book) -> tuple[str, ...]:
    ports = book.table.ports_of(part.part_class)
    return tuple(f"{port} ({book.table.kinds[kind].title})" for port, kind in ports.items())


def _meet(joints: tuple[JointVerdict, ...], pieces: tuple[Piece, ...]) -> bool:
    """Whether a rule was asked of two of the pieces together; a rule about one piece alone joins nothing."""
    asked = [joint.joint for joint in joints if joint.verdict != "not_asked"]
    return any(len({piece.seat for filled in joint.pieces.values() for piece in filled}) > 1 for joint in asked) or (
        len(pieces) == 1 and bool(asked)
    )


def _worst_of(joints: tuple[JointVerdict, ...]) -> str:
    verdicts = {joint.verdict for joint in joints}
    return next((word for word in WORST_FIRST if word in verdicts), "not_asked")


def _bridges(judge: BoardJudge, board: Judged, stock_of: StockOf) -> tuple[Bridge, ...]:
    """Adapters that cure at least one failing rule, each judged with everything it touches; the least harmful first."""
    before, book = board.joints, judge.book
    failing = {joint.joint.line.id: joint.joint for joint in before if joint.verdict == "clash"}
    with_remedies = {remedy.stock for remedy in book.remedies if remedy.move == "insert"}
    found = []
    for remedy in book.remedies:
        if remedy.move != "insert" or remedy.seat in board.seated or not _touches(remedy, failing):
            continue
        for part in stock_of(remedy.stock):
            if part.part_class != remedy.stock and part.part_class in with_remedies:
                continue  # a wedge is like a riser, and has a remedy of its own
            joints = judge.again(board, {remedy.seat: Piece(remedy.seat, part)}).joints
            cured, breaks = _difference(before, joints)
            if cured and not any(judge.rules.rules[rule].refused for rule in cured):
                adds = (*_sizes(part), *_asks_for(remedy, before, judge.pattern))
                found.append(Bridge(remedy, part.id, part.title, _worst_of(joints), cured, breaks, adds, joints))
    best: dict[str, Bridge] = {}
    for bridge in found:  # two remedies may draw on one stock: the same part is told once, at the lower price
        if bridge.part not in best or bridge.remedy.money < best[bridge.part].remedy.money:
            best[bridge.part] = bridge
    return tuple(
        sorted(
            best.values(),
            key=lambda b: (
                -WORST_FIRST.index(b.verdict),
                len(b.breaks),
                b.remedy.money,
                b.remedy.minutes,
                _natural(b.part),
            ),
        )
    )


def _touches(remedy: Remedy, failing: Mapping[str, Joint]) -> bool:
    """Whether the adapter's seat belongs to a line that fails: no other seat can change what it reads."""
    return any(
        remedy.seat in joint.line.chain_seats or any(remedy.seat in role.seats for role in joint.line.roles)
        for joint in failing.values()
    )


def _difference(
    before: tuple[JointVerdict, ...], after: tuple[JointVerdict, ...]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Rules that failed on a line and are asked there still without failing, and rules that fail now and did not."""
    failed, fails = _found(before, ("fails",)), _found(after, ("fails",))
    asked = _found(after, ("holds", "undecided", "excused"))
    cured = {rule for rule, line in (failed - fails) & asked}
    return tuple(sorted(cured)), tuple(sorted({rule for rule, line in fails - failed}))


def _found(joints: tuple[JointVerdict, ...], states: tuple[str, ...]) -> set[tuple[str, str]]:
    """(rule, joint line) of every finding in one of the states."""
    return {(f.rule.id, joint.joint.line.id) for joint in joints for f in joint.findings if f.state in states}


def _natural(name: str) -> tuple[tuple[int, str], ...]:
    """riser-6 before riser-10."""
    return tuple((int(piece), "") if piece.isdigit() else (0, piece) for piece in re.split(r"(\d+)", name))


def _sizes(part: Part) -> tuple[str, ...]:
    """The adapter's own sizes: what it adds to every stack that it joins."""
    told = []
    for name, reading in part.readings.items():
        if isinstance(reading, Number | Designation):
            told.append(f"{name} {reading.nominal:g} {reading.unit}".strip())
        elif isinstance(reading, Count):
            told.append(f"{name} {reading.nominal}")
    return tuple(told)


def _asks_for(remedy: Remedy, before: tuple[JointVerdict, ...], pattern: Pattern) -> tuple[str, ...]:
    """Other joints that the adapter's seat reaches and that these parts alone cannot answer."""
    answered = {joint.joint.line.id for joint in before}
    reached = [
        line
        for line in pattern.lines
        if line.id not in answered and any(remedy.seat in role.seats for role in line.roles)
    ]
    return tuple({line.kind: f"also ask {line.joint} {line.title}" for line in reversed(reached)}.values())[::-1]

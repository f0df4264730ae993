"""Front door: parts among very many, page by page, and those that fit a part or a seat of a board.

Interfaces that cannot meet what stands are ruled out by the table of pairs, thousands of parts at a time; every part
of a page is then judged, so nothing is shown that the judge has not seen. What clashes is left out unless wanted.
"""

from __future__ import annotations

import dataclasses
import threading
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from fitdb.asked_readings import readings_asked
from fitdb.board import BoardJudge, Judged
from fitdb.catalogue.find_parts import Found, PartHead, Shelf, page_by_id, page_by_size, part_heads, parts_with
from fitdb.catalogue.part_conditions import Wanted
from fitdb.catalogue.read import Book
from fitdb.fit import LOOSE, pieces_of
from fitdb.fit_table import NOBODY, REFUSES, FitTable, Meeting
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.part_filters import filter_names, named
from fitdb.intake.seat_names import seats_bearing
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Attribute, Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.plan import FitQuestion, SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.refusals import fails_with_any, refused_beside
from fitdb.search import classes_like, deciding, touching
from fitdb.steps.explain import Display, sentence, source_document
from fitdb.steps.join import joints_of

MOST_JUDGED = 400  # parts judged for one page; where they were too few the page says so
SECONDS, ASKING_SECONDS = 3.0, 2.0  # of this thread: for judging a page, and for asking pairs of interfaces
MANY_CLASHES = 25  # on one page: then it pays to ask what else rules interfaces out
JUDGED_BY_ONE = 4_000  # unlike parts that a judge remembers; then another begins
MOST_BESIDE = 16
NO_CLASS = ("-",)  # no class at all, where none would mean any
WORST_FIRST = ("clash", "measure", "fits")


@dataclass(frozen=True, slots=True)
class Order:
    """By id, or by the nominal reading of an attribute of the parts themselves."""

    attribute: Attribute | None = None
    falling: bool = False


@dataclass(frozen=True, slots=True)
class Page:
    """Parts in their order. `last` is where the next page begins, None at the end. complete: the page is as full as
    it can be; without it judging took too long, and the next page goes on."""

    lines: tuple[dict[str, Any], ...]
    last: Found | None
    complete: bool = True


class Beside:
    """Parts that stand, with an empty seat per class wanted: what candidates are held against."""

    def __init__(
        self,
        pattern: Pattern,
        seated: Mapping[str, Piece],
        seats: Mapping[str, str],
        limits: Mapping[str, float],
        book: Book,
        rules: Rulebook,
        before: Iterable[Piece] = (),
    ) -> None:
        self.pattern, self.seated, self.seats, self.limits = pattern, dict(seated), dict(seats), limits
        self._met = dataclasses.replace(pattern, lines=_lines_met(pattern, self.seated, seats))
        self.book, self.rules = book, rules
        self.before = {piece.seat: piece for piece in before}
        self.lock = threading.Lock()
        self.refused: dict[str, dict[str, frozenset[str]]] | None = None
        self._closely = False
        self.ruled_out: dict[str, Finding] = {}  # classes of which nothing fits, and why
        self._meetings: dict[str, tuple[Meeting, ...]] = {}
        self._asked = readings_asked(self._met, book, rules)
        self._begin()

    def _begin(self) -> None:
        limits = {**self.book.limits, **self.limits}
        self._judge = BoardJudge(self._met, self.book, self.rules, limits, self.before)
        self._base: Judged = self._judge.judge(self.seated.values())
        self._known: dict[tuple[object, ...], tuple[str, Finding, str] | None] = {}

    def refusals(
        self, connection: Any, table: FitTable, expired: Callable[[], bool]
    ) -> dict[str, dict[str, frozenset[str]]]:
        """By class and port the interfaces that cannot meet what stands here. Remembered once all could be asked."""
        if self.refused is None:
            found = {}
            for part_class, seat in self.seats.items():
                limits = {**self.book.limits, **self.limits}
                nothing = fails_with_any(table, self._met, self.seated, seat, part_class, limits)
                if nothing is not None:
                    self.ruled_out[part_class] = nothing
                    continue
                meetings = table.meetings(self.pattern, self.seated, seat, part_class, self.limits)
                self._meetings[part_class] = meetings
                found[part_class] = table.refused(connection, meetings, expired)
            if expired():
                return found
            self.refused = found
        return self.refused

    def looked_closer(self, connection: Any, table: FitTable, expired: Callable[[], bool]) -> bool:
        """Refuses, once, what the sizes of the parts that stand rule out too, which pays where most parts clash."""
        if self.refused is None or self._closely:
            return False
        self._closely, limits = True, {**self.book.limits, **self.limits}
        for part_class, standing in self.refused.items():
            seat = self.seats[part_class]
            more = refused_beside(connection, table, self._met, self.seated, seat, part_class, limits, expired)
            both = {
                port: standing.get(port, frozenset()) | more.get(port, frozenset()) for port in {**standing, **more}
            }
            self.refused = {**self.refused, part_class: both}
        return True

    def refuses(self, part: Part) -> bool:
        """Whether an interface of the part is refused by now."""
        refused = (self.refused or {}).get(part.part_class, {})
        return any(port in part.ports and part.ports[port].id in some for port, some in refused.items())

    def learned(self, connection: Any, table: FitTable, part: Part) -> bool:
        """Whether the clash of this part lies in an interface alone: then all that offer it are refused from now on."""
        more = False
        for meeting in self._meetings.get(part.part_class, ()):
            interface = part.ports.get(meeting.wanted.port)
            if interface is None or self.refused is None:
                continue
            refused = self.refused[part.part_class].get(meeting.wanted.port, frozenset())
            states = table.states(connection, meeting, interface)
            if interface.id not in refused and states is not None and REFUSES in states.values():
                here = {**self.refused[part.part_class], meeting.wanted.port: refused | {interface.id}}
                self.refused = {**self.refused, part.part_class: here}
                more = True
        return more

    def verdict(self, part: Part) -> tuple[str, Finding] | None:
        """fits, measure or clash, with what decides; None where the part meets nothing that stands here.

        Parts that are alike in all that the rules here read are judged once.
        """
        seat = self.seats[part.part_class]
        asked = self._asked[part.part_class]
        read = tuple((name, reading) for name, reading in sorted(part.readings.items()) if name in asked)
        ports = tuple(sorted((port, one.id) for port, one in part.ports.items()))
        key = (part.part_class, ports, read)
        if key in self._known:
            return _said_of(self._known[key], part, seat)
        if len(self._known) > JUDGED_BY_ONE:
            self._begin()
        joints = touching(self._judge.again(self._base, {seat: Piece(seat, part)}), part.id)
        word = next((word for word in WORST_FIRST if any(joint.verdict == word for joint in joints)), "")
        said = (word, deciding(joints), part.id) if word else None
        if said is None or part.id not in said[1].note:
            self._known[key] = said
        return said[:2] if said is not None else None


@dataclass
class PartSearch:
    """Searches in one revision of the catalogue, under one rulebook; remembers what it worked out."""

    book: Book
    rules: Rulebook
    shelf: Shelf = field(init=False)
    table: FitTable = field(init=False)

    def __post_init__(self) -> None:
        self.shelf = Shelf(self.book.revision)
        self.table = FitTable(self.book, self.rules, self.shelf)
        self._beside: dict[tuple[object, ...], Beside] = {}
        self._lock = threading.Lock()

    def remembered(self, key: tuple[object, ...], made: Callable[[], Beside]) -> Beside:
        """What stands, worked out once for all pages of a question; `key` is all that it follows from."""
        with self._lock:
            if key in self._beside:
                return self._beside[key]
        beside = made()
        with self._lock:
            while len(self._beside) >= MOST_BESIDE:
                self._beside.pop(next(iter(self._beside)))
            return self._beside.setdefault(key, beside)

    # --- what stands -----------------------------------------------------------------------------------------

    def beside_parts(self, question: FitQuestion, classes: Sequence[str]) -> Beside:
        """The named parts on the table, with the seat that a part of each class would take.

        Malformed, with the first reason, where no class has a seat beside them.
        """
        seats: dict[str, str] = {}
        faults: list[Problem] = []
        for part_class in classes:
            stub = Part("-", part_class, "", {}, {}, NOBODY)
            asked = dataclasses.replace(question, parts=(*question.parts, ("", stub)))
            try:
                seats[part_class] = next(piece.seat for piece in pieces_of(asked, self.book) if piece.part is stub)
            except Malformed as malformed:
                faults += malformed.problems
        if not seats:
            named_so = faults[0].message.replace("(-)", "").replace("- could", "It could")
            raise Malformed([dataclasses.replace(faults[0], message=named_so)])
        seated = {piece.seat: piece for piece in pieces_of(question, self.book)}
        return Beside(self.book.patterns[LOOSE], seated, seats, question.limits, self.book, self.rules)

    def beside_board(self, plan: SwapPlan, seat_name: str, part_class: str) -> Beside:
        """The board as it is wanted, with one of its seats empty. part_class: empty for all that the seat takes.

        Malformed, at /query/seat or /query/class, where there is no such seat, it is several, or takes no such part.
        """
        pattern = self.book.patterns[plan.pattern]
        meant = seats_bearing(seat_name, pattern)
        if len(meant) != 1:
            hint = f"Name one of: {', '.join(meant)}." if meant else did_you_mean(seat_name, tuple(pattern.seats))
            what = f"{pattern.title} has {'no seat' if not meant else 'several seats'} {shortened(seat_name)!r}."
            raise Malformed([Problem("unknown_seat", what, "/query/seat", hint=hint)])
        seat, table = pattern.seats[meant[0]], self.book.table
        taken = {own for own in table.classes if set(table.line_of(own)) & set(seat.classes)}
        wanted = set(classes_like(part_class, self.book)) & taken if part_class else taken
        if not wanted:
            hint = f"It takes: {', '.join(seat.classes)}."
            what = f"the seat {seat.id} takes no {part_class}."
            raise Malformed([Problem("wrong_class", what, "/query/class", hint=hint)])
        seated = {piece.seat: piece for piece in plan.after if piece.seat != seat.id}
        seats = dict.fromkeys([own for own in table.classes if own in wanted], seat.id)
        return Beside(pattern, seated, seats, plan.limits, self.book, self.rules, plan.before)

    # --- pages -----------------------------------------------------------------------------------------------

    def page(
        self, connection: Any, wanted: Wanted, order: Order, after: Found | None, limit: int, display: Display
    ) -> Page:
        """A page of parts, whatever they fit."""
        found = self._next(connection, wanted, order, after, limit + 1)
        heads = {head.id: head for head in part_heads(connection, [one.id for one in found[:limit]])}
        lines = tuple(self._line(heads[one.id], one, order) for one in found[:limit] if one.id in heads)
        return Page(lines, found[limit - 1] if len(found) > limit else None)

    def page_beside(
        self,
        connection: Any,
        wanted: Wanted,
        order: Order,
        beside: Beside,
        everything: bool,
        after: Found | None,
        limit: int,
        display: Display,
        clock: Callable[[], float] = time.thread_time,
    ) -> Page:
        """A page of parts that fit what stands, each with its verdict; those that clash only with `everything`."""
        began = clock()
        wanted = self.narrowed(connection, wanted, beside, everything, lambda: clock() - began > ASKING_SECONDS)
        began = clock()
        lines: list[tuple[dict[str, Any], Found]] = []
        place, looked_at, clashes = after, 0, 0

        def late() -> bool:
            return clock() - began > SECONDS

        with beside.lock:
            while len(lines) <= limit:
                many = min(max(limit + 1 - len(lines), 10), 200)
                found = self._next(connection, wanted, order, place, many)
                interfaces = self.shelf.interfaces(connection)
                parts = parts_with(connection, [one.id for one in found], self.book.table.sources, interfaces)
                by_id = {part.id: part for part in parts}
                narrower = False
                for one in found:
                    part, place = by_id.get(one.id), one
                    if narrower and part is not None and beside.refuses(part):
                        continue
                    looked_at += 1
                    line = self._judged_line(part, one, order, beside, everything, display)
                    if line is not None:
                        lines.append((line, one))
                    elif part is not None and not everything:
                        clashes += 1
                        narrower |= beside.learned(connection, self.table, part)
                        if clashes >= MANY_CLASHES:
                            narrower |= beside.looked_closer(connection, self.table, late)
                    if len(lines) > limit:
                        break
                    if looked_at >= MOST_JUDGED or late():
                        return Page(tuple(line for line, _ in lines), place, False)
                if len(found) < many:
                    break
                if narrower:
                    wanted = self.narrowed(connection, wanted, beside, everything, lambda: False)
        shown = lines[:limit]
        return Page(tuple(line for line, _ in shown), shown[-1][1] if len(lines) > limit else None)

    def narrowed(
        self, connection: Any, wanted: Wanted, beside: Beside, everything: bool, expired: Callable[[], bool]
    ) -> Wanted:
        """What is wanted of parts that may stand here, without what the table of pairs refuses."""
        classes = tuple(own for own in beside.seats if not wanted.classes or own in wanted.classes)
        if everything:
            return dataclasses.replace(wanted, classes=classes or NO_CLASS)
        refused = beside.refusals(connection, self.table, expired)
        classes = tuple(own for own in classes if own not in beside.ruled_out) or NO_CLASS
        return dataclasses.replace(wanted, classes=classes, refused={own: refused.get(own, {}) for own in classes})

    def _next(
        self, connection: Any, wanted: Wanted, order: Order, after: Found | None, limit: int
    ) -> tuple[Found, ...]:
        if order.attribute is None:
            return page_by_id(connection, wanted, self.shelf, after.id if after else "", limit)
        name, falling = order.attribute.name, order.falling
        return page_by_size(connection, wanted, self.shelf, name, falling, after, limit)

    def _judged_line(
        self, part: Part | None, found: Found, order: Order, beside: Beside, everything: bool, display: Display
    ) -> dict[str, Any] | None:
        judged = beside.verdict(part) if part is not None else None
        if part is None or judged is None or (judged[0] == "clash" and not everything):
            return None
        ports = {port: one.id for port, one in sorted(part.ports.items())}
        head = PartHead(part.id, part.part_class, part.title, part.source.id, ports)
        said = {"verdict": judged[0], "rule": judged[1].rule.id, "sentence": sentence(judged[1], display)}
        return {**self._line(head, found, order), **said}

    def _line(self, head: PartHead, found: Found, order: Order) -> dict[str, Any]:
        line: dict[str, Any] = {
            "id": head.id,
            "class": head.part_class,
            "title": head.title,
            "ports": dict(head.ports),
            "source": source_document(self.book.table.sources[head.source]),
        }
        if order.attribute is None:
            return line
        return {**line, "by": {"of": order.attribute.name, "nominal": found.value, "unit": order.attribute.unit}}


def _said_of(said: tuple[str, Finding, str] | None, part: Part, seat: str) -> tuple[str, Finding] | None:
    """What was said of a part that is alike, said of this one."""
    if said is None:
        return None
    word, finding, other = said
    inputs = tuple(
        dataclasses.replace(one, part=part.id) if one.seat == seat and one.part == other else one
        for one in finding.inputs
    )
    unread = tuple(
        f"{part.id}.{name.removeprefix(f'{other}.')}" if name.startswith(f"{other}.") else name
        for name in finding.unread
    )
    return word, dataclasses.replace(finding, inputs=inputs, unread=unread)


def _lines_met(pattern: Pattern, seated: Mapping[str, Piece], seats: Mapping[str, str]) -> tuple[Line, ...]:
    """The joint lines that make a joint once the seat is filled: the others say the same of every candidate."""
    met: dict[str, Line] = {}
    for seat in dict.fromkeys(seats.values()):
        stub = Piece(seat, Part("-", "", "", {}, {}, NOBODY))
        pieces = {**seated, seat: stub}
        for line in pattern.lines:
            joints, _ = joints_of(line, pieces, pattern)
            if any(stub in some for joint in joints for some in joint.pieces.values()):
                met[line.id] = line
    return tuple(line for line in pattern.lines if line.id in met)


def ruled_out_document(beside: Beside | None, everything: bool, display: Display) -> list[dict[str, Any]]:
    """Classes of which nothing fits what stands, with the rule that says so whatever the part."""
    if beside is None or everything:
        return []
    return [
        {"class": own, "rule": finding.rule.id, "sentence": sentence(finding, display)}
        for own, finding in beside.ruled_out.items()
    ]


def order_of(name: str, falling: bool, classes: Sequence[str], book: Book) -> Order:
    """The order that is asked for; Malformed, with the nearest name, where parts have no such size."""
    if not name or name == "id":
        return Order()
    found = named(name, book.table, classes)
    if found is None or found.port or found.attribute.reading == "word":
        known = [own for own in filter_names(book.table, classes) if "." not in own]
        what = "parts are not sorted by that: it is no size of their own."
        hint = did_you_mean(name, known) or "Sort by `id`, or by a size such as `mass`."
        raise Malformed([Problem("unknown_order", what, "/query/by", hint=hint)])
    return Order(found.attribute, falling)

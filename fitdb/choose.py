"""Front door: what may stand in one seat of a board that is being put together, as people and front ends ask it.

The engine says which parts can stand on a whole board (`options`); here its answer is cut into pages, sorted, counted
and told beside what a person wants to know next: what is to be read, what it costs, what would cure a clash, and one
whole board for each part that can be opened as a plan of its own.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.session import open_catalogue
from fitdb.choosing.alike import Alike
from fitdb.choosing.apart import called_by_name, told_apart
from fitdb.choosing.cured import Cured, Remedies, cured_document
from fitdb.choosing.entered import entered
from fitdb.choosing.facets import facets, matching
from fitdb.choosing.kept import Opened, Snapshots
from fitdb.choosing.pages import Place, Rank, Wanted, cursor_of, mark_of, page_of, place_of, question_mark, ranked
from fitdb.choosing.rows import Beside
from fitdb.choosing.spending import Time
from fitdb.choosing.telling import already, explained, option_sentence, over_the_price, possible_at_all, to_give_up
from fitdb.intake.documents import plain_value, tree_of_text
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.intake.part_filters import parse_filters
from fitdb.model.part import Part
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, Options, options, options_document, what_would, why
from fitdb.possible.answer import VERDICTS, Broken, Changed, Option
from fitdb.possible.whole import Group, groups_of, name_of, seated_by_name, seats_called
from fitdb.rules import rulebook
from fitdb.steps.explain import Display

FOR_THE_SEAT = 0.6  # of the time, where something else is wanted beside the seat
FOR_REMEDIES = 0.3
AGAIN = 8  # times that a page is made once more because the judge of whole boards said otherwise of a board on it

# How the judge of whole boards says that a board stands, and the verdicts that go with it.
STANDS_AS = {("holds", "fits"), ("holds", "checking"), ("undecided", "measure"), ("undecided", "checking")}


@dataclass(frozen=True, slots=True)
class Question:
    """A plan and the document that it was read from, the seat that is asked about, and what is wanted of it."""

    plan: SwapPlan
    document: Mapping[str, Any]
    seat: str
    wanted: Wanted
    display: Display = field(default_factory=Display)


def ask(
    url: str | None, file: Path, seat: str, wanted: Wanted, display: Display, readings: Sequence[str] = ()
) -> dict[str, Any]:
    """The options for a seat of the plan in a file, from the catalogue at `url` (None: the default one).

    Raises Malformed with every fault.
    """
    wanted.checked()
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, file, readings)
            root, _ = tree_of_text(file.read_text("utf-8"), file.name)
            document = plain_value(root) if root is not None else {}
            typed = dict(one.split("=", 1) for one in readings)
            document["readings"] = {**(document.get("readings") or {}), **typed}
            rules = rulebook()
            pattern = book.patterns[plan.pattern]
            opened = Snapshots().of(connection, book, rules, pattern, plan.limits)
        told = answer(Question(plan, document, seat, wanted, display), opened, rules, book.revision)
        opened.store()
        return told
    finally:
        engine.dispose()


def typed_conditions(typed: Sequence[str]) -> dict[str, str]:
    """READING=VALUE as conditions; Malformed with every one that is not written so."""
    bad = [one for one in typed if not one.partition("=")[0].strip() or not one.partition("=")[2].strip()]
    if bad:
        hint = "Write it like width=12mm..16mm."
        raise Malformed(
            Problem("bad_assignment", f"`{shortened(one)}` is not READING=VALUE.", "/where", hint=hint) for one in bad
        )
    return {name.strip(): value.strip() for name, _, value in (one.partition("=") for one in typed)}


def answer(
    question: Question, snapshot: Opened, rules: Rulebook, newest: str, stop: Callable[[], bool] = lambda: False
) -> dict[str, Any]:
    """The options as one document. newest: the catalogue's revision now; the snapshot may be of an older one.

    stop: says that nobody waits any more. Raises Malformed where seat, condition or cursor is not to be understood.
    """
    wanted = question.wanted.checked()
    seats = seats_called(snapshot.snapshot.pattern, question.seat)
    mark = question_mark(question.document, question.seat, wanted)
    place = place_of(mark, wanted.after)
    with snapshot.lock:
        asking = Asking(question, snapshot, rules, seats, Time(wanted.milliseconds, stop))
        found, shown, same = asking.found(mark, place)
        page = asking.page(found, place)
        for _ in range(AGAIN):
            if not asking.doubted(page.shown):
                break
            snapshot.answers.clear()
            found, shown, same = asking.found(mark, place)
            page = asking.page(found, place)
        else:
            page = asking.without_boards(page)
        told = asking.document(page, mark, shown)
    moved = place.revision if place is not None and place.revision != snapshot.revision else None
    newer = newest if read.newer(newest, snapshot.revision) else None
    return {**told, "moved_from": moved, "same_list": same, "newer_revision": newer}


def why_answer(
    question: Question, snapshot: Opened, rules: Rulebook, newest: str, stop: Callable[[], bool] = lambda: False
) -> dict[str, Any]:
    """Why one part cannot stand in the seat, and what would let it in; the same question without its page."""
    wanted = dataclasses.replace(question.wanted, limit=0, after="", facets=None, everything=False)
    told = answer(dataclasses.replace(question, wanted=wanted), snapshot, rules, newest, stop)
    head = ("plan", "seat", "seats", "now", "already_clashing", "broken")
    last = ("catalogue_revision", "newer_revision", "rulebook_stamp")
    return {**{key: told[key] for key in head}, **told["why"], **{key: told[key] for key in last}}


@dataclass(frozen=True, slots=True)
class Page:
    """One page of an answer: `ranked` are its options with their ranks; every: all that are in the list; more: whether
    there are others behind them."""

    found: Options
    every: Sequence[Option]
    ranked: Sequence[tuple[Rank, Option]]
    more: bool
    beside: Beside

    @property
    def shown(self) -> list[Option]:
        return [option for _, option in self.ranked]


class Asking:
    """One question to one snapshot."""

    def __init__(
        self, question: Question, opened: Opened, rules: Rulebook, seats: tuple[str, ...], time_: Time
    ) -> None:
        self.question, self.opened, self.rules, self.seats, self.time = question, opened, rules, seats, time_
        self.plan, self.wanted, self.display = question.plan, question.wanted, question.display
        self.shot, self.book = opened.snapshot, opened.snapshot.book
        self.pattern = self.shot.pattern
        self.given = {piece.seat: piece.part for piece in self.plan.after}
        stock = self.plan.stock
        owned = [item.part.id for item in stock if item.owned] + [piece.part.id for piece in self.plan.before]
        self.own_names = dict.fromkeys(owned)
        self.priced = {item.part.id: item.money for item in stock if item.money is not None}
        named = [*owned, *sorted(self.priced, key=self.priced.__getitem__), self.wanted.why]
        self.alike = Alike(opened.shelf, opened.kinds, told_apart(self.given), seats, named)
        self.chosen = self.alike.chosen
        self.now = next((self.chosen[seat] for seat in seats if seat in self.chosen), None)
        self.owned, self.prices = self.alike.owned(self.own_names), self.alike.prices(self.priced)

    # --- the answer of the engine --------------------------------------------------------------------------

    def found(self, mark: str, place: Place | None) -> tuple[Options, str, bool]:
        """The engine's answer with its mark, and whether it is the list that the last page was of."""
        if place is not None and (mark, place.mark) in self.opened.answers:
            return self.opened.answers[mark, place.mark], place.mark, True
        found = self.opened.complete_answer(mark)
        if found is None:
            beside = self.wanted.everything or self.wanted.why
            found = self._asked(self.time.left(FOR_THE_SEAT if beside else 1.0))
        shown = mark_of(found)
        self.opened.keep(mark, shown, found)
        return found, shown, place is None or place.mark == shown

    def _asked(self, budget: Budget) -> Options:
        parts = self._narrowed(self.chosen, self.seats)
        found = self._options(self.chosen, self.question.seat, parts, budget)
        if found.broken is None or parts == self.opened.parts_of_class:
            return found
        # Nothing stands whatever is put here: that is proved. What would change it, the few parts asked cannot tell.
        freed = self._freed(None)
        if freed is not None:
            return dataclasses.replace(freed[1], broken=Broken(None, freed[0]))
        whole = self._options(self.chosen, self.question.seat, self.opened.parts_of_class, self.time.left(0.9))
        if whole.broken is not None and whole.broken.change is not None:
            return whole
        every = (dataclasses.replace(one, verdict="clash", board=None) for one in found.options)
        return dataclasses.replace(found, options=tuple(every), left_empty=(), broken=Broken(None, None))

    def _freed(self, part: Part | None) -> tuple[Changed, Options] | None:
        """One choice given up so that a board stands (with this part), with the options there are then.

        Tried are the choices that clash with something on the board as it is chosen, the stated ones (rider, route,
        wish) last; a board that is known to clash as it is has no smaller change. None where time was up first, or
        where more than one has to be given up.
        """
        groups = self._groups(self.chosen, self.seats)
        for own in to_give_up(self.shot, self.chosen, self.seats, part, groups, self.plan.untouchable):
            if self.time.left().milliseconds <= 0:
                return None
            kept = {seat: one for seat, one in self.chosen.items() if seat not in (*own.seats, *self.seats)}
            parts = self._only(part, self._narrowed(kept, self.seats))
            found = self._options(kept, self.question.seat, parts, self.time.left(0.7))
            boards = [one.witness for one in found.options if part is None or one.part.id == part.id]
            witness = next((one for one in boards if one is not None), None)
            if found.broken is None and witness is not None:
                change = Changed(own.seats, {seat: witness.get(seat, "") for seat in own.seats}, witness, True)
                return change, found
        return None

    def _only(self, part: Part | None, parts: Callable[[str], Sequence[Part]]) -> Callable[[str], Sequence[Part]]:
        """The parts of a class, for the seats asked about this one alone where one is named."""
        own = {name for seat in self.seats for name in self.pattern.seats[seat].classes}
        return parts if part is None else lambda name: (part,) if name in own else parts(name)

    def _options(
        self, chosen: Mapping[str, Part], seat: str, parts: Callable[[str], Sequence[Part]], budget: Budget
    ) -> Options:
        return options(
            self.book, self.rules, self.pattern, parts, chosen, seat, owned=self.owned, prices=self.prices,
            limits=self.plan.limits, budget=budget, snapshot=self.shot,
        )  # fmt: skip

    def _groups(self, chosen: Mapping[str, Part], seats: tuple[str, ...]) -> tuple[Group, ...]:
        return groups_of(self.pattern, self.book.remedies, self.book.table, seated_by_name(self.pattern, chosen), seats)

    def _narrowed(self, chosen: Mapping[str, Part], seats: tuple[str, ...]) -> Callable[[str], Sequence[Part]]:
        """Where most of the board is chosen, only the parts for what is open: a small space is soon searched."""
        groups = self._groups(chosen, seats)
        free = [one for one in groups if one.seats[0] not in chosen or set(one.seats) & set(seats)]
        if 2 * len(free) > len(groups):
            return self.opened.parts_of_class
        classes = {name for one in free for name in self.pattern.seats[one.seats[0]].classes}
        return lambda name: self.opened.parts_of_class(name) if name in classes else ()

    # --- what is told --------------------------------------------------------------------------------------

    def page(self, found: Options, place: Place | None) -> Page:
        """The page behind the place, of an answer."""
        found = over_the_price(found, self.wanted.most_price, self._cost)
        every = self._one_by_one(self._matching(found))
        now = self.now
        if now is not None and self.wanted.alike_to:  # each by its own name
            now = dataclasses.replace(now, id=self.alike.name(now.id))
        beside = Beside(self.shot, found.seats, now, self.display)
        order = ranked(every, lambda option: beside.values(option, self.wanted.sort))
        return Page(found, every, *page_of(order, place, self.wanted.limit), beside)

    def doubted(self, shown: Sequence[Option]) -> bool:
        """Whether the judge of whole boards says otherwise of a board than the answer; its cells are then asked again.

        So no board is shown that was not judged as a whole.
        """
        wrong = [option.board for option in shown if option.board is not None and self._told_wrongly(option)]
        for board in wrong:
            self.shot.doubted(board)
        return bool(wrong)

    def without_boards(self, page: Page) -> Page:
        """The page without what the judge of whole boards does not bear out: that is still to be checked."""
        told = [
            (rank, dataclasses.replace(one, verdict="checking", board=None) if self._told_wrongly(one) else one)
            for rank, one in page.ranked
        ]
        return dataclasses.replace(page, ranked=told)

    def _told_wrongly(self, option: Option) -> bool:
        return option.board is not None and (self.shot.stands(option.board), option.verdict) not in STANDS_AS

    def document(self, page: Page, mark: str, shown_as: str) -> dict[str, Any]:
        found, beside = page.found, page.beside
        head = options_document(found, self.display, self.shot.judged, 0, 0, self.alike.count)
        lines = self._lines(found, page.shown, beside)
        told = {
            "plan": {"id": self.plan.id, "title": self.plan.title, "layout": self.plan.pattern},
            "seat": found.asked,
            "seats": list(found.seats),
            "now": self.now.id if self.now is not None else None,
            "sentence": head["sentence"],
            "counts": self.alike.counts(page.every),
            "total": sum(map(self.alike.count, page.every)),
            "different": len(page.every),
            "options": lines,
            "next": cursor_of(mark, Place(found.revision, shown_as, page.ranked[-1][0]))
            if page.more and page.ranked
            else None,
            "facets": self._facets(page.every),
            "left_empty": head["left_empty"],
            "already_clashing": self._already(found),
            "broken": head["broken"],
            "why": self._why(found) if self.wanted.why else None,
            "other_seats": self._others() if self.wanted.everything else None,
            "complete": found.complete,
            "catalogue_revision": found.revision,
            "rulebook_stamp": found.stamp,
        }
        named: dict[str, Any] = called_by_name(told, self.alike.name)
        for line, option in zip(named["options"], page.shown, strict=True):
            line |= self.alike.beside(option, str(line["part"]))
        return named

    def _already(self, found: Options) -> list[dict[str, Any]]:
        """What clashes among the choices; not what a part in another seat ends, once it is there."""
        if found.broken is None and any(option.possible for option in found.options):
            return []
        return already(self.shot, self.chosen, found.seats, self.display)

    def _one_by_one(self, options: list[Option]) -> list[Option]:
        """The options, or where the like of one part are wanted, each of these by itself.

        Malformed, at /alike_to, where there is no such part.
        """
        if not self.wanted.alike_to:
            return [option for option in options if self.alike.count(option)]
        known = self.alike.known(self.wanted.alike_to)
        option = next((one for one in options if one.part.id == known), None)
        if option is None:
            raise Malformed([self._no_such_part(self.wanted.alike_to, options, "/alike_to")])
        return self.alike.one_by_one(option, self.seats, self.own_names, self.priced)

    def _facets(self, shown: Sequence[Option]) -> list[dict[str, Any]] | None:
        wanted = self.wanted.facets
        return None if wanted is None else facets(shown, wanted, self.book.table, self.alike.count)

    def _matching(self, found: Options) -> list[Option]:
        """The options whose readings are as wanted; Malformed, at /where, where a condition is not understood."""
        if not self.wanted.where:
            return list(found.options)
        classes = tuple(dict.fromkeys(option.part.part_class for option in found.options))
        sizes, words, faults = parse_filters(
            self.wanted.where.items(), classes, self.book.table, self.book.fits, "/where"
        )
        if faults:
            raise Malformed(faults)
        return [option for option in found.options if matching(option.part, sizes, words)]

    def _lines(self, found: Options, page: Sequence[Option], beside: Beside) -> list[dict[str, Any]]:
        """The options of a page. Of those that clash, remedies are asked for as long as the time allows."""
        late = self.time.left(FOR_REMEDIES if self.wanted.why or self.wanted.everything else 1.0).expired()
        remedies: Remedies | None = None
        lines = []
        only = dataclasses.replace(found, options=tuple(page))
        plain = options_document(only, self.display, self.shot.judged, 0, len(page))["options"]
        own = {*self.chosen, *self.seats}
        for option, line in zip(page, plain, strict=True):
            line["to_read"].sort(
                key=lambda one: one["seat"] not in own
            )  # what is chosen first: the rest may be another
            cured = Cured(False)
            if option.verdict == "clash" and self.wanted.remedies and self.chosen and not late():
                remedies = remedies or Remedies(
                    self.plan, found.seats, self.book, self.rules, self.opened.parts_of_class
                )
                cured = remedies.of(option.part, late)
            board = dict(option.witness) if option.witness is not None else None
            if cured.verdict and cured.seated is not None:
                board = self._completed(cured.seated, option.part)
                if board is not None:
                    line["fits_with"] = cured_document(cured)
                    line["verdict"] = line["fits_with"]["verdict"]
            line["remedies_asked"] = cured.asked
            line["possible"] = board is not None
            line["witness"] = self._entered(board, option.part.id, cured) if board is not None else None
            line["sentence"] = option_sentence(self.shot, self.chosen, found.seats, option, line, self.display)
            lines.append({**line, **beside.told(option)})
        return lines

    def _entered(self, board: Mapping[str, str], own: str, cured: Cured) -> dict[str, Any]:
        named = {seat: self.alike.name(part) for seat, part in board.items()}
        own = self.alike.name(own)
        return entered(self.question.document, self.pattern, self.given, named, own, cured.moves)

    def _completed(self, mended: Mapping[str, Part], part: Part) -> dict[str, str] | None:
        """A whole board round a board that remedies have mended; None where none was found in time."""
        seated = told_apart(mended)
        parts = self._narrowed(seated, self.seats)
        found = self._options(seated, self.question.seat, self._only(part, parts), self.time.left())
        board = next((one.witness for one in found.options if one.part.id == part.id and one.witness is not None), None)
        return None if board is None else dict(board)

    def _cost(self, witness: Mapping[str, str]) -> float | None:
        """What a whole board costs beyond what is owned, in mu; None where a price is not known."""
        total = 0.0
        for part in witness.values():
            if part not in self.owned:
                price = self.prices.get(part)
                if price is None:
                    return None
                total += price
        return total

    def _why(self, found: Options) -> dict[str, Any]:
        """Why a part cannot stand here and what would let it in; or that it can."""
        known = self.alike.known(self.wanted.why)
        option = next((one for one in found.options if one.part.id == known), None)
        if option is None:
            raise Malformed([self._no_such_part(self.wanted.why, found.options, "/why")])
        told: dict[str, Any] = called_by_name(
            self._explained(option, found), lambda own: self.wanted.why if own == known else self.alike.name(own)
        )
        return told

    def _explained(self, option: Option, found: Options) -> dict[str, Any]:
        part = option.part
        if option.possible and found.broken is None:
            return possible_at_all(option)
        freed = self._freed(part) if option.verdict == "clash" else None
        asked = (self.book, self.rules, self.pattern, self.opened.parts_of_class, self.chosen, self.question.seat, part)
        reason = why(*asked, limits=self.plan.limits, budget=self.time.left(0.6), snapshot=self.shot)
        change = freed[0] if freed is not None else None
        if change is None:
            change = what_would(*asked, limits=self.plan.limits, budget=self.time.left(), snapshot=self.shot)
        return explained(self.shot, self.chosen, found.seats, option, reason, change, self.display)

    def _others(self) -> list[dict[str, Any]]:
        """Every other seat in which nothing is chosen yet, with all of its parts by verdict."""
        groups = [
            one for one in self._groups(self.chosen, ()) if one.seats[0] not in self.chosen
            and not set(one.seats) & set(self.seats)
        ]  # fmt: skip
        told = []
        for at, group in enumerate(groups):
            name = name_of(group, self.pattern)
            parts = self._narrowed(self.chosen, group.seats)
            found = self._options(self.chosen, name, parts, self.time.left(1.0 / (len(groups) - at)))
            head = options_document(
                found, self.display, self.shot.judged, 0, 0, lambda option: self.alike.count(option, here=False)
            )
            words = [word for word in VERDICTS if word != "fits_with"]
            told.append(
                {
                    "seat": name,
                    "seats": list(found.seats),
                    "may_be_empty": group.may_be_empty,
                    "sentence": head["sentence"],
                    "counts": self.alike.counts(found.options, here=False),
                    "parts": {word: sorted(found.ids(word)) for word in words},
                    "complete": found.complete,
                }
            )
        return told

    def _no_such_part(self, own: str, options: Sequence[Option], where: str) -> Problem:
        what = f"no part {shortened(own)!r} is asked about for the seat {self.question.seat}."
        known = [self.alike.name(one.part.id) for one in options]
        hint = did_you_mean(own, known) or "The answer lists the parts for this seat."
        return Problem("unknown_part", what, where, hint=hint)

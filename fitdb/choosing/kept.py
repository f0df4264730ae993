"""Snapshots shared by all questions: one for each layout, set of limits and rulebook, renewed when the catalogue moves.

What was asked of the judge once is worth minutes, so it is kept. A snapshot is used by one thread at a time. When the
catalogue has moved, a new one is made in the background, and until it is ready answers come from the old one and say
of which revision they are.
"""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from fitdb.catalogue import read
from fitdb.catalogue.asked_before import found_before, keep_found
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import is_memory
from fitdb.catalogue.snapshot import Moved, PartSnapshot, Signature
from fitdb.choosing.alike import one_of
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, Options, Snapshot, options
from fitdb.possible.remembered import about, stamp_of

MOST_SNAPSHOTS = 8
MOST_ANSWERS = 64
WARMING = Budget(10_000)
STORED_EACH = 60.0  # seconds

Key = tuple[str, str, tuple[tuple[str, float], ...]]
Asking = Callable[[Callable[[Any, Book], "Opened"]], "Opened"]


@dataclass
class Opened:
    """A snapshot with the parts that may stand on boards of its layout, and the answers that pages are cut from.

    parts: by class, of parts that are alike in everything one; `kinds` by its id what it stands for. stored: when what
    was found out was last put into the catalogue, seconds of a clock. answers: by question and by a mark of what was
    answered. Hold `lock` while the snapshot is asked.
    """

    snapshot: Snapshot
    shelf: PartSnapshot
    parts: Mapping[str, tuple[Part, ...]]
    kinds: Mapping[str, Signature]
    stored: float = field(default_factory=time.monotonic)
    lock: threading.Lock = field(default_factory=threading.Lock)
    answers: OrderedDict[tuple[str, str], Options] = field(default_factory=OrderedDict)

    @property
    def revision(self) -> str:
        return self.snapshot.book.revision

    def parts_of_class(self, part_class: str) -> tuple[Part, ...]:
        """The parts of a class and of those like it, as they were at this revision."""
        return self.parts.get(part_class, ())

    def store(self) -> bool:
        """Puts what was found out into the catalogue, for other processes and for later; whether anything was put.

        Nothing is put of a question with limits of its own: there would be no end of them.
        """
        self.stored, shot = time.monotonic(), self.snapshot
        if shot.limits != shot.book.limits or is_memory(self.shelf.engine):
            return False
        with self.lock:
            learned = shot.learned()
        kept = keep_found(self.shelf.engine, *stored_as(shot.pattern, shot.book, shot.rules, shot.limits), learned)
        if not kept:
            with self.lock:
                shot.not_kept(learned)
        return kept

    def keep(self, question: str, mark: str, answer: Options) -> None:
        """Remembers an answer, so that the next page is of the same list."""
        self.answers[question, mark] = answer
        self.answers.move_to_end((question, mark))
        while len(self.answers) > MOST_ANSWERS:
            self.answers.popitem(last=False)

    def complete_answer(self, question: str) -> Options | None:
        """An answer to this question in which nothing is left to check."""
        return next((one for (own, _), one in self.answers.items() if own == question and one.complete), None)


def opened(shelf: PartSnapshot, book: Book, rules: Rulebook, pattern: Pattern, limits: Mapping[str, float]) -> Opened:
    """A new snapshot, with every part that a seat of the layout takes. Moved where the shelf is of another revision."""
    classes = dict.fromkeys(name for seat in pattern.seats.values() for name in seat.classes)
    alike = {name: shelf.parts_like(name) for name in classes}
    parts = {name: tuple(map(one_of, some)) for name, some in alike.items()}
    several = [one for some in alike.values() for one in some if len(one.part_ids) > 1]
    if shelf.revision != book.revision:
        raise Moved(f"The parts are of {shelf.revision}, the layout of {book.revision}.")
    together = {**book.limits, **limits}
    with shelf.connected() as connection:
        known = found_before(connection, *stored_as(pattern, book, rules, together))
    kinds = {one_of(one).id: one for one in several}
    return Opened(Snapshot(pattern, book, rules, together, known=known), shelf, parts, kinds)


def stored_as(pattern: Pattern, book: Book, rules: Rulebook, limits: Mapping[str, float]) -> tuple[str, str]:
    """What a snapshot's answers are stored as: what they are about, and the stamp of all they depend on."""
    return about(pattern, limits), stamp_of(book, rules)


class Snapshots:
    """The snapshots in use. asking: reads the catalogue with a connection of its own; None renews on the spot."""

    def __init__(self, asking: Asking | None = None) -> None:
        self.asking = asking
        self._kept: OrderedDict[Key, Opened] = OrderedDict()
        self._renewing: set[Key] = set()
        self._storing: list[threading.Thread] = []
        self._shelf: PartSnapshot | None = None  # parts are read once for all layouts
        self._lock, self._reading = threading.Lock(), threading.Lock()

    def store_in_time(self, opened: Opened) -> None:
        """Stores in the background what was found out, if that was not done for a while."""
        with self._lock:
            self._storing = [one for one in self._storing if one.is_alive()]
            if self._storing or time.monotonic() - opened.stored < STORED_EACH:
                return
            self._storing.append(threading.Thread(target=opened.store, daemon=True))
            self._storing[0].start()

    def close(self) -> None:
        """Stores whatever was found out since; nothing may be asked any more."""
        for one in self._storing:
            one.join()
        for opened in self._kept.values():
            opened.store()

    def of(self, connection: Any, book: Book, rules: Rulebook, pattern: Pattern, limits: Mapping[str, float]) -> Opened:
        """The snapshot for this question; of an older revision while the one of this revision is being made."""
        key = (rules.stamp, pattern.id, tuple(sorted(limits.items())))
        with self._lock:
            known = self._kept.get(key)
            if known is not None and known.revision == book.revision:
                self._kept.move_to_end(key)
                return known
            if known is not None and self.asking is not None:
                if key not in self._renewing:
                    self._renewing.add(key)
                    threading.Thread(target=self._renew, args=(key, rules, limits), daemon=True).start()
                return known
        return self._put(key, self._opened(connection, book, rules, pattern, limits))

    def _opened(
        self, connection: Any, book: Book, rules: Rulebook, pattern: Pattern, limits: Mapping[str, float]
    ) -> Opened:
        """A new snapshot; of a still newer revision where somebody writes while the parts are read."""
        with self._reading:
            while True:
                if self._shelf is None or self._shelf.revision != book.revision:
                    self._shelf = PartSnapshot(connection.engine)
                try:
                    with self._shelf.through(connection):
                        return opened(self._shelf, book, rules, book.patterns[pattern.id], limits)
                except Moved:
                    self._shelf, book = None, read.book(connection)

    def _renew(self, key: Key, rules: Rulebook, limits: Mapping[str, float]) -> None:
        """Makes the snapshot of the present revision and asks it once of everything, before it is handed out."""
        asking, layout = self.asking, key[1]
        assert asking is not None
        try:
            fresh = asking(
                lambda connection, book: self._opened(connection, book, rules, book.patterns[layout], limits)
            )
            shot = fresh.snapshot
            first = next(iter(shot.pattern.seats))
            options(
                shot.book, rules, shot.pattern, fresh.parts_of_class, {}, first, limits=limits,
                budget=WARMING, snapshot=shot,
            )  # fmt: skip
            self._put(key, fresh)
        except KeyError:  # the layout is gone: what is asked next is refused where it is read
            self._kept.pop(key, None)
        finally:
            self._renewing.discard(key)

    def _put(self, key: Key, fresh: Opened) -> Opened:
        with self._lock:
            known = self._kept.get(key)
            if known is not None and known.revision == fresh.revision:
                return known
            self._kept[key] = fresh
            self._kept.move_to_end(key)
            while len(self._kept) > MOST_SNAPSHOTS:
                self._kept.popitem(last=False)
            return fresh

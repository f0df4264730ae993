"""The open catalogue that every request asks: one engine, a connection per question, one Book per revision."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from typing import Any, TypeVar

from fitdb.catalogue import read
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import default_url, open_catalogue, queue_up, writing
from fitdb.rules import rulebook

Connection = Any  # its type is known to the catalogue alone
Told = TypeVar("Told")
MEMORY = ("sqlite://", "sqlite:///:memory:")
MOST_LISTS = 32


class Desk:
    """Opens the catalogue at `url` (none: FITDB_URL, else the default place) and answers until it is closed."""

    def __init__(self, url: str | None = None) -> None:
        self.rules = rulebook()
        address = url or default_url()
        self._engine = open_catalogue(address)
        # A catalogue in memory has one connection, so its questions stand in line.
        self._alone: AbstractContextManager[Any] = threading.Lock() if address in MEMORY else nullcontext()
        self._book: Book | None = None
        self._lists: OrderedDict[tuple[object, ...], dict[str, Any]] = OrderedDict()
        self._lists_lock = threading.Lock()

    def ask(self, question: Callable[[Connection, Book], Told]) -> Told:
        """What `question` says, given a connection of its own and the Book of the catalogue as it is now."""
        with self._alone, self._engine.connect() as connection:
            return question(connection, self._book_now(connection))

    def change(self, change: Callable[[Connection, Book], Told]) -> Told:
        """What `change` says, in one transaction that may write: all of it is kept, or nothing when it raises."""
        with self._alone, writing(self._engine).begin() as connection:
            queue_up(connection)
            return change(connection, self._book_now(connection))

    def remembered(self, key: tuple[object, ...], judged: Callable[[], dict[str, Any]]) -> dict[str, Any]:
        """A judged list, judged once for all of its pages; `key` holds the revision, so nothing stale is shown."""
        with self._lists_lock:
            if key in self._lists:
                self._lists.move_to_end(key)
                return self._lists[key]
        found = judged()
        with self._lists_lock:
            self._lists[key] = found
            while len(self._lists) > MOST_LISTS:
                self._lists.popitem(last=False)
        return found

    def close(self) -> None:
        self._engine.dispose()

    def _book_now(self, connection: Connection) -> Book:
        """The Book at the catalogue's revision; read once more if somebody writes between the two queries."""
        revision = read.revision(connection)
        book = self._book
        while book is None or book.revision != revision:
            revision = read.revision(connection)
            book = read.book(connection)
        self._book = book
        return book

"""What is wrong with a question. "Does not fit" is an answer and never passes through here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault of what was asked: what, where, why, and what to do about it.

    `code` is stable so that a front end can translate; `path` is a JSON pointer into the request or file;
    `file`, `row` and `column` are set for tables (row 1 is the heading).
    """

    code: str
    message: str
    path: str = ""
    file: str = ""
    row: int | None = None
    column: str = ""
    hint: str = ""

    def where(self) -> str:
        """The place in words, as far as it is known: file, row, column, path."""
        parts = []
        if self.file:
            parts.append(self.file)
        if self.row is not None:
            parts.append(f"row {self.row}")
        if self.column:
            parts.append(f"column {self.column}")
        if self.path:
            parts.append(self.path)
        return ", ".join(parts)

    def __str__(self) -> str:
        place = self.where()
        text = f"{place}: {self.message}" if place else self.message
        return f"{text} {self.hint}".rstrip()


class Malformed(Exception):
    """A question that cannot be answered as it stands; carries every fault found, not only the first."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class OurFault(Exception):
    """A rule or table of ours broke its own promise: the person asking did nothing wrong."""

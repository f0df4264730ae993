"""What was ever asked of one layout, kept from question to question."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.rule import Rule, Rulebook
from fitdb.possible.followed import Sight, reach
from fitdb.possible.questions import Asking
from fitdb.possible.tables import Table

if TYPE_CHECKING:
    from fitdb.possible.search import Search

MOST_JUDGED = 20_000  # whole boards whose judgement is remembered


@dataclass
class Snapshot:
    """Tables, searches and judged boards of one layout under one rulebook and one set of limits.

    It is good for one revision of the catalogue and one stamp of the rulebook, and for one thread at a time.
    """

    pattern: Pattern
    book: Book
    rules: Rulebook
    limits: Mapping[str, float]
    asking: Asking = field(default_factory=Asking)

    def __post_init__(self) -> None:
        self.sight = Sight(self.book.table)
        self.tables: dict[Any, Table] = {}
        self.searches: dict[Any, Search] = {}
        self.judge = self._new_judge()
        self._reaches: dict[tuple[str, str], dict[str, tuple[str, ...]]] = {}
        self._parts: dict[str, Part] = {}
        self._judged: dict[tuple[tuple[str, int], ...], tuple[Finding, ...]] = {}

    @property
    def key(self) -> tuple[str, str, str]:
        return (self.book.revision, self.rules.stamp, self.pattern.id)

    def _new_judge(self) -> BoardJudge:
        return BoardJudge(self.pattern, self.book, self.rules, self.limits)

    def reach(self, rule: Rule, line: Line) -> dict[str, tuple[str, ...]]:
        """What the rule can follow at the line, by role."""
        key = (line.id, rule.id)
        if key not in self._reaches:
            self._reaches[key] = reach(rule, line, self.rules)
        return self._reaches[key]

    def same(self, part: Part) -> Part:
        """The same object for the same part, so that it is looked at once."""
        known = self._parts.setdefault(part.id, part)
        if known is not part and known != part:
            return part
        return known

    def judged(self, seated: Mapping[str, Part]) -> tuple[Finding, ...]:
        """What the judge of whole boards says against a board: fails first, then what is undecided, the worst first."""
        key = tuple((seat, id(part)) for seat, part in sorted(seated.items()))
        if key not in self._judged:
            if len(self._judged) >= MOST_JUDGED:
                self._judged.clear()
                self.judge = self._new_judge()  # what it remembers is of these boards
            bad = self.judge.against(Piece(seat, part) for seat, part in seated.items())
            self._judged[key] = tuple(sorted(bad, key=lambda one: (one.state != "fails", -one.rule.severity)))
        return self._judged[key]

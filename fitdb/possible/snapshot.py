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

MOST_JUDGED = 20_000  # whole boards whose judgement is remembered; as many older ones stay until there are more
MOST_LINES = 200_000  # what the judge remembers of single lines


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
        self._judged_before = self._judged

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
        found = self._judged.get(key, self._judged_before.get(key))
        if found is None:
            if self.judge.remembered_lines > MOST_LINES:
                self.judge = self._new_judge()
            bad = self.judge.against(Piece(seat, part) for seat, part in seated.items())
            found = tuple(sorted(bad, key=lambda one: (one.state != "fails", -one.rule.severity)))
        if key not in self._judged:
            if len(self._judged) >= MOST_JUDGED:
                self._judged_before, self._judged = self._judged, {}
            self._judged[key] = found
        return found

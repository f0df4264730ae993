"""What was ever asked of one layout, kept from question to question."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from fitdb.board import BoardJudge
from fitdb.catalogue.read import Book
from fitdb.model.finding import Finding
from fitdb.model.joint import Piece
from fitdb.model.part import Part
from fitdb.model.pattern import Line, Pattern
from fitdb.model.rule import Rule, Rulebook
from fitdb.possible.followed import Sight, digest, reach
from fitdb.possible.questions import Asking, Question, Scope
from fitdb.possible.remembered import taken_up, written
from fitdb.possible.tables import Table

if TYPE_CHECKING:
    from fitdb.possible.search import Search

MOST_TOLD = 2_000  # whole boards whose findings are remembered
MOST_LINES = 200_000  # what the judge remembers of single lines

Seated = tuple[tuple[str, int], ...]  # seats, and which part by identity


@dataclass
class Snapshot:
    """Tables, searches and judged boards of one layout under one rulebook and one set of limits.

    It is good for one revision of the catalogue and one stamp of the rulebook, and for one thread at a time.
    known: what tables of the same stamp knew, by the digest of their form.
    """

    pattern: Pattern
    book: Book
    rules: Rulebook
    limits: Mapping[str, float]
    asking: Asking = field(default_factory=Asking)
    known: Mapping[str, bytes] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.sight = Sight(self.book.table)
        self.tables: dict[Any, Table] = {}
        self.searches: dict[Any, Search] = {}
        self.judge = self._new_judge()
        self._reaches: dict[tuple[str, str], dict[str, tuple[str, ...]]] = {}
        self._parts: dict[str, Part] = {}
        # With the parts: what is remembered by identity has to stay alive.
        self._judged: dict[Seated, tuple[tuple[Part, ...], tuple[Finding, ...]]] = {}

    @property
    def key(self) -> tuple[str, str, str]:
        return (self.book.revision, self.rules.stamp, self.pattern.id)

    def _new_judge(self) -> BoardJudge:
        return BoardJudge(self.pattern, self.book, self.rules, self.limits)

    def table(self, form: tuple[Any, ...], scope: Callable[[], Scope]) -> Table:
        """The table of that form; scope: what it can see, asked for where it is a new one."""
        found = self.tables.get(form)
        if found is None:
            question = Question(
                scope(), self.pattern, self.rules, self.book.table, self.limits, self.sight, self.asking
            )
            found = self.tables[form] = Table(question)
            known = self.known.get(digest(form))
            if known is not None:
                taken_up(found, known)
        return found

    def learned(self) -> dict[str, bytes]:
        """What has become known since this was asked last, by the digest of a table's form, to be kept."""
        found = {}
        for form, table in self.tables.items():
            told = written(table) if table.learned else None
            table.learned = 0
            if told is not None:
                found[digest(form)] = told
        return found

    def not_kept(self, forms: Collection[str]) -> None:
        """What could not be kept after all is handed over again next time."""
        for form, table in self.tables.items():
            table.learned += digest(form) in forms

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

    def stands(self, seated: Mapping[str, Part]) -> str:
        """How the judge of whole boards says that a board stands at worst: `fails`, `undecided` or `holds`."""
        said = self.judged(seated)
        return said[0].state if said else "holds"

    def judged(self, seated: Mapping[str, Part]) -> tuple[Finding, ...]:
        """What the judge of whole boards says against a board: fails first, then what is undecided, the worst first."""
        key = _key(seated)
        if key not in self._judged:
            if len(self._judged) >= MOST_TOLD:
                self._judged.clear()
            bad = self._judge().against(Piece(seat, part) for seat, part in seated.items())
            found = tuple(sorted(bad, key=lambda one: (one.state != "fails", -one.rule.severity)))
            self._judged[key] = (tuple(seated.values()), found)
        return self._judged[key][1]

    def doubted(self, seated: Mapping[str, Part]) -> None:
        """The judge of whole boards says otherwise of a board than the tables: all of its cells are asked again."""
        for search in self.searches.values():
            board = search.space.board(seated)
            if board is not None:
                search.doubted(board)

    def _judge(self) -> BoardJudge:
        if self.judge.remembered_lines > MOST_LINES:
            self.judge = self._new_judge()
        return self.judge


def _key(seated: Mapping[str, Part]) -> Seated:
    return tuple((seat, id(part)) for seat, part in sorted(seated.items()))

"""One question put to the space of all boards: which groups are open, which are fixed, and what each part is told.

Choices that fill a whole group leave the space as it is and only fix it, so that from click to click everything that
was asked, found and ruled out is kept. A part chosen for one seat of a group apart from the others makes a new space.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence

from fitdb.model.part import Part
from fitdb.possible.one_group import Found, Late
from fitdb.possible.pool import Board
from fitdb.possible.search import Search
from fitdb.possible.snapshot import Snapshot
from fitdb.possible.space import Space
from fitdb.possible.whole import Group, groups_of, stands_alone

PartsOfClass = Callable[[str], Sequence[Part]]


class Session:
    """A question about one group: `group` is asked about, `fixed` are the signatures of what was chosen."""

    def __init__(
        self,
        snapshot: Snapshot,
        parts_of_class: PartsOfClass,
        chosen: Mapping[str, Part],
        asked: tuple[str, ...],
        whole: Collection[str] | None,
    ) -> None:
        self.snapshot, self.parts_of_class, self.asked, self.whole = snapshot, parts_of_class, asked, whole
        self.chosen = {seat: snapshot.same(part) for seat, part in chosen.items()}
        pattern, book = snapshot.pattern, snapshot.book
        left = {seat: part for seat, part in self.chosen.items() if seat not in asked}
        plain = groups_of(pattern, book.remedies, book.table, {}, asked, whole)
        uniform = {
            seat
            for group in plain
            if {left[seat].id if seat in left else "" for seat in group.seats} != {""}
            and len({id(left.get(seat)) for seat in group.seats}) == 1
            and stands_alone(pattern, group.seats[0], left[group.seats[0]], book.table, ())
            for seat in group.seats
        }
        apart = {seat: part for seat, part in left.items() if seat not in uniform}
        self.apart = frozenset(apart)
        self.groups = groups_of(pattern, book.remedies, book.table, apart, asked, whole)
        self.of_seat = {seat: at for at, group in enumerate(self.groups) for seat in group.seats}
        choices = [self._choices(group, apart, left, parts_of_class) for group in self.groups]
        key = (self.groups, tuple(tuple(map(id, some)) for some in choices))
        if key not in snapshot.searches:
            snapshot.searches[key] = Search(Space(snapshot, self.groups, choices))
        self.search: Search = snapshot.searches[key]
        self.space = self.search.space
        self.group = self.of_seat[asked[0]] if asked else -1
        self.fixed: dict[int, int] = {}
        self.named: dict[int, Part] = {}
        for seat, part in left.items():
            at = self.of_seat[seat]
            self.fixed[at] = self.space.signature_of[at][id(part)]
            self.named[at] = part
        self.left_empty = tuple(
            seat
            for group, some in zip(self.groups, choices, strict=True)
            if not some and not group.may_be_empty
            for seat in group.seats
        )

    def _choices(
        self, group: Group, apart: Mapping[str, Part], left: Mapping[str, Part], parts_of_class: PartsOfClass
    ) -> tuple[Part, ...]:
        seat = group.seats[0]
        if seat in apart:
            return (apart[seat],)
        described, book = self.snapshot.pattern.seats[seat], self.snapshot.book
        found = {
            part.id: self.snapshot.same(part)
            for part_class in described.classes
            for part in parts_of_class(part_class)
            if stands_alone(self.snapshot.pattern, seat, part, book.table, left)
        }
        for chosen in group.seats:  # somebody's own part is none of the catalogue's
            if chosen in self.chosen:
                found[self.chosen[chosen].id] = self.chosen[chosen]
        return tuple(found[one] for one in sorted(found))

    def with_fewer(self, given_up: Collection[int]) -> Session:
        """The same question with the choices of some groups given up: their seats go with the like ones again."""
        seats = {seat for own in given_up for seat in self.groups[own].seats}
        kept = {seat: part for seat, part in self.chosen.items() if seat not in seats}
        return Session(self.snapshot, self.parts_of_class, kept, self.asked, self.whole)

    def signature_of(self, part: Part) -> int:
        """The signature of a part in the group that is asked about."""
        return self.space.signature_of[self.group][id(part)]

    def found(self, late: Late, strictly: bool = True) -> Found:
        return self.search.options(self.group, self.fixed, late, strictly)

    def seated(self, board: Board, part: Part | None = None) -> dict[str, Part]:
        """The board's parts by seat: the chosen ones, and this part in the seat asked about."""
        keep: dict[int, Part | None] = dict(self.named)
        if part is not None:
            keep[self.group] = part
        return self.space.seated(board, keep)

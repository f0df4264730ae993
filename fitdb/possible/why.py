"""Why a part is ruled out, and what would let it in: the smallest sets of choices, each found by asking for a board.

A set of choices is to blame when no board stands with it and one stands with every smaller part of it. The smallest
change meets every such set at once: choices are given up, fewest first, until a board stands, and what is left standing
is shown as a whole board.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from fitdb.model.finding import Finding
from fitdb.model.part import Part
from fitdb.possible.answer import Changed, Why
from fitdb.possible.one_group import Late
from fitdb.possible.questions import FAILS
from fitdb.possible.ruled_out import RuledOut, TooHard
from fitdb.possible.session import Session

MOST_SUBSETS = 400  # smaller sets of choices that are tried before "smallest" is claimed
MOST_EXAMPLES = 3
STATED = ("rider", "route", "wish")  # who rides, where, and what is wished for: given up last


class Blame:
    """Asks for boards with some of the choices of a session, for one part in the group asked about or for any."""

    def __init__(self, session: Session, part: Part | None, late: Late) -> None:
        self.session, self.search, self.late = session, session.search, late
        self.part = part
        self.always = {} if part is None else {session.group: session.signature_of(part)}
        self.choices = tuple(sorted(session.fixed))
        self.conflicts: list[frozenset[int]] = []

    def board(self, kept: Iterable[int]) -> dict[str, Part] | None:
        """A board with these choices, by seat; None where there is none. Raises TooHard when the time is up."""
        session, kept = self.session, set(kept)
        given_up = [own for own in self.choices if own not in kept]
        if any(session.apart & set(session.groups[own].seats) for own in given_up):
            session = session.with_fewer(given_up)  # a seat chosen apart goes with the like ones again
            fixed, always = session.fixed, {}
            if self.part is not None:
                always = {session.group: session.signature_of(self.part)}
        else:
            fixed, always = {own: session.fixed[own] for own in kept}, self.always
        board = session.search.board({**fixed, **always}, self.late)
        if board is None:
            return None
        named = {at: part for at, part in session.named.items() if at in fixed}
        return session.space.seated(board, named if self.part is None else {**named, session.group: self.part})

    def conflict(self, kept: Collection[int]) -> frozenset[int]:
        """A set of choices among these, which leave no board, such that no part of it leaves none."""
        chosen = list(kept)
        for own in list(chosen):
            fewer = [other for other in chosen if other != own]
            if self.board(fewer) is None:
                chosen = fewer
        found = frozenset(chosen)
        self.conflicts.append(found)
        return found

    def smallest_conflict(self) -> tuple[frozenset[int], bool] | None:
        """The smallest set to blame, and whether that is proved; None when all choices together leave a board."""
        if self.board(self.choices) is not None:
            return None
        best = min((self.conflict(self.choices), *self.conflicts), key=lambda one: (len(one), sorted(one)))
        tried = 0
        try:
            for size in range(len(best)):
                for some in itertools.combinations(self.choices, size):
                    tried += 1
                    if tried > MOST_SUBSETS:
                        return best, False
                    if self.board(some) is None:
                        return frozenset(some), True
        except TooHard:
            return best, False
        return best, True

    def smallest_change(self) -> tuple[frozenset[int], dict[str, Part], bool] | None:
        """The fewest choices to give up, the board that then stands, and whether fewer would not do.

        None where no board stands whatever is given up. What is stated (rider, route, wish) is given up last.
        """
        stated = {own for own in self.choices if set(self.session.groups[own].seats) & set(STATED)}
        for hard in (stated, set[int]()):
            if self.board(hard) is None:
                continue
            while True:
                free = [one - hard for one in self.conflicts]
                given_up = _least_hitting(free)
                kept = [own for own in self.choices if own not in given_up]
                board = self.board(kept)
                if board is not None:
                    return given_up, board, True
                self.conflict(kept)
        return None


def _least_hitting(sets: Sequence[frozenset[int]]) -> frozenset[int]:
    """The smallest set that has a member of each of these."""
    every = sorted(frozenset[int]().union(*sets)) if sets else []
    for size in range(len(every) + 1):
        for some in itertools.combinations(every, size):
            if all(one & set(some) for one in sets):
                return frozenset(some)
    return frozenset(every)


def why_not(session: Session, part: Part | None, late: Late) -> Why | None:
    """Why nothing stands with this part (None: with any) in the group asked about; None where something does.

    Raises TooHard when the time is up before that is known.
    """
    blame = Blame(session, part, late)
    smallest = blame.smallest_conflict()
    if smallest is None:
        return None
    choices, proven = smallest
    fixed = {own: session.fixed[own] for own in choices} | blame.always
    rules = _rules(session, fixed)
    findings = list(_findings(session, rules, fixed))
    alone = len(rules) == 1 and set(session.space.meetings[rules[0]].groups) <= _settled(session, fixed)
    return Why(
        {seat: session.named[own].id for own in sorted(choices) for seat in session.groups[own].seats},
        tuple((session.space.meetings[n].line.title, session.space.meetings[n].rule.id) for n in rules),
        findings[0] if alone and findings else None,
        tuple(findings[:MOST_EXAMPLES]),
        proven,
    )


def change_for(session: Session, part: Part | None, late: Late) -> Changed | None:
    """The fewest choices to give up so that a board stands; None where none does. Raises TooHard when late."""
    blame = Blame(session, part, late)
    found = blame.smallest_change()
    if found is None:
        return None
    given_up, board, proven = found
    seated = {seat: part.id for seat, part in board.items()}
    seats = tuple(seat for own in sorted(given_up) for seat in session.groups[own].seats)
    return Changed(seats, {seat: seated.get(seat, "") for seat in seats}, seated, proven)


def _settled(session: Session, fixed: Mapping[int, int]) -> set[int]:
    """Groups whose part is given: chosen ones, and those for which there is only one."""
    return set(fixed) | {own for own, some in enumerate(session.space.signatures) if len(some) == 1}


def _rules(session: Session, fixed: Mapping[int, int]) -> list[int]:
    """A smallest-by-leaving-out set of meetings that together leave no board with these parts."""
    told = session.search.ruled_out
    guarded = RuledOut(session.space, by_meeting=True)
    for number, box, state in told.reasons:
        if state == FAILS:
            guarded.take(number, box, state)
    guarded.tell()
    parts = [guarded.literal[own][signature] for own, signature in sorted(fixed.items())]
    number_of = {literal: number for number, literal in guarded.asked_of.items()}
    if guarded.proposal([*parts, *number_of], False) is not None:
        return []
    needed = [literal for literal in guarded.core if literal in number_of]
    for literal in list(needed):
        fewer = [other for other in needed if other != literal]
        if guarded.proposal([*parts, *fewer], False) is None:
            needed = fewer
    return [number_of[literal] for literal in needed]


def _findings(session: Session, rules: Sequence[int], fixed: Mapping[int, int]) -> Iterator[Finding]:
    """For each rule a finding that fails with these parts, and with the first of the others that fails."""
    space = session.space
    for number in rules:
        meeting = space.meetings[number]
        for told, box, state in session.search.ruled_out.reasons:
            if told != number or state != FAILS:
                continue
            cell = []
            for group, classes in zip(meeting.groups, box, strict=True):
                own = space.columns[group][number]
                here = int(own[fixed[group]]) if group in fixed else None
                cell.append(here if here in classes else classes[0] if here is None else -1)
            if -1 not in cell:
                finding = meeting.table.finding(tuple(cell))
                if finding is not None and finding.state == "fails":
                    yield finding
                    break

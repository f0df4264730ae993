"""Front door: what can still stand in a seat, given what is chosen, as part of a whole board that does not clash.

Every part for the seat gets a verdict, every possible one a whole board that was judged as a whole, and what is not
possible its reason. Only a proof is told as a clash; what time did not allow is told as still being checked.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.possible.answer import Broken, Changed, Option, Options, Price, Why
from fitdb.possible.budget import Budget
from fitdb.possible.one_group import Found, Late
from fitdb.possible.pool import Board
from fitdb.possible.prices import Prices, cheapest_first
from fitdb.possible.questions import FAILS, HOLDS
from fitdb.possible.ruled_out import TooHard
from fitdb.possible.session import PartsOfClass, Session
from fitdb.possible.snapshot import Snapshot
from fitdb.possible.told import change_document, options_document, why_document
from fitdb.possible.whole import groups_of, name_of, seated_by_name, seats_called
from fitdb.possible.why import change_for, why_not

__all__ = [
    "Budget",
    "Option",
    "Options",
    "Price",
    "Snapshot",
    "all_options",
    "change_document",
    "options",
    "options_document",
    "what_would",
    "why",
    "why_document",
]

ENOUGH = Budget()
AGAIN = 8  # times that a board is looked for once more because the judge said otherwise than a box


def options(
    book: Book,
    rules: Rulebook,
    pattern: Pattern,
    parts_of_class: PartsOfClass,
    chosen: Mapping[str, Part],
    asked: str,
    *,
    owned: Collection[str] = (),
    prices: Mapping[str, float | None] | None = None,
    limits: Mapping[str, float] | None = None,
    budget: Budget = ENOUGH,
    snapshot: Snapshot | None = None,
    whole: Collection[str] | None = None,
    strictly: bool = True,
) -> Options:
    """Every part for the seat `asked`, with its verdict.

    chosen: parts by any name of a seat, the rider, route and wish among them; what was chosen for the asked seat itself
    is opened. owned: part ids; they cost nothing. prices: mu by part id, None or left out where unknown. snapshot: what
    earlier questions left; of another catalogue or rulebook it is not used. whole: base names of the rows that a whole
    board has, None for those of the layout. strictly: also whether a board without any doubt stands; without it a part
    that stands with doubts is told as `measure` only if that is known.
    Raises Malformed when the layout has no such seat.
    """
    late = budget.expired()
    snapshot = _snapshot(book, rules, pattern, limits or {}, snapshot)
    fixed, seats = seated_by_name(pattern, chosen), seats_called(pattern, asked)
    session = Session(snapshot, parts_of_class, fixed, seats, whole)
    found = session.found(late, strictly)
    broken = None
    if not found.boards and len(found.never) == len(session.space.signatures[session.group]) and session.fixed:
        broken = _broken(session, late)
        if broken is not None and broken.change is not None:
            kept = {seat: part for seat, part in fixed.items() if seat not in broken.change.given_up}
            session = Session(snapshot, parts_of_class, kept, seats, whole)
            found = session.found(late, strictly)
    told = _told(session, found, late, frozenset(owned), prices)
    complete = all(option.verdict != "checking" for option in told)
    group = session.groups[session.group]
    left_empty = tuple(seat for seat in session.left_empty if seat not in group.seats)
    return Options(asked, group.seats, told, left_empty, broken, complete, book.revision, rules.stamp)


def all_options(
    book: Book,
    rules: Rulebook,
    pattern: Pattern,
    parts_of_class: PartsOfClass,
    chosen: Mapping[str, Part],
    *,
    owned: Collection[str] = (),
    prices: Mapping[str, float | None] | None = None,
    limits: Mapping[str, float] | None = None,
    budget: Budget = ENOUGH,
    snapshot: Snapshot | None = None,
    whole: Collection[str] | None = None,
    strictly: bool = True,
) -> dict[str, Options]:
    """The same for every group of seats in which nothing is chosen yet, by the name of the group; one budget each."""
    snapshot = _snapshot(book, rules, pattern, limits or {}, snapshot)
    fixed = seated_by_name(pattern, chosen)
    return {
        group.name: options(
            book, rules, pattern, parts_of_class, chosen, name_of(group, pattern), owned=owned, prices=prices,
            limits=limits, budget=budget, snapshot=snapshot, whole=whole, strictly=strictly,
        )
        for group in groups_of(pattern, book.remedies, book.table, fixed, (), whole)
        if group.seats[0] not in fixed
    }  # fmt: skip


def why(
    book: Book,
    rules: Rulebook,
    pattern: Pattern,
    parts_of_class: PartsOfClass,
    chosen: Mapping[str, Part],
    asked: str,
    part: Part | None,
    *,
    limits: Mapping[str, float] | None = None,
    budget: Budget = ENOUGH,
    snapshot: Snapshot | None = None,
    whole: Collection[str] | None = None,
) -> Why | None:
    """Why a part (None: any at all) cannot stand in a seat; None where it can, or where the time was up first."""
    snapshot = _snapshot(book, rules, pattern, limits or {}, snapshot)
    session, known = _asked_of(snapshot, parts_of_class, chosen, asked, part, whole)
    try:
        return why_not(session, known, budget.expired())
    except TooHard:
        return None


def what_would(
    book: Book,
    rules: Rulebook,
    pattern: Pattern,
    parts_of_class: PartsOfClass,
    chosen: Mapping[str, Part],
    asked: str,
    part: Part | None,
    *,
    limits: Mapping[str, float] | None = None,
    budget: Budget = ENOUGH,
    snapshot: Snapshot | None = None,
    whole: Collection[str] | None = None,
) -> Changed | None:
    """The fewest choices to give up so that the part (None: any) can stand; None where nothing would, or the
    time was up first."""
    snapshot = _snapshot(book, rules, pattern, limits or {}, snapshot)
    session, known = _asked_of(snapshot, parts_of_class, chosen, asked, part, whole)
    try:
        return change_for(session, known, budget.expired())
    except TooHard:
        return None


def _snapshot(
    book: Book, rules: Rulebook, pattern: Pattern, limits: Mapping[str, float], known: Snapshot | None
) -> Snapshot:
    """The snapshot that was handed in, if it is of this catalogue, rulebook, layout and limits; else a new one."""
    every = {**book.limits, **limits}
    if known is not None and known.key == (book.revision, rules.stamp, pattern.id) and dict(known.limits) == every:
        return known
    return Snapshot(pattern, book, rules, every)


def _asked_of(
    snapshot: Snapshot,
    parts_of_class: PartsOfClass,
    chosen: Mapping[str, Part],
    asked: str,
    part: Part | None,
    whole: Collection[str] | None,
) -> tuple[Session, Part | None]:
    seats = seats_called(snapshot.pattern, asked)
    fixed = seated_by_name(snapshot.pattern, chosen)
    if part is not None:
        fixed = {**fixed, **dict.fromkeys(seats, part)}  # somebody's own part is none of the catalogue's
    session = Session(snapshot, parts_of_class, fixed, seats, whole)
    return session, None if part is None else session.chosen[seats[0]]


def _broken(session: Session, late: Late) -> Broken | None:
    try:
        told = why_not(session, None, late)
        return Broken(told, change_for(session, None, late))
    except TooHard:
        return Broken(None, None)


def _told(
    session: Session, found: Found, late: Late, owned: frozenset[str], prices: Mapping[str, float | None] | None
) -> tuple[Option, ...]:
    costs = Prices(session, prices or {}, owned)
    told = []
    for signature, alike in enumerate(session.space.signatures[session.group]):
        for part in alike:
            if part is not None:
                told.append(_option(session, found, signature, part, late, owned, costs))
    return cheapest_first(told)


def _option(
    session: Session,
    found: Found,
    signature: int,
    part: Part,
    late: Late,
    owned: frozenset[str],
    costs: Prices,
) -> Option:
    """One part's verdict. What of its board is known by a sampled box alone is asked by itself before it is told."""
    sure = signature in found.sure
    board = found.sure[signature] if sure else found.boards.get(signature)
    for _ in range(AGAIN):
        if board is None:
            break
        state = session.search.by_itself(board)
        if state != FAILS:
            verdict = "fits" if state == HOLDS else "measure" if signature in found.doubtful else "checking"
            return Option(part, verdict, session.seated(board, part), part.id in owned, costs.of(signature, part))
        board = _another(session, signature, late)
    verdict = "clash" if signature in found.never else "checking"
    return Option(part, verdict, owned=part.id in owned)


def _another(session: Session, signature: int, late: Late) -> Board | None:
    """Another board with this signature in the group asked about."""
    try:
        return session.search.board({**session.fixed, session.group: signature}, late)
    except TooHard:
        return None

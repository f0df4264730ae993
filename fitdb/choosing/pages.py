"""Pages of options: in which order they stand, where a page begins, and how that is written into a cursor."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from fitdb.intake.nearest import did_you_mean
from fitdb.model.problems import Malformed, Problem
from fitdb.possible.answer import VERDICTS, Option, Options

SORTS = ("best", "price", "mass", "margin", "difference", "id")
MOST_ON_A_PAGE, MOST_MILLISECONDS = 200, 60_000.0

Values = tuple[float | None, ...]
Rank = tuple[int, tuple[tuple[bool, float], ...], str]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of the options for one seat.

    limit: so many on a page, 0 for the counts alone. after: the cursor of the last page. sort: one of SORTS, always
    within each verdict. where: conditions on readings of the part, by name. facets: names to count by; None for none,
    empty for all that differ. everything: also the other open seats. why: a part that should be explained.
    alike_to: a part whose like are wanted one by one. milliseconds: of work. most_price: mu; only then is a price a
    condition. remedies: whether they are looked for, for what clashes on the page.
    """

    limit: int = 20
    after: str = ""
    sort: str = "best"
    where: Mapping[str, str] = field(default_factory=dict)
    facets: tuple[str, ...] | None = None
    everything: bool = False
    why: str = ""
    alike_to: str = ""
    milliseconds: float = 2000.0
    most_price: float | None = None
    remedies: bool = True

    def checked(self) -> Wanted:
        """Itself; Malformed with every fault."""
        faults = []
        if self.sort not in SORTS:
            hint = did_you_mean(self.sort, SORTS) or f"Known here: {', '.join(SORTS)}."
            faults.append(Problem("unknown_order", "options are not sorted by that.", "/sort", hint=hint))
        if not 0 <= self.limit <= MOST_ON_A_PAGE:
            what = f"a page has from 0 to {MOST_ON_A_PAGE} options."
            faults.append(Problem("impossible_value", what, "/limit", hint="Leave it out for 20."))
        if not 0 <= self.milliseconds <= MOST_MILLISECONDS:
            what = f"an answer may take from 0 to {MOST_MILLISECONDS:g} ms of work."
            faults.append(Problem("impossible_value", what, "/budget_ms", hint="Ask again: what was found is kept."))
        if self.most_price is not None and not self.most_price >= 0:
            faults.append(Problem("impossible_value", "a price is never below 0.", "/most_price_mu"))
        if faults:
            raise Malformed(faults)
        return self


@dataclass(frozen=True, slots=True)
class Place:
    """Where the last page ended: of which list (`mark`), at which revision, behind which rank."""

    revision: str
    mark: str
    rank: Rank


def mark_of(options: Options) -> str:
    """A mark of what was answered: the same for the same verdicts."""
    told = [[option.part.id, option.verdict] for option in sorted(options.options, key=lambda one: one.part.id)]
    return _digest([options.revision, options.stamp, told])[:16]


def question_mark(document: object, seat: str, wanted: Wanted) -> str:
    """A mark of the question, the same for all of its pages."""
    asked = [document, seat, wanted.sort, sorted(wanted.where.items()), wanted.most_price, wanted.alike_to]
    return _digest(asked)[:16]


def rank_of(option: Option, values: Values) -> Rank:
    """By verdict, then by what is wanted with the unknown last, then by id."""
    return VERDICTS.index(option.verdict), tuple((one is None, one or 0.0) for one in values), option.part.id


def cursor_of(question: str, place: Place) -> str:
    verdict, values, own = place.rank
    written = [question, place.revision, place.mark, verdict, [list(one) for one in values], own]
    return base64.urlsafe_b64encode(json.dumps(written, separators=(",", ":")).encode()).decode().rstrip("=")


def place_of(question: str, cursor: str) -> Place | None:
    """The place behind which the page begins; None without a cursor. Malformed where it was not made for this list."""
    if not cursor:
        return None
    try:
        mine, revision, mark, verdict, values, own = json.loads(
            base64.urlsafe_b64decode(cursor.encode() + b"=" * (-len(cursor) % 4))
        )
        rank = int(verdict), tuple((bool(none), float(value)) for none, value in values), str(own)
    except (ValueError, TypeError, RecursionError, OverflowError):
        raise Malformed([_bad_cursor("this is no cursor of ours.")]) from None
    if mine != question:
        raise Malformed([_bad_cursor("this cursor belongs to another question.")])
    return Place(str(revision), str(mark), rank)


def page_of(
    ranked: Sequence[tuple[Rank, Option]], place: Place | None, limit: int
) -> tuple[list[tuple[Rank, Option]], bool]:
    """The options behind the place, at most so many, and whether there are more."""
    behind = [one for one in ranked if place is None or one[0] > place.rank]
    return behind[:limit], len(behind) > limit


def ranked(options: Iterable[Option], values: Callable[[Option], Values]) -> list[tuple[Rank, Option]]:
    return sorted(((rank_of(option, values(option)), option) for option in options), key=lambda one: one[0])


def _digest(value: Any) -> str:
    return hashlib.sha256(json.dumps(value, sort_keys=True, default=str).encode()).hexdigest()


def _bad_cursor(what: str) -> Problem:
    return Problem("bad_cursor", what, "/after", hint="Leave `after` out for the first page; then send `next`.")

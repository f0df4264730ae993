"""What a whole board with a part costs: a bound from below, and the cheapest board that was seen."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitdb.model.part import Part
from fitdb.possible.answer import VERDICTS, Option, Price
from fitdb.possible.questions import UNDECIDED
from fitdb.possible.session import Session


class Prices:
    """Prices of one question: 0 for what is owned, None where nobody knows. One price is for one piece."""

    def __init__(self, session: Session, prices: Mapping[str, float | None], owned: frozenset[str]) -> None:
        self.session, self.prices, self.owned = session, prices, owned
        self.known = bool(prices)
        if self.known:
            space = session.space
            self._least = [
                min(
                    self._sum(part, len(group.seats))[0]
                    for signature, alike in enumerate(some)
                    if session.fixed.get(at, signature) == signature
                    for part in ([session.named[at]] if at in session.named else alike)
                )
                for at, (group, some) in enumerate(zip(space.groups, space.signatures, strict=True))
            ]
            self._seen = self._cheapest_seen()

    def of(self, signature: int, part: Part) -> Price | None:
        """The price of a whole board with this part; None where no prices were given."""
        if not self.known:
            return None
        group = self.session.group
        own, unpriced = self._sum(part, len(self.session.groups[group].seats))
        rest = sum(least for at, least in enumerate(self._least) if at != group)
        seen = self._seen.get(signature)
        if seen is None:
            return Price(own + rest, None, unpriced)
        return Price(own + rest, own + seen[0], unpriced + seen[1])

    def _cheapest_seen(self) -> dict[int, tuple[float, int]]:
        """By signature of the group asked about the least sum of all else over the known boards, and its unpriced."""
        session, found = self.session, dict[int, tuple[float, int]]()
        fixed = {own: signature for own, signature in session.fixed.items() if own != session.group}
        for row in session.search.pool.with_parts(fixed, UNDECIDED):
            board: list[int] = row.tolist()
            money, unpriced = 0.0, 0
            for at, group in enumerate(session.groups):
                if at != session.group:
                    best = min(self._sums(at, board[at], len(group.seats)), key=lambda one: (one[1], one[0]))
                    money, unpriced = money + best[0], unpriced + best[1]
            signature = board[session.group]
            if signature not in found or (unpriced, money) < (found[signature][1], found[signature][0]):
                found[signature] = (money, unpriced)
        return found

    def _sums(self, at: int, signature: int, count: int) -> Iterable[tuple[float, int]]:
        alike = [self.session.named[at]] if at in self.session.named else self.session.space.signatures[at][signature]
        return [self._sum(part, count) for part in alike]

    def _sum(self, part: Part | None, count: int) -> tuple[float, int]:
        if part is None or part.id in self.owned:
            return 0.0, 0
        price = self.prices.get(part.id)
        return (0.0, count) if price is None else (price * count, 0)


def cheapest_first(told: Iterable[Option]) -> tuple[Option, ...]:
    """Options by verdict, then the owned ones, then by price where it is known, then by id."""

    def rank(option: Option) -> tuple[int, bool, float, str]:
        price = option.price
        money = float("inf") if price is None else price.from_least if price.cheapest is None else price.cheapest
        return (VERDICTS.index(option.verdict), not option.owned, money, option.part.id)

    return tuple(sorted(told, key=rank))

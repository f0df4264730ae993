"""What the judge said of each combination that one rule can tell apart, remembered; asked only for what is wanted.

A cell is one class of parts per position. Beside single cells whole boxes of them are asked, each as one span, so that
a few hundred questions stand for millions of cells.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fitdb.model.finding import Finding
from fitdb.model.part import Part
from fitdb.model.rule import AtLeast, Between, OneOf, Same, Shape
from fitdb.possible.doubts import doubt_of
from fitdb.possible.followed import Seen, digest
from fitdb.possible.known import Box, Boxes, Cell, Known
from fitdb.possible.questions import CODE, FAILS, HOLDS, UNDECIDED, UNKNOWN, Question, frame

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SMALL = 48  # cells below which no box is looked for
HELD_BEFORE_A_BOX = 12
WORTH_A_DOUBT = 16  # cells of a box; smaller ones cost more than they spare
LONGEST_PAUSE = 31  # cells that fail between two tries for a box
MOST_PUSHES = 4  # questions about one edge of a box
WIDEST_FIRST = (0.5, 0.25, 0.1)
REACHES = (0.5, 0.25, 0.12)


class Classes:
    """The parts of one position, collapsed to what the rule can see of them. Class 0 is the empty seat."""

    def __init__(self, question: Question, position: int) -> None:
        self.looks = question.scope.looks[position]
        self.sight = question.sight
        self.parts: list[Part | None] = [None]
        self.frames: list[Any] = [None]
        self.mates: dict[Any, list[int]] = {None: [0]}
        self._by_seen: dict[Any, int] = {None: 0}
        self._by_part: dict[int, int] = {}
        self._reserved: dict[str, int] = {}  # by digest of what is seen, classes of parts that were not met yet

    def of(self, part: Part | None, seen: tuple[Seen, ...] | None = None) -> int:
        """The class of a part; `seen` is what is seen of it, where that is known already."""
        if part is None:
            return 0
        found = self._by_part.get(id(part))
        if found is None:
            seen = self.sight.of(part, self.looks) if seen is None else seen
            found = self._by_seen.get(seen)
            if found is None:
                found = self._by_seen[seen] = self._place_for(seen)
                self.parts[found] = part
                self.frames[found] = frame(seen)
                self.mates.setdefault(self.frames[found], []).append(found)
            self._by_part[id(part)] = found
        return found

    def _place_for(self, seen: Any) -> int:
        reserved = self._reserved.pop(digest(seen), None) if self._reserved else None
        if reserved is not None:
            return reserved
        self.parts.append(None)
        self.frames.append(None)
        return len(self.parts) - 1

    def reserve(self, digests: Sequence[str]) -> None:
        """Keeps places for classes that something is known of already, the empty seat's at the front left out."""
        assert len(self.parts) == 1, "only before any part was looked at"
        self._reserved = {own: at for at, own in enumerate(digests) if own}
        self.parts += [None] * (len(digests) - 1)
        self.frames += [None] * (len(digests) - 1)

    def named(self) -> dict[int, str]:
        """By class the digest of what is seen of it."""
        met = {at: digest(seen) for seen, at in self._by_seen.items() if at}
        return met | {at: own for own, at in self._reserved.items()}


Says = Callable[[Sequence[Sequence[int]]], bool]  # whether the same is said all over a box


@dataclass
class Pause:
    """Where no box is found, for instance because what excuses a rule is in doubt, the next tries are put off."""

    _passed_over: int = 0
    _length: int = 0

    def over(self) -> bool:
        self._passed_over += 1
        return self._passed_over >= self._length

    def tried(self, found: bool) -> None:
        self._passed_over = 0
        self._length = 0 if found else min(2 * self._length + 1, LONGEST_PAUSE)


class Table:
    """One rule at lines of one form. `state` answers for one cell, `states` for many at once."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.classes = tuple(Classes(question, at) for at in range(len(question.scope.looks)))
        self.known = Known(len(self.classes), lambda: tuple([len(one.parts) for one in self.classes]))
        self.told: dict[Cell, float | None] = {}  # nominal value, to know which parts are alike
        self._orders: dict[tuple[int, Any], list[int]] = {}
        self.doubts = Boxes(len(self.classes))  # in which nothing holds, whatever fails or is undecided
        self._held = 0
        self._fails, self._doubts = Pause(), Pause()
        self.learned = 0  # answers that were not known when the table was made
        shapes = {rule.shape for rule in question.asked}
        self.dear = bool(shapes & {Shape.SAMPLED, Shape.ASKED})
        self.sampled = Shape.SAMPLED in shapes

    @property
    def size(self) -> int:
        return math.prod(len(one.parts) for one in self.classes)

    def know(
        self,
        cells: Mapping[Cell, tuple[int, float | None]],
        boxes: Iterable[tuple[int, Box]],
        doubts: Iterable[Box],
    ) -> None:
        """Takes up what was said before, by classes that are reserved. cells: state and nominal value."""
        for cell, (state, nominal) in cells.items():
            self.known.say(cell, state)
            self.told[cell] = nominal
        for state, box in boxes:
            self.known.say_box(box, state)
        for box in doubts:
            self.doubts.add(box, UNDECIDED)
        self.learned = 0

    # --- one cell ------------------------------------------------------------------------------------------

    def state(self, cell: Cell) -> int:
        """HOLDS, UNDECIDED or FAILS, asked of the judge where it is not known."""
        found = self.known.of(cell)
        if found == UNKNOWN:
            found = self._ask(cell)
            if self.size > SMALL and self._is_worth_it(found):
                widened = self._widen(cell, found)
                if found == FAILS:
                    self._fails.tried(widened)
        return found

    def ask_again(self, cell: Cell) -> int:
        """Asks the judge of one cell whatever a box says of it; what he says of the cell stands over the box."""
        return self._ask(cell)

    def itself(self, cell: Cell) -> int:
        """What the judge says of the cell by itself, no box believed."""
        found = self.known.cells.get(cell)
        return self._ask(cell) if found is None else found

    def finding(self, cell: Cell) -> Finding | None:
        """The finding itself, asked again."""
        return self.question.finding(self._parts(cell), self._frames(cell))

    def _ask(self, cell: Cell) -> int:
        told = self.question.standing(self._parts(cell), self._frames(cell))
        found = CODE[told.state]
        self.known.say(cell, found)
        self.told[cell] = told.nominal
        self.learned += 1
        return found

    def _parts(self, cell: Cell) -> list[Part | None]:
        return [own.parts[at] for own, at in zip(self.classes, cell, strict=True)]

    def _frames(self, cell: Cell) -> tuple[Any, ...]:
        return tuple(own.frames[at] for own, at in zip(self.classes, cell, strict=True))

    def _is_worth_it(self, state: int) -> bool:
        """A box costs some twenty questions. What fails is ruled out with it; what holds saves nothing but asking."""
        if state == FAILS:
            return self._fails.over()
        self._held += state == HOLDS
        return state == HOLDS and self._held % HELD_BEFORE_A_BOX == 0

    # --- boxes ---------------------------------------------------------------------------------------------

    def _widen(self, cell: Cell, state: int) -> bool:
        """A box round the cell that holds, or fails, all over: as wide as it is found to be. False where none is."""
        frames = self._frames(cell)
        box = self._as_wide_as(cell, state, lambda tried: self._says(tried, frames) == state)
        if box is not None:
            self._keep(box, state)
        return box is not None

    def doubted_round(self, cell: Cell) -> Box:
        """The largest box known in which, as in this undecided cell, nothing holds; looked for where there is none."""
        found = self.doubts.largest(cell, UNDECIDED) or self.known.boxes.largest(cell, UNDECIDED)
        if found is None and self.size > SMALL and self._doubts.over():
            found = self._doubted(cell)
            self._doubts.tried(found is not None and math.prod(map(len, found)) >= WORTH_A_DOUBT)
        return found or tuple((at,) for at in cell)

    def _doubted(self, cell: Cell) -> Box | None:
        frames = self._frames(cell)
        mates = [own.mates[one] for own, one in zip(self.classes, frames, strict=True)]
        if self._says(mates, frames) == UNDECIDED:  # what nobody has read
            self._keep(mates, UNDECIDED)
            return self.known.boxes.largest(cell, UNDECIDED)
        doubt = doubt_of(self.question, self._parts(cell), frames)
        if doubt is None:
            return None
        box = self._as_wide_as(cell, FAILS, lambda tried: doubt.over(self._mates(tried)))
        if box is None:
            return None
        self.doubts.add(box, UNDECIDED)
        self.learned += 1
        return self.doubts.largest(cell, UNDECIDED)

    def _as_wide_as(self, cell: Cell, state: int, says: Says) -> list[list[int]] | None:
        """A box round a cell of which the same is said, as wide as it is found to be; None where only of the cell.

        state: HOLDS or FAILS, to know on which side of the limit more of the same lies.
        """
        mates = [own.mates[one] for own, one in zip(self.classes, self._frames(cell), strict=True)]
        if all(len(some) == 1 for some in mates):
            return None
        box = mates
        if not says(mates):
            box = self._singly(cell, mates, says) if self.dear else self._grown(cell, mates, state, says)
        return None if all(len(some) == 1 for some in box) else box

    def _singly(self, cell: Cell, mates: list[list[int]], says: Says) -> list[list[int]]:
        """For what is dear to ask: each position as a whole or not at all."""
        box = [[at] for at in cell]
        for at in sorted(range(len(box)), key=lambda one: -len(mates[one])):
            if len(mates[at]) > 1 and says([*box[:at], mates[at], *box[at + 1 :]]):
                box[at] = mates[at]
        return box

    def _grown(self, cell: Cell, mates: list[list[int]], state: int, says: Says) -> list[list[int]]:
        """From the cell to where the same is said all the more, and back as far as it is still said; else around it."""
        orders = [self._order(cell, at, some) for at, some in enumerate(mates)]
        side = self._side(cell, state)
        if side:
            box = [_beyond(order, at, side) for order, at in zip(orders, cell, strict=True)]
            if says(box):
                self._push(box, orders, says, side)
                return box
        for share in WIDEST_FIRST:
            box = [_round(order, at, share) for order, at in zip(orders, cell, strict=True)]
            if says(box):
                break
        else:
            box = [[at] for at in cell]
        self._grow(box, orders, says)
        return box

    def _grow(self, box: list[list[int]], orders: list[list[int]], says: Says) -> None:
        for at in sorted(range(len(box)), key=lambda one: -len(orders[one])):
            order = orders[at]
            if len(order) == len(box[at]):
                continue
            first, last = order.index(box[at][0]), order.index(box[at][-1])

            def between(low: int, high: int, at: int = at, order: list[int] = order) -> bool:
                return says([*box[:at], order[low : high + 1], *box[at + 1 :]])

            if between(0, len(order) - 1):
                first, last = 0, len(order) - 1
            else:
                steps = [max(int(len(order) * reach), 1) for reach in REACHES]
                last = next((far for far in _up(last, steps, len(order)) if between(first, far)), last)
                first = next((near for near in _down(first, steps) if between(near, last)), first)
            box[at] = order[first : last + 1]

    def _side(self, cell: Cell, state: int) -> int:
        """Which way in the orders the same is said all the more: -1 to their beginning, +1 to their end, 0 neither."""
        hard, value = self.question.scope.rule.hard, self.told.get(cell)
        if value is None or isinstance(hard, Same | OneOf):
            return 0
        if isinstance(hard, Between):
            if state != FAILS:
                return 0
            return -1 if value < hard.low.value else +1
        return -1 if isinstance(hard, AtLeast) == (state == FAILS) else +1

    def _push(self, box: list[list[int]], orders: list[list[int]], says: Says, side: int) -> None:
        """Moves the near edge of a box outwards, one position after the other, as far as halving finds it to go."""
        for at in sorted(range(len(box)), key=lambda one: -len(orders[one])):
            order = orders[at] if side < 0 else orders[at][::-1]
            inside, outside = len(box[at]), len(order) + 1
            for _ in range(MOST_PUSHES):
                tried = len(order) if outside > len(order) and inside < len(order) else (inside + outside) // 2
                if tried <= inside:
                    break
                if says([*box[:at], order[:tried], *box[at + 1 :]]):
                    inside = tried
                else:
                    outside = tried
            box[at] = order[:inside]

    def _order(self, cell: Cell, at: int, mates: list[int]) -> list[int]:
        """The classes of a position by what they do to the quantity with the rest of the first cell asked as it is.

        Only to choose boxes by: whether one holds or fails all over is asked.
        """
        key = (at, self.classes[at].frames[cell[at]])
        order = self._orders.get(key, [])
        if len(order) != len(mates):
            values = []
            for mate in mates:
                near = (*cell[:at], mate, *cell[at + 1 :])
                if near not in self.told:
                    self._ask(near)
                values.append((self.told[near] or 0.0, mate))
            order = self._orders[key] = [mate for _, mate in sorted(values)]
        return order

    def _says(self, box: Sequence[Sequence[int]], frames: tuple[Any, ...]) -> int:
        return self.question.over_span(self._mates(box), frames)

    def _mates(self, box: Sequence[Sequence[int]]) -> list[list[Part | None]]:
        return [[own.parts[one] for one in some] for own, some in zip(self.classes, box, strict=True)]

    def _keep(self, box: Sequence[Sequence[int]], state: int) -> None:
        self.learned += 1
        self.known.say_box(box, state)

    def box_round(self, cell: Cell, state: int) -> Box:
        """The largest kept box of that state which has the cell; the cell alone where there is none."""
        return self.known.boxes.largest(cell, state) or tuple((at,) for at in cell)

    # --- many cells ----------------------------------------------------------------------------------------

    def states(self, columns: Sequence[NDArray[np.intp]]) -> NDArray[np.int8]:
        """The states of many cells, given as one array of classes per position; what is not known is asked."""
        import numpy as np

        if not columns:
            return np.full(1, self.state(()), dtype=np.int8)
        found = self.known.of_many(columns)
        for unknown in np.flatnonzero(found == UNKNOWN).tolist():
            found[unknown] = self.state(tuple([int(column[unknown]) for column in columns]))
        return found


def _beyond(order: Sequence[int], at: int, side: int) -> list[int]:
    """The classes of an order from its beginning to one, or from one to its end."""
    place = order.index(at)
    return list(order[: place + 1] if side < 0 else order[place:])


def _up(last: int, steps: Sequence[int], count: int) -> list[int]:
    """Places further up an order, the furthest first."""
    return list(dict.fromkeys(far for far in (min(last + step, count - 1) for step in steps) if far > last))


def _down(first: int, steps: Sequence[int]) -> list[int]:
    """Places further down an order, the furthest first."""
    return list(dict.fromkeys(near for near in (max(first - step, 0) for step in steps) if near < first))


def _round(order: Sequence[int], at: int, share: float) -> list[int]:
    """The classes next to one in an order, a share of all of them."""
    place, reach = order.index(at), max(int(len(order) * share / 2), 0)
    return list(order[max(place - reach, 0) : place + reach + 1])

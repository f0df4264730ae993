"""A value that follows from readings in steps: where one reading moves, only what follows it is worked out anew.

The values stand in one row: one per variable, then one per step. A row is not written to once it is made; moving a
reading makes another one.
"""

from __future__ import annotations

import functools
import operator
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

Step = tuple[int, Callable[..., Any], Callable[[Sequence[Any]], Sequence[Any]]]
Described = tuple[Callable[..., Any], tuple[int, ...]]


@dataclass(frozen=True, slots=True, eq=False)
class WorkedOut:
    """Steps in order: the place in the row that a step fills, what works it out, and what of the row it takes.

    at: where in the row the value stands. rest: the row behind the variables before any step, with what follows from
    no reading. follows[i]: the steps that variable i moves, directly or through others. reads: the variables that move
    the value at all.
    """

    at: int
    rest: tuple[Any, ...]
    steps: tuple[Step, ...]
    follows: tuple[tuple[Step, ...], ...]
    reads: tuple[int, ...]

    def row(self, values: Sequence[Any]) -> list[Any]:
        """The whole row for one value per variable, in order."""
        row = [*values, *self.rest]
        for place, quantity, takes in self.steps:
            row[place] = quantity(*takes(row))
        return row

    def moved(self, row: list[Any], variable: int, value: Any) -> list[Any]:
        """The row with one variable at another value."""
        row = row.copy()
        row[variable] = value
        for place, quantity, takes in self.follows[variable]:
            row[place] = quantity(*takes(row))
        return row

    def __call__(self, values: Sequence[Any]) -> Any:
        return self.row(values)[self.at]


def in_steps(variables: int, described: Sequence[Described], at: int) -> WorkedOut:
    """What stands at place `at` of a row of so many variables and then the steps, each with the places that it takes.

    Steps on which the value does not depend are left out; one that takes nothing is worked out here, once.
    """
    leading = {at}
    for place in range(variables + len(described) - 1, variables - 1, -1):
        if place in leading:
            leading.update(described[place - variables][1])
    moved_by: list[set[int]] = [{place} for place in range(variables)]
    rest: list[Any] = [None] * len(described)
    steps: list[Step] = []
    follows: list[list[Step]] = [[] for _ in range(variables)]
    for place, (quantity, takes) in enumerate(described, variables):
        moved_by.append(set().union(*(moved_by[one] for one in takes)))
        if place not in leading:
            continue
        if not takes:
            rest[place - variables] = quantity()
            continue
        step = (place, quantity, _taken(takes))
        steps.append(step)
        for variable in moved_by[place]:
            follows[variable].append(step)
    reads = tuple(sorted(moved_by[at]))
    return WorkedOut(at, tuple(rest), tuple(steps), tuple(map(tuple, follows)), reads)


@functools.lru_cache(maxsize=4096)
def shared_steps(variables: int, described: tuple[Described, ...], at: int) -> WorkedOut:
    """The same, one object for all that have the same steps: most traces of a rule have."""
    return in_steps(variables, described, at)


def in_one_step(variables: int, quantity: Callable[[Sequence[Any]], Any]) -> WorkedOut:
    """A quantity of all variables of which no steps are known."""
    return in_steps(variables, ((lambda *values: quantity(values), tuple(range(variables))),), variables)


def _taken(places: tuple[int, ...]) -> Callable[[Sequence[Any]], Sequence[Any]]:
    # An itemgetter of one place would return the value alone: hence a slice of length one.
    return operator.itemgetter(*places) if len(places) > 1 else operator.itemgetter(slice(places[0], places[0] + 1))

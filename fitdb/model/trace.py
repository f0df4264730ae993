"""A rule at one joint, its needs followed down to readings: what `survey` hands to `judge`."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.part import Attribute
from fitdb.model.reading import Reading
from fitdb.model.rule import Rule
from fitdb.model.worked_out import WorkedOut, in_one_step


@dataclass(frozen=True, slots=True)
class Variable:
    """One reading of one piece: (seat, place, attribute) is its identity, so what enters twice is one variable.

    place is the port at which the reading stands, or empty. needed_as are the needs (of the rule, or of survey
    lines on the way) that lead to it.
    """

    seat: str
    part: str
    place: str
    attribute: str
    described: Attribute | None
    reading: Reading | None
    needed_as: str


@dataclass(frozen=True, slots=True)
class Trace:
    """How a rule's needs follow from readings: `needs[i](values)` is need i, given one value per variable in order.

    reads[i] are the variables that need i follows, by index; for `role*.attribute` one per piece, in order. turns[i]
    says that need i is worked out by a survey line that may turn back inside its box.

    steps: the quantity through every size on the way, where they are known. A need that is worked out is a WorkedOut
    itself, over the same variables.

    wanted: roles that are empty, with their classes; lacking: sentences about pieces that offer no such thing at all.
    """

    rule: Rule
    joint: str
    variables: tuple[Variable, ...]
    needs: tuple[Callable[[Sequence[Any]], Any], ...]
    constants: Mapping[str, Any]
    wanted: tuple[tuple[str, tuple[str, ...]], ...] = ()
    lacking: tuple[str, ...] = ()
    reads: tuple[tuple[int, ...], ...] = ()
    turns: tuple[bool, ...] = ()
    steps: WorkedOut | None = None

    def quantity(self, values: Sequence[Any]) -> Any:
        """The rule's quantity, worked out through every surveyed size."""
        if self.steps is not None:
            return self.steps(values)
        return self.rule.quantity(*[need(values) for need in self.needs], **self.constants)

    def worked_out(self) -> WorkedOut:
        """The rule's quantity in steps; in one where only the needs are known."""
        return self.steps if self.steps is not None else in_one_step(len(self.variables), self.quantity)

"""What must hold where parts meet, as a frozen value: one file, one rule."""

from __future__ import annotations

import enum
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any


class Severity(enum.IntEnum):
    """What happens when a rule is ignored, worst last."""

    INFO = 0
    NUISANCE = 1
    DAMAGE = 2
    INJURY = 3
    FIRE = 4

    @property
    def word(self) -> str:
        return self.name.lower()


class Shape(enum.Enum):
    """How the quantity moves over the box of its readings.

    MONOTONE: never turns back in any one reading. STEPPED: monotone with jumps (counts, floors). SAMPLED: may turn
    back, so the inside of the box is looked at too. ASKED: a solver or a geometry program with a declared
    direction per need, asked at its most generous and its meanest corner.
    """

    MONOTONE = "monotone"
    STEPPED = "stepped"
    SAMPLED = "sampled"
    ASKED = "asked"


@dataclass(frozen=True, slots=True)
class Bound:
    """One limiting number: `key` names it in overlays, `source` is a published source or one of the set phrases."""

    key: str
    value: float
    source: str


@dataclass(frozen=True, slots=True)
class AtLeast:
    low: Bound


@dataclass(frozen=True, slots=True)
class AtMost:
    high: Bound


@dataclass(frozen=True, slots=True)
class Between:
    low: Bound
    high: Bound


@dataclass(frozen=True, slots=True)
class Same:
    """All words that the quantity returns are equal."""

    key: str
    source: str


@dataclass(frozen=True, slots=True)
class OneOf:
    """The word that the quantity returns is among `words`."""

    key: str
    words: tuple[str, ...]
    source: str


NumberLimit = AtLeast | AtMost | Between
WordLimit = Same | OneOf
Limit = NumberLimit | WordLimit


@dataclass(frozen=True, slots=True)
class Constant:
    """A sourced number or list inside a rule that is no limit, such as 0.90 of the rated volts; by keyword."""

    name: str
    value: float | tuple[float, ...]
    unit: str
    source: str


@dataclass(frozen=True, slots=True)
class Published:
    """A published limit beside the working one: printed, and never used as comfort when it is looser."""

    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Unsettled:
    """What a solver returns when it found neither a way nor a proof that there is none."""

    why: str


@dataclass(frozen=True, slots=True)
class NothingToGuard:
    """What a quantity returns where the words it is given leave it nothing to ask: no key in use, no collar, no window.

    It may depend on words and on which pieces are there, never on sizes: the finding is then excused, not held.
    """


NOTHING_TO_GUARD = NothingToGuard()


@dataclass(frozen=True, slots=True)
class Example:
    """A worked example: the rule's test and its manual page.

    `given` maps each need to a number, a (low, nominal, high) triple, a word, a tuple of words or numbers, or an
    Outline-like mapping; a need left out is unread. `expect` is holds, fails, undecided or excused. `margin` is the
    nominal margin that is expected. two_numbers: what comparing two nominal numbers would have said, where the
    rule disagrees with it.
    """

    title: str
    given: Mapping[str, Any]
    expect: str
    margin: float | None = None
    two_numbers: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """One thing that must hold at a joint.

    needs: `role.attribute` (one) or `role*.attribute` (a tuple), in the order of the quantity's arguments.
    quantity: plain arithmetic returning one signed number (or words for Same and OneOf); no limit inside.
    directions: for ASKED rules, per need +1 (more is more generous), -1 (more is meaner) or 0 (asked as it is).
    two_numbers_suffice: why comparing two numbers is enough here, for joints whose examples show no disagreement.
    refused: no adapter, setting or alteration may cure it, whatever the catalogue holds; only another part can.
    """

    question: str
    needs: tuple[str, ...]
    quantity: Callable[..., Any]
    measures: str
    formula: str
    unit: str
    hard: Limit
    severity: Severity
    shape: Shape = Shape.MONOTONE
    comfort: NumberLimit | None = None
    published: tuple[Published, ...] = ()
    constants: tuple[Constant, ...] = ()
    directions: tuple[int, ...] = ()
    excused_by: str = ""
    caution: str = ""
    remedy_hint: str = ""
    refused: bool = False
    two_numbers_suffice: str = ""
    examples: tuple[Example, ...] = ()
    id: str = ""
    kind: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class SurveyLine:
    """A size worked out from readings: a rule without a limit. `target` is `role.attribute`.

    `where_read` names star needs (`role*.attribute`) from which parts without a reading are left out, because the
    quantity says what stands in for it; any other unread need enters at its plausible range.
    """

    target: str
    needs: tuple[str, ...]
    quantity: Callable[..., float]
    measures: str
    formula: str
    unit: str
    source: str
    constants: tuple[Constant, ...] = ()
    shape: Shape = Shape.MONOTONE
    examples: tuple[tuple[Mapping[str, Any], float], ...] = ()
    why: str = ""
    where_read: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class JointKind:
    """A folder of the rulebook: its J number, title, and what the trade asks there."""

    id: str
    joint: str
    title: str


@dataclass(frozen=True, slots=True)
class Rulebook:
    """All rules by dotted id, survey lines by target, joint kinds by folder, and a stamp over all of their text."""

    rules: Mapping[str, Rule]
    survey: Mapping[str, SurveyLine]
    kinds: Mapping[str, JointKind]
    stamp: str
    by_kind: Mapping[str, tuple[Rule, ...]] = field(default_factory=dict)

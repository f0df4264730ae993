"""What is answered: every part that was asked about with its verdict, and a whole board for each that is possible."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitdb.model.finding import Finding
from fitdb.model.part import Part

VERDICTS = ("fits", "fits_with", "measure", "checking", "clash")


@dataclass(frozen=True, slots=True)
class Price:
    """What a whole board with a part costs beyond what is owned, in mu.

    from_least: no board costs less. cheapest: the cheapest board seen, None where none was. unpriced: how many of its
    pieces have no known price; they stand in neither sum, so both are then told as "and more".
    """

    from_least: float
    cheapest: float | None
    unpriced: int


@dataclass(frozen=True, slots=True)
class Option:
    """One part in the seat that was asked about.

    verdict: `fits` (a whole board on which every rule holds), `measure` (boards stand, and each leaves something
    undecided), `clash` (proved that no board stands), `checking` (the time was up). board: a whole board, by seat, on
    which nothing fails by all that the judge said of its joints; a part that is still being checked may have one
    already. It is judged once more as a whole before it is shown. owned: whether the part is owned.
    """

    part: Part
    verdict: str
    board: Mapping[str, Part] | None = None
    owned: bool = False
    price: Price | None = None

    @property
    def possible(self) -> bool:
        return self.board is not None

    @property
    def witness(self) -> dict[str, str] | None:
        """The board as part ids by seat."""
        return None if self.board is None else {seat: part.id for seat, part in self.board.items()}


@dataclass(frozen=True, slots=True)
class Changed:
    """Choices given up so that a board stands: seat -> part id that stands there instead. proven: none smaller does."""

    given_up: tuple[str, ...]
    instead: Mapping[str, str]
    witness: Mapping[str, str]
    proven: bool


@dataclass(frozen=True, slots=True)
class Why:
    """Why something is ruled out: the smallest set of choices, the rules that it takes, and the finding that decides.

    choices: seat -> part id; empty where no choice is to blame. rules: (title of the joint line, id of the rule).
    proven: no smaller set of choices rules it out; else no part of this one does. finding: the deciding one, None where
    only several rules together rule it out.
    """

    choices: Mapping[str, str]
    rules: tuple[tuple[str, str], ...]
    finding: Finding | None
    examples: tuple[Finding, ...]
    proven: bool


@dataclass(frozen=True, slots=True)
class Broken:
    """The choices that clash already, whatever is put into the seat that was asked about, and the smallest change."""

    why: Why | None
    change: Changed | None


@dataclass(frozen=True, slots=True)
class Options:
    """Every part for one seat. seats: the seats that take it together. left_empty: seats of a whole board for which
    there is no part at all. broken: set where the choices clash already; the options are then those after its change.
    complete: nothing is left to check."""

    asked: str
    seats: tuple[str, ...]
    options: tuple[Option, ...]
    left_empty: tuple[str, ...]
    broken: Broken | None
    complete: bool
    revision: str
    stamp: str

    def ids(self, *verdicts: str) -> frozenset[str]:
        """The ids of the parts with one of these verdicts."""
        return frozenset(option.part.id for option in self.options if option.verdict in verdicts)

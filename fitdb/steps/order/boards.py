"""The board before and after, seat by seat: what leaves, what comes, what stays, and what sits on what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fitdb.intake.seat_names import base_name
from fitdb.model.joint import Piece
from fitdb.model.part import AttributeTable
from fitdb.model.pattern import Pattern
from fitdb.model.plan import SwapPlan
from fitdb.model.remedy import Move
from fitdb.model.work import Work, WorkStep

ENDS = ("front", "rear")
PLACES = tuple(f"{end}_{side}" for end in ENDS for side in ("left", "right"))
DRIVES = ("belt", "driven_pulley", "drive_pulley", "motor", "gear_drive", "direct_drive")
NO_WORK = ("rider", "route", "wish")
Seated = Mapping[str, Piece]


@dataclass(frozen=True)
class Boards:
    """The board as it stands and as it would be built, in one layout. moves: of the remedies that are carried out."""

    pattern: Pattern
    work: Work
    table: AttributeTable
    before: Seated
    after: Seated
    moves: tuple[Move, ...]
    donors: Mapping[str, Mapping[str, Piece]]

    def base(self, seat: str) -> str:
        return base_name(self.pattern.seats[seat])

    def place(self, seat: str) -> str:
        """`rear_left`, `rear`, `box`; empty for a seat that the board has once."""
        base = self.base(seat)
        return seat.removesuffix(f"_{base}") if seat != base else ""

    def changed(self, seat: str) -> bool:
        """Another part sits there afterwards, or one where there was none, or none where there was one.

        One that is alike and comes from a donor together with what it sits on is another as well.
        """
        before, after = self.before.get(seat), self.after.get(seat)
        if before is None or after is None:
            return before is not after
        return before.part.id != after.part.id or self.came_with_its_carrier(seat)

    @property
    def seats(self) -> tuple[str, ...]:
        """Every seat that is filled before or after, in the order of the layout."""
        return tuple(seat for seat in self.pattern.seats if seat in self.before or seat in self.after)

    def sibling(self, base: str, place: str) -> str | None:
        """The seat of that name at this place, at its end, or the only one of the board."""
        end = place.partition("_")[0]
        for seat in (f"{place}_{base}", f"{end}_{base}", base):
            if seat in self.pattern.seats:
                if seat == base and place in self.pattern.seats and self._alike(place, base):
                    return place  # the screws of the second box, not those of the first
                return seat
        return None

    def _alike(self, seat: str, other: str) -> bool:
        return self.pattern.seats[seat].row == self.pattern.seats[other].row

    def carrier(self, seat: str, seated: Seated) -> str | None:
        """The seat whose piece this one sits on; None where nothing of the kind is there."""
        for base in self.work.carriers.get(self.base(seat), ()):
            found = self.sibling(base, self.place(seat))
            if found is not None and found in seated:
                return found
        return None

    def leaves_with_its_carrier(self, seat: str) -> bool:
        carrier = self.carrier(seat, self.before)
        return carrier is not None and self.changed(carrier)

    def came_with_its_carrier(self, seat: str) -> bool:
        """One donor had both this piece and the one it sits on, joined as they stand afterwards."""
        carrier = self.carrier(seat, self.after)
        if carrier is None or not self.changed(carrier):
            return False
        return any(
            all(one in given and given[one].part.id == self.after[one].part.id for one in (seat, carrier))
            for given in self.donors.values()
            if seat in self.after
        )

    def driven(self, place: str, seated: Seated) -> bool:
        return any(f"{place}_{base}" in seated for base in DRIVES)

    # --- steps and places ------------------------------------------------------------------------------------

    def places_of(self, step: WorkStep) -> tuple[str, ...]:
        """Where on this layout the step could be done at all."""
        if step.per == "board":
            return ("",)
        named = {self.place(seat) for seat in self.pattern.seats}
        if step.per == "end":
            return tuple(end for end in ENDS if any(one.startswith(end) for one in named))
        return tuple(place for place in PLACES if place in named)

    def filled_at(self, bases: tuple[str, ...], place: str, seated: Seated) -> Iterator[str]:
        """Seats of these names that are filled and lie at this place, whichever of the two is the wider."""
        for seat in seated:
            if seat in self.pattern.seats and self.base(seat) in bases and meet(self.place(seat), place):
                yield seat

    def is_there(self, step: WorkStep, place: str, seated: Seated) -> bool:
        """Whether there is anything for the step to be done to."""
        if step.where and self.driven(place, seated) != (step.where == "driven"):
            return False
        names = step.present or (*step.seats, *step.opens)
        return not names or "*" in names or any(self.filled_at(names, place, seated))


def boards_of(plan: SwapPlan, pattern: Pattern, work: Work, table: AttributeTable, moves: tuple[Move, ...]) -> Boards:
    """The board as it stands, and as asked with these moves carried out."""
    after = {piece.seat: piece for piece in plan.after}
    for move in moves:
        after |= {piece.seat: piece for piece in move.pieces}
    donors = {name: {piece.seat: piece for piece in pieces} for name, pieces in plan.donors.items()}
    return Boards(pattern, work, table, {piece.seat: piece for piece in plan.before}, after, moves, donors)


def meet(place: str, other: str) -> bool:
    """Whether two places are the same, or one lies within the other: `rear` and `rear_left`, the board and all."""
    outside = [one for one in (place, other) if one not in PLACES and one not in ENDS]
    return bool(outside) or place == other or place.startswith(f"{other}_") or other.startswith(f"{place}_")

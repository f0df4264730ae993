"""Whether the condition of a need holds on this board: yes, no, or None where nobody has told. None counts as yes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from fitdb.model.reading import Count, Word
from fitdb.model.verdict import JointVerdict
from fitdb.steps.order.boards import Boards, meet

MOTORS = ("motor", "hub_motor", "direct_drive")
PASSES = "lead_slot.plug_passes_the_opening"
Decided = Callable[[str, str], bool | None]


def decider(boards: Boards, joints: Iterable[JointVerdict]) -> Decided:
    """(condition, place) -> whether it holds there. joints: of the board as it would be built."""
    passes = {finding.state for joint in joints for finding in joint.findings if finding.rule.id == PASSES}
    decided: Mapping[str, Callable[[str], bool | None]] = {
        "always": lambda place: True,
        "motor_leaves": lambda place: _motor_leaves(boards, place),
        "truck_leaves_wired": lambda place: _truck_leaves_wired(boards, place),
        # In doubt nothing is cut: the plug is measured first. Where the opening was not asked, the step itself says so.
        "plug_does_not_pass": lambda place: "fails" in passes,
        "belt_held_in": lambda place: _belt_held_in(boards, place),
        "ring_clamp": lambda place: None,
        "bolts_under_grip": lambda place: _bolts_under_grip(boards),
    }
    return lambda condition, place: decided[condition](place)


def _motor_leaves(boards: Boards, place: str) -> bool:
    return any(boards.changed(seat) for seat in boards.filled_at(MOTORS, place, boards.before))


def _truck_leaves_wired(boards: Boards, place: str) -> bool:
    carriers = boards.filled_at(("truck", "hanger"), place, boards.before)
    return any(boards.changed(seat) for seat in carriers) and any(boards.filled_at(MOTORS, place, boards.before))


def _belt_held_in(boards: Boards, place: str) -> bool | None:
    """A drive pulley without any rim lets the belt walk off; a single rim may hold it on the side that counts."""
    for seat in boards.filled_at(("drive_pulley",), place, boards.before):
        flanges = boards.before[seat].part.offers("flanges")[1]
        if not isinstance(flanges, Count) or flanges.value_assumed or len(flanges.values) != 1:
            return None
        return flanges.values[0] > 0
    return None


def _bolts_under_grip(boards: Boards) -> bool | None:
    said: set[bool | None] = set()
    for seat, piece in boards.before.items():
        if seat in boards.pattern.seats and boards.base(seat) in ("grip", "grip_2") and meet(boards.place(seat), ""):
            word = piece.part.offers("under_bolt_heads")[1]
            known = isinstance(word, Word) and not word.value_assumed and len(word.possible) == 1
            said.add("yes" in word.possible if known and isinstance(word, Word) else None)
    return True if True in said else None if None in said else False

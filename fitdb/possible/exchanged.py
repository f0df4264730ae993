"""Known boards with parts exchanged, by what is known of their cells alone: the judge is asked nothing here.

One exchange makes of a board that stands as many others as there are parts for a group. Several exchanges, each of the
part that takes part in most of what speaks against a board, make of a board of earlier choices one of these choices.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING

from fitdb.possible.questions import UNKNOWN
from fitdb.possible.space import Space

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SWEEPS = 3
WORSE = 1000  # how much a cell that speaks against a board weighs, beside one that nobody asked yet


def exchanged(space: Space, rows: NDArray[np.intp], group: int, signatures: NDArray[np.intp]) -> NDArray[np.int8]:
    """What is known where a group is touched, of each board with each of these signatures in the group.

    rows: boards. The answer is an array of the meetings that touch the group, the boards, and the signatures.
    """
    import numpy as np

    touching = space.touching[group]
    told = np.zeros((len(touching), len(rows), len(signatures)), dtype=np.int8)
    for place, number in enumerate(touching):
        meeting = space.meetings[number]
        every, class_of = space.every_class[group][number]
        few = len(every) < len(signatures)
        own = every if few else space.columns[group][number][signatures]
        columns = [
            own[None, :] if other == group else space.columns[other][number][rows[:, other]][:, None]
            for other in meeting.groups
        ]
        states = meeting.table.known.of_many(columns)
        told[place] = states[:, class_of[signatures]] if few else states
    return told


def repaired(
    space: Space, rows: NDArray[np.intp], held: Collection[int], bad_from: int
) -> tuple[NDArray[np.intp], NDArray[np.int8]]:
    """These boards with parts exchanged, but for the held groups, until nothing that is known speaks against them.

    bad_from: the state from which a cell speaks against a board. The boards, as far as that was reached, and what is
    known of each in every meeting (meetings first).
    """
    import numpy as np

    rows = np.unique(rows, axis=0)
    told = np.stack([space.known(number, rows) for number in range(len(space.meetings))])
    settled = [number for number, meeting in enumerate(space.meetings) if set(held).issuperset(meeting.groups)]
    hopeful = ~(told[settled] >= bad_from).any(axis=0)
    rows, told = rows[hopeful], told[:, hopeful]
    free = [own for own in range(len(space.groups)) if own not in held and len(space.signatures[own]) > 1]
    for _ in range(SWEEPS):
        moved = False
        trouble = (told >= bad_from) | (told == UNKNOWN)
        if not trouble.any():
            break
        most_first = sorted(free, key=lambda own: (-int(trouble[list(space.touching[own])].sum()), own))
        for own in most_first:
            touching = list(space.touching[own])
            part = told[touching]
            here = np.flatnonzero(((part >= bad_from) | (part == UNKNOWN)).any(axis=0))
            if not len(here):
                continue
            every = np.arange(len(space.signatures[own]))
            stack = exchanged(space, rows[here], own, every)
            cost = WORSE * (stack >= bad_from).sum(axis=0) + (stack == UNKNOWN).sum(axis=0)
            at = np.arange(len(here))
            best = cost.argmin(axis=1)
            better = cost[at, best] < cost[at, rows[here, own]]
            if better.any():
                moved = True
                chosen, which = here[better], best[better]
                rows[chosen, own] = which
                told[np.ix_(touching, chosen)] = stack[:, at[better], which]
        if not moved:
            break
    stands = ~(told >= bad_from).any(axis=0)
    return rows[stands], told[:, stands]

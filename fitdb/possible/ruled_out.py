"""What is ruled out, as clauses of a solver that says whether anything is left.

The solver knows parts by signature and what the judge said, nothing else. It proposes a board; the tables say what
fails on it; that is ruled out together with all that is known to fail for the same reason; and so on. When it finds no
board left, that is the proof. A model of the solver is only a proposal until every table was asked of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any

from fitdb.possible.pool import Board
from fitdb.possible.questions import FAILS, UNDECIDED
from fitdb.possible.space import Space

if TYPE_CHECKING:
    import numpy as np
    from clingo.backend import Backend
    from numpy.typing import NDArray

MOST_CONFLICTS = 30_000  # of one call of the solver


class RuledOut:
    """The boards of a space that nothing yet rules out. One solver, one thread."""

    def __init__(self, space: Space, by_meeting: bool = False) -> None:
        from clingo import Control, Function, Number

        self.space = space
        self.by_meeting = by_meeting  # each meeting can be left out, to find which of them it takes
        self.asked_of: dict[int, int] = {}
        self.control = Control(["--seed=1", "--warn=none", f"--solve-limit={MOST_CONFLICTS}"])
        facts = "".join(f"s({group},0..{len(some) - 1})." for group, some in enumerate(space.signatures))
        self.control.add("base", [], facts + "g(G) :- s(G,_). 1 {x(G,S): s(G,S)} 1 :- g(G). {strict}. #show x/2.")
        self.control.ground([("base", [])])
        atoms = self.control.symbolic_atoms
        self.literal: list[list[int]] = []
        for group, some in enumerate(space.signatures):
            found = [atoms[Function("x", [Number(group), Number(at)])] for at in range(len(some))]
            self.literal.append([one.literal for one in found if one is not None])
        strict = atoms[Function("strict")]
        assert strict is not None
        self.strict = strict.literal
        self._of_symbol = {
            Function("x", [Number(group), Number(at)]): (group, at)
            for group, some in enumerate(space.signatures)
            for at in range(len(some))
        }
        self._to_tell: list[tuple[list[tuple[int, NDArray[np.bool_]]], int, int]] = []
        self._guards: list[int] = []  # no longer assumed
        self._sets: dict[tuple[int, bytes], int] = {}
        self._known: set[tuple[Any, ...]] = set()
        self.reasons: list[tuple[int, tuple[tuple[int, ...], ...], int]] = []  # meeting, box, state: to tell why
        self.solves = 0
        self.core: list[int] = []  # of the last proof, which of the assumed literals it took

    # --- what is ruled out ---------------------------------------------------------------------------------

    def fill(self, numbers: Iterable[int], late: Callable[[], bool], strictly: bool = True) -> None:
        """Rules out all that small tables say, their cells asked first."""
        for number in numbers:
            if late():
                return
            self._fill(number, strictly)

    def _fill(self, number: int, strictly: bool) -> None:
        import numpy as np

        meeting = self.space.meetings[number]
        if not meeting.groups:
            if meeting.table.state(()) == FAILS:
                self.take(number, (), FAILS)
            return
        used = [np.unique(self.space.columns[group][number]) for group in meeting.groups]
        grid = np.meshgrid(*used, indexing="ij")
        states = meeting.table.states([one.ravel() for one in grid]).reshape(grid[0].shape)
        for state in (FAILS, UNDECIDED) if strictly else (FAILS,):
            bad = states == state
            if not bad.any():
                continue
            for first in np.ndindex(*bad.shape[:-1]):
                last = used[-1][np.flatnonzero(bad[first])]
                if len(last):
                    box = [(int(used[at][one]),) for at, one in enumerate(first)]
                    self.take(number, [*box, tuple(last.tolist())], state)

    def rule_out(self, number: int, board: Board, strict: bool) -> None:
        """Rules out what one meeting says against a board, and all that is known to be as bad for the same reason.

        strict: also what leaves a doubt there.
        """
        table = self.space.meetings[number].table
        cell = self.space.cell(number, board)
        state = table.state(cell)
        if state == FAILS:
            self.take(number, table.box_round(cell, state), state)
        if strict and state in (FAILS, UNDECIDED):
            self.take(number, table.doubted_round(cell), UNDECIDED)

    def take(self, number: int, box: Sequence[Sequence[int]], state: int) -> None:
        """Rules out the boards in a box of classes of one meeting's table."""
        import numpy as np

        meeting = self.space.meetings[number]
        among = []
        for group, classes in zip(meeting.groups, box, strict=True):
            inside = np.isin(self.space.columns[group][number], classes)
            if not inside.all():
                among.append((group, inside))
        key = (*((group, inside.tobytes()) for group, inside in among), state, number if self.by_meeting else -1)
        if key not in self._known:
            self._known.add(key)
            self.reasons.append((number, tuple(tuple(one) for one in box), state))
            self._to_tell.append((among, state, number))

    def tell(self) -> None:
        """Tells the solver what was ruled out since it was asked last; many things cost it no more than one."""
        if self._to_tell or self._guards:
            with self.control.backend() as backend:
                self._told(backend)

    def _told(self, backend: Backend) -> None:
        for among, state, number in self._to_tell:
            body: list[int] = [self.strict] if state == UNDECIDED else []
            body += [self._among(backend, group, inside) for group, inside in among]
            if self.by_meeting:
                body.append(self._asked_of(backend, number))
            backend.add_rule([], body)
        for guard in self._guards:
            backend.add_rule([], [guard])
        self._to_tell.clear()
        self._guards.clear()

    def _asked_of(self, backend: Backend, number: int) -> int:
        """A literal that, assumed, puts one meeting in force."""
        if number not in self.asked_of:
            atom: int = backend.add_atom()
            backend.add_rule([atom], choice=True)
            self.asked_of[number] = atom
        return self.asked_of[number]

    def _among(self, backend: Backend, group: int, inside: NDArray[np.bool_]) -> int:
        """A literal that is true when the group has one of these signatures."""
        chosen = np_flat(inside)
        if len(chosen) == 1:
            return self.literal[group][chosen[0]]
        key = (group, inside.tobytes())
        if key not in self._sets:
            atom: int = backend.add_atom()
            if 2 * len(chosen) <= len(inside):
                for at in chosen:
                    backend.add_rule([atom], [self.literal[group][at]])
            else:
                backend.add_rule([atom], [-self.literal[group][at] for at in np_flat(~inside)])
            self._sets[key] = atom
        return self._sets[key]

    # --- what is left --------------------------------------------------------------------------------------

    def wanted(self, group: int, signatures: Iterable[int]) -> int:
        """A literal that, assumed, asks for one of these signatures in a group."""
        with self.control.backend() as backend:
            self._told(backend)
            guard: int = backend.add_atom()
            backend.add_rule([guard], choice=True)
            backend.add_rule([], [guard, *(-self.literal[group][at] for at in signatures)])
        return guard

    def released(self, guard: int) -> None:
        """A guard that is no longer assumed, so that it weighs on nothing."""
        self._guards.append(guard)

    def proposal(self, assumed: Sequence[int], strict: bool) -> Board | None:
        """A board that nothing rules out; None when there is none, with `core` saying which assumptions it took.

        Raises TooHard when the solver has come to no end within its limit of conflicts.
        """
        self.solves += 1
        self.tell()
        assumptions = [*assumed, self.strict if strict else -self.strict]
        self.core = []
        with self.control.solve(assumptions=assumptions, yield_=True) as handle:
            model = handle.model()
            if model is not None:
                board = dict(self._of_symbol[symbol] for symbol in model.symbols(shown=True))
                return tuple(board[group] for group in range(len(self.literal)))
            if not handle.get().unsatisfiable:
                raise TooHard
            self.core = list(handle.core() or ())
            return None


class TooHard(Exception):
    """The solver gave up; nothing follows from it."""


def np_flat(mask: NDArray[np.bool_]) -> list[int]:
    import numpy as np

    found: list[int] = np.flatnonzero(mask).tolist()
    return found

"""Options on larger catalogues, held against a solver that is given every cell of every table and unites all boards.

The cells are asked of the judge one by one, without boxes, without a pool and without a search of our own; the solver
is clingo in its mode that unites all models (brave), which is tested outside this project.
FITDB_LARGER=200 pytest tests/possible/test_options_by_union_of_boards.py tries more of them.
"""

from __future__ import annotations

import itertools
import os
import random
from collections.abc import Mapping

import pytest
from small_catalogues import Small, small_catalogue

from fitdb.catalogue.read import Book
from fitdb.model.part import Part
from fitdb.model.pattern import Pattern
from fitdb.model.rule import Rulebook
from fitdb.options import Budget, options
from fitdb.possible.questions import CODE, FAILS, UNDECIDED
from fitdb.possible.session import Session
from fitdb.possible.snapshot import Snapshot

LARGER = int(os.environ.get("FITDB_LARGER", "20"))
MOST_CELLS = 6000  # of one table; larger draws are drawn again
ROWS = (
    ("wheel", "bearing", "truck", "axle_nut"),
    ("truck", "wheel", "driven_pulley", "motor_mount"),
    ("drive_pulley", "driven_pulley", "belt", "motor_mount"),
    ("motor", "drive_pulley", "motor_mount", "motor_screw", "controller"),
    ("deck", "truck", "deck_bolt", "deck_nut", "bushing"),
    ("pack", "bms", "charger", "charge_port", "controller"),
    ("controller", "motor", "pack", "receiver", "switch"),
    ("wheel", "truck", "speed_ring", "bearing"),
)


def by_union(session: Session) -> tuple[set[int], set[int]]:
    """Signatures of the asked group on some board on which nothing fails; and on one with nothing undecided either."""
    from clingo import Control

    space = session.space
    program = [f"1 {{x({g},0..{len(some) - 1})}} 1." for g, some in enumerate(space.signatures)]
    program += [f"x({g},{s})." for g, s in session.fixed.items()]
    strict: list[str] = []
    for number, meeting in enumerate(space.meetings):
        used = [sorted(set(space.columns[group][number].tolist())) for group in meeting.groups]
        for cell in itertools.product(*used):
            finding = meeting.table.finding(cell)
            state = CODE[finding.state] if finding is not None else 0
            if state in (FAILS, UNDECIDED):
                body = ", ".join(f"c({number},{at},{one})" for at, one in enumerate(cell)) or "#true"
                (program if state == FAILS else strict).append(f":- {body}.")
        for at, group in enumerate(meeting.groups):
            program += [
                f"c({number},{at},{int(one)}) :- x({group},{signature})."
                for signature, one in enumerate(space.columns[group][number])
            ]
    program.append(f"#show. #show s(S) : x({session.group},S).")
    found = []
    for some in (program, program + strict):
        control = Control(["--enum-mode=brave", "0", "--warn=none"])
        control.add("base", [], "\n".join(some))
        control.ground([("base", [])])
        last: set[int] = set()
        with control.solve(yield_=True) as handle:
            for model in handle:
                last = {symbol.arguments[0].number for symbol in model.symbols(shown=True)}
        found.append(last)
    return found[0], found[1]


def drawn(seed: int, layout: Pattern, book: Book, by_class: Mapping[str, list[Part]]) -> tuple[random.Random, Small]:
    chance = random.Random(f"larger {seed}")
    return chance, small_catalogue(chance, layout, book, by_class, chance.choice(ROWS), most=9)


def most_cells(session: Session) -> int:
    most = 0
    for number, meeting in enumerate(session.space.meetings):
        cells = 1
        for group in meeting.groups:
            cells *= len(set(session.space.columns[group][number].tolist()))
        most = max(most, cells * (20 if meeting.table.dear else 1))
    return most


@pytest.mark.parametrize("seed", range(LARGER))
def test_options_are_the_union_of_all_boards(
    seed: int, book: Book, rules: Rulebook, by_class: Mapping[str, list[Part]], layout: Pattern
) -> None:
    for again in range(50):
        chance, small = drawn(seed + 1000 * again, layout, book, by_class)
        asked = chance.choice([g for g, some in zip(small.groups, small.choices, strict=True) if some])
        chosen: dict[str, Part] = {}
        for group, some in zip(small.groups, small.choices, strict=True):
            if group is not asked and some and chance.random() < 0.2:
                part = chance.choice(some)
                chosen |= dict.fromkeys(group.seats, part) if part is not None else {}
        snapshot = Snapshot(small.pattern, book, rules, dict(book.limits))
        session = Session(snapshot, small.parts_of_class, chosen, asked.seats, small.whole)
        if most_cells(session) <= MOST_CELLS:
            break
    else:
        pytest.fail("no catalogue that is small enough was drawn")
    possible, sure = by_union(session)
    found = options(
        book, rules, small.pattern, small.parts_of_class, chosen,
        asked.name if len(asked.seats) > 1 else asked.seats[0], budget=Budget(120_000), whole=small.whole,
    )  # fmt: skip
    expected = {}
    for signature, alike in enumerate(session.space.signatures[session.group]):
        for part in alike:
            assert part is not None
            expected[part.id] = "fits" if signature in sure else "measure" if signature in possible else "clash"
    if found.broken is not None:
        assert not possible
        return
    assert {option.part.id: option.verdict for option in found.options} == expected

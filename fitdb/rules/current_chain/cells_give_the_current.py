"""What the controllers may draw comes out of the cells. A pack with more energy is not a stronger pack: cells made for
range give half the current of cells made for power. Overdrawn cells get hot, sag, and in the end burn.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(cell_current: float, parallel: int, asked: float, share: float, k: float) -> float:
    return k * parallel * cell_current - asked * share


RULE = Rule(
    question="Do the cells give the current that is asked?",
    needs=("pack.cell_continuous_current", "pack.parallel", "pack.asked_current", "pack.current_share"),
    quantity=quantity,
    measures="current of one cell times cells in parallel, less this pack's share of what the controllers may draw",
    formula="m = k·P·I_cell − I_ask·R₂/(R₁ + R₂)",
    unit="A",
    hard=AtLeast(Bound("current_chain.cells_give_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(Constant("k", 1.0, "1", "common practice, no source"),),
    caution=(
        "Swollen, dented, wet, hot or oddly smelling: do not charge, do not ride. Put it outdoors away from anything "
        "that burns, and call your local fire or waste service for advice."
    ),
    remedy_hint="a lower pack current in the settings: less pull at speed",
    examples=(
        Example(
            "three cells of 25 A for 60 A",
            {
                "pack.cell_continuous_current": 25.0,
                "pack.parallel": 3,
                "pack.asked_current": 60.0,
                "pack.current_share": 1.0,
            },
            "holds",
            15.0,
        ),
        Example(
            "two cells of 10 A for 30 A",
            {
                "pack.cell_continuous_current": 10.0,
                "pack.parallel": 2,
                "pack.asked_current": 30.0,
                "pack.current_share": 1.0,
            },
            "fails",
            -10.0,
            two_numbers="5.0 Ah > 4.0 Ah: the new pack is the larger one",
        ),
        Example(
            "exactly on the limit",
            {
                "pack.cell_continuous_current": 10.0,
                "pack.parallel": 2,
                "pack.asked_current": 20.0,
                "pack.current_share": 1.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "two like packs share 30 A",
            {
                "pack.cell_continuous_current": 10.0,
                "pack.parallel": 2,
                "pack.asked_current": 30.0,
                "pack.current_share": 0.5,
            },
            "holds",
            5.0,
        ),
        Example(
            "sheet of the cell lost",
            {"pack.parallel": 2, "pack.asked_current": 30.0, "pack.current_share": 1.0},
            "undecided",
        ),
    ),
)

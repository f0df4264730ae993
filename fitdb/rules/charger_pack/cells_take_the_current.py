"""Each cell takes a greatest charging current; beyond it metal grows inside the cell, and metal inside a cell is a
short. Cells in parallel share the current of the charger.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(parallel: int, cell_charge_current: float, charge_current: float) -> float:
    return parallel * cell_charge_current - charge_current


RULE = Rule(
    question="Do the cells take the charging current?",
    needs=("pack.parallel", "pack.cell_charge_current", "charger.charge_current"),
    quantity=quantity,
    measures="greatest charging current of a cell times cells in parallel, less the current of the charger",
    formula="m = P·I_cell,charge − I_charger",
    unit="A",
    hard=AtLeast(Bound("charger_pack.cells_take_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    published=(
        Published("no charging below 0 °C or above 45 °C; half the current below 15 °C", "data sheet of a 21700 cell"),
    ),
    caution=(
        "Charge while awake and present, on a surface that does not burn, away from the way out. "
        "Do not charge below freezing. Swollen, dented, wet, hot or oddly smelling: do not charge."
    ),
    remedy_hint="a lower charging current, where the charger has such a setting",
    examples=(
        Example(
            "4 A into two cells that take 2.5 A each",
            {"pack.parallel": 2, "pack.cell_charge_current": 2.5, "charger.charge_current": 4.0},
            "holds",
            1.0,
            two_numbers="4 A > 2.5 A: the sheet of the cell against the label of the charger says no",
        ),
        Example(
            "5 A into two cells that take 1.75 A each",
            {"pack.parallel": 2, "pack.cell_charge_current": 1.75, "charger.charge_current": 5.0},
            "fails",
            -1.5,
        ),
        Example(
            "exactly on the limit",
            {"pack.parallel": 2, "pack.cell_charge_current": 2.5, "charger.charge_current": 5.0},
            "holds",
            0.0,
        ),
        Example("sheet of the cell lost", {"pack.parallel": 2, "charger.charge_current": 2.0}, "undecided"),
    ),
)

"""Cells that give 10 A may take only 2.5 A. More than that plates metal inside them, and a damaged cell can catch fire
days later. Nothing clashes to the eye: the limit lives in a setting of the controller, and that stays when the pack
changes.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(charge_borne: float, charge_asked: float) -> float:
    return charge_borne - charge_asked


RULE = Rule(
    question="Do the cells take the charge that the brake is set to push back?",
    needs=("pack.cell_charge_borne", "controller.braking_charge_asked"),
    quantity=quantity,
    measures="charging current that the cells take, less the braking charge that is set",
    formula="m = Σ P·I_cell − Σ I_limit·channels",
    unit="A",
    hard=AtLeast(Bound("braking_charge.cells_take_the_charge.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "Set it to 0.7 of what the cells take, lower for a home on a hilltop. A full pack takes no charge at all: do"
        " not begin a long descent with one. Do not charge below freezing — that includes braking charge in the first"
        " minutes of a winter ride."
    ),
    published=(
        Published(
            "6 A at 15 to 45 °C, half of it at 0 to 15 °C, none below 0 °C", "data sheet of a 21700 cell of 4 Ah"
        ),
        Published("charging current and volts follow the temperature of the cell", "IEC 62133-2, annex A"),
    ),
    remedy_hint="a lower braking-charge limit (the brake weakens), or a pack with more cells in parallel",
    examples=(
        Example(
            "3 cells of 4 A, one controller of two motors at 4 A each",
            {"pack.cell_charge_borne": 12.0, "controller.braking_charge_asked": 8.0},
            "holds",
            4.0,
        ),
        Example(
            "the same box with 2 cells of 2.5 A, still set to 8 A",
            {"pack.cell_charge_borne": 5.0, "controller.braking_charge_asked": 8.0},
            "fails",
            -3.0,
        ),
        Example(
            "two motors set to 8 A each",
            {"pack.cell_charge_borne": 12.0, "controller.braking_charge_asked": 16.0},
            "fails",
            -4.0,
            two_numbers="the setting says 8 A and the cells take 12 A: yes, but it is set for each motor",
        ),
        Example(
            "exactly on the limit",
            {"pack.cell_charge_borne": 5.0, "controller.braking_charge_asked": 5.0},
            "holds",
            0.0,
        ),
        Example("sheet of the cells lost", {"controller.braking_charge_asked": 8.0}, "undecided"),
        Example(
            "cells of 1 to 4 A in pairs",
            {"pack.cell_charge_borne": (2.0, 5.0, 8.0), "controller.braking_charge_asked": 5.0},
            "undecided",
        ),
    ),
)

"""Cells that are emptied too far lose capacity and can grow copper inside that shorts them at the next charge. Most
controllers come set for another number of cells than yours.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Published, Rule, Severity


def quantity(soft_end: float, series: float, chemistry: str, nickel_least: float, phosphate_least: float) -> float:
    return soft_end / series - (phosphate_least if chemistry == "phosphate" else nickel_least)


RULE = Rule(
    question="Does the ride end before the cells are emptied too far?",
    needs=("controller.soft_cutoff_end", "pack.series", "pack.chemistry"),
    quantity=quantity,
    measures="volts per cell at which power has faded out, above the least that spares the cells",
    formula="d = V_end/S − 2.8 V (iron-phosphate 2.5 V)",
    unit="V",
    hard=AtLeast(Bound("cutoff_stack.fade_spares_the_cells.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("cutoff_stack.fade_spares_the_cells.comfort", 0.2, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(
        Constant("nickel_least", 2.8, "V", "common practice, no source"),
        Constant("phosphate_least", 2.5, "V", "common practice, no source"),
    ),
    published=(
        Published("2.5 V is the end of discharge of 4.2 V cells, 2.0 V of iron-phosphate", "data sheets of such cells"),
    ),
    remedy_hint="set the end of the fade to 3.0 to 3.2 V per cell (iron-phosphate 2.7 V)",
    examples=(
        Example(
            "12 cells, 37.2 V",
            {"controller.soft_cutoff_end": 37.2, "pack.series": 12, "pack.chemistry": "nickel"},
            "holds",
            0.3,
        ),
        Example(
            "31 V kept from a 10-cell pack",
            {"controller.soft_cutoff_end": 31.0, "pack.series": 12, "pack.chemistry": "nickel"},
            "fails",
            -0.2167,
        ),
        Example(
            "the same 31 V on 12 iron-phosphate cells",
            {"controller.soft_cutoff_end": 31.0, "pack.series": 12, "pack.chemistry": "phosphate"},
            "holds",
            0.0833,
        ),
        Example(
            "chemistry unknown",
            {"controller.soft_cutoff_end": 32.0, "pack.series": 12, "pack.chemistry": "nickel|phosphate"},
            "undecided",
        ),
        Example(
            "exactly on the limit",
            {"controller.soft_cutoff_end": 28.0, "pack.series": 10, "pack.chemistry": "nickel"},
            "holds",
            0.0,
        ),
        Example("setting unread", {"pack.series": 10, "pack.chemistry": "nickel"}, "undecided"),
    ),
)

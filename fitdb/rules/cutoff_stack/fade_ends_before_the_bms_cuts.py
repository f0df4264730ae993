"""When the BMS cuts, drive and brake are gone in the same instant. The controller must have faded to nothing before.
The small current is the worst case: under load the leads between them lose volts, so that the controller sees less
than the BMS and fades first.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(soft_end: float, series: float, bms_volts: float, discharge_bypassed: str) -> float | NothingToGuard:
    return NOTHING_TO_GUARD if discharge_bypassed == "yes" else soft_end / series - bms_volts


RULE = Rule(
    question="Has power faded to nothing before the BMS cuts?",
    needs=("controller.soft_cutoff_end", "pack.series", "bms.cell_under_volts", "bms.discharge_bypassed"),
    quantity=quantity,
    measures="volts per cell at which power has faded out, at small current, above those at which the BMS cuts",
    formula="d = V_end/S − V_BMS (nothing to ask where the board is by-passed)",
    unit="V",
    hard=AtLeast(Bound("cutoff_stack.fade_ends_before_the_bms_cuts.least", 0.1, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: protection circuit opening. Learn to stop"
        " by foot or to step off, and leave distance."
    ),
    remedy_hint="set the end of the fade higher; the ride ends a little earlier",
    examples=(
        Example(
            "10 cells, faded out at 31 V, BMS cuts at 2.8 V",
            {
                "controller.soft_cutoff_end": 31.0,
                "pack.series": 10,
                "bms.cell_under_volts": 2.8,
                "bms.discharge_bypassed": "no",
            },
            "holds",
            0.2,
        ),
        Example(
            "settings of a 10-cell pack kept on 12 cells",
            {
                "controller.soft_cutoff_end": 31.0,
                "pack.series": 12,
                "bms.cell_under_volts": 2.8,
                "bms.discharge_bypassed": "no",
            },
            "fails",
            -0.3167,
        ),
        Example(
            "32 V against 12 cells of 2.6 V",
            {
                "controller.soft_cutoff_end": 32.0,
                "pack.series": 12,
                "bms.cell_under_volts": 2.6,
                "bms.discharge_bypassed": "no",
            },
            "fails",
            -0.0333,
            two_numbers="32 V is above 31.2 V: two numbers say yes, but 0.07 V per cell is less than cells differ by",
        ),
        Example(
            "exactly on the limit",
            {
                "controller.soft_cutoff_end": 36.0,
                "pack.series": 12,
                "bms.cell_under_volts": 2.9,
                "bms.discharge_bypassed": "no",
            },
            "holds",
            0.0,
        ),
        Example(
            "the board is by-passed",
            {
                "controller.soft_cutoff_end": 31.0,
                "pack.series": 12,
                "bms.cell_under_volts": 2.8,
                "bms.discharge_bypassed": "yes",
            },
            "excused",
        ),
        Example(
            "volts of the BMS unread",
            {"controller.soft_cutoff_end": 36.0, "pack.series": 12, "bms.discharge_bypassed": "no"},
            "undecided",
        ),
    ),
)

"""Between the two volts the board grows weaker and tells its rider that the ride is ending. With both set alike there
is no fade: full drive and brake, then none.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(soft_start: float, soft_end: float, series: float) -> float:
    return (soft_start - soft_end) / series


RULE = Rule(
    question="Does power fade slowly, not at one stroke?",
    needs=("controller.soft_cutoff_start", "controller.soft_cutoff_end", "pack.series"),
    quantity=quantity,
    measures="width of the fade, volts per cell",
    formula="d = (V_start − V_end)/S",
    unit="V",
    hard=AtLeast(Bound("cutoff_stack.fade_starts_above_its_end.least", 0.1, "common practice, no source")),
    comfort=AtLeast(Bound("cutoff_stack.fade_starts_above_its_end.comfort", 0.2, "common practice, no source")),
    severity=Severity.INJURY,
    caution="On this build the motor is the brake: where drive ends at one stroke, so does the brake.",
    remedy_hint="set the start of the fade to 3.4 V per cell (iron-phosphate 3.0 V)",
    examples=(
        Example(
            "12 cells, from 40.8 to 37.2 V",
            {"controller.soft_cutoff_start": 40.8, "controller.soft_cutoff_end": 37.2, "pack.series": 12},
            "holds",
            0.2,
        ),
        Example(
            "both at 36 V",
            {"controller.soft_cutoff_start": 36.0, "controller.soft_cutoff_end": 36.0, "pack.series": 12},
            "fails",
            -0.1,
        ),
        Example(
            "the wrong way round",
            {"controller.soft_cutoff_start": 36.0, "controller.soft_cutoff_end": 40.8, "pack.series": 12},
            "fails",
            -0.5,
        ),
        Example(
            "exactly on the limit",
            {"controller.soft_cutoff_start": 32.0, "controller.soft_cutoff_end": 31.0, "pack.series": 10},
            "holds",
            0.0,
        ),
        Example("start unread", {"controller.soft_cutoff_end": 31.0, "pack.series": 10}, "undecided"),
    ),
)

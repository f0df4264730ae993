"""Every lug must find a window at the same turn of the pulley. Six lugs go into six or twelve windows, never into five.

When the counts do not divide, no filing helps: the pulley stands off the core, or somebody cuts lugs away and the
rest shear under braking.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity, Shape


def quantity(windows: int, lugs: int) -> float:
    """Windows left over when the lugs are dealt out evenly; every lug is left over where there is no window at all."""
    return float(windows % lugs) if windows else float(lugs)


RULE = Rule(
    question="Do the lugs find a window each?",
    needs=("wheel.window_count", "pulley.lug_count"),
    quantity=quantity,
    measures="windows left over when the lugs are spread evenly over them",
    formula="N_windows mod n_lugs",
    unit="",
    hard=AtMost(Bound("core_windows.lugs_index.most", 0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.STEPPED,
    caution=(
        "On this build the motor is the brake, and it reaches the wheel through these lugs. It can vanish without "
        "warning: learn to stop by foot, and leave distance."
    ),
    examples=(
        Example("six lugs, six windows", {"wheel.window_count": 6, "pulley.lug_count": 6}, "holds", 0),
        Example(
            "six lugs, twelve windows: every second one", {"wheel.window_count": 12, "pulley.lug_count": 6}, "holds", 0
        ),
        Example("six lugs, five windows", {"wheel.window_count": 5, "pulley.lug_count": 6}, "fails", -5),
        Example(
            "four lugs, six windows",
            {"wheel.window_count": 6, "pulley.lug_count": 4},
            "fails",
            -2,
            two_numbers="4 lugs are no more than 6 windows: comparing two counts says yes",
        ),
        Example("a solid core has no window at all", {"wheel.window_count": 0, "pulley.lug_count": 6}, "fails", -6),
        Example("windows not counted", {"pulley.lug_count": 6}, "undecided"),
    ),
)

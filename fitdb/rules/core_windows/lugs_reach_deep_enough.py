"""Short lugs bear on a narrow edge of the core, and a plastic edge breaks away under the first hard braking.

Pushed fully home, a lug should be held over at least 8 mm of its length.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(lug_length: float) -> float:
    return lug_length


RULE = Rule(
    question="Do the lugs reach deep enough into the core?",
    needs=("pulley.lug_length",),
    quantity=quantity,
    measures="length of lug in the window, pulley pushed home",
    formula="l_lug",
    unit="mm",
    hard=AtLeast(Bound("core_windows.lugs_reach_deep_enough.least", 8.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake, and it reaches the wheel through these lugs. It can vanish without "
        "warning: learn to stop by foot, and leave distance."
    ),
    examples=(
        Example("9.5 mm lugs", {"pulley.lug_length": (9.4, 9.5, 9.6)}, "holds", 1.5),
        Example("exactly on the limit", {"pulley.lug_length": 8.0}, "holds", 0.0),
        Example(
            "6.5 mm lugs in a core 10 mm deep",
            {"pulley.lug_length": 6.5},
            "fails",
            -1.5,
            two_numbers="6.5 is less than 10: comparing length and depth says yes",
        ),
        Example("length unread", {}, "undecided"),
    ),
)

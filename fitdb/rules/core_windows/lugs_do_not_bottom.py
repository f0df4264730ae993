"""A lug that meets the floor of its window holds the pulley off the core, and then only the lug tips carry.

A millimetre of air at the floor leaves room for dirt and for the rounding in the corner.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(window_depth: float, lug_length: float) -> float:
    return window_depth - lug_length


RULE = Rule(
    question="Do the lugs end before the floor of the windows?",
    needs=("wheel.window_depth", "pulley.lug_length"),
    quantity=quantity,
    measures="depth of the window less the length of the lug",
    formula="d_window − l_lug",
    unit="mm",
    hard=AtLeast(Bound("core_windows.lugs_do_not_bottom.least", 1.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="Shorten the lugs, not the core, and keep at least 8 mm of them.",
    examples=(
        Example("14 mm window, 9.5 mm lug", {"wheel.window_depth": 14.0, "pulley.lug_length": 9.5}, "holds", 3.5),
        Example("exactly on the limit", {"wheel.window_depth": 10.5, "pulley.lug_length": 9.5}, "holds", 0.0),
        Example(
            "9.5 mm lug in a 10 mm window",
            {"wheel.window_depth": (9.9, 10.0, 10.1), "pulley.lug_length": 9.5},
            "fails",
            -0.5,
            two_numbers="9.5 is less than 10: comparing two numbers says yes",
        ),
        Example("depth unread", {"pulley.lug_length": 9.5}, "undecided"),
    ),
)

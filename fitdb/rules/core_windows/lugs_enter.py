"""A lug needs a little air on its sides to slide into its window, and to come out again when the wheel is changed.

Urethane cores are moulded, not machined: a lug that has to be hammered in bends the core and runs out of true.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(window_width: float, lug_width: float) -> float:
    return window_width - lug_width


RULE = Rule(
    question="Do the lugs slide into the windows without force?",
    needs=("wheel.window_width", "pulley.lug_width"),
    quantity=quantity,
    measures="side clearance, both sides together: window width less lug width",
    formula="s = w_window − w_lug",
    unit="mm",
    hard=AtLeast(Bound("core_windows.lugs_enter.least", 0.1, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="File the lugs, never the core; a lug that is hammered in splits the core later.",
    examples=(
        Example(
            "9.0 mm window, 8.6 mm lug", {"wheel.window_width": (8.9, 9.0, 9.1), "pulley.lug_width": 8.6}, "holds", 0.3
        ),
        Example("exactly on the limit", {"wheel.window_width": 9.0, "pulley.lug_width": 8.9}, "holds", 0.0),
        Example(
            "8.95 mm lug in a 9.0 mm window binds",
            {"wheel.window_width": 9.0, "pulley.lug_width": 8.95},
            "fails",
            -0.05,
            two_numbers="8.95 is less than 9.0: comparing two numbers says yes",
        ),
        Example(
            "read by eye from a photograph",
            {"wheel.window_width": (8.7, 9.0, 9.3), "pulley.lug_width": (8.5, 8.6, 8.7)},
            "undecided",
            0.3,
        ),
        Example("window width unread", {"pulley.lug_width": 8.6}, "undecided"),
    ),
)

"""Too much air beside the lugs and the pulley knocks to and fro whenever you change from pulling to braking.

The knocking is a nuisance first and wears the windows later. A little air is wanted; a lot of it means that the lugs
were made for another core.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(window_width: float, lug_width: float) -> float:
    return window_width - lug_width


RULE = Rule(
    question="Are the lugs wide enough not to knock in the windows?",
    needs=("wheel.window_width", "pulley.lug_width"),
    quantity=quantity,
    measures="side clearance, both sides together: window width less lug width",
    formula="s = w_window − w_lug",
    unit="mm",
    hard=AtMost(Bound("core_windows.lugs_do_not_knock.most", 1.2, "common practice, no source")),
    comfort=AtMost(Bound("core_windows.lugs_do_not_knock.comfort", 0.6, "common practice, no source")),
    severity=Severity.NUISANCE,
    examples=(
        Example("9.0 mm window, 8.6 mm lug", {"wheel.window_width": 9.0, "pulley.lug_width": 8.6}, "holds", 0.8),
        Example("exactly on the limit", {"wheel.window_width": 9.8, "pulley.lug_width": 8.6}, "holds", 0.0),
        Example(
            "a 6.5 mm lug in a 9.0 mm window hammers",
            {"wheel.window_width": 9.0, "pulley.lug_width": 6.5},
            "fails",
            -1.3,
            two_numbers="6.5 is less than 9.0: comparing two numbers says yes",
        ),
        Example("lug width unread", {"wheel.window_width": 9.0}, "undecided"),
    ),
)

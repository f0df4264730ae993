"""Side clearance turns into a dead angle: the wheel turns that far before drive or brake takes hold.

The same air means a larger angle on a small lug circle, which is why it is told in degrees too.
"""

from fitdb.formulas.motors import lug_play_deg
from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(window_width: float, lug_width: float, lug_circle_radius: float) -> float:
    return lug_play_deg(window_width - lug_width, lug_circle_radius)


RULE = Rule(
    question="Is the dead angle between driving and braking small?",
    needs=("wheel.window_width", "pulley.lug_width", "pulley.lug_circle_radius"),
    quantity=quantity,
    measures="angle by which the pulley turns before its lugs take up",
    formula="(w_window − w_lug)/r_lug",
    unit="deg",
    hard=AtMost(Bound("core_windows.play_is_small.most", 3.5, "common practice, no source")),
    comfort=AtMost(Bound("core_windows.play_is_small.comfort", 1.7, "common practice, no source")),
    severity=Severity.NUISANCE,
    examples=(
        Example(
            "0.4 mm at 20.5 mm",
            {"wheel.window_width": 9.0, "pulley.lug_width": 8.6, "pulley.lug_circle_radius": 20.5},
            "holds",
            2.382,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.window_width": 9.0,
                "pulley.lug_width": 9.0 - 3.5 * 3.141592653589793 / 180 * 20.0,
                "pulley.lug_circle_radius": 20.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "1.2 mm at 16 mm",
            {"wheel.window_width": 9.0, "pulley.lug_width": 7.8, "pulley.lug_circle_radius": 16.0},
            "fails",
            -0.797,
            two_numbers="7.8 is less than 9.0: comparing two numbers says yes",
        ),
        Example("circle unread", {"wheel.window_width": 9.0, "pulley.lug_width": 8.6}, "undecided"),
    ),
)

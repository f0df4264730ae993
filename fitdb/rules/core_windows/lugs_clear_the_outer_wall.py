"""A lug that stands too far from the axis meets the outer wall of its window before it is in.

The outer wall carries the urethane: a lug forced against it splits the core from there.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(window_outer_radius: float, lug_outer_radius: float) -> float:
    return window_outer_radius - lug_outer_radius


RULE = Rule(
    question="Do the lugs clear the outer walls of the windows?",
    needs=("wheel.window_outer_radius", "pulley.lug_outer_radius"),
    quantity=quantity,
    measures="air between a lug and the outer wall of its window",
    formula="(r_window + h_window/2) − (r_lug + h_lug/2)",
    unit="mm",
    hard=AtLeast(Bound("core_windows.lugs_clear_the_outer_wall.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="File the lugs, never the core; a lug that is hammered in splits the core later.",
    examples=(
        Example(
            "26.5 mm wall, 25.75 mm lug",
            {"wheel.window_outer_radius": 26.5, "pulley.lug_outer_radius": 25.75},
            "holds",
            0.75,
        ),
        Example(
            "exactly on the limit", {"wheel.window_outer_radius": 25.75, "pulley.lug_outer_radius": 25.75}, "holds", 0.0
        ),
        Example(
            "the lug's circle is 2 mm larger",
            {"wheel.window_outer_radius": 26.5, "pulley.lug_outer_radius": 27.75},
            "fails",
            -1.25,
            two_numbers="a 10.5 mm lug is lower than a 12 mm window: comparing two heights says yes",
        ),
        Example("lug unread", {"wheel.window_outer_radius": 26.5}, "undecided"),
    ),
)

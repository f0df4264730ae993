"""A lug that stands too near to the axis rides up on the inner wall of its window, and the pulley is pushed off centre.

Width alone says nothing about this: the circle of the lugs and the height of both count too.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(window_inner_radius: float, lug_inner_radius: float) -> float:
    return lug_inner_radius - window_inner_radius


RULE = Rule(
    question="Do the lugs clear the inner walls of the windows?",
    needs=("wheel.window_inner_radius", "pulley.lug_inner_radius"),
    quantity=quantity,
    measures="air between a lug and the inner wall of its window",
    formula="(r_lug − h_lug/2) − (r_window − h_window/2)",
    unit="mm",
    hard=AtLeast(Bound("core_windows.lugs_clear_the_inner_wall.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="File the lugs, never the core; a lug that is hammered in splits the core later.",
    examples=(
        Example(
            "14.5 mm wall, 15.25 mm lug",
            {"wheel.window_inner_radius": 14.5, "pulley.lug_inner_radius": 15.25},
            "holds",
            0.75,
        ),
        Example(
            "exactly on the limit", {"wheel.window_inner_radius": 15.25, "pulley.lug_inner_radius": 15.25}, "holds", 0.0
        ),
        Example(
            "the lug's circle is 2 mm smaller",
            {"wheel.window_inner_radius": 15.5, "pulley.lug_inner_radius": 13.25},
            "fails",
            -2.25,
            two_numbers="a 10.5 mm lug is lower than a 12 mm window: comparing two heights says yes",
        ),
        Example("lug unread", {"wheel.window_inner_radius": 15.5}, "undecided"),
    ),
)

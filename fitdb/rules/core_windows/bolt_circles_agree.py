"""Bolts of a bolted pulley go through holes of the core. When the circles differ, the bolts are bent as they are
tightened, and a bent bolt breaks under braking.
"""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(core_bolt_circle: float, pulley_bolt_circle: float) -> float:
    return core_bolt_circle - pulley_bolt_circle


RULE = Rule(
    question="Do the bolt circles of pulley and core agree?",
    needs=("wheel.core_bolt_circle", "pulley.bolt_circle"),
    quantity=quantity,
    measures="bolt circle of the core less that of the pulley, diameters",
    formula="D_core − D_pulley",
    unit="mm",
    hard=Between(
        Bound("core_windows.bolt_circles_agree.least", -0.3, "common practice, no source"),
        Bound("core_windows.bolt_circles_agree.most", 0.3, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    caution="A core that is drilled cannot be undone, and the motor is the brake: drill with a jig or not at all.",
    examples=(
        Example("66 on 66", {"wheel.core_bolt_circle": (65.9, 66.0, 66.1), "pulley.bolt_circle": 66.0}, "holds", 0.3),
        Example("exactly on the limit", {"wheel.core_bolt_circle": 66.3, "pulley.bolt_circle": 66.0}, "holds", 0.0),
        Example("72 on 66", {"wheel.core_bolt_circle": 72.0, "pulley.bolt_circle": 66.0}, "fails", -5.7),
        Example(
            "read with a ruler",
            {"wheel.core_bolt_circle": (65.3, 66.0, 66.7), "pulley.bolt_circle": 66.0},
            "undecided",
            0.3,
            two_numbers="66 is 66: comparing two numbers says yes",
        ),
        Example("core unread", {"pulley.bolt_circle": 66.0}, "undecided"),
    ),
)

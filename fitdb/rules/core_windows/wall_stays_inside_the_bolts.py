"""A hole near the bearing seat lets the seat grow oval, and the bearing walks. Four millimetres of wall are the
least.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(bolt_circle: float, bolt_diameter: float, core_inner_diameter: float) -> float:
    return 0.5 * (bolt_circle - bolt_diameter - core_inner_diameter)


RULE = Rule(
    question="Is enough core left between the bolts and the bearing seat?",
    needs=("pulley.bolt_circle", "pulley.bolt_diameter", "wheel.core_inner_diameter"),
    quantity=quantity,
    measures="wall between a bolt and the bearing seat",
    formula="(D_bolts − d − D_seat)/2",
    unit="mm",
    hard=AtLeast(Bound("core_windows.wall_stays_inside_the_bolts.least", 4.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A core that is drilled cannot be undone, and the motor is the brake: drill with a jig or not at all.",
    examples=(
        Example(
            "40 mm circle, M5, 22 mm seat",
            {"pulley.bolt_circle": 40.0, "pulley.bolt_diameter": 5.0, "wheel.core_inner_diameter": 22.0},
            "holds",
            2.5,
        ),
        Example(
            "exactly on the limit",
            {"pulley.bolt_circle": 35.0, "pulley.bolt_diameter": 5.0, "wheel.core_inner_diameter": 22.0},
            "holds",
            0.0,
        ),
        Example(
            "33 mm circle, M5, 22 mm seat",
            {"pulley.bolt_circle": 33.0, "pulley.bolt_diameter": 5.0, "wheel.core_inner_diameter": 22.0},
            "fails",
            -1.0,
            two_numbers="33 is more than 22: comparing circle and seat says yes",
        ),
        Example("circle unread", {"pulley.bolt_diameter": 5.0}, "undecided"),
    ),
)

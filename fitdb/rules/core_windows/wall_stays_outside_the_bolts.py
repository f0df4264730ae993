"""A hole near the edge of a core splits out under braking. Four millimetres of wall are the least that is left."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(core_outer_diameter: float, bolt_circle: float, bolt_diameter: float) -> float:
    return 0.5 * (core_outer_diameter - bolt_circle - bolt_diameter)


RULE = Rule(
    question="Is enough core left outside the bolts?",
    needs=("wheel.core_outer_diameter", "pulley.bolt_circle", "pulley.bolt_diameter"),
    quantity=quantity,
    measures="wall between a bolt and the outer edge of the core",
    formula="(D_core − D_bolts − d)/2",
    unit="mm",
    hard=AtLeast(Bound("core_windows.wall_stays_outside_the_bolts.least", 4.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A core that is drilled cannot be undone, and the motor is the brake: drill with a jig or not at all.",
    examples=(
        Example(
            "86 mm rim, 66 mm circle, M5",
            {"wheel.core_outer_diameter": 86.0, "pulley.bolt_circle": 66.0, "pulley.bolt_diameter": 5.0},
            "holds",
            3.5,
        ),
        Example(
            "exactly on the limit",
            {"wheel.core_outer_diameter": 79.0, "pulley.bolt_circle": 66.0, "pulley.bolt_diameter": 5.0},
            "holds",
            0.0,
        ),
        Example(
            "58 mm core, 48 mm circle, M5",
            {"wheel.core_outer_diameter": 58.0, "pulley.bolt_circle": 48.0, "pulley.bolt_diameter": 5.0},
            "fails",
            -1.5,
            two_numbers="48 is less than 58: comparing circle and core says yes",
        ),
        Example("circle unread", {"wheel.core_outer_diameter": 86.0}, "undecided"),
    ),
)

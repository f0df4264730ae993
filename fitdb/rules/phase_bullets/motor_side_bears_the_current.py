"""A bullet too small for the motor current grows hot, loses its spring and grows hotter. The loss of one phase at
speed is a jerk and a lost brake.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(bullet_current: float, setting: float) -> float:
    return bullet_current - setting


RULE = Rule(
    question="Does the bullet toward the motor bear the motor current?",
    needs=("motor_side.bullet_current", "controller.motor_current"),
    quantity=quantity,
    measures="current that the bullet toward the motor carries less the motor current as set",
    formula="m = I_bullet − I_set",
    unit="A",
    hard=AtLeast(Bound("phase_bullets.motor_side_bears_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    remedy_hint="larger bullets soldered on, or less motor current",
    examples=(
        Example(
            "4 mm bullets at 60 A", {"motor_side.bullet_current": 70.0, "controller.motor_current": 60.0}, "holds", 10.0
        ),
        Example(
            "3.5 mm bullets at 60 A",
            {"motor_side.bullet_current": 45.0, "controller.motor_current": 60.0},
            "fails",
            -15.0,
        ),
        Example(
            "exactly on the limit", {"motor_side.bullet_current": 70.0, "controller.motor_current": 70.0}, "holds", 0.0
        ),
        Example("bullet unread", {"controller.motor_current": 60.0}, "undecided"),
    ),
)

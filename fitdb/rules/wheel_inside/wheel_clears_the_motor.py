"""A motor that reaches out beside the wheel must stay clear of its tread. Where the whole wheel stands outboard of the
mount's plate the motor cannot reach it, and this is not a question.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(centre_distance: float, can_diameter: float, wheel_diameter: float) -> float:
    return centre_distance - can_diameter / 2.0 - wheel_diameter / 2.0


RULE = Rule(
    question="Does the tread clear the can of the motor beside it?",
    needs=("motor_mount.centre_min", "motor.can_diameter", "wheel.outer_diameter"),
    quantity=quantity,
    measures="tread to motor can, motor at the near end of its slots",
    formula="g = C_min − r_can − R",
    unit="mm",
    hard=AtLeast(Bound("wheel_inside.wheel_clears_the_motor.least", 3.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    excused_by="wheel_inside.wheel_stands_outboard_of_the_motor",
    remedy_hint="a smaller wheel, or the wheel further out",
    examples=(
        Example(
            "50 mm can at 75 mm, 83 mm wheel",
            {
                "motor_mount.centre_min": (74.5, 75.0, 75.5),
                "motor.can_diameter": (49.9, 50.0, 50.1),
                "wheel.outer_diameter": (82.5, 83.0, 83.5),
            },
            "holds",
            5.5,
        ),
        Example(
            "63 mm can at 70 mm, 97 mm wheel",
            {"motor_mount.centre_min": 70.0, "motor.can_diameter": 63.0, "wheel.outer_diameter": 97.0},
            "fails",
            -13.0,
            two_numbers="70 is more than half of 97 and more than half of 63: either comparison alone says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor_mount.centre_min": 76.0, "motor.can_diameter": 56.0, "wheel.outer_diameter": 90.0},
            "holds",
            0.0,
        ),
        Example("slots unread", {"motor.can_diameter": 63.0, "wheel.outer_diameter": 90.0}, "undecided"),
    ),
)

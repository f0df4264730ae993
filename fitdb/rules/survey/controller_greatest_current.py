"""The greater of the two settings of one controller: the current with which it drives a motor and the one with which it
brakes. A braking current that nobody has read counts as no more than the motor current.
"""

from fitdb.model.rule import SurveyLine


def quantity(driving: float, braking: tuple[float, ...]) -> float:
    return max((driving, *braking))


LINE = SurveyLine(
    target="controller.greatest_current",
    needs=("controller.motor_current", "controller*.braking_motor_current"),
    where_read=("controller*.braking_motor_current",),
    quantity=quantity,
    measures="greatest motor current that this controller is set to, driving or braking",
    formula="I = max(I_set, I_brake)",
    unit="A",
    source="common practice, no source",
    examples=(
        ({"controller.motor_current": 50.0, "controller*.braking_motor_current": (60.0,)}, 60.0),
        ({"controller.motor_current": 50.0, "controller*.braking_motor_current": (40.0,)}, 50.0),
        ({"controller.motor_current": 50.0}, 50.0),
    ),
)

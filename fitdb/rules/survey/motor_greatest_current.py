"""The greatest current that ever runs through one motor, driving or braking. Shaft, belt and lugs feel both, and a
brake may be set harder than the drive. A braking current that nobody has read counts as no more than the motor current.
"""

from fitdb.model.rule import SurveyLine


def quantity(peak_current: float, driving: tuple[float, ...], braking: tuple[float, ...]) -> float:
    return max((*driving, *braking), default=peak_current)


LINE = SurveyLine(
    target="motor.greatest_current",
    needs=("motor.peak_current", "controller*.motor_current", "controller*.braking_motor_current"),
    where_read=("controller*.braking_motor_current",),
    quantity=quantity,
    measures="greatest motor current, driving or braking, that a controller is set to, else the motor's peak",
    formula="I = max(I_set, I_brake) over the controllers, or I_peak without a controller",
    unit="A",
    source="common practice, no source",
    examples=(
        (
            {
                "motor.peak_current": 80.0,
                "controller*.motor_current": (30.0,),
                "controller*.braking_motor_current": (80.0,),
            },
            80.0,
        ),
        ({"motor.peak_current": 80.0, "controller*.motor_current": (40.0, 50.0)}, 50.0),
        ({"motor.peak_current": 80.0}, 80.0),
    ),
)

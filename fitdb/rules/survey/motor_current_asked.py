"""The greatest current that will run through one motor: what its controller is set to give, or, with no controller
named, the peak current on the motor's sheet. A motor does not limit its current; the controller pushes what it is set
to.
"""

from fitdb.model.rule import SurveyLine


def quantity(peak_current: float, controllers: tuple[float, ...]) -> float:
    return max(controllers, default=peak_current)


LINE = SurveyLine(
    target="motor.current_asked",
    needs=("motor.peak_current", "controller*.motor_current"),
    quantity=quantity,
    measures="greatest motor current: the controllers' greatest setting per motor, else the motor's peak on its sheet",
    formula="I = I_set, or I_peak without a controller",
    unit="A",
    source="common practice, no source",
    examples=(
        ({"motor.peak_current": 80.0, "controller*.motor_current": (50.0,)}, 50.0),
        ({"motor.peak_current": 80.0, "controller*.motor_current": (40.0, 50.0)}, 50.0),
        ({"motor.peak_current": 80.0}, 80.0),
    ),
)

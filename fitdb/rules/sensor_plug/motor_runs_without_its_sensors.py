"""Many controllers can run a motor without its position sensors. It then starts roughly and wants a push by foot, but
its plug may stay out and no pin can be wrong. Asked only where the sensors are left out, or the motor has none.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(sensing: str, sensor: str, able: str) -> float | NothingToGuard:
    if sensing != "without_sensors" and sensor != "none":
        return NOTHING_TO_GUARD
    return 1.0 if able == "yes" else 0.0


RULE = Rule(
    question="Where the position sensors are left out, can the controller run the motor without them?",
    needs=("controller.position_sensing", "motor.position_sensor", "controller.runs_without_sensors"),
    quantity=quantity,
    measures="1 if the controller runs motors without sensors, 0 if it needs them",
    formula="1 or 0",
    unit="",
    hard=AtLeast(Bound("sensor_plug.motor_runs_without_its_sensors.least", 1.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution=(
        "Leave the sensor plug out and its pins covered. Push off by foot: the start is rough from rest. With the plug "
        "out nothing watches the heat of the motor: set its temperature sensor to not used, and feel it by hand."
    ),
    examples=(
        Example(
            "sensors left out, controller can do without",
            {
                "controller.position_sensing": "without_sensors",
                "motor.position_sensor": "hall",
                "controller.runs_without_sensors": "yes",
            },
            "holds",
            0.0,
        ),
        Example(
            "motor without sensors, controller needs them",
            {
                "controller.position_sensing": "with_sensors",
                "motor.position_sensor": "none",
                "controller.runs_without_sensors": "no",
            },
            "fails",
            -1.0,
        ),
        Example(
            "sensors in use",
            {
                "controller.position_sensing": "with_sensors",
                "motor.position_sensor": "hall",
                "controller.runs_without_sensors": "yes",
            },
            "excused",
        ),
        Example(
            "nobody knows whether it can",
            {"controller.position_sensing": "without_sensors", "motor.position_sensor": "hall"},
            "undecided",
        ),
    ),
)

"""Sensor plugs of 2.0 and 2.5 mm pitch look alike and do not mate; pushed together they bend pins into each other."""

from fitdb.model.rule import Between, Bound, Example, Rule, Severity


def quantity(motor_side: float, controller_side: float) -> float:
    return motor_side - controller_side


RULE = Rule(
    question="Do the sensor plugs have one pitch?",
    needs=("motor_side.pin_pitch", "controller_side.pin_pitch"),
    quantity=quantity,
    measures="pitch toward the motor less pitch toward the controller",
    formula="Δ = p_motor − p_controller",
    unit="mm",
    hard=Between(
        Bound("sensor_plug.pitch_agrees.least", -0.2, "common practice, no source"),
        Bound("sensor_plug.pitch_agrees.most", 0.2, "common practice, no source"),
    ),
    severity=Severity.DAMAGE,
    excused_by="sensor_plug.motor_runs_without_its_sensors",
    remedy_hint="a lead from one plug to the other, metered pin by pin; or run without sensors",
    examples=(
        Example(
            "2.0 on 2.0", {"motor_side.pin_pitch": (1.95, 2.0, 2.05), "controller_side.pin_pitch": 2.0}, "holds", 0.2
        ),
        Example("2.5 on 2.0", {"motor_side.pin_pitch": 2.5, "controller_side.pin_pitch": 2.0}, "fails", -0.3),
        Example("exactly on the limit", {"motor_side.pin_pitch": 2.2, "controller_side.pin_pitch": 2.0}, "holds", 0.0),
        Example(
            "read with a ruler",
            {"motor_side.pin_pitch": (1.5, 2.0, 2.5), "controller_side.pin_pitch": 2.0},
            "undecided",
        ),
        Example("motor unread", {"controller_side.pin_pitch": 2.0}, "undecided"),
    ),
)

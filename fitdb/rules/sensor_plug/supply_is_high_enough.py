"""Position sensors that get too few volts switch late or not at all, and the motor stutters under load."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(supply: float, least: float) -> float:
    return supply - least


RULE = Rule(
    question="Do the position sensors get enough volts?",
    needs=("controller.sensor_supply", "motor.sensor_volts_least"),
    quantity=quantity,
    measures="volts on the controller's sensor plug less the least that the sensors want",
    formula="m = V_supply − V_least",
    unit="V",
    hard=AtLeast(Bound("sensor_plug.supply_is_high_enough.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    excused_by="sensor_plug.motor_runs_without_its_sensors",
    remedy_hint="run without sensors",
    examples=(
        Example(
            "5 V for sensors from 4.5 V",
            {"controller.sensor_supply": 5.0, "motor.sensor_volts_least": 4.5},
            "holds",
            0.5,
        ),
        Example(
            "3.3 V for sensors from 4.5 V",
            {"controller.sensor_supply": 3.3, "motor.sensor_volts_least": 4.5},
            "fails",
            -1.2,
        ),
        Example(
            "exactly on the limit", {"controller.sensor_supply": 4.5, "motor.sensor_volts_least": 4.5}, "holds", 0.0
        ),
        Example("sensors unread", {"controller.sensor_supply": 5.0}, "undecided"),
    ),
)

"""Position sensors that get more volts than they bear die one after the other, and some short the supply as they do."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(most: float, supply: float) -> float:
    return most - supply


RULE = Rule(
    question="Do the position sensors bear the volts that they get?",
    needs=("motor.sensor_volts_most", "controller.sensor_supply"),
    quantity=quantity,
    measures="most volts that the sensors bear less the volts on the controller's sensor plug",
    formula="m = V_most − V_supply",
    unit="V",
    hard=AtLeast(Bound("sensor_plug.supply_is_not_too_high.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    excused_by="sensor_plug.motor_runs_without_its_sensors",
    remedy_hint="run without sensors",
    examples=(
        Example(
            "5 V for sensors to 18 V", {"motor.sensor_volts_most": 18.0, "controller.sensor_supply": 5.0}, "holds", 13.0
        ),
        Example(
            "12 V for sensors to 5.5 V",
            {"motor.sensor_volts_most": 5.5, "controller.sensor_supply": 12.0},
            "fails",
            -6.5,
        ),
        Example(
            "exactly on the limit", {"motor.sensor_volts_most": 5.0, "controller.sensor_supply": 5.0}, "holds", 0.0
        ),
        Example("sensors unread", {"controller.sensor_supply": 5.0}, "undecided"),
    ),
)

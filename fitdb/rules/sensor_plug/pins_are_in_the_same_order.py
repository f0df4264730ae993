"""The shell says nothing about what lies on its pins, and neither do the colours of the wires. Supply on a ground or
signal pin kills three sensors, and at times the controller's supply. An order that was not metered stays open.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(motor_side: str, controller_side: str) -> tuple[str, ...]:
    return (motor_side, controller_side)


RULE = Rule(
    question="Do the pins of the sensor plugs come in the same order?",
    needs=("motor_side.pin_order", "controller_side.pin_order"),
    quantity=quantity,
    measures="order of the pins, metered, on both sides",
    formula="words",
    unit="",
    hard=Same("sensor_plug.pins_are_in_the_same_order.words", "common practice, no source"),
    severity=Severity.DAMAGE,
    excused_by="sensor_plug.motor_runs_without_its_sensors",
    caution=(
        "A plug that mates is not a plug that matches. Meter every pin before it is joined: pack unplugged, "
        "find supply "
        "and ground by their resistance, then try 5 V through 100 ohm on the bench."
    ),
    remedy_hint="a lead that swaps the pins, metered on both sides; or run without sensors",
    examples=(
        Example(
            "both metered and alike",
            {
                "motor_side.pin_order": "supply_temperature_a_b_c_ground",
                "controller_side.pin_order": "supply_temperature_a_b_c_ground",
            },
            "holds",
        ),
        Example(
            "same shell, other order",
            {
                "motor_side.pin_order": "ground_a_b_c_temperature_supply",
                "controller_side.pin_order": "supply_temperature_a_b_c_ground",
            },
            "fails",
            two_numbers="six ways at 2.0 mm on both sides: comparing shells says yes",
        ),
        Example(
            "same shell, nobody metered the motor",
            {"controller_side.pin_order": "supply_temperature_a_b_c_ground"},
            "undecided",
        ),
    ),
)

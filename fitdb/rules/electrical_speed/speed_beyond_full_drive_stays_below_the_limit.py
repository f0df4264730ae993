"""Some controllers can push a motor about a fifth beyond the speed that the volts of the pack give: the settings call
it field weakening. Where it is switched on, or nobody knows, the fifth is counted.
"""

from fitdb.formulas.electrical_speed import below_ceiling
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(limit: float, speed: float, ceiling: float, runs_above: str, overdrive: float) -> float:
    return limit - below_ceiling(speed, ceiling, overdrive if runs_above == "yes" else 1.0)


RULE = Rule(
    question="Can the controller follow the motor where it pushes it beyond what the volts give?",
    needs=(
        "controller.electrical_speed_limit",
        "motor.electrical_speed",
        "controller.rev_ceiling",
        "controller.runs_above_voltage_limit",
    ),
    quantity=quantity,
    measures="limit of the controller less the electrical speed, a fifth more where field weakening may be on",
    formula="m = ω_limit − min(1.2·K_v·V_full·p, ω_ceiling)",
    unit="rpm",
    hard=AtLeast(
        Bound("electrical_speed.speed_beyond_full_drive_stays_below_the_limit.least", 0.0, "common practice, no source")
    ),
    severity=Severity.INJURY,
    constants=(Constant("overdrive", 1.2, "1", "common practice, no source"),),
    caution=(
        "On this build the motor is the brake. Where the controller loses step, drive and brake vanish at full speed: "
        "leave running above the voltage limit switched off until the rest is proven."
    ),
    remedy_hint="switch it off, or set a ceiling",
    examples=(
        Example(
            "switched off",
            {
                "controller.electrical_speed_limit": 60000.0,
                "motor.electrical_speed": 55860.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.runs_above_voltage_limit": "no",
            },
            "holds",
            4140.0,
        ),
        Example(
            "switched on",
            {
                "controller.electrical_speed_limit": 60000.0,
                "motor.electrical_speed": 55860.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.runs_above_voltage_limit": "yes",
            },
            "fails",
            -7032.0,
            two_numbers="55 860 is less than 60 000: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "controller.electrical_speed_limit": 60000.0,
                "motor.electrical_speed": 50000.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.runs_above_voltage_limit": "yes",
            },
            "holds",
            0.0,
        ),
        Example(
            "nobody looked",
            {
                "controller.electrical_speed_limit": 60000.0,
                "motor.electrical_speed": 55860.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.runs_above_voltage_limit": "yes|no",
            },
            "undecided",
        ),
        Example(
            "limit unread",
            {
                "motor.electrical_speed": 55860.0,
                "controller.rev_ceiling": 1000000.0,
                "controller.runs_above_voltage_limit": "no",
            },
            "undecided",
        ),
    ),
)

"""A sensor whose ohms rise read as one whose ohms fall never shows heat; the other way round a cold motor counts as
hot. With the pin left open nothing is read, and nothing is read wrong: then the motor has no heat limit.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(sensor: str, setting: str) -> tuple[str, ...]:
    return (sensor, setting) if setting != "not_used" else (setting, setting)


RULE = Rule(
    question="Is the controller set to the kind of temperature sensor that the motor has?",
    needs=("motor.temperature_sensor", "controller.temperature_setting"),
    quantity=quantity,
    measures="kind of sensor in the motor, and kind that the controller is set to",
    formula="words",
    unit="",
    hard=Same("temperature_sensor.kind_is_as_set.words", "common practice, no source"),
    severity=Severity.DAMAGE,
    two_numbers_suffice="words: there is nothing to compare but the two",
    caution=(
        "Meter temperature pin to ground, cold and hand-warm: 10 kΩ at 25 °C that fall are a falling kind, "
        "ohms that rise "
        "are a rising kind. With the pin left open feel the motor by hand: nothing else watches it."
    ),
    remedy_hint="set the kind in the controller, or leave the pin open",
    examples=(
        Example(
            "10 k falling, set so",
            {"motor.temperature_sensor": "ntc_10k", "controller.temperature_setting": "ntc_10k"},
            "holds",
        ),
        Example(
            "rising, set to falling",
            {"motor.temperature_sensor": "ptc_silicon", "controller.temperature_setting": "ntc_10k"},
            "fails",
        ),
        Example(
            "no sensor, set to one",
            {"motor.temperature_sensor": "none", "controller.temperature_setting": "ntc_10k"},
            "fails",
        ),
        Example(
            "unknown, pin left open",
            {
                "motor.temperature_sensor": "ntc_10k|ntc_100k|ptc_silicon|none",
                "controller.temperature_setting": "not_used",
            },
            "holds",
        ),
        Example(
            "unknown, set to one",
            {
                "motor.temperature_sensor": "ntc_10k|ntc_100k|ptc_silicon|none",
                "controller.temperature_setting": "ntc_10k",
            },
            "undecided",
        ),
        Example("motor unread", {"controller.temperature_setting": "ntc_10k"}, "undecided"),
    ),
)

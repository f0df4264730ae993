"""A converter that is asked for more than it gives drops its volts, and all that hangs on it goes out."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(volts: float, current: float, powers: tuple[float, ...], feeds: tuple[str, ...]) -> float:
    return volts * current - sum(power for power, feed in zip(powers, feeds, strict=True) if feed == "converter")


RULE = Rule(
    question="Does the converter bear the lights that hang on it?",
    needs=("converter.output_volts", "converter.output_current", "light*.power", "light*.fed_from"),
    quantity=quantity,
    measures="power that the converter gives less the power of the lights on it",
    formula="m = V·I − Σ P",
    unit="W",
    hard=AtLeast(Bound("light_feed.converter_bears_the_lights.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a larger converter, or a second one",
    examples=(
        Example(
            "12 W on 24 W",
            {
                "converter.output_volts": 12.0,
                "converter.output_current": 2.0,
                "light*.power": (10.0, 2.0),
                "light*.fed_from": ("converter", "converter"),
            },
            "holds",
            12.0,
        ),
        Example(
            "two lights, each of which it bears alone",
            {
                "converter.output_volts": 12.0,
                "converter.output_current": 1.0,
                "light*.power": (8.0, 8.0),
                "light*.fed_from": ("converter", "converter"),
            },
            "fails",
            -4.0,
            two_numbers="8 W is less than 12 W: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "converter.output_volts": 12.0,
                "converter.output_current": 1.0,
                "light*.power": (12.0, 10.0),
                "light*.fed_from": ("converter", "pack"),
            },
            "holds",
            0.0,
        ),
        Example(
            "converter unread",
            {"converter.output_volts": 12.0, "light*.power": (10.0,), "light*.fed_from": ("converter",)},
            "undecided",
        ),
    ),
)

"""A light joined straight to the pack has to bear its full volts with a tenth to spare. Behind a step-down converter
the volts stand still and nothing is kept in hand, but a 5 V light on a 12 V converter burns all the same.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Constant, Example, NothingToGuard, Rule, Severity


def quantity(
    absolute_volts: float, full_volts: float, fed_from: str, converters: tuple[float, ...], share: float
) -> float | NothingToGuard:
    if fed_from == "auxiliary":
        return NOTHING_TO_GUARD
    # A converter that nobody named holds nothing back.
    return (
        absolute_volts - converters[0]
        if fed_from == "converter" and converters
        else (share * absolute_volts - full_volts)
    )


RULE = Rule(
    question="Does the light bear the volts that reach it?",
    needs=("light.absolute_volts", "pack.full_volts", "light.fed_from", "converter*.output_volts"),
    quantity=quantity,
    measures="greatest volts of the light (nine tenths of them on the pack) less the volts that reach it",
    formula="m = 0.90·V_abs − V_full (behind a converter V_abs − V_converter)",
    unit="V",
    hard=AtLeast(Bound("light_volts.supply_within_rating.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(Constant("share", 0.90, "1", "common practice, no source"),),
    caution="A lithium pack cannot be switched off. Give every accessory lead a fuse of its own at the pack.",
    remedy_hint="a step-down converter with a fuse of its own",
    examples=(
        Example(
            "a 15 V light behind a 12 V converter",
            {
                "light.absolute_volts": 15.0,
                "pack.full_volts": 50.4,
                "light.fed_from": "converter",
                "converter*.output_volts": (12.0,),
            },
            "holds",
            3.0,
        ),
        Example(
            "a 60 V light straight on thirteen cells",
            {"light.absolute_volts": 60.0, "pack.full_volts": 54.6, "light.fed_from": "pack"},
            "fails",
            -0.6,
            two_numbers="54.6 V < 60 V: a comparison of two numbers says yes",
        ),
        Example(
            "a 15 V light said to be behind a converter that nobody named",
            {"light.absolute_volts": 15.0, "pack.full_volts": 50.4, "light.fed_from": "converter"},
            "fails",
            -36.9,
        ),
        Example(
            "exactly on the limit",
            {
                "light.absolute_volts": 12.0,
                "pack.full_volts": 50.4,
                "light.fed_from": "converter",
                "converter*.output_volts": (12.0,),
            },
            "holds",
            0.0,
        ),
        Example(
            "not known where it is fed from",
            {
                "light.absolute_volts": 15.0,
                "pack.full_volts": 50.4,
                "light.fed_from": "pack|converter",
                "converter*.output_volts": (12.0,),
            },
            "undecided",
        ),
        Example("label unread", {"pack.full_volts": 50.4, "light.fed_from": "pack"}, "undecided"),
    ),
)

"""A light that goes out before the pack is empty goes out on the way home."""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(
    empty_volts: float, fed_from: str, converters: tuple[float, ...], least_volts: float
) -> float | NothingToGuard:
    if fed_from == "auxiliary":
        return NOTHING_TO_GUARD
    return (converters[0] if fed_from == "converter" and converters else empty_volts) - least_volts


RULE = Rule(
    question="Is the light still lit when the pack is nearly empty?",
    needs=("pack.empty_volts", "light.fed_from", "converter*.output_volts", "light.least_volts"),
    quantity=quantity,
    measures="volts that reach the light at the end of the ride, less the least volts at which it is lit",
    formula="m = V_end − V_least (behind a converter V_converter − V_least)",
    unit="V",
    hard=AtLeast(Bound("light_volts.still_lit_at_the_end.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a converter for the volts of the light",
    examples=(
        Example(
            "a light for 9 V and more behind a 12 V converter",
            {
                "pack.empty_volts": 36.0,
                "light.fed_from": "converter",
                "converter*.output_volts": (12.0,),
                "light.least_volts": 9.0,
            },
            "holds",
            3.0,
        ),
        Example(
            "the same behind a 5 V converter",
            {
                "pack.empty_volts": 36.0,
                "light.fed_from": "converter",
                "converter*.output_volts": (5.0,),
                "light.least_volts": 9.0,
            },
            "fails",
            -4.0,
            two_numbers="36 V > 9 V: the pack against the light says yes",
        ),
        Example(
            "exactly on the limit",
            {"pack.empty_volts": 18.0, "light.fed_from": "pack", "light.least_volts": 18.0},
            "holds",
            0.0,
        ),
        Example("least volts unread", {"pack.empty_volts": 36.0, "light.fed_from": "pack"}, "undecided"),
    ),
)

"""A meter that goes blank before the pack is empty is missed exactly when it is needed."""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(empty_volts: float, least_volts: float) -> float:
    return empty_volts - least_volts


RULE = Rule(
    question="Does the meter or converter still work when the pack is nearly empty?",
    needs=("pack.empty_volts", "accessory.least_volts"),
    quantity=quantity,
    measures="volts of the pack where power ends, less the least volts at which it works",
    formula="m = V_end − V_least",
    unit="V",
    hard=AtLeast(Bound("accessory_volts.still_works_at_the_end.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    two_numbers_suffice="two voltages on one rail, each stated",
    examples=(
        Example(
            "a meter for 7 V and more on twelve cells",
            {"pack.empty_volts": 36.0, "accessory.least_volts": 7.0},
            "holds",
            29.0,
        ),
        Example(
            "a converter for 20 V and more on six cells",
            {"pack.empty_volts": 18.0, "accessory.least_volts": 20.0},
            "fails",
            -2.0,
        ),
        Example("exactly on the limit", {"pack.empty_volts": 18.0, "accessory.least_volts": 18.0}, "holds", 0.0),
        Example("least volts unread", {"pack.empty_volts": 36.0}, "undecided"),
    ),
)

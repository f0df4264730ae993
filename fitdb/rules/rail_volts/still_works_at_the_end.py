"""Towards the end of the ride the pack stands at three volts for each cell and sags below that on a hill. A part that
switches itself off before then takes drive and brake away at once.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(empty_volts: float, least_volts: float) -> float:
    return empty_volts - least_volts


RULE = Rule(
    question="Does this part still work when the pack is nearly empty?",
    needs=("pack.empty_volts", "rail_part.least_volts"),
    quantity=quantity,
    measures="volts of the pack where power ends, less the least volts at which the part works",
    formula="m = V_end − V_least",
    unit="V",
    hard=AtLeast(Bound("rail_volts.still_works_at_the_end.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: a controller that switches off on low "
        "volts stops braking too. Learn to stop by foot or to step off, and leave distance."
    ),
    two_numbers_suffice="two voltages on one rail, each stated",
    examples=(
        Example(
            "twelve cells on a controller for 12 V and more",
            {"pack.empty_volts": 36.0, "rail_part.least_volts": 12.0},
            "holds",
            24.0,
        ),
        Example(
            "six cells on a part for 20 V and more",
            {"pack.empty_volts": 18.0, "rail_part.least_volts": 20.0},
            "fails",
            -2.0,
        ),
        Example(
            "exactly on the limit",
            {"pack.empty_volts": 18.0, "rail_part.least_volts": 18.0},
            "holds",
            0.0,
        ),
        Example("least volts unread", {"pack.empty_volts": 36.0}, "undecided"),
    ),
)

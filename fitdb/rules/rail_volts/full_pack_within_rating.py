"""A part that is joined to the pack has to bear its full volts with a tenth to spare. Braking onto a full pack adds 2
to 6 V, and plugging in live lets the volts swing up for a moment, to a third more. What breaks then fails in the
ride, and the brake with it.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(absolute_volts: float, full_volts: float, share: float) -> float:
    return share * absolute_volts - full_volts


RULE = Rule(
    question="Does this part bear the volts of the full pack?",
    needs=("rail_part.absolute_volts", "pack.full_volts"),
    quantity=quantity,
    measures="volts in hand: nine tenths of the greatest volts on the label, less the volts of the full pack",
    formula="m = 0.90·V_abs − V_full",
    unit="V",
    hard=AtLeast(Bound("rail_volts.full_pack_within_rating.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("rail_volts.full_pack_within_rating.comfort", 3.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(Constant("share", 0.90, "1", "common practice, no source"),),
    caution=(
        "A part that fails on over-volts while braking takes the brake away. A lithium pack cannot be switched off. "
        "Treat its terminals as live at all times."
    ),
    refused=True,
    examples=(
        Example(
            "a 60 V part takes twelve cells in series",
            {"rail_part.absolute_volts": 60.0, "pack.full_volts": 50.4},
            "holds",
            3.6,
        ),
        Example(
            "thirteen cells in series on a 60 V part",
            {"rail_part.absolute_volts": 60.0, "pack.full_volts": 54.6},
            "fails",
            -0.6,
            two_numbers="54.6 V < 60 V: a comparison of two numbers says yes",
        ),
        Example(
            "a 75 V part takes sixteen cells in series, just",
            {"rail_part.absolute_volts": 75.0, "pack.full_volts": 67.2},
            "holds",
            0.3,
        ),
        Example(
            "45.0 V on a 50 V part: exactly on the limit",
            {"rail_part.absolute_volts": 50.0, "pack.full_volts": 45.0},
            "holds",
            0.0,
        ),
        Example("label unread", {"pack.full_volts": 50.4}, "undecided"),
    ),
)

"""A meter or converter has to bear the full volts of the pack with a tenth to spare, as every other part on the rail
does. Braking onto a full pack and plugging in live reach it as well.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(absolute_volts: float, full_volts: float, share: float) -> float:
    return share * absolute_volts - full_volts


RULE = Rule(
    question="Does the meter or converter bear the volts of the full pack?",
    needs=("accessory.absolute_volts", "pack.full_volts"),
    quantity=quantity,
    measures="volts in hand: nine tenths of the greatest volts on the label, less the volts of the full pack",
    formula="m = 0.90·V_abs − V_full",
    unit="V",
    hard=AtLeast(Bound("accessory_volts.full_pack_within_rating.least", 0.0, "common practice, no source")),
    comfort=AtLeast(Bound("accessory_volts.full_pack_within_rating.comfort", 3.0, "common practice, no source")),
    severity=Severity.FIRE,
    constants=(Constant("share", 0.90, "1", "common practice, no source"),),
    caution="A lithium pack cannot be switched off. Give every accessory lead a fuse of its own at the pack.",
    remedy_hint="a meter or converter for more volts",
    refused=True,
    examples=(
        Example(
            "a 100 V meter on twelve cells",
            {"accessory.absolute_volts": 100.0, "pack.full_volts": 50.4},
            "holds",
            39.6,
        ),
        Example(
            "a 60 V converter on thirteen cells",
            {"accessory.absolute_volts": 60.0, "pack.full_volts": 54.6},
            "fails",
            -0.6,
            two_numbers="54.6 V < 60 V: a comparison of two numbers says yes",
        ),
        Example("exactly on the limit", {"accessory.absolute_volts": 50.0, "pack.full_volts": 45.0}, "holds", 0.0),
        Example("label unread", {"pack.full_volts": 50.4}, "undecided"),
    ),
)

"""A charger whose volts stand above the full pack goes on pushing when the cells are full. They gas, swell and burn.
The protection board may stop it, but a protection board is no way to charge.
"""

from fitdb.model.rule import AtMost, Bound, Example, Published, Rule, Severity


def quantity(open_volts: float, full_volts: float) -> float:
    return open_volts - full_volts


RULE = Rule(
    question="Does the charger stop at the full pack?",
    needs=("charger.open_volts", "pack.full_volts"),
    quantity=quantity,
    measures="volts of the charger with nothing joined, less the volts of the full pack",
    formula="d = V_open − V_full",
    unit="V",
    hard=AtMost(Bound("charger_pack.never_above_full_volts.most", 0.3, "common practice, no source")),
    severity=Severity.FIRE,
    published=(
        Published(
            "full volts of one cell: 4.20 V, of iron-phosphate 3.65 V", "published data sheets of 21700 and LFP cells"
        ),
    ),
    caution=(
        "Only the charger made for this number of cells and this chemistry. A plug that fits is not proof. Never join "
        "one of more volts, not even to try: a protection board is no way to end a charge. "
        "Charge while awake and present, on a surface that does not burn, away from the way out."
    ),
    refused=True,
    examples=(
        Example(
            "a 50.4 V charger on twelve cells in series",
            {"charger.open_volts": (50.15, 50.4, 50.65), "pack.full_volts": 50.4},
            "holds",
            0.3,
        ),
        Example(
            "a 50.4 V charger on ten cells in series",
            {"charger.open_volts": (50.15, 50.4, 50.65), "pack.full_volts": 42.0},
            "fails",
            -8.1,
            two_numbers="plug and socket are both 5.5 by 2.1 mm: the sizes agree",
        ),
        Example("exactly on the limit", {"charger.open_volts": 42.3, "pack.full_volts": 42.0}, "holds", 0.0),
        Example("not metered", {"pack.full_volts": 42.0}, "undecided"),
    ),
)

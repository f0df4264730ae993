"""A charger that stops short never fills the pack, and the balancer, which works only near full, never evens it out.
The cells drift apart until one is emptied too far.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(open_volts: float, full_volts: float) -> float:
    return open_volts - full_volts


RULE = Rule(
    question="Does the charger fill the pack?",
    needs=("charger.open_volts", "pack.full_volts"),
    quantity=quantity,
    measures="volts of the charger with nothing joined, less the volts of the full pack",
    formula="d = V_open − V_full",
    unit="V",
    hard=AtLeast(Bound("charger_pack.reaches_full_volts.least", -0.3, "common practice, no source")),
    severity=Severity.DAMAGE,
    caution="Only the charger made for this number of cells and this chemistry. A plug that fits is not proof.",
    refused=True,
    examples=(
        Example(
            "a 50.4 V charger on twelve cells in series",
            {"charger.open_volts": (50.15, 50.4, 50.65), "pack.full_volts": 50.4},
            "holds",
            0.3,
        ),
        Example(
            "the old 50.4 V charger on thirteen cells in series",
            {"charger.open_volts": (50.15, 50.4, 50.65), "pack.full_volts": 54.6},
            "fails",
            -3.9,
            two_numbers="50.4 V is not above 54.6 V: it cannot overcharge, says a comparison of two numbers",
        ),
        Example("exactly on the limit", {"charger.open_volts": 41.7, "pack.full_volts": 42.0}, "holds", 0.0),
        Example("not metered", {"pack.full_volts": 42.0}, "undecided"),
    ),
)

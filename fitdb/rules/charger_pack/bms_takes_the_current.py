"""The charging path of the protection board is thinner than its riding path. Overloaded it burns through and stays
closed, and then nothing ends an overcharge.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(bms_charge_current: float, charge_current: float) -> float:
    return bms_charge_current - charge_current


RULE = Rule(
    question="Does the protection board bear the charging current?",
    needs=("bms.charge_current", "charger.charge_current"),
    quantity=quantity,
    measures="greatest charging current of the board, less the current of the charger",
    formula="m = I_bms,charge − I_charger",
    unit="A",
    hard=AtLeast(Bound("charger_pack.bms_takes_the_current.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Charge while awake and present, on a surface that does not burn, away from the way out.",
    remedy_hint="a lower charging current, where the charger has such a setting",
    examples=(
        Example("10 A board, 4 A charger", {"bms.charge_current": 10.0, "charger.charge_current": 4.0}, "holds", 6.0),
        Example(
            "a 30 A board that charges with 3 A, 5 A charger",
            {"bms.charge_current": 3.0, "charger.charge_current": 5.0},
            "fails",
            -2.0,
            two_numbers="30 A on the label of the board > 5 A: that is its riding current",
        ),
        Example("exactly on the limit", {"bms.charge_current": 5.0, "charger.charge_current": 5.0}, "holds", 0.0),
        Example("board unread", {"charger.charge_current": 5.0}, "undecided"),
    ),
)

"""Sixteen iron-phosphate cells are full at 58.4 V and fourteen others at 58.8 V: volts that are nearly equal, and a
charger that ends its charge in another way. The chemistry is asked by name.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(charger_chemistry: str, pack_chemistry: str) -> tuple[str, str]:
    return charger_chemistry, pack_chemistry


RULE = Rule(
    question="Is the charger made for this chemistry?",
    needs=("charger.chemistry", "pack.chemistry"),
    quantity=quantity,
    measures="chemistry that the charger is made for, and that of the cells",
    formula="chemistry_charger = chemistry_pack",
    unit="",
    hard=Same("charger_pack.chemistry_equal", "common practice, no source"),
    severity=Severity.FIRE,
    caution=(
        "Only the charger made for this number of cells and this chemistry. A plug that fits is not proof. "
        "Charge while awake and present, on a surface that does not burn, away from the way out."
    ),
    refused=True,
    examples=(
        Example("both for 4.20 V cells", {"charger.chemistry": "nickel", "pack.chemistry": "nickel"}, "holds"),
        Example(
            "a 58.4 V charger for iron-phosphate on fourteen 4.20 V cells",
            {"charger.chemistry": "phosphate", "pack.chemistry": "nickel"},
            "fails",
            two_numbers="58.4 V and 58.8 V: the volts nearly agree",
        ),
        Example("label silent", {"charger.chemistry": "nickel|phosphate", "pack.chemistry": "nickel"}, "undecided"),
        Example("cells unread", {"charger.chemistry": "nickel"}, "undecided"),
    ),
)

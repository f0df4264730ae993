"""A BMS set for 4.20 V cells lets an iron-phosphate cell charge half a volt too high. One set for iron-phosphate
stops a 4.20 V cell at half of its charge and lets it be emptied too far.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(bms_chemistry: str, pack_chemistry: str) -> tuple[str, str]:
    return bms_chemistry, pack_chemistry


RULE = Rule(
    question="Is the BMS set for the chemistry of these cells?",
    needs=("bms.chemistry", "pack.chemistry"),
    quantity=quantity,
    measures="chemistry that the BMS is set for, and that of the cells",
    formula="chemistry_bms = chemistry_pack",
    unit="",
    hard=Same("bms_cells.chemistry_equal", "common practice, no source"),
    severity=Severity.FIRE,
    caution="Do not open, weld or repair a pack unless you are trained for it. Ask a qualified pack builder.",
    refused=True,
    examples=(
        Example("both for 4.20 V cells", {"bms.chemistry": "nickel", "pack.chemistry": "nickel"}, "holds"),
        Example("iron-phosphate cells", {"bms.chemistry": "nickel", "pack.chemistry": "phosphate"}, "fails"),
        Example(
            "board not known",
            {"bms.chemistry": "nickel|phosphate", "pack.chemistry": "nickel"},
            "undecided",
        ),
        Example("board unread", {"pack.chemistry": "nickel"}, "undecided"),
    ),
)

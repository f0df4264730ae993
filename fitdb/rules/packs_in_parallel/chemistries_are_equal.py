"""Cells of another chemistry are full and empty at other volts. On one rail one pack is always charged into or drained
by the other, far outside what it bears.
"""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(chemistry: str, other_chemistry: str) -> tuple[str, str]:
    return chemistry, other_chemistry


RULE = Rule(
    question="Are the cells of both packs of one chemistry?",
    needs=("pack.chemistry", "other_pack.chemistry"),
    quantity=quantity,
    measures="chemistry of both packs",
    formula="chemistry₁ = chemistry₂",
    unit="",
    hard=Same("packs_in_parallel.chemistries_are_equal", "data sheets of such cells: 4.20 V full against 3.65 V"),
    severity=Severity.FIRE,
    refused=True,
    caution="Never join packs of different chemistry, whatever their volts read.",
    remedy_hint="another pack of the same chemistry",
    examples=(
        Example("nickel and nickel", {"pack.chemistry": "nickel", "other_pack.chemistry": "nickel"}, "holds"),
        Example(
            "nickel and iron-phosphate", {"pack.chemistry": "nickel", "other_pack.chemistry": "phosphate"}, "fails"
        ),
        Example("one unknown", {"pack.chemistry": "nickel", "other_pack.chemistry": "nickel|phosphate"}, "undecided"),
        Example("one unread", {"pack.chemistry": "nickel"}, "undecided"),
    ),
)

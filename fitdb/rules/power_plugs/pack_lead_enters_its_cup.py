"""Strands that are cut off so that a lead goes into too small a cup carry no current; what is left gets hot and comes
loose.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(cup_area: float, lead_area: float) -> float:
    return cup_area - lead_area


RULE = Rule(
    question="Do the leads of the pack go into the cup of their connector?",
    needs=("near.cup_area", "pack.main_lead_area"),
    quantity=quantity,
    measures="copper that the cup takes, less the copper of the main leads of the pack",
    formula="m = A_cup − A_lead",
    unit="mm2",
    hard=AtLeast(Bound("power_plugs.pack_lead_enters_its_cup.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Never cut strands off to make a lead go in. Do not solder on a pack unless you are trained for it.",
    remedy_hint="a connector with larger cups on both sides, or a thinner lead where it bears the current",
    examples=(
        Example(
            "12 AWG into a cup for 12 AWG and more", {"near.cup_area": 5.26, "pack.main_lead_area": 3.31}, "holds", 1.95
        ),
        Example("8 AWG into a cup for 10 AWG", {"near.cup_area": 5.26, "pack.main_lead_area": 8.37}, "fails", -3.11),
        Example("exactly on the limit", {"near.cup_area": 5.26, "pack.main_lead_area": 5.26}, "holds", 0.0),
        Example("cup unread", {"pack.main_lead_area": 5.26}, "undecided"),
    ),
)

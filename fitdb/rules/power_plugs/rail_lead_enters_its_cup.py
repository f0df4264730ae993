"""Strands that are cut off so that a lead goes into too small a cup carry no current; what is left gets hot and comes
loose.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(cup_area: float, lead_area: float) -> float:
    return cup_area - lead_area


RULE = Rule(
    question="Does the main lead go into the cup of its connector?",
    needs=("far.cup_area", "lead.area"),
    quantity=quantity,
    measures="copper that the cup takes, less the copper of the main lead",
    formula="m = A_cup − A_lead",
    unit="mm2",
    hard=AtLeast(Bound("power_plugs.rail_lead_enters_its_cup.least", 0.0, "common practice, no source")),
    severity=Severity.FIRE,
    caution="Never cut strands off to make a lead go in. Do not solder on a pack unless you are trained for it.",
    remedy_hint="a connector with larger cups on both sides, or a thinner lead where it bears the current",
    examples=(
        Example("12 AWG into a cup for 12 AWG and more", {"far.cup_area": 5.26, "lead.area": 3.31}, "holds", 1.95),
        Example("8 AWG into a cup for 10 AWG", {"far.cup_area": 5.26, "lead.area": 8.37}, "fails", -3.11),
        Example("exactly on the limit", {"far.cup_area": 5.26, "lead.area": 5.26}, "holds", 0.0),
        Example("cup unread", {"lead.area": 5.26}, "undecided"),
    ),
)

"""Copper strands break where a lead is bent round a tight corner, and sooner where the bend moves with the axle. The
lead looks whole from outside while fewer and fewer strands carry the current and grow hot.
"""

from fitdb.formulas.bends import least_bend_radius_mm
from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(radius: float, diameter: float, moving: str, times_fixed: float, times_moving: float) -> float:
    return radius - least_bend_radius_mm(diameter, times_moving if moving == "yes" else times_fixed)


RULE = Rule(
    question="Is the lead bent gently enough beside its opening?",
    needs=("slot.bend_radius", "lead.outer_diameter", "lead.moving"),
    quantity=quantity,
    measures="inside radius of the bend less the least that the lead bears",
    formula="m = r − 4·d where the lead is fixed, r − 8·d where it moves",
    unit="mm",
    hard=AtLeast(Bound("lead_bend.lead_is_not_bent_tightly.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    constants=(
        Constant("times_fixed", 4.0, "1", "common practice, no source: silicone insulation"),
        Constant("times_moving", 8.0, "1", "common practice, no source: silicone insulation"),
    ),
    caution="A maker's own bend radius goes before these. PVC insulation wants more.",
    remedy_hint="another path, a rounded edge, or several thinner leads",
    examples=(
        Example(
            "5.5 mm lead, fixed, round 25 mm",
            {"slot.bend_radius": (24.0, 25.0, 26.0), "lead.outer_diameter": 5.5, "lead.moving": "no"},
            "holds",
            3.0,
        ),
        Example(
            "the same bend on a motor lead",
            {"slot.bend_radius": (24.0, 25.0, 26.0), "lead.outer_diameter": 5.5, "lead.moving": "yes"},
            "fails",
            -19.0,
            two_numbers="25 mm is more than the 22 mm of four diameters: two numbers say yes, but the lead moves",
        ),
        Example(
            "exactly on the limit",
            {"slot.bend_radius": 44.0, "lead.outer_diameter": 5.5, "lead.moving": "yes"},
            "holds",
            0.0,
        ),
        Example(
            "nobody said whether it moves",
            {"slot.bend_radius": 30.0, "lead.outer_diameter": 5.5, "lead.moving": "yes|no"},
            "undecided",
        ),
        Example("radius unread", {"lead.outer_diameter": 5.5, "lead.moving": "no"}, "undecided"),
    ),
)

"""A heavier rider needs harder bushings: about one point of hardness for every four kilograms. Too soft and the board
wobbles at speed; too hard and it does not turn when it has to.
"""

from fitdb.model.rule import Between, Bound, Constant, Example, Published, Rule, Severity


def quantity(hardness: float, mass: float, points_per_kg: float, at_no_mass: float) -> float:
    return hardness - (points_per_kg * mass + at_no_mass)


RULE = Rule(
    question="Do the bushings suit the rider's mass?",
    needs=("bushing.hardness", "rider.mass"),
    quantity=quantity,
    measures="hardness less the hardness usual for this mass",
    formula="Δ = h − (0.25·m + 70)",
    unit="shore_a",
    hard=Between(
        Bound("bushings.hardness_suits_the_rider.low", -4.0, "common practice, no source"),
        Bound("bushings.hardness_suits_the_rider.high", 4.0, "common practice, no source"),
    ),
    severity=Severity.INJURY,
    constants=(
        Constant("points_per_kg", 0.25, "shore_a/kg", "common practice, no source"),
        Constant("at_no_mass", 70.0, "shore_a", "common practice, no source"),
    ),
    published=(Published("scale A is meant for 20 to 90; a label above 90 is a maker's figure", "ISO 48-4"),),
    caution=(
        "Softer bushings change how quickly it steers and how far it leans. Stand on each edge with your full weight "
        "before the first ride; if wheel and wood touch, do not ride."
    ),
    remedy_hint="bushings of another hardness; harder ones also lessen the full lean",
    examples=(
        Example("90 A for 80 kg", {"bushing.hardness": 90.0, "rider.mass": (75.0, 80.0, 85.0)}, "holds", 4.0),
        Example(
            "85 A for 100 kg",
            {"bushing.hardness": 85.0, "rider.mass": 100.0},
            "fails",
            -6.0,
        ),
        Example("exactly on the limit", {"bushing.hardness": 94.0, "rider.mass": 80.0}, "holds", 0.0),
        Example(
            "rider between 60 and 100 kg", {"bushing.hardness": 90.0, "rider.mass": (60.0, 80.0, 100.0)}, "undecided"
        ),
        Example("rider's mass unread", {"bushing.hardness": 90.0}, "undecided"),
    ),
)

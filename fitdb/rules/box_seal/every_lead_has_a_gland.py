"""A gland closes round one round lead. Two leads in one gland leave a three-cornered channel between them, and water
runs along them into the box.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(glands: int, cores: tuple[int, ...]) -> float:
    return float(glands - sum(cores))


RULE = Rule(
    question="Has every lead a gland of its own?",
    needs=("enclosure.glands", "lead*.cores"),
    quantity=quantity,
    measures="glands less leads that leave the box",
    formula="n = glands − leads",
    unit="",
    hard=AtLeast(Bound("box_seal.every_lead_has_a_gland.least", 0.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.STEPPED,
    caution="No opened and re-closed box is waterproof until tested.",
    remedy_hint="a gland for every lead, or one cable with a round jacket",
    examples=(
        Example("six glands, two motors of three leads", {"enclosure.glands": 6, "lead*.cores": (3, 3)}, "holds", 0.0),
        Example(
            "two glands, two motors of three leads",
            {"enclosure.glands": 2, "lead*.cores": (3, 3)},
            "fails",
            -4.0,
            two_numbers="two glands for two motors: two numbers say yes",
        ),
        Example("glands not counted", {"lead*.cores": (3,)}, "undecided"),
    ),
)

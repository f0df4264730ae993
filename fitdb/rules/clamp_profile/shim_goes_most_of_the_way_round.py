"""A shim strip fills a clamp that is a little too large. When it covers less than most of the way round, the clamp
rests on the ends of the strip and works loose.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(coverage: float) -> float:
    return coverage


RULE = Rule(
    question="Does the shim go most of the way round the hanger?",
    needs=("clamp_shim.coverage",),
    quantity=quantity,
    measures="share of the way round the hanger that the shim covers",
    formula="length of the strip / way round the hanger",
    unit="percent",
    hard=AtLeast(Bound("clamp_profile.shim_goes_most_of_the_way_round.least", 80.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution="A clamp that works loose lets the motor turn about the axle. Look at it after 1, 10 and 100 km.",
    two_numbers_suffice="one share against one limit",
    examples=(
        Example("all but the split", {"clamp_shim.coverage": (90.0, 92.0, 94.0)}, "holds", 12.0),
        Example("exactly on the limit", {"clamp_shim.coverage": 80.0}, "holds", 0.0),
        Example("two short pieces", {"clamp_shim.coverage": 45.0}, "fails", -35.0),
        Example("coverage unread", {}, "undecided"),
    ),
)

"""Nobody likes to carry the board home. The way on one charge is known to a third, no better, so a wish needs that much
in hand.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(way: float, floor: float) -> float | NothingToGuard:
    # A floor of 0 is no wish: there is nothing to ask.
    return way - floor if floor > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Does the board go as far as wished for?",
    needs=("ride.range", "wish.range_floor"),
    quantity=quantity,
    measures="way on one charge less the way wished for",
    formula="Δs = s − s_wish",
    unit="km",
    hard=AtLeast(Bound("ride_range.range_meets_the_floor.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="more capacity, a slower mean speed",
    examples=(
        Example("the wish is met", {"ride.range": (22.0, 31.0, 42.0), "wish.range_floor": 20.0}, "holds", 11.0),
        Example(
            "the wish is missed",
            {"ride.range": (11.0, 14.0, 19.0), "wish.range_floor": 20.0},
            "fails",
            -6.0,
            two_numbers="26 km on the box for 20 wished for: two numbers say yes, 196 Wh at 14 Wh/km do not",
        ),
        Example("exactly on the limit", {"ride.range": 20.0, "wish.range_floor": 20.0}, "holds", 0.0),
        Example("nothing is wished for", {"ride.range": (22.0, 31.0, 42.0), "wish.range_floor": 0.0}, "excused"),
        Example("what is reached was not worked out", {"wish.range_floor": 20.0}, "undecided"),
    ),
)

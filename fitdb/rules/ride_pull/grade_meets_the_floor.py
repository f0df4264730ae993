"""How steep a hill a board still starts on is often boasted of. Here it follows from the pull and from what rider and
board weigh.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(grade: float, floor: float) -> float | NothingToGuard:
    # A floor of 0 is no wish: there is nothing to ask.
    return grade - floor if floor > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Does the board start on the hill wished for?",
    needs=("drive.grade", "wish.grade_floor"),
    quantity=quantity,
    measures="steepest slope on which it starts less the slope wished for",
    formula="Δs = s − s_wish",
    unit="percent",
    hard=AtLeast(Bound("ride_pull.grade_meets_the_floor.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a larger ratio, more motor current, or a smaller wheel",
    examples=(
        Example("the wish is met", {"drive.grade": (19.0, 21.0, 23.0), "wish.grade_floor": 18.0}, "holds", 3.0),
        Example(
            "the wish is missed",
            {"drive.grade": (13.0, 14.0, 15.5), "wish.grade_floor": 18.0},
            "fails",
            -4.0,
        ),
        Example("exactly on the limit", {"drive.grade": 18.0, "wish.grade_floor": 18.0}, "holds", 0.0),
        Example("nothing is wished for", {"drive.grade": (19.0, 21.0, 23.0), "wish.grade_floor": 0.0}, "excused"),
        Example("what is reached was not worked out", {"wish.grade_floor": 18.0}, "undecided"),
    ),
)

"""More motor turns per wheel turn give more pull and less speed. Who asks for a least ratio wants the pull."""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(ratio: float, floor: float) -> float | NothingToGuard:
    # A floor of 0 is no wish: there is nothing to ask.
    return ratio - floor if floor > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Is the ratio at least the one wished for?",
    needs=("drive.ratio", "wish.ratio_floor"),
    quantity=quantity,
    measures="ratio of motor to wheel less the ratio wished for",
    formula="Δi = i − i_wish",
    unit="",
    hard=AtLeast(Bound("ride_speed.ratio_meets_the_floor.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="fewer teeth on the motor pulley, or more on the driven one",
    examples=(
        Example("the wish is met", {"drive.ratio": 2.667, "wish.ratio_floor": 2.5}, "holds", 0.167),
        Example(
            "the wish is missed",
            {"drive.ratio": 2.4, "wish.ratio_floor": 2.5},
            "fails",
            -0.1,
        ),
        Example("exactly on the limit", {"drive.ratio": 2.5, "wish.ratio_floor": 2.5}, "holds", 0.0),
        Example("nothing is wished for", {"drive.ratio": 2.667, "wish.ratio_floor": 0.0}, "excused"),
        Example("what is reached was not worked out", {"wish.ratio_floor": 2.5}, "undecided"),
    ),
)

"""The pull at the ground starts the board and lifts it over a kerb. It is asked at the greatest motor current."""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(pull: float, floor: float) -> float | NothingToGuard:
    # A floor of 0 is no wish: there is nothing to ask.
    return pull - floor if floor > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Do the motors pull as hard as wished for?",
    needs=("drive.pull", "wish.pull_floor"),
    quantity=quantity,
    measures="pull of all motors at the ground less the pull wished for",
    formula="ΔF = F − F_wish",
    unit="N",
    hard=AtLeast(Bound("ride_pull.pull_meets_the_floor.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a larger ratio, more motor current, or a smaller wheel: the first and the last cost speed",
    examples=(
        Example("the wish is met", {"drive.pull": (196.0, 206.0, 216.0), "wish.pull_floor": 190.0}, "holds", 16.0),
        Example(
            "the wish is missed",
            {"drive.pull": (165.0, 174.0, 184.0), "wish.pull_floor": 190.0},
            "fails",
            -16.0,
            two_numbers="201 N for 190 wished for: two numbers say yes; of peak phase current it is 13 % less",
        ),
        Example("exactly on the limit", {"drive.pull": 190.0, "wish.pull_floor": 190.0}, "holds", 0.0),
        Example("nothing is wished for", {"drive.pull": (196.0, 206.0, 216.0), "wish.pull_floor": 0.0}, "excused"),
        Example("what is reached was not worked out", {"wish.pull_floor": 190.0}, "undecided"),
    ),
)

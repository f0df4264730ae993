"""The speed wished for should be there in the middle of a ride, not only just off the charger and in the air."""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity


def quantity(speed: float, floor: float) -> float | NothingToGuard:
    # A floor of 0 is no wish: there is nothing to ask.
    return speed - floor if floor > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Does the board reach the speed wished for?",
    needs=("drive.loaded_speed", "wish.speed_floor"),
    quantity=quantity,
    measures="speed through the middle of the pack less the speed wished for",
    formula="Δv = v − v_wish",
    unit="km/h",
    hard=AtLeast(Bound("ride_speed.speed_meets_the_floor.least", 0.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a smaller ratio, a larger wheel, or a higher speed ceiling: each costs pull or brake",
    examples=(
        Example("the wish is met", {"drive.loaded_speed": (36.0, 38.0, 40.0), "wish.speed_floor": 35.0}, "holds", 3.0),
        Example(
            "the wish is missed",
            {"drive.loaded_speed": (39.0, 41.1, 43.2), "wish.speed_floor": 45.0},
            "fails",
            -3.9,
            two_numbers="52.7 km/h on the bench against 45 wished for: comparing two numbers says yes",
        ),
        Example("exactly on the limit", {"drive.loaded_speed": 35.0, "wish.speed_floor": 35.0}, "holds", 0.0),
        Example(
            "nothing is wished for", {"drive.loaded_speed": (36.0, 38.0, 40.0), "wish.speed_floor": 0.0}, "excused"
        ),
        Example("what is reached was not worked out", {"wish.speed_floor": 35.0}, "undecided"),
    ),
)

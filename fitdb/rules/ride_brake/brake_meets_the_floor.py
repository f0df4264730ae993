"""A brake is weakest at the highest speed. Whoever wishes for more of it than the least that will ever do gets the wish
checked there, at the speed that is ridden.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtLeast, Bound, Example, NothingToGuard, Rule, Severity, Shape


def quantity(deceleration: float, floor: float) -> float | NothingToGuard:
    # A floor of 0 is no wish: there is nothing to ask.
    return deceleration - floor if floor > 0 else NOTHING_TO_GUARD


RULE = Rule(
    question="Does the board brake as hard as wished for?",
    needs=("drive.brake_deceleration", "wish.brake_floor"),
    quantity=quantity,
    measures="deceleration of the motor brake at the speed ridden less the one wished for",
    formula="Δa = a − a_wish",
    unit="m/s2",
    hard=AtLeast(Bound("ride_brake.brake_meets_the_floor.least", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.SAMPLED,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: belt skip, full pack on a descent, "
        "protection circuit opening, link loss, over-heat. Learn to stop by foot or to step off, and leave distance."
    ),
    remedy_hint="a higher braking charge where the cells take it, more braking current, or a lower speed ceiling",
    examples=(
        Example(
            "the wish is met", {"drive.brake_deceleration": (2.6, 2.8, 3.1), "wish.brake_floor": 2.5}, "holds", 0.3
        ),
        Example(
            "the wish is missed",
            {"drive.brake_deceleration": (1.4, 1.6, 1.9), "wish.brake_floor": 2.5},
            "fails",
            -0.9,
        ),
        Example("exactly on the limit", {"drive.brake_deceleration": 2.5, "wish.brake_floor": 2.5}, "holds", 0.0),
        Example(
            "nothing is wished for", {"drive.brake_deceleration": (2.6, 2.8, 3.1), "wish.brake_floor": 0.0}, "excused"
        ),
        Example("what is reached was not worked out", {"wish.brake_floor": 2.5}, "undecided"),
    ),
)

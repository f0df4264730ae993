"""A belt skips, a lead comes off, and one motor brakes no more. What is left has to slow the board; where there is only
one motor nothing is left, and it takes a rider who can stop without it.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity, Shape


def quantity(deceleration: float, motors: tuple[float, ...]) -> float:
    # Road and air are shared out with the motors here, which takes a little too much off: the mean side.
    return deceleration * (len(motors) - 1) / len(motors) if motors else 0.0


RULE = Rule(
    question="Does the board still slow down when one motor brakes no more?",
    needs=("drive.brake_deceleration", "motor*.velocity_constant"),
    quantity=quantity,
    measures="deceleration at the speed ridden with one motor less",
    formula="a₁ = a·(n − 1)/n",
    unit="m/s2",
    hard=AtLeast(Bound("ride_brake.one_motor_less_still_brakes.least", 0.88, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.SAMPLED,
    published=(
        Published(
            "each of two brakes alone at least 44 % of what is asked of both: 0.88 of 2.0 m/s²",
            "German ordinance on small electric vehicles (eKFV), section 4",
        ),
    ),
    excused_by="ride_brake.rider_can_stop_without_the_motor",
    caution=(
        "On this build the motor is the brake. It can vanish without warning: belt skip, full pack on a descent, "
        "protection circuit opening, link loss, over-heat. Learn to stop by foot or to step off, leave distance, and "
        "do not begin a long descent with a full pack. Wet brakes and tyres double the way to stop."
    ),
    remedy_hint="a second way to stop that does not need the motor",
    examples=(
        Example(
            "two motors, 2.4 m/s²",
            {"drive.brake_deceleration": (2.2, 2.4, 2.6), "motor*.velocity_constant": (190.0, 190.0)},
            "holds",
            0.32,
        ),
        Example(
            "a board of one motor",
            {"drive.brake_deceleration": 2.4, "motor*.velocity_constant": (170.0,)},
            "fails",
            -0.88,
            two_numbers="2.4 m/s² against 0.88: two numbers say yes, and all of it is lost",
        ),
        Example(
            "exactly on the limit",
            {"drive.brake_deceleration": 1.76, "motor*.velocity_constant": (190.0, 190.0)},
            "holds",
            0.0,
        ),
        Example("brake not worked out", {"motor*.velocity_constant": (190.0, 190.0)}, "undecided"),
    ),
)

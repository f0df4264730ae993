"""The motor holds the board back as hard as the current that is set for braking lets it, and not harder, however much
the pack would take.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(deceleration: float) -> float:
    return deceleration


RULE = Rule(
    question="Does the motor current set for braking brake hard enough?",
    needs=("drive.motor_braking",),
    quantity=quantity,
    measures="deceleration at the speed ridden that the motor current set for braking allows",
    formula="a = (Σ K_t·I_brake·i/(D/2) + road load)/m",
    unit="m/s2",
    hard=AtLeast(Bound("ride_brake.motor_current_brakes_hard_enough.least", 2.0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.SAMPLED,
    caution=(
        "On this build the motor is the brake. It can vanish without warning: belt skip, full pack on a descent, "
        "protection circuit opening, link loss, over-heat. Learn to stop by foot or to step off, leave distance, and "
        "do not begin a long descent with a full pack. Wet brakes and tyres double the way to stop."
    ),
    remedy_hint="more motor current while braking where belt, key and motor bear it, or a larger ratio",
    examples=(
        Example("two motors at 40 A", {"drive.motor_braking": (2.3, 2.6, 2.9)}, "holds", 0.6),
        Example(
            "one motor at 30 A",
            {"drive.motor_braking": (1.0, 1.1, 1.3)},
            "fails",
            -0.9,
            two_numbers="30 A set and 50 A borne: comparing two currents says yes",
        ),
        Example("exactly on the limit", {"drive.motor_braking": 2.0}, "holds", 0.0),
        Example("braking current unread", {}, "undecided"),
    ),
)

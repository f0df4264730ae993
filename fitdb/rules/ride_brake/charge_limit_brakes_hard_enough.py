"""The energy of a stop goes into the pack, and the pack takes only so much. At twice the speed the same charge brakes
half as hard: a brake that grabs at walking pace may do nearly nothing at 40 km/h.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity, Shape


def quantity(deceleration: float) -> float:
    return deceleration


RULE = Rule(
    question="Does the charge that the pack takes brake hard enough at the speed ridden?",
    needs=("drive.charge_braking",),
    quantity=quantity,
    measures="deceleration at the speed ridden that the braking charge allows",
    formula="a = (Σ I·channels · V/(η·v) + road load)/m",
    unit="m/s2",
    hard=AtLeast(Bound("ride_brake.charge_limit_brakes_hard_enough.least", 2.0, "common practice, no source")),
    severity=Severity.INJURY,
    shape=Shape.SAMPLED,
    published=(
        Published(
            "two independent brakes, 3.5 m/s² together, each alone at least 44 % of it, for small electric vehicles "
            "with a"
            "steering bar",
            "German ordinance on small electric vehicles (eKFV), section 4",
        ),
    ),
    caution=(
        "On this build the motor is the brake. It can vanish without warning: belt skip, full pack on a descent, "
        "protection circuit opening, link loss, over-heat. Learn to stop by foot or to step off, leave distance, and "
        "do not begin a long descent with a full pack. Wet brakes and tyres double the way to stop."
    ),
    remedy_hint="a lower speed ceiling, a higher braking charge where cells and BMS take it, or more cells in parallel",
    examples=(
        Example("20 A into 12 cells in series at 20 km/h", {"drive.charge_braking": (2.1, 2.4, 2.7)}, "holds", 0.4),
        Example(
            "the same 20 A at 40 km/h",
            {"drive.charge_braking": (1.5, 1.7, 1.9)},
            "fails",
            -0.3,
            two_numbers="20 A set and 20 A allowed: comparing the two currents says yes",
        ),
        Example("exactly on the limit", {"drive.charge_braking": 2.0}, "holds", 0.0),
        Example("braking charge unread", {}, "undecided"),
    ),
)

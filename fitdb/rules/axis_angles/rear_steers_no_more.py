"""A rear truck that steers more than the front one swings the tail out, and the board weaves until it throws its rider.

Equal axes are the ordinary case, and two plates of one kind agree to a degree each: so the hard limit leaves two
degrees, and the comfort limit asks for none.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(front: float, rear: float) -> float:
    return front - rear


RULE = Rule(
    question="Does the rear truck steer no more than the front one?",
    needs=("front_truck.working_axis_angle", "rear_truck.working_axis_angle"),
    quantity=quantity,
    measures="front axis angle less rear axis angle, wedges included",
    formula="Δλ = λ_f − λ_r, which has the sign of tan λ_f − tan λ_r",
    unit="deg",
    hard=AtLeast(Bound("axis_angles.rear_steers_no_more.least", -2.0, "common practice, no source")),
    comfort=AtLeast(Bound("axis_angles.rear_steers_no_more.comfort", 0.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Changed trucks and wedges change how quickly it steers. Above 35 km/h the rear axis should be the flatter one."
        " Start at walking pace; if it starts to weave, do not brake hard: weight forward, ease off."
    ),
    remedy_hint="a wedge under the rear truck, thick end toward the board's end",
    examples=(
        Example(
            "50° front, 44° rear",
            {"front_truck.working_axis_angle": (49.0, 50.0, 51.0), "rear_truck.working_axis_angle": (43.0, 44.0, 45.0)},
            "holds",
            8.0,
        ),
        Example(
            "two plates of 50°, a 10° wedge the wrong way round at the rear",
            {"front_truck.working_axis_angle": 50.0, "rear_truck.working_axis_angle": 60.0},
            "fails",
            -8.0,
            two_numbers="both plates say 50°: comparing the numbers on the plates says yes",
        ),
        Example(
            "two like plates, each known to a degree: exactly on the limit",
            {"front_truck.working_axis_angle": (49.0, 50.0, 51.0), "rear_truck.working_axis_angle": (49.0, 50.0, 51.0)},
            "holds",
            2.0,
        ),
        Example(
            "rear 2° steeper: exactly on the limit",
            {"front_truck.working_axis_angle": 45.0, "rear_truck.working_axis_angle": 47.0},
            "holds",
            0.0,
        ),
        Example("rear plate unread", {"front_truck.working_axis_angle": 50.0}, "undecided"),
    ),
)

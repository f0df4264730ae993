"""A board whose tail steers more than its nose weaves, wider with every swing, and above 35 km/h there is no time to
catch it. Beyond that speed the rear axis is no steeper than the front one.

Two like plates, each read with a level to half a degree, may look one degree apart: that degree is left. Below 35 km/h
the demand falls off, two degrees for every km/h, and soon only the limit of every speed is left.
"""

from fitdb.model.rule import AtLeast, Bound, Constant, Example, Rule, Severity


def quantity(front: float, rear: float, speed: float, fast: float, degrees_a_kmh: float) -> float:
    return front - rear + degrees_a_kmh * max(0.0, fast - speed)


RULE = Rule(
    question="Does the rear truck steer no more than the front one at the speed that is ridden?",
    needs=("front_truck.working_axis_angle", "rear_truck.working_axis_angle", "wish.riding_speed"),
    quantity=quantity,
    measures="front less rear axis angle with their wedges, and 2° for each km/h below 35",
    formula="Δλ = λ_f − λ_r + 2·(35 − v), the last only below 35 km/h",
    unit="deg",
    hard=AtLeast(Bound("axis_angles_at_speed.rear_steers_no_more_at_speed.least", -1.0, "common practice, no source")),
    comfort=AtLeast(
        Bound("axis_angles_at_speed.rear_steers_no_more_at_speed.comfort", 0.0, "common practice, no source")
    ),
    severity=Severity.INJURY,
    constants=(
        Constant("fast", 35.0, "km/h", "common practice, no source"),
        Constant("degrees_a_kmh", 2.0, "deg per km/h", "common practice, no source: how fast the demand falls off"),
    ),
    caution=(
        "Above 35 km/h the rear axis should be the flatter one. Lay a level on both plates before the first fast ride. "
        "If it starts to weave, do not brake hard: weight forward, ease off."
    ),
    remedy_hint="a wedge under the rear truck, thick end toward the board's end, or a speed ceiling",
    examples=(
        Example(
            "50° front, 44° rear, 42 km/h",
            {
                "front_truck.working_axis_angle": (49.0, 50.0, 51.0),
                "rear_truck.working_axis_angle": (43.0, 44.0, 45.0),
                "wish.riding_speed": 42.0,
            },
            "holds",
            7.0,
        ),
        Example(
            "rear 2° steeper, 42 km/h",
            {
                "front_truck.working_axis_angle": 48.0,
                "rear_truck.working_axis_angle": 50.0,
                "wish.riding_speed": 42.0,
            },
            "fails",
            -1.0,
            two_numbers="48 and 50 are plates of one catalogue: slow riders never notice the difference",
        ),
        Example(
            "rear 2° steeper, 25 km/h",
            {
                "front_truck.working_axis_angle": 48.0,
                "rear_truck.working_axis_angle": 50.0,
                "wish.riding_speed": 25.0,
            },
            "holds",
            19.0,
        ),
        Example(
            "two like plates, each read with a level, 42 km/h: exactly on the limit",
            {
                "front_truck.working_axis_angle": (49.5, 50.0, 50.5),
                "rear_truck.working_axis_angle": (49.5, 50.0, 50.5),
                "wish.riding_speed": 42.0,
            },
            "holds",
            1.0,
        ),
        Example(
            "two like plates, known by their stamp to a degree each, 42 km/h",
            {
                "front_truck.working_axis_angle": (49.0, 50.0, 51.0),
                "rear_truck.working_axis_angle": (49.0, 50.0, 51.0),
                "wish.riding_speed": 42.0,
            },
            "undecided",
            1.0,
        ),
        Example("rear plate unread", {"front_truck.working_axis_angle": 50.0, "wish.riding_speed": 42.0}, "undecided"),
    ),
)

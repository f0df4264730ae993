"""At 40 km/h a little lean on a steep front axis is a swerve, and the correction is the next one. Beyond 35 km/h the
front axis stands at 50° or less, the sag of the deck included.

Below 35 km/h the demand falls off: each km/h slower counts as two degrees flatter. From 32 km/h down a board that keeps
the limit of every speed, 56°, keeps this one too.
"""

from fitdb.model.rule import AtMost, Bound, Constant, Example, Rule, Severity


def quantity(front: float, end_slope: float, speed: float, fast: float, degrees_a_kmh: float) -> float:
    return front + end_slope - degrees_a_kmh * max(0.0, fast - speed)


RULE = Rule(
    question="Is the front steering axis flat enough for the speed that is ridden?",
    needs=("front_truck.working_axis_angle", "deck.end_slope", "wish.riding_speed"),
    quantity=quantity,
    measures="front axis angle with wedge and sag, less 2° for each km/h below 35",
    formula="λ = λ_plate ± wedge + end slope − 2·(35 − v), the last only below 35 km/h",
    unit="deg",
    hard=AtMost(Bound("axis_angles_at_speed.front_axis_is_flat_at_speed.most", 50.0, "common practice, no source")),
    severity=Severity.INJURY,
    constants=(
        Constant("fast", 35.0, "km/h", "common practice, no source"),
        Constant("degrees_a_kmh", 2.0, "deg per km/h", "common practice, no source: how fast the demand falls off"),
    ),
    caution=(
        "Above 35 km/h keep the front axis at 50° or less. Start at walking pace; raise the speed in small steps on an "
        "empty, smooth place. If it starts to weave, do not brake hard: weight forward, ease off."
    ),
    remedy_hint="a wedge under the front truck, thick end toward the board's end, a flatter plate, or a speed ceiling",
    examples=(
        Example(
            "44° plate, 2° of sag, 42 km/h",
            {
                "front_truck.working_axis_angle": (43.5, 44.0, 44.5),
                "deck.end_slope": (1.0, 2.0, 3.0),
                "wish.riding_speed": 42.0,
            },
            "holds",
            4.0,
        ),
        Example(
            "50° plate, 2° of sag, 42 km/h",
            {"front_truck.working_axis_angle": 50.0, "deck.end_slope": 2.0, "wish.riding_speed": 42.0},
            "fails",
            -2.0,
            two_numbers="the plate says 50°: comparing it with 50° says yes, the sag of the deck does not",
        ),
        Example(
            "the same at 25 km/h",
            {"front_truck.working_axis_angle": 50.0, "deck.end_slope": 2.0, "wish.riding_speed": 25.0},
            "holds",
            18.0,
        ),
        Example(
            "the steepest axis that any speed is ridden with, at 32 km/h: exactly on the limit",
            {"front_truck.working_axis_angle": 54.0, "deck.end_slope": 2.0, "wish.riding_speed": 32.0},
            "holds",
            0.0,
        ),
        Example(
            "50° plate, 2° of sag, somewhere from 30 to 42 km/h",
            {"front_truck.working_axis_angle": 50.0, "deck.end_slope": 2.0, "wish.riding_speed": (30.0, 36.0, 42.0)},
            "undecided",
            -2.0,
        ),
        Example("plate unread", {"deck.end_slope": 2.0, "wish.riding_speed": 42.0}, "undecided"),
    ),
)

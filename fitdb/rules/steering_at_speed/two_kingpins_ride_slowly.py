"""Two kingpins turn the axle twice for one lean. That is pleasant at 15 km/h and restless above 30, the more so on a
soft deck.
"""

from fitdb.model.rule import NOTHING_TO_GUARD, AtMost, Bound, Example, NothingToGuard, Rule, Severity


def quantity(speed: float, first_axis: float, second_axes: tuple[float, ...]) -> float | NothingToGuard:
    return speed if second_axes else NOTHING_TO_GUARD


RULE = Rule(
    question="Is the speed low enough for trucks with two kingpins?",
    # The first axis is asked for so that nothing is said of a board whose trucks nobody named.
    needs=("wish.riding_speed", "truck.axis_angle", "truck*.second_axis_angle"),
    quantity=quantity,
    measures="speed ridden on trucks with two kingpins",
    formula="v",
    unit="km/h",
    # The trade knows a caution here and no hard limit: `.none` tells it so.
    hard=AtMost(Bound("steering_at_speed.two_kingpins_ride_slowly.none", 1000.0, "common practice, no source")),
    comfort=AtMost(Bound("steering_at_speed.two_kingpins_ride_slowly.comfort", 30.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Trucks with two kingpins steer more at a small lean and wander at speed. Start at walking pace; raise the "
        "speed in small steps on an empty, smooth place. If it starts to weave, do not brake hard: weight forward, "
        "ease off."
    ),
    remedy_hint="a speed ceiling in the controller; trucks with one kingpin are another plan",
    two_numbers_suffice="a speed against one figure: the finding only prints a caution",
    examples=(
        Example(
            "22 km/h",
            {"wish.riding_speed": (20.0, 22.0, 24.0), "truck.axis_angle": 45.0, "truck*.second_axis_angle": (45.0,)},
            "holds",
            978.0,
        ),
        Example(
            "38 km/h, a caution only",
            {"wish.riding_speed": 38.0, "truck.axis_angle": 45.0, "truck*.second_axis_angle": (45.0,)},
            "holds",
            962.0,
        ),
        Example("one kingpin", {"wish.riding_speed": 38.0, "truck.axis_angle": 50.0}, "excused"),
        Example(
            "no board",
            {"wish.riding_speed": 1001.0, "truck.axis_angle": 45.0, "truck*.second_axis_angle": (45.0,)},
            "fails",
            -1.0,
        ),
        Example(
            "exactly on the limit",
            {"wish.riding_speed": 1000.0, "truck.axis_angle": 45.0, "truck*.second_axis_angle": (45.0,)},
            "holds",
            0.0,
        ),
        Example("speed unread", {"truck.axis_angle": 45.0, "truck*.second_axis_angle": (45.0,)}, "undecided"),
    ),
)

"""A low nose steepens the rear axis and flattens the front one: the rear wheels then do the steering, and the board
weaves at speed.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(front_wheel: float, front_height: float, rear_wheel: float, rear_height: float) -> float:
    return (rear_wheel / 2.0 + rear_height) - (front_wheel / 2.0 + front_height)


RULE = Rule(
    question="Is the nose no lower than it may be?",
    needs=(
        "front_wheel.outer_diameter",
        "front_truck.deck_height",
        "rear_wheel.outer_diameter",
        "rear_truck.deck_height",
    ),
    quantity=quantity,
    measures="height of the tail less height of the nose, both over the ground",
    formula="Δ = (R_r + H_r) − (R_f + H_f)",
    unit="mm",
    hard=AtMost(Bound("ride_height.nose_is_not_low.most", 12.0, "common practice, no source")),
    comfort=AtMost(Bound("ride_height.nose_is_not_low.comfort", 3.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Start at walking pace and raise the speed in small steps. If it starts to weave, do not brake hard: "
        "weight forward, ease off."
    ),
    remedy_hint="a flat riser under the truck of the low end, top mount only",
    examples=(
        Example(
            "105 mm wheels rear, 90 mm at the other end",
            {
                "rear_wheel.outer_diameter": 105.0,
                "rear_truck.deck_height": (65.0, 66.0, 67.0),
                "front_wheel.outer_diameter": 90.0,
                "front_truck.deck_height": (67.0, 68.0, 69.0),
            },
            "holds",
            6.5,
        ),
        Example(
            "150 mm wheels rear, 97 mm at the other end",
            {
                "rear_wheel.outer_diameter": 150.0,
                "rear_truck.deck_height": 66.0,
                "front_wheel.outer_diameter": 97.0,
                "front_truck.deck_height": 70.0,
            },
            "fails",
            -10.5,
            two_numbers="deck heights over the axles, 66 and 70, are nearly equal: comparing them says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "rear_wheel.outer_diameter": 90.0,
                "rear_truck.deck_height": 80.0,
                "front_wheel.outer_diameter": 90.0,
                "front_truck.deck_height": 68.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "height of one end unread",
            {
                "rear_wheel.outer_diameter": 90.0,
                "front_wheel.outer_diameter": 90.0,
                "front_truck.deck_height": 68.0,
            },
            "undecided",
        ),
    ),
)

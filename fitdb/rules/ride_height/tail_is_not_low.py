"""A low tail makes the board slow to steer and puts the rider's weight on the rear truck. It is calm, and
it is tiring."""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(front_wheel: float, front_height: float, rear_wheel: float, rear_height: float) -> float:
    return (front_wheel / 2.0 + front_height) - (rear_wheel / 2.0 + rear_height)


RULE = Rule(
    question="Is the tail no lower than it may be?",
    needs=(
        "front_wheel.outer_diameter",
        "front_truck.deck_height",
        "rear_wheel.outer_diameter",
        "rear_truck.deck_height",
    ),
    quantity=quantity,
    measures="height of the nose less height of the tail, both over the ground",
    formula="Δ = (R_f + H_f) − (R_r + H_r)",
    unit="mm",
    hard=AtMost(Bound("ride_height.tail_is_not_low.most", 12.0, "common practice, no source")),
    comfort=AtMost(Bound("ride_height.tail_is_not_low.comfort", 3.0, "common practice, no source")),
    severity=Severity.NUISANCE,
    remedy_hint="a flat riser under the truck of the low end, top mount only",
    examples=(
        Example(
            "105 mm wheels front, 90 mm at the other end",
            {
                "front_wheel.outer_diameter": 105.0,
                "front_truck.deck_height": (65.0, 66.0, 67.0),
                "rear_wheel.outer_diameter": 90.0,
                "rear_truck.deck_height": (67.0, 68.0, 69.0),
            },
            "holds",
            6.5,
        ),
        Example(
            "150 mm wheels front, 97 mm at the other end",
            {
                "front_wheel.outer_diameter": 150.0,
                "front_truck.deck_height": 66.0,
                "rear_wheel.outer_diameter": 97.0,
                "rear_truck.deck_height": 70.0,
            },
            "fails",
            -10.5,
            two_numbers="deck heights over the axles, 66 and 70, are nearly equal: comparing them says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "front_wheel.outer_diameter": 90.0,
                "front_truck.deck_height": 80.0,
                "rear_wheel.outer_diameter": 90.0,
                "rear_truck.deck_height": 68.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "height of one end unread",
            {
                "front_wheel.outer_diameter": 90.0,
                "rear_wheel.outer_diameter": 90.0,
                "rear_truck.deck_height": 68.0,
            },
            "undecided",
        ),
    ),
)

"""A steep front axis turns a little lean into a lot of steer. That is nimble at walking pace and nervous at speed, the
more so when the deck sags and tips both axes further up.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(front: float, end_slope: float) -> float:
    return front + end_slope


RULE = Rule(
    question="Is the front steering axis flat enough?",
    needs=("front_truck.working_axis_angle", "deck.end_slope"),
    quantity=quantity,
    measures="front axis angle, wedge and sag of the deck included",
    formula="λ_f = plate ± wedge + end slope",
    unit="deg",
    hard=AtMost(Bound("axis_angles.front_axis_is_not_steep.most", 56.0, "common practice, no source")),
    comfort=AtMost(Bound("axis_angles.front_axis_is_not_steep.comfort", 50.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Above 35 km/h keep the front axis at 50° or less. A softer deck steepens it under your weight. Raise the "
        "speed in small steps on an empty, smooth place."
    ),
    remedy_hint="a wedge under the front truck, thick end toward the board's end, or a flatter plate",
    examples=(
        Example(
            "48° plate, 2° of sag",
            {"front_truck.working_axis_angle": (47.0, 48.0, 49.0), "deck.end_slope": (1.0, 2.0, 3.0)},
            "holds",
            6.0,
        ),
        Example(
            "50° plate, 4° wedge, soft deck",
            {"front_truck.working_axis_angle": 54.0, "deck.end_slope": 3.4},
            "fails",
            -1.4,
            two_numbers="54 is less than 56: comparing plate and limit says yes, the sag of the deck does not",
        ),
        Example("exactly on the limit", {"front_truck.working_axis_angle": 54.0, "deck.end_slope": 2.0}, "holds", 0.0),
        Example("plate unread", {"deck.end_slope": 2.0}, "undecided"),
    ),
)

"""What counts at speed is the angle of the steering axis with the rider on the board. Beyond 50° a little lean makes a
lot of steer; above 30 km/h that is nervous.
"""

from fitdb.model.rule import AtMost, Bound, Example, Rule, Severity


def quantity(axis: float) -> float:
    return axis


RULE = Rule(
    question="Is the steering axis flat enough with the rider on the board?",
    needs=("truck.loaded_axis_angle",),
    quantity=quantity,
    measures="steering axis, wedge and sag of the deck included",
    formula="λ = λ_plate ± wedge + 3δ/L",
    unit="deg",
    # The trade knows a caution here and no hard limit: `.none` tells it so.
    hard=AtMost(Bound("steering_under_load.loaded_axis_is_not_steep.none", 80.0, "common practice, no source")),
    comfort=AtMost(Bound("steering_under_load.loaded_axis_is_not_steep.comfort", 50.0, "common practice, no source")),
    severity=Severity.INJURY,
    caution=(
        "Above 30 km/h take care with a steering axis of 50° and more: changed trucks, wedges, softer bushings or a "
        "softer deck change how quickly it steers. Raise the speed in small steps; if it starts to weave, do not brake "
        "hard: weight forward, ease off."
    ),
    remedy_hint="a wedge, thick end toward the board's end, a flatter plate, or a stiffer deck",
    examples=(
        Example("44° plate on a stiff deck", {"truck.loaded_axis_angle": (44.0, 45.0, 46.0)}, "holds", 35.0),
        Example(
            "48° plate on a soft deck, a caution only",
            {"truck.loaded_axis_angle": (50.0, 51.4, 53.0)},
            "holds",
            28.6,
            two_numbers="the plate says 48°: comparing it with 50° says no caution",
        ),
        Example("an axis nearly upright", {"truck.loaded_axis_angle": 82.0}, "fails", -2.0),
        Example("exactly on the limit", {"truck.loaded_axis_angle": 80.0}, "holds", 0.0),
        Example("plate unread", {}, "undecided"),
    ),
)

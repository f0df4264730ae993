"""Standing upright there is room over the motor; leaning takes it away, by a fifth to a third of how far out the motor
sits. A can that meets the wood blocks the steering in the middle of a turn.
"""

from math import cos, radians

from fitdb.formulas.clearances import motor_to_deck_under_lean
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(
    height: float,
    centre_distance: float,
    angle: float,
    can_diameter: float,
    outermost_point: float,
    lean: float,
    end_slope: float,
    motor_place: str,
) -> float:
    # Outboard of the axle the sagging deck rises away from the motor; nothing is counted for that.
    along = centre_distance * cos(radians(angle)) if motor_place == "inboard" else 0.0
    return motor_to_deck_under_lean(
        height, centre_distance, angle, can_diameter / 2.0, outermost_point, lean, end_slope, along
    )


RULE = Rule(
    question="Does the motor stay clear of the deck at full lean?",
    needs=(
        "truck.deck_height",
        "motor_mount.centre_distance",
        "motor_mount.working_angle",
        "motor.can_diameter",
        "motor.outermost_point",
        "truck.max_lean",
        "deck.end_slope",
        "motor_mount.motor_place",
    ),
    quantity=quantity,
    measures="gap between the can and the underside of the deck, leaned as far as the truck goes",
    formula="c = H − (C·sin α + r_can) − y_m·sin φ − slope · C·cos α (inboard motor)",
    unit="mm",
    hard=AtLeast(Bound("motor_to_deck.motor_clears_the_deck_at_full_lean.least", 3.0, "common practice, no source")),
    comfort=AtLeast(
        Bound("motor_to_deck.motor_clears_the_deck_at_full_lean.comfort", 6.0, "common practice, no source")
    ),
    severity=Severity.INJURY,
    shape=Shape.SAMPLED,
    caution=(
        "Stand on each edge with your full weight before the first ride. If motor and wood touch, do not ride: the "
        "steering is blocked at full lean."
    ),
    remedy_hint="turn the mount down; a riser (top mount only); the motor outboard; harder bushings",
    examples=(
        Example(
            "63 mm can at 0°, 80 mm of height, 12° of lean",
            {
                "truck.deck_height": (79.5, 80.0, 80.5),
                "motor_mount.centre_distance": (66.0, 66.5, 67.0),
                "motor_mount.working_angle": (-1.0, 0.0, 1.0),
                "motor.can_diameter": (62.9, 63.0, 63.1),
                "motor.outermost_point": 78.0,
                "truck.max_lean": (11.0, 12.0, 13.0),
                "deck.end_slope": (1.0, 1.5, 2.0),
                "motor_mount.motor_place": "outboard",
            },
            "holds",
            29.28,
        ),
        Example(
            "the same motor turned up to 20°, 18° of lean",
            {
                "truck.deck_height": 80.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 20.0,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.max_lean": 18.0,
                "deck.end_slope": 2.0,
                "motor_mount.motor_place": "inboard",
            },
            "fails",
            two_numbers="the can reaches 54 mm up and the deck stands at 80: comparing two heights says yes",
        ),
        Example(
            "level and upright, exactly on the limit",
            {
                "truck.deck_height": 43.0,
                "motor_mount.centre_distance": 66.0,
                "motor_mount.working_angle": 0.0,
                "motor.can_diameter": 80.0,
                "motor.outermost_point": 78.0,
                "truck.max_lean": 0.0,
                "deck.end_slope": 0.0,
                "motor_mount.motor_place": "inboard",
            },
            "holds",
            0.0,
        ),
        Example(
            "lean guessed, 10 to 25°",
            {
                "truck.deck_height": 74.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 10.0,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.max_lean": (10.0, 15.0, 25.0),
                "deck.end_slope": 1.5,
                "motor_mount.motor_place": "inboard",
            },
            "undecided",
        ),
        Example(
            "angle of the mount unread",
            {
                "truck.deck_height": 80.0,
                "motor_mount.centre_distance": 66.5,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.max_lean": 12.0,
                "deck.end_slope": 1.5,
                "motor_mount.motor_place": "inboard",
            },
            "undecided",
        ),
    ),
)

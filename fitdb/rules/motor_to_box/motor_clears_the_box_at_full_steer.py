"""At full steer one end of the hanger swings toward the box and takes the motor along. A can that strikes the box tears
it from its screws, and the pack with it.
"""

from fitdb.formulas.motor_place import motor_to_box_on_its_side
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity, Shape


def quantity(
    box_distance: float,
    centre_distance: float,
    angle: float,
    can_diameter: float,
    outermost_point: float,
    steer: float,
    motor_place: str,
) -> float:
    return motor_to_box_on_its_side(
        box_distance, centre_distance, angle, can_diameter / 2.0, outermost_point, steer, motor_place == "inboard"
    )


RULE = Rule(
    question="Does the motor stay clear of the box when the hanger swings round?",
    needs=(
        "truck.box_distance",
        "motor_mount.centre_distance",
        "motor_mount.working_angle",
        "motor.can_diameter",
        "motor.outermost_point",
        "truck.steer",
        "motor_mount.motor_place",
    ),
    quantity=quantity,
    measures="gap between the can and the near edge of the box at full steer",
    formula="s = x_box − (± C·cos α + r_can) − y_m·sin δ; + inboard, − outboard",
    unit="mm",
    hard=AtLeast(Bound("motor_to_box.motor_clears_the_box_at_full_steer.least", 5.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    shape=Shape.SAMPLED,
    caution="A torn box tears leads, and a lithium pack with torn leads can burn. Swing the hanger by hand and look.",
    remedy_hint="move the box toward the middle; the motor outboard; a mount that stands steeper",
    examples=(
        Example(
            "box 140 mm from the axle, 12° of steer",
            {
                "truck.box_distance": (138.0, 140.0, 142.0),
                "motor_mount.centre_distance": (66.0, 66.5, 67.0),
                "motor_mount.working_angle": (9.0, 10.0, 11.0),
                "motor.can_diameter": (62.9, 63.0, 63.1),
                "motor.outermost_point": 78.0,
                "truck.steer": (11.0, 12.0, 13.0),
                "motor_mount.motor_place": "inboard",
            },
            "holds",
            21.79,
        ),
        Example(
            "box 110 mm from the axle: clear while it stands straight, struck in a turn",
            {
                "truck.box_distance": 110.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 10.0,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.steer": 12.0,
                "motor_mount.motor_place": "inboard",
            },
            "fails",
            -8.21,
            two_numbers="the can reaches 97 mm and the box begins at 110: comparing two distances says yes",
        ),
        Example(
            "straight and level, exactly on the limit",
            {
                "truck.box_distance": 103.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 0.0,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.steer": 0.0,
                "motor_mount.motor_place": "inboard",
            },
            "holds",
            0.0,
        ),
        Example(
            "nobody looked on which side of the axle the motor sits",
            {
                "truck.box_distance": 110.0,
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 10.0,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.steer": 12.0,
                "motor_mount.motor_place": "inboard|outboard",
            },
            "undecided",
        ),
        Example(
            "place of the box unread",
            {
                "motor_mount.centre_distance": 66.5,
                "motor_mount.working_angle": 10.0,
                "motor.can_diameter": 63.0,
                "motor.outermost_point": 78.0,
                "truck.steer": 12.0,
                "motor_mount.motor_place": "inboard",
            },
            "undecided",
        ),
    ),
)

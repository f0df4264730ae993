"""The motor's can begins behind the plate of its mount. A wheel that begins further out than the plate cannot meet the
can, however close axle and motor are.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(inner_face: float, hanger_width: float, inset: float, plate: float) -> float:
    return inner_face - (hanger_width / 2.0 - inset - plate)


RULE = Rule(
    question="Does the wheel begin further out than the motor's can?",
    needs=(
        "wheel.inner_face",
        "hanger.hanger_width",
        "motor_mount.outer_face_inset",
        "motor_mount.plate_thickness",
    ),
    quantity=quantity,
    measures="wheel's inner face less the face of the mount that carries the motor, along the axle",
    formula="g = y_in − (W/2 − inset − t_plate)",
    unit="mm",
    hard=AtLeast(Bound("wheel_inside.wheel_stands_outboard_of_the_motor.least", 2.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    excused_by="wheel_inside.wheel_clears_the_motor",
    remedy_hint="a longer spacer inboard of the wheel, if the axle is long enough",
    examples=(
        Example(
            "wheel from 92 mm on, 8 mm plate 3 mm inside the shoulder of a 180 mm hanger",
            {
                "wheel.inner_face": (91.0, 92.0, 93.0),
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 3.0,
                "motor_mount.plate_thickness": 8.0,
            },
            "holds",
            11.0,
        ),
        Example(
            "wide wheel reaching over the mount",
            {
                "wheel.inner_face": 76.0,
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 5.0,
                "motor_mount.plate_thickness": 8.0,
            },
            "fails",
            -3.0,
        ),
        Example(
            "exactly on the limit",
            {
                "wheel.inner_face": 81.0,
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 3.0,
                "motor_mount.plate_thickness": 8.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "plate unread",
            {"wheel.inner_face": 92.0, "hanger.hanger_width": 180.0, "motor_mount.outer_face_inset": 3.0},
            "undecided",
        ),
    ),
)

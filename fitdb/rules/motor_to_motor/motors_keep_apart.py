"""Two cans that touch grind each other's winding open. The sheet gives the can without stub and boss: 3 to 8 mm more
stand out of each motor than its length says.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    hanger_width: float, inset: float, plate_thickness: float, can_length: float, stub: float, other_reach: float
) -> float:
    return hanger_width - (inset + plate_thickness + can_length + stub) - other_reach


RULE = Rule(
    question="Do the two motors keep apart?",
    needs=(
        "hanger.hanger_width",
        "motor_mount.outer_face_inset",
        "motor_mount.plate_thickness",
        "motor.can_length",
        "motor.stub_length",
        "other_motor.reach_toward_motor",
    ),
    quantity=quantity,
    measures="gap between the ends of the two motors, stubs included",
    formula="gap = W − (inset1 + plate1 + L1 + stub1) − (inset2 + plate2 + L2 + stub2)",
    unit="mm",
    hard=AtLeast(Bound("motor_to_motor.motors_keep_apart.least", 3.0, "common practice, no source")),
    comfort=AtLeast(Bound("motor_to_motor.motors_keep_apart.comfort", 6.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="mirrored mounts, one motor inboard and one outboard; shorter cans; a wider hanger; one motor",
    examples=(
        Example(
            "218 mm hanger, two cans of 74 mm, stubs of 3 to 8 mm",
            {
                "hanger.hanger_width": (217.7, 218.0, 218.3),
                "motor_mount.outer_face_inset": 4.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": (3.0, 3.0, 8.0),
                "other_motor.reach_toward_motor": (89.0, 89.0, 94.0),
            },
            "holds",
            37.0,
        ),
        Example(
            "180 mm hanger, inset of 2 mm, the same cans",
            {
                "hanger.hanger_width": (179.7, 180.0, 180.3),
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": (6.0, 6.0, 8.0),
                "other_motor.reach_toward_motor": (90.0, 90.0, 92.0),
            },
            "fails",
            -3.0,
            two_numbers="twice 74 is 148, which is less than 180: comparing cans and hanger says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "hanger.hanger_width": 183.0,
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
            },
            "holds",
            0.0,
        ),
        Example(
            "stubs not read: 3 to 8 mm each",
            {
                "hanger.hanger_width": 182.0,
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": (3.0, 3.0, 8.0),
                "other_motor.reach_toward_motor": (87.0, 87.0, 92.0),
            },
            "undecided",
            5.0,
        ),
        Example(
            "width of the hanger unread",
            {
                "motor_mount.outer_face_inset": 2.0,
                "motor_mount.plate_thickness": 8.0,
                "motor.can_length": 74.0,
                "motor.stub_length": 6.0,
                "other_motor.reach_toward_motor": 90.0,
            },
            "undecided",
        ),
    ),
)

"""Right behind the face lies the winding. A screw that is half a millimetre too long cuts it: a dead short from phase
to can, which burns the motor and can burn the controller. Measure the depth of the thread, every time.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(thread_depth: float, length: float, plate_thickness: float, washer: float) -> float:
    return thread_depth - (length - plate_thickness - washer)


RULE = Rule(
    question="Does the screw end before it reaches the winding?",
    needs=(
        "motor.face_thread_depth",
        "motor_screw.length",
        "motor_mount.plate_thickness",
        "motor_screw.washer_thickness",
    ),
    quantity=quantity,
    measures="thread depth left behind the tip of the screw",
    formula="depth − (L − t_plate − t_washer)",
    unit="mm",
    hard=AtLeast(Bound("motor_screws.screw_stops_short.least", 0.5, "common practice, no source")),
    severity=Severity.FIRE,
    caution=(
        "A screw that touches the winding shorts phase to can. Measure the depth with a thin rod, turn the screw in by "
        "hand first, and meter from each phase to the can before the pack is joined."
    ),
    remedy_hint="the next shorter screw, or a thicker washer",
    examples=(
        Example(
            "M4 × 14, 8 mm plate, 0.8 mm washer, 6 mm of thread",
            {
                "motor.face_thread_depth": (5.9, 6.0, 6.1),
                "motor_screw.length": 14.0,
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.8,
            },
            "holds",
            0.3,
        ),
        Example(
            "M4 × 16 in the same face",
            {
                "motor.face_thread_depth": 6.0,
                "motor_screw.length": 16.0,
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.8,
            },
            "fails",
            -1.7,
        ),
        Example(
            "5.8 mm of screw in 6.0 mm of thread",
            {
                "motor.face_thread_depth": 6.0,
                "motor_screw.length": 14.0,
                "motor_mount.plate_thickness": 7.4,
                "motor_screw.washer_thickness": 0.8,
            },
            "fails",
            -0.3,
            two_numbers="5.8 is less than 6.0: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "motor.face_thread_depth": 6.0,
                "motor_screw.length": 14.0,
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.5,
            },
            "holds",
            0.0,
        ),
        Example(
            "depth of the thread unread",
            {
                "motor_screw.length": 14.0,
                "motor_mount.plate_thickness": 8.0,
                "motor_screw.washer_thickness": 0.8,
            },
            "undecided",
        ),
    ),
)

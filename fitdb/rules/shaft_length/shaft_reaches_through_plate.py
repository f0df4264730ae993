"""What stands out of the mount's plate is all that holds the pulley. Twelve millimetres are the least; on less the
pulley wobbles, beats its keyway wide and walks off the shaft.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(shaft_length: float, plate_thickness: float, face_plates: tuple[float, ...]) -> float:
    return shaft_length - plate_thickness - sum(face_plates)


RULE = Rule(
    question="Does enough of the shaft stand out of the mount?",
    needs=("motor.shaft_length", "motor_mount.plate_thickness", "face_plate*.plate_thickness"),
    quantity=quantity,
    measures="shaft from the motor's face less the mount's plate and every face plate",
    formula="g = L_shaft − t_plate − Σ t_face",
    unit="mm",
    hard=AtLeast(Bound("shaft_length.shaft_reaches_through_plate.least", 12.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a thinner plate, or a motor with a longer shaft",
    examples=(
        Example(
            "26 mm shaft through an 8 mm plate",
            {"motor.shaft_length": (25.5, 26.0, 26.5), "motor_mount.plate_thickness": 8.0},
            "holds",
            6.0,
        ),
        Example(
            "the same with a 7 mm face plate",
            {
                "motor.shaft_length": 26.0,
                "motor_mount.plate_thickness": 8.0,
                "face_plate*.plate_thickness": (7.0,),
            },
            "fails",
            -1.0,
            two_numbers="26 mm of shaft against 12 mm of grip: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {"motor.shaft_length": 20.0, "motor_mount.plate_thickness": 8.0},
            "holds",
            0.0,
        ),
        Example("shaft unread", {"motor_mount.plate_thickness": 8.0}, "undecided"),
    ),
)

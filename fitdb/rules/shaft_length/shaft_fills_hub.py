"""The hub is the part of the pulley that holds; four fifths of it have to be on the shaft, so that key and screws bear
on metal over their whole length.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(shaft_length: float, plate_thickness: float, face_plates: tuple[float, ...], hub_length: float) -> float:
    return (shaft_length - plate_thickness - sum(face_plates)) / hub_length


RULE = Rule(
    question="Is the hub filled by the shaft?",
    needs=(
        "motor.shaft_length",
        "motor_mount.plate_thickness",
        "face_plate*.plate_thickness",
        "drive_pulley.hub_length",
    ),
    quantity=quantity,
    measures="shaft that stands out of the mount, over the length of the hub",
    formula="g/l_hub",
    unit="",
    hard=AtLeast(Bound("shaft_length.shaft_fills_hub.least", 0.8, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="a thinner plate, or a pulley with a shorter hub",
    examples=(
        Example(
            "18 mm stand out for a 14 mm hub",
            {
                "motor.shaft_length": (25.5, 26.0, 26.5),
                "motor_mount.plate_thickness": 8.0,
                "drive_pulley.hub_length": 14.0,
            },
            "holds",
            0.486,
        ),
        Example(
            "12.5 mm stand out for a 16 mm hub",
            {
                "motor.shaft_length": 20.5,
                "motor_mount.plate_thickness": 8.0,
                "drive_pulley.hub_length": 16.0,
            },
            "fails",
            -0.019,
            two_numbers="12.5 mm is more than the 12 mm that are the least: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "motor.shaft_length": 20.0,
                "motor_mount.plate_thickness": 8.0,
                "drive_pulley.hub_length": 15.0,
            },
            "holds",
            0.0,
        ),
        Example("hub unread", {"motor.shaft_length": 26.0, "motor_mount.plate_thickness": 8.0}, "undecided"),
    ),
)

"""It is no use that a pulley sits well on its shaft if it sits in the wrong plane. Where the belt runs, twelve
millimetres of shaft have to be inside the pulley.
"""

from fitdb.formulas.pulley_on_shaft import shaft_in_pulley
from fitdb.model.rule import AtLeast, Bound, Example, Rule, Severity


def quantity(
    shaft_length: float,
    plate_thickness: float,
    face_plates: tuple[float, ...],
    belt_plane: float,
    overall_length: float,
    hub_length: float,
    hub_side: str,
) -> float:
    beyond = shaft_length - plate_thickness - sum(face_plates)
    return shaft_in_pulley(beyond, belt_plane, overall_length, hub_length, hub_side)


RULE = Rule(
    question="Does the shaft still hold the pulley where the belt runs?",
    needs=(
        "motor.shaft_length",
        "motor_mount.plate_thickness",
        "face_plate*.plate_thickness",
        "drive_pulley.belt_plane_from_plate",
        "drive_pulley.overall_length",
        "drive_pulley.hub_length",
        "drive_pulley.hub_side",
    ),
    quantity=quantity,
    measures="shaft inside the pulley, its teeth in the plane of the driven pulley",
    formula="L_shaft − t_plate − Σ t_face − (x − (l ± l_hub)/2)",
    unit="mm",
    hard=AtLeast(Bound("shaft_length.shaft_holds_pulley_in_line.least", 12.0, "common practice, no source")),
    severity=Severity.DAMAGE,
    remedy_hint="turn the pulley round, a thinner plate, or a shorter spacer inboard of the wheel",
    examples=(
        Example(
            "26 mm shaft, 8 mm plate, belt 14 mm off the plate, hub outward",
            {
                "motor.shaft_length": (25.5, 26.0, 26.5),
                "motor_mount.plate_thickness": 8.0,
                "drive_pulley.belt_plane_from_plate": 14.0,
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "holds",
            1.0,
        ),
        Example(
            "the same with a 4 mm face plate under the motor",
            {
                "motor.shaft_length": 26.0,
                "motor_mount.plate_thickness": 8.0,
                "face_plate*.plate_thickness": (4.0,),
                "drive_pulley.belt_plane_from_plate": 14.0,
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "fails",
            -3.0,
            two_numbers="14 mm stand out of the plate and 12 are the least: comparing two numbers says yes",
        ),
        Example(
            "exactly on the limit",
            {
                "motor.shaft_length": 25.0,
                "motor_mount.plate_thickness": 8.0,
                "drive_pulley.belt_plane_from_plate": 14.0,
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "holds",
            0.0,
        ),
        Example(
            "plane of the belt unread",
            {
                "motor.shaft_length": 26.0,
                "motor_mount.plate_thickness": 8.0,
                "drive_pulley.overall_length": 32.0,
                "drive_pulley.hub_length": 14.0,
                "drive_pulley.hub_side": "toward_end",
            },
            "undecided",
        ),
    ),
)

"""How far the second motor reaches in from its shoulder toward the first, on a mount of its own. On mirrored mounts the
two stand on opposite sides of the axle and do not face: nothing of the second is then in the way of the first.
"""

from fitdb.model.rule import SurveyLine


def quantity(pair_arrangement: str, inset: float, plate_thickness: float, can_length: float, stub: float) -> float:
    return inset + plate_thickness + can_length + stub if pair_arrangement == "facing" else 0.0


OTHER_SIDE = {
    "other_mount.outer_face_inset": 4.0,
    "other_mount.plate_thickness": 8.0,
    "other_motor.can_length": 74.0,
    "other_motor.stub_length": 3.0,
}

LINE = SurveyLine(
    target="other_motor.reach_toward_motor",
    needs=(
        "motor_mount.pair_arrangement",
        "other_mount.outer_face_inset",
        "other_mount.plate_thickness",
        "other_motor.can_length",
        "other_motor.stub_length",
    ),
    quantity=quantity,
    measures="shoulder of the hanger to the far end of the second motor, stub included",
    formula="facing: inset + plate + L + stub, all of the second side; staggered: 0",
    unit="mm",
    source="plane geometry",
    examples=(
        ({"motor_mount.pair_arrangement": "facing", **OTHER_SIDE}, 89.0),
        ({"motor_mount.pair_arrangement": "staggered", **OTHER_SIDE}, 0.0),
    ),
)

"""How far outside the mount's plate the middle of the drive pulley's toothed face has to stand, so that it lies in one
plane with the driven pulley. Somebody who measures it on the board, from the plate to the middle of the driven face, is
believed before this sum.
"""

from fitdb.model.rule import SurveyLine


def quantity(inner_face: float, belt_plane_offset: float, hanger_width: float, outer_face_inset: float) -> float:
    return inner_face - belt_plane_offset - (hanger_width / 2.0 - outer_face_inset)


LINE = SurveyLine(
    target="drive_pulley.belt_plane_from_plate",
    needs=(
        "wheel.inner_face",
        "driven_pulley.belt_plane_offset",
        "hanger.hanger_width",
        "motor_mount.outer_face_inset",
    ),
    quantity=quantity,
    measures="outer face of the mount's plate to the plane in which the belt has to run, outward",
    formula="x = y_wheel − offset − (W/2 − inset)",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "wheel.inner_face": 92.0,
                "driven_pulley.belt_plane_offset": 14.0,
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 24.0,
            },
            12.0,
        ),
    ),
)

"""How far out from the board's middle the can begins. The motor is screwed to the inner face of the mount's plate, so
the can's end at the plate is what dips and swings the most.
"""

from fitdb.formulas.motor_place import outermost_point_of_can
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="motor.outermost_point",
    needs=("hanger.hanger_width", "motor_mount.outer_face_inset", "motor_mount.plate_thickness"),
    quantity=outermost_point_of_can,
    measures="board's middle to the end of the can at the mount's plate",
    formula="y_m = W/2 − inset − plate",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "hanger.hanger_width": 180.0,
                "motor_mount.outer_face_inset": 4.0,
                "motor_mount.plate_thickness": 8.0,
            },
            78.0,
        ),
    ),
)

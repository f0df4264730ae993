"""The angle at which the motor works. A wedge under the truck turns the whole hanger, and the motor with it: one with
its thick end toward the board's end lifts an inboard motor and lowers an outboard one.
"""

from fitdb.formulas.motor_place import working_mount_angle
from fitdb.formulas.ride_height import signed_wedge_change
from fitdb.model.rule import SurveyLine


def quantity(
    mount_angle: float, motor_place: str, wedge_angles: tuple[float, ...], thick_ends: tuple[str, ...]
) -> float:
    return working_mount_angle(mount_angle, signed_wedge_change(wedge_angles, thick_ends), motor_place == "inboard")


LINE = SurveyLine(
    target="motor_mount.working_angle",
    needs=("motor_mount.mount_angle", "motor_mount.motor_place", "riser*.angle", "riser*.thick_end"),
    quantity=quantity,
    measures="line from axle to motor axis above the horizontal, wedge included",
    formula="inboard: α = α_mount − wedge change; outboard: α_mount + wedge change; + thick end toward the middle",
    unit="deg",
    source="plane geometry",
    examples=(
        (
            {
                "motor_mount.mount_angle": 10.0,
                "motor_mount.motor_place": "inboard",
                "riser*.angle": (7.0,),
                "riser*.thick_end": ("toward_end",),
            },
            17.0,
        ),
        (
            {
                "motor_mount.mount_angle": 10.0,
                "motor_mount.motor_place": "outboard",
                "riser*.angle": (7.0,),
                "riser*.thick_end": ("toward_end",),
            },
            3.0,
        ),
        (
            {
                "motor_mount.mount_angle": 10.0,
                "motor_mount.motor_place": "inboard",
                "riser*.angle": (),
                "riser*.thick_end": (),
            },
            10.0,
        ),
    ),
)

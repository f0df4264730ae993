"""What shim strips take off the bore of a clamp: their thickness on both sides. The strip lies in the clamp of the
mount itself; where a shell sits between hanger and mount, the bore of the shell is without it.
"""

from fitdb.model.rule import SurveyLine


def quantity(shims: tuple[float, ...], shell_walls: tuple[float, ...]) -> float:
    return 0.0 if shell_walls else 2.0 * sum(shims)


LINE = SurveyLine(
    target="motor_mount.shim_lining",
    needs=("clamp_shim*.thickness", "motor_mount*.wall_thickness"),
    quantity=quantity,
    measures="shims across the bore, both sides together",
    formula="2·Σt_shim",
    unit="mm",
    source="plane geometry",
    examples=(
        ({"clamp_shim*.thickness": (0.2,), "motor_mount*.wall_thickness": ()}, 0.4),
        ({"clamp_shim*.thickness": (0.2,), "motor_mount*.wall_thickness": (3.5,)}, 0.0),
        ({"clamp_shim*.thickness": (), "motor_mount*.wall_thickness": ()}, 0.0),
    ),
)

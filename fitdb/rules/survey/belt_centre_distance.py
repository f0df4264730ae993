"""Where the motor has to stand for this belt to be just taut, with no idler in its way. It is worked out exactly: the
short formula of the handbooks is almost half a millimetre out at large ratios.
"""

from fitdb.formulas.belt_choice import centre_distance_or_shortfall
from fitdb.model.rule import Shape, SurveyLine


def quantity(driven_teeth: int, drive_teeth: int, pitch: float, length: float) -> float:
    """Centre distance; where the belt does not reach round the larger pulley, the missing length with a minus sign."""
    return centre_distance_or_shortfall(driven_teeth, drive_teeth, pitch, length)


LINE = SurveyLine(
    target="belt.centre_distance",
    needs=("driven_pulley.teeth", "drive_pulley.teeth", "drive_pulley.tooth_pitch", "belt.length"),
    quantity=quantity,
    measures="centre distance at which the belt is just taut; negative: length missing to go round the pulleys at all",
    formula="C with L = √(4C² − (D−d)²) + (D·θ_D + d·θ_d)/2, D and d = z·p/π",
    unit="mm",
    source="Shigley, Mechanical Engineering Design, eqs. 17-1 and 17-2",
    shape=Shape.STEPPED,
    examples=(
        (
            {
                "driven_pulley.teeth": 36,
                "drive_pulley.teeth": 15,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.length": 265.0,
            },
            66.6436,
        ),
        (
            {
                "driven_pulley.teeth": 16,
                "drive_pulley.teeth": 16,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.length": 300.0,
            },
            110.0,
        ),
        (
            {
                "driven_pulley.teeth": 60,
                "drive_pulley.teeth": 15,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.length": 265.0,
            },
            -35.0,
        ),
    ),
)

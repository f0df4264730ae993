"""Where the motor has to stand when idlers take up part of the belt. Without one it is the plain centre distance."""

from fitdb.formulas.belt_choice import centre_distance_or_shortfall
from fitdb.model.rule import Shape, SurveyLine


def quantity(driven_teeth: int, drive_teeth: int, pitch: float, length: float, taken_up: tuple[float, ...]) -> float:
    """Centre distance of the belt less what idlers take up; negative as the plain centre distance is."""
    return centre_distance_or_shortfall(driven_teeth, drive_teeth, pitch, max(length - sum(taken_up), pitch))


LINE = SurveyLine(
    target="belt.taut_centre_distance",
    needs=(
        "driven_pulley.teeth",
        "drive_pulley.teeth",
        "drive_pulley.tooth_pitch",
        "belt.length",
        "idler*.take_up",
    ),
    quantity=quantity,
    measures="centre distance at which the belt is taut with every idler pressed in",
    formula="C with L − Σ take-up in place of L",
    unit="mm",
    source="Shigley, Mechanical Engineering Design, eqs. 17-1 and 17-2; take-up as read on the idler",
    shape=Shape.STEPPED,
    examples=(
        (
            {
                "driven_pulley.teeth": 36,
                "drive_pulley.teeth": 15,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.length": 270.0,
                "idler*.take_up": (5.0,),
            },
            66.6436,
        ),
        (
            {
                "driven_pulley.teeth": 40,
                "drive_pulley.teeth": 15,
                "drive_pulley.tooth_pitch": 5.0,
                "belt.length": 280.0,
            },
            68.333,
        ),
    ),
)

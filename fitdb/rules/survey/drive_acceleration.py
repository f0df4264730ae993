"""How briskly the board starts on the flat. More than 2 to 3 m/s² nobody stands on; the rider's balance ends it, not
the motor.
"""

from fitdb.formulas.ride import acceleration
from fitdb.model.rule import SurveyLine


def quantity(pull: float, rider: float, board: float, rolling: float) -> float:
    return acceleration(pull, rider + board, rolling)


LINE = SurveyLine(
    target="drive.acceleration",
    needs=("drive.pull", "rider.mass", "rider.board_mass", "wheel.rolling_coefficient"),
    quantity=quantity,
    measures="acceleration from rest on the flat at the greatest motor current",
    formula="a = F/m − c·g",
    unit="m/s2",
    source="Newton's second law",
    examples=(
        (
            {
                "drive.pull": 201.0,
                "rider.mass": 80.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
            },
            2.0372,
        ),
    ),
)

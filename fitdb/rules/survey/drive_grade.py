"""The steepest hill on which the board still starts, at the greatest motor current. For a minute it holds about 70 % of
that pull, all day less than half.
"""

from fitdb.formulas.ride import grade_percent
from fitdb.model.rule import SurveyLine


def quantity(pull: float, rider: float, board: float, rolling: float) -> float:
    return grade_percent(pull, rider + board, rolling)


LINE = SurveyLine(
    target="drive.grade",
    needs=("drive.pull", "rider.mass", "rider.board_mass", "wheel.rolling_coefficient"),
    quantity=quantity,
    measures="steepest slope on which it starts at the greatest motor current",
    formula="s = tan(asin((F − c·m·g)/(m·g)))",
    unit="percent",
    source="statics",
    examples=(
        (
            {
                "drive.pull": 201.0,
                "rider.mass": 80.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
            },
            21.237,
        ),
    ),
)

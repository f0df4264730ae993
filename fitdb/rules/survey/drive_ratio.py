"""How often the motor turns for one turn of the wheel. A gear drive has its ratio in its housing, two pulleys have it
in their teeth, and a hub motor or a direct drive turns with its wheel.
"""

from fitdb.formulas.ride import drive_ratio
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="drive.ratio",
    needs=("drive_pulley*.teeth", "driven_pulley*.teeth", "gear_drive*.ratio"),
    quantity=drive_ratio,
    measures="turns of the motor per turn of the wheel",
    formula="i = z_driven/z_drive; of a gear drive as it is read; 1 without either",
    unit="",
    source="kinematics",
    examples=(
        ({"drive_pulley*.teeth": (15,), "driven_pulley*.teeth": (36,)}, 2.4),
        ({"gear_drive*.ratio": (3.6,)}, 3.6),
        ({}, 1.0),
    ),
)

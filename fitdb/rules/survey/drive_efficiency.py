"""How much of the motor's torque arrives at the wheel: a belt bends, gears rub, and a motor in the wheel loses almost
nothing on the way.
"""

from fitdb.formulas.ride import drive_efficiency
from fitdb.model.rule import Constant, SurveyLine

LINE = SurveyLine(
    target="drive.efficiency",
    needs=("drive_pulley*.teeth", "gear_drive*.ratio"),
    quantity=drive_efficiency,
    measures="torque at the wheel over torque of the motor times ratio",
    formula="η = 0.92 by belt, 0.94 by gears, 0.98 without either",
    unit="",
    source="common practice, no source",
    constants=(
        Constant("belt", 0.92, "1", "common practice, no source"),
        Constant("gear", 0.94, "1", "common practice, no source"),
        Constant("direct", 0.98, "1", "common practice, no source"),
    ),
    examples=(
        ({"drive_pulley*.teeth": (15,)}, 0.92),
        ({"gear_drive*.ratio": (3.0,)}, 0.94),
        ({}, 0.98),
    ),
)

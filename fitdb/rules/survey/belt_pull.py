"""How hard the belt is pulled: the motor's torque divided by the radius at which the belt runs on its pulley. Fewer
teeth on the motor pulley mean more pull for the same torque.
"""

from fitdb.formulas.belts import belt_pull_n
from fitdb.model.rule import SurveyLine


def quantity(shaft_torque: float, drive_teeth: int, pitch: float) -> float:
    return belt_pull_n(shaft_torque, 1.0, drive_teeth, pitch)


LINE = SurveyLine(
    target="belt.pull",
    needs=("motor.shaft_torque", "drive_pulley.teeth", "drive_pulley.tooth_pitch"),
    quantity=quantity,
    measures="pull of the belt at the greatest motor current, driving or braking",
    formula="F = 2·T/d, d = z·p/π",
    unit="N",
    source="statics",
    examples=(({"motor.shaft_torque": 2.5129563, "drive_pulley.teeth": 14, "drive_pulley.tooth_pitch": 5.0}, 225.563),),
)

"""How hard the board really brakes at the speed ridden: as hard as the weaker of its two limits allows, the charge that
the pack takes and the motor current set for braking. Each limit has a rule of its own.
"""

from fitdb.model.rule import SurveyLine


def quantity(by_charge: float, by_motor: float) -> float:
    return min(by_charge, by_motor)


LINE = SurveyLine(
    target="drive.brake_deceleration",
    needs=("drive.charge_braking", "drive.motor_braking"),
    quantity=quantity,
    measures="deceleration of the motor brake at the speed ridden",
    formula="a = the weaker of charge and motor current",
    unit="m/s2",
    source="common practice, no source",
    examples=(({"drive.charge_braking": 1.6, "drive.motor_braking": 2.0}, 1.6),),
)

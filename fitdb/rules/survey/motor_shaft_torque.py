"""The torque at the motor's shaft, forward or braking. It is reckoned with the larger of the two conventions for motor
current: a field-oriented controller that counts peak phase current gives 13 % less than this.
"""

from fitdb.formulas.motors import motor_torque, torque_constant
from fitdb.model.rule import SurveyLine


def quantity(velocity_constant: float, current: float) -> float:
    return motor_torque(torque_constant(velocity_constant, "block"), current)


LINE = SurveyLine(
    target="motor.shaft_torque",
    needs=("motor.velocity_constant", "motor.greatest_current"),
    quantity=quantity,
    measures="torque at the motor shaft at the greatest current, driving or braking",
    formula="T = K_t·I, K_t = 60/(2π·K_v)",
    unit="N_m",
    source="equality of mechanical and electrical power; block convention of the current",
    examples=(
        ({"motor.velocity_constant": 190.0, "motor.greatest_current": 45.0}, 2.26168),
        ({"motor.velocity_constant": 50.0, "motor.greatest_current": 2.0944}, 0.4),
    ),
)

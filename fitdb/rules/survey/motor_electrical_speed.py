"""How fast the field of the motor turns when the pack is full and nothing holds the wheel back. Wheels up on the bench
it gets there; so does a wheel that loses the ground.
"""

from fitdb.formulas.electrical_speed import unloaded_electrical_speed
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="motor.electrical_speed",
    needs=("motor.velocity_constant", "pack.full_volts", "motor.pole_pairs"),
    quantity=unloaded_electrical_speed,
    measures="electrical speed at full pack: speed constant times volts times pole pairs",
    formula="ω = K_v · V_full · p",
    unit="rpm",
    source="synchronous machine: mechanical speed times pole pairs",
    examples=(
        ({"motor.velocity_constant": 170.0, "pack.full_volts": 50.4, "motor.pole_pairs": 7}, 59976.0),
        ({"motor.velocity_constant": 75.0, "pack.full_volts": 42.0, "motor.pole_pairs": 15}, 47250.0),
        ({"motor.velocity_constant": 150.0, "pack.full_volts": 36.0, "motor.pole_pairs": 7}, 37800.0),
    ),
)

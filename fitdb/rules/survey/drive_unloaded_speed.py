"""The speed with the wheels in the air and the pack full: the number of the bench. Nobody rides as fast as that."""

from fitdb.formulas.ride import unloaded_speed_kmh
from fitdb.model.rule import Constant, SurveyLine

LINE = SurveyLine(
    target="drive.unloaded_speed",
    needs=("motor.velocity_constant", "pack.full_volts", "drive.ratio", "drive.rolling_diameter"),
    quantity=unloaded_speed_kmh,
    measures="speed of the unloaded wheel at full pack",
    formula="v₀ = K_v·V_full·m/i · π·D · 60/10⁶",
    unit="km/h",
    source="kinematics of an unloaded motor; the share of the volts put out is common practice",
    constants=(Constant("modulation", 0.95, "1", "common practice, no source"),),
    examples=(
        (
            {
                "motor.velocity_constant": 190.0,
                "pack.full_volts": 42.0,
                "drive.ratio": 2.25,
                "drive.rolling_diameter": 83.0,
            },
            52.7166,
        ),
    ),
)

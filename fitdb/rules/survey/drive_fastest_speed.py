"""The fastest that the board goes with a rider on the flat: just off the charger, before the pack has sagged."""

from fitdb.formulas.ride import held_back_kmh
from fitdb.model.rule import Constant, SurveyLine


def quantity(unloaded: float, ceilings: tuple[float, ...], off_the_charger: float) -> float:
    return held_back_kmh(unloaded * off_the_charger, ceilings)


LINE = SurveyLine(
    target="drive.fastest_speed",
    needs=("drive.unloaded_speed", "controller*.speed_ceiling"),
    quantity=quantity,
    measures="speed on the flat just off the charger, a speed ceiling respected",
    formula="v = 0.90·v₀, at most the ceiling set",
    unit="km/h",
    source="common practice, no source (0.85 to 0.90 of the unloaded speed at full pack)",
    constants=(Constant("off_the_charger", 0.90, "1", "common practice, no source"),),
    examples=(
        ({"drive.unloaded_speed": 50.0}, 45.0),
        ({"drive.unloaded_speed": 50.0, "controller*.speed_ceiling": (25.0,)}, 25.0),
    ),
)

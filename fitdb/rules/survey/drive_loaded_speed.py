"""The speed that is reached with a rider on the flat, through the middle of the pack. Quick and good to a tenth: air,
road and sag of the pack take about a fifth of the speed that the full pack shows on the bench. A speed ceiling in the
settings holds it back.
"""

from fitdb.formulas.ride import held_back_kmh
from fitdb.model.rule import Constant, SurveyLine


def quantity(unloaded: float, ceilings: tuple[float, ...], through_the_pack: float) -> float:
    return held_back_kmh(unloaded * through_the_pack, ceilings)


LINE = SurveyLine(
    target="drive.loaded_speed",
    needs=("drive.unloaded_speed", "controller*.speed_ceiling"),
    quantity=quantity,
    measures="speed on the flat through the middle of the pack, a speed ceiling respected",
    formula="v = 0.78·v₀, at most the ceiling set",
    unit="km/h",
    source="common practice, no source (0.75 to 0.80 of the unloaded speed at full pack)",
    constants=(Constant("through_the_pack", 0.78, "1", "common practice, no source"),),
    examples=(
        ({"drive.unloaded_speed": 52.7}, 41.106),
        ({"drive.unloaded_speed": 52.7, "controller*.speed_ceiling": (25.0, 30.0)}, 25.0),
    ),
)

"""The speed at which the board is ridden and must be able to brake. Whoever knows it says so, and that reading wins;
else it is the speed that the board reaches.
"""

from fitdb.model.rule import SurveyLine


def quantity(loaded_speed: float) -> float:
    return loaded_speed


LINE = SurveyLine(
    target="wish.riding_speed",
    needs=("drive.loaded_speed",),
    quantity=quantity,
    measures="speed ridden: as said, else the speed that the board reaches",
    formula="v = v_loaded",
    unit="km/h",
    source="common practice, no source",
    examples=(({"drive.loaded_speed": 38.0}, 38.0),),
)

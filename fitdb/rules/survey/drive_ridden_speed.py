"""The speed from which the board has to brake. Whoever wishes for a riding speed says so, and that is taken; else it is
the fastest that the board goes, just off the charger.
"""

from fitdb.model.rule import SurveyLine


def quantity(fastest: float, wished: tuple[float, ...]) -> float:
    return wished[0] if wished else fastest


LINE = SurveyLine(
    target="drive.ridden_speed",
    needs=("drive.fastest_speed", "wish*.riding_speed"),
    where_read=("wish*.riding_speed",),
    quantity=quantity,
    measures="speed from which it has to brake: as said, else the fastest that the board goes on the flat",
    formula="v = v_said, else v_fastest",
    unit="km/h",
    source="common practice, no source",
    examples=(
        ({"drive.fastest_speed": 45.0}, 45.0),
        ({"drive.fastest_speed": 45.0, "wish*.riding_speed": (25.0,)}, 25.0),
    ),
)

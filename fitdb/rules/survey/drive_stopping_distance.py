"""How far the board rolls from the speed ridden until it stands, the second included in which the rider does nothing
yet.
"""

from fitdb.formulas.ride import stopping_distance
from fitdb.model.rule import Constant, SurveyLine

LINE = SurveyLine(
    target="drive.stopping_distance",
    needs=("drive.ridden_speed", "drive.brake_deceleration"),
    quantity=stopping_distance,
    measures="way from the speed ridden to a stop, one second of reaction included",
    formula="s = v·t + v²/(2a)",
    unit="m",
    source="uniformly decelerated motion",
    constants=(Constant("reaction_time", 1.0, "s", "common practice, no source"),),
    examples=(
        ({"drive.ridden_speed": 25.0, "drive.brake_deceleration": 3.5}, 13.833),
        ({"drive.ridden_speed": 30.0, "drive.brake_deceleration": 2.0}, 25.694),
    ),
)

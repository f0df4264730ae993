"""How far the axle really stands above the road: half of the diameter, less what has been ridden off since it was read,
less how far the wheel flattens under the rider.
"""

from fitdb.model.rule import SurveyLine


def quantity(outer_diameter: float, used: str, wear: float, sink: float) -> float:
    return 0.5 * outer_diameter - (wear if used == "yes" else 0.0) - sink


LINE = SurveyLine(
    target="wheel.effective_radius",
    needs=("wheel.outer_diameter", "wheel.used", "wheel.wear", "wheel.sink"),
    quantity=quantity,
    measures="axle centre to the ground, rider on the board",
    formula="D/2 − wear (if ridden since) − sink",
    unit="mm",
    source="common practice, no source",
    examples=(
        ({"wheel.outer_diameter": 90.0, "wheel.used": "no", "wheel.wear": 2.0, "wheel.sink": 0.0}, 45.0),
        ({"wheel.outer_diameter": 90.0, "wheel.used": "yes", "wheel.wear": 2.0, "wheel.sink": 0.0}, 43.0),
        ({"wheel.outer_diameter": 150.0, "wheel.used": "no", "wheel.wear": 2.0, "wheel.sink": 5.0}, 70.0),
    ),
)

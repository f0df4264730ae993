"""What a kilometre costs at the mean speed of the route. Whoever has metered it has the better number, and that reading
wins; wind, stops and the rider make a figure that was worked out good to a third.
"""

from fitdb.formulas.ride import consumption_wh_per_km, road_load
from fitdb.model.rule import Constant, SurveyLine


def quantity(
    rider: float,
    board: float,
    rolling: float,
    drag_area: float,
    mean_speed: float,
    mean_climb: float,
    efficiency: float,
) -> float:
    return consumption_wh_per_km(road_load(rider + board, mean_speed, rolling, drag_area, mean_climb), efficiency)


LINE = SurveyLine(
    target="ride.consumption",
    needs=(
        "rider.mass",
        "rider.board_mass",
        "wheel.rolling_coefficient",
        "rider.drag_area",
        "ride.mean_speed",
        "ride.mean_climb",
    ),
    quantity=quantity,
    measures="energy from the pack per kilometre at the mean speed",
    formula="w = (c·m·g + m·g·s + ½·ρ·C_dA·v²)/3.6/η",
    unit="Wh/km",
    source="Martin et al., Journal of Applied Biomechanics 14 (1998) 276, for the road load; η is common practice",
    constants=(Constant("efficiency", 0.72, "1", "common practice, no source"),),
    examples=(
        (
            {
                "rider.mass": 85.0,
                "rider.board_mass": 10.0,
                "wheel.rolling_coefficient": 0.02,
                "rider.drag_area": 0.55,
                "ride.mean_speed": 25.0,
                "ride.mean_climb": 0.0,
            },
            13.328,
        ),
    ),
)

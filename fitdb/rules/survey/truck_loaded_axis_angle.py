"""The angle at which the steering axis works with the rider on the board: plate, wedge, and what the sagging deck
adds.
"""

from fitdb.formulas.ride_height import signed_wedge_change
from fitdb.model.rule import SurveyLine


def quantity(axis: float, wedge_angles: tuple[float, ...], thick_ends: tuple[str, ...], sag_slope: float) -> float:
    return axis + signed_wedge_change(wedge_angles, thick_ends) + sag_slope


LINE = SurveyLine(
    target="truck.loaded_axis_angle",
    needs=("truck.axis_angle", "riser*.angle", "riser*.thick_end", "deck.sag_slope"),
    quantity=quantity,
    measures="steering axis above the ground, rider standing, wedge included",
    formula="λ = λ_plate ± wedge + 3δ/L",
    unit="deg",
    source="plane geometry",
    examples=(
        ({"truck.axis_angle": 50.0, "deck.sag_slope": 3.4}, 53.4),
        (
            {
                "truck.axis_angle": 50.0,
                "riser*.angle": (10.0,),
                "riser*.thick_end": ("toward_end",),
                "deck.sag_slope": 2.0,
            },
            42.0,
        ),
    ),
)

"""The angle at which the rear steering axis works: that of the plate, and what a wedge adds or takes away."""

from fitdb.formulas.ride_height import signed_wedge_change
from fitdb.model.rule import SurveyLine


def quantity(axis_angle: float, wedge_angles: tuple[float, ...], thick_ends: tuple[str, ...]) -> float:
    return axis_angle + signed_wedge_change(wedge_angles, thick_ends)


LINE = SurveyLine(
    target="rear_truck.working_axis_angle",
    needs=("rear_truck.axis_angle", "rear_wedge*.angle", "rear_wedge*.thick_end"),
    quantity=quantity,
    measures="steering axis of the rear truck above the deck, wedge included",
    formula="λ = λ_plate ± wedge, + thick end toward the middle of the board",
    unit="deg",
    source="plane geometry",
    examples=(
        (
            {
                "rear_truck.axis_angle": 50.0,
                "rear_wedge*.angle": (10.0,),
                "rear_wedge*.thick_end": ("toward_end",),
            },
            40.0,
        ),
        ({"rear_truck.axis_angle": 44.0}, 44.0),
    ),
)

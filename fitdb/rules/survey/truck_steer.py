"""How far the axle turns when the board is leaned as far as this truck lets it. A second kingpin adds its own turn, and
a wedge tips the axis.
"""

from fitdb.formulas.ride_height import signed_wedge_change
from fitdb.formulas.steering import steer_deg, two_kingpin_steer_deg
from fitdb.model.rule import SurveyLine

# Beyond these no truck is built; they keep the tangent finite for a reading that is wildly off.
STEEPEST_DEG, LARGEST_STEER_DEG = 85.0, 85.0


def quantity(
    axis_angle: float,
    lean: float,
    second_axis_angles: tuple[float, ...],
    first_lean_shares: tuple[float, ...],
    wedge_angles: tuple[float, ...],
    thick_ends: tuple[str, ...],
) -> float:
    axis = min(max(axis_angle + signed_wedge_change(wedge_angles, thick_ends), 0.0), STEEPEST_DEG)
    if not second_axis_angles:
        return steer_deg(axis, min(lean, 89.0))
    first = lean * first_lean_shares[0] / 100.0
    second_axis = min(second_axis_angles[0], STEEPEST_DEG)
    return min(two_kingpin_steer_deg(axis, first, second_axis, lean - first), LARGEST_STEER_DEG)


LINE = SurveyLine(
    target="truck.steer",
    needs=(
        "truck.axis_angle",
        "truck.max_lean",
        "truck*.second_axis_angle",
        "truck*.first_lean_share",
        "riser*.angle",
        "riser*.thick_end",
    ),
    quantity=quantity,
    measures="turn of the axle at full lean",
    formula="tan δ = tan λ · sin φ; two kingpins: δ = φ₁·tan λ₁ + φ₂·tan λ₂",
    unit="deg",
    source="Hubbard, Journal of Applied Mechanics 46 (1979) 931, from memory; two kingpins: common practice, no source",
    examples=(
        ({"truck.axis_angle": 45.0, "truck.max_lean": 30.0}, 26.565),
        (
            {
                "truck.axis_angle": 45.0,
                "truck.max_lean": 26.0,
                "truck*.second_axis_angle": (45.0,),
                "truck*.first_lean_share": (50.0,),
            },
            26.0,
        ),
    ),
)

"""How far out from the board's middle the wheel begins: hanger, what lies on the axle inboard, and bearing; less the
core's offset (how far its seats lie outward) and half the wheel. Speed rings lie in pairs, one on each side of the
wheel, so half of them count.
"""

from fitdb.formulas.ride_height import bearing_middle_from_middle
from fitdb.model.rule import SurveyLine


def quantity(
    hanger_width: float,
    inner_spacers: tuple[float, ...],
    speed_rings: tuple[float, ...],
    lug_plates: tuple[float, ...],
    pulley_bearings: tuple[float, ...],
    pulley_carriers: tuple[float, ...],
    bearings: tuple[float, ...],
    seat_depth: float,
    seat_gap: float,
    core_offset: float,
    width: float,
) -> float:
    bearing = bearings[0] if bearings else seat_depth
    beside_the_pulley = sum(lug_plates) + sum(pulley_bearings) + sum(pulley_carriers)
    pile = (sum(inner_spacers) + beside_the_pulley, 0.5 * sum(speed_rings))
    return bearing_middle_from_middle(hanger_width, pile, bearing, seat_gap) - core_offset - 0.5 * width


LINE = SurveyLine(
    target="wheel.inner_face",
    needs=(
        "hanger.hanger_width",
        "inner_spacer*.length",
        "speed_ring*.thickness",
        "pulley_side*.axial_thickness",
        "pulley_side*.width",
        "pulley_side*.length",
        "bearing*.width",
        "wheel.seat_depth",
        "wheel.seat_gap",
        "wheel.core_offset",
        "wheel.width",
    ),
    quantity=quantity,
    measures="board's middle to the inner face of the wheel, along the axle",
    formula="y_in = W/2 + Σ spacers + Σ beside the pulley + rings/2 + bearing + gap/2 − offset − w/2",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "hanger.hanger_width": 180.0,
                "inner_spacer*.length": (15.0,),
                "speed_ring*.thickness": (1.0, 1.0),
                "bearing*.width": (7.0, 7.0),
                "wheel.seat_depth": 7.0,
                "wheel.seat_gap": 10.0,
                "wheel.core_offset": 0.0,
                "wheel.width": 52.0,
            },
            92.0,
        ),
    ),
)

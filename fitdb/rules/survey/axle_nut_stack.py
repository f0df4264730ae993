"""Everything that lies on the axle between the hanger's shoulder and the nut, added up: spacers on the shoulder,
rings, adapter plates, a bearing of the pulley's own, both bearings of the wheel with what stands between them,
washers.

A spacer that nobody named counts as long as the gap between the seats; bearings that nobody named as deep as their
seats.
"""

from fitdb.model.rule import SurveyLine


def quantity(
    inner_spacers: tuple[float, ...],
    lug_plates: tuple[float, ...],
    carriers: tuple[float, ...],
    pulley_bearings: tuple[float, ...],
    rings: tuple[float, ...],
    bearings: tuple[float, ...],
    seat_depth: float,
    spacers: tuple[float, ...],
    seat_gap: float,
    washers: tuple[float, ...],
) -> float:
    bearing = bearings[0] if bearings else seat_depth
    middle = sum(spacers) if spacers else seat_gap
    inboard = sum(inner_spacers) + sum(lug_plates) + sum(carriers) + sum(pulley_bearings)
    return inboard + sum(rings) + 2.0 * bearing + middle + sum(washers)


LINE = SurveyLine(
    target="axle_nut.stack",
    needs=(
        "inner_spacer*.length",
        "lug_plate*.axial_thickness",
        "pulley_carrier*.length",
        "pulley_bearing*.width",
        "speed_ring*.thickness",
        "bearing*.width",
        "wheel.seat_depth",
        "spacer*.length",
        "wheel.seat_gap",
        "axle_washer*.thickness",
    ),
    quantity=quantity,
    measures="hanger shoulder to the face of the nut, along the axle",
    formula="Σ inner spacers + plates + carrier + pulley bearing + rings + 2·bearing + spacer or gap + washers",
    unit="mm",
    source="common practice, no source",
    examples=(
        (
            {
                "speed_ring*.thickness": (1.0, 1.0),
                "bearing*.width": (7.0,),
                "wheel.seat_depth": 7.0,
                "wheel.seat_gap": 10.0,
            },
            26.0,
        ),
        (
            {
                "inner_spacer*.length": (15.0,),
                "lug_plate*.axial_thickness": (6.0,),
                "speed_ring*.thickness": (1.0, 1.0),
                "wheel.seat_depth": 7.0,
                "spacer*.length": (10.1,),
                "wheel.seat_gap": 10.0,
            },
            47.1,
        ),
    ),
)

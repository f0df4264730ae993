"""How high the deck's underside stands over the rear axle: the rear truck, with what lies between it and the deck."""

from fitdb.formulas.ride_height import deck_height_over_axle
from fitdb.model.rule import SurveyLine


def quantity(
    mount_style: str,
    axle_to_deck_face: float,
    plate_thickness: float,
    deck_thickness: float,
    risers: tuple[float, ...],
    pocket_depths: tuple[float, ...],
) -> float:
    pocket = pocket_depths[0] if pocket_depths else None
    return deck_height_over_axle(mount_style, axle_to_deck_face, plate_thickness, deck_thickness, risers, pocket)


LINE = SurveyLine(
    target="rear_truck.deck_height",
    needs=(
        "deck.mount_style",
        "rear_truck.axle_to_deck_face",
        "rear_truck.plate_thickness",
        "deck.thickness",
        "rear_riser*.thickness",
        "deck*.plate_pocket_depth",
    ),
    quantity=quantity,
    measures="rear axle centre to the underside of the deck",
    formula="top, dropped: H = h + Σt; flush: H = h + Σt − pocket; drop-through: H = h − t_plate − t_deck − Σt",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "deck.mount_style": "flush",
                "rear_truck.axle_to_deck_face": 66.0,
                "rear_truck.plate_thickness": 6.0,
                "deck.thickness": 12.0,
                "rear_riser*.thickness": (),
                "deck*.plate_pocket_depth": (4.0,),
            },
            62.0,
        ),
    ),
)

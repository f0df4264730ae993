"""How high the deck's underside stands over the axle. Only here does the way the truck is mounted count: a riser lifts
a top-mounted deck, and lets a drop-through deck hang lower.
"""

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
    target="truck.deck_height",
    needs=(
        "deck.mount_style",
        "truck.axle_to_deck_face",
        "truck.plate_thickness",
        "deck.thickness",
        "riser*.thickness",
        "deck*.plate_pocket_depth",
    ),
    quantity=quantity,
    measures="axle centre to the underside of the deck",
    formula="top, dropped: H = h + Σt; flush: H = h + Σt − pocket; drop-through: H = h − t_plate − t_deck − Σt",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "deck.mount_style": "top",
                "truck.axle_to_deck_face": 68.0,
                "truck.plate_thickness": 6.0,
                "deck.thickness": 12.0,
                "riser*.thickness": (6.0,),
            },
            74.0,
        ),
        (
            {
                "deck.mount_style": "drop_through",
                "truck.axle_to_deck_face": 68.0,
                "truck.plate_thickness": 6.0,
                "deck.thickness": 12.0,
                "riser*.thickness": (6.0,),
            },
            44.0,
        ),
    ),
)

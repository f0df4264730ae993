"""How high the middle of the deck's underside stands above the ground with the rider on it. Somebody who measures it
standing on the board has all of this in one reading, the sag included, and that reading wins.
"""

from fitdb.formulas.clearances import mid_height
from fitdb.model.rule import SurveyLine


def quantity(
    radius: float, deck_height: float, camber: float, mount_style: str, platform_drop: float, sag: float
) -> float:
    # Only a dropped platform lies below the ends that carry the trucks.
    drop = platform_drop if mount_style == "dropped" else 0.0
    return radius + mid_height(deck_height, camber, drop) - sag


LINE = SurveyLine(
    target="deck.mid_height",
    needs=(
        "wheel.effective_radius",
        "truck.deck_height",
        "deck.camber",
        "deck.mount_style",
        "deck.platform_drop",
        "deck.static_sag",
    ),
    quantity=quantity,
    measures="underside at mid above the ground, rider standing",
    formula="h = R + H + camber − drop − δ",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "wheel.effective_radius": 45.0,
                "truck.deck_height": 74.0,
                "deck.camber": 10.0,
                "deck.mount_style": "top",
                "deck.platform_drop": 0.0,
                "deck.static_sag": 15.0,
            },
            114.0,
        ),
        (
            {
                "wheel.effective_radius": 45.0,
                "truck.deck_height": 74.0,
                "deck.camber": 0.0,
                "deck.mount_style": "dropped",
                "deck.platform_drop": 30.0,
                "deck.static_sag": 10.0,
            },
            79.0,
        ),
    ),
)

"""How high the middle of the deck's underside stands above the ground with the rider on it. Somebody who measures it
standing on the board has all of this in one reading, the sag included, and that reading wins.
"""

from fitdb.formulas.clearances import mid_height
from fitdb.model.rule import SurveyLine


def quantity(radius: float, deck_height: float, camber: float, platform_drop: float, sag: float) -> float:
    return radius + mid_height(deck_height, camber, platform_drop) - sag


LINE = SurveyLine(
    target="deck.mid_height",
    needs=("wheel.effective_radius", "truck.deck_height", "deck.camber", "deck.platform_drop", "deck.static_sag"),
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
                "deck.platform_drop": 0.0,
                "deck.static_sag": 15.0,
            },
            114.0,
        ),
    ),
)

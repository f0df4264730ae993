"""How much the two hole grids differ across the board."""

from fitdb.model.rule import SurveyLine


def quantity(plate: float, deck: float) -> float:
    return plate - deck


LINE = SurveyLine(
    target="deck_side.width_mismatch",
    needs=("baseplate.grid_width", "deck_side.grid_width"),
    quantity=quantity,
    measures="hole distance of the plate less that of the deck, across the board",
    formula="Δ_y = g_plate − g_deck",
    unit="mm",
    source="common practice, no source",
    examples=(({"baseplate.grid_width": 41.3, "deck_side.grid_width": 41.3}, 0.0),),
)

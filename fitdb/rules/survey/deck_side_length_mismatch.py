"""How much the two hole grids differ along the board. A pattern of six holes offers two lengths, and the nearer one
counts.
"""

from fitdb.formulas.ride_height import nearest_grid_mismatch
from fitdb.model.rule import Shape, SurveyLine

LINE = SurveyLine(
    target="deck_side.length_mismatch",
    needs=("baseplate.grid_length", "baseplate.hole_count", "deck_side.grid_length", "deck_side.hole_count"),
    quantity=nearest_grid_mismatch,
    measures="hole distance of the plate less that of the deck, along the board",
    formula="Δ_x = g_plate − g_deck, the pair nearest to 0",
    unit="mm",
    source="common practice, no source",
    shape=Shape.SAMPLED,
    examples=(
        (
            {
                "baseplate.grid_length": 63.5,
                "baseplate.hole_count": 6,
                "deck_side.grid_length": 54.0,
                "deck_side.hole_count": 4,
            },
            -0.025,
        ),
        (
            {
                "baseplate.grid_length": 63.5,
                "baseplate.hole_count": 4,
                "deck_side.grid_length": 54.0,
                "deck_side.hole_count": 4,
            },
            9.5,
        ),
    ),
)

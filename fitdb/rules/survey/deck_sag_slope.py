"""A deck that sinks in the middle stands steeper at its ends, and takes both trucks with it: each steering axis gains
that angle.
"""

from fitdb.formulas.deck_flex import end_slope_deg
from fitdb.model.rule import SurveyLine

LINE = SurveyLine(
    target="deck.sag_slope",
    needs=("deck.static_sag", "deck.wheelbase"),
    quantity=end_slope_deg,
    measures="angle that the sagging deck adds to both steering axes, rider standing",
    formula="s = 3δ/L",
    unit="deg",
    source="Gere, Mechanics of Materials, beam deflection tables",
    examples=(({"deck.static_sag": 15.0, "deck.wheelbase": 760.0}, 3.3925),),
)

"""How far the middle of the deck sinks under the rider alone: the board's own weight already stands in its camber and
in every height that was read on it. Both feet are taken at the quarter points, as riders stand.
"""

from fitdb.formulas.deck_flex import mid_sag
from fitdb.model.rule import Constant, SurveyLine

LINE = SurveyLine(
    target="deck.static_sag",
    needs=("rider.mass", "deck.stiffness"),
    quantity=mid_sag,
    measures="how far the middle of the deck sinks under the standing rider",
    formula="δ = m·g·k / K",
    unit="mm",
    source="Hooke's law; k from beam theory: 11/16 for two loads at the quarter points",
    constants=(Constant("load_share", 0.69, "1", "Gere, Mechanics of Materials, beam deflection tables"),),
    examples=(({"rider.mass": 90.0, "deck.stiffness": 40.0}, 15.225),),
)

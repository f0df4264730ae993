"""How far the rim follows a bending deck, by the way the box is fixed. A soft shell gives more than this: lift the
middle with thin strips and read it.
"""

from fitdb.formulas.box_fixing import RIM_GIVE
from fitdb.model.rule import SurveyLine


def quantity(fixing: str) -> float:
    return RIM_GIVE[fixing]


LINE = SurveyLine(
    target="enclosure.rim_give",
    needs=("enclosure.fixing",),
    quantity=quantity,
    measures="how far rim and fixings follow a bending deck",
    formula="rigid 1.5, soft pad 3, floating 8",
    unit="mm",
    source="common practice, no source",
    examples=(({"enclosure.fixing": "rigid"}, 1.5), ({"enclosure.fixing": "floating"}, 8.0)),
)

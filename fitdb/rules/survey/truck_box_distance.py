"""How far from an axle the box begins, along the board: half of the wheelbase, less where the box sits and half of its
length. A box behind the middle is nearer to the rear axle, and by as much farther from the front one.
"""

from fitdb.model.rule import SurveyLine


def quantity(end: float, wheelbase: float, position: float, length: float) -> float:
    return wheelbase / 2.0 - end * position - length / 2.0


LINE = SurveyLine(
    target="truck.box_distance",
    needs=("over.end", "deck.wheelbase", "enclosure.position_from_middle", "enclosure.length"),
    quantity=quantity,
    measures="axle to the near edge of the box, along the board; end is 1 at the rear and −1 in front",
    formula="x_box = wheelbase/2 − end·position − length/2",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "over.end": 1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 20.0,
                "enclosure.length": 380.0,
            },
            140.0,
        ),
        (
            {
                "over.end": -1.0,
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 20.0,
                "enclosure.length": 380.0,
            },
            180.0,
        ),
    ),
)

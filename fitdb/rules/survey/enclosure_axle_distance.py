"""How far from the rear axle the box begins, along the board: half of the wheelbase, less where the box sits and
half of its length.
"""

from fitdb.model.rule import SurveyLine


def quantity(wheelbase: float, position: float, length: float) -> float:
    return wheelbase / 2.0 - position - length / 2.0


LINE = SurveyLine(
    target="enclosure.axle_distance",
    needs=("deck.wheelbase", "enclosure.position_from_middle", "enclosure.length"),
    quantity=quantity,
    measures="rear axle to the near edge of the box, along the board",
    formula="x_box = wheelbase/2 − position − length/2",
    unit="mm",
    source="plane geometry",
    examples=(
        (
            {
                "deck.wheelbase": 700.0,
                "enclosure.position_from_middle": 20.0,
                "enclosure.length": 380.0,
            },
            140.0,
        ),
    ),
)

"""How far the truck's plate reaches from the axle towards the middle of the board: half the plate, as long as nobody
measured it. On many trucks the axle does not stand over the middle of the plate.
"""

from fitdb.model.rule import SurveyLine


def quantity(plate_length: float) -> float:
    return plate_length / 2.0


LINE = SurveyLine(
    target="truck.inner_reach",
    needs=("truck.plate_length",),
    quantity=quantity,
    measures="axle to the plate's edge toward the middle of the board",
    formula="plate length / 2",
    unit="mm",
    source="common practice, no source",
    examples=(({"truck.plate_length": 100.0}, 50.0),),
)

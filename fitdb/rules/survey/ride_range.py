"""How far the board goes: what can be taken out of the packs, divided by what a kilometre costs."""

from fitdb.model.rule import SurveyLine


def quantity(energy: float, consumption: float) -> float:
    return energy / consumption


LINE = SurveyLine(
    target="ride.range",
    needs=("pack.usable_energy", "ride.consumption"),
    quantity=quantity,
    measures="way on one charge at the mean speed of the route",
    formula="s = E/w",
    unit="km",
    source="arithmetic",
    examples=(({"pack.usable_energy": 440.64, "ride.consumption": 14.0}, 31.474),),
)
